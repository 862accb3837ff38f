// A corner in words, and its files.

import {
  type AxleSizing,
  type ColumnOf,
  type Diagnostic,
  type DocumentCorner,
  describeSweepEnd,
  handMethod,
  type Limits,
  limits,
  type Sweep,
  sentence,
  sweep,
  sweepCsv,
  sweepTable,
  type Units,
} from '../index.ts';
import { fromMetric, INCH, unitName } from '../units.ts';
import { write } from './files.ts';
import { folded } from './terminal.ts';

/** Travel to look at where nothing ends it before, mm. */
const TRAVEL = 120;
/** Frequency for which the hand method's spring is chosen where the file has no target, Hz: an example, not advice. */
const FREQUENCY = 1.5;

/** How a corner is shown; with a sizing its limits, mass and required travel are those of the sizing. */
export interface CornerLooks {
  readonly units: Units;
  readonly sized?: AxleSizing | undefined;
  /** Travel between the rows of the table, mm. */
  readonly step?: number | undefined;
  /** Heading; default the name of the files. */
  readonly title?: string | undefined;
}

/** Travel between the rows of the curves, mm. */
const STEP = 1;

/** The limits of a corner, and the travel that is shown: as far as they go. */
export function shownTravel(
  { corner, limits: ends }: DocumentCorner,
  sized?: AxleSizing,
): { readonly limits: Limits; readonly travel: { readonly bump: number; readonly droop: number } } {
  const found = sized?.limits ?? limits(corner, withoutLoneStop(ends));
  const bump = found.bump === null ? TRAVEL : found.bump.travel;
  const droop = found.droop === null ? TRAVEL : -found.droop.travel;
  return { limits: found, travel: { bump: Math.min(bump, TRAVEL), droop: Math.min(droop, TRAVEL) } };
}

/** A corner's curves and limits, as far as the limits go. */
export function cornerCurves(given: DocumentCorner, { step = STEP }: Pick<CornerLooks, 'step'>) {
  const { limits, travel } = shownTravel(given);
  return { limits, curves: sweep(given.corner, { ...travel, step }) };
}

/** What ends the travel, without a bump stop whose damper is not given: its heights count from the compressed length, which a sizing finds. */
export function withoutLoneStop(ends: DocumentCorner['limits']): DocumentCorner['limits'] {
  const { bumpStop, ...others } = ends;
  return bumpStop === undefined || ends.damper !== undefined ? ends : others;
}

/** A corner as it is printed and written. */
export interface CornerView {
  /** Of its files, without their ends. */
  readonly name: string;
  /** Its table through the travel, its limits, and what can be said of both. */
  readonly text: string;
  /** Every column through the travel, a row for each mm. */
  readonly csv: () => string;
  /** The picture, as an SVG document. */
  readonly draw: () => Promise<string>;
}

/** A corner under the name of its files. */
export function cornerView(name: string, given: DocumentCorner, looks: CornerLooks): CornerView {
  const { corner, sprungMass: givenMass } = given;
  const { units, sized, title = titleOf(name), step = units === 'imperial' ? 0.5 * INCH : 10 } = looks;
  const { limits: found, travel } = shownTravel(given, sized);
  const sprungMass = sized?.figure('sprungMass').value ?? givenMass;
  const frequency = sized?.springFit?.requiredFrequency ?? FREQUENCY;
  const hand = handMethod(corner, { ...(sprungMass === undefined ? {} : { sprungMass, frequency }), travel });
  return {
    name,
    text: textOf(given, { ...looks, title }, { found, curves: sweep(corner, { ...travel, step }), hand }),
    csv: () => sweepCsv(sweep(corner, { ...travel, step: STEP }), { units }),
    draw: async () => {
      const { cornerPicture } = await import('./corner-picture.ts');
      return cornerPicture(given, { title, units, limits: found, travel, hand });
    },
  };
}

/** What was found of a corner. */
interface Found {
  readonly found: Limits;
  readonly curves: Sweep<ColumnOf>;
  readonly hand: ReturnType<typeof handMethod>;
}

function textOf(
  { limits: ends }: DocumentCorner,
  { units, sized, title }: CornerLooks,
  { found, curves, hand }: Found,
): string {
  const lines: string[] = [];
  const say = (text: string) => void lines.push(text);
  const tell = (diagnostics: readonly Diagnostic[]) => {
    for (const one of diagnostics) say(folded([`  ${sentence(one, units)}`]));
  };
  say(`== ${title} ==\n`);
  say(sweepTable(curves, undefined, units));

  say('Limits of the travel');
  if (sized === undefined && withoutLoneStop(ends) !== ends)
    say('  The bump stop is left out: the file gives no damper lengths. `jounce order` finds them.');
  tell(found.misfits);
  tell([found.bump, found.droop].flatMap((limit) => limit?.diagnostic ?? []));
  tell(found.events.map(({ diagnostic }) => diagnostic));
  tell(
    sized === undefined
      ? Object.values(found.travelMargins ?? {}).map((one) => one.diagnostic)
      : marginsOf(sized),
  );
  if (found.later.length > 0) say('\nLater limits, nearest first');
  tell(found.later.map(({ diagnostic }) => diagnostic));
  if (found.donor !== undefined) say('\nThe donor damper');
  tell(found.donor?.diagnostics ?? []);

  say('\nWheel rate by the hand method, beside the exact one');
  tell(hand.defined ? hand.diagnostics : [hand.reason]);

  say('\nThrough the travel');
  for (const line of findings(curves, units)) say(folded([`  ${line}`]));
  for (const [side, end] of Object.entries(curves.end)) {
    if (end.status !== 'reached') say(folded([`  On the ${side} side: ${describeSweepEnd(end, units)}.`]));
    else if (Math.abs(end.travel) === TRAVEL)
      say(`  The curves stop at ${length(TRAVEL, units)} of ${side}; the wheel could travel farther.`);
  }
  tell(found.notes);
  return lines.join('\n');
}

/** Writes curves, picture and text of a corner. */
export async function writeCorner(
  folder: string,
  { name, text, csv, draw }: CornerView,
): Promise<{ readonly what: string; readonly files: readonly string[] }[]> {
  return [
    {
      files: [write(folder, `${name}.txt`, `${text}\n`)],
      what: 'the table through the travel, and its limits',
    },
    {
      files: [write(folder, `${name}.csv`, csv())],
      what: 'every column of the sweep, a row for each mm of travel',
    },
    {
      files: [write(folder, `${name}.svg`, await draw())],
      what: 'the corner at its limits and at ride height, with its curves',
    },
  ];
}

/** Travel required by the sizing, the travel cases in every load state, against what is available. */
function marginsOf({ figure }: AxleSizing): Diagnostic[] {
  return (['bump', 'droop'] as const).flatMap((side): Diagnostic[] => {
    const required = figure(`${side}TravelRequired`).value;
    const available = figure(`${side}TravelAvailable`).value;
    if (required === null || available === null) return [];
    return [{ code: 'travelMargin', severity: 'note', path: '', values: { side, required, available } }];
  });
}

function length(mm: number, units: Units, decimals = 0): string {
  const shown = fromMetric(mm, 'length', units).toFixed(units === 'imperial' ? 2 : decimals);
  return `${shown} ${unitName('length', units)}`;
}

function signed(value: number, decimals: number): string {
  return `${value > 0 ? '+' : ''}${value.toFixed(decimals)}`;
}

/** The sweep in sentences. */
function findings({ columns, at }: Sweep<ColumnOf>, units: Units): string[] {
  const { travel, shockLength, installationRatio, camber, rollCentreHeight } = columns;
  if (travel.length < 2) return ['The corner has no travel as it is drawn.'];
  const last = travel.length - 1;
  const ride = at(0);
  const stroke = Math.abs(shockLength[0] - shockLength[last]);
  const [low, high] = [installationRatio[0], installationRatio[last]];
  const rate = 100 * ((high / low) ** 2 - 1);
  const rollCentre = (height: number | null) => (height === null ? 'nowhere' : length(height, units));
  return [
    `From ${length(-travel[0], units)} of droop to ${length(travel[last], units)} of bump the shock moves ${length(stroke, units, 1)}; at ride height it is ${length(ride.shockLength, units, 1)} long.`,
    `The installation ratio is ${low.toFixed(3)} at full droop, ${ride.installationRatio?.toFixed(3)} at ride height, ${high.toFixed(3)} at full bump.`,
    `The spring's part of the wheel rate, proportional to its square, changes by ${signed(rate, 0)} % from full droop to full bump.`,
    `Camber goes from ${signed(camber[0], 2)} to ${signed(camber[last], 2)} deg between droop and bump.`,
    `The roll centre is ${rollCentre(rollCentreHeight[0])} above the ground at droop, ${rollCentre(ride.rollCentreHeight)} at ride, ${rollCentre(rollCentreHeight[last])} at bump.`,
  ];
}

/** A name of files as a heading. */
export function titleOf(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1).replaceAll('-', ' ');
}
