// One wheel of an axle on its own curve: all of it is a function of its travel z in the chassis, bump positive. On a ground that leans by
// the roll p and is up by the heave e in the middle of the car the wheel stands where
//
//   g(z) = z + s y(z) tan p - e = 0,        y the half-track, s = 1 for the left wheel and -1 for the right one,
//
// one root for each wheel: g rises with z. It is started from a table of y and y' and corrected on the curve itself.

import { type Corner, modelOf } from '../corner/corner.ts';
import type { CornerModel } from '../corner/model.ts';
import { driverOf, laySweep } from '../corner/sweep.ts';
import { type BoundMeasure, bindMeasure, type Measure } from '../linkage/measure.ts';
import type { MotionStatus } from '../linkage/path.ts';
import { FIRST, READING, type Reader, reader, readRows, SECOND } from '../linkage/reader.ts';
import type { AxleLinkage } from './axle.ts';
import { type AntiRollBar, type LeverAngle, leverAngle } from './bar.ts';

/** Where a wheel's travel ends, mm, and how; `leverOverCentre` where the bar lets it go no farther. */
export interface WheelEnd {
  readonly travel: number;
  readonly status: MotionStatus | 'leverOverCentre';
  /** For `locked`: what does not hold there. */
  readonly constraint?: string;
}

/** What is read of a wheel, in this order. */
export const READ = { shock: 0, halfTrack: 1, turn: 2, linkY: 3, linkZ: 4 } as const;

/** A wheel on its own curve. */
export interface WheelCurve {
  readonly side: 1 | -1;
  readonly model: CornerModel;
  readonly end: { readonly bump: WheelEnd; readonly droop: WheelEnd };
  readonly drawn: number;
  readonly halfTrack: Reader;
  readonly all: Reader;
  readonly table: Table;
  readonly bar: AntiRollBar | null;
}

/** The half-track and its slope at even distances of travel. */
interface Table {
  readonly from: number;
  readonly step: number;
  readonly y: Float64Array;
  readonly slope: Float64Array;
}

const PARTS = 64;
/** Name of the point that a drop link is pinned to. */
const LINK = 'barLink';
/** Share of a part to which is found where the lever comes over its centre. */
const CLOSE = 1e-9;

/** How much farther than a half-track that stays as drawn says a wheel may have to go, and how many mm. */
const FARTHER = 1.25;
const SPARE = 10;

/** Both wheels, the left one first, as far as heave (mm) and roll (radians) of these sizes may take them. */
export function layWheels({ left, right, bar }: AxleLinkage, heave: number, roll: number): WheelCurve[] {
  const laid = (corner: Corner, side: 1 | -1) => {
    const model = modelOf(corner);
    const [halfTrack] = model.drawing.points[model.contactPatch];
    const reach = SPARE + FARTHER * (Math.abs(heave) + halfTrack * Math.tan(Math.abs(roll)));
    return layWheel(model, side, bar, reach);
  };
  const first = laid(left, 1);
  return [first, right === left ? { ...first, side: -1 } : laid(right, -1)];
}

/** Lays the curve of a wheel, as far as `reach` mm either way or as it goes. */
function layWheel(corner: CornerModel, side: 1 | -1, bar: AntiRollBar | null, reach: number): WheelCurve {
  const model = bar === null ? corner : withLink(corner, bar);
  const { path, drawn, end } = laySweep(model, { bump: reach, droop: reach, columns: [] });
  const bound = (measure: Measure): BoundMeasure => bindMeasure(path.system, measure, 'measure');
  const { outer, inner, foreAftOffset } = model.shock;
  const y = bound({ x: model.contactPatch });
  const measures = [
    bound({ length: [outer, inner], offset: foreAftOffset }),
    y,
    bound({ turn: model.upright }),
  ];
  if (bar !== null) measures.push(bound({ x: LINK }), bound({ y: LINK }));
  // Readers of one linkage share their room: each is read from before the next is read.
  const laid = { side, model, drawn, bar, halfTrack: reader(path, [y]), all: reader(path, measures) };
  const ends = bar === null ? end : withinLever(laid, bar, end);
  return { ...laid, end: ends, table: tableOf(laid, ends) };
}

/** The corner with the end of the drop link as a point of its body. */
function withLink(corner: CornerModel, { on, linkMount }: AntiRollBar): CornerModel {
  const { drawing } = corner;
  const { points, bodies } = drawing;
  return {
    ...corner,
    drawing: {
      ...drawing,
      points: { ...points, [LINK]: linkMount },
      bodies: { ...bodies, [on]: [...bodies[on], LINK] },
    },
  };
}

type Laid = Pick<WheelCurve, 'all' | 'halfTrack' | 'drawn'>;
type Ends = WheelCurve['end'];

/** Travels between the ends, evenly. */
function even({ droop, bump }: WheelCurve['end']): { from: number; step: number; travel: Float64Array } {
  const step = (bump.travel - droop.travel) / PARTS;
  const travel = Float64Array.from({ length: PARTS + 1 }, (_, k) => droop.travel + k * step);
  travel[PARTS] = bump.travel;
  return { from: droop.travel, step, travel };
}

function tableOf(curve: Laid, ends: WheelCurve['end']): Table {
  const { from, step, travel } = even(ends);
  const y = new Float64Array(travel.length);
  const slope = new Float64Array(travel.length);
  readAlong(curve.halfTrack, curve.drawn, travel, (m, row, k) => {
    y[k] = m[row];
    slope[k] = m[row + FIRST];
  });
  // At a dead point the half-track goes on while the travel does not: there the table takes the slope of the chord.
  const last = PARTS - 1;
  if (!Number.isFinite(slope[0])) slope[0] = (y[1] - y[0]) / step;
  if (!Number.isFinite(slope[PARTS])) slope[PARTS] = (y[PARTS] - y[last]) / step;
  return { from, step, y, slope };
}

/** The ends brought in to where the lever comes over its centre. */
function withinLever(curve: Laid, bar: AntiRollBar, ends: Ends): Ends {
  const { travel, step } = even(ends);
  const isFree = leversFree(curve, bar, travel);
  const middle = Math.min(PARTS, Math.max(0, Math.round(-travel[0] / step)));
  const narrowed = (way: 1 | -1): WheelEnd => {
    const end = way > 0 ? ends.bump : ends.droop;
    let k = middle;
    while (k >= 0 && k <= PARTS && (isFree[k] || way * travel[k] <= 0)) k += way;
    if (k < 0 || k > PARTS) return end;
    let [free, held] = [way * travel[k - way] > 0 ? travel[k - way] : 0, travel[k]];
    while (Math.abs(held - free) > CLOSE * step) {
      const tried = 0.5 * (free + held);
      if (leversFree(curve, bar, Float64Array.of(tried))[0]) free = tried;
      else held = tried;
    }
    return { travel: free, status: 'leverOverCentre' };
  };
  return { droop: narrowed(-1), bump: narrowed(1) };
}

/** Whether the lever has an angle, at each of these travels. */
function leversFree({ all, drawn }: Laid, bar: AntiRollBar, travel: Float64Array): boolean[] {
  const free: boolean[] = [];
  readAlong(all, drawn, travel, (m, row) => free.push(leverOf(bar, m, row) !== null));
  return free;
}

/** The lever's angle as the readings have it. */
function leverOf(bar: AntiRollBar, m: Float64Array, row: number): LeverAngle | null {
  return leverAngle(bar, m, READ.linkY * READING + row, READ.linkZ * READING + row, FIRST, SECOND);
}

/** Reads along travels: `take` is given the readings, the row there, and which of the travels it is. */
export function readAlong(
  r: Reader,
  drawn: number,
  travel: Float64Array,
  take: (m: Float64Array, row: number, k: number) => void,
): void {
  const driver = driverOf(travel, drawn, r.path, new Float64Array(travel.length));
  for (let first = 0; first < driver.length; ) {
    const rows = readRows(r, driver, first);
    for (let row = 0; row < rows; row++) take(r.m, row, first + row);
    first += rows;
  }
}

/** The lever's angle where these are the readings; null without a bar. */
export function leverThere({ bar }: WheelCurve, m: Float64Array, row: number): LeverAngle | null {
  return bar === null ? null : leverOf(bar, m, row);
}

/** Corrections of a travel: the first from the table leaves about a micrometre, the second rounding. */
const CORRECTIONS = 12;
/** mm: a correction below this leaves rounding, for the next goes with its square. */
const SETTLED = 1e-7;
/** mm: how far beyond its end a wheel may have to go to be at that end. */
const ROUNDING = 1e-9;

/** Travels of a wheel for heaves and rolls, mm and radians; NaN marks those out of its reach, for the caller to take out. */
export function travelsAt(curve: WheelCurve, heave: Float64Array, roll: Float64Array): Float64Array {
  const { side, end, drawn, halfTrack, table } = curve;
  const travel = new Float64Array(heave.length);
  const lean = roll.map((angle) => side * Math.tan(angle));
  for (let k = 0; k < travel.length; k++) travel[k] = startOf(table, end, heave[k], lean[k]);
  let open = Uint32Array.from(travel.keys()).filter((k) => !Number.isNaN(travel[k]));
  for (let round = 0; round < CORRECTIONS && open.length > 0; round++) {
    const still: number[] = [];
    const at = Float64Array.from(open, (k) => travel[k]);
    readAlong(halfTrack, drawn, at, (m, row, i) => {
      const k = open[i];
      const by = (travel[k] + lean[k] * m[row] - heave[k]) / (1 + lean[k] * m[row + FIRST]);
      travel[k] = Math.min(end.bump.travel, Math.max(end.droop.travel, travel[k] - by));
      if (Math.abs(by) > SETTLED) still.push(k);
    });
    open = Uint32Array.from(still);
  }
  // What has not settled is beyond where the wheel turns back, beside a dead point.
  for (const k of open) travel[k] = Number.NaN;
  return travel;
}

/** The travel by the table's cubics, by halving and Newton's method; NaN where the wheel does not get there. */
function startOf(table: Table, { droop, bump }: Ends, heave: number, lean: number): number {
  const missed = (z: number) => z + lean * onTable(table, z) - heave;
  if (!(missed(droop.travel) <= ROUNDING && missed(bump.travel) >= -ROUNDING)) return Number.NaN;
  let [low, high] = [droop.travel, bump.travel];
  let z = Math.min(high, Math.max(low, heave - lean * onTable(table, Math.min(high, Math.max(low, heave)))));
  for (let round = 0; round < CORRECTIONS; round++) {
    const off = missed(z);
    if (off > 0) high = Math.min(high, z);
    else low = Math.max(low, z);
    const next = z - off / (1 + lean * slopeOnTable(table, z));
    if (Math.abs(next - z) < SETTLED) return Math.min(bump.travel, Math.max(droop.travel, next));
    z = next > low && next < high ? next : 0.5 * (low + high);
  }
  return z;
}

/** The half-track between the places of the table: the cubic through both ends and their slopes. */
function onTable({ from, step, y, slope }: Table, z: number): number {
  const k = Math.min(PARTS - 1, Math.max(0, Math.floor((z - from) / step)));
  const t = (z - from) / step - k;
  const u = 1 - t;
  return (
    u * u * (1 + 2 * t) * y[k] +
    t * t * (1 + 2 * u) * y[k + 1] +
    t * u * step * (u * slope[k] - t * slope[k + 1])
  );
}

/** Its slope, from that at both ends: near enough for a step of Newton's method. */
function slopeOnTable({ from, step, slope }: Table, z: number): number {
  const k = Math.min(PARTS - 1, Math.max(0, Math.floor((z - from) / step)));
  const t = (z - from) / step - k;
  return (1 - t) * slope[k] + t * slope[k + 1];
}
