// The forms of a linkage from its drawn places: those of the points, and those that the rows are made of. What they are
// made with is left open, so that one description serves their values (here) and their derivatives (form-rates.ts).

import { addForms, constantForm, type Form } from './form.ts';
import type { FormPlan, Member, Structure } from './structure.ts';

/** What forms F are made with. */
export interface FormMaker<F> {
  /** The constant 1. */
  one(): F;
  /** The place of a point that never moves. */
  fixed(p: number): F;
  /** The place of the free point j. */
  free(p: number, j: number): F;
  /** The line from one place to another. */
  line(from: F, to: F): F;
  /** The place a + c (b - a) of a point in a body, c as drawn; `a` is the place of the body's a, `bar` its line to b. */
  carried(body: Member, p: number, a: F, bar: F): F;
  /** How far a point at `place` is off that place: nothing, as drawn. */
  off(body: Member, p: number, place: F, a: F, bar: F): F;
  /** A line turned by the angle that is drawn between it and another, so that they are drawn one along the other. */
  turned(line: F, along: F): F;
}

/** The places of all points, and the forms of the rows, as a structure has them. */
export function makeForms<F>(structure: Structure, make: FormMaker<F>): { places: F[]; forms: F[] } {
  const { fixed, definition, freePoints } = structure;
  const places = new Array<F>(fixed.length);
  for (let j = 0; j < freePoints.length; j++) places[freePoints[j]] = make.free(freePoints[j], j);
  const place = (p: number): F => {
    if (places[p] !== undefined) return places[p];
    const by = definition[p];
    if (fixed[p] || by === undefined) places[p] = make.fixed(p);
    else {
      const a = place(by.a);
      places[p] = make.carried(by, p, a, make.line(a, place(by.b)));
    }
    return places[p];
  };
  for (let p = 0; p < fixed.length; p++) place(p);

  const forms: F[] = [];
  for (const plan of structure.forms) forms.push(formOf(plan));
  return { places, forms };

  function formOf(plan: FormPlan): F {
    switch (plan.kind) {
      case 'one':
        return make.one();
      case 'place':
        return places[plan.point];
      case 'line':
        return make.line(places[plan.from], places[plan.to]);
      case 'tie': {
        const { body, point } = plan;
        const a = places[body.a];
        return make.off(body, point, places[point], a, make.line(a, places[body.b]));
      }
      case 'turned':
        return make.turned(make.line(places[plan.from], places[plan.to]), forms[plan.along]);
    }
  }
}

/** Makes the forms themselves, of points drawn at x, y. */
export function valueMaker(x: readonly number[], y: readonly number[]): FormMaker<Form> {
  return {
    one: () => constantForm(1, 0),
    fixed: (p) => constantForm(x[p], y[p]),
    free: (p, j) => ({ x: x[p], y: y[p], free: [j], re: [1], im: [0] }),
    line: lineBetween,
    carried(body, p, a, bar) {
      const [re, im] = share(x, y, body, p);
      return addForms(a, bar, re, im, x[p], y[p]);
    },
    off(body, p, place, a, bar) {
      const [re, im] = share(x, y, body, p);
      return addForms(addForms(place, a, -1, 0, 0, 0), bar, -re, -im, 0, 0);
    },
    turned(line, along) {
      const [re, im] = turnBetween(line, along);
      const share = Math.sqrt((line.x * line.x + line.y * line.y) / (along.x * along.x + along.y * along.y));
      return addForms(constantForm(0, 0), line, re, im, share * along.x, share * along.y);
    },
  };
}

/** The form to - from, its drawn value exact in the difference. */
export function lineBetween(from: Form, to: Form): Form {
  return addForms(to, from, -1, 0, to.x - from.x, to.y - from.y);
}

/** The turn from the drawn direction of one form to that of another, as cosine and sine. */
export function turnBetween(from: Form, to: Form): [number, number] {
  const both = Math.sqrt((from.x * from.x + from.y * from.y) * (to.x * to.x + to.y * to.y));
  return [(from.x * to.x + from.y * to.y) / both, (from.x * to.y - from.y * to.x) / both];
}

/** Constant c with p = a + c (b - a). */
export function share(
  x: readonly number[],
  y: readonly number[],
  { a, b }: Member,
  p: number,
): [number, number] {
  const bx = x[b] - x[a];
  const by = y[b] - y[a];
  const px = x[p] - x[a];
  const py = y[p] - y[a];
  const square = bx * bx + by * by;
  return [(px * bx + py * by) / square, (py * bx - px * by) / square];
}
