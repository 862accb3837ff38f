/** A design against a scan of its whole box, with distances by the judge's geometry. */
import { type DoubleWishbone, design, doubleWishbone, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';
import { type Kept, leastRoom } from './keeping.ts';

const travel = { bump: 60, droop: 60, step: 30 };
const keep: Kept = {
  upperArm: 30,
  springToTyre: 60,
  diameter: 80,
  seatOffset: 60,
  tyre: { overallRadius: 316, width: 205 },
};
const input = deepFreeze({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
} as const);
const box = { mount: [450, 580], eye: [300, 520] } as const;

const cornerAt = ([mount, eye]: readonly number[]): DoubleWishbone =>
  doubleWishbone({ ...input, coilover: { on: 'lowerArm', mount: [mount, 170], chassisMount: [eye, 480] } });

/** Weighted sum of squared deviations, or infinity where a distance is not kept. */
function sumAt(at: readonly number[], keeping: boolean): number {
  const corner = cornerAt(at);
  if (keeping && leastRoom(corner, keep, travel) < 0) return Number.POSITIVE_INFINITY;
  const { columns } = sweep(corner, {
    ...travel,
    columns: ['installationRatio', 'shockInclination', 'shockLength'],
  });
  const ratio = (columns.installationRatio[2] - 0.72) / 0.001;
  const lean = Math.max(0, columns.shockInclination[2] - 15) / 0.1;
  const longest = Math.max(0, columns.shockLength[0] - 345) / 0.1;
  return ratio ** 2 + lean ** 2 + 0.25 * longest ** 2;
}

/** The least of a grid of the whole box, and of ever finer ones about the least so far. */
function scan(keeping: boolean): { at: number[]; sum: number; step: number } {
  let [range, steps] = [[box.mount, box.eye] as readonly (readonly [number, number])[], 20];
  let best = { at: [0, 0], sum: Number.POSITIVE_INFINITY, step: 0 };
  for (let level = 0; level < 4; level++) {
    const step = range.map(([least, most]) => (most - least) / steps);
    for (let i = 0; i <= steps; i++) {
      for (let j = 0; j <= steps; j++) {
        const at = [range[0][0] + i * step[0], range[1][0] + j * step[1]];
        const sum = sumAt(at, keeping);
        if (sum < best.sum) best = { at, sum, step: Math.max(...step) };
      }
    }
    range = [box.mount, box.eye].map(([least, most], k) => [
      Math.max(least, best.at[k] - 2 * step[k]),
      Math.min(most, best.at[k] + 2 * step[k]),
    ]);
    steps = 10;
  }
  return best;
}

describe('a design against a scan of its box', () => {
  for (const keeping of [false, true]) {
    it(`is as good as the best of the grid, ${keeping ? 'keeping distances' : 'with nothing to be kept'}`, () => {
      const { upperArm, springToTyre, diameter, seatOffset, tyre } = keep;
      const made = design(cornerAt([505, 345]), {
        mounts: { shockMount: { y: box.mount }, shockChassisMount: { y: box.eye } },
        objectives: [
          { quantity: 'designRatio', target: 0.72 },
          { quantity: 'inclination', max: 15 },
          { quantity: 'maxLength', max: 345, weight: 0.25 },
        ],
        ...(keeping && {
          clearances: { mountToArm: { upperArm }, springToTyre, spring: { diameter, seatOffset }, tyre },
        }),
        travel,
        starts: 2,
      });
      const { at, sum, step } = scan(keeping);
      const found = [made.mounts.shockMount.to[0], made.mounts.shockChassisMount.to[0]];
      const foundSum = sumAt(found, keeping);
      // As good as the grid but for rounding, and no better than its fineness leaves room for.
      expect(foundSum).toBeLessThanOrEqual(sum * (1 + 1e-6));
      expectWithin(foundSum, sum, 0.01 * sum);
      found.forEach((one, i) => {
        expectWithin(one, at[i], 20 * step);
      });
      if (keeping) {
        expect(made.active.map(({ values: { of, to } }) => [of, to])).toContainEqual(['spring', 'tyre']);
        expectWithin(leastRoom(cornerAt(found), keep, travel), 0, 1e-3);
      }
    });
  }
});
