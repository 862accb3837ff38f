/**
 * Geometry of a double wishbone from the places of its points alone, no part of it from the library.
 *
 * Rotation rates: p, q the arms from inner to outer point, r from lower to upper ball joint. p + r - q is constant
 * and every vector turns with its body, v' = w v⊥, so that w_p p + w_r r - w_q q = 0; three vectors of the plane
 * satisfy p (r×q) + r (q×p) + q (p×r) = 0, hence, up to the speed of the motion,
 *
 *     w_p = r×q,  w_r = q×p,  w_q = r×p;     w_p' = (w_q - w_r) r·q,  w_r' = (w_p - w_q) q·p
 */
import type { CornerInput, Point } from '../judges/circle-intersection.ts';

/** Ball joints of a pose; the inner points are those of the input. */
export interface BallJoints {
  readonly lowerOuter: Point;
  readonly upperOuter: Point;
}

/** A point's velocity and acceleration at the speed of `rates`. */
export interface Carried {
  readonly first: Point;
  readonly second: Point;
}

/** How a point fixed to the upright moves, at a speed of the motion that is the same for all points of the pose. */
export function carriedByUpright(input: CornerInput, joints: BallJoints, point: Point): Carried {
  const { p, q, r } = vectors(input, joints);
  const [wp, wr, wq] = [cross(r, q), cross(q, p), cross(r, p)];
  const dwp = (wq - wr) * dot(r, q);
  const dwr = (wp - wq) * dot(q, p);
  const s = minus(point, joints.lowerOuter);
  return {
    first: [-wp * p[1] - wr * s[1], wp * p[0] + wr * s[0]],
    second: [
      -dwp * p[1] - wp * wp * p[0] - dwr * s[1] - wr * wr * s[0],
      dwp * p[0] - wp * wp * p[1] + dwr * s[0] - wr * wr * s[1],
    ],
  };
}

/**
 * How much farther the fastest point of the upright goes than the driven one rises, 1 or more; it grows without
 * bound towards a dead point, and with it every error of a pose whose lengths are right to rounding.
 */
export function conditioning(
  input: CornerInput,
  pose: BallJoints & { readonly wheelCentre: Point; readonly contactPatch: Point },
  travelReference: 'contactPatch' | 'wheelCentre' = 'contactPatch',
): number {
  const speed = (point: Point) => Math.hypot(...carriedByUpright(input, pose, point).first);
  const fastest = Math.max(
    ...[pose.lowerOuter, pose.upperOuter, pose.wheelCentre, pose.contactPatch].map(speed),
  );
  return Math.max(1, fastest / Math.abs(carriedByUpright(input, pose, pose[travelReference]).first[1]));
}

/** Where the lines of the two arms meet; null when they are parallel to rounding. */
export function meetingOfArms(input: CornerInput, joints: BallJoints): Point | null {
  const { p, q } = vectors(input, joints);
  const a = input.lowerArm.inner;
  const turn = cross(p, q);
  if (Math.abs(turn) < 1e-12 * Math.hypot(...p) * Math.hypot(...q)) return null;
  const share = cross(minus(input.upperArm.inner, a), q) / turn;
  return [a[0] + share * p[0], a[1] + share * p[1]];
}

/** Direction from one point to another, degrees from +y, counter-clockwise. */
export function direction(from: Point, to: Point): number {
  return (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
}

/** Largest coordinate of an input: what its numbers are rounded at. */
export function magnitude(input: CornerInput): number {
  const { lowerArm, upperArm, wheel, coilover } = input;
  const points = [
    ...[lowerArm.inner, lowerArm.outer, upperArm.inner, upperArm.outer],
    ...[wheel.centre, coilover.mount, coilover.chassisMount],
    ...('contactPatch' in wheel ? [wheel.contactPatch] : []),
  ];
  return Math.max(...points.flat().map(Math.abs));
}

function vectors({ lowerArm, upperArm }: CornerInput, { lowerOuter, upperOuter }: BallJoints) {
  return {
    p: minus(lowerOuter, lowerArm.inner),
    q: minus(upperOuter, upperArm.inner),
    r: minus(upperOuter, lowerOuter),
  };
}

const minus = (u: Point, v: Point): Point => [u[0] - v[0], u[1] - v[1]];
const dot = (u: Point, v: Point): number => u[0] * v[0] + u[1] * v[1];
const cross = (u: Point, v: Point): number => u[0] * v[1] - u[1] * v[0];
