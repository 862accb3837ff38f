import type { Quantity } from '../../units.ts';
import { printedParts } from '../sums.ts';
import type { OnPaper } from './on-paper.ts';

/** Parts of a sum in both units, each in a cell, that add up as they are printed; the one at `taker` takes what rounding leaves over. */
export function partsOnPaper(
  parts: readonly number[],
  taker: number,
  quantity: Quantity,
  { cells, units }: OnPaper,
): string[] {
  const shown = units.map((of) => printedParts(parts, taker, quantity, of));
  return parts.map((_, k) => {
    const [own, other] = units.map((_, of) => cells(shown[of][k], quantity)[of]);
    return `${own} (${other})`;
  });
}
