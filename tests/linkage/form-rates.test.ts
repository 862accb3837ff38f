/** Derivatives of a system's forms against central differences of systems compiled from moved drawings. */
import { assert, integer, pre, property } from 'fast-check';
import type { Drawing, Point } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import type { Form } from '../../src/linkage/form.ts';
import { packForms } from '../../src/linkage/form.ts';
import { rateForms } from '../../src/linkage/form-rates.ts';
import { compile } from '../../src/linkage/system.ts';
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

/** A drawing with one coordinate moved. */
function with1(drawing: Drawing, name: string, axis: number, by: number): Drawing {
  const k = Object.keys(drawing.points).indexOf(name);
  return redrawn(drawing, ([x, y], i): Point => (i !== k ? [x, y] : axis === 0 ? [x + by, y] : [x, y + by]));
}

describe('the derivative of a form', () => {
  it('is its central difference, for places and for rows, by each coordinate of the drawing', () => {
    let moving = 0;
    assert(
      property(
        linkages,
        integer({ min: 0, max: 99 }),
        integer({ min: 0, max: 1 }),
        ({ drawing }, n, axis) => {
          const names = Object.keys(drawing.points);
          const name = names[n % names.length];
          const system = compile(drawing);
          const near = STEPS.map((k) => compile(with1(drawing, name, axis, k * STEP)));
          // Other basic points are other unknowns.
          const basis = (one: typeof system) => JSON.stringify([...one.structure.bodies.values()]);
          pre(near.every((one) => basis(one) === basis(system)));
          const { places, forms } = rateForms(system, [{ [name]: axis === 0 ? [1, 0] : [0, 1] }]);

          places.forEach(({ value, rates: [rate] }, p) => {
            expect(value).toEqual(system.places[p]);
            const rates = numbersOf(rate);
            const others = near.map((one) => numbersOf(one.places[p]));
            for (const key of numbersOf(value).keys()) {
              const values = others.map((numbers) => numbers.get(key) as number);
              const { slope, trust } = slopeOf(values, STEP, key.length === 1 ? DRAWN : COEFFICIENT);
              expectWithin(rates.get(key) ?? 0, slope, trust);
              if (Math.abs(slope) > trust) moving++;
            }
          });

          const packed = packForms(forms.map(({ value }) => value));
          expect(packed).toEqual(system.forms);
          forms.forEach(({ value, rates: [rate] }, f) => {
            const rates = numbersOf(rate);
            const { start, free, c, d } = system.forms;
            const at = (read: (one: typeof system.forms) => number) => near.map((one) => read(one.forms));
            const check = (key: string, values: number[], rounding: number) => {
              const { slope, trust } = slopeOf(values, STEP, rounding);
              expectWithin(rates.get(key) ?? 0, slope, trust);
            };
            check(
              'x',
              at((one) => one.d[2 * f]),
              DRAWN,
            );
            check(
              'y',
              at((one) => one.d[2 * f + 1]),
              DRAWN,
            );
            for (let q = start[f]; q < start[f + 1]; q++) {
              check(
                `re ${free[q]}`,
                at((one) => one.c[2 * q]),
                COEFFICIENT,
              );
              check(
                `im ${free[q]}`,
                at((one) => one.c[2 * q + 1]),
                COEFFICIENT,
              );
            }
            expect(numbersOf(value).size).toBe(2 + 2 * (start[f + 1] - start[f]));
            expect([c.length, d.length]).toEqual([packed.c.length, packed.d.length]);
          });
        },
      ),
      { numRuns: 60 },
    );
    expect(moving).toBeGreaterThan(0);
  });
});
