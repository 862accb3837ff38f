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
import { FIRST, READING, SECOND } from '../linkage/reader.ts';
import { DEGREES } from '../units.ts';
import type { AxleLinkage } from './axle.ts';
import { leverEndAt } from './bar.ts';
import { lengthAcross, type SpringEnd } from './cross-spring.ts';
import { noEnds, takeEnds } from './wheel-at.ts';
import {
  correction,
  layWheels,
  leverThere,
  READ,
  readAlong,
  SETTLED,
  startsAt,
  travelsAt,
  type WheelCurve,
  type WheelEnd,
  within,
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
/** Two lines whose slopes differ less than this meet nowhere. */
const PARALLEL = 1e-12;

/**
 * Sweeps an axle over heave and roll, both wheels on the ground.
 *
 * @throws InputError for options out of range.
 */
export function sweepAxle(axle: AxleLinkage, options: AxleSweepOptions = {}): AxleSweep {
  const { heave, roll } = posesOf(options);
  const angle = roll.map((degrees) => degrees / DEGREES);
  const curves = layWheels(axle, largest(heave), largest(angle));
  const asked = placed(heave, roll, angle);
  let travels = curves.map((curve) =>
    startsAt(
      curve,
      heave,
      asked.tan.map((tan) => curve.side * tan),
    ),
  );
  let there = thereOf(travels);
  let [place, wheels] = readThere(curves, travels, asked, there);
  // Beside a dead point one correction from the table is not enough.
  if (wheels.some(({ corrected }) => corrected > SETTLED)) {
    travels = curves.map((curve) => travelsAt(curve, heave, angle));
    there = thereOf(travels);
    [place, wheels] = readThere(curves, travels, asked, there);
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

function placed(heave: Float64Array, roll: Float64Array, angle: Float64Array): Poses {
  const [sin, cos, tan] = [0, 1, 2].map(() => new Float64Array(angle.length));
  for (let k = 0; k < angle.length; k++) {
    const last = k > 0 && angle[k - 1] === angle[k] ? k - 1 : -1;
    sin[k] = last < 0 ? Math.sin(angle[k]) : sin[last];
    cos[k] = last < 0 ? Math.cos(angle[k]) : cos[last];
    tan[k] = last < 0 ? Math.tan(angle[k]) : tan[last];
  }
  return { heave, roll, angle, sin, cos, tan };
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

/** These poses, and both wheels in them. */
function readThere(
  curves: readonly WheelCurve[],
  travels: readonly Float64Array[],
  poses: Poses,
  there: Uint32Array,
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
  return [place, curves.map((curve, w) => readWheel(curve, Float64Array.from(at(travels[w])), place))];
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

/** The poses asked for, each with its heave and roll. */
function posesOf(options: AxleSweepOptions): { heave: Float64Array; roll: Float64Array } {
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
  if (along === 'path') return { heave: Float64Array.from(heave), roll: Float64Array.from(roll) };
  const count = heave.length * roll.length;
  if (count > MOST_POSES)
    refuse('axle sweep options', [fault('tooManyPoses', '', { got: count, most: MOST_POSES })]);
  const grid = { heave: new Float64Array(count), roll: new Float64Array(count) };
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
  readonly side: 1 | -1;
  readonly columns: Record<keyof typeof WHEEL, Float64Array>;
  readonly travel: Float64Array;
  readonly halfTrack: Float64Array;
  /** dy/dz of the half-track. */
  readonly scrub: Float64Array;
  /** The lever's angle and its rate by travel, radians; zeros without a bar. */
  readonly lever: Float64Array;
  readonly leverRate: Float64Array;
  /** Ends of the springs between both wheels; empty without. */
  readonly ends: Readonly<Record<SpringName, readonly SpringEnd[]>>;
  /** The largest correction of a travel, mm. */
  readonly corrected: number;
}

/** Reads a wheel at travels near its own, which are corrected on the way: what is read goes with its derivatives. */
function readWheel(
  curve: WheelCurve,
  travel: Float64Array,
  { heave, angle, sin: sines, cos: cosines, tan }: Poses,
): WheelAt {
  const { side, model, lever: arm, end, ends: places } = curve;
  const measures = curve.all.measures.length;
  let corrected = 0;
  const made = () => new Float64Array(travel.length);
  const [byHeave, byRoll, length, ratio, slope] = [made(), made(), made(), made(), made()];
  const [camber, camberByHeave, camberByRoll, patchY] = [made(), made(), made(), made()];
  const [halfTrack, scrub, lever, leverRate] = [made(), made(), made(), made()];
  const barred = arm === null ? null : { LeverAngle: made(), BarRatio: made(), LinkAngle: made() };
  const [shock, track, turn] = [READ.shock, READ.halfTrack, READ.turn].map((measure) => measure * READING);
  const ends = { thirdSpring: [] as SpringEnd[], rollSpring: [] as SpringEnd[] };
  readAlong(curve.all, curve.drawn, travel, (m, row, k) => {
    const near = travel[k];
    const step = correction(near, heave[k], side * tan[k], m[track + row], m[track + row + FIRST]);
    const z = within(end, near + step);
    if (z !== near) {
      corrected = Math.max(corrected, Math.abs(step));
      for (let measure = 0; measure < measures; measure++) shift(m, measure * READING + row, z - near);
      travel[k] = z;
    }
    const y = m[track + row];
    const rate = m[track + row + FIRST];
    const sin = sines[k];
    const cos = cosines[k];
    const heaved = 1 / (1 + (side * rate * sin) / cos);
    const rolled = (-side * y * heaved) / (cos * cos);
    const camberRate = -m[turn + row + FIRST] * DEGREES;
    byHeave[k] = heaved;
    byRoll[k] = rolled / DEGREES;
    length[k] = m[shock + row];
    ratio[k] = -m[shock + row + FIRST];
    slope[k] = -m[shock + row + SECOND];
    camber[k] = model.camber - (m[turn + row] + side * angle[k]) * DEGREES;
    camberByHeave[k] = camberRate * heaved;
    camberByRoll[k] = (camberRate * rolled) / DEGREES - side;
    patchY[k] = side * y * cos - z * sin;
    halfTrack[k] = y;
    scrub[k] = rate;
    for (const name of SPRINGS) {
      if (places[name] === undefined) continue;
      const read = noEnds();
      takeEnds(m, row, places, read);
      ends[name].push(read[name]);
    }
    const there = barred === null ? null : leverThere(curve, m, row);
    if (arm === null || barred === null || there === null) return;
    lever[k] = there.angle;
    leverRate[k] = there.first;
    barred.LeverAngle[k] = there.angle * DEGREES;
    const vertical = arm.axis === null ? Math.cos(there.angle) : 1;
    barred.BarRatio[k] = arm.leverLength * vertical * there.first;
    const link = (places.bar ?? 0) * READING + row;
    const [y0, z0] = leverEndAt(arm, there.angle);
    const up = z0 - m[link + READING];
    const out = y0 - m[link];
    // From vertical, whichever end is the upper one.
    barred.LinkAngle[k] = Math.atan2(out * Math.sign(up), Math.abs(up)) * DEGREES;
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
    ...barred,
  } satisfies Record<keyof typeof WHEEL, Float64Array>;
  return { side, columns, travel, halfTrack, scrub, lever, leverRate, ends, corrected };
}

/** A reading taken on by a hair: its value and first derivative. */
function shift(m: Float64Array, at: number, by: number): void {
  m[at] += by * (m[at + FIRST] + 0.5 * by * m[at + SECOND]);
  m[at + FIRST] += by * m[at + SECOND];
}

/** Where the lines through both contact patches, square to their paths in the chassis, meet: y to the left. */
function rollCentres(
  [left, right]: readonly WheelAt[],
  { heave, sin: sines, cos: cosines }: Poses,
): Record<keyof typeof WHOLE, (number | null)[]> {
  const columns = {
    rollCentreY: [] as (number | null)[],
    rollCentreHeight: [] as (number | null)[],
    rollCentreChassisY: [] as (number | null)[],
    rollCentreChassisZ: [] as (number | null)[],
  };
  for (let k = 0; k < heave.length; k++) {
    // Up along either line from its patch: z = z_left - a (y - y_left) and z = z_right + b (y + y_right).
    const [a, b] = [left.scrub[k], right.scrub[k]];
    const [yLeft, yRight] = [left.halfTrack[k], right.halfTrack[k]];
    // In sums and differences that a mirror image leaves as they are.
    const fall = left.travel[k] - right.travel[k] + (a * yLeft - b * yRight);
    const meets = Math.abs(a + b) > PARALLEL;
    const y = meets ? fall / (a + b) + 0 : null;
    const z =
      y === null ? null : 0.5 * (left.travel[k] - a * (y - yLeft) + (right.travel[k] + b * (y + yRight)));
    const [sin, cos] = [sines[k], cosines[k]];
    columns.rollCentreChassisY.push(y);
    columns.rollCentreChassisZ.push(z);
    columns.rollCentreY.push(y === null || z === null ? null : y * cos - z * sin + 0);
    // Two lines that are the ground itself meet anywhere on it.
    const isGround = !meets && Math.abs(a * cos + sin) <= PARALLEL && Math.abs(fall) <= PARALLEL * yLeft;
    const onGround = isGround ? 0 : null;
    columns.rollCentreHeight.push(y === null || z === null ? onGround : y * sin + (z - heave[k]) * cos);
  }
  return columns;
}

function twists([left, right]: readonly WheelAt[]): Record<keyof typeof TWIST, Float64Array> {
  const rows = left.travel.length;
  const [barTwist, barTwistByHeave, barTwistByRoll] = [0, 1, 2].map(() => new Float64Array(rows));
  for (let k = 0; k < rows; k++) {
    const [a, b] = [left.leverRate[k], right.leverRate[k]];
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
  const rows = left.travel.length;
  const [length, byHeave, byRoll] = [0, 1, 2].map(() => new Float64Array(rows));
  const across = { value: 0, left: 0, right: 0, leftLeft: 0, leftRight: 0, rightRight: 0 };
  for (let k = 0; k < rows; k++) {
    lengthAcross(left.ends[name][k], right.ends[name][k], across);
    length[k] = across.value;
    byHeave[k] = across.left * left.columns.TravelByHeave[k] + across.right * right.columns.TravelByHeave[k];
    byRoll[k] = across.left * left.columns.TravelByRoll[k] + across.right * right.columns.TravelByRoll[k];
  }
  return [length, byHeave, byRoll];
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
