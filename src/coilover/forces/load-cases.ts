import { GRAVITY } from '../../units.ts';

/** Factors of the usual load cases; all common practice, without a source: set your own. */
export interface LoadFactors {
  /** Vertical wheel force of the full-bump case, in static wheel loads. Default 3. */
  readonly bump: number;
  /** Lateral force of the outer wheel in a corner, in vertical wheel forces there. Default 1. */
  readonly cornering: number;
  /** Vertical wheel force of the outer wheel in a corner, in static wheel loads. Default 1.6. */
  readonly transfer: number;
  /** Force of a kerb strike, in static wheel loads, at the contact patch. Default 2. */
  readonly kerb: number;
  /** Direction of a kerb strike: degrees from vertical, towards the car. Default 45. */
  readonly kerbAngle: number;
}

/** The factors taken where none are given: common practice, without a source. */
export const LOAD_FACTORS: LoadFactors = { bump: 3, cornering: 1, transfer: 1.6, kerb: 2, kerbAngle: 45 };

/**
 * Where the wheel stands in a case: at a travel (mm, bump +), at the first limit upward or downward, or where the coilover
 * balances the wheel's force, between the limits.
 */
export type CaseTravel = number | 'bumpLimit' | 'droopLimit' | 'equilibrium';

/** A load case. */
export interface LoadCase {
  readonly name: string;
  readonly travel: CaseTravel;
  /** Force of the ground on the tyre at the contact patch, N: `[y, z]`, y outboard; null where the wheel hangs. */
  readonly tyre: readonly [number, number] | null;
}

/** The usual cases of a corner: masses in kg. */
export function standardLoadCases(
  sprungMass: number,
  unsprungMass: number,
  factors: Partial<LoadFactors> = {},
): LoadCase[] {
  const { bump, cornering, transfer, kerb, kerbAngle } = { ...LOAD_FACTORS, ...factors };
  const load = (sprungMass + unsprungMass) * GRAVITY;
  const angle = (kerbAngle * Math.PI) / 180;
  return [
    { name: 'static', travel: 0, tyre: [0, load] },
    { name: 'full bump', travel: 'equilibrium', tyre: [0, bump * load] },
    { name: 'full droop', travel: 'droopLimit', tyre: null },
    { name: 'cornering', travel: 'equilibrium', tyre: [-cornering * transfer * load, transfer * load] },
    {
      name: 'kerb strike',
      travel: 'equilibrium',
      tyre: [-kerb * load * Math.sin(angle), kerb * load * Math.cos(angle)],
    },
  ];
}
