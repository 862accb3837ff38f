// Misalignment that an end bearing of the coilover uses: the angle by which the coilover is out of square to the bolt,
//
//   sin(misalignment) = u . b,    L u = (d, x):  d the line from inner to outer eye in the plane, x their fore-aft distance
//
// with u the unit vector along the coilover in space and b along the bolt, turning with the body that holds it (bearing-misalignment.ts has where it reaches
// what the bearing allows). With ' the derivative by travel, s = u . b and L' = d . d' / L:
//
//   bolt longitudinal:   s = x / L,   s' = -x L' / L^2
//   bolt in the plane:   s = n x d / L with n = (cos a, sin a) the drawn direction of d turned with the body,
//                        (n x d)' = n x d' - a' (n . d),   s' = (n x d)' / L - s L' / L
//
// Largest and smallest s stand at the ends of the travel or where s' = 0.

import type { Bearing, LimitOptions } from '../../document/inputs.ts';
import { type Motion, trace } from '../../linkage/motion.ts';
import { zeroBetween } from '../../numerics/zero.ts';
import { DEGREES } from '../../units.ts';
import { type CornerModel, carrierOf } from '../model.ts';

/** Misalignment of an end bearing of the coilover, and its rating; degrees. */
export interface BearingUse {
  /**
   * Misalignment used over a travel: 0 where the coilover is square to the bolt. With the bolt in the plane it is counted from ride height,
   * positive where the coilover turns counter-clockwise against the body that holds the bolt, seen from the front (left-hand wheel); with a
   * longitudinal bolt it is the inclination out of the plane, with the sign of the coilover's fore-aft offset.
   */
  readonly misalignment: { readonly min: number; readonly max: number };
  /** Misalignment that the bearing allows to each side. */
  readonly rating: number;
}

/** The bearings that are known, by their end. */
export type BearingUses = { readonly [end in keyof NonNullable<LimitOptions['bearings']>]?: BearingUse };

/** Intervals of the travel in which a turning point is looked for. */
const PLACES = 64;

/** What the bearings use between two travels, mm, droop negative. */
export function bearingUses(
  model: CornerModel,
  ends: LimitOptions['bearings'],
  travel: { readonly droop: number; readonly bump: number },
): BearingUses {
  const known = Object.entries(ends ?? {}).filter((entry): entry is [keyof BearingUses, Bearing] => {
    return entry[1] !== undefined;
  });
  if (known.length === 0) return {};
  const motion = trace(model.drawing, { driver: { y: model.contactPatch } });
  const heights = Array.from({ length: PLACES + 1 }, (_, k) => {
    const at = motion.drawn + travel.droop + ((travel.bump - travel.droop) * k) / PLACES;
    return Math.min(motion.high.at, Math.max(motion.low.at, at));
  });
  return Object.fromEntries(
    known.map(([end, { boltAxis, maxMisalignment }]): [keyof BearingUses, BearingUse] => {
      const sine =
        boltAxis === 'longitudinal' ? sineLongitudinal(model, motion) : sineInPlane(model, motion, end);
      const { least, most } = range(sine, heights);
      const angle = (s: number) => Math.asin(Math.min(1, Math.max(-1, s))) * DEGREES;
      return [end, { misalignment: { min: angle(least), max: angle(most) }, rating: maxMisalignment }];
    }),
  );
}

/** s at a height of the contact patch, and its derivative; null where there is none. */
type Sine = (at: number) => { readonly value: number; readonly slope: number | null };

/** The smallest and the largest value from the first height to the last. */
function range(sine: Sine, heights: readonly number[]): { least: number; most: number } {
  const places = heights.map(sine);
  const values = places.map(({ value }) => value);
  const slopeAt = (height: number) => sine(height).slope ?? 0;
  const slopes = places.map(({ slope }) => slope ?? 0);
  for (let k = 1; k < heights.length; k++) {
    if (slopes[k - 1] * slopes[k] < 0)
      values.push(sine(zeroBetween(slopeAt, heights[k - 1], heights[k])).value);
  }
  return { least: Math.min(...values), most: Math.max(...values) };
}

function sineLongitudinal(
  { shock: { outer, inner, foreAftOffset: offset } }: CornerModel,
  motion: Motion,
): Sine {
  const length = motion.read({ length: [outer, inner], offset });
  return (at) => {
    const { value, first } = length(at);
    return { value: offset / value, slope: first === null ? null : (-offset * first) / (value * value) };
  };
}

function sineInPlane(model: CornerModel, motion: Motion, end: keyof BearingUses): Sine {
  const { points } = model.drawing;
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const coordinates = [{ x: outer }, { x: inner }, { y: outer }, { y: inner }].map((one) => motion.read(one));
  const body = carrierOf(model, end === 'mount' ? outer : inner);
  const turn = body === null ? null : motion.read({ turn: body });
  const drawn = Math.atan2(points[outer][1] - points[inner][1], points[outer][0] - points[inner][0]);
  return (at) => {
    const [yo, yi, zo, zi] = coordinates.map((read) => read(at));
    const turned = turn?.(at) ?? { value: 0, first: 0 };
    const [y, z] = [yo.value - yi.value, zo.value - zi.value];
    const [c, s] = [Math.cos(drawn + turned.value), Math.sin(drawn + turned.value)];
    const length = Math.hypot(y, z, offset);
    const value = (c * z - s * y) / length;
    if ([yo, yi, zo, zi, turned].some(({ first }) => first === null)) return { value, slope: null };
    const [dy, dz] = [Number(yo.first) - Number(yi.first), Number(zo.first) - Number(zi.first)];
    const across = c * dz - s * dy - Number(turned.first) * (c * y + s * z);
    const stretch = (y * dy + z * dz) / length;
    return { value, slope: (across - value * stretch) / length };
  };
}
