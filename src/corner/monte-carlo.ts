// The corner drawn many times over, its coordinates off by normal errors, swept and stopped anew. Probabilities are shares of the draws.

import type { LimitOptions } from '../document/inputs.ts';
import { refuse } from '../errors/corner.ts';
import { quantile } from '../numerics/random.ts';
import type { AllowedColumn } from './column-types.ts';
import type { ColumnInfo } from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import { type DrawnColumns, drawnColumns, FEWEST, TAIL } from './drawn-columns.ts';
import { drawFaults, MOST_DRAWS } from './draws.ts';
import { moveHardpoints } from './hardpoint-coordinates.ts';
import { type Limit, type LimitCause, limitsOf } from './limits/limits.ts';
import { checkOptions } from './limits/options.ts';
import { type ColumnValues, sensitivitiesOf } from './sensitivity.ts';
import { type SweepOptions, sweepModel } from './sweep.ts';
import { ownPlusMinus, type PlusMinus, spreadOf } from './uncertainty.ts';
import { bandColumns } from './uncertainty-bands.ts';

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
export interface MonteCarlo extends DrawnColumns {
  /** The columns of the sweep but for `travel`. */
  readonly info: readonly ColumnInfo[];
  /** Travel of the rows, mm: those of the corner as drawn. */
  readonly travel: Float64Array;
  /** The same to first order, as `uncertaintyBands` has it. */
  readonly firstOrder: Readonly<Record<string, ColumnValues>>;
  /** How many corners were drawn. */
  readonly draws: number;
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

const OPTIONS = 'options of monteCarlo';

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
  const model = modelOf(corner);
  const { info, travel, by } = sensitivitiesOf(model, sweep);
  const spread = spreadOf(ownPlusMinus(corner), plusMinus, Object.keys(by));
  const limitOptions = options.limits === undefined ? null : checkOptions(options.limits, model);
  const within: SweepOptions = {
    ...sweep,
    droop: Math.max(0, -(travel[0] ?? 0)),
    bump: Math.max(0, travel[travel.length - 1] ?? 0),
  };
  const ends: Record<'bump' | 'droop', (Limit | null)[]> = { bump: [], droop: [] };
  const drawn = drawnColumns(info, travel.length, spread, { draws, seed }, (errors) => {
    const moved = moveHardpoints(model, errors);
    const { columns } = sweepModel(moved, within);
    if (limitOptions !== null) {
      const { bump, droop } = limitsOf(moved, limitOptions);
      ends.bump.push(bump);
      ends.droop.push(droop);
    }
    return { columns, common: commonRows(travel, columns.travel) };
  });
  return {
    info,
    travel,
    ...drawn,
    firstOrder: bandColumns(info, travel.length, by, spread),
    draws,
    ...(limitOptions === null
      ? {}
      : { limits: { bump: probabilitiesOf(ends.bump), droop: probabilitiesOf(ends.droop) } }),
  };
}

/** The rows that a draw's sweep has in common with the corner's: multiples of the step, and ends that were reached. */
function* commonRows(travel: Float64Array, own: Float64Array): Generator<[number, number]> {
  for (let i = 0, j = 0; i < travel.length && j < own.length; ) {
    const ahead = travel[i] - own[j];
    if (ahead === 0) yield [i, j];
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
