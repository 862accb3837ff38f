import type { FigureGroup } from '../../coilover/sizing/figure.ts';
import type { AxleSizing, Figure, Sizing } from '../../coilover/sizing/result.ts';
import { isBought } from '../../coilover/sizing/unsettled.ts';
import { axleName } from '../../corner/axles.ts';
import { printedValue } from '../margins.ts';
import { type Block, type FigureValue, heading, paragraph } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

const GROUPS: readonly (readonly [FigureGroup, string])[] = [
  ['order', 'Fixed once ordered'],
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
  const notes = axles.flatMap(notesOn);
  return [
    ...(notes.length === 0 ? [] : [paragraph(notes.join(' '))]),
    ...[...groups, ['The whole car', [''], ofCar] as const].flatMap(([title, heads, rows]) => {
      const known = rows.filter(({ values }) => values.some((value) => value !== null));
      return known.length === 0 ? [] : [heading(3, title), { kind: 'figures', heads, rows: known } as const];
    }),
  ];
}

/** Tolerances of a coilover that its intervals do not count. */
const TOLERANCES = { lengthTolerance: 'lengths', rateTolerance: 'the spring rate' } as const;

/** What the intervals of an axle leave out or count, and how its perch is set. */
function notesOn({ axle, input, afterOrder, spring }: AxleSizing): string[] {
  const { order } = input.sizing ?? {};
  const name = axleName(axle);
  const missing = Object.entries(TOLERANCES)
    .filter(([tolerance]) => order?.[tolerance as keyof typeof TOLERANCES] === undefined)
    .map(([, words]) => words);
  return [
    ...(missing.length === 0 || spring === null
      ? []
      : [
          `${name}: tolerances of ${missing.join(' and ')} ${isBought(input) ? 'not given' : 'not yet agreed'}, not included in its intervals.`,
        ]),
    ...(order?.rateTolerance === undefined
      ? []
      : [
          `${name}: a spring off its rate moves the static ride height and with it the required travel; the intervals count that, the perch corrects it.`,
        ]),
    ...(afterOrder === null ? [] : [`${name}: spring and perch as they are fitted, not as advised.`]),
  ];
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
