/**
 * A four-bar in closed form: the independent judge of simple loops. Shares no code with src.
 *
 * Crank a from (0, 0), coupler b, rocker c from (d, 0); angles t2, t3, t4 from the ground line,
 * counter-clockwise, rad:
 *     a e(t2) + b e(t3) = d e(0) + c e(t4),   e(t) = (cos t, sin t)
 *
 * Position: the diagonal from crank pin to rocker pivot is f = |(d - a cos t2, -a sin t2)|; by the law of
 * cosines the coupler stands off it by acos((b² + f² - c²) / (2 b f)), to the left (open) or to the right
 * (crossed). Velocity, with w2 the crank's:
 *     b w3 sin(t4 - t3) = a w2 sin(t2 - t4),   c w4 sin(t4 - t3) = a w2 sin(t2 - t3)
 * Acceleration, the loop differentiated twice and multiplied by e(t4), then by e(t3):
 *     b w3' sin(t4 - t3) = -a w2' sin(t4 - t2) + a w2² cos(t4 - t2) + b w3² cos(t4 - t3) - c w4²
 *     c w4' sin(t3 - t4) =  a w2' sin(t3 - t2) - a w2² cos(t3 - t2) - b w3² + c w4² cos(t3 - t4)
 * Limits: law of cosines in the triangle that is left when two bars lie in line.
 *
 * Source: loop equation and its derivatives as in any text on mechanisms, e.g. R. L. Norton, "Design of
 * Machinery", chapters 4, 6 and 7 (from memory).
 */
export interface FourBar {
  readonly crank: number;
  readonly coupler: number;
  readonly rocker: number;
  readonly ground: number;
}

export type Assembly = 'open' | 'crossed';

export interface FourBarAngles {
  readonly crank: number;
  readonly coupler: number;
  readonly rocker: number;
}

/** Angles of an assembly at a crank angle; null when the loop does not close. */
export function fourBarAngles(bars: FourBar, crank: number, assembly: Assembly): FourBarAngles | null {
  const { crank: a, coupler: b, rocker: c, ground: d } = bars;
  const fx = d - a * Math.cos(crank);
  const fy = -a * Math.sin(crank);
  const f = Math.hypot(fx, fy);
  const cosine = (b * b + f * f - c * c) / (2 * b * f);
  if (!(Math.abs(cosine) <= 1)) return null;
  const coupler = Math.atan2(fy, fx) + (assembly === 'open' ? 1 : -1) * Math.acos(cosine);
  const rocker = Math.atan2(b * Math.sin(coupler) - fy, b * Math.cos(coupler) - fx);
  return { crank, coupler, rocker };
}

/** Angular velocities of coupler and rocker for that of the crank; with 1 they are the first ratios. */
export function fourBarVelocities(bars: FourBar, at: FourBarAngles, w2: number) {
  const { crank: a, coupler: b, rocker: c } = bars;
  const { crank: t2, coupler: t3, rocker: t4 } = at;
  const across = Math.sin(t4 - t3);
  return {
    coupler: (a * w2 * Math.sin(t2 - t4)) / (b * across),
    rocker: (a * w2 * Math.sin(t2 - t3)) / (c * across),
  };
}

/**
 * Angular accelerations of coupler and rocker; with velocity 1 and acceleration 0 of the crank they are the
 * second ratios.
 */
export function fourBarAccelerations(bars: FourBar, at: FourBarAngles, w2: number, dw2: number) {
  const { crank: a, coupler: b, rocker: c } = bars;
  const { crank: t2, coupler: t3, rocker: t4 } = at;
  const { coupler: w3, rocker: w4 } = fourBarVelocities(bars, at, w2);
  const across = Math.sin(t4 - t3);
  const ofCoupler =
    a * w2 * w2 * Math.cos(t4 - t2) -
    a * dw2 * Math.sin(t4 - t2) +
    b * w3 * w3 * Math.cos(t4 - t3) -
    c * w4 * w4;
  const ofRocker =
    a * w2 * w2 * Math.cos(t3 - t2) -
    a * dw2 * Math.sin(t3 - t2) +
    b * w3 * w3 -
    c * w4 * w4 * Math.cos(t4 - t3);
  return { coupler: ofCoupler / (b * across), rocker: ofRocker / (c * across) };
}

/** Longest and shortest bar together shorter than the other two: one bar can turn fully. */
export function isGrashof({ crank, coupler, rocker, ground }: FourBar): boolean {
  const [s, p, q, l] = [crank, coupler, rocker, ground].sort((u, v) => u - v) as [
    number,
    number,
    number,
    number,
  ];
  return s + l < p + q;
}

/**
 * Where the rocker of a crank-rocker turns back: crank and coupler in line, extended (a + b) or overlapped (b
 * - a).
 */
export function rockerLimits({ crank: a, coupler: b, rocker: c, ground: d }: FourBar) {
  return {
    extended: {
      crank: angleOpposite(c, d, a + b),
      rocker: Math.PI - angleOpposite(a + b, c, d),
    },
    overlapped: {
      crank: Math.PI + angleOpposite(c, d, b - a),
      rocker: Math.PI - angleOpposite(b - a, c, d),
    },
  };
}

/**
 * Smallest and largest crank angle from the ground line (0 to pi) at which the loop closes: coupler and
 * rocker in line.
 */
export function crankLimits({ crank: a, coupler: b, rocker: c, ground: d }: FourBar) {
  const smallest = (a * a + d * d - (b - c) * (b - c)) / (2 * a * d);
  const largest = (a * a + d * d - (b + c) * (b + c)) / (2 * a * d);
  return {
    smallest: smallest < 1 ? Math.acos(smallest) : 0,
    largest: largest > -1 ? Math.acos(largest) : Math.PI,
  };
}

/** Angle between coupler and rocker, 0 to pi. */
export function transmissionAngle(
  { crank: a, coupler: b, rocker: c, ground: d }: FourBar,
  crank: number,
): number {
  return angleOpposite(Math.sqrt(a * a + d * d - 2 * a * d * Math.cos(crank)), b, c);
}

/** Law of cosines: the angle opposite `side`, between the other two. */
function angleOpposite(side: number, one: number, other: number): number {
  return Math.acos((one * one + other * other - side * side) / (2 * one * other));
}
