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

/** What a millimetre of one coordinate changes, in the column's unit. */
export interface SensitivityRank {
  /** `shockMountY`, and so on: the coordinate that is a mm more, all others kept. */
  readonly coordinate: string;
  /** Change at the drawn ride height; null where there is none. */
  readonly atDesign: number | null;
  /** The change that is largest in size over the travel; null where there is none. */
  readonly largest: number | null;
  /** Travel at which it is, mm, bump +; null where there is none. */
  readonly atTravel: number | null;
}

/**
 * What a millimetre costs: for each hardpoint coordinate how much a column changes with a mm of it, to first order, in
 * the order of the effect at ride (where that is equal, of the largest over the travel). Plain rows for a table.
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
