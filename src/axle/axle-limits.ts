// The limits of an axle are those of its wheels. A limit of a wheel is a travel z; at a roll p the axle comes to it at the heave
//
//   e = z + s y(z) tan p,        y the half-track there, s = 1 for the left wheel and -1 for the right one,
//
// so that over tan p each limit is a straight line, and the largest roll is where a bump line of one wheel meets the droop line of the other.
// The third spring has its length from both wheels: its limits are found over the heave, roll by roll.

import type { LimitCause, Limits } from '../corner/limits/limits.ts';
import { fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { DEGREES } from '../units.ts';
import type { AxleLinkage } from './axle.ts';
import { lengthAcross } from './cross-spring.ts';
import { MOST_ROLL } from './sweep-axle.ts';
import { noEnds, takeEnds } from './wheel-at.ts';
import { layWheels, readAlong, travelsAt, type WheelCurve } from './wheel-curve.ts';

/** What ends the travel of each wheel, and the rolls at which the range of heave is given. */
export interface AxleLimitOptions {
  /** Of the left corner by itself, found by `limits`. */
  readonly left: Limits;
  /** Of the right corner; those of the left one if left out. */
  readonly right?: Limits;
  /** Degrees, left side up positive; default -5 to 5 by 1. */
  readonly roll?: readonly number[];
}

/** What ends the travel of a wheel of an axle, or of both. */
export interface WheelLimit {
  /** null for the third spring, which is of both wheels. */
  readonly side: 'left' | 'right' | null;
  /** Travel of that wheel, mm, bump positive; null for the third spring. */
  readonly travel: number | null;
  /** As for a corner, the lever of the bar over its centre, or the third spring at an end of its lengths. */
  readonly cause: LimitCause | 'leverOverCentre' | 'thirdSpringCompressed' | 'thirdSpringExtended';
  /** Which of several, as in `Limit`; empty where there is but one. */
  readonly part: string;
}

/** How far an axle goes at a roll; null where nothing ends it. */
export interface HeaveRange {
  /** Degrees, left side up positive. */
  readonly roll: number;
  /** The first limit in bump of both wheels and the heave there, mm. */
  readonly bump: HeaveLimit | null;
  /** The first limit in droop of both wheels; its heave is above that of `bump` beyond the largest roll, where no pose is left. */
  readonly droop: HeaveLimit | null;
  /** Heave at which each wheel comes to its bump stop, mm; null for one without, or one that does not come to it. */
  readonly bumpStopContact: Readonly<Record<'left' | 'right', number | null>>;
}

/** A limit of a wheel or of the third spring, and the heave at which the axle comes to it. */
export interface HeaveLimit extends WheelLimit {
  /** mm, bump of both wheels positive. */
  readonly heave: number;
}

/** The largest roll to one side: one wheel in bump and the other in droop, both at their limits, or the third spring in place of one. */
export interface RollLimit {
  /** Degrees, left side up positive. */
  readonly roll: number;
  /** mm, bump of both wheels positive. */
  readonly heave: number;
  readonly left: WheelLimit;
  readonly right: WheelLimit;
}

/** Where the travel of an axle ends. */
export interface AxleLimits {
  /** One for each of the rolls in the options. */
  readonly ranges: readonly HeaveRange[];
  /** The largest rolls, left side up and right side up; null where a wheel has no limit there. */
  readonly leftUp: RollLimit | null;
  readonly rightUp: RollLimit | null;
}

const ROLLS = [-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5];

/**
 * Where the travel of an axle ends over heave and roll: a pose is reached if neither wheel is past a limit of its own, nor the third
 * spring past an end of its lengths.
 *
 * `groundContact` is that of a level chassis: in roll one side of it comes nearer to the ground, the other goes farther away.
 *
 * @throws InputError for invalid options, with every issue.
 */
export function axleLimits(axle: AxleLinkage, options: AxleLimitOptions): AxleLimits {
  const { rolls, rangeAt, leftUp, rightUp } = limitsOver(axle, options);
  return { ranges: rolls.map(rangeAt), leftUp, rightUp };
}

/** The same as a function of the roll, in degrees, beside the rolls that were asked for. */
export function limitsOver(
  axle: AxleLinkage,
  options: AxleLimitOptions,
): Pick<AxleLimits, 'leftUp' | 'rightUp'> & {
  readonly rolls: readonly number[];
  readonly rangeAt: (roll: number) => HeaveRange;
} {
  const { alone, rolls } = checked(options);
  const { ends, contacts, between } = placesOf(axle, alone);
  const rangeAt = (roll: number): HeaveRange => {
    const tangent = Math.tan(roll / DEGREES);
    const lie = (way: Way) => ends[way].map((end) => ({ ...end.limit, heave: heaveAt(end, tangent) }));
    const contact = (place: Place | null) => (place === null ? null : heaveAt(place, tangent));
    return {
      roll,
      bump: first([...lie('bump'), ...between('bump', roll)], (a, b) => a.heave < b.heave),
      droop: first([...lie('droop'), ...between('droop', roll)], (a, b) => a.heave > b.heave),
      bumpStopContact: { left: contact(contacts.left), right: contact(contacts.right) },
    };
  };
  const find = (side: Side, way: Way) => ends[way].find(({ limit }) => limit.side === side) ?? null;
  return {
    rolls,
    rangeAt,
    leftUp: within(rollLimit(find('left', 'droop'), find('right', 'bump')), rangeAt),
    rightUp: within(rollLimit(find('left', 'bump'), find('right', 'droop')), rangeAt),
  };
}

type Side = 'left' | 'right';
type Way = 'bump' | 'droop';

/** A travel of a wheel, and its half-track there, to the left. */
interface Place {
  readonly travel: number;
  readonly y: number;
}

interface End extends Place {
  readonly limit: WheelLimit;
}

function heaveAt({ travel, y }: Place, tangent: number): number {
  return travel + y * tangent;
}

function first(found: readonly HeaveLimit[], isNearer: (a: HeaveLimit, b: HeaveLimit) => boolean) {
  return found.reduce<HeaveLimit | null>(
    (best, one) => (best === null || isNearer(one, best) ? one : best),
    null,
  );
}

/** Where two such lines of the left and the right wheel meet. */
function rollLimit(left: End | null, right: End | null): RollLimit | null {
  if (left === null || right === null) return null;
  const tangent = (right.travel - left.travel) / (left.y - right.y);
  return {
    roll: Math.atan(tangent) * DEGREES,
    // Both lines' mean, which a mirror image leaves as it is.
    heave: 0.5 * (heaveAt(left, tangent) + heaveAt(right, tangent)),
    left: left.limit,
    right: right.limit,
  };
}

/** The largest roll where the third spring may end it before the wheels do. */
function within(wheels: RollLimit | null, rangeAt: (roll: number) => HeaveRange): RollLimit | null {
  if (wheels === null) return null;
  const room = (roll: number) => {
    const { bump, droop } = rangeAt(roll);
    return bump === null || droop === null ? Number.POSITIVE_INFINITY : bump.heave - droop.heave;
  };
  const { side: bumpSide } = rangeAt(wheels.roll).bump ?? {};
  const { side: droopSide } = rangeAt(wheels.roll).droop ?? {};
  if ((bumpSide !== null && droopSide !== null) || !(room(0) > 0)) return wheels;
  const roll = zeroBetween(room, 0, wheels.roll);
  const { bump, droop } = rangeAt(roll);
  if (bump === null || droop === null) return wheels;
  const [left, right] = wheels.roll > 0 ? [droop, bump] : [bump, droop];
  return { roll, heave: 0.5 * (left.heave + right.heave), left: limitOf(left), right: limitOf(right) };
}

function limitOf({ heave: _, ...limit }: HeaveLimit): WheelLimit {
  return limit;
}

/** The limits of both wheels in bump and in droop, with the bar's, and where their bump stops are touched. */
function placesOf(axle: AxleLinkage, alone: Readonly<Record<Side, Limits>>) {
  const reach = Math.max(
    ...SIDES.flatMap((side) => WAYS.map((way) => Math.abs(alone[side][way]?.travel ?? 0))),
  );
  const curves = layWheels(axle, lengthsEnd(axle) ? Math.max(reach, FARTHEST) : reach, 0);
  const placeOf = (w: number, travel: number): Place => ({
    travel,
    y: curves[w].side * halfTrackAt(curves[w], travel),
  });
  const found = (way: Way) =>
    SIDES.flatMap((side, w): End[] => {
      const limit = nearer(alone[side][way], curves[w].end[way], side);
      return limit === null ? [] : [{ limit, ...placeOf(w, limit.travel) }];
    });
  const contact = (side: Side, w: number) => {
    const met = alone[side].events.find((event) => event.side === 'bump');
    return met === undefined || met.travel > curves[w].end.bump.travel ? null : placeOf(w, met.travel);
  };
  return {
    ends: { bump: found('bump'), droop: found('droop') } satisfies Record<Way, End[]>,
    contacts: { left: contact('left', 0), right: contact('right', 1) } satisfies Record<Side, Place | null>,
    between: (way: Way, roll: number) => thirdSpringLimit(axle, curves, way, roll),
  };
}

/** Heave as far as which the third spring is looked at, mm. */
const FARTHEST = 250;
/** Places at which its length is looked for over the heave. */
const LOOKS = 32;

function lengthsEnd({ thirdSpring }: AxleLinkage): boolean {
  return (
    thirdSpring !== null && (thirdSpring.compressedLength !== null || thirdSpring.extendedLength !== null)
  );
}

/** The heave at which the third spring comes to its compressed length in bump, or its extended one in droop; none where it does not. */
function thirdSpringLimit(
  { thirdSpring }: AxleLinkage,
  curves: readonly WheelCurve[],
  way: Way,
  roll: number,
): HeaveLimit[] {
  const end = way === 'bump' ? thirdSpring?.compressedLength : thirdSpring?.extendedLength;
  if (end === undefined || end === null) return [];
  const angle = roll / DEGREES;
  const tangent = Math.tan(angle);
  // Heaves that both wheels get to at this roll.
  const [low, high] = (['droop', 'bump'] as const).map((side) => {
    const heaves = curves.map((curve) => {
      const { travel } = curve.end[side];
      return heaveAt({ travel, y: curve.side * halfTrackAt(curve, travel) }, tangent);
    });
    return side === 'droop' ? Math.max(...heaves) : Math.min(...heaves);
  });
  if (!(low < high)) return [];
  const over = (heave: number) => (way === 'bump' ? 1 : -1) * (lengthAt(curves, heave, angle) - end);
  const hair = (high - low) * 1e-9;
  const heaves = Array.from(
    { length: LOOKS + 1 },
    (_, k) => low + hair + ((high - low - 2 * hair) * k) / LOOKS,
  );
  if (way === 'droop') heaves.reverse();
  const cause = way === 'bump' ? 'thirdSpringCompressed' : 'thirdSpringExtended';
  const limit = { side: null, travel: null, cause, part: '' } as const;
  // In bump it is longer at first, in droop shorter; if not, no pose is left.
  if (!(over(heaves[0]) > 0)) return [{ ...limit, heave: heaves[0] }];
  const k = heaves.findIndex((heave) => !(over(heave) > 0));
  return k < 0 ? [] : [{ ...limit, heave: zeroBetween(over, heaves[k - 1], heaves[k]) }];
}

/** Length of the third spring in a pose, mm. */
function lengthAt(curves: readonly WheelCurve[], heave: number, angle: number): number {
  const ends = curves.map((curve) => {
    const read = noEnds();
    const travel = travelsAt(curve, Float64Array.of(heave), Float64Array.of(angle));
    readAlong(curve.all, curve.drawn, travel, (m, row) => takeEnds(m, row, curve.ends, read));
    return read.thirdSpring;
  });
  const across = { value: 0, left: 0, right: 0, leftLeft: 0, leftRight: 0, rightRight: 0 };
  lengthAcross(ends[0], ends[1], across);
  return across.value;
}

const SIDES = ['left', 'right'] as const;
const WAYS = ['bump', 'droop'] as const;

/** What comes first: the wheel's own limit, or the lever of the bar. */
function nearer(
  limit: Limits[Way],
  { travel, status }: WheelCurve['end'][Way],
  side: Side,
): (WheelLimit & { readonly travel: number }) | null {
  const locks =
    status === 'leverOverCentre' && !(limit !== null && Math.abs(limit.travel) <= Math.abs(travel));
  if (locks) return { side, travel, cause: status, part: '' };
  return limit === null ? null : { side, travel: limit.travel, cause: limit.cause, part: limit.part };
}

function halfTrackAt(curve: WheelCurve, travel: number): number {
  let y = 0;
  readAlong(curve.halfTrack, curve.drawn, Float64Array.of(travel), (m, row) => {
    y = m[row];
  });
  return y;
}

function checked(options: AxleLimitOptions) {
  const faults = unknownOptions(options, ['left', 'right', 'roll']);
  refuse('axle limit options', faults);
  const { left, right = left, roll = ROLLS } = options;
  for (const [side, value] of Object.entries(options.right === undefined ? { left } : { left, right })) {
    if (!WAYS.every((way) => isLimit(value?.[way])))
      faults.push(fault('notLimits', side, { got: show(value) }));
  }
  if (!Array.isArray(roll) || !roll.every(Number.isFinite))
    faults.push(fault('notPlaces', 'roll', { got: show(roll), unit: 'degrees' }));
  else if (roll.some((degrees) => Math.abs(degrees) > MOST_ROLL))
    faults.push(fault('rollTooLarge', 'roll', { got: show(roll), most: MOST_ROLL }));
  refuse('axle limit options', faults);
  return { alone: { left, right }, rolls: roll };
}

function isLimit(limit: unknown): boolean {
  return limit === null || Number.isFinite((limit as { readonly travel?: unknown } | undefined)?.travel);
}
