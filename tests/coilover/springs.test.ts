/** Coil springs against worked examples of textbooks, and springs on one another against what series means. */
import * as fc from 'fast-check';
import { coilSpring } from 'jounce';
import { describe, expect, it } from 'vitest';
import { compressionUnder, pushOf, transfers, travelOf } from '../../src/corner/spring-stack.ts';
import { errorOf } from '../document/support.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

const INCH = 25.4;
const POUND_FORCE = 4.4482216152605;
const PSI = POUND_FORCE / INCH ** 2;
const LB_IN = POUND_FORCE / INCH;
const steel = (diameter: number, meanDiameter: number, totalCoils: number, shearModulus = 81_370) =>
  coilSpring({ diameter, meanDiameter, totalCoils, ends: 'closedGround', shearModulus });

describe('a spring by its wire', () => {
  // V. B. Bhandari, "Design of Machine Elements", examples 10.1 and 10.18 (seen as transcripts).
  it('is that of Bhandari: 41.203 N/mm, solid 70 mm; 24.832 and 13.244 N/mm', () => {
    const spring = steel(7, 42, 10);
    expectWithin(spring.rate, 41.20298, 1e-5);
    expectWithin(1250 / spring.rate, 30.337611, 1e-5);
    expectSame([spring.solidLength, spring.activeCoils, spring.springIndex], [70, 8, 6]);
    const [outer, inner] = [steel(10, 80, 10).rate, steel(8, 64, 14).rate];
    expectWithin(outer, 24.832153, 1e-5);
    expectWithin(inner, 13.243815, 1e-5);
    expectWithin(2000 / (outer + inner), 52.526569, 1e-5);
  });

  // T. H. Wentzell, "Machine Design", example 8.2 (seen as a transcript).
  it('is that of Wentzell: 70 lbf/in with 12.792 coils', () => {
    const { rate } = steel(0.105 * INCH, 0.62 * INCH, 12.792261, 11.85e6 * PSI);
    expectWithin(rate / LB_IN, 70, 1e-4);
  });

  // Sadhu Singh, "Machine Design", example 8.3 (seen as a transcript).
  it('is that of Singh: 9.7222 N/mm', () => {
    expectWithin(steel(3, 18, 17, 84_000).rate, 9.722222, 1e-5);
  });

  // R. G. Budynas, J. K. Nisbett, "Shigley's Mechanical Engineering Design", example 10-1 (from memory, recomputed).
  it('is that of Shigley: 4.1157 lbf/in, solid 0.4995 in, factor 1.12408, 145.9 kpsi at 6.446 lbf', () => {
    const spring = coilSpring({
      diameter: 0.037 * INCH,
      meanDiameter: 0.4005 * INCH,
      totalCoils: 12.5,
      ends: 'closed',
      shearModulus: 11.85e6 * PSI,
    });
    expectWithin(spring.rate / LB_IN, 4.11565, 1e-4);
    expectWithin(spring.solidLength / INCH, 0.4995, 1e-9);
    expectWithin(spring.springIndex, 10.8243, 1e-4);
    expectWithin(spring.stressCorrection, 1.12408, 1e-5);
    expectWithin((spring.stressPerNewton * 6.4459 * POUND_FORCE) / PSI / 1000, 145.888, 0.005);
  });

  // EN 13906-1 (from memory); for the factor also Bergsträsser's formula in Shigley (from memory): (4C + 2) / (4C - 3).
  it('has the correction of EN 13906-1 for indices from 4 to 12', () => {
    const rows = [
      [4, 1.384615],
      [5, 1.294118],
      [6, 1.238095],
      [8, 1.172414],
      [10, 1.135135],
      [12, 1.111111],
    ];
    for (const [C, k] of rows) {
      expectWithin(steel(5, 5 * C, 8).stressCorrection, k, 1e-6);
      expectClose(steel(5, 5 * C, 8).stressCorrection, (4 * C + 2) / (4 * C - 3), { times: 8, scale: 1 });
    }
  });

  // EN 13906-1:2013 (from memory).
  it('keeps the clearance of EN 13906-1: 4.9 mm cold, 4.5 mm hot formed for d 5, D 40, n 5', () => {
    const input = { diameter: 5, meanDiameter: 40, totalCoils: 7 } as const;
    const least = (ends: 'closed' | 'closedGround', hotFormed = false) =>
      coilSpring({ ...input, ends, hotFormed }).minLength;
    expectClose(least('closedGround'), 39.9, { times: 4, scale: 40 });
    expectClose(least('closedGround', true), 39.5, { times: 4, scale: 40 });
    expectClose(least('closed'), 42.5 + 4.9, { times: 4, scale: 48 });
  });

  it('goes solid by its ends as Shigley, table 10-1, has it (from memory)', () => {
    const of = (ends: 'open' | 'openGround' | 'closed' | 'closedGround') =>
      coilSpring({ diameter: 10, meanDiameter: 60, totalCoils: 8, ends });
    const ends = ['open', 'openGround', 'closed', 'closedGround'] as const;
    expectSame(
      ends.map((one) => of(one).solidLength),
      [90, 80, 90, 80],
    );
    expectSame(
      ends.map((one) => of(one).activeCoils),
      [8, 7, 6, 6],
    );
  });

  it('drawn k times as large is k times as stiff, and k times as long solid', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 5, noNaN: true }), (k) => {
        const [one, large] = [steel(8, 60, 9), steel(8 * k, 60 * k, 9)];
        expectClose(large.rate, k * one.rate, { times: 16, scale: k * one.rate });
        expectClose(large.solidLength, k * one.solidLength, { times: 4, scale: k * one.solidLength });
        expectClose(large.minLength, k * one.minLength, { times: 8, scale: k * one.minLength });
      }),
    );
  });

  it('refuses sizes that make no spring, each by name', () => {
    const error = errorOf(() =>
      coilSpring({ diameter: 9, meanDiameter: 8, totalCoils: 2, ends: 'closed', shearModulus: -1 }),
    );
    expect(error.issues.map(({ path }) => path)).toEqual(['meanDiameter', 'totalCoils', 'shearModulus']);
    expect(
      errorOf(() => coilSpring({ diameter: 1, meanDiameter: 8, totalCoils: 9, ends: 'toString' as 'open' }))
        .issues[0].path,
    ).toBe('ends');
  });
});

const spring = fc.record({
  rate: fc.double({ min: 1, max: 200, noNaN: true }),
  travel: fc.oneof(fc.double({ min: 5, max: 150, noNaN: true }), fc.constant(Number.POSITIVE_INFINITY)),
});
const stacks = fc.array(spring, { minLength: 1, maxLength: 4 }).map((springs) => ({ springs }));

describe('springs on one another', () => {
  it('give the force back that compresses them, through every transfer', () => {
    fc.assert(
      fc.property(stacks, fc.double({ min: 0, max: 1, noNaN: true }), (stack, share) => {
        const most = Math.max(...stack.springs.map(({ rate, travel }) => rate * Math.min(travel, 150)));
        const force = share * most;
        const x = compressionUnder(stack, force);
        if (x >= travelOf(stack) || x === 0) return;
        expectClose(pushOf(stack, x).force, force, { times: 2000, scale: Math.max(1, most) });
      }),
    );
  });

  it('have as rate the slope of the force', () => {
    fc.assert(
      fc.property(stacks, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (stack, share) => {
        const most = Math.min(200, travelOf(stack));
        const [x, h] = [share * most, 1e-4];
        const bends = [0, ...transfers(stack).map(({ compression }) => compression), travelOf(stack)];
        if (bends.some((at) => Math.abs(at - x) < 2 * h)) return;
        const { rate } = pushOf(stack, x);
        const slope = (pushOf(stack, x + h).force - pushOf(stack, x - h).force) / (2 * h);
        expectWithin(rate, slope, 1e-6 * (1 + rate));
      }),
    );
  });

  it('are the harmonic sum while both work, and the stiffer alone from the transfer on', () => {
    const stack = {
      springs: [
        { rate: 10, travel: 30 },
        { rate: 40, travel: 100 },
      ],
    };
    expect(pushOf(stack, 10)).toEqual({ force: 80, rate: 8 });
    expect(transfers(stack)[0]).toEqual({ force: 300, compression: 37.5 });
    const beyond = pushOf(stack, 40);
    expectClose(beyond.force, 400, { times: 4, scale: 400 });
    expectClose(beyond.rate, 40, { times: 4, scale: 40 });
    expect(pushOf(stack, -5)).toEqual({ force: 0, rate: 0 });
    expect(travelOf(stack)).toBe(130);
  });
});
