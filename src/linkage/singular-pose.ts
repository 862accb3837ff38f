// A singular pose: more than one direction v has J v = 0, and the rows I that elimination sets aside depend on the others. Of a row
// f_i(z + v) = J_i v + q_i(v, v) its part that the other rows do not determine is left (Lyapunov-Schmidt reduction; M. Golubitsky, D. G.
// Schaeffer, "Singularities and Groups in Bifurcation Theory 1", 1985, from memory). With S the solution on the other rows
//
//   h_i(u, v) = q_i(u, v) - J_i S q(u, v)   (i in I; u, v in the null space).
//
// A branch leaves along v if h_i(v, v) = 0 for all i (second-order bifurcation equation): by Newton's method on the unit sphere of the
// null space, from many places. The pose itself is where all set-aside rows are stationary in the null space,
//
//   J_i n_j + 2 h_i(n_j, d) = 0,   n_j a basis,   d the correction:
//
// a saddle, known to rounding, whereas two branches that rounding has joined are known to its root.

import { cholesky, lowerSolve, upperSolve } from '../numerics/cholesky.ts';
import { nullVector, solve } from '../numerics/elimination.ts';
import { power } from '../numerics/power.ts';
import { uniform } from '../numerics/random.ts';
import { applyForms } from './form.ts';
import { factorise } from './rows.ts';
import type { TaylorExpansion } from './series.ts';

/** Pivots below this share of the largest are none at a place that is known to about its root only. */
const NEARLY = 1e-5;
/** Corrections of the pose; none is longer than this share of the size. */
const CORRECTIONS = 8;
const LONGEST = 1e-3;
/** Corrections below this share of the size are rounding. */
const ROUNDING = 1e-14;
/** What second-order terms may miss zero by before the last step, as a share of the largest, and the damping of the equations. */
const MISSED = 1e-9;
const DAMPING = 1e-4;
/** Null spaces of more dimensions are not looked into. Newton's method starts in 3^n places of one of n dimensions. */
const DIMENSIONS = 5;
const STARTS = 3;
const ROUNDS = 40;
/** Two directions are one if the cosine between them is nearer to 1 than this. */
const SAME = 1e-6;
/** A direction is not alone where a pivot of the normal equations falls below this share of its diagonal. */
const ALONE = 1e-10;

/** A pose in which the Jacobian has more than one null vector. */
export interface SingularPose {
  readonly pose: Float64Array;
  /** Orthonormal null vectors. */
  readonly basis: readonly Float64Array[];
  /** The rows that depend on others. */
  readonly aside: readonly number[];
  /** Unit tangents of the branches of one freedom, either sense; null if they could not be told apart. */
  readonly tangents: readonly Float64Array[] | null;
  /** Whether directions of more freedoms leave besides. */
  readonly hasFamily: boolean;
}

/** The singular pose near a pose; null if there is none. */
export function singularPose(e: TaylorExpansion, near: Float64Array): SingularPose | null {
  const { size } = e.system;
  const pose = near.slice();
  let { basis, aside } = nullSpaceAt(e, pose);
  if (basis.length > DIMENSIONS) return { pose, basis, aside, tangents: null, hasFamily: true };
  for (let round = 0; round < CORRECTIONS && basis.length > 1 && aside.length > 0; round++) {
    const h = secondOrder(e, aside, basis);
    const slopes = aside.flatMap((i) => basis.map((n) => along(e, i, n) / e.system.scale[i]));
    const by = leastSquares(
      h.flatMap((form) => form.map((row) => row.map((value) => 2 * value))),
      slopes.map((slope) => -slope),
    );
    const length = by === null ? Number.NaN : Math.hypot(...by);
    if (by === null || !(length <= LONGEST * size)) break;
    const d = combined(by, basis);
    // Off the null space, what the other rows are off by.
    for (let i = 0; i < e.residuals.length; i++) e.rhs[i] = -e.residuals[i];
    solve(e.elimination, e.rhs, e.x);
    for (let i = 0; i < pose.length; i++) pose[i] += d[i] + e.x[i];
    ({ basis, aside } = nullSpaceAt(e, pose));
    if (length <= ROUNDING * size) break;
  }
  if (basis.length < 2) return null;
  return { pose, basis, aside, ...tangentsOf(secondOrder(e, aside, basis), basis) };
}

/** An orthonormal basis of the null space at a pose, which is eliminated, as far as it is looked into, and the rows set aside. */
export function nullSpaceAt(
  e: TaylorExpansion,
  pose: Float64Array,
): { basis: Float64Array[]; aside: number[] } {
  const { elimination } = e;
  const { share } = elimination;
  elimination.share = NEARLY;
  factorise(e, pose);
  elimination.share = share;
  const basis: Float64Array[] = [];
  for (let column = 0; column < pose.length && basis.length <= DIMENSIONS; column++) {
    if (elimination.pivotRow[column] >= 0) continue;
    const vector = new Float64Array(pose.length);
    nullVector(elimination, column, vector);
    const unit = unitAcross(vector, basis);
    if (unit !== null) basis.push(unit);
  }
  const aside = e.asListed.reduce<number[]>((list, i) => {
    if (elimination.pivotColumn[i] < 0) list.push(i);
    return list;
  }, []);
  return { basis, aside };
}

/** The part of a vector across orthonormal ones, of length 1; null if nothing is left of it. */
export function unitAcross(vector: Float64Array, basis: readonly Float64Array[]): Float64Array | null {
  const across = vector.slice();
  const before = Math.hypot(...vector);
  for (const one of [...basis, ...basis]) {
    const share = dot(across, one);
    for (let i = 0; i < across.length; i++) across[i] -= share * one[i];
  }
  const length = Math.hypot(...across);
  return length <= SAME * before ? null : across.map((value) => value / length);
}

/** The matrices of h_i, one for each row set aside, on a basis. */
function secondOrder(
  e: TaylorExpansion,
  aside: readonly number[],
  basis: readonly Float64Array[],
): number[][][] {
  const h = aside.map(() => basis.map(() => new Array<number>(basis.length).fill(0)));
  basis.forEach((u, j) => {
    for (let k = j; k < basis.length; k++) {
      bilinear(e, u, basis[k]);
      reduced(e, aside).forEach((value, i) => {
        h[i][j][k] = value;
        h[i][k][j] = value;
      });
    }
  });
  return h;
}

/** Second-order terms q(u, v) of all rows into `e.rhs`: Re(k (conj(w_a(u)) w_b(v) + conj(w_a(v)) w_b(u))) / 2. */
export function bilinear(e: TaylorExpansion, u: Float64Array, v: Float64Array): void {
  const { system, rhs } = e;
  const { forms, structure, scale, further } = system;
  const [p, q] = [u, v].map((vector) => {
    const x = new Float64Array(forms.count);
    const y = new Float64Array(forms.count);
    applyForms(forms, vector, 1, 0, 0, x, y);
    return { x, y };
  });
  structure.rows.forEach(({ a, b, re, im }, i) => {
    const real = p.x[a] * q.x[b] + p.y[a] * q.y[b] + q.x[a] * p.x[b] + q.y[a] * p.y[b];
    const imaginary = p.x[a] * q.y[b] - p.y[a] * q.x[b] + q.x[a] * p.y[b] - q.y[a] * p.x[b];
    // That of a turn is none: its line goes across itself.
    rhs[i] = 0.5 * (re * real - im * imaginary);
  });
  further?.secondOrder(e, u, v).forEach((value, k) => {
    rhs[further.first + k] = value * scale[further.first + k];
  });
}

/** What the rows set aside lack of right-hand sides `e.rhs`, over their scale; the solution on the others is left in `e.x`. */
export function reduced(e: TaylorExpansion, aside: readonly number[]): number[] {
  solve(e.elimination, e.rhs, e.x);
  return aside.map((i) => (e.rhs[i] - along(e, i, e.x)) / e.system.scale[i]);
}

/** A row of the Jacobian times a vector. */
function along({ start, column, jacobian }: TaylorExpansion, i: number, v: Float64Array): number {
  let sum = 0;
  for (let q = start[i]; q < start[i + 1]; q++) sum += jacobian[q] * v[column[q]];
  return sum;
}

/** The directions v of the null space with h_i(v, v) = 0 for all i that are isolated, and whether others are not. */
function tangentsOf(
  forms: readonly (readonly (readonly number[])[])[],
  basis: readonly Float64Array[],
): Pick<SingularPose, 'tangents' | 'hasFamily'> {
  const n = basis.length;
  const largest = Math.max(0, ...forms.flat(2).map(Math.abs));
  if (largest === 0) return { tangents: null, hasFamily: true };
  const h = forms.map((form) => form.map((row) => row.map((value) => value / largest)));
  const next = uniform(n);
  const starts = power(STARTS, n);
  const found: (readonly number[])[] = [];
  let hasFamily = false;
  for (let start = 0; start < starts; start++) {
    // In a plane evenly all round, else at random.
    const turn = (Math.PI * start) / starts;
    const from = n === 2 ? [Math.cos(turn), Math.sin(turn)] : basis.map(() => 2 * next() - 1);
    const direction = converged(h, from);
    if (direction === null || found.some((other) => 1 - Math.abs(dot(other, direction)) < SAME)) continue;
    if (leastSquares(equations(h, direction).slopes, [...h.map(() => 0), 0]) === null) hasFamily = true;
    else found.push(direction);
  }
  const tangents = found.length === 0 ? null : found.map((direction) => combined(direction, basis));
  return { tangents, hasFamily };
}

/** Of h_i(v, v) = 0, v . v = 1 at a v of length 1 what they miss by, and their slopes (those of the last one halved). */
function equations(h: readonly (readonly (readonly number[])[])[], v: readonly number[]) {
  const hv = h.map((form) => form.map((row) => dot(row, v)));
  return {
    missed: [...hv.map((row) => dot(row, v)), 0],
    slopes: [...hv.map((row) => row.map((value) => 2 * value)), [...v]],
  };
}

/** Where Newton's method, a little damped, comes to; null if it does not converge. */
function converged(
  h: readonly (readonly (readonly number[])[])[],
  start: readonly number[],
): readonly number[] | null {
  let v = start;
  const damping = start.map((_, j) => start.map((__, k) => (j === k ? DAMPING : 0)));
  for (let round = 0; round < ROUNDS; round++) {
    const length = Math.hypot(...v);
    v = v.map((value) => value / length);
    const { missed, slopes } = equations(h, v);
    const isNear = missed.every((value) => Math.abs(value) < MISSED);
    const by = leastSquares([...slopes, ...damping], [...missed, ...start.map(() => 0)]);
    if (by === null) return null;
    v = v.map((value, k) => value - by[k]);
    // One step more takes the rest of it, and leaves the length 1 but for its square.
    if (isNear) return v;
  }
  return null;
}

/** The x with the least |A x - b|, by normal equations; null if the columns of A depend on each other. */
export function leastSquares(A: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const columns = A[0].map((_, j) => A.map((row) => row[j]));
  const normal = columns.map((one) => columns.map((other) => dot(one, other)));
  const L = cholesky(normal);
  if (!L.every((row, j) => row[j] ** 2 > ALONE * normal[j][j])) return null;
  return upperSolve(
    L,
    lowerSolve(
      L,
      columns.map((one) => dot(one, b)),
    ),
  );
}

function combined(factors: readonly number[], vectors: readonly Float64Array[]): Float64Array {
  return vectors[0].map((_, i) => vectors.reduce((sum, vector, k) => sum + factors[k] * vector[i], 0));
}

/** The scalar product. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
