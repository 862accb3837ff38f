/** Comparison of whole rows of a sweep, every column with the tolerance that its definition leaves it. */
import type { Row } from 'jounce';
import { expect } from 'vitest';
import type { Point, TravelReference } from '../judges/circle-intersection.ts';
import { expectWithin, tolerance } from '../support/tolerance.ts';
import { conditioningOf, type Kind, magnitudeOf, type Places } from './kinds.ts';

/** Roundings of a place, a length or (in degrees, over some 200 mm) an angle. */
const PLACE = 16;
/** How much worse than a place a rate is known: by rounding, and by where its series is cut off. */
const RATE = 256;
/** mm; stands for the lengths of a corner where an error of place becomes one of a rate. */
const LENGTH = 100;

/** Places of the moving points of a row; those of a double wishbone can be named. */
export function placesOf(
  row: Row,
): Places & Readonly<Record<'lowerOuter' | 'upperOuter' | 'wheelCentre' | 'contactPatch', Point>> {
  const names = Object.keys(row).flatMap((name) => /^(?!instantCentre)(.*)Y$/.exec(name)?.[1] ?? []);
  return Object.fromEntries(
    names.map((name) => [name, [row[`${name}Y`] as number, row[`${name}Z`] as number] as const]),
  ) as ReturnType<typeof placesOf>;
}

/** What a comparison may say of its own. */
export interface Against {
  readonly travelReference?: TravelReference;
  /** Largest coordinate that was rounded on the way, mm; default that of the input. */
  readonly coordinates?: number;
  /** What each value of `actual` is multiplied by before, by its unit. */
  readonly units?: Readonly<Record<string, number>>;
  /** What is added to each value of `actual` before, by column. */
  readonly shift?: (name: string) => number;
  /** How many times as much is allowed of a rate; default 1. */
  readonly rates?: number;
  /** Columns left out. */
  readonly except?: readonly string[];
}

/**
 * Expects two rows of a corner to agree, up to rounding. With places right to e = k eps size, a point's place at a
 * given travel is right to e c, c the pose's conditioning; a first derivative loses c twice more (its denominator,
 * and the pose that it is taken at), a second derivative four times.
 */
export function expectSameRow<In>(
  actual: Row,
  expected: Row,
  info: readonly { readonly name: string; readonly unit: string }[],
  kind: Kind<In>,
  input: In,
  against: Against = {},
): void {
  const {
    travelReference,
    coordinates = magnitudeOf(input),
    units = {},
    shift,
    rates = 1,
    except = [],
  } = against;
  const places = placesOf(expected);
  const c = Math.max(
    conditioningOf(kind, input, places),
    conditioningOf(kind, input, places, travelReference),
  );
  const place = tolerance({ times: PLACE, scale: coordinates * c });
  for (const { name, unit } of info) {
    if (except.includes(name)) continue;
    const [here, there] = [actual[name], expected[name]];
    if (here === null || there === null) {
      expect([name, here]).toEqual([name, there]);
      continue;
    }
    const within = withinOf(name, place, c, expected, rates);
    expectWithin(here * (units[unit] ?? 1) + (shift?.(name) ?? 0), there, within);
  }
}

/** Rounding of a column whose places are right to `place`, at a pose of conditioning c. */
export function withinOf(name: string, place: number, c: number, row: Row, rates = 1): number {
  const first = (rates * RATE * place * c ** 2) / LENGTH;
  switch (name) {
    case 'installationRatio':
      return first;
    case 'installationRatioSlope':
      return (first * c ** 2) / LENGTH;
    case 'rollCentreHeight':
      return Math.abs(row.contactPatchY as number) * first;
    case 'instantCentreCurvature':
      return first / LENGTH;
    case 'instantCentreY':
    case 'instantCentreZ':
      // 1/w has an error of that of w over w².
      return place + first / LENGTH / (row.instantCentreCurvature ?? Number.NaN) ** 2;
    default:
      return place;
  }
}
