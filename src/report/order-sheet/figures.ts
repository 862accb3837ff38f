import type { FigureGroup } from '../../coilover/sizing/figure.ts';
import type { Figure, Sizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { printedValue } from '../margins.ts';
import { type Block, type FigureValue, heading } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

const GROUPS: readonly (readonly [FigureGroup, string])[] = [
  ['order', 'Fixed by the order'],
  ['adjustable', 'Can be changed later: spring, valving, perch'],
  ['car', 'The car at each axle'],
];

/** Every figure with its definition and its interval: those of each axle side by side, then those of the car. */
export function figuresPart({ axles, figures }: Sizing, paper: OnPaper): Block[] {
  const groups = GROUPS.map(([group, title]) => {
    const [one] = axles;
    const rows = one.figures
      .filter((figure) => figure.group === group)
      .map(({ name, label, definition }) => ({
        label,
        definition,
        values: axles.map((sized) =>
          figureValue(sized.figure(name), paper, (figure, units) => printedValue(sized, figure, units)),
        ),
      }));
    return [title, axles.map(({ axle }) => axleName(axle)), rows] as const;
  });
  const ofCar = figures.map((figure) => ({ ...figure, values: [figureValue(figure, paper)] }));
  return [...groups, ['The whole car', [''], ofCar] as const].flatMap(([title, heads, rows]) => {
    const known = rows.filter(({ values }) => values.some((value) => value !== null));
    return known.length === 0 ? [] : [heading(3, title), { kind: 'figures', heads, rows: known } as const];
  });
}

/** A figure in both units, with its interval in those of the file; `printed` gives the value to print in units. */
function figureValue(
  figure: Figure,
  paper: OnPaper,
  printed: (figure: Figure, units: OnPaper['units'][number]) => number | null = ({ value }) => value,
): FigureValue | null {
  const { value, lower, upper, quantity } = figure;
  if (value === null) return null;
  const [own, other] = paper.units.map(
    (units, k) => paper.cells(printed(figure, units) ?? value, quantity)[k],
  );
  const shown = other === '' ? own : `${own} (${other})`;
  if (lower === null || upper === null) return { value: shown, interval: 'not known', whisker: null };
  const [from, to] = [lower, upper].map((end) => paper.number(end, quantity, paper.units[0]));
  return {
    value: shown,
    interval: from === to ? '' : `${from} to ${to}`,
    whisker:
      lower === upper || value === 0
        ? null
        : [(lower - value) / Math.abs(value), (upper - value) / Math.abs(value)],
  };
}
