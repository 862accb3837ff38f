// Linkages grown pair by pair. A pair of bars that joins two points which move differently in a new pin adds two bodies,
// three pins and so no degree of freedom; what it starts from, a crank on the ground, has one. Every length is taken from the
// drawing, so that each of them closes. A coupling drives a wheel, a rack or a hook, which has one degree of freedom, by what is there.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/testing.ts';
import type { CheckedDrawing, Point, Ratio, Rope } from '../linkage/index.ts';
import { type Arbitrary, checkFastCheck, type FastCheck } from './fast-check.ts';
import { place, rounding } from './numbers.ts';
import { distance, offset } from './plane.ts';

/** All points are drawn at least this far apart. */
const APART = 40;
/** The two bars of a pair are drawn at an angle whose sine is at least this: away from in line, its dead point. */
export const BEND = 0.2;
/** A rope makes an angle with the x axis whose sine is at least this: away from across, where its hook has a dead point. */
const STEEP = 0.6;

/**
 * Random linkages of one degree of freedom, in a square of 1000: a body `crank` (O on the ground, A), and `first0`, `second0`, ... in
 * pairs that meet in P0, ...; each of these carries a further point (X0, Y0, ...), which others may hang on; G0, ... are
 * ground. The first pair makes a four-bar. With `maxCouplings` some have couplings besides: `wheel0` (on the ground at W0, V0) geared to a
 * body by the ratio `mesh0`; R0, which goes along x as a rack of a body, by `rack0`; H0, which hangs along y on the rope `rope0` that runs from
 * E0 on the ground over a pulley on a moving point. They shrink to fewer pairs and couplings, and to whole tens.
 */
export function linkages(
  fc: FastCheck,
  options: { readonly minPairs?: number; readonly maxPairs?: number; readonly maxCouplings?: number } = {},
): Arbitrary<CheckedDrawing> {
  checkFastCheck(fc);
  refuse('random linkages', countFaults(options));
  const { minPairs = 1, maxPairs = 4, maxCouplings = 0 } = options;
  const pair = fc.record({
    from: fc.nat({ max: 99 }),
    to: fc.option(fc.nat({ max: 99 }), { nil: null }),
    ground: place(fc),
    pin: place(fc),
    onFirst: place(fc),
    onSecond: place(fc),
  });
  const coupling = fc.record({
    kind: fc.constantFrom<Coupling['kind'][]>('wheel', 'rack', 'hook'),
    by: fc.nat({ max: 99 }),
    ratio: fc.constantFrom(...RATIOS),
    isReversed: fc.boolean(),
    base: place(fc),
    end: place(fc),
  });
  return fc
    .tuple(
      rounding(fc),
      place(fc),
      place(fc),
      fc.array(pair, { minLength: minPairs, maxLength: maxPairs }),
      // Without couplings a seed draws what it drew before there were any.
      maxCouplings === 0 ? fc.constant([]) : fc.array(coupling, { maxLength: maxCouplings }),
    )
    .map(([rounded, pivot, pin, growth, couplings]) => {
      const drawing = grow(rounded, pivot, pin, growth);
      return drawing === null ? null : coupled(drawing, rounded, couplings);
    })
    .filter((drawing) => drawing !== null);
}

/** A pair of bars: what the first hangs on and what the second (null: new ground), where they meet, further points. */
interface Pair {
  readonly from: number;
  readonly to: number | null;
  readonly ground: Point;
  readonly pin: Point;
  readonly onFirst: Point;
  readonly onSecond: Point;
}

function grow(
  rounded: (at: Point) => Point,
  pivot: Point,
  crankPin: Point,
  growth: readonly Pair[],
): CheckedDrawing | null {
  const points: Record<string, Point> = { O: rounded(pivot), A: rounded(crankPin) };
  const ground = ['O'];
  const bodies: Record<string, readonly string[]> = { crank: ['O', 'A'] };
  const moving = ['A'];
  for (const [k, pair] of growth.entries()) {
    const [pin, onFirst, onSecond] = [`P${k}`, `X${k}`, `Y${k}`];
    const from = moving[pair.from % moving.length];
    const others = [...moving, ...ground].filter(
      (name) => !Object.values(bodies).some((body) => body.includes(name) && body.includes(from)),
    );
    let to = pair.to === null ? undefined : others[pair.to % others.length];
    if (to === undefined) {
      to = `G${k}`;
      points[to] = rounded(pair.ground);
      ground.push(to);
    }
    points[pin] = rounded(pair.pin);
    points[onFirst] = rounded(pair.onFirst);
    points[onSecond] = rounded(pair.onSecond);
    bodies[`first${k}`] = [from, pin, onFirst];
    bodies[`second${k}`] = [to, pin, onSecond];
    moving.push(pin, onFirst, onSecond);
    if (bend(points[from], points[pin], points[to]) < BEND) return null;
  }
  return areApart(Object.values(points)) ? { points, ground, bodies } : null;
}

/** What is wrong with the numbers of pairs and couplings. */
function countFaults(options: unknown): Diagnostic[] {
  const faults = unknownOptions(options, ['minPairs', 'maxPairs', 'maxCouplings']);
  const {
    minPairs = 1,
    maxPairs = 4,
    maxCouplings = 0,
  } = { ...(options as Partial<Record<string, unknown>> | null) };
  const whole = (path: string, value: unknown, min: number) => {
    if (Number.isSafeInteger(value) && (value as number) >= min) return;
    faults.push(fault('notWhole', path, { got: show(value), min }));
  };
  whole('minPairs', minPairs, 0);
  whole('maxPairs', maxPairs, typeof minPairs === 'number' ? Math.max(0, minPairs) : 0);
  whole('maxCouplings', maxCouplings, 0);
  return faults;
}

/** What is coupled to a body or a point of a linkage, and where it is drawn. */
interface Coupling {
  readonly kind: 'wheel' | 'rack' | 'hook';
  readonly by: number;
  readonly ratio: number;
  readonly isReversed: boolean;
  readonly base: Point;
  readonly end: Point;
}

/** Ratios of couplings: so simple that a motion closes after few turns. */
const RATIOS = [1, 2, 0.5];
/** Travel of a rack per radian and radius of a pulley, for a ratio of 1. */
const RACK = 100;
const PULLEY = 10;

/** A linkage with couplings; null where two points are drawn close to each other, or a rope hangs too far aside of the hook's way. */
function coupled(
  { points: drawn, ground: fixed, bodies: own }: CheckedDrawing,
  rounded: (at: Point) => Point,
  couplings: readonly Coupling[],
): CheckedDrawing | null {
  const points: Record<string, Point> = { ...drawn };
  const ground = [...fixed];
  const bodies: Record<string, readonly string[]> = { ...own };
  const fixedCoordinates: ({ x: string } | { y: string })[] = [];
  const ratios: Record<string, Ratio> = {};
  const ropes: Record<string, Rope> = {};
  const moving = Object.keys(drawn).filter((name) => !fixed.includes(name));
  for (const [k, { kind, by, ratio, isReversed, base, end }] of couplings.entries()) {
    const turning = Object.keys(bodies);
    const turn = { turn: turning[by % turning.length] };
    const sign = isReversed ? -1 : 1;
    if (kind === 'wheel') {
      const [axle, rim] = [`W${k}`, `V${k}`];
      points[axle] = rounded(base);
      points[rim] = rounded(end);
      ground.push(axle);
      bodies[`wheel${k}`] = [axle, rim];
      ratios[`mesh${k}`] = { of: [{ turn: `wheel${k}` }, turn], ratio: sign * ratio };
    } else if (kind === 'rack') {
      const rack = `R${k}`;
      points[rack] = rounded(end);
      fixedCoordinates.push({ y: rack });
      ratios[`rack${k}`] = { of: [{ x: rack }, turn], ratio: sign * RACK * ratio };
    } else {
      const [anchor, hook] = [`E${k}`, `H${k}`];
      const about = moving[by % moving.length];
      points[anchor] = rounded(base);
      points[hook] = rounded(end);
      ground.push(anchor);
      fixedCoordinates.push({ x: hook });
      ropes[`rope${k}`] = [
        anchor,
        { about, radius: PULLEY * ratio, side: isReversed ? 'right' : 'left' },
        hook,
      ];
      if (Math.abs(points[hook][1] - points[about][1]) < STEEP * distance(points[hook], points[about]))
        return null;
    }
  }
  if (!areApart(Object.values(points))) return null;
  return {
    points,
    ground,
    bodies,
    ...(fixedCoordinates.length > 0 ? { fixedCoordinates } : {}),
    ...(Object.keys(ratios).length > 0 ? { ratios } : {}),
    ...(Object.keys(ropes).length > 0 ? { ropes } : {}),
  };
}

/** Sine of the angle at `pin` between the lines to two other points. */
export function bend(from: Point, pin: Point, to: Point): number {
  return Math.abs(offset(from, pin, to)) / distance(from, pin);
}

/** Whether no two of some points are drawn close to each other. */
export function areApart(points: readonly Point[]): boolean {
  return points.every((a, k) => points.slice(k + 1).every((b) => distance(a, b) >= APART));
}
