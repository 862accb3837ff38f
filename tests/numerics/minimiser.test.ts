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
    const { x, value, status, evaluations } = minimise(valley, start, { metric });
    expect(status).toBe('converged');
    // As measured.
    expect(evaluations).toBeLessThanOrEqual(140);
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
        const { x, value, status } = minimise(quadratic(weights, at), start, { metric: diagonal });
        expect(status).toBe('converged');
        // What is left to be gained is nothing: p < 1e-18, but for the rounding of x.
        expectWithin(value, 0, 1e-17);
        x.forEach((found, i) => {
          expectWithin(found, at[i], Math.sqrt(2e-17 / weights[i]) + 1e-14);
        });
      }),
    );
  });

  it('takes few evaluations to the bottom of a narrow quadratic, of any scale', () => {
    for (const k of [1e-8, 1, 1e8]) {
      const H = [
        [2 * k, 1.9 * k],
        [1.9 * k, 2 * k],
      ];
      const f = ([a, b]: readonly number[], g: number[]) => {
        const d = [a - 0.3, b + 0.1];
        H.forEach((row, i) => {
          g[i] = row[0] * d[0] + row[1] * d[1];
        });
        return 0.5 * (d[0] * g[0] + d[1] * g[1]);
      };
      const { value, status, evaluations } = minimise(f, [0, 0], { metric: () => H });
      expect(status).toBe('converged');
      expectWithin(value, 0, 1e-17);
      // As measured.
      expect(evaluations).toBeLessThanOrEqual(40);
    }
  });

  it('stays where it is least already, though no metric says how far a step may go', () => {
    const f = (_x: readonly number[], g: number[]) => {
      g.fill(0);
      return 3;
    };
    const zero = () => [
      [0, 0],
      [0, 0],
    ];
    expect(minimise(f, [1, 2], { metric: zero })).toEqual({
      x: [1, 2],
      value: 3,
      status: 'converged',
      evaluations: 1,
    });
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
    expect(stopped).toMatchObject({ status: 'cancelled', evaluations: 12, value: Math.min(...asked) });
    expect(valley(stopped.x, [0, 0])).toBe(stopped.value);

    asked.length = 0;
    const out = minimise(f, [-1.2, 1], { metric, maxEvaluations: 7 });
    expect(out).toMatchObject({ status: 'evaluationLimit', evaluations: 7, value: Math.min(...asked) });
    expect(asked.length).toBe(7);

    for (let most = 1; most <= 60; most++) {
      asked.length = 0;
      const { x, value } = minimise(f, [-1.2, 1], { metric, maxEvaluations: most });
      expect(value).toBe(Math.min(...asked));
      expect(valley(x, [0, 0])).toBe(value);
    }
  });

  it('lets through what the function throws, at the start and later', () => {
    for (const after of [0, 5]) {
      let asked = 0;
      const f = (x: readonly number[], g: number[]) => {
        if (asked++ === after) throw new RangeError('no table here');
        return valley(x, g);
      };
      expect(() => minimise(f, [-1.2, 1], { metric })).toThrow(new RangeError('no table here'));
    }
  });

  it('keeps away from where there is no value', () => {
    // ln x has none at 0 and below; x - ln x is least at 1.
    const f = ([x]: readonly number[], g: number[]) => {
      g[0] = 1 - 1 / x;
      return x - Math.log(x);
    };
    const { x, status } = minimise(f, [0.05], { metric: ([at]) => [[1 / at ** 2]] });
    expect(['converged', 'stalled']).toContain(status);
    expectWithin(x[0], 1, 1e-6);
    for (const bad of [-1, 0, Number.NaN]) {
      expect(minimise(f, [bad], { metric: () => [[1]] })).toMatchObject({
        x: [bad],
        status: 'noFiniteValue',
        evaluations: 1,
      });
    }
  });

  it('does not ask where a coordinate is no number, nor take a value without a slope', () => {
    const identity = () => [
      [1, 0],
      [0, 1],
    ];
    const blind = (_x: readonly number[], g: number[]) => {
      g.fill(0);
      return 1;
    };
    for (const start of [
      [Number.NaN, 0],
      [0, Number.POSITIVE_INFINITY],
    ]) {
      expect(minimise(blind, start, { metric: identity }).status).toBe('noFiniteValue');
    }
    for (const slope of [
      [0, Number.NaN],
      [Number.POSITIVE_INFINITY, 1],
    ]) {
      const f = (_x: readonly number[], g: number[]) => {
        [g[0], g[1]] = slope;
        return 1;
      };
      expect(minimise(f, [1, 2], { metric: identity }).status).toBe('noFiniteValue');
    }
  });

  it('gives up soon where nothing is gained: a slope of the wrong sign, and a wall', () => {
    const wrong = ([x]: readonly number[], g: number[]) => {
      g[0] = -2 * x;
      return x * x;
    };
    const wall = ([x]: readonly number[], g: number[]) => {
      g[0] = 1;
      return x < 0.3 ? Number.NaN : x;
    };
    for (const [f, at] of [
      [wrong, 1],
      [wall, 0.3],
    ] as const) {
      const { x, status, evaluations } = minimise(f, [at], { metric: () => [[2]] });
      expect({ x, status }).toEqual({ x: [at], status: 'stalled' });
      expect(evaluations).toBeLessThan(25);
    }
  });

  it('says so where a kink leaves a slope', () => {
    const { x, status } = minimise(
      ([at], g) => {
        g[0] = at < 0.3 ? -1 : 1;
        return Math.abs(at - 0.3);
      },
      [1],
      { metric: () => [[1]] },
    );
    expect(status).toBe('stalled');
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
