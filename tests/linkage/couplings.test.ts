/** Couplings: gear trains and planetary sets by Willis, racks and belts, ropes by their length, geared five-bars by Newton and planegcs. */
import { Algorithm } from '@salusoft89/planegcs';
import { assert, double, integer, property, tuple } from 'fast-check';
import { type Drawing, InputError, linkage, type Measure, mobility, trace } from 'jounce/linkage';
import { forces, type Load } from 'jounce/statics';
import { checkLaws } from 'jounce/testing';
import { beforeAll, describe, expect, it } from 'vitest';
import { freeBodies } from '../judges/free-bodies.ts';
import { gearedFiveBar } from '../judges/geared-five-bar.ts';
import { loadPlanegcs, type PlanegcsModule } from '../judges/planegcs.ts';
import { ropeLength, type Stop } from '../judges/rope-length.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

type Pair = readonly [number, number];
const TURN = 2 * Math.PI;
const teeth = integer({ min: 12, max: 120 });
/** How far many revolutions may be off: roundings of the angle. */
const REVOLUTIONS = 64;

/** A wheel on a centre, marked by a point. */
const marked = ([x, y]: Pair, angle: number, r: number): Pair => [
  x + r * Math.cos(angle),
  y + r * Math.sin(angle),
];
const asDrawn = (drawing: Drawing) => drawing;

const pair = (ratio: number) =>
  linkage({
    points: { O: [0, 0], A: [30, 5], C: [100, 0], B: [90, 40] },
    ground: ['O', 'C'],
    bodies: { pinion: ['O', 'A'], wheel: ['C', 'B'] },
    ratios: { mesh: { of: [{ turn: 'wheel' }, { turn: 'pinion' }], ratio } },
  });

describe('a pair of gears', () => {
  it('turns by the ratio of teeth, the other way round, for hundreds of revolutions', () => {
    assert(
      property(teeth, teeth, integer({ min: -700_000, max: 700_000 }), (z1, z2, thousandths) => {
        const turn = thousandths / 1000;
        const motion = trace(pair(-z1 / z2), {
          driver: { turn: 'pinion' },
          from: Math.min(0, turn),
          to: Math.max(0, turn),
        });
        expectSame([motion.low.status, motion.high.status], ['reached', 'reached']);
        const { value, first, second } = motion.read({ turn: 'wheel' })(turn);
        expectClose(value, (-z1 / z2) * turn, { times: REVOLUTIONS, scale: 1 + Math.abs(turn * (z1 / z2)) });
        expectWithin(first, -z1 / z2, 1e-12 * (z1 / z2));
        // It is a difference of terms as large as the square of the ratio.
        expectWithin(second, 0, 1e-12 * (1 + z1 / z2) ** 2);
        const at = marked([100, 0], Math.atan2(40, -10) - (z1 / z2) * turn, Math.hypot(10, 40));
        motion.at(turn).B.forEach((value, k) => {
          expectWithin(value, at[k], 1e-12 * (1 + Math.abs(turn)) * 100);
        });
      }),
      { numRuns: 25 },
    );
  });

  it('is drawn again after as many revolutions as the least common multiple of its teeth', () => {
    // 20 and 50 teeth meet again after 100.
    const { high, low } = trace(pair(-20 / 50), { driver: { turn: 'pinion' } });
    expectSame([low.status, high.status], ['closed', 'closed']);
    expectWithin(high.at, 5 * TURN, 1e-9);
  });

  it('carries torques in the inverse ratio, and keeps the laws', () => {
    const drawing = pair(-0.4);
    const { driver, ratios, on } = forces(drawing, [{ on: 'wheel', moment: 10 }], {
      driver: { turn: 'pinion' },
    });
    // By virtual work M_p = -M_w dw/dp: 4 on the pinion; the wheel is held by -10.
    expectClose(driver, 4, { times: 16, scale: 10 });
    expectClose(ratios.mesh, -10, { times: 16, scale: 10 });
    // A couple: nothing on the pivots.
    for (const force of Object.values({ ...on.wheel, ...on.pinion }))
      expectWithin(Math.hypot(...(force as Pair)), 0, 1e-12);
    checkLaws(asDrawn, drawing, { driver: { turn: 'pinion' }, range: [-9, 20] });
  });
});

/** A planetary set: sun, planet on a carrier, ring; all marked by a point on the way to nowhere in particular. */
const planetary = (sun: number, planet: number, more: Partial<Drawing> = {}): Drawing => {
  const ring = sun + 2 * planet;
  const P = marked([0, 0], 0.3, sun + planet);
  const relativeTo = 'carrier';
  return {
    points: {
      O: [0, 0],
      S: marked([0, 0], 1.1, sun),
      P,
      Q: marked(P, 2.2, planet),
      R: marked([0, 0], -0.8, ring),
    },
    ground: ['O'],
    bodies: { sun: ['O', 'S'], carrier: ['O', 'P'], planet: ['P', 'Q'], ring: ['O', 'R'] },
    ratios: {
      inner: {
        of: [
          { turn: 'planet', relativeTo },
          { turn: 'sun', relativeTo },
        ],
        ratio: -sun / planet,
      },
      outer: {
        of: [
          { turn: 'planet', relativeTo },
          { turn: 'ring', relativeTo },
        ],
        ratio: ring / planet,
      },
    },
    ...more,
  };
};

describe('a planetary set', () => {
  it("keeps Willis' equation (R. Willis, Principles of Mechanism, 1841; the equation read in course notes)", () => {
    const speeds = tuple(
      teeth,
      teeth,
      double({ min: -20, max: 20, noNaN: true }),
      double({ min: -1, max: 1, noNaN: true }),
    );
    assert(
      property(speeds, ([sun, planet, turn, share]) => {
        const drawing = planetary(sun, planet);
        expectSame(mobility(drawing).degreesOfFreedom, 2);
        // The ring turns with the carrier by a share: any third ratio between them.
        const driven: Drawing = {
          ...drawing,
          ratios: {
            ...drawing.ratios,
            third: { of: [{ turn: 'ring' }, { turn: 'carrier' }], ratio: share === 0 ? 0.5 : share },
          },
        };
        const driver: Measure = { turn: 'sun' };
        const motion = trace(driven, { driver, from: Math.min(0, turn), to: Math.max(0, turn) });
        const [s, c, r] = ['sun', 'carrier', 'ring'].map((one) => motion.read({ turn: one })(turn).value);
        const ring = sun + 2 * planet;
        // (w_sun - w_carrier) / (w_ring - w_carrier) = -z_ring / z_sun
        expectWithin(sun * (s - c) + ring * (r - c), 0, 1e-12 * (sun + ring) * (1 + Math.abs(turn)));
      }),
      { numRuns: 30 },
    );
  });

  it('with its ring held turns the carrier by z_s / (z_s + z_r), and has torques as z_s : -(z_s + z_r) : z_r', () => {
    // 24 and 72 teeth: 4 to 1, the reduction of many a textbook (from memory).
    const drawing = planetary(24, 24, { ground: ['O', 'R'] });
    const motion = trace(drawing, { driver: { turn: 'sun' }, from: 0, to: 4 * TURN });
    expectClose(motion.read({ turn: 'carrier' })(4 * TURN).value, TURN, {
      times: REVOLUTIONS,
      scale: 4 * TURN,
    });
    expectClose(motion.read({ turn: 'carrier' })(1).first, 0.25, { times: REVOLUTIONS, scale: 1 });
    const free = planetary(24, 24);
    const loads: Load[] = [
      { on: 'sun', moment: 24 },
      { on: 'carrier', moment: -96 },
      { on: 'ring', moment: 72 },
    ];
    const { residual, ratios } = forces(free, loads);
    expectWithin(residual, 0, 1e-12 * 96);
    // On the planet: the sun drives it by 24 the other way, and the ring holds it by 72 (24/72).
    expectClose(ratios.inner, -24, { times: 64, scale: 96 });
    expectClose(ratios.outer, 24, { times: 64, scale: 96 });
  });

  it("is Ferguson's paradox with 99, 100 and 101 teeth on one idler", () => {
    const at = (angle: number): Pair => marked([0, 0], angle, 40);
    const P: Pair = [60, 0];
    const mesh = (gear: 'slow' | 'still' | 'back', z: number) =>
      ({
        of: [
          { turn: gear, relativeTo: 'arm' },
          { turn: 'idler', relativeTo: 'arm' },
        ],
        ratio: -20 / z,
      }) as const;
    const drawing = linkage({
      points: { O: [0, 0], P, I: marked(P, 1, 20), A: at(0.5), B: at(1.5), C: at(2.5) },
      ground: ['O', 'B'],
      bodies: { arm: ['O', 'P'], idler: ['P', 'I'], slow: ['O', 'A'], still: ['O', 'B'], back: ['O', 'C'] },
      ratios: { one: mesh('slow', 101), two: mesh('still', 100), three: mesh('back', 99) },
    });
    const revolutions = 101;
    const motion = trace(drawing, { driver: { turn: 'arm' }, from: 0, to: revolutions * TURN });
    expectSame(motion.high.status, 'reached');
    const turned = (one: 'slow' | 'still' | 'back') =>
      motion.read({ turn: one })(motion.high.at).value / TURN;
    // 1 - 100/101 and 1 - 100/99 of a revolution for each of the arm's (J. Ferguson, 1764; read with 19, 20 and 21 teeth: H. T. Brown's movement 504).
    const rounding = { times: REVOLUTIONS, scale: revolutions };
    expectClose(turned('slow'), revolutions / 101, rounding);
    expectClose(turned('still'), 0, rounding);
    expectClose(turned('back'), -revolutions / 99, rounding);
  });
});

describe('a rack, a belt', () => {
  it('travels by radius times turn, along any line, the pinion on its own slide', () => {
    const angle = double({ min: -3, max: 3, noNaN: true });
    assert(
      property(angle, double({ min: 2, max: 40, noNaN: true }), angle, (way, radius, turn) => {
        const u: Pair = [Math.cos(way), Math.sin(way)];
        const on = (t: number, s: number): Pair => [t * u[0] - s * u[1], t * u[1] + s * u[0]];
        const drawing = linkage({
          points: {
            O: [0, 0],
            A: [9, 4],
            near: on(-50, -20),
            far: on(80, -20),
            R: on(5, -20),
            S: on(25, -20),
          },
          ground: ['O', 'near', 'far'],
          bodies: { pinion: ['O', 'A'], rack: ['R', 'S'] },
          sliders: { front: { point: 'R', on: ['near', 'far'] }, back: { point: 'S', on: ['near', 'far'] } },
          ratios: {
            mesh: { of: [{ travel: 'R', along: ['near', 'far'] }, { turn: 'pinion' }], ratio: radius },
          },
        });
        const motion = trace(drawing, { driver: { turn: 'pinion' }, from: -4, to: 4 });
        const { R, S } = motion.at(turn);
        for (const [place, t] of [
          [R, 5],
          [S, 25],
        ] as const) {
          const goal = on(t + radius * turn, -20);
          place.forEach((value, k) => {
            expectWithin(value, goal[k], 1e-12 * 200);
          });
        }
        // 60 along the rack are 60 r on the pinion.
        const { driver } = forces(drawing, [{ at: 'R', force: [60 * u[0], 60 * u[1]] }], {
          driver: { turn: 'pinion' },
        });
        expectWithin(driver, -60 * radius, 1e-10 * 60 * radius);
      }),
      { numRuns: 30 },
    );
  });

  it('rolls a wheel on a moving rack: its centre goes by half the rack', () => {
    // A wheel of radius 10 between two racks, one held: from memory, any dynamics text.
    const drawing = linkage({
      points: {
        near: [-100, -10],
        far: [100, -10],
        C: [0, 0],
        M: [10, 0],
        T: [0, 10],
        U: [30, 10],
        line: [50, 0],
        back: [-50, 0],
      },
      ground: ['near', 'far', 'line', 'back'],
      bodies: { wheel: ['C', 'M'], rack: ['T', 'U'] },
      fixedCoordinates: [{ y: 'T' }, { y: 'U' }],
      sliders: { axle: { point: 'C', on: ['back', 'line'] } },
      ratios: {
        ground: { of: [{ x: 'C' }, { turn: 'wheel' }], ratio: -10 },
        top: { of: [{ travel: 'C', along: ['T', 'U'] }, { turn: 'wheel' }], ratio: 10 },
      },
    });
    const motion = trace(drawing, { driver: { x: 'T' }, from: -30, to: 30 });
    expectClose(motion.read({ x: 'C' })(30).value, 15, { times: 64, scale: 100 });
    expectClose(motion.read({ turn: 'wheel' })(30).value, -1.5, { times: 64, scale: 10 });
    checkLaws(asDrawn, drawing, { driver: { turn: 'wheel' }, range: [-1, 1.5] });
  });

  it('turns wheels of an open belt the same way, of a crossed one the other', () => {
    for (const [ratio, way] of [
      [40 / 25, 1],
      [-40 / 25, -1],
    ]) {
      const motion = trace(pair(ratio), { driver: { turn: 'pinion' }, from: 0, to: 25 });
      expectClose(motion.read({ turn: 'wheel' })(25).value, way * 40, { times: REVOLUTIONS, scale: 40 });
    }
  });

  it('couples a length: a winch of radius 8 takes in 8 a radian', () => {
    const drawing = linkage({
      points: { O: [0, 0], A: [8, 0], H: [30, -90], P: [70, -60] },
      ground: ['O', 'P'],
      bodies: { drum: ['O', 'A'], boom: ['P', 'H'] },
      ratios: { winch: { of: [{ length: ['O', 'H'] }, { turn: 'drum' }], ratio: -8 } },
    });
    const motion = trace(drawing, { driver: { turn: 'drum' }, from: -0.5, to: 0.5 });
    const { H } = motion.at(0.5);
    expectClose(Math.hypot(...H), Math.hypot(30, 90) - 4, { times: 16, scale: 100 });
    checkLaws(asDrawn, drawing, { driver: { turn: 'drum' }, range: [-0.5, 0.5] });
  });
});

const hoist = (stops: readonly string[]): Drawing => ({
  points: { beam: [0, 100], block: [0, 0], sheave: [0, 90], hook: [40, 20], over: [40, 100] },
  ground: ['beam', 'sheave', 'over'],
  bodies: {},
  fixedCoordinates: [{ x: 'block' }, { x: 'hook' }],
  ropes: { fall: stops },
});

describe('a rope', () => {
  it.each([
    [2, ['beam', 'block', 'over', 'hook']],
    [3, ['block', 'sheave', 'block', 'over', 'hook']],
  ])('over blocks lifts %i to 1 where it runs upright', (parts, stops) => {
    // Far above, all parts are upright: the beam is a thousand times as high as the blocks are wide.
    const { points, ...rest } = hoist(stops);
    const high = 1e6;
    const drawing: Drawing = {
      ...rest,
      points: { ...points, beam: [0, high], sheave: [0, high], over: [20, high] },
    };
    const motion = trace(drawing, { driver: { y: 'hook' }, from: 0, to: 60 });
    const { first } = motion.read({ y: 'block' })(motion.drawn);
    expectWithin(first, -1 / parts, 1e-9);
    const found = forces(drawing, [{ at: 'block', force: [0, -600] }], { driver: { y: 'hook' } });
    expectWithin(found.ropes.fall, 600 / parts, 1e-6);
    expectWithin(found.driver, -600 / parts, 1e-6);
    expectSame(found.diagnostics, []);
  });

  const at = (x: number, y: number) =>
    tuple(double({ min: x, max: x + 15, noNaN: true }), double({ min: y, max: y + 15, noNaN: true }));
  const radius = double({ min: 0, max: 12, noNaN: true });
  const side = integer({ min: 0, max: 1 });

  it('keeps its length over pulleys of any radius, on both sides', () => {
    let wide = 0;
    assert(
      property(
        at(0, 100),
        at(20, 20),
        at(50, 90),
        at(90, 10),
        radius,
        radius,
        side,
        side,
        (A, B, C, H, r1, r2, s1, s2) => {
          const sides = ['left', 'right'] as const;
          const drawing: Drawing = {
            points: { A, B, C, H },
            ground: ['A', 'C'],
            bodies: {},
            fixedCoordinates: [{ x: 'B' }, { x: 'H' }],
            ropes: {
              fall: [
                'A',
                { about: 'B', radius: r1, side: sides[s1] },
                { about: 'C', radius: r2, side: sides[s2] },
                'H',
              ],
            },
          };
          const stops = ({ A, B, C, H }: Record<string, Pair>): Stop[] => [
            { at: A, radius: 0, side: 1 },
            { at: B, radius: r1, side: s1 === 0 ? 1 : -1 },
            { at: C, radius: r2, side: s2 === 0 ? 1 : -1 },
            { at: H, radius: 0, side: 1 },
          ];
          const motion = trace(drawing, { driver: { y: 'H' }, from: H[1] - 8, to: H[1] + 8 });
          const drawn = ropeLength(stops({ A, B, C, H }));
          for (const t of [motion.low.at, motion.drawn + 3, motion.high.at].map((y) =>
            Math.min(motion.high.at, y),
          )) {
            const off = ropeLength(stops(motion.at(t) as Record<string, Pair>)) - drawn;
            // An arc is known but for whole turns.
            const turns = [0, -1, 1].flatMap((n) => [0, -1, 1].map((m) => TURN * (n * r1 + m * r2)));
            expectWithin(Math.min(...turns.map((turn) => Math.abs(off - turn))), 0, 1e-11 * 400);
            if (motion.high.at - motion.low.at > 10) wide++;
          }
          const loads: Load[] = [
            { at: 'B', force: [3, -100] },
            { at: 'H', force: [-20, 15] },
          ];
          const [found, judged] = [
            forces(drawing, loads, { driver: { y: 'H' } }),
            freeBodies(drawing, loads, { y: 'H' }),
          ];
          expectWithin(
            found.ropes.fall,
            judged.ropes.fall as number,
            1e-9 * (1 + Math.abs(judged.ropes.fall as number)),
          );
          expectWithin(found.driver, judged.driver as number, 1e-9 * (1 + Math.abs(judged.driver as number)));
        },
      ),
      { numRuns: 60 },
    );
    expect(wide).toBeGreaterThan(60);
  });

  it('keeps the laws, with pulleys', () => {
    const drawing = linkage({
      points: { A: [0, 100], B: [20, 40], C: [60, 100], H: [100, 20], O: [70, 0], P: [40, -20] },
      ground: ['A', 'C', 'O', 'P'],
      bodies: { boom: ['O', 'H'], link: ['P', 'B'] },
      ropes: {
        fall: ['A', { about: 'B', radius: 10, side: 'left' }, { about: 'C', radius: 15, side: 'right' }, 'H'],
      },
    });
    checkLaws(asDrawn, drawing, { driver: { turn: 'boom' }, range: [-0.2, 0.2] });
  });

  it('stops the linkage where a straight part is used up, and names it', () => {
    const drawing = linkage({
      points: { A: [0, 100], B: [0, 60], C: [30, 0], D: [30, 90] },
      ground: ['A', 'D'],
      bodies: {},
      fixedCoordinates: [{ x: 'B' }, { x: 'C' }],
      ropes: { fall: ['B', 'A', 'D', 'C'] },
    });
    for (const to of [Number.POSITIVE_INFINITY, 500]) {
      // The hook C goes down, and B up to the pulley A, 40 above.
      const { low, high } = trace(drawing, { driver: { y: 'C' }, from: -to, to });
      expectSame(
        [low.status, low.constraint, high.status, high.constraint],
        ['locked', 'rope fall', 'locked', 'rope fall'],
      );
      expectWithin(low.at, -40, 1e-9);
      expectWithin(high.at, 90, 1e-9);
    }
  });

  it('that would have to push is named', () => {
    const drawing = hoist(['beam', 'block', 'over', 'hook']);
    const pulled = forces(drawing, [{ at: 'block', force: [0, -10] }], { driver: { y: 'hook' } });
    expectSame(pulled.diagnostics, []);
    const { ropes, diagnostics } = forces(drawing, [{ at: 'block', force: [0, 10] }], {
      driver: { y: 'hook' },
    });
    expectSame(
      diagnostics.map(({ code, severity, path }) => [code, severity, path]),
      [['slackRope', 'conflict', 'ropes.fall']],
    );
    expectWithin(diagnostics[0].values.push as number, -(ropes.fall as number), 1e-12);
  });

  // F. P. Beer, E. R. Johnston and others, "Vector Mechanics: Statics", Sample Problem 4.6 (seen; the digits recomputed in statics.test.ts).
  it('holds a joist as a bar in its place does', () => {
    const DEGREE = Math.PI / 180;
    const top: Pair = [4 * Math.cos(45 * DEGREE), 4 * Math.sin(45 * DEGREE)];
    const anchor: Pair = [top[0] - 5 * Math.cos(20 * DEGREE), top[1] - 5 * Math.sin(20 * DEGREE)];
    const drawing = linkage({
      points: { foot: [0, 0], top, middle: [top[0] / 2, top[1] / 2], anchor },
      ground: ['foot', 'anchor'],
      bodies: { joist: ['foot', 'top', 'middle'] },
      ropes: { stay: ['anchor', 'top'] },
    });
    const found = forces(drawing, [{ at: 'middle', on: 'joist', force: [0, -98.1] }]);
    expectWithin(found.ropes.stay, 82.06836, 1e-5);
  });
});

const fiveBar = {
  O: [0, 0],
  C: [100, 0],
  A: [40 * Math.cos(1.2), 40 * Math.sin(1.2)],
  D: [100 + 25 * Math.cos(1.8), 25 * Math.sin(1.8)],
  B: [62, 95],
} as const;

describe('a geared five-bar', () => {
  const drawn = (ratio: number) =>
    linkage({
      points: fiveBar,
      ground: ['O', 'C'],
      bodies: { left: ['O', 'A'], right: ['C', 'D'], up: ['A', 'B'], down: ['D', 'B'] },
      ratios: { gears: { of: [{ turn: 'right' }, { turn: 'left' }], ratio } },
    });

  it.each([-1, 1.5, -0.4])("is that of Newton's method, ratio %f", (ratio) => {
    const motion = trace(drawn(ratio), { driver: { x: 'B' } });
    expect(motion.high.at - motion.low.at).toBeGreaterThan(10);
    for (const share of [-0.9, -0.4, 0.3, 0.9]) {
      const x =
        motion.drawn + share * (share < 0 ? motion.drawn - motion.low.at : motion.high.at - motion.drawn);
      const { a, c, B } = gearedFiveBar({ ...fiveBar, ratio }, x);
      const within = 1e-10;
      expectWithin(motion.read({ turn: 'left' })(x).value, a, within);
      expectWithin(motion.read({ turn: 'right' })(x).value, c, within);
      expectWithin(motion.at(x).B[1], B[1], 100 * within);
    }
    checkLaws(asDrawn, drawn(ratio), { driver: { turn: 'left' }, range: [-0.1, 0.1] });
  });

  describe('by planegcs', () => {
    let gcs: PlanegcsModule;
    beforeAll(async () => {
      gcs = await loadPlanegcs();
    });

    // Its proportional constraint takes whole angles: the cranks are drawn at 1.2 and 1.8, ratio 1.5.
    it('has the pose of two proportional angles', () => {
      const motion = trace(drawn(1.5), { driver: { turn: 'left' }, from: -0.2, to: 0.2 });
      for (const turn of [-0.2, -0.07, 0.1, 0.2]) {
        const s = new gcs.GcsSystem();
        s.set_debug_mode(0);
        s.set_max_iterations(200);
        const unit = 100;
        const param = Object.fromEntries(
          Object.entries(fiveBar).map(([name, [x, y]]) => {
            const isFixed = name === 'O' || name === 'C';
            const first = s.push_p_param(x / unit, isFixed);
            s.push_p_param(y / unit, isFixed);
            return [name, first];
          }),
        );
        const point = (name: string) => s.make_point(param[name], param[name] + 1);
        const bars = [
          ['O', 'A'],
          ['C', 'D'],
          ['A', 'B'],
          ['D', 'B'],
        ] as const;
        bars.forEach(([p, q], k) => {
          const [a, b] = [fiveBar[p], fiveBar[q]];
          const length = s.push_p_param(Math.hypot(b[0] - a[0], b[1] - a[1]) / unit, true);
          s.add_constraint_p2p_distance(point(p), point(q), length, k + 1, true, 1e4);
        });
        const left = s.push_p_param(1.2 + turn, true);
        const right = s.push_p_param(1.8, false);
        s.add_constraint_p2p_angle(point('O'), point('A'), left, 11, true, 1e4);
        s.add_constraint_p2p_angle(point('C'), point('D'), right, 12, true, 1e4);
        // param 1 is the ratio times param 2.
        s.add_constraint_proportional(right, left, 1.5, 13, true, 1e4);
        expect(s.solve_system(Algorithm.DogLeg)).toBeLessThanOrEqual(1);
        s.apply_solution();
        const B = [0, 1].map((axis) => s.get_p_param(param.B + axis) * unit);
        expectWithin(Math.hypot(B[0] - motion.at(turn).B[0], B[1] - motion.at(turn).B[1]), 0, 1e-9);
        s.delete();
      }
    });
  });
});

describe('mobility with couplings', () => {
  it('names a ratio that a parallelogram keeps anyhow, and one that contradicts it', () => {
    const drawing = (ratio: number) =>
      linkage({
        points: { O: [0, 0], A: [10, 30], B: [90, 30], C: [80, 0] },
        ground: ['O', 'C'],
        bodies: { left: ['O', 'A'], coupler: ['A', 'B'], right: ['C', 'B'] },
        ratios: { gears: { of: [{ turn: 'left' }, { turn: 'right' }], ratio } },
      });
    const one = mobility(drawing(1));
    expectSame([one.kutzbach, one.degreesOfFreedom, one.redundant, one.contradicting], [0, 1, 1, null]);
    expectSame(
      [...one.dependent].sort(),
      ['body coupler', 'body left', 'body right', 'ratio gears']
        .filter((name) => one.dependent.includes(name))
        .sort(),
    );
    expect(one.dependent).toContain('ratio gears');
    expectSame(mobility(drawing(1.2)).degreesOfFreedom, 0);
    expect(() => trace(drawing(1.2))).toThrow(/4 constraints .*ratio gears.* on 4 coordinates/);
  });
});

describe('a faulty coupling', () => {
  const base = {
    points: { O: [0, 0], A: [30, 5], C: [100, 0], B: [90, 40] },
    ground: ['O', 'C'],
    bodies: { pinion: ['O', 'A'], wheel: ['C', 'B'] },
  };
  const issues = (more: object) => {
    try {
      linkage({ ...base, ...more } as Drawing);
    } catch (error) {
      if (error instanceof InputError) return error.issues.map(({ code, path }) => [code, path]);
      throw error;
    }
    return [];
  };
  const of = [{ turn: 'wheel' }, { turn: 'pinion' }];

  it.each([
    [{ ratios: { mesh: { of, ratio: 0 } } }, 'notARatio', 'ratios.mesh.ratio'],
    [{ ratios: { mesh: { of, ratio: Number.NaN } } }, 'notARatio', 'ratios.mesh.ratio'],
    [{ ratios: { mesh: { of: [of[0]], ratio: 1 } } }, 'partNotAsDrawn', 'ratios.mesh'],
    [
      { ratios: { mesh: { of: [of[0], { turn: 'arm' }], ratio: 1 } } },
      'unknownName',
      'ratios.mesh.of[1].turn',
    ],
    [
      { ratios: { mesh: { of: [of[0], { travel: 'A', along: ['O', 'B'] }], ratio: 1 } } },
      'lineBetweenBodies',
      'ratios.mesh.of[1].along',
    ],
    [{ ropes: { stay: ['A'] } }, 'partNotAsDrawn', 'ropes.stay'],
    [{ ropes: { stay: [{ about: 'A', radius: 3, side: 'left' }, 'B'] } }, 'partNotAsDrawn', 'ropes.stay'],
    [
      { ropes: { stay: ['A', { about: 'O', radius: -3, side: 'left' }, 'B'] } },
      'notARadius',
      'ropes.stay[1].radius',
    ],
    [{ ropes: { stay: ['A', 'A', 'B'] } }, 'ropeOfNoLength', 'ropes.stay'],
    [
      { ropes: { stay: ['A', { about: 'O', radius: 31, side: 'left' }, 'B'] } },
      'ropeOfNoLength',
      'ropes.stay',
    ],
    [{ ropes: { stay: ['A', 'Z', 'B'] } }, 'unknownName', 'ropes.stay[1]'],
  ])('%j is refused', (more, code, path) => {
    expectSame(issues(more), [[code, path]]);
  });
});
