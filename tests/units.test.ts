/** The factors against exact rational arithmetic. */
import { describe, expect, it } from 'vitest';
import {
  fromMetric,
  GRAVITY,
  INCH,
  numberIn,
  POUND,
  POUND_FORCE,
  POUND_FORCE_PER_INCH,
  type Quantity,
  textIn,
  toMetric,
  unitName,
} from '../src/units.ts';
import { expectSame, expectWithin } from './support/tolerance.ts';

/** Relative tolerance: a few roundings. */
const CLOSE = 1e-15;

/** A fraction as the nearest double, to about 30 digits on the way. */
function value(numerator: bigint, denominator: bigint): number {
  const digits = 10n ** 30n;
  return Number(`${(numerator * digits) / denominator}e-30`);
}

const expectRelative = (actual: number, expected: number) => expectWithin(actual / expected, 1, CLOSE);

describe('units', () => {
  it('has the inch, the pound and standard gravity as agreed (1959, 1901; from memory, as in SciPy)', () => {
    expectSame(INCH, 25.4);
    expectSame(POUND, 0.45359237);
    expectSame(GRAVITY, 9.80665);
  });

  it('has the pound-force as pound times gravity: 8896443230521 / 2000000000000 N (recomputed as a fraction)', () => {
    expectRelative(POUND_FORCE, value(45359237n * 980665n, 10n ** 13n));
    expectRelative(POUND_FORCE, value(8896443230521n, 2000000000000n));
  });

  it('has the pound-force an inch as 0.17512683524647637795... N/mm (derived)', () => {
    expectRelative(POUND_FORCE_PER_INCH, value(8896443230521n * 10n, 2000000000000n * 254n));
    expectRelative(POUND_FORCE_PER_INCH, 0.17512683524647637795);
  });
});

// inch, pound and standard gravity: seen in SciPy's constants, and from memory NIST SP 811 and the SI Brochure;
// pound-force: seen in SciPy's constants, recomputed as a fraction; the others derived.
const FACTORS: [Quantity, numerator: bigint, denominator: bigint, decimals: number][] = [
  ['length', 254n, 10n, 25.4],
  ['mass', 45359237n, 10n ** 8n, 0.45359237],
  ['force', 45359237n * 980665n, 10n ** 13n, 4.4482216152605],
  ['rate', 45359237n * 980665n * 10n, 254n * 10n ** 13n, 0.17512683524647637795],
  ['damping', 45359237n * 980665n * 10n ** 4n, 254n * 10n ** 13n, 175.12683524647637795],
  ['angle', 1n, 1n, 1],
];

describe('conversion', () => {
  it.each(FACTORS)(
    'of a %s has the exact factor, both ways',
    (quantity, numerator, denominator, decimals) => {
      expectRelative(toMetric(1, quantity, 'imperial'), value(numerator, denominator));
      expectRelative(toMetric(1, quantity, 'imperial'), decimals);
      expectRelative(fromMetric(decimals, quantity, 'imperial'), 1);
      expectRelative(fromMetric(toMetric(17.3, quantity, 'imperial'), quantity, 'imperial'), 17.3);
      expect(toMetric(17.3, quantity, 'metric')).toBe(17.3);
      expect(fromMetric(17.3, quantity, 'metric')).toBe(17.3);
    },
  );

  it('agrees with products that have names of their own (derived): lbf ft, lbf/in2, slug, kgf/mm', () => {
    expectRelative((POUND_FORCE * 12 * INCH) / 1000, 1.3558179483314004);
    expectRelative((POUND_FORCE / INCH ** 2) * 1e6, 6894.757293168361336);
    expectRelative((POUND_FORCE * 1000) / (12 * INCH), 14.593902937206364);
    expectRelative(GRAVITY, 9.80665);
  });

  it('gives the nearest number for sixteenths of an inch', () => {
    for (let k = -4000; k <= 4000; k++) {
      // k / 16 inch is k * 25400 / 16 = k * 1587.5 thousandths of a mm.
      expectSame(toMetric(k / 16, 'length', 'imperial'), Number(`${BigInt(k) * 15875n}e-4`));
    }
  });

  it('names the units', () => {
    expect(
      (['length', 'mass', 'force', 'rate', 'damping', 'angle'] as const).map((q) => unitName(q, 'imperial')),
    ).toEqual(['in', 'lb', 'lbf', 'lbf/in', 'lbf·s/in', 'deg']);
  });
});

describe('a value beside another', () => {
  it('has as many more decimals as tell it from that', () => {
    expect([numberIn(4.94, 'length', 'metric', 4.9), numberIn(4.9, 'length', 'metric', 4.94)]).toEqual([
      '4.94',
      '4.90',
    ]);
    expect(textIn(400.049, 'length', 'imperial', 400.05)).toBe('15.74996 in');
    expect(textIn(0.004, 'length', 'metric', 0)).toBe('0.004 mm');
    expect(textIn(4.9, 'length', 'metric', 7.2)).toBe('4.9 mm');
  });

  it('is rounded as ever where they are equal, or differ by rounding', () => {
    expect(textIn(4.9, 'length', 'metric', 4.9)).toBe('4.9 mm');
    expect(textIn(4.9, 'length', 'metric', 4.9 + 1e-12)).toBe('4.9 mm');
  });
});
