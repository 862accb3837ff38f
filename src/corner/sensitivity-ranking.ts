import { unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/corner.ts';
import { unknownColumns } from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import { sensitivitiesOf } from './sensitivity.ts';
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
  const costs = Object.entries(by).map(([coordinate, columns]): SensitivityRank => {
    const rates = columns[column];
    let most = -1;
    rates.forEach((rate, i) => {
      if (rate !== null && (most < 0 || Math.abs(rate) > size(rates[most]))) most = i;
    });
    return {
      coordinate,
      atDesign: rates[ride] ?? null,
      largest: most < 0 ? null : rates[most],
      atTravel: most < 0 ? null : travel[most],
    };
  });
  return costs.sort((a, b) => size(b.atDesign) - size(a.atDesign) || size(b.largest) - size(a.largest));
}

function size(value: number | null): number {
  return value === null ? 0 : Math.abs(value);
}
