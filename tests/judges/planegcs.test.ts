import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import type {
  PlanegcsDrawing,
  PlanegcsLinkage,
  PlanegcsModule,
  PlanegcsOptions,
  PlanegcsPose,
} from './planegcs.ts';
import { loadPlanegcs, planegcsLinkage } from './planegcs.ts';

type Vec = readonly [number, number];
const DEGREE = Math.PI / 180;
/** Distance that counts as none, mm; the solver is asked for a tenth of it. */
const NONE = 1e-10;

let gcs: PlanegcsModule;
const alive: PlanegcsLinkage[] = [];
function linkage(drawing: PlanegcsDrawing, options?: PlanegcsOptions): PlanegcsLinkage {
  const made = planegcsLinkage(gcs, drawing, options);
  alive.push(made);
  return made;
}
beforeAll(async () => {
  gcs = await loadPlanegcs();
});
afterEach(() => {
  for (const made of alive.splice(0)) made.destroy();
});

function gap(p: Vec, q: Vec): number {
  return Math.hypot(q[0] - p[0], q[1] - p[1]);
}

function angle(p: Vec, q: Vec): number {
  return Math.atan2(q[1] - p[1], q[0] - p[0]) / DEGREE;
}

/** Largest change of any distance within any body, also of those that are not constraints. */
function stretch({ points, bodies }: PlanegcsDrawing, { positions }: PlanegcsPose): number {
  let worst = 0;
  for (const members of Object.values(bodies)) {
    for (const p of members) {
      for (const q of members) {
        const change = gap(positions[p], positions[q]) - gap(points[p], points[q]);
        worst = Math.max(worst, Math.abs(change));
      }
    }
  }
  return worst;
}

/** Largest distance between the same points of two poses. */
function apart(a: PlanegcsPose, b: PlanegcsPose): number {
  return Math.max(...Object.keys(a.positions).map((name) => gap(a.positions[name], b.positions[name])));
}

/**
 * Open four-bar at a crank angle in degrees, by the law of cosines: with e the diagonal from crank tip to
 * rocker pivot, the coupler leaves it by the angle opposite to the rocker.
 */
function fourBar(crank: number, axis: 'x' | 'y'): PlanegcsDrawing {
  const [a, b, c, d] = [40, 120, 80, 100];
  const tip: Vec = [a * Math.cos(crank * DEGREE), a * Math.sin(crank * DEGREE)];
  const pivot: Vec = [d, 0];
  const e = gap(tip, pivot);
  const coupler = angle(tip, pivot) * DEGREE + Math.acos((b * b + e * e - c * c) / (2 * b * e));
  return {
    points: {
      crank: [0, 0],
      tip,
      pin: [tip[0] + b * Math.cos(coupler), tip[1] + b * Math.sin(coupler)],
      pivot,
    },
    ground: ['crank', 'pivot'],
    bodies: { crank: ['crank', 'tip'], coupler: ['tip', 'pin'], rocker: ['pivot', 'pin'] },
    driver: { point: 'tip', axis },
  };
}

const corner: PlanegcsDrawing = {
  points: {
    lowerInner: [255, 165],
    lowerOuter: [640, 150],
    upperInner: [310, 355],
    upperOuter: [600, 375],
    wheelCentre: [705, 312],
    contactPatch: [705 + 312 * Math.tan(0.5 * DEGREE), 0],
    mount: [505, 170],
  },
  ground: ['lowerInner', 'upperInner'],
  bodies: {
    lowerArm: ['lowerInner', 'lowerOuter', 'mount'],
    upperArm: ['upperInner', 'upperOuter'],
    upright: ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch'],
  },
  driver: { point: 'contactPatch', axis: 'y' },
};
const travel = Float64Array.from({ length: 201 }, (_, i) => -80 + 0.8 * i);

describe('a four-bar of 40, 120, 80 on 100', () => {
  // R. L. Norton, Design of Machinery, Example 4-1, from memory; six decimals.
  it('stands at a crank of 40 degrees as the textbook says', () => {
    const pose = linkage(fourBar(60, 'y')).solve(40 * Math.sin(40 * DEGREE));
    const { crank, tip, pin, pivot } = pose.positions;
    expect(pose.status).toBe('converged');
    expectWithin(angle(crank, tip), 40, 5e-11);
    expectWithin(angle(tip, pin), 20.297883, 5e-7);
    expectWithin(angle(pivot, pin), 57.32488, 5e-7);
  });

  it.each([60, 80, 100, 120, 140, 160])('stands at %d degrees as the law of cosines says', (crank) => {
    const pose = linkage(fourBar(70, 'x')).solve(40 * Math.cos(crank * DEGREE));
    expect(pose.status).toBe('converged');
    expectWithin(gap(pose.positions.pin, fourBar(crank, 'x').points.pin), 0, 10 * NONE);
  });

  it('does not follow its driver beyond a dead point, and hands back the last pose before it', () => {
    const drawing = fourBar(60, 'y');
    const made = linkage(drawing);
    const pose = made.solve(41);
    expect(pose.status).not.toBe('converged');
    expect(pose.reached).toBeLessThan(40);
    expect(pose.reached).toBeGreaterThan(39.9999);
    expect(pose.positions.tip[1]).toBe(pose.reached);
    expectWithin(stretch(drawing, pose), 0, NONE);
    expect(made.sweep([45, 30, 41]).map(({ status }) => status === 'converged')).toEqual([
      false,
      true,
      false,
    ]);
  });
});

describe('a double wishbone over 80 mm of bump and droop', () => {
  it('keeps every length of every body', () => {
    const poses = linkage(corner).sweep(travel);
    expect(poses.map(({ status }) => status)).toEqual(Array<string>(201).fill('converged'));
    expectWithin(Math.max(...poses.map((pose) => stretch(corner, pose))), 0, NONE);
    expectWithin(Math.max(...poses.map(({ residual }) => residual)), 0, NONE);
    expectWithin(Math.max(...poses.map(({ shapeError }) => shapeError)), 0, NONE);
    expect(poses.map(({ positions }) => positions.contactPatch[1])).toEqual([...travel]);
  });

  it('keeps its upper ball joint on one side of the line from lower ball joint to upper pivot', () => {
    for (const { positions } of linkage(corner).sweep(travel)) {
      const { lowerOuter: o, upperInner: p, upperOuter: q } = positions;
      const side = (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
      expect(side).toBeLessThan(0);
    }
  });

  it('depends on the value alone, not on what was solved before', () => {
    const made = linkage(corner);
    made.sweep([80, -35, 12]);
    for (const value of [-80, 40, 0, 80]) {
      expectWithin(apart(made.solve(value), linkage(corner).solve(value)), 0, NONE);
    }
    expect(linkage(corner).sweep(travel)).toEqual(linkage(corner).sweep(travel));
  });

  it.each(['DogLeg', 'LevenbergMarquardt', 'BFGS'] as const)(
    'is the same by %s, with and without checks',
    (algorithm) => {
      const expected = linkage(corner).sweep(travel);
      const made = linkage(corner, { algorithm });
      const poses = made.sweep(travel);
      expectWithin(Math.max(...poses.map((pose, i) => apart(pose, expected[i]))), 0, 100 * NONE);
      for (const order of [0, 1, 2] as const) {
        const row = 2 * made.moving.length;
        const out = new Float64Array(row * travel.length);
        expect(made.trace(travel, out, order)).toBe(201);
        const worst = expected.map(({ positions }, i) =>
          Math.max(
            ...made.moving.map((name, j) =>
              gap(positions[name], [out[i * row + 2 * j], out[i * row + 2 * j + 1]]),
            ),
          ),
        );
        expectWithin(Math.max(...worst), 0, 100 * NONE);
      }
    },
  );

  it('is the same far from the origin', () => {
    const far = Object.entries(corner.points).map(
      ([name, [x, y]]) => [name, [x + 65536, y - 65536]] as const,
    );
    const moved = linkage({ ...corner, points: Object.fromEntries(far) }).solve(60 - 65536);
    for (const [name, [x, y]] of Object.entries(linkage(corner).solve(60).positions)) {
      expectWithin(gap(moved.positions[name], [x + 65536, y - 65536]), 0, 10 * NONE);
    }
  });

  it('holds a mount on the very line of its arm as firmly as any other point', () => {
    const share = 0.6;
    const drawing: PlanegcsDrawing = {
      ...corner,
      points: { ...corner.points, mount: [255 + share * (640 - 255), 165 + share * (150 - 165)] },
    };
    for (const pose of linkage(drawing).sweep([-80, -20, 20, 80])) {
      const { lowerInner, lowerOuter, mount } = pose.positions;
      const onArm: Vec = [
        lowerInner[0] + share * (lowerOuter[0] - lowerInner[0]),
        lowerInner[1] + share * (lowerOuter[1] - lowerInner[1]),
      ];
      expect(pose.status).toBe('converged');
      expectWithin(gap(mount, onArm), 0, NONE);
    }
  });
});

describe('mobility in the drawn pose', () => {
  it('is one for a double wishbone, whether its driver is named or not', () => {
    const { points, ground, bodies } = corner;
    for (const made of [linkage(corner), linkage({ points, ground, bodies })]) {
      expectSame(made.degreesOfFreedom(), 1);
      expect(made.redundant()).toEqual([]);
    }
  });

  it('is one for a platform on three equal parallel bars, with one distance too many', () => {
    const drawing: PlanegcsDrawing = {
      points: { a: [0, 0], b: [50, 0], c: [100, 0], p: [20, 60], q: [70, 60], r: [120, 60] },
      ground: ['a', 'b', 'c'],
      bodies: { left: ['a', 'p'], middle: ['b', 'q'], right: ['c', 'r'], platform: ['p', 'q', 'r'] },
      driver: { point: 'r', axis: 'x' },
    };
    const made = linkage(drawing);
    expectSame(made.degreesOfFreedom(), 1);
    expect(made.redundant()).toHaveLength(1);
    const pose = made.solve(135);
    expect(pose.status).toBe('converged');
    expectWithin(stretch(drawing, pose), 0, NONE);
    expectWithin(gap(pose.positions.p, [35, Math.sqrt(20 ** 2 + 60 ** 2 - 35 ** 2)]), 0, NONE);
  });

  it('is none for a pin on two bars', () => {
    const made = linkage({
      points: { a: [0, 0], b: [100, 0], pin: [40, 60] },
      ground: ['a', 'b'],
      bodies: { left: ['a', 'pin'], right: ['b', 'pin'] },
    });
    expectSame(made.degreesOfFreedom(), 0);
  });
});

describe('a drawing with a mistake', () => {
  it('is refused by the name and place of the mistake', () => {
    const { points, ground, bodies } = corner;
    expect(() => linkage({ points, ground: ['inner'], bodies })).toThrow(
      'unknown point "inner" in ground[0]',
    );
    expect(() => linkage({ points, ground, bodies: { arm: ['lowerInner', 'outer'] } })).toThrow(
      'unknown point "outer" in bodies.arm[1]',
    );
    expect(() => linkage({ points, ground, bodies: { arm: ['mount', 'mount'] } })).toThrow(
      'mount and mount coincide',
    );
    expect(() => linkage({ ...corner, driver: { point: 'hub', axis: 'x' } })).toThrow(
      'unknown point "hub" in driver',
    );
    expect(() => linkage({ ...corner, driver: { point: 'upperInner', axis: 'x' } })).toThrow(
      'is a ground point',
    );
    expect(() => linkage({ points, ground, bodies }).solve(0)).toThrow('missing driver');
    expect(() => linkage(corner).solve(NaN)).toThrow('invalid driver value: NaN');
  });

  it('is refused after its memory was freed', () => {
    const made = linkage(corner);
    made.destroy();
    expect(() => made.solve(0)).toThrow('destroyed');
  });
});
