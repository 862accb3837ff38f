// derivativesAgree: first derivatives are the difference quotients of values, second ones those of first ones. With
//     d_k = f(t + k h) - f(t - k h),    f'(t) = (45 d_1 - 9 d_2 + d_3) / (60 h) + f^(7) h^6 / 140 + ...
// (M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, table 25.2, from memory), for h and h / 2:
// the difference of the two, and the rounding of f over h, is how far the better one can be trusted. Where a motion may be
// too sudden for that, the sharpest of some shorter steps judges.

import type { Reading } from '../linkage/index.ts';
import { measureName } from '../words.ts';
import { everything } from './measures.ts';
import { lawOf, placeAt, SECOND, traced, unitOf, where } from './setting.ts';
import { expectWithin } from './violation.ts';

/** Where to look: shares of the way from the drawn pose to either end. */
const SHARES = [-0.8, -0.4, 0.1, 0.5, 0.9];
/** The step h is this share of the way to the nearer end, where a dead point may be. */
const STEP = 1 / 128;
/** A step that does not agree is shortened so many times, by this factor. */
const SHORTER = [1, 1 / 8, 1 / 64];
/** Roundings in a value from which a quotient is made. */
const NOISE = 128;

export const derivativesAgree = lawOf('derivativesAgree', (setting) => {
  const { law, drawing, driver, tolerance, size } = setting;
  const motion = traced(setting, drawing);
  const { low, high } = motion;
  const drive = unitOf(driver, size);
  const measures = everything(drawing, driver);
  for (const at of SHARES.map((share) => placeAt(motion, share))) {
    const step = STEP * Math.min(at - low.at, high.at - at);
    if (!(step > 0)) {
      setting.skip(`the pose at driver value ${at}`, 'the driver cannot move there');
      continue;
    }
    const seen = measures.map((measure) => {
      const read = motion.read(measure);
      return { name: measureName(measure), unit: unitOf(measure, size), read, exact: read(at) };
    });
    const most = (key: 'first' | 'second', least: number) =>
      Math.max(least, ...seen.map(({ unit, exact }) => Math.abs((exact[key] ?? Number.NaN) / unit)));
    const rate = most('first', 1 / drive);
    const bend = most('second', 1 / drive ** 2);
    for (const { name, unit, read, exact } of seen) {
      const near = around(read, at, step);
      const expectQuotient = (key: 'first' | 'second', within: number, scale: number) => {
        const of = key === 'first' ? 'value' : 'first';
        const quotients = SHORTER.map((part) => () => {
          const h = part * step;
          const { slope, off } = quotient(part === 1 ? near : around(read, at, h), of, h);
          return { slope, allowed: within + off + (NOISE * Number.EPSILON * scale) / h };
        });
        const { slope, allowed } = bestOf(quotients, exact[key]);
        expectWithin(law, `${key} derivative of ${name}`, where(setting, at), exact[key], slope, allowed);
      };
      expectQuotient('first', tolerance * unit * rate, unit * (1 + rate * drive));
      expectQuotient('second', SECOND * tolerance * unit * bend, unit * (rate + bend * drive));
    }
  }
});

/** Readings at multiples of h / 2 to either side. */
function around(read: (at: number) => Reading, at: number, h: number): Map<number, Reading> {
  return new Map([1, 2, 3, 4, 6].flatMap((k) => [-k, k]).map((k) => [k, read(at + (k * h) / 2)]));
}

/** The quotient for h / 2, from readings at multiples of that, and how far it is off that for h. */
function quotient(readings: ReadonlyMap<number, Reading>, key: 'value' | 'first', h: number) {
  const d = (k: number) => (readings.get(k)?.[key] ?? Number.NaN) - (readings.get(-k)?.[key] ?? Number.NaN);
  const slope = (45 * d(1) - 9 * d(2) + d(3)) / (30 * h);
  const coarse = (45 * d(2) - 9 * d(4) + d(6)) / (60 * h);
  return { slope, off: Math.abs(slope - coarse) };
}

/** The first if it agrees, or else the sharpest of all. */
function bestOf(quotients: (() => { slope: number; allowed: number })[], exact: number | null) {
  const [first, ...shorter] = quotients;
  const one = first();
  if (exact !== null && Math.abs(exact - one.slope) <= one.allowed) return one;
  return shorter
    .map((next) => next())
    .reduce((best, next) => (next.allowed < best.allowed ? next : best), one);
}
