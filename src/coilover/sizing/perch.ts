import { GRAVITY } from '../../units.ts';
import { restUnder } from '../wheel.ts';
import { freeLengthOf } from './listed-springs.ts';
import type { AxleState } from './state.ts';

/** Where the car stands with the perch at either end of its thread: travel from the drawn ride height, mm, bump + is low. */
export interface PerchRange {
  /** With the seats as near to the eyes as they go, and as far. */
  readonly travelAtMin: number;
  readonly travelAtMax: number;
  /** Whether the drawn ride height lies between. */
  readonly reachesDesign: boolean;
}

/** Ride heights within reach of a perch; null where its range or the spring's free length is not known. */
export function perchRange({
  given,
  spring,
  shock,
  coilover,
  mass,
  ends,
  rest,
}: AxleState): PerchRange | null {
  const { perch, helper } = given.sizing;
  if (
    perch?.min === undefined ||
    perch.max === undefined ||
    spring?.freeLength == null ||
    coilover === null ||
    mass === null ||
    rest === null
  ) {
    return null;
  }
  const free = freeLengthOf(spring.freeLength, helper);
  const standing = (setting: number) =>
    restUnder(shock, { ...coilover, loose: setting + free }, mass.sprung * GRAVITY, ends).travel;
  const [travelAtMin, travelAtMax] = [standing(perch.min), standing(perch.max)];
  return { travelAtMin, travelAtMax, reachesDesign: travelAtMin >= 0 && travelAtMax <= 0 };
}
