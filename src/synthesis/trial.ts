// A linkage with some coordinates at trial values: traced, and read where its objectives and bounds ask for it, with exact derivatives by
// those coordinates (linkage/sensitivity.ts). These hold as far from the drawn value t0 of the driver. At the driver's own value t, which
// is what an objective prescribes,
//
//   dm/dx at t  =  dm/dx at t - t0  -  dm/dt dt0/dx,
//
// the driver being read as one measure more, whose derivative is dt0/dx. So it is with dm/dt for a velocity ratio.

import { type Diagnostic, fault } from '../diagnostic.ts';
import { InputError } from '../errors/input-error.ts';
import type { CheckedDrawing, Point } from '../linkage/drawing.ts';
import type { Shift } from '../linkage/form-rates.ts';
import { type BoundMeasure, bindMeasure, type Measure } from '../linkage/measure.ts';
import { tracePath } from '../linkage/motion.ts';
import type { Path } from '../linkage/path.ts';
import { FIRST, READING, reader } from '../linkage/reader.ts';
import { readPoses, readRates, sensor } from '../linkage/sensitivity.ts';
import { compile, type System } from '../linkage/system.ts';
import { type Dual, dual, scaled } from '../numerics/dual.ts';
import type { Assessed } from '../numerics/lagrangian.ts';
import { between, cross, dot } from '../numerics/plane.ts';
import { type BoundBounds, boundsTask, type Room } from './bounds.ts';
import { type BoundObjective, type PrecisionPoint, taskOf } from './objectives.ts';
import { type BoundQuantity, quantityOf } from './quantity.ts';

/** A coordinate that may move. */
export interface Coordinate {
  readonly point: string;
  readonly axis: 0 | 1;
}

/** What is tried. */
export interface Plan {
  /** With what is held, and frozen: drawings with other coordinates share what does not depend on them. */
  readonly drawing: CheckedDrawing;
  readonly driver: Measure;
  readonly from: number;
  readonly to: number;
  readonly coordinates: readonly Coordinate[];
  /** What is read, bound to a system; throws InputError where its points do not allow it. */
  readonly bind: (system: System) => Bound;
  /** By objective. */
  readonly tolerances: readonly number[];
}

/** Objectives and bounds bound to a system. */
export interface Bound {
  readonly objectives: readonly BoundObjective[];
  readonly bounds: readonly BoundBounds[];
}

/** A linkage as it is judged. */
export interface Judged extends Assessed {
  /** By objective. */
  readonly met: readonly (readonly PrecisionPoint[])[];
  readonly rooms: readonly Room[];
}

/** Points of a drawing with coordinates at x. */
export function placedAt(
  points: CheckedDrawing['points'],
  coordinates: readonly Coordinate[],
  x: readonly number[],
): Record<string, Point> {
  const placed: Record<string, Point> = { ...points };
  coordinates.forEach(({ point, axis }, i) => {
    const [px, py] = placed[point];
    placed[point] = axis === 0 ? [x[i], py] : [px, x[i]];
  });
  return placed;
}

/** The linkage with its coordinates at x, judged; or why it can't be. */
export function judgeAt(plan: Plan, x: readonly number[]): Judged | Diagnostic {
  const traced = traceAt(plan, x);
  if ('code' in traced) return traced;
  const { path, driver, objectives, bounds } = traced;
  const tasks = objectives.map((objective) => taskOf(path, objective));
  const boundsTasks = bounds.map((one, k) => boundsTask(path, one, k));
  const read = readAll(plan, path, driver, [
    ...tasks.map(({ at }, k): Request => ({ at, quantities: objectives[k].quantities })),
    ...boundsTasks.map(({ at }, k): Request => ({ at, quantities: [bounds[k].quantity] })),
  ]);
  const judged = tasks.map(({ judge }, k) => judge((row, quantity) => read(k, row, quantity)));
  const rooms = boundsTasks.flatMap(({ judge }, k) => judge((row) => read(tasks.length + k, row, 0)));
  const deviations = judged.flatMap((one, k) =>
    one.deviations.map((off) => scaled(off, 1 / plan.tolerances[k])),
  );
  const constraints = rooms.map(({ room }) => room);
  const isDefined = ({ value, by }: Dual) => Number.isFinite(value) && by.every(Number.isFinite);
  if (![...deviations, ...constraints].every(isDefined)) return fault('quantityNotDefined', '');
  return {
    values: deviations.map(({ value }) => value),
    deviations,
    constraints,
    met: judged.map(({ met }) => met),
    rooms,
  };
}

/** A linkage traced through its range. */
interface Traced extends Bound {
  readonly path: Path;
  readonly driver: BoundMeasure;
}

function traceAt(
  { drawing, driver, from, to, coordinates, bind }: Plan,
  x: readonly number[],
): Traced | Diagnostic {
  let traced: Traced;
  try {
    const system = compile({ ...drawing, points: placedAt(drawing.points, coordinates, x) });
    const measure = bindMeasure(system, driver, 'driver');
    traced = { path: tracePath(system, measure, from, to), driver: measure, ...bind(system) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return fault('linkageNotTraced', '');
  }
  for (const side of ['low', 'high'] as const) {
    const { status, at } = traced.path[side];
    if (status !== 'reached')
      return fault('rangeNotReached', '', { side: side === 'low' ? 'from' : 'to', at, status });
  }
  return traced;
}

/** A transmission angle nearer to 0 or pi is there. */
const CORNER = 1e-9;

/** Values of the driver at which quantities are to be read. */
interface Request {
  readonly at: readonly number[];
  readonly quantities: readonly BoundQuantity[];
}

/** Reads all that is requested, and gives the value of a quantity at a row of a request. */
function readAll(
  { coordinates }: Plan,
  path: Path,
  driver: BoundMeasure,
  requests: readonly Request[],
): (request: number, row: number, quantity: number) => Dual {
  const shifts = coordinates.map(({ point, axis }): Shift => ({ [point]: axis === 0 ? [1, 0] : [0, 1] }));
  const measures = requests.flatMap(({ quantities }) => quantities.map(({ measure }) => measure));
  const starts: number[] = [];
  let count = 0;
  for (const { quantities } of requests) {
    starts.push(count);
    count += quantities.length;
  }
  const spots = requests
    .flatMap(({ at }, request) => at.map((t, row) => ({ t, request, row })))
    .sort((a, b) => a.t - b.t);
  const placeOf = new Map(spots.map(({ request, row }, place) => [`${request} ${row}`, place]));
  const at = Float64Array.from(spots, ({ t }) => t);
  const s = sensor(reader(path, [...measures, driver]), driver, shifts);
  const width = count + 1;
  const readings = new Float64Array(at.length * width * 3);
  const rates = shifts.map(() => new Float64Array(at.length * width * 2));
  const copy = (from: Float64Array, to: Float64Array, orders: number, first: number, rows: number) => {
    for (let j = 0; j < rows; j++) {
      for (let i = 0; i < width; i++) {
        for (let k = 0; k < orders; k++) {
          to[((first + j) * width + i) * orders + k] = from[i * READING + k * FIRST + j];
        }
      }
    }
  };
  for (let first = 0; first < at.length; ) {
    const rows = readPoses(s, at, first);
    copy(s.reader.m, readings, 3, first, rows);
    for (let k = 0; k < shifts.length; k++) {
      readRates(s, k, rows);
      copy(s.rates, rates[k], 2, first, rows);
    }
    first += rows;
  }
  return (request, row, index) => {
    const place = placeOf.get(`${request} ${row}`) as number;
    const quantity = requests[request].quantities[index];
    const i = place * width + starts[request] + index;
    const [value, first, second] = [0, 1, 2].map((k) => readings[3 * i + k]);
    const found = quantityOf(quantity, [value, first, second])[0];
    return dual(found, () =>
      shifts.map((shift, k) => {
        const start = rates[k][2 * (place * width + count)];
        if (quantity.kind === 'velocityRatio') return rates[k][2 * i + 1] - second * start;
        const rate = rates[k][2 * i] - first * start;
        if (quantity.line === null) return rate;
        // mu = |theta| has a corner at 0 and pi, beyond which no linkage takes it.
        if (found < CORNER || Math.PI - found < CORNER) return 0;
        const sign = quantityOf(quantity, [value, 1, 0])[1];
        return sign * (rate - directionRate(path.system, quantity.line, shift));
      }),
    );
  };
}

/** Derivative of the drawn direction of the line between two points by a shift. */
function directionRate(
  { structure: { names }, places }: System,
  [a, b]: readonly [number, number],
  shift: Shift,
): number {
  const line = between([places[a].x, places[a].y], [places[b].x, places[b].y]);
  const moved = between(shift[names[a]] ?? STAYS, shift[names[b]] ?? STAYS);
  return cross(line, moved) / dot(line, line);
}

const STAYS: Point = [0, 0];
