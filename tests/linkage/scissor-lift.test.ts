/** Scissor lifts: forces of their actuators by virtual work, degrees of freedom and redundancies by construction. */
import { drive, mobility } from 'jounce/linkage';
import { forces } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { scissorLift } from '../support/scissor-lift.ts';
import { expectClose, expectSame } from '../support/tolerance.ts';

const LENGTH = 1000;
const LOAD = 1000;

/** Cells, their angle. */
const LIFTS = [
  [1, 0.6],
  [3, 1.2],
  [80, 0.6],
  [80, 0.05],
  [320, 0.9],
] as const;

const cases = LIFTS.map(([cells, angle]) => ({ cells, angle }));

/** Rounding grows with the sum of the cells' forces and with how flat they lie. */
const roundings = (cells: number, angle: number) => ({
  times: (8 * cells) / Math.sin(angle) ** 2,
  scale: (cells * LOAD) / Math.tan(angle),
});

describe('the actuator of a scissor lift', () => {
  // N cells of bars b at the angle a: height N b sin a, width b cos a. Virtual work of the load P on top:
  // F dm = P d(N b sin a) = P N b cos a da.
  const on = (cells: number) => deepFreeze([{ at: `left${cells}`, force: [0, -LOAD] as const }]);

  it.each(cases)('pulls the foot of $cells cells at $angle', ({ cells, angle }) => {
    const found = forces(scissorLift(cells, LENGTH, angle), on(cells), {
      driver: { x: 'right0' },
    });
    // m = b cos a
    expectClose(found.driver, (-cells * LOAD) / Math.tan(angle), roundings(cells, angle));
    expectClose(found.residual, 0, roundings(cells, angle));
    // The pinned foot takes the opposite, and the load, which stands above it.
    const [x, y] = found.ground.left0 as readonly [number, number];
    expectClose(x, (-cells * LOAD) / Math.tan(angle), roundings(cells, angle));
    expectClose(y, -LOAD, roundings(cells, angle));
  });

  it.each(cases)('pushes from the pinned foot to the second cell of $cells at $angle', ({ cells, angle }) => {
    if (cells < 2) return;
    const driver = { length: ['left0', 'middle2'] } as const;
    const found = forces(scissorLift(cells, LENGTH, angle), on(cells), { driver });
    // m^2 = b^2 (cos^2 a + 9 sin^2 a)/4, m dm = 2 b^2 sin a cos a da
    const m = (LENGTH * Math.hypot(Math.cos(angle), 3 * Math.sin(angle))) / 2;
    expectClose(found.driver, (cells * LOAD * m) / (2 * LENGTH * Math.sin(angle)), roundings(cells, angle));
  });

  it('carries a load in the middle of the top half on each foot', () => {
    const cells = 80;
    const half = [0, -LOAD / 2] as const;
    const loads = ['left', 'right'].map((side) => ({ at: `${side}${cells}`, force: half }));
    const { ground, fixedCoordinates } = forces(scissorLift(cells, LENGTH, 0.6), loads, {
      driver: { x: 'right0' },
    });
    expectClose(ground.left0?.[1] ?? null, -LOAD / 2, roundings(cells, 0.6));
    expectClose(fixedCoordinates[0], LOAD / 2, roundings(cells, 0.6));
  });
});

describe('the degrees of freedom of a scissor lift', () => {
  it('are one by count and by rank, and all points but the ground move', () => {
    for (const cells of [1, 80, 320]) {
      const found = mobility(scissorLift(cells, LENGTH, 0.6));
      expectSame([found.kutzbach, found.degreesOfFreedom, found.redundant], [1, 1, 0]);
      expect(found.moving).toHaveLength(3 * cells + 1);
      expect([found.dependent, found.contradicting]).toEqual([[], null]);
    }
  });

  it('are as many as its feet that slide beyond one', () => {
    const { fixedCoordinates: _, ...loose } = scissorLift(80, LENGTH, 0.6);
    expectSame(mobility(loose).degreesOfFreedom, 2);
    expectSame(
      mobility({ ...loose, fixedCoordinates: [{ y: 'right0' }, { x: 'right0' }] }).degreesOfFreedom,
      0,
    );
  });

  it('stay as they are when points above the pinned foot are guided, once too often each', () => {
    const cells = 6;
    const lift = scissorLift(cells, LENGTH, 0.6);
    const guides = [{ x: 'left3' }, { x: `left${cells}` }];
    const guided = { ...lift, fixedCoordinates: [{ y: 'right0' }, ...guides] };
    const found = mobility(guided);
    expectSame([found.kutzbach, found.degreesOfFreedom, found.redundant], [-1, 1, 2]);
    expect(found.dependent).toEqual(expect.arrayContaining(['fixed x of left3', `fixed x of left${cells}`]));
    expect(found.contradicting).toBeNull();
    // What the guides and the pinned foot share of a push sideways is open, what the actuator lifts is not.
    const loads = [{ at: `left${cells}`, force: [0, -LOAD] as const }];
    const { driver, fixedCoordinates } = forces(guided, loads, { driver: { x: 'right0' } });
    expectClose(driver, (-cells * LOAD) / Math.tan(0.6), roundings(cells, 0.6));
    expect(fixedCoordinates.slice(1)).toEqual([null, null]);
  });
});

describe('a driven scissor lift', () => {
  it('goes where its foot is put, cell by cell', () => {
    const cells = 8;
    const { drawing, shortfall } = drive(scissorLift(cells, LENGTH, 0.6), [
      { driver: { x: 'right0' }, to: LENGTH * Math.cos(0.9) },
    ]);
    expect(shortfall).toEqual([0]);
    const wanted = scissorLift(cells, LENGTH, 0.9);
    for (const [name, [x, y]] of Object.entries(wanted.points)) {
      expectClose(drawing.points[name][0], x, { times: 64, scale: cells * LENGTH });
      expectClose(drawing.points[name][1], y, { times: 64, scale: cells * LENGTH });
    }
  });
});
