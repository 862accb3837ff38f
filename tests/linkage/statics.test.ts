/** Forces in joints: textbook frames, the spring of Andrews' mechanism, free bodies and virtual work over random linkages. */

import { type Arbitrary, assert, double, integer, pre, property, tuple } from 'fast-check';
import { sentence } from 'jounce';
import { type Direction, type Drawing, InputError, type Measure, mobility, trace } from 'jounce/linkage';
import { type Forces, forces, type Load, type StaticsOptions } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { freeBodies } from '../judges/free-bodies.ts';
import { deepFreeze } from '../support/freeze.ts';
import { linkages } from '../support/linkages.ts';
import { drivers } from '../support/motions.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

type Pair = readonly [number, number];
const DEGREE = Math.PI / 180;
type Found = Omit<Forces, 'diagnostics'>;
/** The forces of the library, and those of free bodies. */
type Solver = (drawing: Drawing, loads: readonly Load[], options?: StaticsOptions) => Found;
const judge: Solver = (drawing, loads, { driver } = {}) => freeBodies(drawing, loads, driver);
const SOLVERS: readonly [name: string, solver: Solver][] = [
  ['multipliers', forces],
  ['free bodies', judge],
];

function expectForce(force: Pair | null | undefined, [x, y]: Pair, within: number): void {
  expectWithin(force?.[0] ?? null, x, within);
  expectWithin(force?.[1] ?? null, y, within);
}

describe.each(SOLVERS)('textbook frames by %s', (_, forcesOf) => {
  // F. P. Beer, E. R. Johnston and others, "Vector Mechanics: Statics", Sample Problem 6.4 (results seen; the geometry is the
  // one from which they come out whole).
  it('a frame with a two-force link: Beer and Johnston, Sample Problem 6.4', () => {
    const drawing = deepFreeze({
      points: { A: [0, 0], B: [0, -160], C: [0, -220], D: [250, -220], E: [100, -300], L: [100, -220] },
      ground: ['A'],
      bodies: { ACE: ['A', 'C', 'E'], BCD: ['B', 'C', 'D', 'L'], DE: ['D', 'E'] },
      fixedCoordinates: [{ x: 'B' }],
    } as const);
    const found = forcesOf(drawing, [{ at: 'L', on: 'BCD', force: [0, -480] }]);
    expectForce(found.on.ACE.A, [-300, 480], 1e-9);
    expectWithin(found.fixedCoordinates[0], 300, 1e-9);
    const [x, y] = found.on.DE.D as Pair;
    // 561 of compression: from D towards E.
    expectForce([x, y], [-561 * (150 / 170), -561 * (80 / 170)], 1e-9);
    expectForce(found.on.BCD.C, [-795, 216], 1e-9);
    expect(found.residual).toBeLessThan(1e-9);
  });

  // The same, Sample Problem 6.5 (seen).
  it('a frame with a cross link: Beer and Johnston, Sample Problem 6.5', () => {
    const drawing = deepFreeze({
      points: { A: [0, 0], F: [3.6, 0], C: [3.6, 6], B: [1.2, 2], E: [3.6, 2], D: [3.6, 4] },
      ground: ['A'],
      bodies: { ABC: ['A', 'B', 'C'], CDEF: ['C', 'D', 'E', 'F'], BE: ['B', 'E'] },
      fixedCoordinates: [{ y: 'F' }],
    } as const);
    const found = forcesOf(drawing, [{ at: 'D', force: [18, 0] }]);
    expectForce(found.on.ABC.A, [-18, -20], 1e-12);
    expectWithin(found.fixedCoordinates[0], 20, 1e-12);
    expectForce(found.on.BE.E, [9, 0], 1e-12);
    expectForce(found.on.ABC.C, [9, 20], 1e-12);
  });

  // The same, Sample Problem 4.6 (seen; printed 81.9, 147.8, 58.6).
  it('a three-force body: Beer and Johnston, Sample Problem 4.6', () => {
    const top: Pair = [4 * Math.cos(45 * DEGREE), 4 * Math.sin(45 * DEGREE)];
    const rope: Pair = [top[0] - 5 * Math.cos(20 * DEGREE), top[1] - 5 * Math.sin(20 * DEGREE)];
    const drawing = deepFreeze({
      points: { foot: [0, 0], top, middle: [top[0] / 2, top[1] / 2], anchor: rope },
      ground: ['foot', 'anchor'],
      bodies: { joist: ['foot', 'top', 'middle'], rope: ['top', 'anchor'] },
    } as const);
    const found = forcesOf(drawing, [{ at: 'middle', on: 'joist', force: [0, -98.1] }]);
    const [x, y] = found.on.joist.foot as Pair;
    expectWithin(Math.hypot(x, y), 147.871464, 1e-6);
    expectWithin(Math.atan2(y, x) / DEGREE, 58.565232, 1e-6);
    expectWithin(Math.hypot(...(found.on.rope.top as Pair)), 82.06836, 1e-6);
  });

  // R. C. Hibbeler, "Statics", Examples 5.11 (seen; printed 1.07, 1.32 kN, 60.3) and 6.14 (seen; printed 577, 1000).
  it('a lever and a frame of two members: Hibbeler, Examples 5.11 and 6.14', () => {
    const lever = deepFreeze({
      points: { A: [0, 0], B: [0.4, 0.7], P: [0, 0.7], S: [0.8, 1.1] },
      ground: ['A', 'S'],
      bodies: { lever: ['A', 'B', 'P'], link: ['B', 'S'] },
    } as const);
    const one = forcesOf(lever, [{ at: 'P', on: 'lever', force: [400, 0] }]);
    expectWithin(Math.hypot(...(one.on.lever.A as Pair)), 1074.967698, 2e-6);
    expectWithin(Math.hypot(...(one.on.link.B as Pair)), 1319.932658, 1e-6);
    const frame = deepFreeze({
      points: { B: [0, 0], C: [4, 0], M: [2, 0], A: [-Math.cos(60 * DEGREE), -Math.sin(60 * DEGREE)] },
      ground: ['A', 'C'],
      bodies: { member: ['B', 'C', 'M'], link: ['A', 'B'] },
    } as const);
    const two = forcesOf(frame, [{ at: 'M', on: 'member', force: [0, -2000] }]);
    expectWithin(Math.hypot(...(two.on.link.B as Pair)), 1154.700538, 1e-6);
    const [x, y] = two.on.member.C as Pair;
    expectWithin(Math.abs(x), 577.350269, 1e-6);
    expectWithin(y, 1000, 1e-9);
  });

  // Test Set for IVP Solvers (Univ. Bari / INdAM), Andrews' squeezing mechanism, multipliers 1 and 2 at the start (read): the
  // reactions at Q balance the spring's moment about B, 3.0042048572133484 N m.
  it("the spring of Andrews' mechanism turns its rocker by the published moment", () => {
    const g = 0.455279819163070380255912382449;
    const [c, s] = [Math.cos(g), Math.sin(g)];
    const B: Pair = [-36.35, 32.73];
    const drawing = deepFreeze({
      points: {
        B,
        D: [B[0] + 20 * c + 18 * s, B[1] + 20 * s - 18 * c],
        Q: [B[0] + 35 * s, B[1] - 35 * c],
        C: [14, 72],
      },
      ground: ['B', 'C'],
      bodies: { rocker: ['B', 'Q', 'D'] },
    } as const);
    const [dx, dy] = [drawing.points.D[0] - 14, drawing.points.D[1] - 72];
    // 4530 N/m, free length 77.85 mm: N and mm.
    const push = 4.53 * (77.85 - Math.hypot(dx, dy));
    const found = forcesOf(drawing, [{ between: ['C', 'D'], push }], {
      driver: { turn: 'rocker' },
    });
    expectWithin(Math.abs(found.driver as number) / 1000, 3.0042048572133484, 1e-12);
  });
});

/** Loads of every kind on a grown linkage. */
const loadsOn = (drawing: Drawing, amounts: readonly number[]): Load[] => {
  const points = Object.keys(drawing.points);
  const bodies = Object.keys(drawing.bodies);
  const last = points[points.length - 1];
  return [
    { at: last, force: [amounts[0], amounts[1]] },
    { at: drawing.bodies[bodies[1]][0], on: bodies[1], force: [amounts[2], amounts[3]] },
    { on: bodies[bodies.length - 1], moment: 100 * amounts[4] },
    { between: [points[0], last], push: amounts[5], offset: 30 },
  ];
};
const amount = double({ min: -1000, max: 1000, noNaN: true });
const held = drivers as Arbitrary<NonNullable<StaticsOptions['driver']>>;
const amounts = tuple(amount, amount, amount, amount, amount, amount);

/** Whether a measure changes as the linkage moves: one at its extreme drives nothing. */
const isMoved = (drawing: Drawing, measure: Measure) => {
  const motion = trace(drawing, { driver: { turn: 'crank' } });
  return Math.abs(motion.read(measure)(motion.drawn).first ?? 0) > 1e-6;
};

/** All forces of a result in one list. */
const listed = ({ on, ground, driver }: Found) => [
  ...Object.values(on).flatMap((points) => Object.values(points)),
  ...Object.values(ground),
  [driver, 0],
];

describe('forces in random linkages', () => {
  it('are the same by multipliers and by free bodies', () => {
    assert(
      property(linkages, held, amounts, ({ drawing }, driver, given) => {
        pre(isMoved(drawing, driver));
        const loads = loadsOn(drawing, given);
        const [one, other] = SOLVERS.map(([, solver]) => listed(solver(drawing, loads, { driver })));
        const most = Math.max(1, ...one.flat().map((x) => Math.abs(x as number)));
        one.forEach((force, k) => {
          [0, 1].forEach((axis) => {
            expectWithin(other[k]?.[axis] ?? null, force?.[axis] as number, 1e-9 * most);
          });
        });
      }),
    );
  });

  it('hold the linkage by what virtual work asks for, whatever drives it', () => {
    assert(
      property(linkages, held, amounts, ({ drawing }, measure, given) => {
        pre(isMoved(drawing, measure));
        const loads = loadsOn(drawing, given);
        const { driver } = forces(drawing, loads, { driver: measure });
        const motion = trace(drawing, { driver: measure });
        const rate = (of: Measure) => motion.read(of)(motion.drawn).first as number;
        let work = 0;
        let most = 0;
        for (const load of loads) {
          const parts =
            'between' in load
              ? [load.push * rate({ length: load.between, offset: 30 })]
              : 'moment' in load
                ? [load.moment * rate({ turn: load.on })]
                : [load.force[0] * rate({ x: load.at }), load.force[1] * rate({ y: load.at })];
          for (const part of parts) {
            work += part;
            most += Math.abs(part);
          }
        }
        expectWithin(driver, -work, 1e-9 * Math.max(1, most));
      }),
      { numRuns: 20 },
    );
  });

  it('are in equilibrium on the ground as a whole', () => {
    assert(
      property(linkages, amounts, integer({ min: 0, max: 1 }), ({ drawing }, given, axis) => {
        const loads = loadsOn(drawing, given);
        const found = forces(drawing, loads, { driver: { turn: 'crank' } });
        const outside = [0, 1].map((k) =>
          loads.reduce((sum, load) => sum + ('force' in load ? load.force[k] : 0), 0),
        );
        const sum = Object.values(found.ground).reduce((total, force) => total + (force as Pair)[axis], 0);
        const most = Math.max(
          1,
          ...Object.values(found.ground)
            .flat()
            .map((x) => Math.abs(x as number)),
        );
        expectWithin(sum, outside[axis], 1e-9 * most);
      }),
    );
  });
});

describe('forces of joints that are no pins', () => {
  it('of a slider, a telescope and a fixed angle agree by both methods', () => {
    const drawing: Drawing = deepFreeze({
      points: { O: [0, 0], C: [20, 100], P: [80, 110], T: [160, 190], S: [190, 170], R: [220, 150] },
      ground: ['O', 'C', 'R'],
      bodies: { crank: ['C', 'P'], arm: ['O', 'T'], plate: ['T', 'S'] },
      sliders: { block: { point: 'P', on: ['O', 'T'] } },
      fixedAngles: { level: ['plate', 'arm'] },
      telescopes: { ram: ['R', 'S'] },
    });
    expect(mobility(drawing).degreesOfFreedom).toBe(1);
    const loads: Load[] = [
      { at: 'S', force: [30, -500] },
      { between: ['R', 'S'], push: 200 },
    ];
    const [one, other] = SOLVERS.map(([, solver]) => solver(drawing, loads, { driver: { turn: 'crank' } }));
    for (const found of [one, other]) expect(found.residual).toBeLessThan(1e-9);
    expectWithin(one.sliders.block, other.sliders.block as number, 1e-9);
    expectWithin(one.fixedAngles.level, other.fixedAngles.level as number, 1e-7);
    expectWithin(one.driver, other.driver as number, 1e-7);
    listed(one).forEach((force, k) => {
      expectForce(listed(other)[k] as Pair, force as Pair, 1e-7);
    });
    const motion = trace(drawing, { driver: { turn: 'crank' }, from: -0.01, to: 0.01 });
    const rate = (measure: Parameters<typeof motion.read>[0]) => motion.read(measure)(0).first as number;
    const work = 30 * rate({ x: 'S' }) - 500 * rate({ y: 'S' }) + 200 * rate({ length: ['R', 'S'] });
    expectClose(one.driver, -work, { times: 2 ** 20, scale: 1e5 });
  });
});

describe.each(SOLVERS)('what holds by itself, by %s', (_, forcesOf) => {
  it('goes by its own name: two blocks on a rail, two props, a drive', () => {
    const drawing: Drawing = deepFreeze({
      points: {
        G: [0, 0],
        H: [400, 0],
        S: [100, 0],
        T: [200, 0],
        A: [0, 300],
        B: [100, 300],
        D: [-100, 300],
      },
      ground: ['G', 'H', 'A'],
      bodies: { train: ['S', 'T'], right: ['A', 'B'], left: ['A', 'D'] },
      sliders: { front: { point: 'S', on: ['G', 'H'] }, back: { point: 'T', on: ['G', 'H'] } },
      fixedCoordinates: [{ y: 'B' }, { y: 'D' }],
    });
    const loads: Load[] = [
      { at: 'S', force: [7, -30] },
      { at: 'T', force: [0, -50] },
      { at: 'B', force: [0, -10] },
      { at: 'D', force: [0, -20] },
    ];
    const found = forcesOf(drawing, loads, { driver: { x: 'S' } });
    expectWithin(Math.abs(found.sliders.front ?? 0), 30, 1e-9);
    expectWithin(Math.abs(found.sliders.back ?? 0), 50, 1e-9);
    expectWithin(found.fixedCoordinates[0], 10, 1e-9);
    expectWithin(found.fixedCoordinates[1], 20, 1e-9);
    expectWithin(found.driver, -7, 1e-9);
    expectForce(found.ground.A, [0, 0], 1e-9);
  });

  it('stands on the ground: an arm driven by its distance from a point of it', () => {
    const drawing: Drawing = deepFreeze({
      points: { A: [0, 0], P: [300, 0], G: [300, -400], idle: [50, 50] },
      ground: ['A', 'G', 'idle'],
      bodies: { arm: ['A', 'P'] },
    });
    const loads: Load[] = [
      { at: 'P', force: [0, -100] },
      { at: 'G', force: [5, 7] },
    ];
    const found = forcesOf(drawing, loads, { driver: { length: ['G', 'P'] } });
    expectWithin(found.driver, 100, 1e-9);
    expectForce(found.ground.G, [5, 7 - 100], 1e-9);
    expectForce(found.ground.A, [0, 0], 1e-9);
    // Where nothing stands there is no force to tell.
    expect(Object.keys(found.ground)).toEqual(['A', 'G']);
  });

  it('has forces at points that were drawn, and at no others', () => {
    const drawing: Drawing = deepFreeze({
      points: { A: [0, 0], B: [200, 0], R: [50, 300] },
      ground: ['A', 'R'],
      bodies: { arm: ['A', 'B'] },
      telescopes: { ram: ['R', 'B'] },
    });
    const found = forcesOf(drawing, [{ between: ['R', 'B'], push: 80 }], {
      driver: { turn: 'arm' },
    });
    const names = Object.values(found.on).flatMap((on) => Object.keys(on));
    expect([...new Set(names)].sort()).toEqual(['A', 'B', 'R']);
    const long = Math.hypot(150, 300);
    expectForce(found.ground.R, [(-80 * 150) / long, (80 * 300) / long], 1e-9);
  });
});

describe.each(SOLVERS)('closed forms of joints that are no pins, by %s', (_, forcesOf) => {
  // Moments about the arm's pivot: the block presses with M / r, square to the arm; the crank carries that to its own pivot.
  it('a block in the slot of an arm presses with the moment over its distance', () => {
    assert(
      property(double({ min: -3, max: 3, noNaN: true }), amount, (turn, moment) => {
        const P: Pair = [300 + 150 * Math.cos(turn), 100 + 150 * Math.sin(turn)];
        const r = Math.hypot(...P);
        const [cx, cy] = [P[0] / r, P[1] / r];
        const drawing = deepFreeze({
          points: { O: [0, 0], T: [600 * cx, 600 * cy], C: [300, 100], P },
          ground: ['O', 'C'],
          bodies: { arm: ['O', 'T'], crank: ['C', 'P'] },
          sliders: { block: { point: 'P', on: ['O', 'T'] } },
        } as const);
        const found = forcesOf(drawing, [{ on: 'arm', moment }], { driver: { turn: 'crank' } });
        const press = moment / r;
        const within = 1e-10 * Math.max(1, Math.abs(moment));
        expectWithin(found.sliders.block, press, within);
        const [x, y] = [-press * cy, press * cx];
        expectForce(found.on.crank.P, [x, y], within);
        expectForce(found.on.arm.O, [x, y], within);
        expectForce(found.on.arm.T, [0, 0], within);
        expectForce(found.ground.C, [x, y], within);
        expectForce(found.ground.O, [-x, -y], within);
        expectWithin(found.driver, (P[1] - 100) * x - (P[0] - 300) * y, 1e3 * within);
      }),
      { numRuns: 20 },
    );
  });

  // A cantilever that can be drawn out: its root holds the load's moment, what drives its length the load along it.
  it.each([
    ['its length', { length: ['O', 'B'] }, 1],
    // Out of the plane as well the driver is longer than what it does here, by sqrt(500^2 + 1200^2) over 500.
    ['a length out of the plane', { length: ['O', 'B'], offset: 1200 }, 1300 / 500],
  ] as const)('a telescope with its direction kept is a cantilever, driven by %s', (_, driver, times) => {
    const drawing: Drawing = deepFreeze({
      points: { O: [0, 0], B: [300, 400] },
      ground: ['O'],
      bodies: {},
      fixedAngles: { root: ['ram'] },
      telescopes: { ram: ['O', 'B'] },
    });
    const found = forcesOf(drawing, [{ at: 'B', force: [70, -90] }], { driver });
    expectWithin(found.fixedAngles.root, 300 * 90 + 400 * 70, 1e-8);
    expectWithin(found.driver, ((-70 * 3 + 90 * 4) / 5) * times, 1e-10);
    expectForce(found.ground.O, [70, -90], 1e-10);
    // The member carries all of it: the driver acts inside it, as oil in a cylinder.
    expectForce(found.on.ram.O, [-70, 90], 1e-10);
  });

  it('a direction is kept by the same moment, told by its body or by a line of it', () => {
    const told = (direction: Direction) =>
      forcesOf(
        {
          points: { A: [0, 0], B: [300, 50], C: [200, 150] },
          ground: ['A'],
          bodies: { plate: ['A', 'B', 'C'] },
          fixedAngles: { kept: [direction] },
        },
        [
          { at: 'B', on: 'plate', force: [20, -100] },
          { on: 'plate', moment: 4000 },
        ],
      );
    for (const found of [told('plate'), told(['A', 'B']), told(['B', 'C']), told(['C', 'A'])]) {
      expectWithin(found.fixedAngles.kept, 300 * 100 + 50 * 20 - 4000, 1e-8);
      expectForce(found.ground.A, [20, -100], 1e-10);
      expectWithin(found.residual, 0, 1e-9);
    }
  });

  it('two directions kept together hold each other: the first against the second', () => {
    // The arm is held by the plate, the plate by a prop under its end.
    const drawing: Drawing = deepFreeze({
      points: { A: [0, 0], B: [100, 0], C: [0, 80], D: [50, 80] },
      ground: ['A', 'C'],
      bodies: { arm: ['A', 'B'], plate: ['C', 'D'] },
      fixedAngles: { geared: ['arm', 'plate'] },
      fixedCoordinates: [{ y: 'D' }],
    });
    const found = forcesOf(drawing, [{ at: 'B', force: [0, -30] }]);
    // 3000 on the arm, -3000 on the plate: the prop at 50 gives it back.
    expectWithin(found.fixedAngles.geared, 3000, 1e-9);
    expectWithin(found.fixedCoordinates[0], 60, 1e-10);
    expectForce(found.ground.A, [0, -30], 1e-10);
    expectForce(found.ground.C, [0, 60], 1e-10);
  });

  it('a ground point on no body carries what is held from it, and one that nothing is held from is not told', () => {
    const drawing: Drawing = deepFreeze({
      points: { A: [0, 0], P: [0, 200], G: [300, 200], H: [9, 9], K: [5, 0] },
      ground: ['A', 'G', 'H', 'K'],
      bodies: { arm: ['A', 'P'] },
      fixedAngles: { sight: [['G', 'P']] },
    });
    const loads: Load[] = [
      { at: 'P', force: [0, -50] },
      { at: 'K', force: [3, -4] },
    ];
    const found = forcesOf(drawing, loads, { driver: { turn: 'arm' } });
    expect(Object.keys(found.ground)).toEqual(['A', 'G', 'K']);
    expectForce(found.ground.K, [3, -4], 1e-12);
  });
});

describe.each(SOLVERS)('what is open in part, by %s', (_, forcesOf) => {
  it('is open there alone: three blocks of one body on a rail, told two ways to keep level, beside a propped arm', () => {
    const drawing: Drawing = deepFreeze({
      points: {
        G: [0, 0],
        H: [900, 0],
        S: [100, 0],
        T: [200, 0],
        U: [300, 0],
        A: [0, 300],
        B: [100, 300],
        C: [100, 400],
      },
      ground: ['G', 'H', 'A'],
      bodies: { train: ['S', 'T', 'U'], arm: ['A', 'B', 'C'] },
      sliders: {
        front: { point: 'S', on: ['G', 'H'] },
        middle: { point: 'T', on: ['G', 'H'] },
        back: { point: 'U', on: ['G', 'H'] },
      },
      fixedAngles: { level: ['train'], again: [['S', 'T']] },
      fixedCoordinates: [{ y: 'B' }],
    });
    const loads: Load[] = [
      { at: 'T', on: 'train', force: [7, -30] },
      { at: 'C', on: 'arm', force: [40, 0] },
    ];
    const found = forcesOf(drawing, loads, { driver: { x: 'S' } });
    expect(found.sliders).toEqual({ front: null, middle: null, back: null });
    expect(found.fixedAngles).toEqual({ level: null, again: null });
    expect(found.on.train.U).toBeNull();
    expectWithin(found.driver, -7, 1e-9);
    expectWithin(found.fixedCoordinates[0], 40, 1e-9);
    expectForce(found.on.arm.B, [0, 40], 1e-9);
    expectForce(found.on.arm.A, [-40, -40], 1e-9);
    expectForce(found.on.arm.C, [0, 0], 1e-9);
    expectForce(found.ground.A, [40, 40], 1e-9);
    expectWithin(found.residual, 0, 1e-9);
  });
});

describe('a redundant structure', () => {
  it('has what is determined given, and what is not said to be open', () => {
    const drawing: Drawing = deepFreeze({
      points: {
        A: [0, 0],
        B: [40, 90],
        C: [200, 0],
        D: [240, 90],
        E: [130, 20],
        F: [170, 110],
        P: [90, 150],
      },
      ground: ['A', 'C', 'E'],
      bodies: { left: ['A', 'B'], right: ['C', 'D'], middle: ['E', 'F'], table: ['B', 'D', 'F', 'P'] },
    });
    for (const [, solver] of SOLVERS) {
      const found = solver(drawing, [{ at: 'P', force: [0, -100] }], { driver: { x: 'P' } });
      // The arms are parallel: how they share the load along them is open, not what the driver has to hold.
      expect([found.on.left.B, found.on.right.D, found.on.middle.F]).toEqual([null, null, null]);
      expectWithin(found.driver, (-100 * 40) / 90, 1e-9);
    }
  });
});

describe('a linkage that nothing holds', () => {
  it('says what is left without a counterpart', () => {
    const swing: Drawing = { points: { A: [0, 0], B: [3, 0] }, ground: ['A'], bodies: { arm: ['A', 'B'] } };
    expectWithin(forces(swing, [{ at: 'B', force: [0, -10] }]).residual, 10, 1e-12);
    expect(judge(swing, [{ at: 'B', force: [0, -10] }]).residual).toBeGreaterThan(1);
    expect(forces(swing, [{ at: 'B', force: [-10, 0] }]).residual).toBeLessThan(1e-12);
  });

  it('says how many drivers or holds are missing where loads move what nothing drives', () => {
    const crane: Drawing = {
      points: { O: [0, 0], A: [100, 50], B: [150, 20], F: [40, -20], G: [90, 70] },
      ground: ['O', 'F'],
      bodies: { boom: ['O', 'A', 'G'], stick: ['A', 'B'] },
    };
    const cylinders = [{ length: ['F', 'A'] }, { length: ['G', 'B'] }] as const;
    const load: Load[] = [{ at: 'B', force: [0, -10] }];
    for (const given of [0, 1, 2]) {
      const { diagnostics, residual } = forces(crane, load, { drivers: cylinders.slice(0, given) });
      if (given === 2) expect(diagnostics).toEqual([]);
      else {
        const values = { residual, missing: 2 - given };
        expect(diagnostics).toEqual([{ code: 'notInEquilibrium', severity: 'conflict', path: '', values }]);
      }
      expect(forces(crane, [], { drivers: cylinders.slice(0, given) }).diagnostics).toEqual([]);
    }
    const [one] = forces(crane, load, { driver: cylinders[0] }).diagnostics;
    expect(sentence(one)).toMatch(
      /^Not in equilibrium: a force of [\d.]+ \(unit of the loads\) is left over; give 1 more driver or hold\.$/,
    );
  });

  it('misses one driver of a random linkage without, and none with one', () => {
    assert(
      property(linkages, integer({ min: -99, max: 99 }), ({ drawing }, moment) => {
        const loads: Load[] = [{ on: 'crank', moment }];
        const codes = (options?: StaticsOptions) =>
          forces(drawing, loads, options).diagnostics.map(({ code, values }) => [code, values.missing]);
        expect(codes({ driver: { turn: 'crank' } })).toEqual([]);
        if (mobility(drawing).degreesOfFreedom !== 1) return;
        expect(codes()).toEqual(moment === 0 ? [] : [['notInEquilibrium', 1]]);
      }),
    );
  });

  it('refuses loads so large that they cannot be computed with', () => {
    const swing: Drawing = { points: { A: [0, 0], B: [3, 0] }, ground: ['A'], bodies: { arm: ['A', 'B'] } };
    const loads: Load[] = [
      { at: 'B', force: [0, -1e307] },
      { on: 'arm', moment: 1e307 },
      { between: ['A', 'B'], push: -1e307 },
      { at: 'B', force: [1e100, -1e100] },
    ];
    expect(() => forces(swing, loads)).toThrow(
      [
        'invalid loads',
        '  [0].force: load that cannot be computed with, got [0,-1e+307] (allowed: -1e+100 to 1e+100)',
        '  [1].moment: load that cannot be computed with, got 1e+307 (allowed: -1e+100 to 1e+100)',
        '  [2].push: load that cannot be computed with, got -1e+307 (allowed: -1e+100 to 1e+100)',
      ].join('\n'),
    );
    const { on } = forces(swing, [{ at: 'B', force: [-1e100, 0] }]);
    expectForce(on.arm.A, [1e100, 0], 1e88);
  });

  it('refuses loads on what is not there, all at once', () => {
    const swing: Drawing = { points: { A: [0, 0], B: [3, 0] }, ground: ['A'], bodies: { arm: ['A', 'B'] } };
    const faulty = [
      { at: 'Q', force: [1, Number.NaN] },
      { on: 'leg', moment: 'x' },
      { between: ['A', 'A'], push: 1 },
      7,
    ] as unknown as Load[];
    expect(() => forces(swing, faulty)).toThrow(InputError);
    expect(() => forces(swing, faulty)).toThrow(
      [
        'invalid loads',
        '  [0].at: unknown point, got "Q" (allowed: A, B); correct the name or add the point to the drawing',
        '  [0].force: not a force, got [1,NaN] (allowed: two finite numbers [x, y])',
        '  [1].on: unknown body, got "leg" (allowed: arm); correct the name or add the body to the drawing',
        '  [1].moment: not a finite number, got "x" (allowed: a finite number)',
        '  [2].between: a load between two points in one place, got ["A","A"]; name two points that lie apart',
        '  [3]: not a load, got 7 (allowed: { at, force }, { on, moment }, { between, push })',
      ].join('\n'),
    );
  });
});
