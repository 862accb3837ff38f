/**
 * Roll stiffness. Judges: central differences of the energy of springs and bar over roll, heave at rest under its load; and, for a level
 * axle, k_w t^2 / 2 + bar as textbooks give it, to which 2 P h_rc belongs (derived here; J. C. Dixon, "Suspension Geometry and Computation",
 * has the roll centre's part as a moment, from memory).
 */

import { axle, rollStiffness, sweep, sweepAxle } from 'jounce';
import { describe, expect, it } from 'vitest';
import { EPS, expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { BAR as bar, CORNER as corner } from './roadster.ts';

const DEGREE = Math.PI / 180;
const [left, right] = [
  { rate: 42, free: 420 },
  { rate: 55, free: 402 },
];

/** Energy of springs and bar, N·mm, at a heave (mm) and a roll (deg). */
function energyAt(whole: ReturnType<typeof axle>, heave: number, roll: number): number {
  const [row] = sweepAxle(whole, { heave: [heave], roll: [roll] }).rows();
  const spring = ({ rate, free }: typeof left, length: number) => 0.5 * rate * (free - length) ** 2;
  const twist = (row.barTwist ?? 0) * DEGREE;
  const torsion = ((whole.bar?.torsionalStiffness ?? 0) * 1000) / DEGREE;
  return (
    spring(left, row.leftShockLength) + spring(right, row.rightShockLength) + 0.5 * torsion * twist * twist
  );
}

describe('roll stiffness', () => {
  it.each([
    [0, 0],
    [15, 0],
    [-10, 2],
    [20, -3],
  ])('is the slope of the moment at %d mm and %d degrees, the load held', (heave, roll) => {
    const whole = axle({ left: corner, bar });
    const [row] = sweepAxle(whole, { heave: [heave], roll: [roll] }).rows();
    const at = (spring: typeof left, length: number) => ({
      rate: spring.rate,
      force: spring.rate * (spring.free - length),
    });
    const found = rollStiffness(whole, {
      heave,
      roll,
      left: at(left, row.leftShockLength),
      right: at(right, row.rightShockLength),
    });
    // By h, the height of the middle of the car, which is -heave cos(roll), and by roll.
    const [dh, dp] = [0.5, 0.05];
    const height = -heave * Math.cos(roll * DEGREE);
    const U = (h: number, p: number) => energyAt(whole, -h / Math.cos(p * DEGREE), p);
    const middle = U(height, roll);
    const pp = (U(height, roll + dp) - 2 * middle + U(height, roll - dp)) / dp ** 2;
    const hh = (U(height + dh, roll) - 2 * middle + U(height - dh, roll)) / dh ** 2;
    const corners = [1, -1].map((s) => U(height + dh, roll + s * dp) - U(height - dh, roll + s * dp));
    const hp = (corners[0] - corners[1]) / (4 * dh * dp);
    // N·mm per square degree are N·m per degree times 1000 and a degree.
    const wanted = (pp - (hp * hp) / hh) / 1000 / DEGREE;
    expectWithin(found!.total / wanted, 1, 1e-4);
    const { total, ...parts } = found!;
    expectClose(
      Object.values(parts).reduce((sum, part) => sum + part, 0),
      total,
      { times: 8, scale: total },
    );
  });

  it('of a level axle is k_w t^2 / 2 + 2 P h_rc + P e, and the bar', () => {
    for (const heave of [0, 25]) {
      const pose = sweep(corner, { bump: 60, droop: 60 }).at(heave);
      const [rate, force] = [42, 3100];
      const found = rollStiffness(axle({ left: corner, bar }), { heave, left: { rate, force } })!;
      const ratio = pose.installationRatio!;
      const wheelRate = rate * ratio ** 2 + force * pose.installationRatioSlope!;
      const load = 2 * force * ratio;
      const track =
        2 * (sweepAxle(axle({ left: corner }), { heave: [heave], roll: [0] }).rows()[0].leftPatchY as number);
      const inUnits = (moment: number) => (moment / 1000) * DEGREE;
      expectClose(found.springs + found.changingRatio, inUnits((wheelRate * track ** 2) / 2), {
        times: 1e3,
        scale: found.total,
      });
      expectClose(found.track, inUnits(2 * load * pose.rollCentreHeight! + load * heave), {
        times: 1e4,
        scale: found.total,
      });
      expectWithin(found.coupling, 0, 1e3 * EPS * found.total);
      const [row] = sweepAxle(axle({ left: corner, bar }), { heave: [heave], roll: [0] }).rows();
      const barPart = bar.torsionalStiffness * row.barTwistByRoll! ** 2;
      expectClose(found.bar, barPart, { times: 1e4, scale: found.total });
    }
  });

  it('is null where a wheel does not get to, and refuses what is no spring', () => {
    const whole = axle({ left: corner });
    expectSame(rollStiffness(whole, { heave: 2000, left: { rate: 40, force: 3000 } }), null);
    expect(() => rollStiffness(whole, { left: { rate: Number.NaN } } as never)).toThrow('left.force');
  });
});
