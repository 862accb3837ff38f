// mirror, move, turn, scale: a linkage drawn the other way round, elsewhere or larger is the same linkage. Distances of
// points and turns of bodies are compared, and their derivatives, as drawn and along the motion:
//     length' = lengths x length,    turn' = sense x turn

import { type CheckedDrawing, type Held, linkage, type Measure, type Point } from '../linkage/index.ts';
import { expectWithin, LawBroken } from './broken.ts';
import { distance, drawnValue, intrinsic, isAngle, isCoordinate, nameOf, pairs } from './measures.ts';
import { otherParts } from './parts.ts';
import { changeOf, largest, nudged, reaches } from './sensitivity.ts';
import {
  allowedFor,
  type Change,
  clamp,
  drivenUnless,
  type Law,
  placeAt,
  SECOND,
  type Setting,
  settingOf,
  type Traced,
  traced,
  unitOf,
  where,
} from './setting.ts';

/** Where to look: shares of the way from the drawn pose to either end. */
const SHARES = [-0.9, -0.5, 0.1, 0.7];
/** How far `turn` turns, radians; a quarter turn if coordinates are held, so that they stay coordinates. */
const TURN = 1;
/** How far `move` moves, in sizes. */
const MOVE: Point = [70, -50];
/** How many times as large `scale` draws. */
const FACTORS = [1 / 25.4, 1000];

const CHANGES: Record<Change['law'], (setting: Setting) => Partial<Change>[]> = {
  mirror: () => [{ place: ([x, y]) => [-x, y], sense: -1 }],
  move: ({ size }) => [{ place: ([x, y]) => [x + MOVE[0] * size, y + MOVE[1] * size] }],
  turn: ({ drawing: { held = [] } }) => [{ place: held.length > 0 ? ([x, y]) => [-y, x] : turned }],
  scale: () => FACTORS.map((k) => ({ place: ([x, y]) => [k * x, k * y], lengths: k })),
};

function turned([x, y]: Point): Point {
  const [c, s] = [Math.cos(TURN), Math.sin(TURN)];
  return [c * x - s * y, s * x + c * y];
}

export const mirror: Law = lawOf('mirror');
export const move: Law = lawOf('move');
export const turn: Law = lawOf('turn');
export const scale: Law = lawOf('scale');

function lawOf(law: Change['law']): Law {
  return (build, data, options = {}) => {
    // A coordinate is not the same when the linkage lies elsewhere: then something else drives.
    const setting = settingOf(law, build, data, drivenUnless(isCoordinate, options));
    if (isCoordinate(setting.driver)) return;
    for (const changes of CHANGES[law](setting)) {
      const change: Change = { law, place: (at) => at, lengths: 1, sense: 1, ...changes };
      const redrawn = options.redraw?.(data, change) ?? null;
      expectSame(
        setting,
        change,
        redrawn === null ? changed(setting.drawing, change) : linkage(build(redrawn)),
      );
    }
  };
}

/** A drawing after a change. */
function changed(drawing: CheckedDrawing, { law, place }: Change): CheckedDrawing {
  const points = Object.entries(drawing.points).map(([name, at]) => [name, place(at)] as const);
  const quarter = (held: Held): Held => ('x' in held ? { y: held.x } : { x: held.y });
  return {
    ...drawing,
    points: Object.fromEntries(points),
    ...(law === 'turn' && drawing.held !== undefined ? { held: drawing.held.map(quarter) } : {}),
  };
}

function expectSame(setting: Setting, change: Change, other: CheckedDrawing): void {
  const { law, drawing, driver, size, tolerance } = setting;
  const allowed = Math.max(setting.allowed, allowedFor(tolerance, other, size * change.lengths));
  expectDrawn(setting, change, other, allowed);

  const { there, to, back } = otherDriver(setting, change, other);
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
        const got = (two[order][k] * factor(driver, change) ** order) / factor(measure, change);
        const what = `${name}${nameOf(measure)}`;
        expectWithin(law, what, where(setting, at), got, one[order][k], within * units[k]);
      });
    });
  }
}

const ORDERS = ['', 'first derivative of ', 'second derivative of '];

/** Values, first and second derivatives of measures at a place. */
function seen(motion: Traced, measures: readonly Measure[], at: number): number[][] {
  const readings = measures.map((measure) => motion.read(measure)(at));
  return [
    readings.map(({ value }) => value),
    readings.map(({ first }) => first ?? Number.NaN),
    readings.map(({ second }) => second ?? Number.NaN),
  ];
}

/** How many times as large a measure is after a change. */
function factor(measure: Measure, { lengths, sense }: Change): number {
  return isAngle(measure) ? sense : lengths;
}

/** Expects the changed drawing to have the same parts, and its points as far apart as drawn, in its own size. */
function expectDrawn(setting: Setting, change: Change, other: CheckedDrawing, allowed: number): void {
  const { lengths } = change;
  const { law, drawing, driver, size } = setting;
  const drawn = where(setting, drawnValue(driver, drawing));
  const parts = otherParts(changed(drawing, change), other);
  if (parts !== null) throw new LawBroken(law, 'changed drawing', drawn, parts);
  for (const [p, q] of pairs(Object.keys(drawing.points))) {
    const got = distance(other.points[p], other.points[q]) / lengths;
    const wanted = distance(drawing.points[p], drawing.points[q]);
    expectWithin(law, `drawn length ${p}-${q}`, drawn, got, wanted, allowed * size);
  }
}

/** The driver of the changed drawing in its setting, and its values `to` there and `back`. */
function otherDriver(setting: Setting, change: Change, other: CheckedDrawing) {
  const { drawing, driver, range } = setting;
  const measure: Measure =
    'length' in driver && driver.offset !== undefined
      ? { ...driver, offset: driver.offset * change.lengths }
      : driver;
  const times = factor(driver, change);
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
  [a, b, n]: readonly [Traced, Traced, Traced | null],
  back: (at: number) => number,
  allowed: number,
): void {
  const { law, driver, size } = setting;
  const swapped = back(b.low.at) > back(b.high.at);
  const unit = unitOf(driver, size);
  for (const side of ['low', 'high'] as const) {
    const [one, two, three] = [a[side], b[swapped ? OTHER[side] : side], n?.[side]];
    const place = where(setting, one.at);
    if (two.how !== one.how)
      throw new LawBroken(law, `${side} end`, place, `is ${two.how} instead of ${one.how}`);
    const change = three === undefined ? 0 : changeOf([one.at / unit], [three.at / unit]);
    expectWithin(law, `${side} end`, place, back(two.at), one.at, allowed * unit * (1 + change));
  }
}

const OTHER = { low: 'high', high: 'low' } as const;
