/**
 * Four-bars against textbook examples. Crank a, coupler b, rocker c, ground d; crank pivot (0, 0), rocker pivot (d, 0);
 * angles from the ground line, counter-clockwise.
 */
import { type Measure, type Motion, type Reading, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { type Assembly, crankLimits, type FourBar } from '../judges/four-bar.ts';
import { deepFreeze } from '../support/freeze.ts';
import { fourBar } from '../support/linkages.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const degree = Math.PI / 180;
const turn = 2 * Math.PI;

const crank = deepFreeze({ angle: ['A', 'B'] } satisfies Measure);
const coupler = deepFreeze({ angle: ['B', 'C'] } satisfies Measure);
const rocker = deepFreeze({ angle: ['D', 'C'] } satisfies Measure);

/** Angular velocity and acceleration of a part, from those of the driver. */
function rates({ first, second }: Reading, velocity: number, acceleration = 0): [number, number] {
  const [ratio, slope] = [first ?? Number.NaN, second ?? Number.NaN];
  return [ratio * velocity, slope * velocity * velocity + ratio * acceleration];
}

const crankRocker: FourBar = deepFreeze({ crank: 40, coupler: 120, rocker: 80, ground: 100 });

/** The crank-rocker at 40 degrees, drawn there and traced there from a drawing at 200 degrees. */
const posesOf = (assembly: Assembly): [string, Motion, number][] => [
  ['as drawn', trace(fourBar(crankRocker, 40 * degree, assembly), { driver: crank }), 40 * degree],
  [
    'traced from another pose',
    trace(fourBar(crankRocker, 200 * degree, assembly), { driver: crank, from: -turn, to: turn }),
    40 * degree,
  ],
];

// R. L. Norton, "Design of Machinery", Examples 4-1, 6-7 and 7-1 (from memory); more digits recomputed.
describe.each(posesOf('open'))('a crank-rocker 40/120/80/100 at 40 degrees, open, %s', (_how, motion, at) => {
  it('stands as in Norton, Example 4-1', () => {
    expectWithin(motion.read(coupler)(at).value / degree, 20.297883, 1e-5);
    expectWithin(motion.read(rocker)(at).value / degree, 57.32488, 1e-5);
  });

  it('moves as in Norton, Examples 6-7 and 7-1', () => {
    const [velocity, acceleration] = rates(motion.read(coupler)(at), 25, 15);
    expectWithin(velocity, -4.120914, 1e-5);
    expectWithin(acceleration, 296.089193, 1e-5);
    const [output, outputAcceleration] = rates(motion.read(rocker)(at), 25, 15);
    expectWithin(output, 6.997985, 1e-5);
    expectWithin(outputAcceleration, 470.13353, 1e-5);
  });

  it('satisfies the equation of Freudenstein (K1 2.5, K2 1.25, K3 0.5625)', () => {
    const t4 = motion.read(rocker)(at).value;
    expectClose(2.5 * Math.cos(t4) - 1.25 * Math.cos(at) + 0.5625, Math.cos(at - t4), {
      times: 16,
      scale: 2.5,
    });
  });
});

describe.each(posesOf('crossed'))(
  'a crank-rocker 40/120/80/100 at 40 degrees, crossed, %s',
  (_how, motion, at) => {
    it('stands as in Norton, Example 4-1 (from memory)', () => {
      expectWithin(motion.read(coupler)(at).value / degree, -60.977967, 1e-5);
      expectWithin(motion.read(rocker)(at).value / degree, -98.004964, 1e-5);
    });
  },
);

// Exact consequences of the law of cosines in the triangles with the sides a + b and b - a, computed here.
describe('the limits of a crank-rocker 40/120/80/100', () => {
  const extended = { crank: 24.146848, rocker: 54.900368 };
  const overlapped = { crank: 231.317813, rocker: 128.682187 };

  it('are the extremes of its rocker around the whole loop', () => {
    const loop = trace(fourBar(crankRocker, 40 * degree));
    expect([loop.low.status, loop.high.status]).toEqual(['closed', 'closed']);
    const found = loop.extremes(rocker);
    expect(found).toHaveLength(2);
    const [least, greatest] = found.sort((u, v) => u.value - v.value);
    expectWithin(least.value / degree, extended.rocker, 1e-6);
    expectWithin(greatest.value / degree, overlapped.rocker, 1e-6);
    expectWithin((greatest.value - least.value) / degree, 73.78182, 1e-6);
    const crankAt = (at: number) => ((loop.read(crank)(at).value + 2 * turn) % turn) / degree;
    expectWithin(crankAt(least.at), extended.crank, 1e-6);
    expectWithin(crankAt(greatest.at), overlapped.crank, 1e-6);
  });

  it('give its time ratio', () => {
    const motion = trace(fourBar(crankRocker, 40 * degree), { driver: crank, from: 0, to: turn });
    const [first, second] = motion.extremes(rocker).map(({ at }) => at / degree);
    expectWithin(second - first, 207.170965, 1e-6);
    expectWithin(360 - (second - first), 152.829035, 1e-6);
    expectWithin((second - first) / (360 - (second - first)), 1.355573, 1e-6);
  });

  it('are the dead points of its rocker as the driver', () => {
    const motion = trace(fourBar(crankRocker, 40 * degree), { driver: rocker });
    expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
    expectWithin(motion.low.at / degree, extended.rocker, 1e-6);
    expectWithin(motion.high.at / degree, overlapped.rocker, 1e-6);
    for (const [{ at }, crankThere] of [
      [motion.low, extended.crank],
      [motion.high, overlapped.crank],
    ] as const) {
      const { value, first, second } = motion.read(crank)(at);
      expectWithin(((value + 2 * turn) % turn) / degree, crankThere, 1e-6);
      expect([first, second]).toEqual([null, null]);
    }
  });
});

// cos mu = (b^2 + c^2 - f^2) / (2 b c) with f from crank pin to rocker pivot: exact consequence, computed here.
describe('the transmission angle of a crank-rocker 40/120/80/100', () => {
  const motion = trace(fourBar(crankRocker, 40 * degree), { driver: crank });
  const transmission = (at: number) =>
    (motion.read(rocker)(at).value - motion.read(coupler)(at).value) / degree;

  it('is 37.026997 degrees at 40 degrees', () => {
    expectWithin(transmission(40 * degree), 37.026997, 1e-6);
  });

  it('is extreme with the crank along the ground line', () => {
    const found = motion.extremes({ length: ['B', 'D'] });
    expect(found).toHaveLength(2);
    const [least, greatest] = found.sort((u, v) => u.value - v.value);
    expectClose(least.value, 60, { times: 16, scale: 60 });
    expectClose(greatest.value, 140, { times: 16, scale: 140 });
    expectWithin(transmission(least.at), 26.38433, 1e-6);
    expectWithin(transmission(greatest.at), 86.416678, 1e-6);
  });
});

// J. L. Meriam, L. G. Kraige, "Engineering Mechanics: Dynamics", Sample Problems 5/8 (seen) and 5/14 (part seen):
// exact rationals.
describe('the four-bar of Meriam and Kraige, Sample Problems 5/8 and 5/14', () => {
  const drawing = deepFreeze({
    points: { O: [0, 0], A: [0, 100], B: [175, 50], C: [250, 50] },
    ground: ['O', 'C'],
    bodies: { OA: ['O', 'A'], AB: ['A', 'B'], CB: ['C', 'B'] },
  } as const);
  const motion = trace(drawing, { driver: { angle: ['C', 'B'] } });

  it('turns AB at -6/7 and OA at -3/7 rad/s when CB turns at 2 rad/s', () => {
    expectWithin(rates(motion.read({ turn: 'AB' })(motion.drawn), 2)[0], -6 / 7, 1e-12);
    expectWithin(rates(motion.read({ turn: 'OA' })(motion.drawn), 2)[0], -3 / 7, 1e-12);
  });

  it('accelerates AB by -36/343 and OA by -1488/343 rad/s^2', () => {
    expectWithin(rates(motion.read({ turn: 'AB' })(motion.drawn), 2)[1], -36 / 343, 1e-12);
    expectWithin(rates(motion.read({ turn: 'OA' })(motion.drawn), 2)[1], -1488 / 343, 1e-12);
  });
});

describe('graphical textbook examples, exact figures recomputed', () => {
  it('R. S. Khurmi, J. K. Gupta, "Theory of Machines", Example 7.1 (seen; printed 4.8 rad/s)', () => {
    const bars = { crank: 40, coupler: 150, rocker: 80, ground: 150 };
    const motion = trace(fourBar(bars, 60 * degree), { driver: crank });
    const [output] = rates(motion.read(rocker)(motion.drawn), -4 * Math.PI);
    expectWithin(output, -4.784571, 1e-6);
    expectWithin(output, -4.8, 0.005 * 4.8);
  });

  it('T. Bevan, "The Theory of Machines", ch. 3, Example 5 (seen; printed 2.18, 1.47 ft/s, 50.9, 24.7 rad/s^2)', () => {
    const bars = { crank: 2.5, coupler: 7, rocker: 4.5, ground: 8 };
    const motion = trace(fourBar(bars, 60 * degree), { driver: crank });
    const speed = (100 * turn) / 60;
    const [couplerSpeed, couplerAcceleration] = rates(motion.read(coupler)(motion.drawn), speed);
    const [rockerSpeed, rockerAcceleration] = rates(motion.read(rocker)(motion.drawn), speed);
    expectWithin((2.5 / 12) * speed, 2.181662, 1e-5);
    expectWithin((4.5 / 12) * Math.abs(rockerSpeed), 1.48718, 1e-5);
    expectWithin((7 / 12) * Math.abs(couplerSpeed), 1.209529, 1e-5);
    expectWithin(Math.abs(rockerAcceleration), 50.60197, 1e-5);
    expectWithin(Math.abs(couplerAcceleration), 25.62541, 1e-5);
    expectWithin(Math.abs(rockerAcceleration), 50.9, 0.05 * 50.9);
    expectWithin(Math.abs(couplerAcceleration), 24.7, 0.05 * 24.7);
  });

  it('Khurmi and Gupta, ch. 8, exercise (seen; printed 6.43, 6.43 rad/s, 105 rad/s^2)', () => {
    const bars = { crank: 60, coupler: 70, rocker: 70, ground: 120 };
    const motion = trace(fourBar(bars, 60 * degree), { driver: crank });
    const [couplerSpeed, couplerAcceleration] = rates(motion.read(coupler)(motion.drawn), -10);
    const [rockerSpeed, rockerAcceleration] = rates(motion.read(rocker)(motion.drawn), -10);
    expectWithin(couplerSpeed, 6.396021, 1e-5);
    expectWithin(rockerSpeed, -6.396021, 1e-5);
    expectWithin(Math.abs(couplerAcceleration), 12.41498, 1e-5);
    expectWithin(Math.abs(rockerAcceleration), 103.05508, 1e-5);
    expectWithin(Math.abs(rockerSpeed), 6.43, 0.05 * 6.43);
    expectWithin(Math.abs(rockerAcceleration), 105, 0.05 * 105);
  });
});

// P. E. Nikravesh, program data (seen): ground from (0, 0) to (5, -1). Shortest and longest bar together decide.
describe('the class of Grashof', () => {
  const ground = Math.hypot(5, -1);

  it('lets the crank of 2, 6, 4 on sqrt 26 turn fully: 2 + 6 < sqrt 26 + 4', () => {
    const bars = { crank: 2, coupler: 6, rocker: 4, ground };
    const motion = trace(fourBar(bars, 1), { driver: crank });
    expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
    expectClose(motion.high.at - motion.low.at, turn, { times: 8, scale: turn });
    const swing = trace(fourBar(bars, 1), { driver: rocker });
    expect([swing.low.status, swing.high.status]).toEqual(['deadPoint', 'deadPoint']);
  });

  // The loop closes symmetrically about the ground line; at the far side, pi, the crank passes.
  const tight = { crank: 2, coupler: 7, rocker: 3, ground };
  const { smallest, largest } = crankLimits(tight);
  const drawing = fourBar(tight, 2);

  it('lets no bar of 2, 7, 3 on sqrt 26 turn fully: 2 + 7 > sqrt 26 + 3', () => {
    expect(largest).toBe(Math.PI);
    for (const driver of [crank, coupler, rocker]) {
      const motion = trace(drawing, { driver });
      expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
      expect(motion.high.at - motion.low.at).toBeLessThan(turn);
    }
    const motion = trace(drawing, { driver: crank });
    expectClose(motion.low.at, smallest, { times: 16, scale: turn });
    expectClose(motion.high.at, turn - smallest, { times: 16, scale: turn });
  });

  it('is told by the loop: every bar of 2, 7, 3 comes back without a turn', () => {
    const loop = trace(drawing);
    expect([loop.low.status, loop.high.status]).toEqual(['closed', 'closed']);
    for (const measure of [crank, coupler, rocker]) {
      const read = loop.read(measure);
      expectClose(read(loop.high.at).value, read(0).value, { times: 16, scale: turn });
    }
  });
});
