import type { Figure } from '../../coilover/sizing/result.ts';
import { numberIn, textIn, type Units } from '../../units.ts';
import type { Block, FigureRow } from './blocks.ts';

/** Figures that have a value, as rows of a sheet; `printed` gives the value to print in units. */
export function figureRows(
  figures: readonly Figure[],
  first: Units,
  printed: (figure: Figure, units: Units) => number | null = ({ value }) => value,
): Block {
  const second: Units = first === 'metric' ? 'imperial' : 'metric';
  const rows = figures.flatMap((figure): FigureRow[] => {
    const { label, value, lower, upper, quantity, definition } = figure;
    if (value === null) return [];
    const written = (units: Units) => textIn(printed(figure, units) ?? value, quantity, units);
    const [own, other] = [written(first), written(second)];
    const between = (units: Units) => {
      if (lower === null || upper === null) return 'not known';
      const [from, to] = [numberIn(lower, quantity, units), numberIn(upper, quantity, units)];
      return from === to ? '' : `${from} to ${to}`;
    };
    const intervals = [between(first), ...(own === other ? [] : [between(second)])];
    return [
      {
        label,
        own,
        other: own === other ? '' : other,
        interval: intervals.filter((text, k) => text !== '' && intervals.indexOf(text) === k).join('; '),
        whisker:
          lower === null || upper === null || lower === upper || value === 0
            ? null
            : [(lower - value) / Math.abs(value), (upper - value) / Math.abs(value)],
        definition,
      },
    ];
  });
  return { kind: 'figures', units: [first, second], rows };
}
