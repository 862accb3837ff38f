/** The minimiser on functions whose least values are known in closed form. */
import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimise } from '../../src/numerics/minimiser.ts';
import { expectWithin } from '../support/tolerance.ts';

/** H. H. Rosenbrock, "An automatic method for finding the greatest or least value of a function", 1960: least 0 at (1, 1). */
const valley = ([x, y]: readonly number[], g: number[]): number => {
  g[0] = -400 * x * (y - x * x) - 2 * (1 - x);
  g[1] = 200 * (y - x * x);
  return 100 * (y - x * x) ** 2 + (1 - x) ** 2;
};

/** Its matrix of second derivatives but for the part that is not a product of first ones (Gauss and Newton). */
const metric = ([x]: readonly number[]) => [
  [2 + 800 * x * x, -400 * x],
  [-400 * x, 200],
];

const quadratic =
  (weights: readonly number[], at: readonly number[]) =>
  (x: readonly number[], g: number[]): number => {
    let sum = 0;
    x.forEach((one, i) => {
      g[i] = weights[i] * (one - at[i]);
      sum += 0.5 * weights[i] * (one - at[i]) ** 2;
    });
    return sum;
  };

describe('minimise', () => {
  it("finds the bottom of Rosenbrock's valley", () => {
    const start = Object.freeze([-1.2, 1]);
    const { x, value, how } = minimise(valley, start, { metric });
    expect(how).toBe('converged');
    expectWithin(x[0], 1, 1e-8);
    expectWithin(x[1], 1, 1e-8);
    expectWithin(value, 0, 1e-17);
  });

  it('finds the bottom of quadratics of any scale', () => {
    const one = fc.record({
      weight: fc.integer({ min: -3, max: 6 }),
      at: fc.integer({ min: -20, max: 20 }),
      from: fc.integer({ min: -20, max: 20 }),
    });
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 6 }), (all) => {
        const weights = all.map(({ weight }) => 10 ** weight);
        const at = all.map((each) => each.at / 10);
        const diagonal = () => weights.map((w, i) => weights.map((_, j) => (i === j ? w : 0)));
        const start = all.map(({ from }) => from / 10);
        const { x, value, how } = minimise(quadratic(weights, at), start, { metric: diagonal });
        expect(how).toBe('converged');
        // What is left to be gained is nothing: p < 1e-18, but for the rounding of x.
        expectWithin(value, 0, 1e-17);
        x.forEach((found, i) => {
          expectWithin(found, at[i], Math.sqrt(2e-17 / weights[i]) + 1e-14);
        });
      }),
    );
  });

  it('ends as it is told, with the lowest place so far', () => {
    const asked: number[] = [];
    const f = (x: readonly number[], g: number[]) => {
      const value = valley(x, g);
      asked.push(value);
      return value;
    };
    let left = 12;
    const stopped = minimise(f, [-1.2, 1], { metric, stop: () => left-- <= 0 });
    expect(stopped).toMatchObject({ how: 'stopped', evaluations: 12, value: Math.min(...asked) });
    expect(valley(stopped.x, [0, 0])).toBe(stopped.value);

    asked.length = 0;
    const out = minimise(f, [-1.2, 1], { metric, maxEvaluations: 7 });
    expect(out).toMatchObject({ how: 'outOfEvaluations', evaluations: 7, value: Math.min(...asked) });
    expect(asked.length).toBe(7);
  });

  it('keeps away from where there is no value', () => {
    // ln x has none at 0 and below; x - ln x is least at 1.
    const f = ([x]: readonly number[], g: number[]) => {
      g[0] = 1 - 1 / x;
      return x - Math.log(x);
    };
    const { x, how } = minimise(f, [0.05], { metric: ([at]) => [[1 / at ** 2]] });
    expect(['converged', 'stalled']).toContain(how);
    expectWithin(x[0], 1, 1e-6);
    for (const bad of [-1, 0, Number.NaN]) {
      expect(minimise(f, [bad], { metric: () => [[1]] })).toMatchObject({ how: 'noValue', evaluations: 1 });
    }
  });

  it('says so where a kink leaves a slope', () => {
    const { x, how } = minimise(
      ([at], g) => {
        g[0] = at < 0.3 ? -1 : 1;
        return Math.abs(at - 0.3);
      },
      [1],
      { metric: () => [[1]] },
    );
    expect(how).toBe('stalled');
    expectWithin(x[0], 0.3, 1e-3);
  });

  it('gives equal bits for equal input', () => {
    expect(minimise(valley, [-1.2, 1], { metric })).toEqual(minimise(valley, [-1.2, 1], { metric }));
  });

  it('takes the licence of the code that it is bundled with along', () => {
    const words = (file: string) => readFileSync(file, 'utf8').split(/\s+/).join(' ').trim();
    expect(words('THIRD-PARTY.md')).toContain(words('node_modules/fmin/LICENSE'));
    expect(JSON.parse(readFileSync('package.json', 'utf8')).files).toContain('THIRD-PARTY.md');
  });
});
