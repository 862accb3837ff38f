/**
 * A rod and rocker on a double wishbone in closed form: two circles for the arms (circle-intersection.ts), and two more
 * for the rocker. Shares no code with src.
 *
 * M the rod's end on the wheel side, moving with a part whose motion is known; N its end on the rocker, O the rocker's
 * pivot; n = N - O, l = N - M, e = M - O, r = |n|, L = |l| as drawn:
 *
 *     D = e·e,  m = r² - L² + D,  H = 4 r² D - m²,   n = (m e ± sqrt(H) e⊥) / (2 D)
 *
 * with the sign of the drawing; it could change where rod and rocker are in line (H = 0), where the motion ends.
 * The rocker turns at w, N' = w n⊥; the rod keeps its length, l·(N' - M') = 0, and once more differentiated:
 *
 *     w = l·M' / l·n⊥,     w' = (l·M'' + w² l·n - |N' - M'|²) / l·n⊥
 *
 * The wishbones' own rates, up to the speed of the motion (derivation in circle-intersection.ts):
 *     w_p = r×q,  w_r = q×p,  w_q = r×p;     w_p' = (w_q - w_r) r·q,  w_r' = (w_p - w_q) q·p,  w_q' = (w_p - w_r) r·p
 *
 * Source: circle intersection and differentiation, elementary.
 */
import { type CircleCorner, circleCorner, drawnContactPatch } from './circle-intersection.ts';
import {
  across,
  carried,
  cross,
  dot,
  lengthAndRatio,
  type Moving,
  minus,
  type Point,
  still,
  turnedAlong,
} from './plane.ts';

type Part = 'lowerArm' | 'upperArm' | 'upright';

/** The input of `pushrod`, left-hand wheel, written down here a second time on purpose. */
export interface RockerInput {
  readonly lowerArm: { readonly inner: Point; readonly outer: Point };
  readonly upperArm: { readonly inner: Point; readonly outer: Point };
  readonly wheel:
    | { readonly centre: Point; readonly camber: number }
    | { readonly centre: Point; readonly contactPatch: Point };
  readonly rod: { readonly on: Part; readonly mount: Point; readonly rockerMount: Point };
  readonly rocker: { readonly pivot: Point };
  readonly coilover: {
    readonly rockerMount: Point;
    readonly chassisMount?: Point;
    readonly otherEnd?: { readonly on: Part; readonly mount: Point };
    readonly foreAftOffset?: number;
  };
}

export interface RockerPose {
  /** mm, bump positive. */
  readonly travel: number;
  readonly points: Readonly<
    Record<
      | 'lowerOuter'
      | 'upperOuter'
      | 'wheelCentre'
      | 'contactPatch'
      | 'rodMount'
      | 'rodRockerMount'
      | 'shockRockerMount'
      | 'shockOther',
      Point
    >
  >;
  /** mm, the offset included; -dL/dz and its derivative, 1/mm. */
  readonly shockLength: number;
  readonly installationRatio: number;
  readonly installationRatioSlope: number;
  /** rad from the drawn pose, counter-clockwise. */
  readonly rockerTurn: number;
  /** Sine of the angle between rod and rocker's arm, positive as drawn. */
  readonly sine: number;
  /** Rocker's turn for each mm of travel. */
  readonly rockerRate: number;
  /** How far the fastest point goes for each mm of travel. */
  readonly fastest: number;
}

export interface RockerCorner {
  readonly arms: CircleCorner;
  /** Null beyond the dead points of the arms, and where the rod does not reach. */
  atTravel(travel: number): RockerPose | null;
  /** Travel at which rod and rocker first come into line on a side, or null when the arms end before. */
  inLine(side: 'bump' | 'droop'): number | null;
}

/** Looks for rod and rocker in line on the way to the arms' end, which lie closer towards it: there travel stands still and the arms turn on. */
const LOOKS = 400;

export function rockerCorner(input: RockerInput): RockerCorner {
  const { lowerArm, upperArm, rod, rocker, coilover, wheel } = input;
  const [A, B, O] = [lowerArm.inner, upperArm.inner, rocker.pivot];
  const arms = circleCorner({
    lowerArm,
    upperArm,
    wheel,
    coilover: { on: 'lowerArm', mount: lowerArm.outer, chassisMount: [0, 1000] },
  });
  const p0 = minus(lowerArm.outer, A);
  const q0 = minus(upperArm.outer, B);
  const r0 = minus(upperArm.outer, lowerArm.outer);
  const n0 = minus(rod.rockerMount, O);
  const l0 = minus(rod.rockerMount, rod.mount);
  const sense = Math.sign(cross(l0, n0));
  const [r, L] = [Math.hypot(...n0), Math.hypot(...l0)];
  const patch = drawnContactPatch({ ...input, coilover: { on: 'upright', mount: A, chassisMount: B } });

  function stateAt(travel: number) {
    const pose = arms.atTravel(travel);
    if (pose === null) return null;
    const p = minus(pose.lowerOuter, A);
    const q = minus(pose.upperOuter, B);
    const rr = minus(pose.upperOuter, pose.lowerOuter);
    const [wp, wr, wq] = [cross(rr, q), cross(q, p), cross(rr, p)];
    const rates: Record<Part, readonly [number, number]> = {
      lowerArm: [wp, (wq - wr) * dot(rr, q)],
      upperArm: [wq, (wp - wr) * dot(rr, p)],
      upright: [wr, (wp - wq) * dot(q, p)],
    };
    const P = carried(still(A), p, ...rates.lowerArm);
    const on = (part: Part, at: Point): Moving => {
      switch (part) {
        case 'lowerArm':
          return carried(still(A), turnedAlong(minus(at, A), p0, p), ...rates.lowerArm);
        case 'upperArm':
          return carried(still(B), turnedAlong(minus(at, B), q0, q), ...rates.upperArm);
        case 'upright':
          return carried(P, turnedAlong(minus(at, lowerArm.outer), r0, rr), ...rates.upright);
      }
    };
    const M = on(rod.on, rod.mount);
    const e = minus(M.at, O);
    const D = dot(e, e);
    const m = r * r - L * L + D;
    return { pose, on, M, e, D, m, H: 4 * r * r * D - m * m };
  }

  function atTravel(travel: number): RockerPose | null {
    const state = stateAt(travel);
    if (state === null || !(state.H > 0)) return null;
    const { pose, on, M, e, D, m, H } = state;
    // cross(l, n) = cross(n - e, n) = -cross(e, n) = -(± sqrt(H)) / 2.
    const root = -sense * Math.sqrt(H);
    const n: Point = [(m * e[0] - root * e[1]) / (2 * D), (m * e[1] + root * e[0]) / (2 * D)];
    const l = minus(n, e);
    const square = dot(l, across(n));
    const w = dot(l, M.first) / square;
    const N = carried(still(O), n, w, 0);
    const slip = minus(N.first, M.first);
    const dw = (dot(l, M.second) + w * w * dot(l, n) - dot(slip, slip)) / square;
    const S = carried(still(O), turnedAlong(minus(coilover.rockerMount, O), n0, n), w, dw);
    const { otherEnd, chassisMount = [0, 0], foreAftOffset = 0 } = coilover;
    const C = otherEnd === undefined ? still(chassisMount) : on(otherEnd.on, otherEnd.mount);
    const T = on('upright', patch);
    const points = [
      on('upright', lowerArm.outer),
      on('upright', upperArm.outer),
      on('upright', wheel.centre),
    ];
    const speeds = [...points, T, M, N, S, C].map(({ first }) => Math.hypot(...first));
    return {
      travel,
      points: {
        lowerOuter: pose.lowerOuter,
        upperOuter: pose.upperOuter,
        wheelCentre: pose.wheelCentre,
        contactPatch: pose.contactPatch,
        rodMount: M.at,
        rodRockerMount: N.at,
        shockRockerMount: S.at,
        shockOther: C.at,
      },
      ...lengthAndRatio(S, C, foreAftOffset, T),
      rockerTurn: Math.atan2(cross(n0, n), dot(n0, n)),
      sine: Math.sqrt(H) / (2 * r * L),
      rockerRate: w / T.first[1],
      fastest: Math.max(...speeds) / Math.abs(T.first[1]),
    };
  }

  return {
    arms,
    atTravel,
    inLine(side) {
      const end = arms.deadPoints()[side].travel;
      const reach = (travel: number) => stateAt(travel)?.H ?? Number.NaN;
      for (let k = 1; k <= LOOKS; k++) {
        let [from, to] = [k - 1, k].map((look) => end * (1 - (1 - look / LOOKS) ** 2));
        if (!(reach(to) <= 0)) continue;
        for (;;) {
          const middle = (from + to) / 2;
          if (middle === from || middle === to) return middle;
          if (reach(middle) > 0) from = middle;
          else to = middle;
        }
      }
      return null;
    },
  };
}
