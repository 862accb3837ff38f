// The corner drawn many times over, its coordinates off by normal errors, swept and stopped anew. What comes
// out makes no use of derivatives: half-widths are half the distance of the 2.5th from the 97.5th percentile, and
// probabilities are shares of the draws.

import type { LimitOptions } from '../document/inputs.ts';
import { refuse } from '../errors/corner.ts';
import { InputError } from '../errors/input-error.ts';
import { normal, quantile, uniform } from '../numerics/random.ts';
import type { AllowedColumn } from './column-types.ts';
import type { ColumnInfo } from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import { HALF_WIDTH, type Spread } from './covariance.ts';
import { drawFaults } from './draws.ts';
import { hardpointsOf, moveHardpoints } from './hardpoint-coordinates.ts';
import { type Limit, type LimitCause, limitsOf } from './limits/limits.ts';
import { checkOptions } from './limits/options.ts';
import type { ColumnValues } from './sensitivity.ts';
import { type Sweep, type SweepOptions, sweepModel } from './sweep.ts';
import { type PlusMinus, spreadOf } from './uncertainty.ts';
import { uncertaintyBands } from './uncertainty-bands.ts';

/** How many draws, and of what; all optional. */
export interface MonteCarloOptions<Name extends string = string> {
  /** 100 to 10,000; default 1000. */
  readonly draws?: number;
  /** A whole number; default 1. Equal seeds give equal results. */
  readonly seed?: number;
  /** The sweep of each draw. */
  readonly sweep?: SweepOptions<Name>;
  /** What ends the travel, as `limits` takes it: with it, the causes are counted. */
  readonly limits?: LimitOptions;
}

/** What comes of many draws of a corner. */
export interface MonteCarlo {
  /** The columns of the sweep but for `travel`. */
  readonly info: readonly ColumnInfo[];
  /** Travel of the rows, mm: those of the corner as drawn. */
  readonly travel: Float64Array;
  /** By column, half-width of the 95 % interval at each row; null where fewer than 40 draws have a value. */
  readonly columns: Readonly<Record<string, ColumnValues>>;
  /** The same to first order, as `uncertaintyBands` has it. */
  readonly firstOrder: Readonly<Record<string, ColumnValues>>;
  /** How many corners were drawn. */
  readonly draws: number;
  /** Draws in which the corner could not be moved; they count in nothing else. */
  readonly failedDraws: number;
  /** For each row the draws whose linkage reached it. */
  readonly drawsPerRow: readonly number[];
  /** What ends the travel on either side, where `limits` was given. */
  readonly limits?: { readonly bump: LimitProbabilities; readonly droop: LimitProbabilities };
}

/** What ends the travel on one side. */
export interface LimitProbabilities {
  /** The causes that came first in some draw, the most probable first. */
  readonly causes: readonly CauseProbability[];
  /** Travel at the end: 2.5th, 50th and 97.5th percentile, mm, droop negative; null where nothing ends it. */
  readonly travel: { readonly p2_5: number; readonly median: number; readonly p97_5: number } | null;
}

/** A cause, and the share of the draws that were moved in which it ends the travel; 'none' where nothing does. */
export interface CauseProbability {
  readonly cause: LimitCause | 'none';
  /** As in `Limit`. */
  readonly part: string;
  /** 0 to 1. */
  readonly probability: number;
}

/** Fewer values than this have no 2.5th percentile but their least. */
const FEWEST = 40;
const OPTIONS = 'options of monteCarlo';
const MOST_DRAWS = 10_000;
const TAIL = 0.025;

/**
 * Draws a corner many times with coordinates as uncertain as `plusMinus` says (default: as the corner does), and gives
 * what `uncertaintyBands` computes to first order as it comes out, and with `limits` how probable each cause is to end the travel.
 *
 * @throws InputError as `uncertaintyBands` and `limits`, and for draws or a seed that are none.
 */
export function monteCarlo<C extends Corner, const Name extends string>(
  corner: C,
  plusMinus?: PlusMinus,
  options?: MonteCarloOptions<AllowedColumn<C, Name>>,
): MonteCarlo;
export function monteCarlo(
  corner: Corner,
  plusMinus?: PlusMinus,
  options: MonteCarloOptions = {},
): MonteCarlo {
  refuse(OPTIONS, drawFaults(options, ['draws', 'seed', 'sweep', 'limits'], MOST_DRAWS));
  const { draws = 1000, seed = 1, sweep = {} } = options;
  const { info, travel, columns: firstOrder } = uncertaintyBands(corner, plusMinus, sweep);
  const model = modelOf(corner);
  const names = hardpointsOf(model).map(({ name }) => name);
  const { directions } = spreadOf(corner, plusMinus, names);
  const limitOptions = options.limits === undefined ? null : checkOptions(options.limits, model);
  const within: SweepOptions = {
    ...sweep,
    droop: Math.max(0, -(travel[0] ?? 0)),
    bump: Math.max(0, travel[travel.length - 1] ?? 0),
  };

  const samples = info.map(() => Array.from(travel, () => new Float64Array(draws)));
  const counts = info.map(() => new Int32Array(travel.length));
  const drawsPerRow = new Array<number>(travel.length).fill(0);
  const ends: Record<'bump' | 'droop', (Limit | null)[]> = { bump: [], droop: [] };
  let failedDraws = 0;
  const next = normal(uniform(seed));
  for (let n = 0; n < draws; n++) {
    const drawn = moveHardpoints(model, errorsAlong(directions, next));
    const moved = movedOrNot(() => ({
      swept: sweepModel(drawn, within),
      found: limitOptions === null ? null : limitsOf(drawn, limitOptions),
    }));
    if (moved === null) {
      failedDraws++;
      continue;
    }
    const { swept, found } = moved;
    eachCommonRow(travel, swept, (i, j) => {
      drawsPerRow[i]++;
      info.forEach(({ name }, c) => {
        const value = swept.columns[name][j];
        if (value !== null) samples[c][i][counts[c][i]++] = value;
      });
    });
    if (found === null) continue;
    ends.bump.push(found.bump);
    ends.droop.push(found.droop);
  }
  const halfWidth = (values: Float64Array) => {
    if (values.length < FEWEST) return null;
    values.sort();
    return 0.5 * (quantile(values, 1 - TAIL) - quantile(values, TAIL));
  };
  const column = (c: number): ColumnValues =>
    samples[c].map((values, i) => halfWidth(values.subarray(0, counts[c][i])));
  return {
    info,
    travel,
    columns: Object.fromEntries(info.map(({ name }, c) => [name, column(c)])),
    firstOrder,
    draws,
    failedDraws,
    drawsPerRow,
    ...(limitOptions === null
      ? {}
      : { limits: { bump: probabilitiesOf(ends.bump), droop: probabilitiesOf(ends.droop) } }),
  };
}

/** Errors of the coordinates, mm: each direction times a normal number. */
function errorsAlong(directions: Spread['directions'], next: () => number): Record<string, number> {
  const errors: Record<string, number> = {};
  for (const direction of directions) {
    const times = next();
    for (const [name, width] of Object.entries(direction)) {
      errors[name] = (errors[name] ?? 0) + (times * width) / HALF_WIDTH;
    }
  }
  return errors;
}

/** What a draw gives, or null where the drawing is none that can be moved. */
function movedOrNot<T>(move: () => T): T | null {
  try {
    return move();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** The rows that a draw's sweep has in common with the corner's: multiples of the step, and ends that were reached. */
function eachCommonRow(travel: Float64Array, { columns }: Sweep, each: (i: number, j: number) => void): void {
  for (let i = 0, j = 0; i < travel.length && j < columns.travel.length; ) {
    const ahead = travel[i] - columns.travel[j];
    if (ahead === 0) each(i, j);
    if (ahead <= 0) i++;
    if (ahead >= 0) j++;
  }
}

function probabilitiesOf(ends: readonly (Limit | null)[]): LimitProbabilities {
  const found = new Map<string, { cause: LimitCause | 'none'; part: string; count: number }>();
  for (const end of ends) {
    const { cause, part } = end ?? { cause: 'none' as const, part: '' };
    const key = `${cause} ${part}`;
    const odds = found.get(key) ?? { cause, part, count: 0 };
    odds.count++;
    found.set(key, odds);
  }
  const travel = Float64Array.from(ends.flatMap((end) => (end === null ? [] : [end.travel]))).sort();
  return {
    causes: [...found.values()]
      .sort((a, b) => b.count - a.count)
      .map(({ cause, part, count }) => ({ cause, part, probability: count / ends.length })),
    travel:
      travel.length < FEWEST
        ? null
        : {
            p2_5: quantile(travel, TAIL),
            median: quantile(travel, 0.5),
            p97_5: quantile(travel, 1 - TAIL),
          },
  };
}
