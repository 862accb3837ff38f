// One wheel of an axle on its own curve: all of it is a function of its travel z in the chassis, bump positive. On a ground that leans by
// the roll p and is up by the heave e in the middle of the car the wheel stands where
//
//   g(z) = z + s y(z) tan p - e = 0,        y the half-track, s = 1 for the left wheel and -1 for the right one,
//
// one root for each wheel: g rises with z. It is started from a table of y, y' and y'', a polynomial of the fifth degree between its places
// (Hermite's), and corrected on the curve itself.

import { type Corner, modelOf } from '../corner/corner.ts';
import type { CornerModel } from '../corner/model.ts';
import { driverOf, laySweep } from '../corner/sweep.ts';
import { fault, show } from '../diagnostic.ts';
import { refusal } from '../errors/axle.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import { type BoundMeasure, bindMeasure, type Measure } from '../linkage/measure.ts';
import type { MotionStatus } from '../linkage/path.ts';
import {
  BLOCK,
  FIRST,
  READING,
  type Reader,
  reader,
  readRows,
  SECOND,
  type Sinks,
} from '../linkage/reader.ts';
import { type AxleLinkage, type Between, endsOn } from './axle.ts';
import { type Lever, leverOn, readLeverAngles } from './bar.ts';
import type { CouplingName } from './coupling.ts';
import { type LeverAngles, leverAngles } from './lever-angle.ts';

/** Where a wheel's travel ends, mm, and how; `leverOverCentre` where the bar lets it go no farther. */
export interface WheelEnd {
  readonly travel: number;
  readonly status: MotionStatus | 'leverOverCentre';
  /** For `locked`: what does not hold there. */
  readonly constraint?: string;
}

/** What is read of any wheel, in this order; the ends of what is between both wheels follow. */
export const READ = { shock: 0, halfTrack: 1, turn: 2 } as const;

/** A wheel on its own curve. */
export interface WheelCurve {
  readonly side: 1 | -1;
  readonly model: CornerModel;
  readonly end: { readonly bump: WheelEnd; readonly droop: WheelEnd };
  readonly drawn: number;
  readonly halfTrack: Reader;
  readonly all: Reader;
  readonly table: Table;
  readonly lever: Lever | null;
  /** Where y of the end of each coupling is among the readings, z behind it; without for those that are not there. */
  readonly ends: CouplingPlaces;
}

/** Places among readings. */
export type CouplingPlaces = { readonly [Name in CouplingName]?: number };

/** The half-track at even distances of travel, and between them. */
interface Table {
  readonly from: number;
  readonly perStep: number;
  readonly y: Float64Array;
  /** Six for each part, by the share of it from its lower end. */
  readonly coefficients: Float64Array;
}

/** So many that what is between the places of a corner's table is rounding. */
const PARTS = 128;
/** Places between which the lever is looked at. */
const LOOKS = 64;
/** Name of the point that an end is pinned to. */
export const pointOf = (name: CouplingName) => `${name}End`;
/** Share of a part to which is found where the lever comes over its centre. */
const CLOSE = 1e-9;

/** How much farther than a half-track that stays as drawn says a wheel is laid, and how many mm; where that falls short, so many times as far, so often. */
const FARTHER = 1.05;
const SPARE = 10;
const LONGER = 1.1;
const AGAIN = 8;

/** Both wheels, the left one first, as far as heave (mm) and roll (radians) of these sizes may take them. */
export function layWheels(axle: AxleLinkage, heave: number, roll: number): WheelCurve[] {
  if (axle?.kind !== 'axle') throw refusal('axle', [fault('notAnAxle', '', { got: show(axle) })]);
  const { left, right, bar } = axle;
  const tan = Math.tan(roll);
  const laid = (corner: Corner, side: 1 | -1) => {
    const model = modelOf(corner);
    const [halfTrack] = model.drawing.points[model.contactPatch];
    const lever = bar === null ? null : leverOn(bar, side);
    const ends = endsOn(axle, side > 0 ? 'left' : 'right');
    const lay = (reach: number) => layWheel(model, side, lever, ends, reach);
    let reach = SPARE + FARTHER * (heave + halfTrack * tan);
    let curve = lay(reach);
    for (let k = 0; k < AGAIN && fallsShort(curve, heave, tan); k++) {
      reach *= LONGER;
      curve = lay(reach);
    }
    return curve;
  };
  const first = laid(left, 1);
  return [first, right === left && isAlike(axle) ? { ...first, side: -1 } : laid(right, -1)];
}

/** Whether such heaves and rolls take the wheel beyond an end to which it was only laid. */
function fallsShort({ end: { droop, bump }, table: { y } }: WheelCurve, heave: number, tan: number): boolean {
  return (
    (bump.status === 'reached' && bump.travel < heave + y[PARTS] * tan) ||
    (droop.status === 'reached' && droop.travel > -heave - y[0] * tan)
  );
}

/** Whether the right-hand ends of what is between both wheels are the mirror images of the left ones. */
export function isAlike({ bar, thirdSpring, rollSpring }: Between): boolean {
  if (bar !== null && bar.axis !== null) return false;
  return [thirdSpring, rollSpring].every((spring) => {
    if (spring === null) return true;
    const [{ on, mount }, right] = [spring.left, spring.right];
    return on === right.on && mount[0] === right.mount[0] && mount[1] === right.mount[1];
  });
}

type PinnedEnds = ReturnType<typeof endsOn>;

/** Lays the curve of a wheel, as far as `reach` mm either way or as it goes. */
export function layWheel(
  corner: CornerModel,
  side: 1 | -1,
  lever: Lever | null,
  pinned: PinnedEnds,
  reach: number,
): WheelCurve {
  const model = pinned.length === 0 ? corner : withEnds(corner, pinned);
  const { path, drawn, end } = laySweep(model, { bump: reach, droop: reach, columns: [] });
  const bound = (measure: Measure): BoundMeasure => bindMeasure(path.system, measure, 'measure');
  const { outer, inner, foreAftOffset } = model.shock;
  const y = bound({ x: model.contactPatch });
  const measures = [
    bound({ length: [outer, inner], offset: foreAftOffset }),
    y,
    bound({ turn: model.upright }),
  ];
  const ends: { -readonly [Name in keyof CouplingPlaces]: CouplingPlaces[Name] } = {};
  for (const { name } of pinned) {
    ends[name] = measures.length;
    measures.push(bound({ x: pointOf(name) }), bound({ y: pointOf(name) }));
  }
  // Readers of one linkage share their room: each is read from before the next is read.
  const read = (bound: readonly BoundMeasure[]) => reader(path, bound, undefined, true);
  const laid = { side, model, drawn, lever, ends, halfTrack: read([y]), all: read(measures) };
  const reached = lever === null ? end : withinLever(laid, lever, end);
  return { ...laid, end: reached, table: tableOf(laid, reached) };
}

/** The corner with the ends of what is between both wheels as points of its bodies. */
export function withEnds(corner: CornerModel, pinned: PinnedEnds): CornerModel {
  const { drawing } = corner;
  const ends = Object.fromEntries(pinned.map(({ name, end }) => [pointOf(name), end.mount]));
  const bodies = pinnedBodies(drawing.bodies, pinned);
  return { ...corner, drawing: { ...drawing, points: { ...drawing.points, ...ends }, bodies } };
}

type Bodies = CornerModel['drawing']['bodies'];

/** Bodies with ends on them, by what they are without: the same each time, so that their structure is known. */
const known = new WeakMap<Bodies, Map<string, Bodies>>();

function pinnedBodies(bodies: Bodies, pinned: PinnedEnds): Bodies {
  const key = pinned.map(({ name, end }) => `${name} ${end.on}`).join();
  const found = known.get(bodies)?.get(key);
  if (found !== undefined) return found;
  const ends = (body: string) => pinned.filter(({ end }) => end.on === body).map(({ name }) => pointOf(name));
  const made = frozenCopy(
    Object.fromEntries(Object.entries(bodies).map(([body, points]) => [body, [...points, ...ends(body)]])),
  );
  // Bodies that could change are no key.
  if (!Object.isFrozen(bodies) || !Object.values(bodies).every(Object.isFrozen)) return made;
  known.set(bodies, (known.get(bodies) ?? new Map<string, Bodies>()).set(key, made));
  return made;
}

type Laid = Pick<WheelCurve, 'all' | 'halfTrack' | 'drawn' | 'ends'>;
type Ends = WheelCurve['end'];

/** Travels between the ends, evenly. */
function even(
  { droop, bump }: WheelCurve['end'],
  parts: number,
): { from: number; step: number; travel: Float64Array } {
  const step = (bump.travel - droop.travel) / parts;
  const travel = new Float64Array(parts + 1);
  for (let k = 0; k < parts; k++) travel[k] = droop.travel + k * step;
  travel[parts] = bump.travel;
  return { from: droop.travel, step, travel };
}

function tableOf(curve: Laid, ends: WheelCurve['end']): Table {
  const { from, step, travel } = even(ends, PARTS);
  const [y, slope, bend] = [0, 1, 2].map(() => new Float64Array(travel.length));
  readAlong(curve.halfTrack, curve.drawn, travel, (m, row, k) => {
    y[k] = m[row];
    slope[k] = m[row + FIRST] * step;
    bend[k] = m[row + SECOND] * step * step;
  });
  // At a dead point the half-track goes on while the travel does not: there the table takes the slope of the chord.
  for (const [end, beside] of [
    [0, 1],
    [PARTS, PARTS - 1],
  ]) {
    if (!Number.isFinite(slope[end])) slope[end] = Math.sign(beside - end) * (y[beside] - y[end]);
    if (!Number.isFinite(bend[end])) bend[end] = 0;
  }
  const coefficients = new Float64Array(6 * PARTS);
  for (let k = 0; k < PARTS; k++) {
    const rise = y[k + 1] - y[k];
    const [d, e] = [slope[k], slope[k + 1]];
    const [b, c] = [bend[k] / 2, bend[k + 1] / 2];
    const i = 6 * k;
    coefficients[i] = y[k];
    coefficients[i + 1] = d;
    coefficients[i + 2] = b;
    coefficients[i + 3] = 10 * rise - 6 * d - 4 * e - 3 * b + c;
    coefficients[i + 4] = -15 * rise + 8 * d + 7 * e + 3 * b - 2 * c;
    coefficients[i + 5] = 6 * rise - 3 * d - 3 * e - b + c;
  }
  return { from, perStep: 1 / step, y, coefficients };
}

/** The ends brought in to where the lever comes over its centre. */
function withinLever(curve: Laid, lever: Lever, ends: Ends): Ends {
  const { travel, step } = even(ends, LOOKS);
  const isFree = leversFree(curve, lever, travel);
  const middle = Math.min(LOOKS, Math.max(0, Math.round(-travel[0] / step)));
  const narrowed = (way: 1 | -1): WheelEnd => {
    const end = way > 0 ? ends.bump : ends.droop;
    let k = middle;
    while (k >= 0 && k <= LOOKS && (isFree[k] || way * travel[k] <= 0)) k += way;
    if (k < 0 || k > LOOKS) return end;
    let [free, held] = [way * travel[k - way] > 0 ? travel[k - way] : 0, travel[k]];
    while (Math.abs(held - free) > CLOSE * step) {
      const tried = 0.5 * (free + held);
      if (leversFree(curve, lever, Float64Array.of(tried))[0]) free = tried;
      else held = tried;
    }
    return { travel: free, status: 'leverOverCentre' };
  };
  return { droop: narrowed(-1), bump: narrowed(1) };
}

/** Whether the lever has an angle, at each of these travels. */
function leversFree({ all, drawn, ends }: Laid, lever: Lever, travel: Float64Array): boolean[] {
  const free: boolean[] = [];
  const there = leverAngles(Math.min(BLOCK, travel.length));
  readBlocks(all, drawn, travel, [], (m, rows) => {
    readLevers(lever, ends, m, rows, there);
    for (let row = 0; row < rows; row++) free.push(!Number.isNaN(there.angle[row]));
  });
  return free;
}

/** The lever's angles in the first rows of the readings. */
function readLevers(
  lever: Lever,
  ends: CouplingPlaces,
  m: Float64Array,
  rows: number,
  into: LeverAngles,
): void {
  const y = (ends.bar ?? 0) * READING;
  readLeverAngles(lever, m, y, y + READING, FIRST, SECOND, rows, into);
}

/** Reads along travels: `take` is given the readings, the row there, and which of the travels it is. */
export function readAlong(
  r: Reader,
  drawn: number,
  travel: Float64Array,
  take: (m: Float64Array, row: number, k: number) => void,
): void {
  readBlocks(r, drawn, travel, [], (m, rows, first) => {
    for (let row = 0; row < rows; row++) take(m, row, first + row);
  });
}

/** The same a block of rows at a time: `take` is given which of the travels the first of them is. Readings with a sink go there. */
export function readBlocks(
  r: Reader,
  drawn: number,
  travel: Float64Array,
  sinks: Sinks,
  take: (m: Float64Array, rows: number, first: number) => void,
): void {
  const driver = driverOf(travel, drawn, r.path, new Float64Array(travel.length));
  for (let first = 0; first < driver.length; ) {
    const rows = readRows(r, driver, first, sinks);
    take(r.m, rows, first);
    first += rows;
  }
}

/** The lever's angles in the first rows of the readings; nothing without a bar. */
export function leversThere(
  { lever, ends }: Pick<WheelCurve, 'lever' | 'ends'>,
  m: Float64Array,
  rows: number,
  into: LeverAngles,
): void {
  if (lever !== null) readLevers(lever, ends, m, rows, into);
}

/** Corrections of a travel: a few leave rounding; beside a dead point the way to it is halved first. */
const CORRECTIONS = 64;
/** mm: a correction that leaves the wheel less than this off the ground is the last. */
const SETTLED = 1e-14;
/** mm: how far beyond its end a wheel may have to go to be at that end. */
const ROUNDING = 1e-9;

/**
 * Travels of a wheel for heaves and rolls, mm and radians; NaN marks those out of its reach, a dead point too, for the caller to take out.
 * By Newton's method, and halving where that leads out of where the root is: towards a dead point the half-track's slope grows without bound.
 */
export function travelsAt(curve: WheelCurve, heave: Float64Array, roll: Float64Array): Float64Array {
  const { side, drawn, halfTrack, end } = curve;
  const tan = roll.map(Math.tan);
  const travel = startsAt(curve, heave, tan);
  const low = travel.map(() => end.droop.travel);
  const high = travel.map(() => end.bump.travel);
  let open = Uint32Array.from(travel.keys()).filter((k) => !Number.isNaN(travel[k]));
  for (let round = 0; round < CORRECTIONS && open.length > 0; round++) {
    const still: number[] = [];
    const at = Float64Array.from(open, (k) => travel[k]);
    readAlong(halfTrack, drawn, at, (m, row, i) => {
      const k = open[i];
      const lean = side * tan[k];
      const z = at[i];
      const missed = heave[k] - z - lean * m[row];
      if (missed <= 0) high[k] = z;
      if (missed >= 0) low[k] = z;
      const by = missed / (1 + lean * m[row + FIRST]);
      const next = z + by;
      const isWithin = by !== 0 && next >= low[k] && next <= high[k];
      travel[k] = isWithin ? next : 0.5 * (low[k] + high[k]);
      const isLast = isWithin && 0.5 * Math.abs(lean * m[row + SECOND]) * by * by < SETTLED;
      if (!isLast && travel[k] !== z) still.push(k);
    });
    open = Uint32Array.from(still);
  }
  for (const k of travel.keys()) if (isDead(curve, travel[k])) travel[k] = Number.NaN;
  return travel;
}

/** Whether a wheel at a travel stands at a dead point, where nothing has a derivative. */
export function isDead({ end: { droop, bump } }: WheelCurve, z: number): boolean {
  return (
    (z === droop.travel && droop.status === 'deadPoint') || (z === bump.travel && bump.status === 'deadPoint')
  );
}

/**
 * Travels by the table, for heaves and tangents of rolls; NaN where the wheel does not get there. The first `many` heaves come again and
 * again: for each the half-track is looked up once.
 */
export function startsAt(
  { side, table, end }: WheelCurve,
  heave: Float64Array,
  tan: Float64Array,
  many = heave.length,
): Float64Array {
  const travel = new Float64Array(heave.length);
  const on = new Float64Array(4);
  const level = new Float64Array(5 * many);
  for (let k = 0; k < many; k++) {
    const at = Math.min(end.bump.travel, Math.max(end.droop.travel, heave[k]));
    onTable(table, at, on);
    level[5 * k] = at;
    level.set(on, 5 * k + 1);
  }
  const [least, most] = [end.droop.travel, end.bump.travel];
  const [yLeast, yMost] = [table.y[0], table.y[PARTS]];
  for (let k = 0, of = 0; k < travel.length; k++, of = of + 1 < many ? of + 1 : 0) {
    const up = heave[k];
    const lean = side * tan[k];
    if (!(least + lean * yLeast - up <= ROUNDING && most + lean * yMost - up >= -ROUNDING)) {
      travel[k] = Number.NaN;
      continue;
    }
    // To third order from the travel without roll.
    const at = level[5 * of];
    const perRise = 1 / (1 + lean * level[5 * of + 2]);
    const by = (up - at - lean * level[5 * of + 1]) * perRise;
    const bend = 0.5 * lean * level[5 * of + 3] * perRise;
    const twist = lean * level[5 * of + 4] * perRise * SIXTH;
    const start = at + by * (1 - by * (bend - by * (2 * bend * bend - twist)));
    travel[k] = rootOnTable(table, least, most, Math.min(most, Math.max(least, start)), up, lean, on);
  }
  return travel;
}

const SIXTH = 1 / 6;

/** The root of g on the table, by Newton's method and halving, with a last step of second order. */
function rootOnTable(
  table: Table,
  least: number,
  most: number,
  start: number,
  heave: number,
  lean: number,
  on: Float64Array,
): number {
  let [low, high, z] = [least, most, start];
  for (let round = 0; round < CORRECTIONS; round++) {
    onTable(table, z, on);
    const perRise = 1 / (1 + lean * on[1]);
    const by = (heave - z - lean * on[0]) * perRise;
    if (Math.abs(by) < CLOSE_ON_TABLE)
      return Math.min(most, Math.max(least, z + by - 0.5 * lean * on[2] * by * by * perRise));
    if (by < 0) high = Math.min(high, z);
    else low = Math.max(low, z);
    const next = z + by;
    z = next > low && next < high ? next : 0.5 * (low + high);
  }
  return z;
}

/** mm: after a step of this on the table, made to second order, the next would be rounding. */
const CLOSE_ON_TABLE = 1e-3;

/** The half-track between the places of the table, and its derivatives up to the third. */
function onTable({ from, perStep, coefficients: c }: Table, z: number, into: Float64Array): void {
  const share = (z - from) * perStep;
  const k = Math.min(PARTS - 1, Math.max(0, Math.floor(share)));
  const t = share - k;
  const i = 6 * k;
  const c1 = c[i + 1];
  const c2 = c[i + 2];
  const c3 = c[i + 3];
  const c4 = c[i + 4];
  const c5 = c[i + 5];
  into[0] = c[i] + t * (c1 + t * (c2 + t * (c3 + t * (c4 + t * c5))));
  into[1] = (c1 + t * (2 * c2 + t * (3 * c3 + t * (4 * c4 + t * 5 * c5)))) * perStep;
  into[2] = (2 * c2 + t * (6 * c3 + t * (12 * c4 + t * 20 * c5))) * perStep * perStep;
  into[3] = (6 * c3 + t * (24 * c4 + t * 60 * c5)) * perStep * perStep * perStep;
}
