/** Exact derivatives of objectives and bounds against central differences, over random linkages, drivers and quantities. */
import * as fc from 'fast-check';
import { type Drawing, type Measure, type Point, trace } from 'jounce/linkage';
import type { Quantity, QuantityBounds, SynthesisObjective } from 'jounce/synthesis';
import { describe, expect, it } from 'vitest';
import { checkSynthesis } from '../../src/synthesis/options.ts';
import { type Judged, judgeAt } from '../../src/synthesis/trial.ts';
import { STEPS, slopeOf } from '../support/differences.ts';
import { sixBars } from '../support/linkages.ts';
import { drivers } from '../support/motions.ts';
import { EPS, expectWithin } from '../support/tolerance.ts';

/** A step in the square of 1000 in which linkages are drawn; roundings in a figure. */
const H = 0.02;
const ROUNDINGS = 2 ** 12;
/** Difference, as a share, that a sharp comparison would find; how many times its trust a quotient may be off. */
const SHARP = 1e-4;
const UNSURE = 20;

const quantities = fc.constantFrom<Quantity[]>(
  { x: 'Y0' },
  { turn: 'first0' },
  { length: ['O', 'X0'] },
  { y: 'X0', relativeTo: 'crank' },
  { transmissionAngle: { coupler: ['O', 'X0'], output: ['X0', 'P0'] } },
  { transmissionAngle: { coupler: ['X0', 'P0'], slide: ['O', 'Y0'] } },
  { velocityRatio: { x: 'Y0' } },
  { velocityRatio: { turn: 'first0' } },
);

/** A range of the driver about the drawn value, and what to read in it; null where the linkage hardly moves. */
function optionsOf(drawing: Drawing, driver: Measure, quantity: Quantity, n: number) {
  const motion = trace(drawing, { driver, ...('turn' in driver ? { from: -1, to: 1 } : {}) });
  const { drawn, low, high } = motion;
  const [from, to] = [drawn + 0.4 * (low.at - drawn), drawn + 0.4 * (high.at - drawn)];
  if (!(to - from > ('turn' in driver || 'angle' in driver ? 0.02 : 10))) return null;
  const at = [0.2, 0.5, 0.8].map((part) => from + part * (to - from));
  const through = at.map((t, k): Point => {
    const [x, y] = motion.at(t).Y0;
    return [x + 40 * Math.cos(3 * k), y + 40 * Math.sin(3 * k)];
  });
  const objectives: SynthesisObjective[] = [
    { path: 'Y0', through, at },
    { path: 'Y0', through },
    { path: 'Y0', through: [[5000, -7000]] },
    { path: 'X0', relativeTo: 'crank', through },
    { quantity, at, values: [1, 2, 3] },
    { quantity, at, values: [1, 2, 3], offset: 'free' },
    { quantity, extreme: 'minimum', target: 0 },
    { quantity, extreme: 'maximum', target: 0 },
    { quantity, extreme: 'range', target: 0 },
  ];
  const bounds: QuantityBounds[] = [{ quantity, min: -1, max: 1 }];
  const names = Object.keys(drawing.points);
  const move = Object.fromEntries(
    [0, 1].map((k) => {
      const name = names[(n + 3 * k) % names.length];
      const [x, y] = drawing.points[name];
      return [name, { x: [x - 5, x + 5], y: [y - 5, y + 5] } as const];
    }),
  );
  return { driver, from, to, move, objectives, bounds };
}

describe('judging a linkage', () => {
  it('has exact derivatives by every coordinate', () => {
    let [sharp, all] = [0, 0];
    fc.assert(
      fc.property(sixBars, drivers, quantities, fc.nat({ max: 99 }), ({ drawing }, driver, quantity, n) => {
        const options = optionsOf(drawing, driver, quantity, n);
        fc.pre(options !== null);
        const { plan, first } = checkSynthesis(drawing, options as NonNullable<typeof options>);
        const judged = judgeAt(plan, first);
        fc.pre(!('code' in judged));
        const figures = (one: Judged) => [...one.deviations, ...one.constraints];
        const exact = figures(judged as Judged);
        const way = first.map((_, i) => Math.cos(n + 2 * i * i));
        const tried = STEPS.map((k) =>
          judgeAt(
            plan,
            first.map((x, i) => x + k * H * way[i]),
          ),
        );
        fc.pre(!tried.some((one) => 'code' in one));
        const values = tried.map((one) => figures(one as Judged).map(({ value }) => value));
        exact.forEach(({ value, by }, k) => {
          const along = by.reduce((sum, rate, i) => sum + rate * way[i], 0);
          const size = Math.abs(value) + 1000 / (plan.tolerances[0] || 1);
          const { slope, trust } = slopeOf(
            values.map((row) => row[k]),
            H,
            ROUNDINGS * EPS * size,
          );
          all++;
          // A corner, where another place becomes the nearest or the extreme one, or a dead point near by: quotients say nothing.
          const middle = 0.5 * (values[2][k] + values[3][k]);
          if (!(Math.abs(value - middle) < 0.1 * (1 + Math.abs(slope)))) return;
          if (!(trust < SHARP * (1 + Math.abs(slope)))) return;
          sharp++;
          expectWithin(along, slope, UNSURE * trust + 1e-7 * (1 + Math.abs(slope)));
        });
      }),
      { numRuns: 20 },
    );
    expect(sharp / all).toBeGreaterThan(0.8);
  });
});
