import type { AxleSizing } from '../../coilover/sizing/result.ts';
import {
  ASSUMED_CLEARANCE,
  type MinLengthSource,
  type SpringLengths,
} from '../../coilover/springs/min-length.ts';
import type { BearingUse } from '../../corner/limits/misalignment.ts';
import type { Quantity, Units } from '../../units.ts';
import { givenInBoth, inBoth } from '../../units.ts';

/** Writes a value in both units, those of the file first. */
export interface Say {
  (value: number, quantity: Quantity | 'ratio'): string;
  /** The same for a value that the file gives, with all its digits. */
  given(value: number, quantity: Quantity): string;
}

export function sayIn(units: Units): Say {
  return Object.assign((value: number, quantity: Quantity | 'ratio') => inBoth(value, quantity, units), {
    given: (value: number, quantity: Quantity) => givenInBoth(value, quantity, units),
  });
}

const BOLTS: Readonly<Record<string, string>> = {
  longitudinal: 'bolt axis longitudinal',
  inPlane: 'bolt axis in the transverse plane, square to the coilover',
};

/** One end of a coilover in words: what it is, its bore, its width, its bolt, the misalignment; null where nothing is known. */
export function endWords({ input, bearings }: AxleSizing, end: 'mount' | 'chassis', say: Say): string | null {
  const wanted = input.sizing?.order?.mounts?.[end];
  const given = input.limits.bearings;
  const bearing = end === 'mount' ? given?.mount : (given?.chassis ?? given?.otherEnd);
  const use = end === 'mount' ? bearings.mount : (bearings.chassis ?? bearings.otherEnd);
  if (wanted === undefined && bearing === undefined) return null;
  const { type, bore, width, spacers } = wanted ?? {};
  const parts = [
    type === 'fork' ? 'clevis' : type,
    bore === undefined ? undefined : `${type === 'stud' ? 'thread' : 'bore'} ${say.given(bore, 'length')}`,
    width === undefined ? undefined : `width ${say.given(width, 'length')}`,
    spacers === undefined ? undefined : `spacers: ${spacers}`,
    bearing === undefined ? undefined : BOLTS[bearing.boltAxis],
    use === undefined ? undefined : misalignmentWords(use),
  ];
  return parts.filter((part) => part !== undefined).join(', ');
}

/** What a bearing uses, and apart from that what it allows. */
function misalignmentWords({ misalignment: { min, max }, rating }: BearingUse): string {
  const [low, high] = [min, max].map(signedAngle);
  const used = low === high ? `${low} deg over the travel` : `${low} to ${high} deg from ride height`;
  return `misalignment used ${used}; bearing rating ±${rating} deg each side`;
}

function signedAngle(angle: number): string {
  const text = angle.toFixed(1);
  if (Number(text) === 0) return '0.0';
  return angle > 0 ? `+${text}` : text;
}

/** How the minimum length of a spring is known. */
const MIN_LENGTH_SOURCES: Readonly<Record<MinLengthSource, string>> = {
  given: '',
  wire: ', from its wire',
  estimated: ', to be agreed: estimated from rate, solid length and inner diameter',
  assumed: `, to be agreed: the solid length and ${100 * ASSUMED_CLEARANCE} % of it`,
};

/** The minimum permissible length of a spring, and how it is known; null where nothing is. */
export function minLengthWords({ minLength, minLengthSource }: SpringLengths, say: Say): string | null {
  if (minLength === null || minLengthSource === null) return null;
  return `minimum permissible length ${minLengthSource === 'given' ? say.given(minLength, 'length') : say(minLength, 'length')}${MIN_LENGTH_SOURCES[minLengthSource]}`;
}
