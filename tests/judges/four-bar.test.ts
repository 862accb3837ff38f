/** Holds the four-bar judge against published values and against itself. */
import { describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import type { Assembly, FourBar, FourBarAngles } from './four-bar.ts';
import {
  crankLimits,
  fourBarAccelerations,
  fourBarAngles,
  fourBarVelocities,
  isGrashof,
  rockerLimits,
  transmissionAngle,
} from './four-bar.ts';

const degree = Math.PI / 180;

function angles(bars: FourBar, crank: number, assembly: Assembly): FourBarAngles {
  const found = fourBarAngles(bars, crank, assembly);
  if (found === null) throw new Error('the loop does not close');
  return found;
}

// R. L. Norton, "Design of Machinery"; its figures are rounded, those here recomputed and in agreement.
describe('crank-rocker 40/120/80/100', () => {
  const bars: FourBar = { crank: 40, coupler: 120, rocker: 80, ground: 100 };
  const open = angles(bars, 40 * degree, 'open');
  const crossed = angles(bars, 40 * degree, 'crossed');

  it('has both assemblies of Norton, Example 4-1 (from memory, recomputed)', () => {
    expectWithin(open.coupler / degree, 20.297883, 1e-6);
    expectWithin(open.rocker / degree, 57.32488, 1e-6);
    expectWithin(crossed.coupler / degree, -60.977967, 1e-6);
    expectWithin(crossed.rocker / degree, -98.004964, 1e-6);
  });

  it('has the velocities of Norton, Example 6-7 (from memory, recomputed)', () => {
    const { coupler, rocker } = fourBarVelocities(bars, open, 25);
    expectWithin(coupler, -4.120914, 1e-6);
    expectWithin(rocker, 6.997985, 1e-6);
  });

  it('has the accelerations of Norton, Example 7-1 (from memory, recomputed)', () => {
    const { coupler, rocker } = fourBarAccelerations(bars, open, 25, 15);
    expectWithin(coupler, 296.089193, 1e-6);
    expectWithin(rocker, 470.13353, 1e-6);
  });

  it('turns back where the law of cosines says (exact consequence, recomputed)', () => {
    const { extended, overlapped } = rockerLimits(bars);
    expectWithin(extended.crank / degree, 24.146848, 1e-6);
    expectWithin(extended.rocker / degree, 54.900368, 1e-6);
    expectWithin(overlapped.crank / degree, 231.317813, 1e-6);
    expectWithin(overlapped.rocker / degree, 128.682187, 1e-6);
    expectWithin((overlapped.rocker - extended.rocker) / degree, 73.78182, 1e-6);
    const split = (overlapped.crank - extended.crank) / degree;
    expectWithin(split, 207.170965, 1e-6);
    expectWithin(split / (360 - split), 1.355573, 1e-6);
  });

  it('has a rocker at rest at both limits, and the limits on its loop', () => {
    for (const limit of Object.values(rockerLimits(bars))) {
      const at = angles(bars, limit.crank, 'open');
      expectWithin(at.rocker, limit.rocker, 1e-14);
      expectWithin(fourBarVelocities(bars, at, 1).rocker, 0, 1e-14);
    }
  });

  it('has the transmission angles that the law of cosines gives (exact consequence, recomputed)', () => {
    expectWithin(transmissionAngle(bars, 0) / degree, 26.38433, 1e-6);
    expectWithin(transmissionAngle(bars, Math.PI) / degree, 86.416678, 1e-6);
    expectWithin(transmissionAngle(bars, 40 * degree) / degree, 37.026997, 1e-6);
    expectWithin(open.rocker - open.coupler, transmissionAngle(bars, 40 * degree), 1e-14);
  });
});

describe('worked examples of velocity and acceleration', () => {
  // J. L. Meriam, L. G. Kraige, "Engineering Mechanics: Dynamics", Sample Problems 5/8 and 5/14:
  // O(0,0) A(0,100) B(175,50) C(250,50), read backwards: crank CB, coupler BA, rocker OA, ground CO.
  const bars: FourBar = {
    crank: 75,
    coupler: Math.hypot(175, 50),
    rocker: 100,
    ground: Math.hypot(250, 50),
  };
  const groundLine = Math.atan2(-50, -250);
  const drawn: FourBarAngles = {
    crank: Math.PI - groundLine,
    coupler: Math.atan2(50, -175) - groundLine,
    rocker: Math.PI / 2 - groundLine,
  };

  it('closes on the drawn pose in one of its assemblies', () => {
    const found = angles(bars, drawn.crank, 'crossed');
    for (const key of ['coupler', 'rocker'] as const) {
      expectWithin(Math.sin(found[key] - drawn[key]), 0, 1e-14);
      expectWithin(Math.cos(found[key] - drawn[key]), 1, 1e-14);
    }
  });

  it('has the exact ratios of Sample Problem 5/8 (seen in a transcript)', () => {
    const { coupler, rocker } = fourBarVelocities(bars, drawn, 2);
    expectWithin(coupler, -6 / 7, 1e-12);
    expectWithin(rocker, -3 / 7, 1e-12);
  });

  it('has the accelerations of Sample Problem 5/14 (inputs seen in a transcript, rest from memory)', () => {
    const { coupler, rocker } = fourBarAccelerations(bars, drawn, 2, 0);
    expectWithin(coupler, -36 / 343, 1e-12);
    expectWithin(rocker, -1488 / 343, 1e-12);
  });

  // R. S. Khurmi, J. K. Gupta, "Theory of Machines"; the book's 4.8 is read off a drawing.
  it('agrees with Khurmi and Gupta, Example 7.1 (seen in a transcript)', () => {
    const mechanism: FourBar = { crank: 40, coupler: 150, rocker: 80, ground: 150 };
    const at = angles(mechanism, 60 * degree, 'open');
    const { rocker } = fourBarVelocities(mechanism, at, (-120 * 2 * Math.PI) / 60);
    expectWithin(rocker, -4.784571, 1e-6);
    expectWithin(rocker, -4.8, 0.005 * 4.8);
  });

  // T. Bevan, "The Theory of Machines"; recomputed; the book's figures are read off a drawing, within 5 %.
  it('agrees with Bevan, chapter 3, Example 5 (seen in a transcript)', () => {
    const mechanism: FourBar = { crank: 2.5, coupler: 7, rocker: 4.5, ground: 8 };
    const at = angles(mechanism, 60 * degree, 'open');
    const speed = (100 * 2 * Math.PI) / 60;
    const velocity = fourBarVelocities(mechanism, at, speed);
    expectWithin((2.5 / 12) * speed, 2.181662, 1e-6);
    expectWithin((4.5 / 12) * Math.abs(velocity.rocker), 1.48718, 1e-6);
    expectWithin((7 / 12) * Math.abs(velocity.coupler), 1.209529, 1e-6);
    const acceleration = fourBarAccelerations(mechanism, at, speed, 0);
    expectWithin(Math.abs(acceleration.rocker), 50.60197, 1e-5);
    expectWithin(Math.abs(acceleration.coupler), 25.62541, 1e-5);
  });

  it('agrees with the exercise of Khurmi and Gupta, chapter 8 (seen in copies; recomputed)', () => {
    const mechanism: FourBar = { crank: 60, coupler: 70, rocker: 70, ground: 120 };
    const at = angles(mechanism, 60 * degree, 'open');
    const velocity = fourBarVelocities(mechanism, at, -10);
    expectWithin(velocity.coupler, 6.396021, 1e-6);
    expectWithin(velocity.rocker, -6.396021, 1e-6);
    const acceleration = fourBarAccelerations(mechanism, at, -10, 0);
    expectWithin(Math.abs(acceleration.coupler), 12.41498, 1e-5);
    expectWithin(Math.abs(acceleration.rocker), 103.05508, 1e-5);
  });
});

describe('class of a loop', () => {
  it('is that of P. Nikravesh, program data (seen)', () => {
    const ground = Math.sqrt(26);
    expectSame(isGrashof({ crank: 2, coupler: 6, rocker: 4, ground }), true);
    expectSame(isGrashof({ crank: 2, coupler: 7, rocker: 3, ground }), false);
  });

  it('has limits of the crank exactly where the loop stops closing', () => {
    const bars: FourBar = { crank: 100, coupler: 180, rocker: 80, ground: 100 };
    const { smallest, largest } = crankLimits(bars);
    expectWithin(smallest, Math.PI / 3, 1e-15); // an equilateral triangle
    expect(largest).toBe(Math.PI);
    expect(fourBarAngles(bars, smallest - 1e-9, 'open')).toBeNull();
    const at = angles(bars, smallest + 1e-9, 'open');
    expectWithin(Math.sin(at.rocker - at.coupler), 0, 1e-3);
  });
});

describe('laws', () => {
  const loops: FourBar[] = [
    { crank: 40, coupler: 120, rocker: 80, ground: 100 },
    { crank: 75, coupler: 60, rocker: 90, ground: 110 },
    { crank: 200, coupler: 150, rocker: 170, ground: 60 },
  ];
  const h = 1e-4;
  const cases = loops.flatMap((bars) =>
    (['open', 'crossed'] as const).flatMap((assembly) =>
      [0.3, 0.9, 1.4, 2.2]
        .filter((crank) => fourBarAngles(bars, crank, assembly) !== null)
        .map((crank) => ({ bars, assembly, crank })),
    ),
  );

  it.each(cases)(
    'closes, with ratios as differences: $bars $assembly at $crank',
    ({ bars, assembly, crank }) => {
      const at = angles(bars, crank, assembly);
      const { crank: a, coupler: b, rocker: c, ground: d } = bars;
      const miss = [Math.cos, Math.sin].map(
        (f) => a * f(crank) + b * f(at.coupler) - c * f(at.rocker) - d * f(0),
      );
      for (const part of miss) expectWithin(part, 0, 1e-12);

      const first = fourBarVelocities(bars, at, 1);
      const second = fourBarAccelerations(bars, at, 1, 0);
      const before = angles(bars, crank - h, assembly);
      const after = angles(bars, crank + h, assembly);
      for (const key of ['coupler', 'rocker'] as const) {
        const forward = Math.asin(Math.sin(after[key] - at[key]));
        const backward = Math.asin(Math.sin(at[key] - before[key]));
        expectWithin((forward + backward) / (2 * h), first[key], 1e-6);
        expectWithin((forward - backward) / (h * h), second[key], 1e-5);
      }
    },
  );
});
