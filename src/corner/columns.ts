// The columns of a sweep, from measures of the pose. z is the contact patch's travel, ' the derivative by it:
//
//   R = -L',  R' = -L''                      installation ratio and its slope
//   h = y_cp y_cp'                           roll-centre height: the line from the contact patch, square to its
//                                            velocity (y_cp', 1), meets y = 0 there
//   w = turn'                                rotation of the upright a mm of travel, counter-clockwise
//   y_ic = y_cp - 1/w,  z_ic = z_cp + y_cp'/w    instant centre: (y_cp', 1) = w x (cp - ic)
//
// The sweep's axis may be another point's travel t; derivatives by z follow from those by t:
//
//   m' = m_t / z_t,   m'' = (m_tt - m' z_tt) / z_t^2.
//
// The angle between rod and rocker's arm is the difference of their two directions.
//
// Beside each formula stands its derivative by an input of the drawing at the same t, d for short:
//
//   d m' = (d m_t - m' d z_t) / z_t,   d m'' = (d m_tt - d m' z_tt - m' d z_tt - 2 m'' z_t d z_t) / z_t^2.

import { type Diagnostic, fault, show } from '../diagnostic.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
import type { Measure } from '../linkage/measure.ts';
import { FIRST, READING, SECOND } from '../linkage/reader.ts';
import { DEGREES } from '../units.ts';
import { spaced } from '../words.ts';
import type { HardpointCoordinate } from './hardpoint-coordinates.ts';
import type { CornerModel } from './model.ts';

/** Whose travel is the axis of a sweep. */
export type TravelReference = 'contactPatch' | 'wheelCentre';

/** A column: its name, its unit ('' for a ratio), and what it is in words. */
export interface ColumnInfo {
  readonly name: string;
  readonly unit: string;
  readonly label: string;
  /** Whether the quantity is null at some poses; without it every entry is a finite number. */
  readonly gaps: boolean;
}

/**
 * Fills a column from the readings `m` (see `Reader`) of a block: rows 0 .. rows - 1 go to `out[first ..]`. What is not
 * defined comes out as not finite, or in a column with gaps as null.
 */
export type Fill<Out> = (m: Float64Array, rows: number, out: Out, first: number, model: CornerModel) => void;

/** How a column is made: with gaps or without; `byTravel` says that it is a rate by travel, or comes of one. */
export type Recipe = Changing & {
  /** The reading that it is, times and plus something: 3 i for the value of measure i, 3 i + 1 and 3 i + 2 for its derivatives; -1 for none. */
  readonly itself: number;
  readonly times: number;
  readonly plus: (model: CornerModel) => number;
} & (
    | { readonly gaps: false; readonly byTravel: boolean; readonly fill: Fill<Float64Array> }
    | { readonly gaps: true; readonly byTravel: boolean; readonly fill: Fill<(number | null)[]> }
  );

/** How a column changes with an input of the drawing. */
interface Changing {
  /** Its derivative at row i, but for `drawn`, from the readings and their derivatives; not finite where there is none. */
  readonly rate: Rate;
  /** What comes of a drawn value in it. */
  readonly drawn: Drawn;
}

type Rate = (m: Float64Array, dm: Float64Array, i: number, model: CornerModel) => number;
type Drawn = (input: HardpointCoordinate, model: CornerModel) => number;

/** What is to be read of a pose, and the columns made from it; of names alone, so that it serves all corners that share them. */
export interface ColumnPlan {
  readonly measures: readonly Measure[];
  /** For each measure whether its derivatives are needed. */
  readonly derived: readonly boolean[];
  /** Travel, then the planned columns. */
  readonly info: readonly ColumnInfo[];
  /** Without travel. */
  readonly recipes: readonly Recipe[];
  /** For each reading, as `itself` counts them, the recipe that it is, if nothing else wants it; else SEVERAL or NOBODY. */
  readonly sinks: readonly number[];
}

/** What is wanted of a measure: its value, first and second derivative. */
const WANTED = { value: [0], rate: [1], bend: [2], both: [0, 1], rates: [1, 2] } as const;
type Wanted = keyof typeof WANTED;

/** Of readings that go to no column straight. */
export const SEVERAL = -1;
export const NOBODY = -2;

/**
 * Asks for a measure; returns where it is among the readings. The contact patch's height is asked for as TRAVEL: it needs no
 * reading, and AXIS is returned, when the sweep's axis is just that.
 */
type Read = (measure: Measure | typeof TRAVEL, wanted: Wanted) => number;

const TRAVEL = 'travel';
const TRAVELS = {
  contactPatch: { name: 'travel', unit: 'mm', label: 'travel, bump +', gaps: false },
  wheelCentre: { name: 'travel', unit: 'mm', label: 'travel of the wheel centre, bump +', gaps: false },
} as const satisfies Record<TravelReference, ColumnInfo>;
const AXIS = -1;

interface Standard extends ColumnInfo {
  /** Null where the corner has no such quantity. */
  readonly recipe: (model: CornerModel, read: Read) => Recipe | null;
}

/** The instant centre counts as infinitely far when the upright turns less than this, in radians a mm of travel. */
const NO_TURN = 1e-13;

const STANDARD: readonly Standard[] = [
  {
    name: 'shockLength',
    unit: 'mm',
    label: 'shock length',
    gaps: false,
    recipe: (model, read) => linear(read(shockLength(model), 'value')),
  },
  {
    name: 'installationRatio',
    unit: '',
    label: 'installation ratio',
    gaps: false,
    recipe(model, read) {
      const z = read(TRAVEL, 'rate');
      const length = read(shockLength(model), 'rate');
      if (z === AXIS) return minusRate(length, FIRST);
      return plain(
        true,
        (m, rows, out, first) => {
          for (let i = 0; i < rows; i++) out[first + i] = -m[length + FIRST + i] / travelRate(m, z, i);
        },
        (m, dm, i) => -slopeChange(m, dm, length, z, i),
      );
    },
  },
  {
    name: 'installationRatioSlope',
    unit: '1/mm',
    label: 'change of the installation ratio',
    gaps: false,
    recipe(model, read) {
      const z = read(TRAVEL, 'rates');
      const length = read(shockLength(model), z === AXIS ? 'bend' : 'rates');
      if (z === AXIS) return minusRate(length, SECOND);
      return plain(
        true,
        (m, rows, out, first) => {
          for (let i = 0; i < rows; i++) out[first + i] = -bend(m, length, z, i);
        },
        (m, dm, i) => -bendChange(m, dm, length, z, i),
      );
    },
  },
  {
    name: 'shockInclination',
    unit: 'deg',
    label: 'inclination of the shock from vertical, top inboard +',
    gaps: false,
    recipe: (model, read) => lean([model.shock.outer, model.shock.inner], read),
  },
  {
    name: 'camber',
    unit: 'deg',
    label: 'camber, top outboard +',
    gaps: false,
    recipe: (model, read) =>
      linear(
        read(turn(model), 'value'),
        -DEGREES,
        ({ camber }) => camber,
        ({ camber }) => camber,
      ),
  },
  {
    name: 'kingpinInclination',
    unit: 'deg',
    label: 'kingpin inclination, top inboard +',
    gaps: false,
    recipe: (model, read) =>
      model.kingpin === null ? null : kingpinLean(model, [model.kingpin.lower, model.kingpin.upper], read),
  },
  {
    name: 'halfTrackChange',
    unit: 'mm',
    label: 'half-track change, outboard +',
    gaps: false,
    recipe: (model, read) =>
      linear(
        read(patch(model), 'value'),
        1,
        ({ drawing, contactPatch }) => -drawing.points[contactPatch][0],
        ({ shift }) => -(shift[model.contactPatch] ?? AT_REST)[0],
      ),
  },
  {
    name: 'rollCentreHeight',
    unit: 'mm',
    label: 'roll-centre height above the ground of that pose',
    gaps: false,
    recipe(model, read) {
      const z = read(TRAVEL, 'rate');
      const y = read(patch(model), 'both');
      return plain(
        true,
        (m, rows, out, first) => {
          for (let i = 0; i < rows; i++) out[first + i] = (m[y + i] * m[y + FIRST + i]) / travelRate(m, z, i);
        },
        (m, dm, i) => dm[y + i] * slope(m, y, z, i) + m[y + i] * slopeChange(m, dm, y, z, i),
      );
    },
  },
  {
    name: 'instantCentreY',
    unit: 'mm',
    label: 'instant centre of the upright, y',
    gaps: true,
    recipe(model, read) {
      const z = read(TRAVEL, 'rate');
      const y = read(patch(model), 'both');
      const w = read(turn(model), 'rate');
      return gappy(
        (m, i) => turns(m[w + FIRST + i], travelRate(m, z, i)),
        (m, rows, out, first) => {
          for (let i = 0; i < rows; i++) {
            const rate = travelRate(m, z, i);
            const value = m[y + i] - rate / m[w + FIRST + i];
            if (turns(m[w + FIRST + i], rate) && Number.isFinite(value)) out[first + i] = value;
            else out[first + i] = null;
          }
        },
        (m, dm, i) => dm[y + i] + slopeChange(m, dm, w, z, i) / slope(m, w, z, i) ** 2,
      );
    },
  },
  {
    name: 'instantCentreZ',
    unit: 'mm',
    label: 'instant centre of the upright, z',
    gaps: true,
    recipe(model, read) {
      const z = read(TRAVEL, 'rate');
      const y = read(patch(model), 'both');
      const w = read(turn(model), 'rate');
      const height = read({ y: model.contactPatch }, 'value');
      return gappy(
        (m, i) => turns(m[w + FIRST + i], travelRate(m, z, i)),
        (m, rows, out, first) => {
          for (let i = 0; i < rows; i++) {
            const value = m[height + i] + m[y + FIRST + i] / m[w + FIRST + i];
            if (turns(m[w + FIRST + i], travelRate(m, z, i)) && Number.isFinite(value))
              out[first + i] = value;
            else out[first + i] = null;
          }
        },
        (m, dm, i) => {
          const up = m[y + FIRST + i] / m[w + FIRST + i];
          const change = slopeChange(m, dm, y, z, i) - up * slopeChange(m, dm, w, z, i);
          return dm[height + i] + change / slope(m, w, z, i);
        },
      );
    },
  },
  {
    name: 'instantCentreCurvature',
    unit: '1/mm',
    label: 'inverse distance from contact patch to instant centre, inboard +',
    gaps: false,
    recipe(model, read) {
      const z = read(TRAVEL, 'rate');
      const y = read(patch(model), 'both');
      const w = read(turn(model), 'rate');
      return plain(
        true,
        (m, rows, out, first) => {
          for (let i = 0; i < rows; i++) {
            const slide = slope(m, y, z, i);
            out[first + i] = slope(m, w, z, i) / Math.sqrt(1 + slide * slide);
          }
        },
        (m, dm, i) => {
          const slide = slope(m, y, z, i);
          const square = 1 + slide * slide;
          const share = (slope(m, w, z, i) * slide) / square;
          return (slopeChange(m, dm, w, z, i) - share * slopeChange(m, dm, y, z, i)) / Math.sqrt(square);
        },
      );
    },
  },
];

/** Angles of a corner with a rocker. */
const ROCKER: readonly Standard[] = [
  {
    name: 'rockerAngle',
    unit: 'deg',
    label: 'rocker angle from design ride height, counter-clockwise +',
    gaps: false,
    recipe: ({ rocker }, read) => rocker && linear(read({ turn: rocker.body }, 'value'), DEGREES),
  },
  {
    name: 'rodAngle',
    unit: 'deg',
    label: 'rod angle from horizontal, wheel end up +',
    gaps: false,
    recipe: ({ rocker }, read) =>
      rocker && linear(read({ angle: [rocker.rod.inner, rocker.rod.outer] }, 'value'), DEGREES),
  },
  {
    name: 'rodRockerAngle',
    unit: 'deg',
    label: 'transmission angle of rod and rocker, 90 square, 0 or 180 in line',
    gaps: false,
    recipe: ({ rocker }, read) => rocker && angleAt([rocker.pivot, rocker.rod.inner, rocker.rod.outer], read),
  },
];

/** What a plan was made for. */
interface Planned {
  readonly model: CornerModel;
  readonly axis: TravelReference;
  readonly only: readonly string[] | undefined;
  readonly plan: ColumnPlan;
}

/** The last plans for drawings of the same bodies, which cannot change. */
const plans = new WeakMap<Drawing['bodies'], Planned[]>();
const KEPT = 4;

/**
 * Columns of a corner swept by the travel of `axis`, in the order in which they are shown; all but those named in `only`
 * are left out.
 */
export function planColumns(model: CornerModel, axis: TravelReference, only?: readonly string[]): ColumnPlan {
  const { bodies } = model.drawing;
  let known = plans.get(bodies);
  if (known === undefined) {
    if (!Object.isFrozen(bodies)) return makePlan(model, axis, only);
    known = [];
    plans.set(bodies, known);
  }
  for (const one of known)
    if (one.axis === axis && sameNames(one.only, only) && sameRoles(one.model, model)) return one.plan;
  const plan = makePlan(model, axis, only);
  known.unshift({ model, axis, only: only && [...only], plan });
  if (known.length > KEPT) known.pop();
  return plan;
}

function sameNames(a: readonly string[] | undefined, b: readonly string[] | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return true;
}

/** Whether the points and bodies of one drawing play the same parts in both models. */
function sameRoles(a: CornerModel, b: CornerModel): boolean {
  return (
    a.upright === b.upright &&
    a.contactPatch === b.contactPatch &&
    a.wheelCentre === b.wheelCentre &&
    a.shock.outer === b.shock.outer &&
    a.shock.inner === b.shock.inner &&
    a.shock.foreAftOffset === b.shock.foreAftOffset &&
    a.kingpin === b.kingpin &&
    a.rocker === b.rocker &&
    a.angles === b.angles &&
    a.drawing.ground === b.drawing.ground
  );
}

function makePlan(
  model: CornerModel,
  axis: TravelReference,
  only: readonly string[] | undefined,
): ColumnPlan {
  const measures: Measure[] = [];
  const derived: boolean[] = [];
  const keys: string[] = [];
  const uses: number[] = [];
  const read: Read = (asked, want) => {
    if (asked === TRAVEL && axis === 'contactPatch') return AXIS;
    const measure = asked === TRAVEL ? { y: model.contactPatch } : asked;
    const key = keyOf(measure);
    let at = keys.indexOf(key);
    if (at < 0) {
      at = keys.push(key) - 1;
      measures.push(measure);
      derived.push(false);
      uses.push(0, 0, 0);
    }
    if (want !== 'value') derived[at] = true;
    for (const part of WANTED[want]) uses[3 * at + part]++;
    return READING * at;
  };
  const info: ColumnInfo[] = [TRAVELS[axis]];
  const recipes: Recipe[] = [];
  const named = only === undefined ? null : new Set(only);
  const wanted = (name: string) => named === null || named.has(name);
  const add = ({ name, unit, label, gaps, recipe: recipeOf }: Standard) => {
    const recipe = wanted(name) ? recipeOf(model, read) : null;
    if (recipe === null) return;
    info.push(Object.freeze({ name, unit, label, gaps }));
    recipes.push(recipe);
  };
  STANDARD.forEach(add);
  for (const name of Object.keys(model.angles)) {
    if (!wanted(name)) continue;
    const recipe: Standard['recipe'] = () => linear(read(model.angles[name], 'value'), DEGREES);
    add({ name, unit: 'deg', label: spaced(name), gaps: false, recipe });
  }
  ROCKER.forEach(add);
  for (const point of Object.keys(model.drawing.points)) {
    if (model.drawing.ground.includes(point)) continue;
    for (const axis of ['Y', 'Z']) {
      const name = point + axis;
      if (!wanted(name)) continue;
      const measure = axis === 'Y' ? { x: point } : { y: point };
      const recipe: Standard['recipe'] = () => linear(read(measure, 'value'));
      const label = `${spaced(point)}, ${axis.toLowerCase()}`;
      add({ name, unit: 'mm', label, gaps: false, recipe });
    }
  }
  const sinks = uses.map((times, reading) =>
    times === 0
      ? NOBODY
      : times > 1
        ? SEVERAL
        : recipes.findIndex((recipe) => isStraight(recipe, reading, measures[Math.floor(reading / 3)])),
  );
  return { measures, derived, info: Object.freeze(info), recipes, sinks };
}

/** Names of the columns that are not those of a point or an angle of one kind of corner. */
export function columnNames(): string[] {
  return ['travel', ...STANDARD, ...ROCKER].map((column) =>
    typeof column === 'string' ? column : column.name,
  );
}

/** A fault for each name that is no column, or is there twice. */
export function unknownColumns(only: readonly unknown[], model: CornerModel): Diagnostic[] {
  const names = planColumns(model, 'contactPatch')
    .info.slice(1)
    .map(({ name }) => name);
  const known = new Set<unknown>(names);
  const met = new Set<unknown>();
  return only.flatMap((name, k): Diagnostic[] => {
    const path = `columns[${k}]`;
    if (met.has(name)) return [fault('columnTwice', path, { got: show(name) })];
    met.add(name);
    return known.has(name) ? [] : [fault('unknownColumn', path, { got: show(name), allowed: names })];
  });
}

function keyOf(measure: Measure): string {
  if ('x' in measure) return `x ${measure.x}`;
  if ('y' in measure) return `y ${measure.y}`;
  if ('turn' in measure) return `turn ${measure.turn}`;
  if ('angle' in measure) return `angle ${measure.angle[0]} ${measure.angle[1]}`;
  return `length ${measure.length[0]} ${measure.length[1]}`;
}

/** dz/dt of the contact patch's travel z by the sweep's axis t. */
function travelRate(m: Float64Array, z: number, i: number): number {
  return z === AXIS ? 1 : m[z + FIRST + i];
}

/** m' and m'' of the reading at `at`, and d m' and d m'' from its own changes. */
function slope(m: Float64Array, at: number, z: number, i: number): number {
  return m[at + FIRST + i] / travelRate(m, z, i);
}

function bend(m: Float64Array, at: number, z: number, i: number): number {
  const rate = travelRate(m, z, i);
  const travelBend = z === AXIS ? 0 : m[z + SECOND + i];
  return (m[at + SECOND + i] - (m[at + FIRST + i] / rate) * travelBend) / (rate * rate);
}

function slopeChange(m: Float64Array, dm: Float64Array, at: number, z: number, i: number): number {
  if (z === AXIS) return dm[at + FIRST + i];
  return (dm[at + FIRST + i] - slope(m, at, z, i) * dm[z + FIRST + i]) / m[z + FIRST + i];
}

function bendChange(m: Float64Array, dm: Float64Array, at: number, z: number, i: number): number {
  if (z === AXIS) return dm[at + SECOND + i];
  const rate = m[z + FIRST + i];
  const rest =
    slopeChange(m, dm, at, z, i) * m[z + SECOND + i] +
    slope(m, at, z, i) * dm[z + SECOND + i] +
    2 * bend(m, at, z, i) * rate * dm[z + FIRST + i];
  return (dm[at + SECOND + i] - rest) / (rate * rate);
}

const AT_REST: Point = [0, 0];

function patch(model: CornerModel): Measure {
  return { x: model.contactPatch };
}

function turn(model: CornerModel): Measure {
  return { turn: model.upright };
}

function shockLength({ shock: { outer, inner, foreAftOffset: offset } }: CornerModel): Measure {
  return { length: [outer, inner], offset };
}

/** Lean from vertical of the line between two points, top inboard positive; top is the one that is drawn higher. */
function lean([a, b]: readonly [string, string], read: Read): Recipe {
  const isUp = ({ drawing: { points } }: CornerModel) => points[b][1] >= points[a][1];
  return linear(read({ angle: [a, b] }, 'value'), DEGREES, (model) => (isUp(model) ? -90 : 90));
}

/** The same of the kingpin: where it is a line of the upright it leans as that turns, which need not be read again. */
function kingpinLean(model: CornerModel, [a, b]: readonly [string, string], read: Read): Recipe {
  const carried = model.drawing.bodies[model.upright];
  if (!(carried.includes(a) && carried.includes(b))) return lean([a, b], read);
  const line = ({ drawing: { points } }: CornerModel): Point => [
    points[b][0] - points[a][0],
    points[b][1] - points[a][1],
  ];
  return linear(
    read(turn(model), 'value'),
    DEGREES,
    (of) => {
      const [y, z] = line(of);
      return Math.atan2(z, y) * DEGREES - (z >= 0 ? 90 : -90);
    },
    ({ shift }, of) => {
      const [y, z] = line(of);
      const [from, to] = [shift[a] ?? AT_REST, shift[b] ?? AT_REST];
      return ((y * (to[1] - from[1]) - z * (to[0] - from[0])) / (y * y + z * z)) * DEGREES;
    },
  );
}

/** The angle at b between the lines to a and to c: 0 to 180 as drawn, continuous from there. */
function angleAt([a, b, c]: readonly [string, string, string], read: Read): Recipe {
  const one = read({ angle: [b, a] }, 'value');
  const other = read({ angle: [b, c] }, 'value');
  const drawnSense = ({ drawing: { points } }: CornerModel): [sense: number, wholeTurns: number] => {
    const direction = (to: string) => Math.atan2(points[to][1] - points[b][1], points[to][0] - points[b][0]);
    const turned = (direction(c) - direction(a)) * DEGREES;
    const wholeTurns = 360 * Math.ceil(turned / 360 - 0.5);
    return [turned - wholeTurns < 0 ? -1 : 1, wholeTurns];
  };
  return {
    ...NO_READING,
    gaps: false,
    byTravel: false,
    fill: (m, rows, out, first, model) => {
      const [sense, wholeTurns] = drawnSense(model);
      for (let i = 0; i < rows; i++)
        out[first + i] = sense * ((m[other + i] - m[one + i]) * DEGREES - wholeTurns);
    },
    rate: (_, dm, i, model) => drawnSense(model)[0] * (dm[other + i] - dm[one + i]) * DEGREES,
    drawn: NOTHING_DRAWN,
  };
}

const NOTHING_DRAWN: Drawn = () => 0;
const NO_ZERO = () => 0;
/** Of what is made of several readings. */
const NO_READING = { itself: -1, times: 1, plus: NO_ZERO };

/** A reading's value, as it is read; `zero` may be a drawn one. */
function linear(at: number, factor = 1, zero = NO_ZERO as Recipe['plus'], drawn = NOTHING_DRAWN): Recipe {
  return {
    itself: (3 * at) / READING,
    times: factor,
    plus: zero,
    gaps: false,
    byTravel: false,
    fill: (m, rows, out, first, model) => {
      const from = zero(model);
      for (let i = 0; i < rows; i++) out[first + i] = from + factor * m[at + i];
    },
    rate: (_, dm, i) => factor * dm[at + i],
    drawn,
  };
}

/** Minus a derivative by the sweep's axis, where that is the travel. */
function minusRate(at: number, part: typeof FIRST | typeof SECOND): Recipe {
  const reading = at + part;
  return { ...linear(reading, -1), itself: (3 * at) / READING + part / FIRST, byTravel: true };
}

/** Whether a column is a reading and no more; of a coordinate that goes nowhere but as it is. */
function isStraight({ itself, times, plus }: Recipe, reading: number, measure: Measure): boolean {
  const isCoordinate = reading % 3 === 0 && ('x' in measure || 'y' in measure);
  return itself === reading && !(isCoordinate && (times !== 1 || plus !== NO_ZERO));
}

/** What is made of readings in any way. */
function plain(byTravel: boolean, fill: Fill<Float64Array>, rate: Rate): Recipe {
  return { ...NO_READING, gaps: false, byTravel, fill, rate, drawn: NOTHING_DRAWN };
}

/** What comes of a rate by travel, and is null where the upright does not turn. */
function gappy(
  isDefined: (m: Float64Array, i: number) => boolean,
  fill: Fill<(number | null)[]>,
  rate: Rate,
): Recipe {
  return {
    ...NO_READING,
    gaps: true,
    byTravel: true,
    fill,
    rate: (m, dm, i, model) => (isDefined(m, i) ? rate(m, dm, i, model) : Number.NaN),
    drawn: NOTHING_DRAWN,
  };
}

function turns(turn: number, travel: number): boolean {
  return Math.abs(turn) >= NO_TURN * Math.abs(travel);
}
