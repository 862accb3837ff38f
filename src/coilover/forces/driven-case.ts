// The hardest that a coilover can push: at the bump limit with the wheel driven there, whatever load that takes. The wheel load is the one that
// spring, gas and stop balance at that travel, so that the axial force and the joint loads belong to one equilibrium.

import type { LimitCause } from '../../corner/limits/limits.ts';
import type { LoadCase } from './load-cases.ts';
import { balancedLoad, type SetUp } from './static-equilibrium.ts';

/** What the case is called, by what ends the bump travel; null where nothing is driven home, or the linkage has no balance. */
const NAMES: Readonly<Record<LimitCause, string | null>> = {
  damperExtended: null,
  bumpStopSolid: 'bump stop solid',
  damperCompressed: 'damper bottomed out',
  springMinLength: 'spring at its minimum permissible length',
  ballJointArticulation: 'driven to the bump limit',
  bearingMisalignment: 'driven to the bump limit',
  tyreContact: 'driven to the bump limit',
  groundContact: 'driven to the bump limit',
  deadPoint: null,
  ratioZero: null,
  locked: null,
  bifurcation: null,
};

/** The case of a wheel driven to the bump limit; null without a damper, or where the linkage itself ends the bump travel. */
export function drivenCase(setup: SetUp): LoadCase | null {
  const { given, found } = setup;
  if (given.damper === undefined || found.bump === null) return null;
  const name = NAMES[found.bump.cause];
  if (name === null) return null;
  const { travel } = found.bump;
  return { name, travel, tyre: [0, balancedLoad(setup, travel)] };
}
