/** The factors against exact rational arithmetic. */
import { describe, expect, it } from 'vitest';
import { GRAVITY, INCH, POUND, POUND_FORCE, POUND_FORCE_PER_INCH } from '../src/units.ts';

/** Relative tolerance: a few roundings. */
const CLOSE = 1e-15;

/** A fraction as the nearest double, to about 30 digits on the way. */
function value(numerator: bigint, denominator: bigint): number {
  const digits = 10n ** 30n;
  return Number(`${(numerator * digits) / denominator}e-30`);
}

const expectRelative = (actual: number, expected: number) =>
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(CLOSE);

describe('units', () => {
  it('has the inch, the pound and standard gravity as agreed (1959, 1901; from memory, as in SciPy)', () => {
    expect(INCH).toBe(25.4);
    expect(POUND).toBe(0.45359237);
    expect(GRAVITY).toBe(9.80665);
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
