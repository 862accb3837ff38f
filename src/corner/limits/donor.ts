// A unit is known by two lengths: with the stroke S and the dead length D (its body, with all that does not move in it),
//
//   compressed = D + S,   extended = D + 2 S
//
// A length alone is one of the two, or lies between, as its state says. Two comparisons follow: the unit to order against the donor, and the donor by
// itself at ride height, as it is and cut to fit.

import type { Donor } from '../../document/inputs.ts';
import { extremes } from '../../linkage/extremes.ts';
import { bindMeasure } from '../../linkage/measure.ts';
import { reader, readRows } from '../../linkage/reader.ts';
import type { CornerModel } from '../model.ts';
import { type Eyes, lengthOf } from './damper.ts';
import type { CheckedOptions } from './options.ts';
import type { TravelPath } from './travel-path.ts';
import type { Words } from './words.ts';

/** How far a unit can go from ride height, mm; null where it can't be told. */
export interface StrokeLeft {
  readonly extension: number | null;
  readonly compression: number | null;
}

/**
 * The ordered unit against a donor damper, and the donor by itself: mm, null where it can't be told. Differences are those of the ordered unit
 * less the donor: positive where the ordered unit is longer.
 */
export interface DonorComparison {
  readonly extendedLengthDifference: number | null;
  readonly compressedLengthDifference: number | null;
  readonly strokeDifference: number | null;
  /** Of the compressed length minus the stroke. */
  readonly deadLengthDifference: number | null;
  /** Length at design ride height, less the length at which the donor was measured. */
  readonly designLengthDifference: number;
  /** The unit that the donor is compared with; null where neither is known. */
  readonly unit: ComparedUnit | null;
  /** What the donor has left at design ride height, fitted as it is: negative where it does not reach so far. */
  readonly donorAsIs: StrokeLeft;
  /** The same for a donor whose eyes are moved so that it stands at design ride height in its measured state; null for a length between. */
  readonly donorCutToFit: StrokeLeft | null;
  readonly sentences: readonly string[];
}

/** The ordered unit, `damper` of the options; without it the one that the required travel needs, without a bump stop. */
export interface ComparedUnit {
  readonly extendedLength: number;
  readonly compressedLength: number;
  readonly basis: 'ordered' | 'requiredTravel';
}

/** What a tape can tell, mm. */
const TAPE = 0.5;

/** Compares a donor with the unit to order, and with the design ride height. */
export function compareDonor(
  options: CheckedOptions,
  model: CornerModel,
  travelPath: TravelPath,
  eyes: Eyes,
  words: Words,
): DonorComparison | undefined {
  const { donor } = options;
  if (donor === undefined) return undefined;
  const ride = lengthOf(eyes, travelPath.drawn);
  const unit = comparedUnit(options, model, travelPath);
  const known = knownLengths(donor);
  const less = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined ? null : a - b;
  const extended = less(unit?.extendedLength, known.extended);
  const compressed = less(unit?.compressedLength, known.compressed);
  const differences = {
    extendedLengthDifference: extended,
    compressedLengthDifference: compressed,
    strokeDifference: less(
      unit === null ? undefined : unit.extendedLength - unit.compressedLength,
      donor.stroke,
    ),
    deadLengthDifference: extended === null || compressed === null ? null : 2 * compressed - extended,
    designLengthDifference: ride - donor.length,
  };
  return {
    ...differences,
    unit,
    donorAsIs: { extension: less(known.extended, ride), compression: less(ride, known.compressed) },
    donorCutToFit: cutToFit(donor),
    sentences: [
      ...(unit === null ? [] : againstDonor(differences, donor, unit, ride, words)),
      ...donorAlone(donor, known, ride, words),
    ],
  };
}

/** A donor that stands at ride height in the state in which it was measured. */
function cutToFit({ state, ...donor }: Donor): StrokeLeft | null {
  const stroke = donor.stroke ?? null;
  switch (state) {
    case 'extended':
      return { extension: 0, compression: stroke };
    case 'compressed':
      return { extension: stroke, compression: 0 };
    case 'measured':
      return null;
  }
}

interface Known {
  readonly extended?: number;
  readonly compressed?: number;
}

function knownLengths({ length, state, stroke }: Donor): Known {
  switch (state) {
    case 'extended':
      return { extended: length, ...(stroke === undefined ? {} : { compressed: length - stroke }) };
    case 'compressed':
      return { compressed: length, ...(stroke === undefined ? {} : { extended: length + stroke }) };
    case 'measured':
      return {};
  }
}

/** The unit of the options, else the one for the required travel. */
function comparedUnit(
  { required, damper }: CheckedOptions,
  model: CornerModel,
  travelPath: TravelPath,
): ComparedUnit | null {
  if (damper !== undefined) {
    return {
      extendedLength: damper.extendedLength,
      compressedLength: damper.compressedLength,
      basis: 'ordered',
    };
  }
  if (required?.bump === undefined || required.droop === undefined) return null;
  const { path } = travelPath;
  const { shock } = model;
  const length = bindMeasure(
    path.system,
    { length: [shock.outer, shock.inner], offset: shock.foreAftOffset },
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
    extendedLength: Math.max(...lengths),
    compressedLength: Math.min(...lengths),
    basis: 'requiredTravel',
  };
}

/** Names of the two units in sentences. */
const DONOR = 'the donor damper';
const UNITS: Readonly<Record<ComparedUnit['basis'], string>> = {
  ordered: 'the ordered unit',
  requiredTravel: 'the unit that the required travel needs',
};
/** States in words. */
const STATES: Readonly<Record<Donor['state'], string>> = {
  extended: 'fully extended',
  compressed: 'fully compressed',
  measured: 'somewhere between extended and compressed',
};

const capital = (text: string) => `${text[0].toUpperCase()}${text.slice(1)}`;

/** The unit to order against the donor: each sentence names both. */
function againstDonor(
  differences: Omit<DonorComparison, 'unit' | 'donorAsIs' | 'donorCutToFit' | 'sentences'>,
  { length, state }: Donor,
  { extendedLength, compressedLength, basis }: ComparedUnit,
  ride: number,
  words: Words,
): string[] {
  const unit = UNITS[basis];
  const bounds = basis === 'ordered' ? ['', '', ''] : [' or more', ' or less', ' or more'];
  const figures = [extendedLength, compressedLength, extendedLength - compressedLength].map(
    (value, k) => `${words.length(value)}${bounds[k]}`,
  );
  const than = (by: number | null, more: string, less: string, same: string) => {
    if (by === null) return [];
    const amount = words.length(Math.abs(by));
    return [Number.parseFloat(amount) === 0 ? same : `${amount} ${by > 0 ? more : less}`];
  };
  const { extendedLengthDifference, compressedLengthDifference, strokeDifference, deadLengthDifference } =
    differences;
  const parts = [
    ...than(extendedLengthDifference, 'longer extended', 'shorter extended', 'as long extended'),
    ...than(compressedLengthDifference, 'longer compressed', 'shorter compressed', 'as long compressed'),
    ...than(strokeDifference, 'more stroke', 'less stroke', 'the same stroke'),
    ...than(
      deadLengthDifference,
      'more dead length (compressed length minus stroke)',
      'less dead length (compressed length minus stroke)',
      'the same dead length (compressed length minus stroke)',
    ),
  ];
  const sentences = [
    `${capital(unit)} is ${figures[0]} extended and ${figures[1]} compressed, with a stroke of ${figures[2]}.`,
  ];
  if (parts.length > 0) sentences.push(`${capital(unit)} against ${DONOR}: ${parts.join(', ')}.`);
  const [atRide] = than(
    differences.designLengthDifference,
    `longer than ${DONOR}`,
    `shorter than ${DONOR}`,
    `as long as ${DONOR}`,
  );
  sentences.push(
    `At design ride height ${unit} is ${words.length(ride)} long, ${atRide} ${STATES[state]} (${words.length(length)}).`,
  );
  if (state !== 'measured') return sentences;
  const beyond = (by: number, way: string, end: string) =>
    `${capital(DONOR)} measured ${words.length(by)} ${way} than ${unit} ${end}: it differs there by at least that.`;
  if (length > extendedLength) sentences.push(beyond(length - extendedLength, 'longer', 'fully extended'));
  if (length < compressedLength)
    sentences.push(beyond(compressedLength - length, 'shorter', 'fully compressed'));
  return sentences;
}

/** The donor by itself: as it is, and cut to fit at design ride height. */
function donorAlone(donor: Donor, known: Known, ride: number, words: Words): string[] {
  const { length, state } = donor;
  const fitted = asItIs(donor, known, ride, words);
  if (state === 'measured') return [fitted];
  const [side, moved] = [state === 'extended' ? 'droop' : 'bump', length > ride ? 'Cut' : 'Lengthened'];
  const lost = `${STATES[state]} at design ride height, ${DONOR} has no ${side} travel`;
  if (Math.abs(length - ride) <= TAPE) return [`Fitted as it is, ${lost}.`];
  return [fitted, `${moved} to fit and ${lost}.`];
}

function asItIs(
  { length, state }: Donor,
  { extended, compressed }: Known,
  ride: number,
  words: Words,
): string {
  const at = `design ride height (${words.length(ride)} eye to eye)`;
  if (compressed !== undefined && compressed > ride + TAPE) {
    return `Fitted as it is, ${DONOR} is ${words.length(compressed - ride)} too long for ${at}, even fully compressed.`;
  }
  if (extended !== undefined && extended < ride - TAPE) {
    return `Fitted as it is, ${DONOR} is ${words.length(ride - extended)} too short for ${at}, even fully extended.`;
  }
  if (state === 'measured') {
    const by = words.length(Math.abs(length - ride));
    const where =
      Math.abs(length - ride) <= TAPE
        ? 'its length at design ride height'
        : `${by} ${length > ride ? 'more' : 'less'} than ${at}`;
    return `${capital(DONOR)} measured ${words.length(length)} ${STATES[state]}, ${where}; measure its extended and compressed lengths to know how far it goes from there.`;
  }
  const ways = [
    ...(extended === undefined ? [] : [`extend by ${words.length(Math.max(0, extended - ride))}`]),
    ...(compressed === undefined ? [] : [`compress by ${words.length(Math.max(0, ride - compressed))}`]),
  ];
  const missing =
    ways.length === 2
      ? ''
      : `; give its stroke to know how far it can ${state === 'extended' ? 'compress' : 'extend'}`;
  return `Fitted as it is, ${DONOR} can ${ways.join(' and ')} from ${at}${missing}.`;
}
