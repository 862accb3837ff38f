/** Derivatives of a system's forms against central differences of systems compiled from moved drawings. */
import { assert, integer, pre, property } from 'fast-check';
import type { Drawing, Point } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { type Form, type Forms, packForms } from '../../src/linkage/form.ts';
import { rateForms } from '../../src/linkage/form-rates.ts';
import { compile, type System } from '../../src/linkage/system.ts';
import { STEPS, slopeOf } from '../support/differences.ts';
import { linkages } from '../support/linkages.ts';
import { redrawn } from '../support/motions.ts';
import { EPS, expectWithin } from '../support/tolerance.ts';

/** Of points drawn in a square of 1000, some 40 apart or more. */
const STEP = 0.5;
/** Roundings of a coefficient, and of a drawn value; a share may have been divided by a short line. */
const COEFFICIENT = 256 * EPS;
const DRAWN = 256 * EPS * 1000;

/** Drawn values, and coefficients, of a form by free point. */
function numbersOf({ x, y, free, re, im }: Form): Map<string, number> {
  const numbers = new Map([
    ['x', x],
    ['y', y],
  ]);
  free.forEach((j, k) => {
    numbers.set(`re ${j}`, re[k]).set(`im ${j}`, im[k]);
  });
  return numbers;
}

/** A row form as it stands in a system. */
function unpacked({ start, free, c, d }: Forms, f: number): Form {
  const entries = Array.from({ length: start[f + 1] - start[f] }, (_, k) => start[f] + k);
  return {
    x: d[2 * f],
    y: d[2 * f + 1],
    free: entries.map((q) => free[q]),
    re: entries.map((q) => c[2 * q]),
    im: entries.map((q) => c[2 * q + 1]),
  };
}

/** A drawing with one coordinate moved. */
function movedDrawing(drawing: Drawing, name: string, axis: number, by: number): Drawing {
  const k = Object.keys(drawing.points).indexOf(name);
  return redrawn(drawing, ([x, y], i): Point => (i !== k ? [x, y] : axis === 0 ? [x + by, y] : [x, y + by]));
}

/** The bodies with their basic points: others are other unknowns. */
const basisOf = ({ structure }: System) => JSON.stringify([...structure.bodies.values()]);

describe('the derivative of a form', () => {
  it('is its central difference, for places and for rows, by each coordinate of the drawing', () => {
    let moving = 0;
    const check = (value: Form, rate: Form, near: readonly Form[]) => {
      const rates = numbersOf(rate);
      const others = near.map(numbersOf);
      for (const key of numbersOf(value).keys()) {
        const values = others.map((numbers) => numbers.get(key) as number);
        const { slope, trust } = slopeOf(values, STEP, key.length === 1 ? DRAWN : COEFFICIENT);
        expectWithin(rates.get(key) ?? 0, slope, trust);
        if (Math.abs(slope) > trust) moving++;
      }
    };
    const index = integer({ min: 0, max: 99 });
    const axes = integer({ min: 0, max: 1 });
    assert(
      property(linkages, index, axes, ({ drawing }, n, axis) => {
        const names = Object.keys(drawing.points);
        const name = names[n % names.length];
        const system = compile(drawing);
        const near = STEPS.map((k) => compile(movedDrawing(drawing, name, axis, k * STEP)));
        pre(near.every((one) => basisOf(one) === basisOf(system)));
        const { places, forms } = rateForms(system, [{ [name]: axis === 0 ? [1, 0] : [0, 1] }]);
        expect(places.map(({ value }) => value)).toEqual(system.places);
        expect(packForms(forms.map(({ value }) => value))).toEqual(system.forms);
        for (const [p, { value, rates }] of places.entries()) {
          const others = near.map((one) => one.places[p]);
          check(value, rates[0], others);
        }
        for (const [f, { value, rates }] of forms.entries()) {
          const others = near.map((one) => unpacked(one.forms, f));
          check(value, rates[0], others);
        }
      }),
      { numRuns: 60 },
    );
    expect(moving).toBeGreaterThan(0);
  });
});
