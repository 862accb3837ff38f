import type { ColumnInfo } from '../corner/columns.ts';
import { type DrawnColumns, drawnColumns } from '../corner/drawn-columns.ts';
import { drawFaults, MOST_DRAWS } from '../corner/draws.ts';
import type { ColumnValues } from '../corner/sensitivity.ts';
import type { PlusMinus } from '../corner/uncertainty.ts';
import { bandColumns } from '../corner/uncertainty-bands.ts';
import { refuse } from '../errors/corner.ts';
import type { AxleLinkage } from './axle.ts';
import { coordinatesOf, spreadOfAxle } from './axle-coordinates.ts';
import { axleSensitivities, commonPoses, posesIn, valuesOf } from './axle-sensitivity.ts';
import { type AxleSweepOptions, sweepAxle } from './sweep-axle.ts';

/** How many draws, and of what; all optional. */
export interface AxleMonteCarloOptions {
  /** 100 to 10,000; default 1000. */
  readonly draws?: number;
  /** A whole number; default 1. Equal seeds give equal results. */
  readonly seed?: number;
  /** The poses of each draw. */
  readonly sweep?: AxleSweepOptions;
}

/** What comes of many draws of an axle. */
export interface AxleMonteCarlo extends DrawnColumns {
  /** The columns of the sweep but for `heave` and `roll`. */
  readonly info: readonly ColumnInfo[];
  /** Heave of the rows, those of the axle as drawn, mm: bump of both wheels positive. */
  readonly heave: Float64Array;
  /** Roll of the rows, degrees, left side up positive. */
  readonly roll: Float64Array;
  /** The half-widths to first order, as `axleUncertaintyBands` has them. */
  readonly firstOrder: Readonly<Record<string, ColumnValues>>;
  /** How many axles were drawn. */
  readonly draws: number;
}

/**
 * Draws an axle many times with coordinates as uncertain as `plusMinus` says (default: as its corners do), and gives what
 * `axleUncertaintyBands` computes to first order as it comes out. A corner that stands on both sides is drawn once, and stands on both.
 *
 * @throws InputError as `axleUncertaintyBands`, and for draws or a seed that are none.
 */
export function axleMonteCarlo(
  axle: AxleLinkage,
  plusMinus?: PlusMinus,
  options: AxleMonteCarloOptions = {},
): AxleMonteCarlo {
  refuse('options of axleMonteCarlo', drawFaults(options, ['draws', 'seed', 'sweep'], MOST_DRAWS));
  const { draws = 1000, seed = 1, sweep } = options;
  const poses = posesIn(sweepAxle(axle, sweep));
  const { info, heave, roll } = poses;
  const { names, moved } = coordinatesOf(axle);
  const spread = spreadOfAxle(axle, plusMinus, names);
  const drawn = drawnColumns(info, heave.length, spread, { draws, seed }, (errors) => {
    if (heave.length === 0) return { columns: {}, common: [] };
    const swept = sweepAxle(moved(errors), poses.options);
    return { columns: valuesOf(swept), common: commonPoses(poses, swept) };
  });
  const { by } = axleSensitivities(axle, sweep);
  return { info, heave, roll, ...drawn, firstOrder: bandColumns(info, heave.length, by, spread), draws };
}
