import { unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/corner.ts';
import { unknownColumns } from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import { type ColumnValues, sensitivitiesOf } from './sensitivity.ts';
import type { SweepOptions } from './sweep.ts';

/** What is looked at, and over which travel; all optional. */
export interface SensitivityRankingOptions extends Omit<SweepOptions, 'columns'> {
  /** Name of the column; default `installationRatio`. */
  readonly column?: string;
}

const OPTIONS = ['column', 'bump', 'droop', 'travelReference', 'step'];

/** Change of a column per mm of one coordinate, in the column's unit per mm. */
export interface SensitivityRank {
  /** Name of the coordinate, such as `shockMountY`; all others are held. */
  readonly coordinate: string;
  /** Change at design ride height; null where the column has no value. */
  readonly atDesign: number | null;
  /** The change of largest magnitude over the travel; null where the column has no value. */
  readonly largest: number | null;
  /** Travel of `largest`, mm, bump +; null where the column has no value. */
  readonly atTravel: number | null;
}

/**
 * Ranks the hardpoint coordinates by their effect on a column, to first order: largest effect at design ride height first, then largest
 * over the travel. One row per coordinate, for a table.
 *
 * @throws InputError as `sweep`.
 */
export function sensitivityRanking(
  corner: Corner,
  options: SensitivityRankingOptions = {},
): SensitivityRank[] {
  const model = modelOf(corner);
  const faults = unknownOptions(options, OPTIONS);
  const { column = 'installationRatio', ...sweepOptions } = options ?? {};
  faults.push(...unknownColumns([column], model).map((one) => ({ ...one, path: 'column' })));
  refuse('options of sensitivityRanking', faults);
  const { travel, by } = sensitivitiesOf(model, { ...sweepOptions, columns: [column] });
  const ride = travel.indexOf(0);
  const ranks = Object.entries(by).map(([coordinate, columns]): SensitivityRank => {
    const { value, row } = largestOf(columns[column]);
    return {
      coordinate,
      atDesign: columns[column][ride] ?? null,
      largest: value,
      atTravel: row === null ? null : travel[row],
    };
  });
  return ranks.sort(byEffect);
}

/** The change of largest magnitude, and its row; null where there is none. */
export function largestOf(rates: ColumnValues): {
  readonly value: number | null;
  readonly row: number | null;
} {
  let row: number | null = null;
  rates.forEach((rate, i) => {
    if (rate !== null && (row === null || Math.abs(rate) > size(rates[row]))) row = i;
  });
  return { value: row === null ? null : rates[row], row };
}

type Effect = Pick<SensitivityRank, 'atDesign' | 'largest'>;

/** Largest effect at design ride height first, then largest of all. */
export function byEffect(a: Effect, b: Effect): number {
  return size(b.atDesign) - size(a.atDesign) || size(b.largest) - size(a.largest);
}

function size(value: number | null): number {
  return Math.abs(value ?? 0);
}
