// A unit is known by two lengths: with the stroke S and the dead length D (its body, with all that does not move in it),
//
//   compressed = D + S,   extended = D + 2 S
//
// A length alone is one of the two, or lies between, as its state says. Two comparisons follow: the unit to order against the donor, and the donor by
// itself at ride height, as it is and cut to fit.

import type { Diagnostic } from '../../diagnostic.ts';
import type { Donor } from '../../document/inputs.ts';
import { extremes } from '../../linkage/extremes.ts';
import { bindMeasure } from '../../linkage/measure.ts';
import { reader, readRows } from '../../linkage/reader.ts';
import type { CornerModel } from '../model.ts';
import { type Eyes, lengthOf, marginToLength } from './damper.ts';
import { firstCrossing, type Side } from './first-crossing.ts';
import type { CheckedOptions } from './options.ts';
import type { TravelPath } from './travel-path.ts';

/** How far a unit can go from ride height, mm; null where it can't be told. */
export interface StrokeLeft {
  readonly extension: number | null;
  readonly compression: number | null;
}

/**
 * The new damper against a donor damper, and the donor by itself: mm, null where it can't be known. Differences are those of the new damper
 * less the donor: positive where the new damper is longer.
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
  /** Wheel travel to which the donor goes, fitted as it is without a bump stop, mm, bump +; null where that is not known or it ends nothing. */
  readonly donorTravel: Readonly<Record<Side, number | null>>;
  /** The same, one thing each. */
  readonly diagnostics: readonly Diagnostic[];
}

/** The new damper, `damper` of the options; without it the one that the required travel needs, without a bump stop; lengths in mm. */
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
  const travelTo = (length: number | undefined, side: Side) =>
    length === undefined
      ? null
      : (firstCrossing(travelPath, [marginToLength(eyes, length, side === 'droop')], side)?.travel ?? null);
  const donorTravel = {
    bump: travelTo(known.compressed, 'bump'),
    droop: travelTo(known.extended, 'droop'),
  };
  return {
    ...differences,
    unit,
    donorTravel,
    donorAsIs: { extension: less(known.extended, ride), compression: less(ride, known.compressed) },
    donorCutToFit: cutToFit(donor),
    diagnostics: [
      ...(unit === null ? [] : againstDonor(differences, donor, unit, ride)),
      donorAlone(donor, known, ride),
      ...donorTravelOn(donorTravel, options.required ?? {}),
    ],
  };
}

/** Wheel travel of a donor against what is required, mm, both positive; nothing where neither is known. */
export function donorTravelOn(
  { bump, droop }: DonorComparison['donorTravel'],
  required: { readonly [side in Side]?: number | null | undefined },
): Diagnostic[] {
  if (bump === null && droop === null) return [];
  return [
    note('donorTravel', {
      bump,
      droop: droop === null ? null : Math.abs(droop),
      bumpRequired: required.bump ?? null,
      droopRequired: required.droop ?? null,
    }),
  ];
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

const note = (code: string, values: Diagnostic['values']): Diagnostic => {
  return { code, severity: 'note', path: 'donor', values };
};

/** The unit to order against the donor. */
function againstDonor(
  differences: Omit<DonorComparison, 'unit' | 'donorAsIs' | 'donorCutToFit' | 'donorTravel' | 'diagnostics'>,
  { length, state }: Donor,
  { extendedLength, compressedLength, basis }: ComparedUnit,
  rideLength: number,
): Diagnostic[] {
  const lengths = {
    extendedLength: differences.extendedLengthDifference,
    compressedLength: differences.compressedLengthDifference,
    stroke: differences.strokeDifference,
    deadLength: differences.deadLengthDifference,
  };
  const stroke = extendedLength - compressedLength;
  const found = [note('comparedUnit', { basis, extendedLength, compressedLength, stroke })];
  if (Object.values(lengths).some((one) => one !== null))
    found.push(note('unitAgainstDonor', { basis, ...lengths }));
  const difference = differences.designLengthDifference;
  found.push(note('unitAtRideHeight', { basis, rideLength, difference, length, state }));
  if (state !== 'measured') return found;
  if (length > extendedLength)
    found.push(note('donorOutsideUnit', { basis, by: length - extendedLength, state: 'extended' }));
  if (length < compressedLength)
    found.push(note('donorOutsideUnit', { basis, by: length - compressedLength, state: 'compressed' }));
  return found;
}

/** The donor by itself, as it is. */
function donorAlone(donor: Donor, known: Known, ride: number): Diagnostic {
  const { length, state } = donor;
  if (state !== 'measured' && Math.abs(length - ride) <= TAPE) return note('donorAtEnd', { state });
  return asItIs(donor, known, ride);
}

function asItIs({ length, state }: Donor, { extended, compressed }: Known, rideLength: number): Diagnostic {
  if (compressed !== undefined && compressed > rideLength + TAPE) {
    return note('donorTooLong', { by: compressed - rideLength, rideLength });
  }
  if (extended !== undefined && extended < rideLength - TAPE) {
    return note('donorTooShort', { by: rideLength - extended, rideLength });
  }
  if (state === 'measured') {
    return note('donorMeasuredBetween', { length, difference: length - rideLength, rideLength });
  }
  return note('donorStrokeLeft', {
    extension: extended === undefined ? null : Math.max(0, extended - rideLength),
    compression: compressed === undefined ? null : Math.max(0, rideLength - compressed),
    rideLength,
  });
}
