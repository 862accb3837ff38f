import type { Figure } from '../../coilover/sizing/result.ts';
import { numberIn, textIn } from '../../units.ts';
import type { Block, FigureRow } from './blocks.ts';

/** Figures that have a value, as rows of a sheet. */
export function figureRows(figures: readonly Figure[]): Block {
  const rows = figures.flatMap(({ label, value, low, high, quantity, definition }): FigureRow[] => {
    if (value === null) return [];
    const metric = textIn(value, quantity, 'metric');
    const imperial = textIn(value, quantity, 'imperial');
    const between = (units: 'metric' | 'imperial') => {
      if (low === null || high === null) return 'not known';
      const [from, to] = [numberIn(low, quantity, units), numberIn(high, quantity, units)];
      return from === to ? '' : `${from} to ${to}`;
    };
    const intervals = [between('metric'), ...(metric === imperial ? [] : [between('imperial')])];
    return [
      {
        label,
        metric,
        imperial: metric === imperial ? '' : imperial,
        interval: intervals.filter((text, k) => text !== '' && intervals.indexOf(text) === k).join('; '),
        definition,
      },
    ];
  });
  return { kind: 'figures', rows };
}
