import type { Figure } from '../../coilover/sizing/result.ts';
import { numberIn, textIn, type Units } from '../../units.ts';
import type { Block, FigureRow } from './blocks.ts';

/** Figures that have a value, as rows of a sheet. */
export function figureRows(figures: readonly Figure[], first: Units): Block {
  const second = first === 'metric' ? 'imperial' : 'metric';
  const rows = figures.flatMap(({ label, value, low, high, quantity, definition }): FigureRow[] => {
    if (value === null) return [];
    const own = textIn(value, quantity, first);
    const other = textIn(value, quantity, second);
    const between = (units: Units) => {
      if (low === null || high === null) return 'not known';
      const [from, to] = [numberIn(low, quantity, units), numberIn(high, quantity, units)];
      return from === to ? '' : `${from} to ${to}`;
    };
    const intervals = [between(first), ...(own === other ? [] : [between(second)])];
    return [
      {
        label,
        own,
        other: own === other ? '' : other,
        interval: intervals.filter((text, k) => text !== '' && intervals.indexOf(text) === k).join('; '),
        definition,
      },
    ];
  });
  return { kind: 'figures', units: [first, second], rows };
}
