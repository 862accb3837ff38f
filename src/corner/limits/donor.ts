// A unit is known by two lengths: with the stroke S and the dead length D (its body, with all that does not move in it),
//
//   closed = D + S,   open = D + 2 S
//
// A length alone is one of the two, or lies between, as its state says.

import { extremes } from '../../linkage/extremes.ts';
import { bindMeasure } from '../../linkage/measure.ts';
import { reader, readRows } from '../../linkage/reader.ts';
import type { CornerModel } from '../model.ts';
import type { Course } from './course.ts';
import { type Eyes, lengthOf } from './damper.ts';
import type { CheckedOptions, Donor } from './options.ts';
import type { Words } from './words.ts';

/** The unit at hand against the one that is wanted: mm; null where it can't be told. Positive: the new one is more. */
export interface DonorComparison {
  /** Open length. */
  readonly openBy: number | null;
  /** Closed length. */
  readonly closedBy: number | null;
  /** Stroke. */
  readonly strokeBy: number | null;
  /** Body: the dead length, closed less stroke. */
  readonly bodyBy: number | null;
  /** The unit that is wanted: as `damper`, or for the required travel (bump stop solid at its end); null without either. */
  readonly wanted: { readonly open: number; readonly closed: number } | null;
  readonly sentences: readonly string[];
}

/** What a tape can tell, mm. */
const TAPE = 0.5;

/** Sets the unit at hand against the drawn ride height and the unit that is wanted. */
export function compareDonor(
  options: CheckedOptions,
  model: CornerModel,
  course: Course,
  eyes: Eyes,
  words: Words,
): DonorComparison | undefined {
  const { donor } = options;
  if (donor === undefined) return undefined;
  const ride = lengthOf(eyes, course.drawn);
  const wanted = wantedUnit(options, model, course);
  const known = knownLengths(donor);
  const by = (mine: number | undefined, theirs: number | undefined) =>
    mine === undefined || theirs === undefined ? null : mine - theirs;
  const openBy = by(wanted?.open, known.open);
  const closedBy = by(wanted?.closed, known.closed);
  const strokeBy = by(wanted === null ? undefined : wanted.open - wanted.closed, donor.stroke);
  const bodyBy = openBy === null || closedBy === null ? null : 2 * closedBy - openBy;
  const sentences = [atRide(donor, known, ride, words)];
  if (wanted !== null) {
    const stroke = words.length(wanted.open - wanted.closed);
    sentences.push(
      wanted === options.damper
        ? `The damper planned is ${words.length(wanted.open)} open and ${words.length(wanted.closed)} closed, with a stroke of ${stroke}.`
        : `For the travel wanted the new unit is to be ${words.length(wanted.open)} open or more, and ${words.length(wanted.closed)} closed or less: a stroke of ${stroke} at least.`,
      ...comparisons({ openBy, closedBy, strokeBy, bodyBy }, donor, wanted, words),
    );
  }
  return { openBy, closedBy, strokeBy, bodyBy, wanted, sentences };
}

function knownLengths({ length, state, stroke }: Donor): { open?: number; closed?: number } {
  switch (state) {
    case 'open':
      return { open: length, ...(stroke === undefined ? {} : { closed: length - stroke }) };
    case 'closed':
      return { closed: length, ...(stroke === undefined ? {} : { open: length + stroke }) };
    case 'measured':
      return {};
  }
}

/** The unit for the required travel, else that of the options. */
function wantedUnit(
  { required, damper, bumpStop }: CheckedOptions,
  model: CornerModel,
  course: Course,
): DonorComparison['wanted'] {
  if (required?.bump === undefined || required.droop === undefined) return damper ?? null;
  const { path } = course;
  const { shock } = model;
  const length = bindMeasure(
    path.system,
    { length: [shock.outer, shock.inner], offset: shock.offset },
    'shock',
  );
  const ground = model.drawing.points[model.contactPatch][1];
  const low = Math.max(path.low.at, ground - required.droop);
  const high = Math.min(path.high.at, ground + required.bump);
  const r = reader(path, [length], [false]);
  const lengths = [low, ground, high].map((at) => {
    readRows(r, Float64Array.of(at), 0);
    return r.m[0];
  });
  for (const { at, value } of extremes(path, length)) if (at > low && at < high) lengths.push(value);
  return {
    open: Math.max(...lengths),
    closed: Math.min(...lengths) - (bumpStop?.solidHeight ?? 0),
  };
}

function atRide(
  donor: Donor,
  { open, closed }: { open?: number; closed?: number },
  ride: number,
  words: Words,
): string {
  const at = `the drawn ride height (${words.length(ride)} between the eyes)`;
  const { length, state } = donor;
  if (state === 'open') {
    const left = length - ride;
    if (Math.abs(left) <= TAPE)
      return `The unit at hand is fully open at ${at}: fitted like this it leaves no droop travel.`;
    if (left < 0) return `The unit at hand is ${words.length(-left)} too short for ${at}, even fully open.`;
  }
  if (state === 'closed') {
    const left = ride - length;
    if (Math.abs(left) <= TAPE)
      return `The unit at hand is fully closed at ${at}: fitted like this it leaves no bump travel.`;
    if (left < 0) return `The unit at hand is ${words.length(-left)} too long for ${at}, even fully closed.`;
  }
  if (open !== undefined && closed !== undefined) {
    if (closed > ride + TAPE)
      return `The unit at hand is ${words.length(closed - ride)} too long for ${at}, even fully closed.`;
    if (open < ride - TAPE)
      return `The unit at hand is ${words.length(ride - open)} too short for ${at}, even fully open.`;
    return `At ${at} the unit at hand can still open by ${words.length(Math.max(0, open - ride))} and close by ${words.length(Math.max(0, ride - closed))}.`;
  }
  if (open !== undefined)
    return `At ${at} the unit at hand can still open by ${words.length(open - ride)}; give its stroke too, to know how far it can close.`;
  if (closed !== undefined)
    return `At ${at} the unit at hand can still close by ${words.length(ride - closed)}; give its stroke too, to know how far it can open.`;
  const where =
    Math.abs(length - ride) <= TAPE
      ? 'That is its length at the drawn ride height'
      : `That is ${words.length(Math.abs(length - ride))} ${length > ride ? 'more' : 'less'} than at ${at}`;
  return `The unit at hand measured ${words.length(length)} somewhere between open and closed. ${where}; how far it can open and close from there only its open and closed length tell.`;
}

function comparisons(
  { openBy, closedBy, strokeBy, bodyBy }: Omit<DonorComparison, 'wanted' | 'sentences'>,
  donor: Donor,
  wanted: { readonly open: number; readonly closed: number },
  words: Words,
): string[] {
  const sentences: string[] = [];
  const than = (by: number, more: string, less: string) => {
    const amount = words.length(Math.abs(by));
    return Number.parseFloat(amount) === 0 ? 'the same as' : `${amount} ${by > 0 ? more : less} than`;
  };
  if (strokeBy !== null && bodyBy !== null) {
    sentences.push(
      `Its stroke is ${than(strokeBy, 'more', 'less')} that of the unit at hand; its body, the closed length less the stroke, is ${than(bodyBy, 'longer', 'shorter')} that one's.`,
    );
  } else if (strokeBy !== null) {
    sentences.push(`Its stroke is ${than(strokeBy, 'more', 'less')} that of the unit at hand.`);
  }
  if (openBy !== null)
    sentences.push(`Fully open it is ${than(openBy, 'longer', 'shorter')} the unit at hand.`);
  if (closedBy !== null)
    sentences.push(`Fully closed it is ${than(closedBy, 'longer', 'shorter')} the unit at hand.`);
  if (donor.state === 'measured') {
    if (donor.length > wanted.open)
      sentences.push(
        `The unit at hand was ${words.length(donor.length - wanted.open)} longer than that when it was measured: its open length is too long by that at least.`,
      );
    if (donor.length < wanted.closed)
      sentences.push(
        `The unit at hand was ${words.length(wanted.closed - donor.length)} shorter than that when it was measured: its closed length is too short by that at least.`,
      );
  }
  return sentences;
}
