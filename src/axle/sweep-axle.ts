// The poses of an axle over heave and roll. Seen from the chassis the ground leans by the roll p and lies at z = e in the middle of the car;
// each wheel stands at its own travel z(e, p) (wheel-curve.ts), and with n = 1 + s y' tan p, y the half-track and y' dy/dz,
//
//   z_e = 1 / n,   z_p = -s y / (n cos^2 p).
//
// A function q of one wheel has q_e = q' z_e and q_p = q' z_p. On the ground, Y to the left from below the middle of the car as drawn,
//
//   Y = y cos p - z sin p,   Z = (z - e) cos p + y sin p          (y to the left: s times outboard).
//
// The roll centre is where two lines meet: each goes through a contact patch, square to the patch's path in the chassis.

import type { ColumnInfo } from '../corner/columns.ts';
import { fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import { BLOCK, READING, type Sink } from '../linkage/reader.ts';
import { DEGREES } from '../units.ts';
import type { AxleLinkage } from './axle.ts';
import { lengthAcross, type SpringEnd } from './cross-spring.ts';
import { type LeverAngles, leverAngles } from './lever-angle.ts';
import { noEnds } from './wheel-at.ts';
import {
  isDead,
  layWheels,
  leversThere,
  READ,
  readBlocks,
  startsAt,
  travelsAt,
  type WheelCurve,
  type WheelEnd,
} from './wheel-curve.ts';

/** Which poses of an axle; all optional. */
export interface AxleSweepOptions {
  /** Heaves, mm: bump of both wheels positive; default -60 to 60 by 20. */
  readonly heave?: readonly number[];
  /** Rolls, degrees: left side up positive (ISO 8855), so that in a left turn the right wheel is the outer one; default -3 to 3 by 1. */
  readonly roll?: readonly number[];
  /** `grid` (default): every heave at every roll. `path`: heave and roll pair by pair. */
  readonly along?: 'grid' | 'path';
}

/** A pose that a wheel does not get to. */
export interface OutOfReach {
  /** mm, bump of both wheels positive. */
  readonly heave: number;
  /** Degrees, left side up positive. */
  readonly roll: number;
  readonly side: 'left' | 'right';
  /** The end of that wheel's travel. */
  readonly end: WheelEnd;
}

/** An axle over heave and roll. Rows stand where both wheels get to. */
export interface AxleSweep {
  /** Name, unit and meaning of each column. */
  readonly info: readonly ColumnInfo[];
  readonly columns: AxleColumns;
  /** One flat object a row. */
  rows(): AxleRow[];
  /** Poses of the options that a wheel does not get to. */
  readonly outOfReach: readonly OutOfReach[];
  /** Where the travel of each wheel ends, bar and all. */
  readonly end: Readonly<Record<'left' | 'right', { readonly bump: WheelEnd; readonly droop: WheelEnd }>>;
}

const WHEEL = {
  Travel: ['mm', 'travel in the chassis, bump +'],
  TravelByHeave: ['', 'change of travel with heave'],
  TravelByRoll: ['mm/deg', 'change of travel with roll'],
  ShockLength: ['mm', 'shock length'],
  InstallationRatio: ['', 'installation ratio'],
  InstallationRatioSlope: ['1/mm', 'change of the installation ratio with travel'],
  Camber: ['deg', 'camber to the ground, top outboard +'],
  CamberByHeave: ['deg/mm', 'change of camber to the ground with heave'],
  CamberByRoll: ['', 'change of camber to the ground with roll'],
  PatchY: ['mm', 'contact patch on the ground, left +'],
} as const;
const BARRED = {
  LeverAngle: ['deg', 'angle of the bar’s lever from level, end up +; of a bar along the car its turn'],
  BarRatio: ['', 'travel of the lever’s end ÷ wheel travel'],
  LinkAngle: ['deg', 'angle of the drop link from vertical, top outboard +'],
} as const;
const WHOLE = {
  rollCentreY: ['mm', 'roll centre across the ground, left +'],
  rollCentreHeight: ['mm', 'roll centre above the ground'],
  rollCentreChassisY: ['mm', 'roll centre in the chassis, left +'],
  rollCentreChassisZ: ['mm', 'roll centre in the chassis, up from the ground as drawn'],
} as const;
const TWIST = {
  barTwist: ['deg', 'twist of the bar, left lever up +'],
  barTwistByHeave: ['deg/mm', 'change of the twist with heave'],
  barTwistByRoll: ['', 'change of the twist with roll'],
} as const;

const THIRD = {
  thirdSpringLength: ['mm', 'length of the third spring'],
  thirdSpringRatio: ['', 'installation ratio of the third spring: shortening by heave'],
  thirdSpringLengthByRoll: ['mm/deg', 'change of the length of the third spring with roll'],
} as const;
const ROLL_SPRING = {
  rollSpringLength: ['mm', 'length of the roll spring'],
  rollSpringLengthByHeave: ['', 'change of the length of the roll spring with heave'],
  rollSpringLengthByRoll: ['mm/deg', 'change of the length of the roll spring with roll'],
} as const;

type Side = 'left' | 'right';
/** A column of `sweepAxle`; those of bar and springs between both wheels exist where there is one. */
export type AxleColumn = Always | keyof typeof WHOLE | Barred;

type Always = 'heave' | 'roll' | `${Side}${keyof typeof WHEEL}`;
type Barred =
  | `${Side}${keyof typeof BARRED}`
  | keyof typeof TWIST
  | keyof typeof THIRD
  | keyof typeof ROLL_SPRING;

/** A value for each row; roll centres have gaps, and those of bar and springs between both wheels are there with one. */
export type AxleColumns = { readonly [Name in Always]: Float64Array } & {
  readonly [Name in keyof typeof WHOLE]: readonly (number | null)[];
} & { readonly [Name in Barred]?: Float64Array };

/** A pose of an axle, a number for each column; null where there is no roll centre. */
export type AxleRow = { readonly [Name in Always]: number } & {
  readonly [Name in keyof typeof WHOLE]: number | null;
} & { readonly [Name in Barred]?: number };

const HEAVES = [-60, -40, -20, 0, 20, 40, 60];
const ROLLS = [-3, -2, -1, 0, 1, 2, 3];
/** Degrees: no car rolls farther on its wheels. */
export const MOST_ROLL = 30;
const MOST_POSES = 1_000_000;
/** mm: the most that a wheel by the table may miss the ground. */
const MISSED = 1e-12;
/** Two lines whose slopes differ less than this meet nowhere. */
const PARALLEL = 1e-12;

/**
 * Sweeps an axle over heave and roll, both wheels on the ground.
 *
 * @throws InputError for options out of range.
 */
export function sweepAxle(axle: AxleLinkage, options: AxleSweepOptions = {}): AxleSweep {
  const { many, ...poses } = posesOf(options);
  const asked = placed(poses);
  const { heave, roll, angle } = asked;
  const curves = layWheels(axle, largest(heave), largest(angle));
  // Of two wheels alike the right one stands as the left one does in the mirror image of the pose.
  const isImage = curves[0].all === curves[1].all && areMirrored(roll, many);
  const find = (of: (curve: WheelCurve) => Float64Array) => {
    const left = of(curves[0]);
    return [left, isImage ? mirrored(left, many) : of(curves[1])];
  };
  let travels = find((curve) => startsAt(curve, heave, asked.tan, many));
  let there = thereOf(travels);
  const read = () => readThere(curves, travels, asked, there, isImage ? many : null);
  let [place, wheels] = read();
  // Beside a dead point the table does not do.
  if (wheels.some(({ missed }) => missed > MISSED)) {
    travels = find((curve) => travelsAt(curve, heave, angle));
    there = thereOf(travels);
    [place, wheels] = read();
  }
  const columns = {
    heave: place.heave,
    roll: place.roll,
    ...Object.fromEntries(wheels.flatMap(({ columns }, w) => columnsOf(columns, SIDES[w]))),
    ...rollCentres(wheels, place),
    ...(axle.bar === null ? {} : twists(wheels)),
    ...(axle.thirdSpring === null ? {} : thirdColumns(lengthsOf(wheels, 'thirdSpring'))),
    ...(axle.rollSpring === null ? {} : rollColumns(lengthsOf(wheels, 'rollSpring'))),
  } as unknown as AxleColumns;
  const info = INFO.filter(({ name }) => name in columns);
  const outOfReach: OutOfReach[] = [];
  for (let k = 0; k < heave.length && there.length < heave.length; k++) {
    SIDES.forEach((side, w) => {
      if (!Number.isNaN(travels[w][k])) return;
      outOfReach.push({
        heave: heave[k],
        roll: roll[k],
        side,
        end: endTowards(curves[w], heave[k], angle[k]),
      });
    });
  }
  const [left, right] = curves.map(({ end }) => end);
  return {
    info,
    columns,
    rows: () =>
      Array.from(
        there.keys(),
        (row) =>
          Object.fromEntries(
            info.map(({ name }) => [name, columns[name as AxleColumn]?.[row]]),
          ) as unknown as AxleRow,
      ),
    outOfReach,
    end: { left, right },
  };
}

const SIDES = ['left', 'right'] as const;

/** Poses, with what their rolls are in radians and sine, cosine and tangent of that. */
interface Poses {
  readonly heave: Float64Array;
  readonly roll: Float64Array;
  readonly angle: Float64Array;
  readonly sin: Float64Array;
  readonly cos: Float64Array;
  readonly tan: Float64Array;
}

function placed({ heave, roll }: Pick<Poses, 'heave' | 'roll'>): Poses {
  const [angle, sin, cos, tan] = arrays(4, roll.length);
  for (let k = 0; k < roll.length; k++) {
    const isLast = k > 0 && roll[k - 1] === roll[k];
    angle[k] = isLast ? angle[k - 1] : roll[k] / DEGREES;
    sin[k] = isLast ? sin[k - 1] : Math.sin(angle[k]);
    cos[k] = isLast ? cos[k - 1] : Math.cos(angle[k]);
    tan[k] = isLast ? tan[k - 1] : Math.tan(angle[k]);
  }
  return { heave, roll, angle, sin, cos, tan };
}

/** So many arrays of so many rows, in one buffer: of all that a sweep does, making arrays takes the longest. */
function arrays(count: number, rows: number): Float64Array[] {
  const { buffer } = new Float64Array(count * rows);
  return Array.from(
    { length: count },
    (_, c) => new Float64Array(buffer, c * rows * Float64Array.BYTES_PER_ELEMENT, rows),
  );
}

/** The poses that both wheels get to. */
function thereOf([left, right]: readonly Float64Array[]): Uint32Array {
  const there = new Uint32Array(left.length);
  let count = 0;
  for (let k = 0; k < left.length; k++) {
    if (!(Number.isNaN(left[k]) || Number.isNaN(right[k]))) there[count++] = k;
  }
  return there.subarray(0, count);
}

/** Whether lines of so many poses each have their mirror image at the same place from the other end. */
function areMirrored(roll: Float64Array, many: number): boolean {
  const image = mirrored(roll, many, -1);
  for (let k = 0; k < roll.length; k++) if (roll[k] !== image[k]) return false;
  return true;
}

/** Lines of so many values in the opposite order. */
function mirrored(
  values: Float64Array,
  many: number,
  sign = 1,
  into: Float64Array = new Float64Array(values.length),
): Float64Array {
  for (let to = 0, from = values.length - many; from >= 0; from -= many)
    for (let k = 0; k < many; k++, to++) into[to] = sign * values[from + k];
  return into;
}

/** These poses, and both wheels in them: where the poses come in lines of `many` that have their mirror images, one is read for both. */
function readThere(
  curves: readonly WheelCurve[],
  travels: readonly Float64Array[],
  poses: Poses,
  there: Uint32Array,
  many: number | null,
): [Poses, WheelAt[]] {
  const at = (values: Float64Array) =>
    there.length === values.length ? values : Float64Array.from(there, (k) => values[k]);
  const { heave, roll, angle, sin, cos, tan } = poses;
  const place = {
    heave: at(heave),
    roll: at(roll),
    angle: at(angle),
    sin: at(sin),
    cos: at(cos),
    tan: at(tan),
  };
  const left = readWheel(curves[0], at(travels[0]), place);
  const isWhole = many !== null && there.length === heave.length;
  const right = isWhole ? imageOf(left, many) : readWheel(curves[1], at(travels[1]), place);
  return [place, [left, right]];
}

const INFO: readonly ColumnInfo[] = [
  { name: 'heave', unit: 'mm', label: 'heave, bump of both wheels +', gaps: false },
  { name: 'roll', unit: 'deg', label: 'roll, left side up +', gaps: false },
  ...SIDES.flatMap((side) => infoOf({ ...WHEEL, ...BARRED }, side)),
  ...infoOf(WHOLE),
  ...infoOf(TWIST),
  ...infoOf(THIRD),
  ...infoOf(ROLL_SPRING),
];

function infoOf(columns: Readonly<Record<string, readonly [string, string]>>, side?: Side): ColumnInfo[] {
  return Object.entries(columns).map(([name, [unit, label]]) => ({
    name: `${side ?? ''}${name}`,
    unit,
    label: side === undefined ? label : `${side} wheel: ${label}`,
    gaps: name in WHOLE,
  }));
}

function columnsOf(columns: Readonly<Record<string, Float64Array>>, side: Side) {
  return Object.entries(columns).map(([name, values]) => [`${side}${name}`, values] as const);
}

/** The poses asked for, each with its heave and roll; the first `many` heaves come again and again. */
function posesOf(options: AxleSweepOptions): Pick<Poses, 'heave' | 'roll'> & { readonly many: number } {
  const faults = unknownOptions(options, ['heave', 'roll', 'along']);
  const { heave = HEAVES, roll = ROLLS, along = 'grid' } = options ?? {};
  const isList = (values: unknown) =>
    Array.isArray(values) && values.length > 0 && values.every(Number.isFinite);
  if (!isList(heave)) faults.push(fault('notPlaces', 'heave', { got: show(heave), unit: 'mm' }));
  if (!isList(roll)) faults.push(fault('notPlaces', 'roll', { got: show(roll), unit: 'degrees' }));
  else if (roll.some((degrees) => Math.abs(degrees) > MOST_ROLL))
    faults.push(fault('rollTooLarge', 'roll', { got: show(roll), most: MOST_ROLL }));
  if (along !== 'grid' && along !== 'path')
    faults.push(fault('unknownChoice', 'along', { got: show(along), allowed: ['grid', 'path'] }));
  else if (along === 'path' && isList(roll) && isList(heave) && roll.length !== heave.length)
    faults.push(fault('pathLengthsDiffer', 'roll', { got: roll.length, count: heave.length }));
  refuse('axle sweep options', faults);
  const many = heave.length;
  if (along === 'path') return { heave: Float64Array.from(heave), roll: Float64Array.from(roll), many };
  const count = heave.length * roll.length;
  if (count > MOST_POSES)
    refuse('axle sweep options', [fault('tooManyPoses', '', { got: count, most: MOST_POSES })]);
  const grid = { heave: new Float64Array(count), roll: new Float64Array(count), many };
  for (let k = 0, row = 0; row < roll.length; row++) {
    for (let column = 0; column < heave.length; column++, k++) {
      grid.heave[k] = heave[column];
      grid.roll[k] = roll[row];
    }
  }
  return grid;
}

function largest(values: Float64Array): number {
  let most = 0;
  for (let k = 0; k < values.length; k++) most = Math.max(most, Math.abs(values[k]));
  return most;
}

function endTowards({ end, side, table }: WheelCurve, heave: number, angle: number): WheelEnd {
  return heave - side * table.y[0] * Math.tan(angle) > 0 ? end.bump : end.droop;
}

/** A wheel at each row: its columns, and what the axle needs of it. */
interface WheelAt {
  readonly columns: Record<keyof typeof WHEEL, Float64Array>;
  readonly halfTrack: Float64Array;
  /** dy/dz of the half-track. */
  readonly scrub: Float64Array;
  /** The lever's angle and its rate by travel, radians; zeros without a bar. */
  readonly lever: Float64Array;
  readonly leverRate: Float64Array;
  /** Ends of the springs between both wheels: y, its rate by travel, z and its rate; empty without. */
  readonly ends: Readonly<Record<SpringName, readonly Float64Array[]>>;
  /** How far it is off the ground at most, mm; infinite where it stands at a dead point. */
  readonly missed: number;
}

/** Reads a wheel at its travels. */
function readWheel(curve: WheelCurve, travel: Float64Array, { heave, roll, sin, cos, tan }: Poses): WheelAt {
  const { side, model, lever: arm, ends: places } = curve;
  const rows = travel.length;
  const [byHeave, byRoll, length, ratio, slope, camber, camberByHeave, camberByRoll, patchY, ...barred] =
    arrays(arm === null ? 9 : 12, rows);
  const [halfTrack, scrub, lever, leverRate] = arrays(4, rows);
  const ends = { thirdSpring: [] as Float64Array[], rollSpring: [] as Float64Array[] };
  const sinks: (Sink | false | undefined)[] = [];
  const put = (measure: number, ...into: (Sink | false | undefined)[]) => {
    for (const [part, sink] of into.entries()) sinks[3 * measure + part] = sink;
  };
  put(READ.shock, as(length), as(ratio, -1), as(slope, -1));
  put(READ.halfTrack, as(halfTrack), as(scrub), false);
  put(READ.turn, as(camber, -DEGREES, model.camber), as(camberByHeave, -DEGREES), false);
  if (places.bar !== undefined) for (const of of [0, 1]) put(places.bar + of, undefined, undefined, false);
  for (const name of SPRINGS) {
    const place = places[name];
    if (place === undefined) continue;
    ends[name] = arrays(4, rows);
    const [y, yRate, z, zRate] = ends[name];
    put(place, as(y), as(yRate), false);
    put(place + 1, as(z), as(zRate), false);
  }
  const there = arm === null ? null : leverAngles(BLOCK);
  let missed = 0;
  readBlocks(curve.all, curve.drawn, travel, sinks, (m, read, first) => {
    for (let k = first; k < first + read; k++) {
      const z = travel[k];
      const y = halfTrack[k];
      const lean = side * tan[k];
      const heaved = 1 / (1 + lean * scrub[k]);
      const off = isDead(curve, z) ? Number.POSITIVE_INFINITY : Math.abs(heave[k] - z - lean * y);
      if (off > missed) missed = off;
      // 1 / cos^2 p = 1 + tan^2 p.
      const rolled = (-side * y * heaved * (1 + lean * lean)) / DEGREES;
      const turned = camberByHeave[k];
      byHeave[k] = heaved;
      byRoll[k] = rolled;
      camber[k] -= side * roll[k];
      camberByHeave[k] = turned * heaved;
      camberByRoll[k] = turned * rolled - side;
      patchY[k] = side * y * cos[k] - z * sin[k];
    }
    if (there !== null) readLevers(curve, m, read, first, there, [lever, leverRate, ...barred]);
  });
  const columns = {
    Travel: travel,
    TravelByHeave: byHeave,
    TravelByRoll: byRoll,
    ShockLength: length,
    InstallationRatio: ratio,
    InstallationRatioSlope: slope,
    Camber: camber,
    CamberByHeave: camberByHeave,
    CamberByRoll: camberByRoll,
    PatchY: patchY,
    ...(arm === null ? {} : { LeverAngle: barred[0], BarRatio: barred[1], LinkAngle: barred[2] }),
  } satisfies Record<keyof typeof WHEEL, Float64Array>;
  return { columns, halfTrack, scrub, lever, leverRate, ends, missed };
}

/** Columns that change their sign with the side. */
const ODD: readonly string[] = ['TravelByRoll', 'CamberByRoll', 'PatchY'];

/** The other wheel in lines of `many` poses that have their mirror images. */
function imageOf(
  { columns, halfTrack, scrub, lever, leverRate, ends, missed }: WheelAt,
  many: number,
): WheelAt {
  const names = Object.keys(columns) as (keyof typeof columns)[];
  const into = arrays(names.length, halfTrack.length);
  const image = (values: Float64Array) => mirrored(values, many);
  return {
    columns: Object.fromEntries(
      names.map((name, c) => [name, mirrored(columns[name], many, ODD.includes(name) ? -1 : 1, into[c])]),
    ) as WheelAt['columns'],
    halfTrack: image(halfTrack),
    scrub: image(scrub),
    lever: image(lever),
    leverRate: image(leverRate),
    ends: { thirdSpring: ends.thirdSpring.map(image), rollSpring: ends.rollSpring.map(image) },
    missed,
  };
}

/** Where a reading goes, so many times as large. */
function as(out: Float64Array, times = 1, plus = 0): Sink {
  return { out, plus, times };
}

/** Reads levers and drop links from a block of readings. */
function readLevers(
  curve: WheelCurve,
  m: Float64Array,
  rows: number,
  first: number,
  there: LeverAngles,
  [lever, leverRate, leverAngle, barRatio, linkAngle]: readonly Float64Array[],
): void {
  const link = (curve.ends.bar ?? 0) * READING;
  leversThere(curve, m, rows, there);
  for (let row = 0; row < rows; row++) {
    const angle = there.angle[row];
    if (Number.isNaN(angle)) continue;
    const k = first + row;
    const rate = there.first[row];
    lever[k] = angle;
    leverRate[k] = rate;
    leverAngle[k] = angle * DEGREES;
    barRatio[k] = there.arm[row] * rate;
    const up = there.z[row] - m[link + READING + row];
    const out = there.y[row] - m[link + row];
    // From vertical, whichever end is the upper one.
    linkAngle[k] = up === 0 ? 0 : Math.atan(out / up) * DEGREES;
  }
}

/** Where the lines through both contact patches, square to their paths in the chassis, meet: y to the left. */
function rollCentres(
  [left, right]: readonly WheelAt[],
  { heave, sin: sines, cos: cosines }: Poses,
): Record<keyof typeof WHOLE, (number | null)[]> {
  const { length: rows } = heave;
  const columns = {
    rollCentreY: new Array<number | null>(rows),
    rollCentreHeight: new Array<number | null>(rows),
    rollCentreChassisY: new Array<number | null>(rows),
    rollCentreChassisZ: new Array<number | null>(rows),
  };
  const { rollCentreY, rollCentreHeight, rollCentreChassisY, rollCentreChassisZ } = columns;
  const [travelLeft, travelRight] = [left.columns.Travel, right.columns.Travel];
  for (let k = 0; k < rows; k++) {
    // Up along either line from its patch: z = z_left - a (y - y_left) and z = z_right + b (y + y_right).
    const a = left.scrub[k];
    const b = right.scrub[k];
    const yLeft = left.halfTrack[k];
    const yRight = right.halfTrack[k];
    // In sums and differences that a mirror image leaves as they are.
    const fall = travelLeft[k] - travelRight[k] + (a * yLeft - b * yRight);
    const meets = Math.abs(a + b) > PARALLEL;
    const sin = sines[k];
    const cos = cosines[k];
    if (meets) {
      const y = fall / (a + b) + 0;
      const z = 0.5 * (travelLeft[k] - a * (y - yLeft) + (travelRight[k] + b * (y + yRight)));
      rollCentreChassisY[k] = y;
      rollCentreChassisZ[k] = z;
      rollCentreY[k] = y * cos - z * sin + 0;
      rollCentreHeight[k] = y * sin + (z - heave[k]) * cos;
    } else {
      // Two lines that are the ground itself meet anywhere on it.
      const isGround = Math.abs(a * cos + sin) <= PARALLEL && Math.abs(fall) <= PARALLEL * yLeft;
      rollCentreChassisY[k] = null;
      rollCentreChassisZ[k] = null;
      rollCentreY[k] = null;
      rollCentreHeight[k] = isGround ? 0 : null;
    }
  }
  return columns;
}

function twists([left, right]: readonly WheelAt[]): Record<keyof typeof TWIST, Float64Array> {
  const { length: rows } = left.lever;
  const [barTwist, barTwistByHeave, barTwistByRoll] = arrays(3, rows);
  for (let k = 0; k < rows; k++) {
    const a = left.leverRate[k];
    const b = right.leverRate[k];
    barTwist[k] = (left.lever[k] - right.lever[k]) * DEGREES;
    barTwistByHeave[k] = (a * left.columns.TravelByHeave[k] - b * right.columns.TravelByHeave[k]) * DEGREES;
    barTwistByRoll[k] = (a * left.columns.TravelByRoll[k] - b * right.columns.TravelByRoll[k]) * DEGREES;
  }
  return { barTwist, barTwistByHeave, barTwistByRoll };
}

const SPRINGS = ['thirdSpring', 'rollSpring'] as const;
type SpringName = (typeof SPRINGS)[number];

/** Length of a spring between both wheels, and its change with heave and with roll, per degree. */
function lengthsOf([left, right]: readonly WheelAt[], name: SpringName): readonly Float64Array[] {
  const { length: rows } = left.lever;
  const [length, byHeave, byRoll] = arrays(3, rows);
  const across = { value: 0, left: 0, right: 0, leftLeft: 0, leftRight: 0, rightRight: 0 };
  const at = { left: noEnds()[name], right: noEnds()[name] };
  for (let k = 0; k < rows; k++) {
    takeEnd(left.ends[name], k, at.left);
    takeEnd(right.ends[name], k, at.right);
    lengthAcross(at.left, at.right, across);
    length[k] = across.value;
    byHeave[k] = across.left * left.columns.TravelByHeave[k] + across.right * right.columns.TravelByHeave[k];
    byRoll[k] = across.left * left.columns.TravelByRoll[k] + across.right * right.columns.TravelByRoll[k];
  }
  return [length, byHeave, byRoll];
}

/** The end of a spring at a row, without second derivatives. */
function takeEnd([y, yRate, z, zRate]: readonly Float64Array[], k: number, into: SpringEnd): void {
  into[0][0] = y[k];
  into[0][1] = yRate[k];
  into[1][0] = z[k];
  into[1][1] = zRate[k];
}

function thirdColumns([length, byHeave, byRoll]: readonly Float64Array[]): Record<
  keyof typeof THIRD,
  Float64Array
> {
  return {
    thirdSpringLength: length,
    thirdSpringRatio: byHeave.map((slope) => 0 - slope),
    thirdSpringLengthByRoll: byRoll,
  };
}

function rollColumns([length, byHeave, byRoll]: readonly Float64Array[]): Record<
  keyof typeof ROLL_SPRING,
  Float64Array
> {
  return {
    rollSpringLength: length,
    rollSpringLengthByHeave: byHeave,
    rollSpringLengthByRoll: byRoll,
  };
}
