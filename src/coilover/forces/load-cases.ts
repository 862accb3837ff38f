import { type Diagnostic, fault, show, unknownOptions } from '../../diagnostic.ts';
import { refuse } from '../../errors/sizing.ts';
import { GRAVITY } from '../../units.ts';

/** Factors of the standard load cases; all common practice, without a source: set your own. */
export interface LoadFactors {
  /** Vertical wheel force of the bump case, in static wheel loads. Default 3. */
  readonly bump: number;
  /** Lateral force of the outer wheel in cornering, as a multiple of its vertical force. Default 1. */
  readonly cornering: number;
  /** Vertical force of the outer wheel in cornering, in static wheel loads. Default 1.6. */
  readonly transfer: number;
  /** Force of a kerb strike, in static wheel loads, at the contact patch. Default 2. */
  readonly kerb: number;
  /** Direction of a kerb strike: degrees from vertical, towards the car. Default 45. */
  readonly kerbAngle: number;
}

/** The factors taken where none are given: common practice, without a source. */
export const LOAD_FACTORS: LoadFactors = { bump: 3, cornering: 1, transfer: 1.6, kerb: 2, kerbAngle: 45 };

/**
 * Travel of a load case: a travel (mm, bump +), the first limit in bump or droop, or `equilibrium`: where the coilover balances the
 * tyre force, between the limits.
 */
export type CaseTravel = number | 'bumpLimit' | 'droopLimit' | 'equilibrium';

/** A load case. */
export interface LoadCase {
  readonly name: string;
  readonly travel: CaseTravel;
  /** Force of the ground on the tyre at the contact patch, N: `[y, z]`, y outboard; null for a wheel off the ground. */
  readonly tyre: readonly [y: number, z: number] | null;
}

/** What is wrong with factors of the load cases; one that is undefined has its default. */
export function factorFaults(factors: Partial<LoadFactors>, under = ''): Diagnostic[] {
  const known = Object.keys(LOAD_FACTORS);
  return [
    ...unknownOptions(factors, known, under),
    ...known.flatMap((name) => {
      const value = factors?.[name as keyof LoadFactors];
      const path = under === '' ? name : `${under}.${name}`;
      return value === undefined ? [] : outOfRange(path, value, { min: 0, unit: null });
    }),
  ];
}

/** A fault where a value is no number within its bound. */
function outOfRange(path: string, value: unknown, bound: Diagnostic['values']): Diagnostic[] {
  const finite = typeof value === 'number' && Number.isFinite(value);
  if (finite && ('above' in bound ? value > 0 : value >= 0)) return [];
  return [fault('outOfRange', path, { ...bound, got: show(value) })];
}

function withDefaults(factors: Partial<LoadFactors>): LoadFactors {
  const given = Object.entries(factors).filter(([, value]) => value !== undefined);
  return { ...LOAD_FACTORS, ...Object.fromEntries(given) };
}

/**
 * The standard load cases of a corner: static, bump, full droop, cornering and kerb strike. Masses in kg; factors left out, or
 * undefined, are those of `LOAD_FACTORS`.
 *
 * @throws InputError for a sprung mass not above 0, an unsprung mass or a factor below 0, and an unknown factor.
 */
export function standardLoadCases(
  sprungMass: number,
  unsprungMass: number,
  factors: Partial<LoadFactors> = {},
): LoadCase[] {
  refuse('standard load cases', [
    ...outOfRange('sprungMass', sprungMass, { above: 0, unit: 'kg' }),
    ...outOfRange('unsprungMass', unsprungMass, { min: 0, unit: 'kg' }),
    ...factorFaults(factors),
  ]);
  const { bump, cornering, transfer, kerb, kerbAngle } = withDefaults(factors);
  const load = (sprungMass + unsprungMass) * GRAVITY;
  const angle = (kerbAngle * Math.PI) / 180;
  return [
    { name: 'static', travel: 0, tyre: [0, load] },
    { name: 'bump load', travel: 'equilibrium', tyre: [0, bump * load] },
    { name: 'full droop', travel: 'droopLimit', tyre: null },
    { name: 'cornering', travel: 'equilibrium', tyre: [-cornering * transfer * load, transfer * load] },
    {
      name: 'kerb strike',
      travel: 'equilibrium',
      tyre: [-kerb * load * Math.sin(angle), kerb * load * Math.cos(angle)],
    },
  ];
}
