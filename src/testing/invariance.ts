// mirror, translate, rotate, scale: a linkage drawn the other way round, elsewhere or larger is the same linkage. Distances of
// points and turns of bodies are compared, and their derivatives, as drawn and along the motion:
//     length' = lengths x length,    turn' = sense x turn
// At a change point each branch has its like in the transformed drawing, by the rates of squared distances and turns.

import {
  type Branch,
  type CheckedDrawing,
  linkage,
  type Measure,
  mobility,
  type Point,
} from '../linkage/index.ts';
import { measureName } from '../words.ts';
import { changedJoints, goByAxes } from './joints.ts';
import { drawnValue, intrinsic, isAngle, isCoordinate } from './measures.ts';
import { otherParts } from './parts.ts';
import { distance, pairs, rateOfSquare } from './plane.ts';
import { changeOf, largest, nudged, reaches } from './sensitivity.ts';
import {
  allowedFor,
  clamp,
  lawOf,
  placeAt,
  SECOND,
  type Setting,
  type TracedMotion,
  type Transformation,
  traced,
  unitOf,
  where,
} from './setting.ts';
import { expectWithin, LawViolation } from './violation.ts';

/** Where to look: shares of the way from the drawn pose to either end. */
const SHARES = [-0.9, -0.5, 0.1, 0.7];
/** How far `rotate` turns, radians; a quarter turn where joints go by the axes. */
const ROTATION = 1;
/** How far `translate` goes, in sizes. */
const TRANSLATION: Point = [70, -50];
/** How many times as large `scale` draws. */
const FACTORS = [1 / 25.4, 1000];

const TRANSFORMATIONS: Record<Transformation['law'], (setting: Setting) => Partial<Transformation>[]> = {
  mirror: () => [{ place: ([x, y]) => [-x, y], sense: -1 }],
  translate: ({ size }) => [{ place: ([x, y]) => [x + TRANSLATION[0] * size, y + TRANSLATION[1] * size] }],
  rotate: ({ drawing }) => [{ place: goByAxes(drawing) ? ([x, y]) => [-y, x] : turned }],
  scale: () => FACTORS.map((k) => ({ place: ([x, y]) => [k * x, k * y], lengths: k })),
};

function turned([x, y]: Point): Point {
  const [c, s] = [Math.cos(ROTATION), Math.sin(ROTATION)];
  return [c * x - s * y, s * x + c * y];
}

export const mirror = invariance('mirror');
export const translate = invariance('translate');
export const rotate = invariance('rotate');
export const scale = invariance('scale');

function invariance(law: Transformation['law']) {
  // A coordinate is not the same when the linkage lies elsewhere: then something else drives.
  const judge = (setting: Setting) => {
    if (isCoordinate(setting.driver)) {
      setting.skip('the law', 'only coordinates change');
      return;
    }
    for (const changes of TRANSFORMATIONS[law](setting)) {
      const transformation: Transformation = { law, place: (at) => at, lengths: 1, sense: 1, ...changes };
      const other = setting.redraw(transformation) ?? changed(setting.drawing, transformation);
      expectSame(setting, transformation, linkage(other));
    }
  };
  return lawOf(law, judge, isCoordinate);
}

/** A transformed drawing. */
function changed(drawing: CheckedDrawing, transformation: Transformation): CheckedDrawing {
  const { place } = transformation;
  const points = Object.entries(drawing.points).map(([name, at]) => [name, place(at)] as const);
  return { ...drawing, points: Object.fromEntries(points), ...changedJoints(drawing, transformation) };
}

function expectSame(setting: Setting, transformation: Transformation, other: CheckedDrawing): void {
  const { law, drawing, driver, size, tolerance } = setting;
  const allowed = Math.max(setting.allowed, allowedFor(tolerance, other, size * transformation.lengths));
  expectDrawn(setting, transformation, other, allowed);

  const branch = otherBranch(setting, transformation, other);
  if (branch === undefined) {
    setting.skip('the motion', 'rounding takes the transformed drawing off its change point');
    return;
  }
  const { there, to, back } = otherDriver(setting, transformation, other);
  // A little beside a change point the branches do not meet.
  const nudge = () => nudged(drawing, size, (one) => traced(setting, one));
  const [a, b, n] = [
    traced(setting, drawing),
    traced({ ...there, branch }, other),
    setting.branch === null ? nudge() : null,
  ];
  expectEnds(setting, [a, b, n], back, allowed);

  const measures = intrinsic(drawing);
  for (const at of SHARES.map((share) => placeAt(a, share))) {
    if (!reaches(n, at)) {
      setting.skip(`the pose at driver value ${at}`, 'a drawing that differs by a little does not reach it');
      continue;
    }
    const one = seen(a, measures, at);
    const two = seen(b, measures, clamp(b, to(at)));
    const three = n === null ? null : seen(n, measures, at);
    ORDERS.forEach((name, order) => {
      const units = measures.map((measure) => unitOf(measure, size) / timesOf(unitOf(driver, size))[order]);
      const inUnits = (all: readonly number[][]) => all[order].map((value, k) => value / units[k]);
      const scale = 1 + largest(inUnits(one)) + changeOf(inUnits(one), three && inUnits(three));
      const within = allowed * scale * (order === 2 ? SECOND : 1);
      measures.forEach((measure, k) => {
        const got =
          (two[order][k] * timesOf(factor(driver, transformation))[order]) / factor(measure, transformation);
        const what = `${name}${measureName(measure)}`;
        expectWithin(law, what, where(setting, at), got, one[order][k], within * units[k]);
      });
    });
  }
}

const ORDERS = ['', 'first derivative of ', 'second derivative of '];

/** A factor to the power of each order. */
const timesOf = (factor: number) => [1, factor, factor ** 2];

/** Values, first and second derivatives of measures at a place. */
function seen(motion: TracedMotion, measures: readonly Measure[], at: number): number[][] {
  const readings = measures.map((measure) => motion.read(measure)(at));
  return [
    readings.map(({ value }) => value),
    readings.map(({ first }) => first ?? Number.NaN),
    readings.map(({ second }) => second ?? Number.NaN),
  ];
}

/** How many times as large a measure is after a transformation. */
function factor(measure: Measure, { lengths, sense }: Transformation): number {
  return isAngle(measure) ? sense : lengths;
}

/** Expects the transformed drawing to have the same parts, and its points as far apart as drawn, in its own size. */
function expectDrawn(
  setting: Setting,
  transformation: Transformation,
  other: CheckedDrawing,
  allowed: number,
): void {
  const { lengths } = transformation;
  const { law, drawing, driver, size } = setting;
  const drawn = where(setting, drawnValue(driver, drawing));
  const parts = otherParts(changed(drawing, transformation), other);
  if (parts !== null) throw new LawViolation(law, 'transformed drawing', drawn, parts);
  for (const [p, q] of pairs(Object.keys(drawing.points))) {
    const got = distance(other.points[p], other.points[q]) / lengths;
    const expected = distance(drawing.points[p], drawing.points[q]);
    expectWithin(law, `drawn length ${p}-${q}`, drawn, got, expected, allowed * size);
  }
}

/** The driver of the transformed drawing in its setting, and its values `to` there and `back`. */
function otherDriver(setting: Setting, transformation: Transformation, other: CheckedDrawing) {
  const { drawing, driver, range } = setting;
  const measure: Measure =
    'length' in driver && driver.offset !== undefined
      ? { ...driver, offset: driver.offset * transformation.lengths }
      : driver;
  const times = factor(driver, transformation);
  const from = drawnValue(driver, drawing);
  const onto = drawnValue(measure, other);
  const to = (at: number) => onto + times * (at - from);
  const back = (at: number) => from + (at - onto) / times;
  const [one, two] = [to(range.from), to(range.to)];
  const there = { ...setting, driver: measure, range: { from: Math.min(one, two), to: Math.max(one, two) } };
  return { there, to, back };
}

/** Rates of a branch that agree with those of its like have at least this cosine with them. */
const ALIKE = 0.999;

/** Of a drawing at a change point the branch of the transformed drawing that is the like of the one judged; undefined where that is at none. */
function otherBranch(
  setting: Setting,
  transformation: Transformation,
  other: CheckedDrawing,
): number | null | undefined {
  const { law, drawing, driver, branch, size } = setting;
  if (branch === null) return null;
  const { lengths, sense } = transformation;
  const rates = ratesOf(drawing, mobility(drawing).branches[branch], size ** 2);
  const likes = mobility(other).branches.map((one) => {
    const others = ratesOf(other, one, (size * lengths) ** 2 * sense);
    const product = rates.reduce((sum, rate, k) => sum + rate * others[k], 0);
    // A branch may be told from either end.
    return Math.abs(product) / (Math.hypot(...rates) * Math.hypot(...others));
  });
  if (likes.length === 0) return undefined;
  const found = likes.indexOf(Math.max(...likes));
  if (likes[found] > ALIKE) return found;
  const drawn = where(setting, drawnValue(driver, drawing));
  throw new LawViolation(law, `branch ${branch} of the change point`, drawn, 'is missing when transformed');
}

/** Rates of the squares of all distances, and of all turns times an area, along a branch. */
function ratesOf({ points }: CheckedDrawing, { velocities, turns }: Branch, area: number): number[] {
  return [
    ...pairs(Object.keys(points)).map((pair) => rateOfSquare(points, velocities, pair)),
    ...Object.values(turns).map((turn) => area * turn),
  ];
}

/** Expects two motions to end at the same values of the driver, and alike. */
function expectEnds(
  setting: Setting,
  [a, b, n]: readonly [TracedMotion, TracedMotion, TracedMotion | null],
  back: (at: number) => number,
  allowed: number,
): void {
  const { law, driver, size } = setting;
  const swapped = back(b.low.at) > back(b.high.at);
  const unit = unitOf(driver, size);
  for (const side of ['low', 'high'] as const) {
    const [one, two, three] = [a[side], b[swapped ? OTHER[side] : side], n?.[side]];
    const place = where(setting, one.at);
    // Where branches cross at a dead point of the driver, either may be said.
    if (two.status !== one.status && !(STOPS.includes(one.status) && STOPS.includes(two.status)))
      throw new LawViolation(law, `${side} end`, place, `is ${two.status} instead of ${one.status}`);
    const change = three === undefined ? 0 : changeOf([one.at / unit], [three.at / unit]);
    // Where branches cross, second-order terms say.
    const isCrossing = one.status === 'bifurcation' || two.status === 'bifurcation';
    const within = allowed * unit * (1 + change) * (isCrossing ? SECOND : 1);
    expectWithin(law, `${side} end`, place, back(two.at), one.at, within);
  }
}

const STOPS = ['deadPoint', 'bifurcation'];
const OTHER = { low: 'high', high: 'low' } as const;
