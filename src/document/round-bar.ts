import { NEWTON_METRE_PER_DEGREE } from '../units.ts';
import type { RoundBarInput } from './inputs.ts';

/** Shear modulus of spring steel, N/mm^2 (EN 13906-1 takes 79,500 for drawn wire and 78,500 hot-coiled; steel bar 79,300, from memory). */
const STEEL = 79_300;

/** G pi (d^4 - d_i^4) / (32 L) of a round bar, N·m/deg. */
export function roundBarStiffness({
  diameter,
  innerDiameter = 0,
  length,
  shearModulus = STEEL,
}: RoundBarInput): number {
  const polar = (Math.PI * ((diameter ** 2) ** 2 - (innerDiameter ** 2) ** 2)) / 32;
  return (shearModulus * polar) / length / NEWTON_METRE_PER_DEGREE;
}
