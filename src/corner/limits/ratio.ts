// The installation ratio R = -dL/dz is zero where dL/ds is, s the arc length (up to a dead point dz/ds is not). With
// d the line between the end eyes and ' by s,  (L^2)' = 2 d . d'.  The margin d . d' / L0, L0 the drawn length, has the
// sign that makes it positive as drawn; unlike R it is smooth at dead points, and where L comes to nothing.
//
// It is zero where d or d' is, or where the two are square to each other: then the line of the coilover passes through the
// point about which the parts at its two ends turn against each other (their relative instant centre; against the
// chassis the pivot of an arm or a rocker, the instant centre of the upright).

import type { Diagnostic } from '../../diagnostic.ts';
import { type CornerModel, carrierOf, pivotOf } from '../model.ts';
import { type Bound, TOUCH } from './bound.ts';
import { type Eyes, lengthOf, lineOf } from './damper.ts';
import { type Ask, type Pose, TRAVEL, type TravelPath } from './travel-path.ts';

/** Rate of the line between the eyes by arc length. */
function lineRate({ inner, outer }: Eyes, pose: Pose): readonly [number, number] {
  return [pose[outer[0] + 1] - pose[inner[0] + 1], pose[outer[1] + 1] - pose[inner[1] + 1]];
}

/** Rate of half the squared length by arc length. */
function rateOf(eyes: Eyes, pose: Pose): number {
  const [y, z] = lineOf(eyes, pose);
  const [dy, dz] = lineRate(eyes, pose);
  return y * dy + z * dz;
}

/** Sign of the ratio as drawn: 1 where bump shortens the coilover, -1 where it lengthens it, 0 where neither. */
export function drawnSense(eyes: Eyes, { drawn }: TravelPath): number {
  const rate = rateOf(eyes, drawn) / lengthOf(eyes, drawn);
  return Math.abs(rate) <= TOUCH ? 0 : -Math.sign(rate);
}

/** The ratio at zero. Drawn there, it is met at once to both sides. */
export function ratioBound(eyes: Eyes, travelPath: TravelPath, reason: Reason): Bound<'ratioZero'> {
  const sense = drawnSense(eyes, travelPath);
  const scale = -sense / lengthOf(eyes, travelPath.drawn);
  return {
    cause: 'ratioZero',
    part: '',
    ways: [[sense === 0 ? () => 0 : (pose) => scale * rateOf(eyes, pose)]],
    path: '',
    met: reason,
    // Never: its margin is positive as drawn, or 0.
    misfit: (pose) => ({ code: 'ratioZero', values: { side: 'bump', travel: 0, ...reason(pose) } }),
  };
}

/** Why the ratio is zero in a pose where it is. */
export type Reason = (pose: Pose) => Diagnostic['values'];

/** Lengths, mm, and rates by that of the travel, below this count as nothing. */
const NOTHING = 1e-6;

/** Asks for what tells why the ratio is zero. */
export function askReason(model: CornerModel, eyes: Eyes, ask: Ask): Reason {
  const { shock, rocker, drawing } = model;
  const carriers = [shock.outer, shock.inner].map((eye) => carrierOf(model, eye));
  const parts = carriers.filter((body) => body !== null);
  const turns = parts.map((body) => ask({ turn: body }));
  /** An end that moves on no body: about what it turns can't be told. */
  const loose = carriers[0] === null || (carriers[1] === null && !drawing.ground.includes(shock.inner));
  const onRocker = rocker !== null && parts.length === 1 && parts[0] === rocker.body ? rocker : null;
  const rodEnd = onRocker && [ask({ x: onRocker.rod.outer }), ask({ y: onRocker.rod.outer })];
  return (pose) => {
    const nothing = (...rates: number[]) => Math.hypot(...rates) <= NOTHING * Math.abs(pose[TRAVEL + 1]);
    const standsStill = (place: readonly number[]) => nothing(...place.map((at) => pose[at + 1]));
    if (Math.hypot(...lineOf(eyes, pose)) <= NOTHING) return { why: 'eyesTogether' };
    if (nothing(...lineRate(eyes, pose))) {
      if (!standsStill(eyes.outer)) return { why: 'eyesMoveAlike' };
      return onRocker !== null && rodEnd !== null && !standsStill(rodEnd)
        ? { why: 'rockerStands', ...centreOf([carrierOf(model, onRocker.rod.outer)], drawing) }
        : { why: 'carrierStands' };
    }
    const turn = turns.reduce((sum, at, k) => sum + (k === 0 ? 1 : -1) * pose[at + 1], 0);
    // Over the size of a car such a turn moves nothing.
    if (loose || nothing(1000 * turn)) return { why: 'squareToMotion' };
    return { why: 'throughCentre', ...centreOf(parts, drawing) };
  };
}

/**
 * About what a part turns against the chassis, or two parts against each other: a `pivot`, or an `instantCentre`. What is on no part has
 * but the `direction` in which it moves.
 */
function centreOf(
  carriers: readonly (string | null)[],
  { ground, bodies }: CornerModel['drawing'],
): { readonly centre: 'pivot' | 'instantCentre' | 'direction'; readonly of: readonly string[] } {
  const of = carriers.filter((body) => body !== null);
  if (of.length === 0) return { centre: 'direction', of };
  const isPivot = of.length === 1 && pivotOf(bodies[of[0]], ground) !== undefined;
  return { centre: isPivot ? 'pivot' : 'instantCentre', of };
}
