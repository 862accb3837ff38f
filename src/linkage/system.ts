// Every constraint is one bilinear row in forms (see form.ts):
//
//   Re(k conj(W_a) W_b) = constant,   k a complex constant;
//
// a bar of fixed length has a = b and k = 1/2; a linear row has W_a = 1. Written in the displacements w = W - d the
// drawn pose drops out,
//
//   f(z) = Re(k (conj(d_a) w_b + conj(w_a) d_b + conj(w_a) w_b)) = 0,
//
// so that z = 0 solves it exactly and a drawing far from its origin loses nothing. Couplings have unknowns of their own beside, and
// rows that measure-rows.ts derives.

import { fault } from '../diagnostic.ts';
import { refusal } from '../errors/linkage.ts';
import { endOfDirection } from './direction-ends.ts';
import { checkDrawing, type Drawing, isPoint } from './drawing.ts';
import { lineBetween, makeForms, valueMaker } from './drawn-forms.ts';
import { type Form, type Forms, packForms } from './form.ts';
import type { FurtherRows } from './further-rows.ts';
import { measureFactors, measureScale } from './measure-rows.ts';
import { fittedStructureOf, type Structure, structureOf } from './structure.ts';

/** A drawing turned into unknowns and rows; made by `compile`, never changed afterwards. */
export interface System {
  readonly structure: Structure;
  /** Place of each point as a form. */
  readonly places: readonly Form[];
  /** Number of unknowns: x and y of each free point, then the measures of couplings. */
  readonly unknowns: number;
  /** The forms that the rows are made of. */
  readonly forms: Forms;
  /** For each row the number that makes its residual a length. */
  readonly scale: readonly number[];
  /** Factors of the unknown measures in the rows, one row after the other. */
  readonly factors: readonly number[];
  /** Longest bar between basic points, or straight part of a rope: the length to which tolerances refer. */
  readonly size: number;
  /** From the first point to the one farthest from it, ground and all: how far things go at all refers to it. */
  readonly extent: number;
  /** Rows of no two forms, the last ones; left out if there are none. */
  readonly further?: FurtherRows;
}

/** Basic points nearer to each other than this share of their body's extent are replaced by the farthest ones. */
const NARROW = 0.2;

/**
 * Checks a drawing and turns it into unknowns and constraint rows.
 *
 * @throws InputError as `checkDrawing`.
 */
export function compile(drawing: Drawing): System {
  let structure = structureOf(drawing);
  const { x, y } = coordinates(drawing, structure);
  if (isNarrow(structure, x, y)) {
    checkDrawing(drawing);
    structure = fittedStructureOf(drawing);
  }
  const { freePoints } = structure;
  const { places, forms } = makeForms(structure, valueMaker(x, y));
  const { size, extent } = sizesOf(structure, x, y, plainLength);
  if (freePoints.length > 0 && !(size >= SMALLEST && size <= LARGEST && extent <= LARGEST))
    throw sizeRefusal(sizesOf(structure, x, y, Math.hypot));
  const scale = structure.rows.map((row) => {
    const { a, b, isAngle } = row;
    if (row.measures !== undefined) return measureScale(row, length(forms[a]), structure, size);
    return isAngle ? Math.min(length(forms[b]), a === 0 ? LARGEST : length(forms[a])) : length(forms[a]);
  });
  return {
    structure,
    places,
    unknowns: 2 * freePoints.length + structure.measures.length,
    forms: packForms(forms),
    scale,
    factors:
      structure.measures.length === 0
        ? NONE
        : structure.rows.flatMap((row, i) => measureFactors(row, scale[i], structure, size)),
    size,
    extent,
  };
}

const NONE: readonly number[] = [];

/** Sizes between which powers of a length up to the order of the series can be computed with. */
const SMALLEST = 1e-12;
const LARGEST = 1e12;

/** The error for the longest bar, or else for the whole drawing. */
function sizeRefusal({ size, extent }: Pick<System, 'size' | 'extent'>) {
  const whole = size >= SMALLEST && size <= LARGEST;
  return refusal('drawing', [
    fault('sizeOutOfRange', 'points', { size: whole ? extent : size, whole, min: SMALLEST, max: LARGEST }),
  ]);
}

/** The longest bar and the extent, by a length of two components. Where there is no bar the extent is both, and of a single point 1. */
function sizesOf(
  { bodies, directions }: Structure,
  x: readonly number[],
  y: readonly number[],
  length: (dx: number, dy: number) => number,
): Pick<System, 'size' | 'extent'> {
  const between = (a: number, b: number) => length(x[b] - x[a], y[b] - y[a]);
  let size = 0;
  for (const { a, b } of bodies.values()) size = Math.max(size, between(a, b));
  directions.forEach(({ from }, k) => {
    size = Math.max(size, between(from, x.length - directions.length + k));
  });
  let extent = 0;
  for (let p = 1; p < x.length; p++) extent = Math.max(extent, between(0, p));
  if (bodies.size + directions.length > 0) return { size, extent };
  const one = x.every((at, p) => at === x[0] && y[p] === y[0]) ? 1 : extent;
  return { size: one, extent: one };
}

/** The form b - a of two points, its drawn value exact in the difference. */
export function difference(system: System, a: number, b: number): Form {
  return lineBetween(system.places[a], system.places[b]);
}

/** Coordinates by index; a coordinate that is no number sends the drawing to the full check, which throws. */
function coordinates(drawing: Drawing, { names, directions }: Structure): { x: number[]; y: number[] } {
  const x: number[] = [];
  const y: number[] = [];
  for (const name of names) {
    const at = drawing.points[name];
    if (!isPoint(at)) checkDrawing(drawing);
    // -0 is 0: atan2 would put a direction along -x on the other side of its cut.
    x.push(at[0] + 0);
    y.push(at[1] + 0);
  }
  for (const { from, to, aside } of directions) {
    const end = endOfDirection([x[from], y[from]], [x[to], y[to]], aside);
    x.push(end[0]);
    y.push(end[1]);
  }
  return { x, y };
}

/** Whether some body's basic points lie too near to each other, or ground points that hold a body in one place. */
function isNarrow(structure: Structure, x: readonly number[], y: readonly number[]): boolean {
  for (const [a, b] of structure.apart) if (distance(x, y, a, b) === 0) return true;
  for (const { points, a, b } of structure.bodies.values()) {
    const between = distance(x, y, a, b);
    if (between === 0) return true;
    if (points.length === 2) continue;
    for (const p of points) if (between < NARROW * distance(x, y, a, p)) return true;
  }
  return false;
}

function distance(x: readonly number[], y: readonly number[], a: number, b: number): number {
  return plainLength(x[b] - x[a], y[b] - y[a]);
}

/** Faster than Math.hypot, and the same but for over- and underflow. */
function plainLength(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}

function length({ x, y }: Form): number {
  return Math.sqrt(x * x + y * y);
}
