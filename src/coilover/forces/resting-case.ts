// The static case of a corner whose rest is known: the wheel load is the one that spring, gas and stop balance there, so that the axial force is
// that of the sizing. It differs from the weight by W_u (1 - dz_c/dz), as the unsprung weight does not move quite as the tyre's contact patch.

import type { LoadCase } from './load-cases.ts';
import { balancedLoad, type SetUp } from './static-equilibrium.ts';

/** The static case at static ride height; null where the car is taken to stand as drawn. */
export function restingCase(setup: SetUp): LoadCase | null {
  const { restingAt: travel } = setup;
  return travel === null ? null : { name: 'static', travel, tyre: [0, balancedLoad(setup, travel)] };
}
