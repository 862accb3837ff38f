// mirror, translate, rotate, scale: a linkage drawn the other way round, elsewhere or larger is the same linkage. Distances of
// points and turns of bodies are compared, and their derivatives, as drawn and along the motion:
//     length' = lengths x length,    turn' = sense x turn

import { type CheckedDrawing, type Drawing, linkage, type Measure, type Point } from '../linkage/index.ts';
import { changedJoints, goByAxes } from './joints.ts';
import { drawnValue, intrinsic, isAngle, isCoordinate, nameOf } from './measures.ts';
import { otherParts } from './parts.ts';
import { distance, pairs } from './plane.ts';
import { changeOf, largest, nudged, reaches } from './sensitivity.ts';
import {
  allowedFor,
  clamp,
  drivenUnless,
  type Law,
  placeAt,
  SECOND,
  type Setting,
  settingOf,
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

export const mirror: Law = lawOf('mirror');
export const translate: Law = lawOf('translate');
export const rotate: Law = lawOf('rotate');
export const scale: Law = lawOf('scale');

function lawOf(law: Transformation['law']): Law {
  return (build, data, options = {}) => {
    // A coordinate is not the same when the linkage lies elsewhere: then something else drives.
    const setting = settingOf(law, build, data, drivenUnless(isCoordinate, options));
    if (isCoordinate(setting.driver)) return;
    for (const changes of TRANSFORMATIONS[law](setting)) {
      const transformation: Transformation = { law, place: (at) => at, lengths: 1, sense: 1, ...changes };
      const redrawn = options.redraw?.(data, transformation) ?? null;
      const other: Drawing = redrawn === null ? changed(setting.drawing, transformation) : build(redrawn);
      expectSame(setting, transformation, linkage(other));
    }
  };
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

  const { there, to, back } = otherDriver(setting, transformation, other);
  const [a, b, n] = [
    traced(setting, drawing),
    traced(there, other),
    nudged(drawing, size, (one) => traced(setting, one)),
  ];
  expectEnds(setting, [a, b, n], back, allowed);

  const measures = intrinsic(drawing);
  for (const at of SHARES.map((share) => placeAt(a, share))) {
    if (!reaches(n, at)) continue;
    const one = seen(a, measures, at);
    const two = seen(b, measures, clamp(b, to(at)));
    const three = n === null ? null : seen(n, measures, at);
    ORDERS.forEach((name, order) => {
      const units = measures.map((measure) => unitOf(measure, size) / unitOf(driver, size) ** order);
      const inUnits = (all: readonly number[][]) => all[order].map((value, k) => value / units[k]);
      const scale = 1 + largest(inUnits(one)) + changeOf(inUnits(one), three && inUnits(three));
      const within = allowed * scale * (order === 2 ? SECOND : 1);
      measures.forEach((measure, k) => {
        const got =
          (two[order][k] * factor(driver, transformation) ** order) / factor(measure, transformation);
        const what = `${name}${nameOf(measure)}`;
        expectWithin(law, what, where(setting, at), got, one[order][k], within * units[k]);
      });
    });
  }
}

const ORDERS = ['', 'first derivative of ', 'second derivative of '];

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
