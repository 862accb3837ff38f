/**
 * A strut corner in closed form. Shares no code with src.
 *
 * A the arm's pivot, P = A + p its ball joint, p at the angle t; T the top, fixed. The strut's axis, fixed in the upright,
 * passes through T and past P at a constant distance h, to the left of the direction u (from low to top) when h > 0. With
 * f = T - P and c = u·f = sqrt(f·f - h²):
 *
 *     f = c u - h u⊥   (P is off the axis by h u⊥),     so that u = (c f + h f⊥) / f·f
 *
 * Rates by t (w that of the upright): f' = -p⊥; h constant, h = u⊥·(P - T) = -u⊥·f gives, with (u⊥)' = -w u,
 *
 *     0 = -w u·f + u⊥·f'  ->  w = -u⊥·p⊥ / c = -u·p / c
 *     c' = w u⊥·f + u·f' = -w h - u·p⊥,     u' = w u⊥,     w' = (-(w u⊥·p + u·p⊥) - w c') / c
 *
 * Source: inverted slider-crank, as in any text on mechanisms; derivation here.
 */
import {
  across,
  carried,
  cross,
  dot,
  lengthAndRatio,
  type Moving,
  minus,
  type Point,
  plus,
  still,
  times,
  turnedAlong,
} from './plane.ts';

/** The input of `strut`, left-hand wheel, written down here a second time on purpose. */
export interface StrutCornerInput {
  readonly lowerArm: { readonly inner: Point; readonly outer: Point };
  readonly strut: { readonly topMount: Point; readonly lowerMount: Point };
  readonly wheel: { readonly centre: Point; readonly contactPatch: Point };
  readonly coilover?: {
    readonly on: 'lowerArm' | 'upright';
    readonly mount: Point;
    readonly chassisMount: Point;
    readonly foreAftOffset?: number;
  };
}

export interface StrutPose {
  /** mm, bump positive. */
  readonly travel: number;
  readonly points: Readonly<
    Record<'lowerOuter' | 'strutLower' | 'wheelCentre' | 'contactPatch' | 'shock', Point>
  >;
  readonly shockLength: number;
  readonly installationRatio: number;
  readonly installationRatioSlope: number;
  /** rad from the drawn pose, counter-clockwise: of arm and upright. */
  readonly armTurn: number;
  readonly uprightTurn: number;
  /** How far the fastest point goes for each mm of travel. */
  readonly fastest: number;
}

export interface StrutCorner {
  /** The pose with the arm turned by an angle, the ball joint below the top along the axis or, if so asked, above it; null where the axis does not reach. */
  atArm(turn: number, ball?: 'below' | 'above'): StrutPose | null;
}

export function strutCorner(input: StrutCornerInput): StrutCorner {
  const { lowerArm, strut, wheel, coilover } = input;
  const [A, T] = [lowerArm.inner, strut.topMount];
  const p0 = minus(lowerArm.outer, A);
  const along = minus(T, strut.lowerMount);
  const u0 = times(1 / Math.hypot(...along), along);
  const h = dot(across(u0), minus(lowerArm.outer, T));

  return {
    atArm(turn, ball = 'below') {
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      const p: Point = [cos * p0[0] - sin * p0[1], sin * p0[0] + cos * p0[1]];
      const P = carried(still(A), p, 1, 0);
      const f = minus(T, P.at);
      const square = dot(f, f);
      if (!(square > h * h)) return null;
      const c = (ball === 'below' ? 1 : -1) * Math.sqrt(square - h * h);
      const u = times(1 / square, plus(times(c, f), times(h, across(f))));
      const w = -dot(u, p) / c;
      const dc = -w * h - dot(u, across(p));
      const dw = (-(w * dot(across(u), p) + dot(u, across(p))) - w * dc) / c;
      const onUpright = (at: Point): Moving =>
        carried(P, turnedAlong(minus(at, lowerArm.outer), u0, u), w, dw);
      const onArm = (at: Point): Moving => carried(still(A), turnedAlong(minus(at, A), p0, p), 1, 0);
      const Z = onUpright(wheel.contactPatch);
      const low = onUpright(strut.lowerMount);
      const moved =
        coilover === undefined ? low : (coilover.on === 'upright' ? onUpright : onArm)(coilover.mount);
      const fixed = still(coilover?.chassisMount ?? T);
      const centre = onUpright(wheel.centre);
      const speeds = [P, low, centre, Z, moved].map(({ first }) => Math.hypot(...first));
      return {
        travel: Z.at[1] - wheel.contactPatch[1],
        points: {
          lowerOuter: P.at,
          strutLower: low.at,
          wheelCentre: centre.at,
          contactPatch: Z.at,
          shock: moved.at,
        },
        ...lengthAndRatio(moved, fixed, coilover?.foreAftOffset ?? 0, Z),
        armTurn: turn,
        uprightTurn: Math.atan2(cross(u0, u), dot(u0, u)),
        fastest: Math.max(...speeds) / Math.abs(Z.first[1]),
      };
    },
  };
}
