/**
 * A double wishbone in closed form: the independent judge of such corners. Shares no code with src.
 *
 * A, B inner points; P = A + p, Q = B + q ball joints; r = Q - P the upright; a, b, c = |p|, |q|, |r|, and
 * v⊥ = (-v_z, v_y).
 *
 * Position (two circles, about B with radius b and about P with radius c):
 *     e = P - B,  D = e·e,  m = b² - c² + D,  H = 4 b² D - m²,   q = (m e ± sqrt(H) e⊥) / (2 D),   r = q - e
 * the sign is the one of the drawing; it changes where upper arm and upright are in line (H = 0).
 *
 * Velocity and acceleration: p + r - q is constant and every vector turns, v' = w_v v⊥, so that
 *     w_p p + w_r r - w_q q = 0
 * Three plane vectors satisfy p (r×q) + r (q×p) + q (p×r) = 0, hence, up to the speed of the motion,
 *     w_p = r×q = -(± sqrt(H)/2),   w_r = q×p,   w_q = r×p,   v'' = w_v' v⊥ - w_v² v
 *     w_p' = (w_q - w_r) r·q,   w_r' = (w_p - w_q) q·p,   w_q' = (w_p - w_r) r·p
 * with no division: valid in every pose except where all bars lie flat, as those of a parallelogram can.
 * There the motion has two ways on, and this judge takes it to end.
 *
 * Shock from M to C with constant fore-aft offset x, travel z:
 *     l = M - C,   L² = l·l + x²,   L' = l·M'/L,   L'' = (M'·M' + l·M'' - L'²)/L
 *     R = -L'/z',   dR/dz = (L' z'' - L'' z')/z'³
 *
 * Source: circle intersection and differentiation, elementary; signs as in the project's documentation.
 */

/** [y, z] in mm, y outboard and z up. */
export type Point = readonly [y: number, z: number];

/**
 * The input of `doubleWishbone`, left-hand wheel (y > 0), millimetres and degrees; written down here a second
 * time on purpose.
 */
export interface CornerInput {
  readonly lowerArm: { readonly inner: Point; readonly outer: Point };
  readonly upperArm: { readonly inner: Point; readonly outer: Point };
  readonly wheel:
    | { readonly centre: Point; readonly camber: number }
    | { readonly centre: Point; readonly contactPatch: Point };
  readonly coilover: {
    readonly on: 'lowerArm' | 'upperArm' | 'upright';
    readonly mount: Point;
    readonly chassisMount: Point;
    readonly foreAftOffset?: number;
  };
}

export type TravelReference = 'contactPatch' | 'wheelCentre';

export interface CirclePose {
  /** mm from the drawn pose, bump positive. */
  readonly travel: number;
  /** rad from horizontal, counter-clockwise in (y, z). */
  readonly lowerArmAngle: number;
  readonly lowerOuter: Point;
  readonly upperOuter: Point;
  readonly wheelCentre: Point;
  readonly contactPatch: Point;
  readonly mount: Point;
  /** mm, the offset included. */
  readonly shockLength: number;
  /** -dL/dz, and its derivative in 1/mm; null at a dead point, where z cannot be the parameter. */
  readonly installationRatio: number | null;
  readonly installationRatioSlope: number | null;
  /** deg, top outboard positive: the lean of the line from contact patch to wheel centre. */
  readonly camber: number;
  /**
   * First and second derivative of shock length by lower-arm angle, mm/rad and mm/rad²; null where that angle
   * turns back.
   */
  readonly lengthByAngle: readonly [number, number] | null;
  /** First and second derivative of travel by lower-arm angle; null where that angle turns back. */
  readonly travelByAngle: readonly [number, number] | null;
}

export interface DeadPoint {
  /** mm; travel goes no farther than this. */
  readonly travel: number;
  readonly pose: CirclePose;
  /**
   * True when upper arm and upright come into line on the way, so that the lower arm has already turned back.
   */
  readonly turnedBack: boolean;
}

export interface CircleCorner {
  /** Drawn lower-arm angle, rad. */
  readonly lowerArmAngle: number;
  /** Pose with the drawn orientation of the two circles' intersection; null when they do not meet. */
  atLowerArm(angle: number, travelReference?: TravelReference): CirclePose | null;
  /** Pose on the motion through the drawn pose; null outside the dead points. */
  atTravel(travel: number, travelReference?: TravelReference): CirclePose | null;
  deadPoints(travelReference?: TravelReference): { readonly droop: DeadPoint; readonly bump: DeadPoint };
}

/** Distance in the loop parameter (radians) between looks for a dead point. */
const SCAN_STEP = (2 * Math.PI) / 720;

/** Below this relative size of its denominator a derivative counts as not existing. */
const SINGULAR = 1e-12;

export function circleCorner(input: CornerInput): CircleCorner {
  const [Ay, Az] = input.lowerArm.inner;
  const [By, Bz] = input.upperArm.inner;
  const [Cy, Cz] = input.coilover.chassisMount;
  const x = input.coilover.foreAftOffset ?? 0;
  const p0 = minus(input.lowerArm.outer, input.lowerArm.inner);
  const q0 = minus(input.upperArm.outer, input.upperArm.inner);
  const r0 = minus(input.upperArm.outer, input.lowerArm.outer);
  const a = Math.hypot(...p0);
  const b = Math.hypot(...q0);
  const c = Math.hypot(...r0);
  const g = Math.hypot(By - Ay, Bz - Az);
  const gamma = Math.atan2(Bz - Az, By - Ay);
  const sign0 = Math.sign(cross(q0, r0));
  const centre = inFrame(minus(input.wheel.centre, input.lowerArm.outer), r0);
  const patch = inFrame(minus(drawnContactPatch(input), input.lowerArm.outer), r0);
  const { on } = input.coilover;
  const mount =
    on === 'lowerArm'
      ? inFrame(minus(input.coilover.mount, input.lowerArm.inner), p0)
      : on === 'upperArm'
        ? inFrame(minus(input.coilover.mount, input.upperArm.inner), q0)
        : inFrame(minus(input.coilover.mount, input.lowerArm.outer), r0);

  // With psi = (lower-arm angle) - gamma, D = a² + g² - 2 a g cos(psi), and H = (D - (b-c)²)((b+c)² - D). The
  // circles meet while near >= cos(psi) >= far. When an end of that range is a real angle the whole motion is
  // one closed curve, psi = middle + half sin(tau), on which sqrt(H) has the sign of cos(tau); else the arm
  // turns fully and psi = tau.
  const near = (a * a + g * g - (b - c) * (b - c)) / (2 * a * g);
  const far = (a * a + g * g - (b + c) * (b + c)) / (2 * a * g);
  const turnsFully = near >= 1 && far <= -1;
  const theta0 = Math.atan2(p0[1], p0[0]);
  const psi0 = wrap(theta0 - gamma);
  const psiNear = near < 1 ? Math.acos(near) : null;
  const psiFar = far > -1 ? Math.acos(far) : null;
  const side = psi0 < 0 ? -1 : 1;
  let psiLow = -Math.PI;
  let psiHigh = Math.PI;
  if (psiNear !== null && psiFar !== null) [psiLow, psiHigh] = [psiNear, psiFar];
  else if (psiFar !== null) [psiLow, psiHigh] = [-psiFar, psiFar];
  else if (psiNear !== null) [psiLow, psiHigh] = [psiNear, 2 * Math.PI - psiNear];
  const middle = (psiLow + psiHigh) / 2;
  const half = (psiHigh - psiLow) / 2;
  const tau0 = turnsFully ? side * psi0 : Math.asin(Math.max(-1, Math.min(1, (side * psi0 - middle) / half)));

  /**
   * Pose at a point of the closed curve; near its ends the two gaps to them are taken from tau, not from a
   * difference.
   */
  function atParameter(tau: number, travelReference: TravelReference): State {
    if (turnsFully) {
      const D = a * a + g * g - 2 * a * g * Math.cos(tau);
      const H = (D - (b - c) * (b - c)) * ((b + c) * (b + c) - D);
      return state(side * tau + gamma, sign0 * Math.sqrt(Math.max(0, H)), D, travelReference);
    }
    const psi = middle + half * Math.sin(tau);
    const kappa = tau / 2 + Math.PI / 4;
    const fromLow = 2 * half * Math.sin(kappa) ** 2;
    const toHigh = 2 * half * Math.cos(kappa) ** 2;
    const D = a * a + g * g - 2 * a * g * Math.cos(psi);
    // cos(u) - cos(v) = 2 sin((u+v)/2) sin((v-u)/2)
    const cosGap = Math.sin(fromLow / 2) * Math.sin(toHigh / 2);
    let H: number;
    if (psiNear !== null && psiFar !== null) {
      H = 16 * a * a * g * g * Math.sin((psi + psiLow) / 2) * Math.sin((psi + psiHigh) / 2) * cosGap;
    } else if (psiFar !== null) {
      H = 4 * a * g * cosGap * (D - (b - c) * (b - c));
    } else {
      H = 4 * a * g * cosGap * ((b + c) * (b + c) - D);
    }
    const sign = Math.cos(tau) < 0 ? -sign0 : sign0;
    return state(side * psi + gamma, sign * Math.sqrt(Math.max(0, H)), D, travelReference);
  }

  const drawnHeight: Record<TravelReference, number> = {
    contactPatch: drawnContactPatch(input)[1],
    wheelCentre: input.wheel.centre[1],
  };

  function state(theta: number, rootH: number, D: number, travelReference: TravelReference): State {
    const p: Point = [a * Math.cos(theta), a * Math.sin(theta)];
    const e: Point = [Ay + p[0] - By, Az + p[1] - Bz];
    const m = b * b - c * c + D;
    const q: Point = [(m * e[0] - rootH * e[1]) / (2 * D), (m * e[1] + rootH * e[0]) / (2 * D)];
    const r = minus(q, e);
    const wp = -rootH / 2;
    const wr = cross(q, p);
    const wq = cross(r, p);
    const dwp = (wq - wr) * dot(r, q);
    const dwr = (wp - wq) * dot(q, p);
    const dwq = (wp - wr) * dot(r, p);
    const P: Point = [Ay + p[0], Az + p[1]];
    const Q: Point = [By + q[0], Bz + q[1]];

    const arm: Moving = { at: p, first: turned(p, wp), second: turnedTwice(p, wp, dwp) };
    const inUpright = (frame: Frame): Moving => {
      const s = along(r, frame);
      return {
        at: plus(P, s),
        first: plus(arm.first, turned(s, wr)),
        second: plus(arm.second, turnedTwice(s, wr, dwr)),
      };
    };
    const W = inUpright(centre);
    const T = inUpright(patch);
    let M: Moving;
    if (on === 'lowerArm') {
      const s = along(p, mount);
      M = { at: [Ay + s[0], Az + s[1]], first: turned(s, wp), second: turnedTwice(s, wp, dwp) };
    } else if (on === 'upperArm') {
      const s = along(q, mount);
      M = { at: [By + s[0], Bz + s[1]], first: turned(s, wq), second: turnedTwice(s, wq, dwq) };
    } else {
      M = inUpright(mount);
    }

    const l = minus(M.at, [Cy, Cz]);
    const L = Math.hypot(l[0], l[1], x);
    const L1 = dot(l, M.first) / L;
    const L2 = (dot(M.first, M.first) + dot(l, M.second) - L1 * L1) / L;
    const driven = travelReference === 'contactPatch' ? T : W;
    const z1 = driven.first[1];
    const z2 = driven.second[1];
    const zExists = Math.abs(z1) > SINGULAR * Math.hypot(...driven.first);
    const angleExists = Math.abs(wp) > SINGULAR * b * c;
    return {
      speed: z1,
      angleSpeed: wp,
      pose: {
        travel: driven.at[1] - drawnHeight[travelReference],
        lowerArmAngle: theta,
        lowerOuter: P,
        upperOuter: Q,
        wheelCentre: W.at,
        contactPatch: T.at,
        mount: M.at,
        shockLength: L,
        installationRatio: zExists ? -L1 / z1 : null,
        installationRatioSlope: zExists ? (L1 * z2 - L2 * z1) / (z1 * z1 * z1) : null,
        camber: (Math.atan2(W.at[0] - T.at[0], W.at[1] - T.at[1]) * 180) / Math.PI,
        lengthByAngle: angleExists ? [L1 / wp, (L2 - (L1 / wp) * dwp) / (wp * wp)] : null,
        travelByAngle: angleExists ? [z1 / wp, (z2 - (z1 / wp) * dwp) / (wp * wp)] : null,
      },
    };
  }

  const ends = new Map<TravelReference, Ends>();
  function endsOf(travelReference: TravelReference): Ends {
    let found = ends.get(travelReference);
    if (found === undefined) {
      const speed = (tau: number): number => atParameter(tau, travelReference).speed;
      const one = firstZero(speed, tau0, SCAN_STEP);
      const other = firstZero(speed, tau0, -SCAN_STEP);
      const rises =
        atParameter(one, travelReference).pose.travel > atParameter(other, travelReference).pose.travel;
      found = rises ? { droop: other, bump: one } : { droop: one, bump: other };
      ends.set(travelReference, found);
    }
    return found;
  }

  return {
    lowerArmAngle: theta0,

    atLowerArm(angle, travelReference = 'contactPatch') {
      const D = a * a + g * g - 2 * a * g * Math.cos(angle - gamma);
      const H = (D - (b - c) * (b - c)) * ((b + c) * (b + c) - D);
      return H < 0 ? null : state(angle, sign0 * Math.sqrt(H), D, travelReference).pose;
    },

    /**
     * Newton on the curve's parameter, kept between the dead points: a step that leaves its bracket becomes a
     * halving.
     */
    atTravel(travel, travelReference = 'contactPatch') {
      let { droop: low, bump: high } = endsOf(travelReference);
      const bottom = atParameter(low, travelReference).pose;
      const top = atParameter(high, travelReference).pose;
      if (!(travel >= bottom.travel && travel <= top.travel)) return null;
      let tau = tau0;
      for (let turn = 0; turn < 200; turn += 1) {
        const { pose, speed, angleSpeed } = atParameter(tau, travelReference);
        const missing = travel - pose.travel;
        if (missing === 0) break;
        if (missing > 0) low = tau;
        else high = tau;
        const angleByTau = side * (turnsFully ? 1 : half * Math.cos(tau));
        const step = (missing * angleSpeed) / (speed * angleByTau);
        const goal = tau + step;
        const between = (goal - low) * (goal - high) < 0;
        const next = between ? goal : (low + high) / 2;
        if (next === tau || next === low || next === high) break;
        tau = next;
        if (between && Math.abs(step) < 1e-15) break;
      }
      return atParameter(tau, travelReference).pose;
    },

    deadPoints(travelReference = 'contactPatch') {
      const found = endsOf(travelReference);
      const deadPoint = (tau: number): DeadPoint => {
        const { pose } = atParameter(tau, travelReference);
        return { travel: pose.travel, pose, turnedBack: !turnsFully && Math.abs(tau) > Math.PI / 2 };
      };
      return { droop: deadPoint(found.droop), bump: deadPoint(found.bump) };
    },
  };
}

/** y = y_centre - z_centre tan(camber) on the ground, unless the input says where it is. */
export function drawnContactPatch({ wheel }: CornerInput): Point {
  if ('contactPatch' in wheel) return wheel.contactPatch;
  return [wheel.centre[0] - wheel.centre[1] * Math.tan((wheel.camber * Math.PI) / 180), 0];
}

interface Moving {
  readonly at: Point;
  readonly first: Point;
  readonly second: Point;
}

interface State {
  readonly pose: CirclePose;
  /** z' and w_p of the derivation. */
  readonly speed: number;
  readonly angleSpeed: number;
}

interface Ends {
  readonly droop: number;
  readonly bump: number;
}

/** A point fixed to a vector v: along v + across v⊥. */
type Frame = readonly [along: number, across: number];

const plus = (u: Point, v: Point): Point => [u[0] + v[0], u[1] + v[1]];
const minus = (u: Point, v: Point): Point => [u[0] - v[0], u[1] - v[1]];
const dot = (u: Point, v: Point): number => u[0] * v[0] + u[1] * v[1];
const cross = (u: Point, v: Point): number => u[0] * v[1] - u[1] * v[0];
const turned = (v: Point, w: number): Point => [-w * v[1], w * v[0]];
const turnedTwice = (v: Point, w: number, dw: number): Point => [
  -dw * v[1] - w * w * v[0],
  dw * v[0] - w * w * v[1],
];
const inFrame = (u: Point, v: Point): Frame => [dot(u, v) / dot(v, v), cross(v, u) / dot(v, v)];
const along = (v: Point, [s, t]: Frame): Point => [s * v[0] - t * v[1], s * v[1] + t * v[0]];
const wrap = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/**
 * First zero of f going from `start` in steps of `step`; a dip towards zero between two looks is looked into.
 */
function firstZero(f: (at: number) => number, start: number, step: number): number {
  let [before, now] = [start, start];
  let [fBefore, fNow] = [f(start), f(start)];
  const sign = Math.sign(fNow);
  for (let turn = 0; turn < 1440; turn += 1) {
    const next = now + step;
    const fNext = f(next);
    if (sign * fNext <= 0) return halved(f, now, next);
    if (sign * fNow < sign * fBefore && sign * fNow <= sign * fNext) {
      const bottom = bottomOf((at) => sign * f(at), before, next);
      if (sign * f(bottom) <= 0) return halved(f, before, bottom);
    }
    [before, now, fBefore, fNow] = [now, next, fNow, fNext];
  }
  throw new Error('no dead point on the whole motion');
}

/** The zero of f between two points of different sign, by halving until no number lies between. */
function halved(f: (at: number) => number, from: number, to: number): number {
  const sign = Math.sign(f(from));
  for (;;) {
    const middle = (from + to) / 2;
    if (middle === from || middle === to) return middle;
    if (sign * f(middle) > 0) from = middle;
    else to = middle;
  }
}

/** The lowest point of f between two points, by golden section. */
function bottomOf(f: (at: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let turn = 0; turn < 60; turn += 1) {
    const width = golden * (to - from);
    if (f(to - width) < f(from + width)) to = from + width;
    else from = to - width;
  }
  return (from + to) / 2;
}
