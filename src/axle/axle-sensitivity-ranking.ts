import { byEffect, largestOf } from '../corner/sensitivity-ranking.ts';
import { fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/corner.ts';
import type { AxleLinkage } from './axle.ts';
import { axleSensitivities } from './axle-sensitivity.ts';
import { type AxleColumn, type AxleSweepOptions, sweepAxle } from './sweep-axle.ts';

/** What is looked at, and in which poses; all optional. */
export interface AxleSensitivityRankingOptions extends AxleSweepOptions {
  /** Name of the column; default `rollCentreHeight`. */
  readonly column?: AxleColumn;
}

/** Change of a column per mm of one coordinate, in the column's unit per mm. */
export interface AxleSensitivityRank {
  /** Name of the coordinate, as in `axleSensitivities`; all others are held. */
  readonly coordinate: string;
  /** Change at design ride height without roll; null where the column has no value. */
  readonly atDesign: number | null;
  /** The change of largest magnitude over the poses; null where the column has no value. */
  readonly largest: number | null;
  /** Pose of `largest`, mm and degrees; null where the column has no value. */
  readonly atHeave: number | null;
  readonly atRoll: number | null;
}

/**
 * Ranks the hardpoint coordinates of an axle by their effect on a column, to first order: largest effect at design ride height first, then
 * largest over the poses. One row per coordinate, for a table.
 *
 * @throws InputError as `sweepAxle`, and for a column that the axle has not.
 */
export function axleSensitivityRanking(
  axle: AxleLinkage,
  options: AxleSensitivityRankingOptions = {},
): AxleSensitivityRank[] {
  const DESIGN = { heave: [0], roll: [0] };
  const allowed = sweepAxle(axle, DESIGN)
    .info.slice(2)
    .map(({ name }) => name);
  const faults = unknownOptions(options, ['column', 'heave', 'roll', 'along']);
  const { column = 'rollCentreHeight', ...poses } = options ?? {};
  if (!allowed.includes(column))
    faults.push(fault('unknownColumn', 'column', { got: show(column), allowed }));
  refuse('options of axleSensitivityRanking', faults);
  const { by: atDesign } = axleSensitivities(axle, DESIGN);
  const { by, heave, roll } = axleSensitivities(axle, poses);
  const ranks = Object.keys(by).map((coordinate): AxleSensitivityRank => {
    const { value, row } = largestOf(by[coordinate][column]);
    return {
      coordinate,
      atDesign: atDesign[coordinate][column][0] ?? null,
      largest: value,
      atHeave: row === null ? null : heave[row],
      atRoll: row === null ? null : roll[row],
    };
  });
  return ranks.sort(byEffect);
}
