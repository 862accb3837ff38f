// Several drivers along one parameter u: each is a row more, and the parameter one unknown more, so that all that holds for a linkage
// driven by the coordinate of a point holds for one that is driven by u. With M the driver's form (relative to a body conj(F) W), D
// as drawn and S(u) what its schedule adds to the drawn value L,
//
//   x, y     Re(M - D) = S,  Im(M - D) = S
//   length   |M|^2 = (L + S)^2 - offset^2
//   angle    Im(conj(E) M) = 0,  E = D exp(i S)
//
// In a series S_k = a_1 v_k + S'_k, v the series of u and a_j the schedule's own coefficients about the pose, S'_k made of lower orders of
// v; and k E_k = i sum_{j=1..k} j S_j E_{k-j}.

import { fault } from '../diagnostic.ts';
import { refusal } from '../errors/drivers.ts';
import type { InputError } from '../errors/input-error.ts';
import { bifurcationDrawn, whyNotDriven } from './degrees-of-freedom.ts';
import { applyForms, packForms } from './form.ts';
import type { FurtherRows } from './further-rows.ts';
import { type BoundMeasure, parameterMeasure } from './measure.ts';
import { drawnValue } from './measure-series.ts';
import { factorise } from './rows.ts';
import { SCHEDULE_DEGREE, type Schedule, taylorOf } from './schedule.ts';
import { STRIDE, taylorExpansion } from './series.ts';
import type { RowPlan } from './structure.ts';
import type { System } from './system.ts';

/** A driver with what its schedule adds to its drawn value, by how far the parameter is from where it is as drawn. */
export interface Scheduled {
  readonly label: string;
  readonly measure: BoundMeasure;
  readonly schedule: Schedule;
}

/** A system with several drivers along a parameter that is `drawn` in the drawn pose and goes over `span` in all. */
export function drivenSystem(
  system: System,
  drivers: readonly Scheduled[],
  drawn: number,
  span: number,
): { readonly system: System; readonly parameter: BoundMeasure } {
  const { structure, unknowns, size, forms } = system;
  // Forms have pairs of unknowns, x and y. The parameter is the unknown behind the last one: y beside another, or x with an idle y.
  const u = unknowns >> 1;
  const isX = unknowns % 2 === 0;
  const perUnknown = span / size;
  const own = [{ x: 0, y: 0, free: [u], re: [1], im: [0] }];
  const idle: RowPlan = { of: { constraint: 'parameter' }, a: 0, b: forms.count, re: 0, im: -1 };
  const plans: RowPlan[] = [
    ...(isX ? [idle] : []),
    ...drivers.map(({ label }, k) => {
      // No product of the two: the forms say which unknowns the row has entries in.
      return { of: { constraint: label }, a: 0, b: forms.count + 1 + 2 * k, re: 0, im: 0 };
    }),
  ];
  const first = structure.rows.length + (isX ? 1 : 0);
  const rows = drivers.map(({ measure, schedule }, k) => {
    const { form, frame } = measure;
    const free = [...new Set([...form.free, ...(frame?.form.free ?? []), u])];
    const over = (one: typeof form) => {
      const at = free.map((j) => one.free.indexOf(j));
      return {
        x: one.x,
        y: one.y,
        free,
        re: at.map((i) => one.re[i] ?? 0),
        im: at.map((i) => one.im[i] ?? 0),
      };
    };
    own.push(over(form), over(frame?.form ?? { x: 1, y: 0, free: [], re: [], im: [] }));
    return drivenRow(measure, schedule, first + k, forms.count + 1 + 2 * k);
  });
  const added = packForms(own);
  const all = {
    count: forms.count + added.count,
    start: forms.start.concat(added.start.slice(1).map((at) => at + forms.free.length)),
    free: forms.free.concat(added.free),
    c: joined(forms.c, added.c),
    d: joined(forms.d, added.d),
  };
  const whole: System = {
    ...system,
    structure: { ...structure, rows: [...structure.rows, ...plans] },
    unknowns: 2 * u + 2,
    forms: all,
    scale: [...system.scale, ...(isX ? [1] : []), ...rows.map(({ scale }) => scale)],
    further: {
      ...furtherRows(rows, all, first, unknowns, perUnknown),
      refusal: () => refusalOf(system, whole, drivers.length),
    },
  };
  return { system: whole, parameter: parameterMeasure(unknowns, drawn, perUnknown, span) };
}

function joined(a: Float64Array, b: Float64Array): Float64Array {
  const both = new Float64Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

/** A driver's row: its forms W and F, and its series. */
interface DrivenRow {
  readonly kind: BoundMeasure['kind'];
  readonly row: number;
  readonly w: number;
  readonly f: number;
  readonly schedule: Schedule;
  /** L and D. */
  readonly drawn: number;
  readonly dx: number;
  readonly dy: number;
  /** The number that makes its residual a length. */
  readonly scale: number;
  /** The schedule about the pose. */
  readonly a: Float64Array;
  degree: number;
  /** Series of L + S (without L for all but a length), of E and of M; and S'_k of the order looked at. */
  readonly s: Float64Array;
  readonly ex: Float64Array;
  readonly ey: Float64Array;
  readonly mx: Float64Array;
  readonly my: Float64Array;
  rest: number;
}

function drivenRow(measure: BoundMeasure, schedule: Schedule, row: number, w: number): DrivenRow {
  const { kind, form } = measure;
  const { x: dx, y: dy } = form;
  const drawn = kind === 'length' ? drawnValue(measure) : 0;
  const series = () => new Float64Array(STRIDE);
  return {
    kind,
    row,
    w,
    f: w + 1,
    schedule,
    drawn,
    dx,
    dy,
    scale: kind === 'length' ? drawn : kind === 'angle' ? Math.sqrt(dx * dx + dy * dy) : 1,
    a: new Float64Array(SCHEDULE_DEGREE + 1),
    degree: 0,
    s: series(),
    ex: series(),
    ey: series(),
    mx: series(),
    my: series(),
    rest: 0,
  };
}

/** The rows of drivers; `parameter` is the unknown of u, which counts `perUnknown` of it. */
function furtherRows(
  rows: readonly DrivenRow[],
  forms: System['forms'],
  first: number,
  parameter: number,
  perUnknown: number,
): Omit<FurtherRows, 'refusal'> {
  const { start: entries, c } = forms;
  /** Powers of the parameter's series, itself the first. */
  const powers = Array.from({ length: SCHEDULE_DEGREE + 1 }, () => new Float64Array(STRIDE));
  const [, v] = powers;
  const lower = new Float64Array(rows.length);

  return {
    first,

    residuals(pose, wx, wy, residuals) {
      for (const one of rows) {
        const { kind, row, w, f, drawn, dx, dy, a, s, ex, ey } = one;
        one.degree = taylorOf(one.schedule, perUnknown * pose[parameter], a);
        const [change] = a;
        s[0] = drawn + change;
        const [cos, sin] = [Math.cos(change), Math.sin(change)];
        ex[0] = dx * cos - dy * sin;
        ey[0] = dx * sin + dy * cos;
        // M - D = w + conj(f) (D + w), f being what F has changed by.
        const mx = wx[w] + wx[f] * (dx + wx[w]) + wy[f] * (dy + wy[w]);
        const my = wy[w] + wx[f] * (dy + wy[w]) - wy[f] * (dx + wx[w]);
        if (kind === 'angle') residuals[row] = ex[0] * (dy + my) - ey[0] * (dx + mx);
        else if (kind === 'length') {
          residuals[row] = dx * mx + dy * my + 0.5 * (mx * mx + my * my) - change * (drawn + 0.5 * change);
        } else residuals[row] = (kind === 'x' ? mx : my) - change;
      }
    },

    jacobian(wholeX, wholeY, start, jacobian) {
      for (const one of rows) {
        const { kind, row, w, f, a, s, ex, ey } = one;
        const [x, y] = [wholeX[w], wholeY[w]];
        const [fx, fy] = [wholeX[f], wholeY[f]];
        const [mx, my] = [fx * x + fy * y, fx * y - fy * x];
        // The row's change is Re(conj(g) dM) - h dS.
        let [gx, gy, h] = kind === 'x' ? [1, 0, 1] : [0, 1, 1];
        if (kind === 'length') [gx, gy, h] = [mx, my, s[0]];
        else if (kind === 'angle') [gx, gy, h] = [-ey[0], ex[0], ex[0] * mx + ey[0] * my];
        // Re(conj(g) dM) = Re(conj(g F) c_W dz) + Re(g conj(W) c_F dz)
        const [wRe, wIm] = [gx * fx - gy * fy, -gx * fy - gy * fx];
        const [fRe, fIm] = [gx * x + gy * y, gy * x - gx * y];
        let q = start[row];
        for (let p = 2 * entries[w], r = 2 * entries[f]; p < 2 * entries[w + 1]; p += 2, r += 2, q += 2) {
          jacobian[q] = wRe * c[p] - wIm * c[p + 1] + fRe * c[r] - fIm * c[r + 1];
          jacobian[q + 1] = -wRe * c[p + 1] - wIm * c[p] - fRe * c[r + 1] - fIm * c[r];
        }
        // The parameter comes last.
        jacobian[q - 2 + (parameter % 2)] = -h * a[1] * perUnknown;
      }
    },

    begin({ wholeX, wholeY, formX, formY }, z) {
      for (const { w, f } of rows) {
        for (const form of [w, f]) {
          formX[form * STRIDE] = wholeX[form];
          formY[form * STRIDE] = wholeY[form];
        }
      }
      for (const one of rows) {
        one.rest = 0;
        [one.mx[0], one.my[0]] = turnedBack(one, 0, 0, 0, formX, formY);
      }
      this.take(1, z, formX, formY);
    },

    take(k, z, formX, formY) {
      v[k] = perUnknown * z[parameter * STRIDE + k];
      for (const one of rows) {
        const { a, s, ex, ey, mx, my } = one;
        s[k] = a[1] * v[k] + one.rest;
        [ex[k], ey[k]] = turned(one, k, k);
        [mx[k], my[k]] = turnedBack(one, k, 0, k, formX, formY);
      }
    },

    order(k, formX, formY) {
      let highest = 1;
      for (const { degree } of rows) highest = Math.max(highest, degree);
      for (let j = 2; j <= Math.min(k, highest); j++) {
        let sum = 0;
        for (let m = 1; m <= k - j + 1; m++) sum += v[m] * powers[j - 1][k - m];
        powers[j][k] = sum;
      }
      rows.forEach((one, i) => {
        const { kind, a, s, ex, ey, mx, my } = one;
        one.rest = 0;
        for (let j = 2; j <= Math.min(k, one.degree); j++) one.rest += a[j] * powers[j][k];
        const [x, y] = turnedBack(one, k, 1, k - 1, formX, formY);
        let sum = 0;
        if (kind === 'angle') {
          const [tx, ty] = turned(one, k, k - 1);
          const [nextX, nextY] = [tx - one.rest * ey[0], ty + one.rest * ex[0]];
          sum = ex[0] * y - ey[0] * x + nextX * my[0] - nextY * mx[0];
          for (let j = 1; j < k; j++) sum += ex[j] * my[k - j] - ey[j] * mx[k - j];
        } else if (kind === 'length') {
          for (let j = 1; j < k; j++) sum += mx[j] * mx[k - j] + my[j] * my[k - j] - s[j] * s[k - j];
          sum = 0.5 * sum - s[0] * one.rest;
        } else sum = (kind === 'x' ? x : y) - one.rest;
        lower[i] = sum;
      });
      return lower;
    },

    secondOrder(whole, u, v) {
      const { formX, formY } = whole;
      const square = (of: (i: number) => number) => {
        const z = new Float64Array(u.length * STRIDE);
        for (let i = 0; i < u.length; i++) z[i * STRIDE + 1] = of(i);
        applyForms(forms, z, STRIDE, 1, 1, formX, formY);
        this.begin(whole, z);
        return this.order(2, formX, formY).slice();
      };
      const [first, second] = [square((i) => u[i]), square((i) => v[i])];
      const both = square((i) => u[i] + v[i]);
      return rows.map(({ scale }, k) => (both[k] - first[k] - second[k]) / (2 * scale));
    },
  };
}

/** Why so many drivers do not move a linkage. */
function refusalOf(system: System, driven: System, drivers: number): InputError {
  const own = taylorExpansion(system);
  factorise(own, new Float64Array(system.unknowns));
  const degreesOfFreedom = system.unknowns - own.elimination.rank;
  const code = drivers === degreesOfFreedom ? 'driversDependent' : 'driversForFreedoms';
  return refusal('linkage', [
    degreesOfFreedom === 0
      ? whyNotDriven(own)
      : (bifurcationDrawn(taylorExpansion(driven)) ?? fault(code, 'drivers', { drivers, degreesOfFreedom })),
  ]);
}

/** The terms conj(F_j) W_{k-j} of M, j from `first` to `last`. */
function turnedBack(
  { w, f }: DrivenRow,
  k: number,
  first: number,
  last: number,
  formX: Float64Array,
  formY: Float64Array,
): [number, number] {
  let [x, y] = [0, 0];
  for (let j = first; j <= last; j++) {
    const [p, q] = [f * STRIDE + j, w * STRIDE + k - j];
    x += formX[p] * formX[q] + formY[p] * formY[q];
    y += formX[p] * formY[q] - formY[p] * formX[q];
  }
  return [x, y];
}

/** The terms i j S_j E_{k-j} / k of E_k, j from 1 to `last`. */
function turned({ s, ex, ey }: DrivenRow, k: number, last: number): [number, number] {
  let [x, y] = [0, 0];
  for (let j = 1; j <= last; j++) {
    x -= (j / k) * s[j] * ey[k - j];
    y += (j / k) * s[j] * ex[k - j];
  }
  return [x, y];
}
