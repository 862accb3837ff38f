// A schedule is the value of a driver as a function of a parameter v, with its first and second derivative. A series needs higher ones:
// on each of a row of stretches the schedule is a polynomial in y = (v - centre)/half. Its second derivative is interpolated at Chebyshev
// points, and integrated twice from value and slope in the middle. So it keeps the derivatives as given, on the shortest stretch too, as
// beside a jump of the second one. Where it misses value or derivatives at an end the stretch is halved.

import { roots, shift } from '../numerics/polynomial.ts';

/** Value, first and second derivative by the parameter. */
export type ScheduleFunction = (u: number) => readonly [value: number, first: number, second: number];

/** A part of a schedule, up to the next one's beginning: a polynomial in (v - centre)/half. */
interface Stretch {
  readonly to: number;
  readonly centre: number;
  readonly half: number;
  readonly c: Float64Array;
}

/** A schedule as stretches in order. */
export type Schedule = readonly Stretch[];

/** Where the second derivative is interpolated. */
const POINTS = 10;
const CHEBYSHEV = Float64Array.from({ length: POINTS }, (_, i) => -Math.cos(((i + 0.5) * Math.PI) / POINTS));
/** Highest power of a stretch. */
export const SCHEDULE_DEGREE = POINTS + 1;
/** What a polynomial may miss by, as a share of the schedule's scale. */
const MISS = 1e-13;
/** Shortest stretch, as a share of the whole: there the derivatives are not those of the value. */
const SHORTEST = 1 / 68_719_476_736; // 2^-36
/** Most stretches. */
const MOST = 4096;

/** A schedule that goes straight: its value at v = 0, and its rate. */
export function straight(value: number, rate: number): Schedule {
  return [{ to: Number.POSITIVE_INFINITY, centre: 0, half: 1, c: Float64Array.of(value, rate) }];
}

/** A function of v as a schedule from v = `from` to `to`; else the v near which its derivatives do not fit, or are no numbers. */
export function scheduleOf(f: ScheduleFunction, from: number, to: number, scale: number): Schedule | number {
  const stretches: Stretch[] = [];
  const cut = (low: number, high: number): number | null => {
    const half = 0.5 * (high - low);
    const centre = low + half;
    const c = polynomial(f, centre, half);
    if (fits(f, centre, half, c, MISS * scale)) {
      stretches.push({ to: high, centre, half, c });
      return null;
    }
    if (high - low < SHORTEST * (to - from) || stretches.length >= MOST) return centre;
    return cut(low, centre) ?? cut(centre, high);
  };
  return cut(from, to) ?? stretches;
}

/** Degree and coefficients of the schedule about v, in powers of what is added to it. */
export function taylorOf(schedule: Schedule, v: number, out: Float64Array): number {
  let at = 0;
  while (at < schedule.length - 1 && v > schedule[at].to) at++;
  const { centre, half, c } = schedule[at];
  out.set(c);
  shift(out, c.length - 1, (v - centre) / half, 1 / half);
  return c.length - 1;
}

function polynomial(f: ScheduleFunction, centre: number, half: number): Float64Array {
  // Newton's divided differences of the second derivative.
  const a = CHEBYSHEV.map((y) => f(centre + half * y)[2]);
  for (let j = 1; j < POINTS; j++) {
    for (let i = POINTS - 1; i >= j; i--) a[i] = (a[i] - a[i - 1]) / (CHEBYSHEV[i] - CHEBYSHEV[i - j]);
  }
  const q = new Float64Array(POINTS);
  for (let i = POINTS - 1; i >= 0; i--) {
    for (let k = POINTS - 1; k >= 1; k--) q[k] = q[k - 1] - CHEBYSHEV[i] * q[k];
    q[0] = a[i] - CHEBYSHEV[i] * q[0];
  }
  const [value, first] = f(centre);
  const c = new Float64Array(SCHEDULE_DEGREE + 1);
  c[0] = value;
  c[1] = half * first;
  for (let k = 2; k <= SCHEDULE_DEGREE; k++) c[k] = (half * half * q[k - 2]) / (k * (k - 1));
  return c;
}

function fits(f: ScheduleFunction, centre: number, half: number, c: Float64Array, miss: number): boolean {
  for (const y of [-1, 1]) {
    const [value, first, second] = f(centre + half * y);
    const about = c.slice();
    shift(about, SCHEDULE_DEGREE, y, 1);
    const off = [about[0] - value, about[1] - half * first, 2 * about[2] - half * half * second];
    if (!off.every((by) => Math.abs(by) <= miss)) return false;
  }
  return true;
}

/** The v nearest to 0 on the way to `end` at which the schedule comes down to a level; `end` if it does not. */
export function downTo(schedule: Schedule, level: number, end: number): number {
  const found = schedule.flatMap(({ to, centre, half, c }, k) => {
    const from = schedule[k - 1]?.to ?? Number.NEGATIVE_INFINITY;
    const [low, high] = [Math.max(from, Math.min(0, end)), Math.min(to, Math.max(0, end))];
    if (!(low < high)) return [];
    const off = c.slice();
    off[0] -= level;
    return roots(off, (low - centre) / half, (high - centre) / half).map((y) => centre + half * y);
  });
  return found.reduce((nearest, v) => (Math.abs(v) < Math.abs(nearest) ? v : nearest), end);
}
