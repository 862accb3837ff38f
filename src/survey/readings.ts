// What a reading would be if its points were where they are thought, and its derivatives by their y and z. With
// d = B - A, and angles as seen from the front:
//
//   distance   sqrt(dx^2 + dy^2 + dz^2)                    by B: (dy, dz) / distance, by A the same with a minus
//   height     z_A - z_B                                   lateral alike in y
//   slope      atan2(dz, dy), of a line and so up to 180   by B: (-dz, dy) / (dy^2 + dz^2)
//   lean       slope - 90: from vertical, top inboard +
//   in line    n.(P - A), n = (-dz, dy) / sqrt(dy^2 + dz^2) by P: n, by A: -(1 - s) n, by B: -s n, s the share of P's foot

import type { SurveyInput } from '../document/inputs.ts';
import type { Point } from '../linkage/drawing.ts';
import { DEGREES } from '../units.ts';

/** The lists of readings that a document has. */
export type ReadingKind = 'distances' | 'heights' | 'laterals' | 'inclinations' | 'slopes' | 'collinear';

/** A point in space: its x is known. */
export interface Spot {
  readonly x: number;
  readonly at: Point;
}

/** A reading as computed. */
export interface Computed {
  readonly value: number;
  /** Derivatives by y and z of each of its points. */
  readonly by: readonly Point[];
}

/** A reading of a survey; mm or degrees. */
export interface Reading {
  readonly kind: ReadingKind;
  /** Place in the document, as `distances[3]`. */
  readonly path: string;
  readonly points: readonly string[];
  readonly unit: 'mm' | 'deg';
  readonly measured: number;
  readonly plusMinus: number;
  readonly compute: (spots: readonly Spot[]) => Computed;
}

/** Half-widths of the 95 % interval where a document has none: a tape or ruler held by hand, mm; an angle finder, degrees. */
export const USUAL_PLUS_MINUS = { tape: 1.5, ruler: 1.5, angleFinder: 0.3 } as const;

/** The readings of a document, list by list. */
export function readingsOf(survey: SurveyInput): Reading[] {
  const { tape, ruler, angleFinder } = { ...USUAL_PLUS_MINUS, ...survey.plusMinus };
  const {
    distances = [],
    heights = [],
    laterals = [],
    inclinations = [],
    slopes = [],
    collinear = [],
  } = survey;
  const reading = (kind: ReadingKind, k: number, rest: Omit<Reading, 'kind' | 'path'>): Reading => ({
    kind,
    path: `${kind}[${k}]`,
    ...rest,
  });
  return [
    ...distances.map(({ between, value, plusMinus = tape ?? USUAL_PLUS_MINUS.tape }, k) =>
      reading('distances', k, {
        points: between,
        unit: 'mm',
        measured: value,
        plusMinus,
        compute: distance,
      }),
    ),
    ...heights.map(({ of, above, value, plusMinus = ruler ?? USUAL_PLUS_MINUS.ruler }, k) =>
      reading('heights', k, {
        points: above === undefined ? [of] : [of, above],
        unit: 'mm',
        measured: value,
        plusMinus,
        compute: (spots) => difference(spots, 1),
      }),
    ),
    ...laterals.map(({ of, from, value, plusMinus = ruler ?? USUAL_PLUS_MINUS.ruler }, k) =>
      reading('laterals', k, {
        points: from === undefined ? [of] : [of, from],
        unit: 'mm',
        measured: value,
        plusMinus,
        compute: (spots) => difference(spots, 0),
      }),
    ),
    ...[...inclinations.entries()].map(
      ([k, { line, value, plusMinus = angleFinder ?? USUAL_PLUS_MINUS.angleFinder }]) =>
        reading('inclinations', k, {
          points: line,
          unit: 'deg',
          measured: value,
          plusMinus,
          compute: (spots) => angle(spots, -90, value),
        }),
    ),
    ...[...slopes.entries()].map(
      ([k, { line, value, plusMinus = angleFinder ?? USUAL_PLUS_MINUS.angleFinder }]) =>
        reading('slopes', k, {
          points: line,
          unit: 'deg',
          measured: value,
          plusMinus,
          compute: (spots) => angle(spots, 0, value),
        }),
    ),
    ...collinear.map(({ point, line, plusMinus = ruler ?? USUAL_PLUS_MINUS.ruler }, k) =>
      reading('collinear', k, {
        points: [point, ...line],
        unit: 'mm',
        measured: 0,
        plusMinus,
        compute: beside,
      }),
    ),
  ];
}

function distance([a, b]: readonly Spot[]): Computed {
  const [y, z] = minus(b.at, a.at);
  const value = Math.hypot(b.x - a.x, y, z);
  // In one place: whichever way they are moved apart.
  const toB: Point = value === 0 ? [1, 0] : [y / value, z / value];
  return { value, by: [times(-1, toB), toB] };
}

function difference([of, from]: readonly Spot[], axis: 0 | 1): Computed {
  const unit: Point = axis === 0 ? [1, 0] : [0, 1];
  if (from === undefined) return { value: of.at[axis], by: [unit] };
  return { value: of.at[axis] - from.at[axis], by: [unit, times(-1, unit)] };
}

/** The angle of a line from horizontal, counted from `zero`: of all that are 180 degrees apart the one nearest to `got`. */
function angle([a, b]: readonly Spot[], zero: number, got: number): Computed {
  const [y, z] = minus(b.at, a.at);
  const square = y * y + z * z;
  // In one place: no line, and so nothing like it.
  if (square === 0) {
    return {
      value: got + 90,
      by: [
        [0, 0],
        [0, 0],
      ],
    };
  }
  const plain = Math.atan2(z, y) * DEGREES + zero;
  const value = plain - 180 * Math.round((plain - got) / 180);
  const byB: Point = [(-z / square) * DEGREES, (y / square) * DEGREES];
  return { value, by: [times(-1, byB), byB] };
}

function beside([p, a, b]: readonly Spot[]): Computed {
  const [y, z] = minus(b.at, a.at);
  const length = Math.hypot(y, z);
  const [py, pz] = minus(p.at, a.at);
  // No line to be beside of: as far as the point is away.
  const n: Point = length === 0 ? [0, 1] : [-z / length, y / length];
  const s = length === 0 ? 0 : (py * y + pz * z) / (length * length);
  return { value: n[0] * py + n[1] * pz, by: [n, times(s - 1, n), times(-s, n)] };
}

function minus(b: Point, a: Point): Point {
  return [b[0] - a[0], b[1] - a[1]];
}

function times(factor: number, [y, z]: Point): Point {
  return [factor * y, factor * z];
}
