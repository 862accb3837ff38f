/** The general least squares against certified values, and how it says that it ended. */

import { describe, expect, it } from 'vitest';
import { leastSquares, type Residuals } from '../../src/numerics/least-squares.ts';
import { decompose } from '../../src/numerics/singular-values.ts';
import { expectWithin } from '../support/tolerance.ts';
import strd from './strd.json' with { type: 'json' };

type Model = (b: readonly number[], x: number) => { value: number; rates: number[] };

/** Source and form: the header of strd.json. */
const MODELS: Record<'misra1a' | 'hahn1', Model> = {
  misra1a: ([b1, b2], x) => {
    const e = Math.exp(-b2 * x);
    return { value: b1 * (1 - e), rates: [1 - e, b1 * x * e] };
  },
  hahn1: ([b1, b2, b3, b4, b5, b6, b7], x) => {
    const above = b1 + b2 * x + b3 * x ** 2 + b4 * x ** 3;
    const below = 1 + b5 * x + b6 * x ** 2 + b7 * x ** 3;
    const value = above / below;
    const rates = [1, x, x ** 2, x ** 3].map((power) => power / below);
    return { value, rates: [...rates, ...[x, x ** 2, x ** 3].map((power) => (-value * power) / below)] };
  },
};

function regression(name: 'misra1a' | 'hahn1'): Residuals {
  const { x, y } = strd[name];
  return {
    values: (b) => x.map((at, i) => MODELS[name](b, at).value - y[i]),
    derivatives: (b) => x.map((at) => MODELS[name](b, at).rates),
  };
}

describe('least squares', () => {
  const cases = (['misra1a', 'hahn1'] as const).flatMap((name) => [0, 1].map((start) => ({ name, start })));
  it.each(cases)('has the certified values of $name from start $start', ({ name, start }) => {
    const { starts, certified, sumOfSquares, standardDeviations, x } = strd[name];
    const problem = regression(name);
    const found = leastSquares(problem, starts[start]);
    expect(found.status).toBe('converged');
    // Certified to eleven digits; we ask for nine.
    certified.forEach((wanted, j) => {
      expectWithin(found.x[j], wanted, 1e-9 * Math.abs(wanted));
    });
    expectWithin(found.sum, sumOfSquares, 1e-10 * sumOfSquares);
    // Standard deviations of the estimates: sqrt(S / (m - n) (J'J)^-1).
    const { values, right } = decompose(problem.derivatives(found.x), certified.length);
    standardDeviations.forEach((wanted, j) => {
      const square = values.reduce((sum, s, k) => sum + (right[k][j] / s) ** 2, 0);
      const deviation = Math.sqrt((square * Number(found.sum)) / (x.length - certified.length));
      expectWithin(deviation, wanted, 1e-6 * wanted);
    });
  });

  it('finds where residuals are zero to rounding', () => {
    // Rosenbrock's valley, least at (1, 1) with 0.
    const found = leastSquares(
      {
        values: ([a, b]) => [10 * (b - a * a), 1 - a],
        derivatives: ([a]) => [
          [-20 * a, 10],
          [-1, 0],
        ],
      },
      [-1.2, 1],
    );
    expect(found.status).toBe('converged');
    found.x.forEach((value) => {
      // It stops before a step of less than 1e-11.
      expectWithin(value, 1, 1e-11);
    });
  });

  it('leaves alone what no residual depends on', () => {
    const found = leastSquares(
      { values: ([a, , c]) => [a + c - 4], derivatives: () => [[1, 0, 1]] },
      [1, 7, 2],
    );
    expect(found.status).toBe('converged');
    [1.5, 7, 2.5].forEach((wanted, j) => {
      expectWithin(found.x[j], wanted, 1e-10);
    });
  });

  it('takes few steps where residuals stay large, with their curvature, and ends in the same place', () => {
    // Four tapes from the corners of a rectangle, all read a tenth of the way to its centre: by symmetry the least is at the centre, and
    // S there four times the square of what the tapes are short.
    const corners = [
      [300, 100],
      [-300, 100],
      [-300, -100],
      [300, -100],
    ];
    const R = Math.hypot(300, 100);
    const away = ([y, z]: readonly number[]) => corners.map(([cy, cz]) => [y - cy, z - cz] as const);
    const read = 0.1 * R;
    let steps = 0;
    const tapes: Residuals = {
      values: (x) => away(x).map(([y, z]) => Math.hypot(y, z) - read),
      derivatives: (x) => {
        steps++;
        return away(x).map(([y, z]) => [y / Math.hypot(y, z), z / Math.hypot(y, z)]);
      },
    };
    // Of a distance d: (1 - n n') / d.
    const curvature = (x: readonly number[], residuals: readonly number[]) => {
      const sum = [
        [0, 0],
        [0, 0],
      ];
      away(x).forEach(([y, z], i) => {
        const times = residuals[i] / Math.hypot(y, z) ** 3;
        sum[0][0] += times * z * z;
        sum[1][1] += times * y * y;
        sum[0][1] -= times * y * z;
        sum[1][0] -= times * y * z;
      });
      return sum;
    };
    const plain = leastSquares(tapes, [60, 30]);
    const plainSteps = steps;
    steps = 0;
    const curved = leastSquares({ ...tapes, curvature }, [60, 30]);
    for (const { status, x, sum } of [plain, curved]) {
      expect(status).toBe('converged');
      expectWithin(Math.hypot(...x), 0, 1e-5);
      expectWithin(sum, 4 * (R - read) ** 2, 1e-6);
    }
    // The first six are the same.
    expect(steps).toBeLessThan(12);
    expect(plainSteps).toBeGreaterThan(3 * steps);
  });

  it('stops after as many steps as it may make', () => {
    const endless = {
      values: ([a]: readonly number[]) => [1 / a],
      derivatives: ([a]: readonly number[]) => [[-1 / (a * a)]],
    };
    let asked = 0;
    const counted = {
      values: endless.values,
      derivatives: (x: readonly number[]) => {
        asked++;
        return endless.derivatives(x);
      },
    };
    expect(leastSquares(counted, [1], 7).status).toBe('iterationLimit');
    expect(asked).toBe(7);
  });

  it('ends at once where it starts at the least, whatever the scale of residuals', () => {
    for (const scale of [1e-9, 1, 1e9]) {
      let asked = 0;
      const line = (b: readonly number[]) => [1, 2, 4].map((y, i) => scale * (b[0] + b[1] * i - y));
      const fit = {
        values: (b: readonly number[]) => {
          asked++;
          return line(b);
        },
        derivatives: () => [0, 1, 2].map((i) => [scale, scale * i]),
      };
      // The line through 1, 2, 4 at 0, 1, 2: slope (4 - 1)/2, through the mean 7/3 at 1.
      const found = leastSquares(fit, [7 / 3 - 1.5, 1.5]);
      expect(found.status).toBe('converged');
      expect(asked).toBe(1);
      expectWithin(found.sum, scale ** 2 / 6, 1e-12 * scale ** 2);
    }
  });

  it('ends where a step changes nothing of the residual, though x is as small as the step', () => {
    let asked = 0;
    const fit = {
      values: ([a]: readonly number[]) => {
        asked++;
        return [a + 1, a - 1];
      },
      derivatives: () => [[1], [1]],
    };
    expect(leastSquares(fit, [1e-11])).toMatchObject({ status: 'converged', x: [1e-11] });
    expect(asked).toBe(1);
  });

  it('ends where a step is nothing beside x, and not where it is more, whatever the scale of residuals', () => {
    for (const scale of [1e-6, 1, 1e6]) {
      for (const size of [1e-3, 1, 1e3]) {
        let asked = 0;
        const fit = {
          values: ([a]: readonly number[]) => {
            asked++;
            return [scale * (a - 3 * size)];
          },
          derivatives: () => [[scale]],
        };
        const near = 3 * size * (1 + 1e-12);
        expect(leastSquares(fit, [near])).toMatchObject({ status: 'converged', x: [near] });
        expect(asked).toBe(1);
        const far = leastSquares(fit, [3.01 * size]);
        expect(far.status).toBe('converged');
        expectWithin(far.x[0], 3 * size, 2e-11 * 3 * size);
      }
    }
  });

  it('has nothing to do without residuals', () => {
    expect(leastSquares({ values: () => [], derivatives: () => [] }, [1, 2])).toEqual({
      status: 'converged',
      x: [1, 2],
      residuals: [],
      sum: 0,
    });
  });

  it('says so where derivatives are no numbers, one of them or more', () => {
    for (const bad of [
      [
        [Number.NaN, 1],
        [1, 1],
      ],
      [
        [1, 1],
        [1, Number.POSITIVE_INFINITY],
      ],
      [
        [Number.NaN, Number.NaN],
        [1, 1],
      ],
    ]) {
      const found = leastSquares({ values: ([a, b]) => [a - b, a + b - 1], derivatives: () => bad }, [3, 4]);
      expect(found).toEqual({ status: 'notFinite', x: [3, 4], residuals: [-1, 6], sum: 37 });
    }
  });

  it('says so where it gets no farther, with the best so far', () => {
    const nothing = leastSquares({ values: ([a]) => [Math.log(a)], derivatives: ([a]) => [[1 / a]] }, [-1]);
    expect(nothing).toMatchObject({ status: 'notFinite', x: [-1], sum: null });
    // The derivative has the wrong sign: no step helps.
    const wrong = leastSquares({ values: ([a]) => [a], derivatives: () => [[-1]] }, [3]);
    expect(wrong).toEqual({ status: 'stalled', x: [3], residuals: [3], sum: 9 });
    const small = leastSquares({ values: ([a]) => [1e-9 * a], derivatives: () => [[-1e-9]] }, [3]);
    expect(small).toMatchObject({ status: 'stalled', x: [3] });
    // A residual that is less the farther it goes.
    const endless = leastSquares({ values: ([a]) => [1 / a], derivatives: ([a]) => [[-1 / (a * a)]] }, [1]);
    expect(endless.status).toBe('iterationLimit');
    expect(Number(endless.sum)).toBeLessThan(1e-3);
    const cliff = leastSquares(
      {
        values: ([a]) => [a > 0 ? a : Number.NaN],
        derivatives: () => [[1]],
      },
      [5],
    );
    expect(Number.isFinite(cliff.sum)).toBe(true);
  });
});
