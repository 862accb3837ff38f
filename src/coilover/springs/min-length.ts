// The minimum permissible length of a spring is not its solid length (EN 13906-1; from memory):
//
//   L_n = L_c + S_a,    S_a = n (0.0015 D^2/d + 0.1 d)      cold formed
//
// Where only rate, solid length and inner diameter D_i are known, the wire d follows for closed and ground ends, n = L_c/d - 2 and
// D = D_i + d, from the rate
//
//   R(d) = G d^4 / (8 (D_i + d)^3 (L_c/d - 2)),
//
// which rises with d from 0 to infinity on (0, L_c/2): there is one d.

import type { CoilSpringInput } from '../../document/inputs.ts';
import { zeroBetween } from '../../numerics/zero.ts';
import { coilSpring } from './coil-spring.ts';

/**
 * Where a minimum length comes from: `given` in the document; `wire`, computed from a spring given by its wire; `estimated` from rate,
 * solid length and inner diameter; `assumed`, the solid length plus `ASSUMED_CLEARANCE` of it, to be agreed with the maker.
 */
export type MinLengthSource = 'given' | 'wire' | 'estimated' | 'assumed';

/** Lengths of a spring, mm; null where they are not known. */
export interface SpringLengths {
  /** Solid length L_c, all coils touching, mm. */
  readonly solidLength: number | null;
  /** Minimum permissible length L_n (EN 13906-1), mm. */
  readonly minLength: number | null;
  readonly minLengthSource: MinLengthSource | null;
}

/**
 * Clearance taken where nothing but the solid length is known, as a share of it: S_a / L_c of a cold-formed spring of index 8 with 7
 * active coils, ends closed and ground, is 0.152.
 */
export const ASSUMED_CLEARANCE = 0.15;

/** Indices D/d and active coils of springs that EN 13906-1 covers (from memory); outside no wire is taken for found. */
const INDEX = { min: 4, max: 20 };
const MIN_ACTIVE_COILS = 2;

/** What a document may say of a spring's size, mm and N/mm. */
interface SpringSize {
  readonly rate?: number | undefined;
  readonly solidLength?: number | undefined;
  readonly minLength?: number | undefined;
  readonly innerDiameter?: number | undefined;
  readonly wire?: CoilSpringInput | undefined;
}

/** Solid and minimum length of a spring, and where the latter comes from. */
export function springLengths({ rate, innerDiameter, wire, ...given }: SpringSize): SpringLengths {
  const made = wire === undefined ? null : coilSpring(wire);
  const solidLength = given.solidLength ?? made?.solidLength ?? null;
  if (given.minLength !== undefined)
    return { solidLength, minLength: given.minLength, minLengthSource: 'given' };
  if (made !== null) return { solidLength, minLength: made.minLength, minLengthSource: 'wire' };
  if (solidLength === null) return { solidLength, minLength: null, minLengthSource: null };
  const found =
    rate === undefined || innerDiameter === undefined ? null : wireOf(rate, solidLength, innerDiameter);
  return found === null
    ? { solidLength, minLength: (1 + ASSUMED_CLEARANCE) * solidLength, minLengthSource: 'assumed' }
    : { solidLength, minLength: coilSpring(found).minLength, minLengthSource: 'estimated' };
}

/**
 * The wire of a cold-formed steel spring with closed and ground ends, from its rate (N/mm), solid length and inner diameter (mm); null
 * where no ordinary spring has these.
 */
export function wireOf(rate: number, solid: number, innerDiameter: number): CoilSpringInput | null {
  const spring = (diameter: number): CoilSpringInput => ({
    diameter,
    meanDiameter: innerDiameter + diameter,
    totalCoils: solid / diameter,
    ends: 'closedGround',
  });
  // Two thick coils take up the whole solid length at one end, hair-thin wire at the other.
  const [thin, thick] = [HAIR * solid, (0.5 - HAIR) * solid];
  const over = (diameter: number) => coilSpring(spring(diameter)).rate - rate;
  if (!(over(thin) < 0 && over(thick) > 0)) return null;
  const found = spring(zeroBetween(over, thin, thick));
  const { springIndex, activeCoils } = coilSpring(found);
  const ordinary = springIndex >= INDEX.min && springIndex <= INDEX.max && activeCoils >= MIN_ACTIVE_COILS;
  return ordinary ? found : null;
}

/** Share of the solid length that the search for a wire keeps from its ends. */
const HAIR = 1e-6;
