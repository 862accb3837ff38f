// What the figure of a four-bar shows, from the library: a linkage as the reader has drawn it, and its motion.

import { type Drawing, trace } from 'jounce/linkage';

export type Point = readonly [number, number];
export type Points = Readonly<Record<'O' | 'A' | 'B' | 'C', Point>>;

export const AS_DRAWN: Points = { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] };

const BARS = { ground: ['O', 'C'], crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] } as const;

const DEGREES = 180 / Math.PI;
/** Points of the curve. */
const ROWS = 121;

export type Study = ReturnType<typeof study>;

/** The motion of a drawing over the turn of its crank, as far as that goes. @throws InputError for a drawing that is none. */
export function study(points: Points) {
  const { ground, ...bodies } = BARS;
  const drawing: Drawing = { points, ground: [...ground], bodies };
  const motion = trace(drawing, { driver: { turn: 'crank' } });
  const rocker = motion.read({ turn: 'rocker' });
  const [low, high] = [motion.low.at, motion.high.at];
  const turns = Array.from({ length: ROWS }, (_, k) => low + ((high - low) * k) / (ROWS - 1));
  return {
    points,
    motion,
    low,
    high,
    curve: {
      name: 'rocker',
      x: turns.map((turn) => turn * DEGREES),
      y: turns.map((turn) => rocker(turn).value * DEGREES),
    },
    rockerAt: (turn: number) => rocker(turn).value * DEGREES,
  };
}

/** The length of each bar. */
export function lengthsOf(points: Points) {
  const length = ([from, to]: readonly ['O' | 'A' | 'C', 'A' | 'B' | 'C']) => {
    const [x, y] = [points[to][0] - points[from][0], points[to][1] - points[from][1]];
    return Math.sqrt(x * x + y * y);
  };
  return {
    ground: length(BARS.ground),
    crank: length(BARS.crank),
    coupler: length(BARS.coupler),
    rocker: length(BARS.rocker),
  };
}

export function goesRound({ motion: { low, high } }: Study): boolean {
  return low.status !== 'deadPoint' && high.status !== 'deadPoint';
}

/** How far the crank goes, in words. */
export function reachOf(found: Study): string {
  const { low, high } = found.motion;
  if (goesRound(found)) return 'The crank goes all the way round.';
  const degrees = (turn: number) => `${(turn * DEGREES).toFixed(1)}°`.replace('-', '−');
  return `The crank goes from ${degrees(low.at)} to ${degrees(high.at)} from here; its ends are dead points.`;
}

/** The turn of the crank that points it at a place, nearest to another turn. */
export function turnTowards([x, y]: Point, { O, A }: Points, near: number): number {
  const direction = Math.atan2(y - O[1], x - O[0]) - Math.atan2(A[1] - O[1], A[0] - O[0]);
  return direction + 2 * Math.PI * Math.round((near - direction) / (2 * Math.PI));
}
