/** Polynomials against their own construction: roots that are put in come out, inverse series undo each other. */
import { assert, double, integer, property, tuple, uniqueArray } from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areMirrored,
  derivative,
  evaluateMany,
  horner,
  revert,
  rootBetween,
  roots,
  shift,
} from '../../src/numerics/polynomial.ts';
import { smallArray } from '../../src/numerics/small-array.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

/** Coefficients of a product of linear factors (s - root) and of another polynomial. */
function withRoots(places: readonly number[], other: readonly number[] = [1]): Float64Array {
  let c = [...other];
  for (const root of places) {
    const next = new Array<number>(c.length + 1).fill(0);
    c.forEach((value, k) => {
      next[k] -= root * value;
      next[k + 1] += value;
    });
    c = next;
  }
  return new Float64Array(c);
}

/** How far a root may be off: a rounding of the largest term over the slope there. */
function uncertainty(c: Float64Array, root: number, reach: number): number {
  let largest = 0;
  for (const [k, value] of c.entries()) largest = Math.max(largest, Math.abs(value) * reach ** k);
  const slope = derivative(c);
  return (64 * EPS * largest) / Math.abs(horner(slope, 0, slope.length - 1, root));
}

const thousandths = (min: number, max: number) =>
  integer({ min: 1000 * min, max: 1000 * max }).map((n) => n / 1000);

describe('roots', () => {
  const hundredths = uniqueArray(integer({ min: -98, max: 98 }), { minLength: 0, maxLength: 6 });

  it('are those of the linear factors, whatever factors without a root stand beside', () => {
    assert(
      property(
        hundredths,
        double({ min: 0.5, max: 3, noNaN: true }),
        double({ min: -1, max: 1, noNaN: true }),
        (places, above, tilt) => {
          // s^2 + tilt s + above + tilt^2 has none.
          const c = withRoots(
            places.map((n) => n / 100 + 1 / 777),
            [above + tilt * tilt, tilt, 1],
          );
          const wanted = places.map((n) => n / 100 + 1 / 777).sort((u, v) => u - v);
          const found = roots(c, -1, 1);
          expect(found).toHaveLength(wanted.length);
          found.forEach((root, k) => expectWithin(root, wanted[k], uncertainty(c, wanted[k], 1)));
        },
      ),
    );
  });

  it('are only those inside the interval', () => {
    const c = withRoots([-0.7, -0.2, 0.1, 0.35, 0.8]);
    expect(roots(c, -0.5, 0.5)).toHaveLength(3);
    expect(roots(c, 0.11, 0.34)).toEqual([]);
    expect(roots(c, -10, 10)).toHaveLength(5);
    expect(roots(c, 0.3, 0.4)).toHaveLength(1);
  });

  it.each([1e-2, 1e-4, 1e-6, 1e-7])('are told apart at a distance of %d', (gap) => {
    for (const at of [0.3, -0.41, 0.5, 0]) {
      const c = withRoots([at, at + gap], [2, 0.5, 1]);
      const found = roots(c, -1, 1);
      expect(found).toHaveLength(2);
      expectWithin(found[0], at, uncertainty(c, at, 1));
      expectWithin(found[1], at + gap, uncertainty(c, at + gap, 1));
    }
  });

  it('that touch without crossing are not taken for places far away', () => {
    for (const found of [roots(withRoots([0.3, 0.3]), 0, 1), roots(withRoots([0.3, 0.3], [1, 1]), -0.9, 1)]) {
      expect(found.length).toBeLessThan(10);
      for (const root of found) expectWithin(root, 0.3, 1e-6);
    }
    expect(roots(withRoots([0.3, 0.3, 0.3]), 0, 1).length % 2).toBe(1);
  });

  it.each<[string, number[], number, number]>([
    ['at the left end', [0, 0.6], 0, 1],
    ['at the right end', [0.625, 1], 0, 1],
    ['at both ends', [0, 1], 0, 1],
    ['in the middle', [0.5], 0, 1],
    ['in the middle, and at a quarter', [0.25, 0.5], 0, 1],
    ['in the middle, at a quarter and at three', [0.25, 0.5, 0.75], 0, 1],
    ['at an eighth, a quarter and the middle', [0.125, 0.25, 0.5], 0, 1],
    ['at zero, between unlike ends', [0], -0.3, 0.7],
    ['at zero and a quarter', [0, 0.25], -1, 1],
  ])('are found %s, where the halving meets them', (_where, places, lo, hi) => {
    for (const sign of [1, -1]) {
      const found = roots(withRoots(places, [sign]), lo, hi);
      expect(found).toHaveLength(places.length);
      found.forEach((root, k) => expectClose(root, places[k], { times: 64, scale: 1 }));
    }
  });

  it('are found where the halving of any interval meets them, once each', () => {
    const eighths = uniqueArray(integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 4 });
    assert(
      property(eighths, thousandths(-1, 0), thousandths(1, 3), (parts, lo, width) => {
        const hi = lo + width;
        const wanted = parts.sort((u, v) => u - v).map((n) => lo + (n / 8) * (hi - lo));
        const c = withRoots(wanted);
        const found = roots(c, lo, hi);
        const reach = Math.max(Math.abs(lo), Math.abs(hi));
        found.forEach((root) => {
          const near = wanted.reduce((u, v) => (Math.abs(v - root) < Math.abs(u - root) ? v : u));
          expectWithin(root, near, uncertainty(c, near, reach));
        });
        expect(found).toHaveLength(wanted.length);
      }),
    );
  });

  it('are found at the ends of any interval, though rounding has put them outside', () => {
    assert(
      property(thousandths(-1, 0), thousandths(1, 3), thousandths(0.3, 0.7), (lo, width, part) => {
        const hi = lo + width;
        const inner = lo + part * width;
        for (const wanted of [[lo], [hi], [lo, inner], [inner, hi]]) {
          for (const sign of [1, -1]) {
            const c = withRoots(wanted, [sign / 3]);
            const found = roots(c, lo, hi);
            expect(found).toHaveLength(wanted.length);
            found.forEach((root, k) => expectWithin(root, wanted[k], uncertainty(c, wanted[k], 2)));
          }
        }
      }),
    );
  });

  it('are found beside one at the end of a halving, to the share that an interval is halved to', () => {
    for (const [lo, hi] of [
      [0, 1],
      [-1, 1],
      [-3, 1],
    ]) {
      for (const gap of [2 ** -43, 2 ** -46]) {
        const found = roots(withRoots([0, gap]), lo, hi);
        expect(found.length).toBeGreaterThan(0);
        expect(found.length).toBeLessThanOrEqual(2);
        for (const root of found) expectWithin(root, 0, (hi - lo) * 2 ** -40);
      }
    }
  });

  it('are found where coefficients are zero, in powers or on the interval', () => {
    // 1 - 2 s, as a quadratic: 1, 0, -1 in the Bernstein basis of [0, 1].
    expect(roots(Float64Array.of(1, -2, 0), 0, 1)).toEqual([0.5]);
    expect(roots(Float64Array.of(1, -2, 0, 0, 0), 0, 1)).toEqual([0.5]);
    expect(roots(Float64Array.of(0, 0, 0, 1), -1, 2)).toHaveLength(1);
    // Not a place is told by a polynomial that is zero throughout: its ends are.
    expect(roots(new Float64Array(3), 0, 1)).toEqual([0, 1]);
  });

  it('are none where there is none', () => {
    expect(roots(Float64Array.of(1), 0, 1)).toEqual([]);
    expect(roots(Float64Array.of(1, 0, 0), 0, 1)).toEqual([]);
    expect(roots(Float64Array.of(1, 0, 1), -5, 5)).toEqual([]);
    expect(roots(withRoots([2, 3, -4]), -1, 1)).toEqual([]);
    expect(roots(withRoots([1 + 1e-9]), 0, 1)).toEqual([]);
  });

  it('are found at any scale', () => {
    for (const k of [1e-9, 1e-3, 1e3, 1e9]) {
      for (const factor of [1e-12, -1, 1e12]) {
        const c = withRoots([-0.6 * k, 0.2 * k, 0.7 * k]).map((value) => factor * value);
        const found = roots(c, -k, k);
        expect(found).toHaveLength(3);
        [-0.6, 0.2, 0.7].forEach((root, i) => expectClose(found[i], root * k, { times: 64, scale: k }));
      }
    }
  });

  it('of a series of high order are those of the function', () => {
    // cos(8 s) to s^24, on [-0.6, 0.6]: truncated by 8^26 0.6^26 / 26! = 1.5e-9.
    const c = new Float64Array(25);
    for (let k = 0, term = 1; k < 25; k += 2) {
      c[k] = term;
      term *= -64 / ((k + 1) * (k + 2));
    }
    const found = roots(c, -0.6, 0.6);
    const wanted = [-1.5, -0.5, 0.5, 1.5].map((n) => (n * Math.PI) / 8).filter((s) => Math.abs(s) < 0.6);
    expect(found).toHaveLength(wanted.length);
    found.forEach((root, k) => expectWithin(root, wanted[k], 1e-9));
  });

  it('leave the coefficients as they are', () => {
    const c = withRoots([0.1, 0.4, 0.9]);
    const before = c.slice();
    roots(c, -1, 1);
    derivative(c);
    rootBetween(c, 0, 0.3, 0.5);
    expect(c).toEqual(before);
  });
});

describe('rootBetween', () => {
  it('meets a value, rising or falling, to rounding', () => {
    const c = withRoots([0.4, -1.3, 2.2], [3]);
    for (const target of [0, 1, -2, 3.3]) {
      for (const d of [c, c.map((value) => -value)]) {
        const [at, goal] = [
          rootBetween(d, d === c ? target : -target, -0.9, 1.6),
          d === c ? target : -target,
        ];
        expectWithin(horner(d, 0, 3, at), goal, 64 * EPS * 20);
      }
    }
  });

  it('does not leave the interval for a root outside', () => {
    // Three roots, one in each interval between the turns.
    const c = withRoots([0.2, 2.5, 5]);
    const wanted: [number, number, number][] = [
      [-1, 1, 0.2],
      [2, 3, 2.5],
      [4.5, 9, 5],
    ];
    for (const [lo, hi, root] of wanted) {
      for (const start of [undefined, lo, hi, 0.9 * lo + 0.1 * hi]) {
        expectWithin(rootBetween(c, 0, lo, hi, start), root, uncertainty(c, root, 9));
      }
    }
  });

  it('stays between where a plain Newton step leads away', () => {
    // Flat at both ends, steep between.
    const c = Float64Array.of(0, 1, 0, -10 / 3, 0, 0.2 * 25, 0, -25 / 7);
    const at = rootBetween(c, 0, -0.05, 0.3);
    expectWithin(at, 0, 1e-15);
  });
});

describe('values and derivatives', () => {
  const coefficient = double({ min: -3, max: 3, noNaN: true });
  const series = tuple(...Array.from({ length: 9 }, () => coefficient));

  it('by Horner are those of the sum of powers', () => {
    assert(
      property(series, double({ min: -1.5, max: 1.5, noNaN: true }), (values, s) => {
        const c = new Float64Array([7, 7, ...values]);
        const sum = values.reduce((total, value, k) => total + value * s ** k, 0);
        const scale = values.reduce((total, value, k) => total + Math.abs(value) * Math.abs(s) ** k, 0);
        expectClose(horner(c, 2, 8, s), sum, { times: 32, scale: scale + 1e-300 });
        const slope = values.slice(1).reduce((total, value, k) => total + (k + 1) * value * s ** k, 0);
        const d = derivative(c.slice(2));
        expect(d).toHaveLength(8);
        expectClose(horner(d, 0, 7, s), slope, { times: 256, scale: 9 * (1.5 ** 8 * 3) });
      }),
    );
  });

  it('at many places are those at each, for any number of places, to the bit whether mirrored or not', () => {
    const c = new Float64Array([9, 1, -2, 0.5, 3, -1]);
    for (const degree of [0, 1, 3, 4]) {
      for (const count of [0, 1, 2, 3, 4, 5, 7, 8, 9]) {
        const half = Float64Array.from({ length: count }, (_, i) => (2 * i - (count - 1)) / 7);
        const apart = Float64Array.from({ length: count }, (_, i) => i / 5 - 0.71);
        expect(areMirrored(half, count)).toBe(true);
        expect(areMirrored(apart, count)).toBe(count === 0);
        for (const s of [half, apart]) {
          const [out, mirrored] = [new Float64Array(40).fill(99), new Float64Array(40).fill(99)];
          evaluateMany(c, 1, degree, s, count, false, out, 2);
          for (let i = 0; i < count; i++)
            expectClose(out[2 + i], horner(c, 1, degree, s[i]), { times: 16, scale: 20 });
          expect(out.filter((value) => value !== 99).length).toBe(count);
          if (s === apart) continue;
          evaluateMany(c, 1, degree, s, count, true, mirrored, 2);
          expect(mirrored).toEqual(out);
        }
      }
    }
  });

  it('at many places, times a factor and plus a constant, have the bits of that made of them afterwards', () => {
    const c = new Float64Array([0.3, -2, 0.5, 3, -1]);
    const s = new Float64Array([-0.9, -0.4, 0, 0.4, 0.9]);
    for (const mirrored of [false, true]) {
      const [plain, scaled] = [new Float64Array(5), new Float64Array(5)];
      evaluateMany(c, 0, 4, s, 5, mirrored, plain, 0);
      evaluateMany(c, 0, 4, s, 5, mirrored, scaled, 0, 90.1, -57.3);
      expect(scaled).toEqual(plain.map((value) => 90.1 + -57.3 * value));
    }
  });

  it('about another place are those of the same polynomial', () => {
    assert(
      property(
        series,
        double({ min: -1, max: 1, noNaN: true }),
        double({ min: 0.1, max: 1, noNaN: true }),
        (values, place, scale) => {
          const c = Float64Array.from(values);
          shift(c, 8, place, scale);
          for (const y of [-1, -0.3, 0.8]) {
            const known = horner(Float64Array.from(values), 0, 8, place + scale * y);
            expectClose(horner(c, 0, 8, y), known, { times: 256, scale: 3 * 2 ** 9 });
          }
        },
      ),
    );
  });
});

describe('an inverse series', () => {
  it('of sin is that of arcsin', () => {
    const sin = new Float64Array(12);
    for (let k = 1, term = 1; k < 12; k += 2) {
      sin[k] = term;
      term /= -(k + 1) * (k + 2);
    }
    const b = new Float64Array(12);
    revert(sin, b);
    // arcsin x = x + x^3/6 + 3 x^5/40 + 15 x^7/336 + 105 x^9/3456 + 945 x^11/42240
    const arcsin = [0, 1, 0, 1 / 6, 0, 3 / 40, 0, 15 / 336, 0, 105 / 3456, 0, 945 / 42240];
    arcsin.forEach((value, k) => expectClose(b[k], value, { times: 16, scale: 1 }));
  });

  it('undoes the series, and is undone by being inverted again', () => {
    const coefficient = double({ min: -1, max: 1, noNaN: true });
    assert(
      property(tuple(coefficient, coefficient, coefficient, coefficient), (higher) => {
        const c = new Float64Array([5, 2, ...higher, 0, 0]);
        const b = new Float64Array(8);
        revert(c, b);
        const back = new Float64Array(8);
        revert(b, back);
        for (let k = 1; k < 8; k++) expectClose(back[k], c[k], { times: 1024, scale: 4 });
        // To order 8 in a small x.
        const x = 2 ** -7;
        const s = horner(b, 0, 7, x);
        expectWithin(horner(c, 0, 7, s) - 5, x, 16 * EPS * 5 + 400 * x ** 8);
      }),
    );
  });
});

describe('small arrays', () => {
  it('are zeros of their own, also beyond a buffer that is used up', () => {
    const arrays = Array.from({ length: 3000 }, (_, k) => smallArray(1 + (k % 300)));
    arrays.forEach((array, k) => {
      expect(array.length).toBe(1 + (k % 300));
      expect(array.every((value) => value === 0)).toBe(true);
      array.fill(k);
    });
    arrays.forEach((array, k) => {
      expect(array.every((value) => value === k)).toBe(true);
    });
  });
});
