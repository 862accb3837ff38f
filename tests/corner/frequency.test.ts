/** Frequency of a mass on a rate, held by static deflections and by textbook oscillators. */
import { describe, expect, it } from 'vitest';
import { frequencyOn, rateForFrequency } from '../../src/corner/frequency.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

/** Standard fall, m/s^2. */
const GRAVITY = 9.80665;
const POUND = 0.45359237;
const POUND_FORCE = 4.4482216152605;
const INCH = 25.4;
const FOOT = 304.8;

describe('frequency', () => {
  // T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992, ch. 5 (from memory; recomputed with g = 9.80665 m/s^2).
  it('follows from the static deflection as Gillespie has it', () => {
    const rows = [
      [10, 0.988926],
      [5, 1.398552],
      [4, 1.563629],
      [3, 1.805523],
      [2, 2.211305],
      [1, 3.127257],
    ];
    const mass = 300;
    for (const [inches, hertz] of rows) {
      expectWithin(frequencyOn(mass, (mass * GRAVITY) / (inches * INCH)), hertz, 1e-6);
    }
    const deflections = [
      [1, 248.405346],
      [1.2, 172.503713],
      [1.5, 110.402376],
      [2, 62.101337],
      [3, 27.600594],
      [5, 9.936214],
    ];
    for (const [hertz, mm] of deflections) {
      expectWithin((mass * GRAVITY) / rateForFrequency(mass, hertz), mm, 1e-6);
    }
    // The handbooks' 188 cycles a minute over the root of inches (from memory), good to 1 %.
    expectWithin((60 * (frequencyOn(mass, (mass * GRAVITY) / INCH) ?? 0)) / 188, 1, 0.01);
  });

  it('is that of textbook oscillators', () => {
    // J. L. Meriam, L. G. Kraige, "Dynamics", sample problem 8/1 (inputs seen, g = 32.2 ft/s^2): 2.28 Hz.
    const slugs = (pounds: number) => (pounds / 32.2) * ((POUND * GRAVITY) / (FOOT / 1000));
    expectWithin(frequencyOn(slugs(25), (160 * POUND_FORCE) / FOOT), 2.284747, 1e-5);
    // Meriam & Kraige 8/6: 27.799 rad/s.
    expectWithin(2 * Math.PI * (frequencyOn(slugs(100), (200 * POUND_FORCE) / INCH) ?? 0), 27.799281, 1e-4);
    // W. G. McLean, E. W. Nelson, Schaum's "Engineering Mechanics", problem 19.2 (seen): 0.45 s with g = 386 in/s^2.
    const mass = (35 / 386) * (POUND_FORCE / (INCH / 1000));
    expectWithin(1 / (frequencyOn(mass, (18 * POUND_FORCE) / INCH) ?? 0), 0.445948, 1e-5);
    // OpenStax, "College Physics", example 16.4 (seen): 1.36 Hz.
    expectWithin(frequencyOn(900, 65.3), 1.355675, 1e-6);
  });

  it('has none on no rate, on one of nothing, and on one that pushes away', () => {
    expect([null, 0, -3].map((rate) => frequencyOn(100, rate))).toEqual([null, null, null]);
  });

  it('is wanted by one rate only', () => {
    for (const hertz of [0.8, 1.4, 3]) {
      expectClose(frequencyOn(310, rateForFrequency(310, hertz)), hertz, { times: 8, scale: hertz });
    }
  });

  // D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018, eqs 3.22-3.28 (seen): the load law of constant frequency.
  it('stays on a load that rises as e to the travel over the static deflection', () => {
    const [load, static0, travel] = [4000, 172.503713, 50];
    const rising = load * Math.exp(travel / static0);
    expectWithin(rising, 5344.901923, 1e-5);
    expectWithin(rising / static0, 30.984272, 1e-6);
    expectWithin(frequencyOn(rising / GRAVITY, rising / static0), 1.2, 1e-8);
  });
});
