// Objectives of a synthesis, each a fixed number of deviations with exact derivatives by the coordinates that may move.
//
//   path, at given drivers t_k    p(t_k) - q_k, both coordinates
//   path, without                 n . (p - q) and 0, at the place nearest to q, with n across the curve: |p - q|^2 does not depend on
//                                 the place to first order. Where that is an end of the motion, both coordinates of p - q.
//   function                      m(t_k) - v_k; with a free offset less their mean, which is the best constant to subtract
//   extreme                       the value at the least or greatest place, which does not move it to first order
//
// (function, path: A. G. Erdman, G. N. Sandor, "Mechanism Design", ch. 8; the free offset: variable projection, G. H. Golub, V. Pereyra,
// SIAM J. Numer. Anal. 10, 1973; both from memory.)

import type { Point } from '../linkage/drawing.ts';
import type { Path } from '../linkage/path.ts';
import { reader } from '../linkage/reader.ts';
import { combined, constant, type Dual, minus, scaled } from '../numerics/dual.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { extremeOf, placesOf, readMany, spread } from './places.ts';
import type { BoundQuantity, Quantity } from './quantity.ts';

/** How an objective is counted. */
export interface Counted {
  /** A deviation up to this counts as met, and deviations are counted in it; default a thousandth of the size or of a radian. */
  readonly tolerance?: number;
  /** How much its squared deviations count against others; default 1. */
  readonly weight?: number;
}

/** What a linkage is designed for. */
export type SynthesisObjective<P extends string = string, B extends string = string> = (
  | {
      /** A point that passes through given places: path generation. */
      readonly path: P;
      /** The places, `[x, y]`. */
      readonly through: readonly Point[];
      /** The driver at each place; without, it passes through each somewhere in the motion, in any order. */
      readonly at?: readonly number[];
      /** The moving body on which the path is drawn; default the ground. */
      readonly relativeTo?: B;
    }
  | {
      /** A quantity as a function of the driver: function generation. */
      readonly quantity: Quantity<P, B>;
      /** The driver at the precision points. */
      readonly at: readonly number[];
      /** The quantity there. */
      readonly values: readonly number[];
      /** `free` if a constant may be added to all values; default none. */
      readonly offset?: 'free';
    }
  | {
      readonly quantity: Quantity<P, B>;
      /** Its minimum or maximum over the motion, or the difference of both. */
      readonly extreme: 'minimum' | 'maximum' | 'range';
      /** What that should be. */
      readonly target: number;
    }
) &
  Counted;

/** An objective with its quantities bound to a path; `index` is the first of them among all that are read. */
export type BoundObjective =
  | {
      readonly kind: 'path';
      readonly through: readonly Point[];
      readonly at: readonly number[] | null;
      readonly quantities: readonly [BoundQuantity, BoundQuantity];
    }
  | {
      readonly kind: 'function';
      readonly at: readonly number[];
      readonly values: readonly number[];
      readonly isFree: boolean;
      readonly quantities: readonly [BoundQuantity];
    }
  | {
      readonly kind: 'extreme';
      readonly extreme: 'minimum' | 'maximum' | 'range';
      readonly target: number;
      readonly quantities: readonly [BoundQuantity];
    };

/** A precision point as a linkage meets it. */
export interface PrecisionPoint {
  /** The driver there; for a range, those of minimum and maximum. */
  readonly at: number | readonly [number, number];
  /** The quantity there, in its unit; a place `[x, y]` in the unit of the drawing. */
  readonly value: number | Point;
  /** Value minus target; the distance, for a place. */
  readonly deviation: number;
}

/** The values of the driver to be read for an objective, and what is made of the readings. */
export interface Task {
  readonly at: readonly number[];
  /** From the value of each of its quantities at each of these. */
  readonly judge: (read: (row: number, quantity: number) => Dual) => {
    deviations: Dual[];
    met: PrecisionPoint[];
  };
}

/** What is to be read of a path for an objective. */
export function taskOf(path: Path, objective: BoundObjective): Task {
  if (objective.kind === 'function') return functionTask(objective);
  return objective.kind === 'path' ? pathTask(path, objective) : extremeTask(path, objective);
}

type Of<Kind> = Extract<BoundObjective, { kind: Kind }>;

function functionTask({ at, values, isFree }: Of<'function'>): Task {
  return {
    at,
    judge(read) {
      const rows = at.map((_, k) => read(k, 0));
      const off = rows.map((one, k) => scaled(one, 1, -values[k]));
      const sum = off.reduce((a, b) => combined(1, a, 1, b));
      const deviations = isFree ? off.map((one) => combined(1, one, -1 / off.length, sum)) : off;
      const met = deviations.map(({ value }, k) => ({ at: at[k], value: rows[k].value, deviation: value }));
      return { deviations, met };
    },
  };
}

function pathTask(path: Path, { at, through, quantities }: Of<'path'>): Task {
  const places =
    at === null ? nearestPlaces(path, quantities, through) : at.map((t) => ({ at: t, along: null }));
  return {
    at: places.map((place) => place.at),
    judge(read) {
      const met: PrecisionPoint[] = [];
      const deviations = through.flatMap((target, k) => {
        const [x, y] = [read(k, 0), read(k, 1)];
        const off = [scaled(x, 1, -target[0]), scaled(y, 1, -target[1])];
        met.push({
          at: places[k].at,
          value: [x.value, y.value],
          deviation: Math.hypot(off[0].value, off[1].value),
        });
        const { along } = places[k];
        if (along === null) return off;
        const across = combined(-along[1], off[0], along[0], off[1]);
        return [across, constant(0, across)];
      });
      return { deviations, met };
    },
  };
}

/** Where a curve is nearest to a place, with its direction there; null at an end and at a cusp. */
interface Nearest {
  readonly at: number;
  readonly along: Point | null;
}

/** Places at which a curve is looked at first: of two minima of the distance between two of them one is missed. */
const SAMPLES = 181;

function nearestPlaces(
  path: Path,
  quantities: readonly BoundQuantity[],
  through: readonly Point[],
): Nearest[] {
  const r = reader(
    path,
    quantities.map(({ measure }) => measure),
  );
  const grid = spread(path, SAMPLES);
  const [xs, ys] = [new Float64Array(SAMPLES), new Float64Array(SAMPLES)];
  readMany(r, grid, (row, reading) => {
    xs[row] = reading(0)[0];
    ys[row] = reading(1)[0];
  });
  const stateAt = (t: number) => {
    let [x, y, dx, dy] = [0, 0, 0, 0];
    readMany(r, Float64Array.of(t), (_, reading) => {
      [x, dx] = reading(0);
      [y, dy] = reading(1);
    });
    return { x, y, dx, dy };
  };
  return through.map(([qx, qy]) => {
    let k = 0;
    for (let i = 1; i < SAMPLES; i++) {
      if (Math.hypot(xs[i] - qx, ys[i] - qy) < Math.hypot(xs[k] - qx, ys[k] - qy)) k = i;
    }
    const slope = (t: number) => {
      const { x, y, dx, dy } = stateAt(t);
      return (x - qx) * dx + (y - qy) * dy;
    };
    const [from, to] = [grid[Math.max(0, k - 1)], grid[Math.min(SAMPLES - 1, k + 1)]];
    const isInside = slope(from) < 0 && slope(to) > 0;
    if (!isInside) return { at: grid[k], along: null };
    const at = zeroBetween(slope, from, to);
    const { dx, dy } = stateAt(at);
    const speed = Math.hypot(dx, dy);
    return { at, along: speed === 0 ? null : [dx / speed, dy / speed] };
  });
}

function extremeTask(path: Path, { extreme, target, quantities }: Of<'extreme'>): Task {
  const [quantity] = quantities;
  const places = placesOf(path, quantity, path.low.at, path.high.at);
  const [minimum, maximum] = [extremeOf(places, -1), extremeOf(places, 1)];
  return {
    at: extreme === 'range' ? [minimum, maximum] : [extreme === 'minimum' ? minimum : maximum],
    judge(read) {
      const value = extreme === 'range' ? minus(read(1, 0), read(0, 0)) : read(0, 0);
      const deviation = scaled(value, 1, -target);
      const at =
        extreme === 'range' ? ([minimum, maximum] as const) : extreme === 'minimum' ? minimum : maximum;
      return { deviations: [deviation], met: [{ at, value: value.value, deviation: deviation.value }] };
    },
  };
}
