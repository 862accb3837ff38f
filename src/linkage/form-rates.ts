// Derivatives of a linkage's forms when its drawn places shift. With ˙ for the derivative by how far an input goes that
// shifts each drawn place p by p˙, the shares of a body's points and every form of it have
//
//   c = (p - a)/(b - a):    c˙ = (p˙ - a˙ - c (b˙ - a˙)) / (b - a)
//   W = d + sum_j c_j z_j:  W˙ = d˙ + sum_j c˙_j z_j            at the same unknowns z
//   e W, e = exp(i (arg d_a - arg d)):  (e W)˙ = e W˙ + i (arg d_a - arg d)˙ e W,   (arg d)˙ = Im(conj(d) d˙)/|d|^2
//
// Lengths come from the drawing and shift with it, so that z = 0 stays a solution whatever shifts.

import { endRate } from './direction-ends.ts';
import type { Point } from './drawing.ts';
import { type FormMaker, lineBetween, makeForms, share, turnBetween, valueMaker } from './drawn-forms.ts';
import { addForms, constantForm, type Form } from './form.ts';
import type { Member } from './structure.ts';
import type { System } from './system.ts';

/** How far drawn places go, `[x, y]` by name, for each unit of some input; places left out stay. */
export type Shift = Readonly<Record<string, Point>>;

/** A form, and its derivative by each of some shifts. */
export interface RatedForm {
  readonly value: Form;
  readonly rates: readonly Form[];
}

/** The places and the row forms of a system with their derivatives. */
export function rateForms(
  system: System,
  shifts: readonly Shift[],
): { places: RatedForm[]; forms: RatedForm[] } {
  const { structure, places } = system;
  const x = places.map((place) => place.x);
  const y = places.map((place) => place.y);
  const values = valueMaker(x, y);
  const moved = shifts.map((shift) => {
    const { names, directions } = structure;
    const to = names.map((name) => shift[name] ?? STAYS);
    for (const { from, to: towards, aside } of directions) {
      const [a, b] = [from, towards].map((p): Point => [x[p], y[p]]);
      to.push(endRate(a, b, aside, to[from], to[towards]));
    }
    return { x: to.map((place) => place[0]), y: to.map((place) => place[1]) };
  });
  const rated = (value: Form, rate: (moves: Moves, k: number) => Form): RatedForm => ({
    value,
    rates: moved.map(rate),
  });
  const make: FormMaker<RatedForm> = {
    one: () => rated(values.one(), () => constantForm(0, 0)),
    fixed: (p) => rated(values.fixed(p), (moves) => constantForm(moves.x[p], moves.y[p])),
    free: (p, j) => rated(values.free(p, j), (moves) => constantForm(moves.x[p], moves.y[p])),
    line: ratedLine,
    carried(body, p, a, bar) {
      const [re, im] = share(x, y, body, p);
      return rated(values.carried(body, p, a.value, bar.value), (moves, k) => {
        const [reRate, imRate] = shareRate(bar.value, [re, im], body, p, moves);
        const atShare = addForms(a.rates[k], bar.rates[k], re, im, 0, 0);
        return addForms(atShare, bar.value, reRate, imRate, moves.x[p], moves.y[p]);
      });
    },
    off(body, p, place, a, bar) {
      const [re, im] = share(x, y, body, p);
      return rated(values.off(body, p, place.value, a.value, bar.value), (moves, k) => {
        const [reRate, imRate] = shareRate(bar.value, [re, im], body, p, moves);
        const atShare = addForms(lineBetween(a.rates[k], place.rates[k]), bar.rates[k], -re, -im, 0, 0);
        return addForms(atShare, bar.value, -reRate, -imRate, 0, 0);
      });
    },
    turned(line, along) {
      const [re, im] = turnBetween(line.value, along.value);
      return rated(values.turned(line.value, along.value), (_, k) => {
        const turn = turnRate(along.value, along.rates[k]) - turnRate(line.value, line.rates[k]);
        const asItIs = addForms(constantForm(0, 0), line.rates[k], re, im, 0, 0);
        const { x: dx, y: dy } = line.rates[k];
        const [tx, ty] = [-turn * im, turn * re];
        const { x: lx, y: ly } = line.value;
        const drawnX = re * dx - im * dy + tx * lx - ty * ly;
        const drawnY = re * dy + im * dx + tx * ly + ty * lx;
        return addForms(asItIs, line.value, tx, ty, drawnX, drawnY);
      });
    },
  };
  return makeForms(structure, make);
}

/** Shifts of all points by index. */
interface Moves {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

const STAYS: Point = [0, 0];

/** The line between two places with its derivatives. */
export function ratedLine(from: RatedForm, to: RatedForm): RatedForm {
  return {
    value: lineBetween(from.value, to.value),
    rates: from.rates.map((rate, k) => lineBetween(rate, to.rates[k])),
  };
}

/** How fast the drawn direction of a line turns. */
function turnRate({ x, y }: Form, { x: dx, y: dy }: Form): number {
  return (x * dy - y * dx) / (x * x + y * y);
}

/** c˙ of the point p, whose share is c, in a body whose bar b - a is drawn as the form's value. */
function shareRate(
  { x: bx, y: by }: Form,
  [re, im]: readonly [number, number],
  { a, b }: Member,
  p: number,
  { x, y }: Moves,
): [number, number] {
  const turnX = x[b] - x[a];
  const turnY = y[b] - y[a];
  const upX = x[p] - x[a] - (re * turnX - im * turnY);
  const upY = y[p] - y[a] - (re * turnY + im * turnX);
  const square = bx * bx + by * by;
  return [(upX * bx + upY * by) / square, (upY * bx - upX * by) / square];
}
