import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { TravelCase } from '../../coilover/sizing/required-travel.ts';
import type { AxleSizing, Figure } from '../../coilover/sizing/result.ts';
import type { SteadyState } from '../../coilover/sizing/static-stability.ts';
import { axleName } from '../../corner/axles.ts';
import { donorTravelOn } from '../../corner/limits/donor.ts';
import type { Limit, LimitEvent } from '../../corner/limits/limits.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { sentence } from '../../sentences/sentence.ts';
import { spaced } from '../../words.ts';
import { printedMargin, printedValue } from '../margins.ts';
import { printedParts } from '../sums.ts';
import { type Block, heading, list, paragraph, pictureOf, table } from './blocks.ts';
import { beyondFirst, LATER_LIMITS } from './later-limits.ts';
import { limitWords } from './limit-words.ts';
import type { OnPaper } from './on-paper.ts';
import { travelRuler } from './travel-ruler.ts';
import { uprightRuler } from './upright-ruler.ts';

/** Travel of an axle: what each case requires, what there is, and what is left. */
export function travelPart(sized: AxleSizing, paper: OnPaper): Block[] {
  const { travelRequirement, limits } = sized;
  const [units] = paper.units;
  const found = limitRows(limits, paper);
  return [
    heading(3, 'Travel'),
    ...pictureOf(
      `${axleName(sized.axle)}: wheel travel required and available, with its limits`,
      (title) => travelRuler(sized, title, units),
      (title) => uprightRuler(sized, title, units),
    ),
    ...(travelRequirement.cases.length === 0
      ? []
      : [
          table(
            'Required travel in each case',
            ['case', 'side', `made up of, ${paper.unit('length', units)}`, 'from design ride height'],
            travelRequirement.cases.map((one) => caseRow(one, sized, paper)),
            [3],
          ),
        ]),
    ...(found.length === 0
      ? []
      : [
          table(
            'Limits and events, from ride height outward',
            ['limit or event', 'side', 'travel at the wheel', 'eye to eye', 'effect'],
            found,
            [2, 3],
          ),
          paragraph(
            `Limits up to ${paper.both(LATER_LIMITS[units], 'length')} beyond the first are listed; of each kind, the nearest.`,
          ),
        ]),
    ...steadyPart(sized, paper),
    list([
      ...margin(sized, 'bumpTravelMargin', 'Bump travel', paper),
      ...margin(sized, 'droopTravelMargin', 'Droop travel', paper),
      ...[...limits.misfits, ...donorNotes(sized), ...limits.notes].map((one) => sentence(one, units)),
    ]),
  ];
}

/** What is said of a donor damper, its wheel travel against the travel that the axle requires. */
function donorNotes({ limits: { donor }, travelRequirement: { bump, droop } }: AxleSizing): Diagnostic[] {
  if (donor === undefined) return [];
  return [
    ...donor.diagnostics.filter(({ code }) => code !== 'donorTravel'),
    ...donorTravelOn(donor.donorTravel, { bump, droop: droop === null ? null : Math.abs(droop) }),
  ];
}

/** Steady states by name. */
const STEADY: Readonly<Record<SteadyState['state'], string>> = {
  rest: 'at rest',
  topSpeed: 'at top speed',
  corner: 'steady corner',
  braking: 'steady braking',
};

/** Where the wheel stands in steady states against contact with the bump stop; nothing without one. */
function steadyPart({ steadyStates, limits, figure }: AxleSizing, paper: OnPaper): Block[] {
  const contact = limits.events.find(({ event }) => event === 'bumpStopContact')?.travel;
  if (contact === undefined || steadyStates.length === 0) return [];
  const margin = (travel: number) =>
    paper.inOne(paper.cellsOf((units) => printedMargin(travel, contact, units), 'length'));
  return [
    table(
      'Steady states against contact with the bump stop, without road bumps',
      ['state', 'travel from design ride height', 'bump stop contact', 'margin'],
      steadyStates.map(({ travel, ...one }) => [
        steadyName(one, paper),
        paper.both(travel, 'length'),
        paper.both(contact, 'length'),
        margin(travel),
      ]),
    ),
    ...withinInterval(steadyStates, figure('bumpTravelRequired'), paper),
  ];
}

/** `steady corner, 0.95 g, with downforce at 120 mph (193 km/h)`. */
function steadyName({ state, acceleration, speed }: Omit<SteadyState, 'travel'>, { both }: OnPaper): string {
  return [
    state === 'topSpeed' && speed !== null ? `${STEADY[state]}, ${both(speed, 'speed')}` : STEADY[state],
    ...(acceleration === null ? [] : [`${acceleration.toFixed(2)} g`]),
    ...(acceleration === null || speed === null ? [] : [`with downforce at ${both(speed, 'speed')}`]),
  ].join(', ');
}

/** Under an acceleration, the states whose margin is less than the required travel, which counts the same, is uncertain by. */
function withinInterval(
  states: readonly SteadyState[],
  { lower, upper }: Pick<Figure, 'lower' | 'upper'>,
  { both }: OnPaper,
): Block[] {
  if (lower === null || upper === null) return [];
  const half = (upper - lower) / 2;
  const near = states.flatMap(({ state, acceleration, travelToContact: left }) =>
    acceleration !== null && left !== null && left >= 0 && left < half ? [STEADY[state]] : [],
  );
  return near.length === 0
    ? []
    : [
        paragraph(
          `The required bump travel, which counts the same loads, is uncertain by about ±${both(half, 'length')}: contact with the bump stop is possible in ${near.join(' and ')}.`,
        ),
      ];
}

/** Parts that the file gives: they are printed as they stand there. */
const GIVEN: readonly string[] = ['road', 'margin', 'specified'];
/** Parts by another name than the data have for them. */
const PARTS: Readonly<Record<string, string>> = {
  state: 'load state',
  lift: 'lift under braking',
};

/** A case with its parts from design ride height, which add up as they are printed; those that print as nothing are left out. */
function caseRow(
  { name, state, side, parts, travel, required }: TravelCase,
  sized: AxleSizing,
  paper: OnPaper,
) {
  const { both, number } = paper;
  const [units] = paper.units;
  const topSpeed = sized.speedRows.at(-1)?.speed;
  // What is specified is specified from design ride height.
  const all: [string, number][] =
    parts.specified === undefined
      ? [['static ride height', required - travel], ...Object.entries(parts)]
      : [['specified', required]];
  const sizes = all.map(([part, value]) => (GIVEN.includes(part) ? 0 : Math.abs(value)));
  const shown = printedParts(
    all.map(([, value]) => value),
    sizes.indexOf(Math.max(...sizes)),
    'length',
    units,
  ).map((value) => number(value, 'length', units));
  const words = all.flatMap(([part], k) => {
    if (Number(shown[k]) === 0 && all.length > 1) return [];
    const speed = part === 'downforce' && topSpeed !== undefined ? ` at ${both(topSpeed, 'speed')}` : '';
    return [`${PARTS[part] ?? spaced(part)}${speed} ${shown[k]}`];
  });
  return [state === null ? name : `${state}: ${name}`, side, words.join(' + '), both(required, 'length')];
}

/** A margin, and what is left of it at the lower end of its interval. */
function margin(sized: AxleSizing, name: AxleFigureName, side: string, paper: OnPaper): string[] {
  const { value, lower } = sized.figure(name);
  if (value === null) return [];
  const [own, other] = paper.units.map(
    (of, k) => paper.cells(printedValue(sized, sized.figure(name), of) ?? value, 'length')[k],
  );
  const margin = `${side}: margin ${own} (${other})`;
  if (value < 0) return [`${margin}, less than is required.`];
  const omitted =
    sized.travelRequirement.omitted.length === 0 ? '' : '; not every case could be counted, see above';
  if (lower === null) return [`${margin}; the 95 % interval is not known${omitted}.`];
  return [`${margin}, ${paper.both(lower, 'length')} at the lower end of the 95 % interval${omitted}.`];
}

/** What the travel meets, on either side from ride height outward. */
function limitRows(limits: AxleSizing['limits'], { both, units: [units] }: OnPaper): string[][] {
  return (['bump', 'droop'] as const).flatMap((side) => {
    const { [side]: first, events } = limits;
    const row = ({ travel, diagnostic }: Limit | LimitEvent, what: string, effect: string) => {
      const { length } = diagnostic.values;
      const eyes = typeof length === 'number' ? both(length, 'length') : '';
      return {
        travel: Math.abs(travel),
        cells: [what, side, both(Math.abs(travel), 'length'), eyes, effect],
      };
    };
    return [
      ...(first === null ? [] : [row(first, limitWords(first), 'ends the travel')]),
      ...events
        .filter((event) => event.side === side)
        .map((event) => row(event, 'bump stop contact', 'on the way')),
      ...beyondFirst(limits, side, units).map((limit) => row(limit, limitWords(limit), 'beyond it')),
    ]
      .sort((a, b) => a.travel - b.travel)
      .map(({ cells }) => cells);
  });
}
