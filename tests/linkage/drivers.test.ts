/** Several drivers along one parameter: a two-link arm and a five-bar in closed form, and random linkages against their own bars. */
import { assert, constantFrom, double, pre, property } from 'fast-check';
import {
  type Drawing,
  drive,
  InputError,
  type Measure,
  type Point,
  type ScheduledDriver,
  type TraceOptions,
  trace,
} from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { fourBars, linkages, sizeOf } from '../support/linkages.ts';
import { loosened } from '../support/loosened.ts';
import { distance, placeAt, share } from '../support/motions.ts';
import { few } from '../support/runs.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

const unit = double({ min: 0, max: 1, noNaN: true });
const angle = double({ min: -1, max: 1, noNaN: true });

/** Two links from O, 3 and 2 long, drawn with the elbow at a right angle. */
const arm = deepFreeze({
  points: { O: [0, 0], E: [3, 0], H: [3, 2] },
  ground: ['O'],
  bodies: { upper: ['O', 'E'], fore: ['E', 'H'] },
} as const);

/** Two cranks on ground pivots, joined by two bars. */
const fiveBar = deepFreeze({
  points: { A: [0, 0], B: [-1, 3], C: [2, 6], D: [5, 3], E: [4, 0] },
  ground: ['A', 'E'],
  bodies: { left: ['A', 'B'], first: ['B', 'C'], second: ['C', 'D'], right: ['E', 'D'] },
} as const);

/** The hand of the arm for turns of the upper arm, and of the forearm relative to it. */
const hand = (upper: number, elbow: number) => {
  const whole = Math.PI / 2 + upper + elbow;
  return [3 * Math.cos(upper) + 2 * Math.cos(whole), 3 * Math.sin(upper) + 2 * Math.sin(whole)];
};

const joints = (upper: number, elbow: number) =>
  [
    { driver: { turn: 'upper' }, to: upper },
    { driver: { turn: 'fore', relativeTo: 'upper' }, to: elbow },
  ] as const;

describe('a two-link arm', () => {
  it('has its hand where its joints put it, and that with its derivatives: closed form', () => {
    assert(
      property(angle, angle, unit, (upper, elbow, u) => {
        const motion = trace(arm, { drivers: joints(3 * upper, 3 * elbow) });
        expectSame(
          [motion.low, motion.high, motion.drawn],
          [{ at: 0, status: 'reached' }, { at: 1, status: 'reached' }, 0],
        );
        const [a, b] = [3 * upper, 3 * (upper + elbow)];
        const [x, y] = hand(a * u, 3 * elbow * u);
        expectClose(motion.at(u).H[0], x, { times: 2 ** 9, scale: 5 });
        expectClose(motion.at(u).H[1], y, { times: 2 ** 9, scale: 5 });
        const { first, second } = motion.read({ x: 'H' })(u);
        const whole = Math.PI / 2 + b * u;
        expectClose(first, -3 * a * Math.sin(a * u) - 2 * b * Math.sin(whole), { times: 2 ** 12, scale: 30 });
        expectClose(second, -3 * a * a * Math.cos(a * u) - 2 * b * b * Math.cos(whole), {
          times: 2 ** 15,
          scale: 180,
        });
      }),
    );
  });

  it('turns many times over', () => {
    const motion = trace(arm, { drivers: joints(30, -12) });
    expectSame(motion.high, { at: 1, status: 'reached' });
    const [x, y] = hand(30, -12);
    expectClose(motion.at(1).H[0], x, { times: 2 ** 12, scale: 5 });
    expectClose(motion.at(1).H[1], y, { times: 2 ** 12, scale: 5 });
    expectClose(motion.read({ turn: 'fore' })(1).value, 18, { times: 2 ** 10, scale: 18 });
  });

  it('leads its hand along a straight line up to where it is stretched: a dead point of both', () => {
    const motion = trace(arm, {
      drivers: [
        { driver: { x: 'H' }, to: 7 },
        { driver: { y: 'H' }, to: 1 },
      ],
    });
    const { at, status, driver } = motion.high;
    expectSame([status, driver], ['deadPoint', undefined]);
    // (3 + 4 u)^2 + (2 - u)^2 = 25
    expectClose(at, (-10 + Math.sqrt(304)) / 17, { times: 64, scale: 1 });
    const { value, first, second } = motion.read({ turn: 'fore', relativeTo: 'upper' })(at);
    expectClose(value, -Math.PI / 2, { times: 2 ** 28, scale: 1 });
    expectSame([first, second], [null, null]);
    const reach = drive(arm, [
      { driver: { x: 'H' }, to: 7 },
      { driver: { y: 'H' }, to: 1 },
    ]);
    expectClose(reach.shortfall[0], 4 * (1 - at), { times: 64, scale: 7 });
    expectClose(reach.shortfall[1], -(1 - at), { times: 64, scale: 7 });
  });

  it('names the driver that cannot go on where that is one: its reach when it is stretched', () => {
    const reach = { length: ['O', 'H'] } as const;
    for (const turned of [0, 0.8, -2]) {
      const drivers = [
        { driver: { turn: 'upper' }, to: turned },
        { driver: reach, to: 6 },
      ] as const;
      const { high } = trace(arm, { drivers });
      expectSame([high.status, high.driver], ['deadPoint', 'drivers[1]']);
      const [from, to] = [Math.hypot(3, 2), 5];
      expectClose(high.at, (to - from) / (6 - from), { times: 64, scale: 1 });
      expectSame(drive(arm, drivers).end, high);
      const short = { ...drivers[1], to: 0.5 };
      expectSame(trace(arm, { drivers: [short, drivers[0]] }).high.driver, 'drivers[0]');
    }
  });

  it('follows schedules as they are, with their derivatives: closed form', () => {
    assert(
      property(angle, angle, unit, (size, rate, share) => {
        const w = 4 * rate;
        const drivers: ScheduledDriver<'O' | 'E' | 'H', 'upper' | 'fore'>[] = [
          {
            driver: { turn: 'upper' },
            schedule: (u) => [
              size * Math.sin(w * u),
              size * w * Math.cos(w * u),
              -size * w * w * Math.sin(w * u),
            ],
          },
          {
            driver: { turn: 'fore', relativeTo: 'upper' },
            schedule: (u) => [(u * u * u) / 4, 0.75 * u * u, 1.5 * u],
          },
        ];
        const motion = trace(arm, { drivers, from: -1, to: 2 });
        expectSame([motion.low.at, motion.high.at], [-1, 2]);
        const u = -1 + 3 * share;
        const [x, y] = hand(size * Math.sin(w * u), u ** 3 / 4);
        expectWithin(motion.at(u).H[0], x, 1e-11);
        expectWithin(motion.at(u).H[1], y, 1e-11);
        const { value, first, second } = motion.read({ turn: 'upper' })(u);
        expectWithin(value, size * Math.sin(w * u), 1e-11);
        expectWithin(first, size * w * Math.cos(w * u), 1e-10);
        expectWithin(second, -size * w * w * Math.sin(w * u), 1e-8);
      }),
    );
  });

  it('follows a schedule whose acceleration jumps', () => {
    // Even acceleration, then even speed.
    const schedule = (u: number) =>
      (u < 0.3 ? [u * u, 2 * u, 2] : [0.6 * u - 0.09, 0.6, 0]) as [number, number, number];
    const motion = trace(arm, {
      drivers: [
        { driver: { turn: 'upper' }, schedule },
        { driver: { turn: 'fore' }, to: 1 },
      ],
    });
    for (const u of [0.1, 0.29, 0.31, 1]) {
      const { value, first, second } = motion.read({ turn: 'upper' })(u);
      const [wanted, rate, acceleration] = schedule(u);
      expectWithin(value, wanted, 1e-12);
      expectWithin(first, rate, 1e-12);
      expectWithin(second, acceleration, 1e-10);
    }
  });
});

describe('a length that drives', () => {
  const telescope = deepFreeze({
    points: { O: [0, 0], P: [3, 1] },
    ground: ['O'],
    bodies: {},
    telescopes: { leg: ['O', 'P'] },
  } as const);

  it('goes down to nothing and no farther', () => {
    const length = Math.hypot(3, 1);
    const motion = trace(telescope, {
      drivers: [
        { driver: { length: ['O', 'P'] }, to: -1 },
        { driver: { turn: 'leg' }, to: 1 },
      ],
    });
    expectSame([motion.high.status, motion.high.driver], ['deadPoint', 'drivers[0]']);
    expectWithin(motion.high.at, length / (length + 1), 1e-8);
    const { shortfall } = drive(telescope, [
      { driver: { length: ['O', 'P'] }, to: -1 },
      { driver: { turn: 'leg' }, to: 1 },
    ]);
    expectWithin(shortfall[0], -1, 1e-7);
  });

  it('with an offset out of the plane is that long: closed form', () => {
    const motion = trace(telescope, {
      drivers: [
        { driver: { length: ['O', 'P'], offset: 4 }, to: 6 },
        { driver: { turn: 'leg' }, to: 1 },
      ],
    });
    const { P } = motion.at(1);
    expectClose(Math.hypot(...P), Math.sqrt(20), { times: 64, scale: 6 });
    expectClose(Math.atan2(P[1], P[0]), Math.atan2(1, 3) + 1, { times: 64, scale: 2 });
  });
});

describe('one driver in a list', () => {
  it('gives the motion of that driver, to rounding', () => {
    assert(
      property(fourBars, share, ({ drawing }, part) => {
        const driver = { turn: 'crank' } as const;
        const [low, high] = [-0.4, 0.5];
        const one = trace(drawing, { driver, from: low, to: high });
        const listed = trace(drawing, { drivers: [{ driver, from: low, to: high }] });
        const reached = [one.low, one.high].every(({ status }) => status === 'reached');
        const turn = (u: number) => low + u * (high - low);
        const scale = sizeOf(drawing);
        for (const end of ['low', 'high'] as const) {
          expectSame(listed[end].status, one[end].status);
          expectWithin(turn(listed[end].at), one[end].at, 1e-9);
        }
        // A dead point squares what is known of a place near it.
        const u = placeAt(listed, reached ? part : 0.9 * part);
        const [wanted, found] = [one.at(turn(u)), listed.at(u)];
        for (const name in found) {
          expectWithin(distance(found[name], wanted[name]), 0, 1e-10 * scale);
        }
      }),
    );
  });
});

describe('one driver in a list, where the motion is special', () => {
  const parallelogram = {
    points: { A: [0, 0], B: [1, 2], C: [5, 2], D: [4, 0] },
    ground: ['A', 'D'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
  } as const;
  /** The same with a third crank, its foot off the place where it fits. */
  const third = (off: number): Drawing => ({
    points: { ...parallelogram.points, M: [2 + off, 0], N: [3, 2] },
    ground: ['A', 'D', 'M'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C', 'N'], rocker: ['D', 'C'], third: ['M', 'N'] },
  });
  const crank = { driver: { turn: 'crank' }, from: -3, to: 3 };

  it('meets bifurcations, and passes them where a third crank lets it', () => {
    const { low, high } = trace(parallelogram as Drawing, { drivers: [crank] });
    expectSame([low.status, high.status], ['bifurcation', 'bifurcation']);
    // Flat where the crank, drawn at atan 2, lies along the ground.
    expectWithin(-3 + 6 * low.at, -Math.atan(2), 1e-9);
    expectWithin(-3 + 6 * high.at, Math.PI - Math.atan(2), 1e-9);
    const passed = trace(third(0), { drivers: [crank] });
    expectSame([passed.low.status, passed.high.status], ['reached', 'reached']);
  });

  it('allows a tolerance, and says without it what does not fit', () => {
    const options = { driver: { turn: 'crank' }, from: -0.2, to: 0.3, tolerance: 0.02 };
    const { driver, from, to, tolerance } = options;
    const one = trace(third(0.001), options);
    const listed = trace(third(0.001), { drivers: [{ driver, from, to }], tolerance });
    expectSame(listed.high.status, one.high.status);
    expectWithin(distance(listed.at(1).C, one.at(0.3).C), 0, 1e-10);
    expect(() => trace(third(0.01), { drivers: [crank] })).toThrow(/the rest moves if the length of one/);
  });
});

describe('a linkage without some of its bars', () => {
  it('moves as with them when their lengths are held, or driven out and back', () => {
    let waved = 0;
    const runs = few(25);
    assert(
      property(linkages, unit, angle, constantFrom(1, 2), ({ drawing }, u, way, count) => {
        const { loose, lengths } = loosened(drawing, count);
        pre(lengths.every(({ length }) => length.every((name) => name in loose.points)));
        const whole = trace(drawing, { driver: { turn: 'crank' } });
        const to = 0.8 * (way < 0 ? -way * Math.max(whole.low.at, -3) : way * Math.min(whole.high.at, 3));
        const crank = { driver: { turn: 'crank' }, to };
        const motion = trace(loose, { drivers: [crank], hold: lengths });
        expectSame(motion.high, { at: 1, status: 'reached' });
        const expectThere = (found: Record<string, Point>, wanted: Record<string, Point>) => {
          for (const name in found)
            expectWithin(distance(found[name], wanted[name]), 0, 1e-9 * sizeOf(drawing));
        };
        expectThere(motion.at(u), whole.at(u * to));
        // The lengths wave by a hundredth and are as drawn at the end.
        const waving = lengths.map((driver): ScheduledDriver => {
          const [a, b] = driver.length.map((name) => drawing.points[name]);
          const [length, w] = [distance(a, b), 2 * Math.PI];
          const h = 0.01 * length;
          return {
            driver,
            schedule: (t) => [
              length + h * Math.sin(w * t),
              h * w * Math.cos(w * t),
              -h * w * w * Math.sin(w * t),
            ],
          };
        });
        const wave = trace(loose, { drivers: [crank, ...waving] });
        if (wave.high.status !== 'reached') return;
        expectThere(wave.at(1), whole.at(to));
        waved++;
      }),
      runs,
    );
    expect(waved).toBeGreaterThanOrEqual(runs.numRuns / 2);
  });
});

describe('a five-bar', () => {
  const measures = constantFrom<
    Measure<'A' | 'B' | 'C' | 'D' | 'E', 'left' | 'first' | 'second' | 'right'>[]
  >(
    { x: 'C' },
    { y: 'C' },
    { length: ['A', 'C'] },
    { angle: ['B', 'C'] },
    { turn: 'second', relativeTo: 'first' },
    { x: 'C', relativeTo: 'left' },
    { y: 'E', relativeTo: 'second' },
  );

  it('has the derivatives that differences show, whatever drives', () => {
    assert(
      property(measures, measures, angle, angle, (one, read, left, by) => {
        const scale = 'turn' in one || 'angle' in one ? 0.2 : 1;
        const start = trace(fiveBar, {
          drivers: [
            { driver: one, to: 0 },
            { driver: { turn: 'right' }, to: 0 },
          ],
          to: 0,
        });
        const to = start.read(one)(0).value + scale * by;
        const motion = trace(fiveBar, {
          drivers: [
            { driver: one, to },
            { driver: { turn: 'right' }, to: 0.3 * left },
          ],
        });
        if (motion.high.at < 0.5) return;
        const reading = motion.read(read);
        const h = 1e-4;
        const u = 0.4 * motion.high.at;
        const [before, here, after] = [u - h, u, u + h].map(reading);
        const size = 10 + Math.abs(here.first ?? 0) + 10 * Math.abs(here.second ?? 0);
        expectWithin(here.first, (after.value - before.value) / (2 * h), 1e-6 * size);
        expectWithin(here.second, ((after.first ?? 0) - (before.first ?? 0)) / (2 * h), 1e-5 * size);
        // What drives goes in proportion.
        const driven = motion.read(one)(u);
        expectClose(driven.value, start.read(one)(0).value * (1 - u) + to * u, { times: 2 ** 10, scale: 10 });
        expectWithin(driven.second, 0, 1e-9);
      }),
    );
  });

  it('comes home when driven out and back', () => {
    const turned = ([x, y]: Point, by: number): Point => [
      x * Math.cos(by) - y * Math.sin(by),
      x * Math.sin(by) + y * Math.cos(by),
    ];
    /** From the end of one crank to that of the other: the two bars are 2 sqrt 18 long in line. */
    const apart = (left: number, right: number) => {
      const [[bx, by], [dx, dy]] = [turned([-1, 3], left), turned([1, 3], right)];
      return Math.hypot(4 + dx - bx, dy - by);
    };
    assert(
      property(angle, angle, (left, right) => {
        const way = Array.from({ length: 51 }, (_, k) =>
          apart((0.5 * left * k) / 50, (0.5 * right * k) / 50),
        );
        pre(Math.max(...way) < 2 * Math.sqrt(18) - 1e-3);
        const there = drive(fiveBar, [
          { driver: { turn: 'left' }, to: 0.5 * left },
          { driver: { turn: 'right' }, to: 0.5 * right },
        ]);
        expectSame(there.shortfall, [0, 0]);
        const back = drive(there.drawing, [
          { driver: { turn: 'left' }, to: -0.5 * left },
          { driver: { turn: 'right' }, to: -0.5 * right },
        ]);
        for (const name of ['B', 'C', 'D'] as const) {
          expectWithin(distance(back.drawing.points[name], fiveBar.points[name]), 0, 1e-13);
        }
      }),
    );
  });

  it('is drawn anywhere between the ends of its drivers', () => {
    const drivers = [
      { driver: { turn: 'left' }, from: -0.1, to: 0.3 },
      { driver: { turn: 'right' }, from: -0.2, to: 0.6 },
    ] as const;
    const motion = trace(fiveBar, { drivers });
    expectClose(motion.drawn, 0.25, { times: 4, scale: 1 });
    expectSame(
      [motion.low, motion.high],
      [
        { at: 0, status: 'reached' },
        { at: 1, status: 'reached' },
      ],
    );
    expectClose(motion.read({ turn: 'right' })(0).value, -0.2, { times: 16, scale: 1 });
    expectClose(motion.at(motion.drawn).C[1], 6, { times: 16, scale: 6 });
  });

  it('is held by measures of any kind beside its drivers', () => {
    const held = { x: 'C', relativeTo: 'right' } as const;
    const motion = trace(fiveBar, { drivers: [{ driver: { turn: 'left' }, to: 0.3 }], hold: [held] });
    const reading = motion.read(held);
    expectClose(reading(1).value, reading(0).value, { times: 64, scale: 6 });
    expectWithin(reading(0.5).first, 0, 1e-12);
  });
});

describe('drivers that are none', () => {
  const [left, right] = [{ turn: 'left' } as const, { turn: 'right' } as const];
  const good = { driver: right, to: 0.2 };
  const refused: readonly (readonly [code: string, options: unknown])[] = [
    ['noDriver', { drivers: [] }],
    ['notADriver', { drivers: [null, good] }],
    ['driverAndDrivers', { driver: left, drivers: [{ driver: left, to: 0 }, good] }],
    ['notFinite', { drivers: [{ driver: left }, good] }],
    ['notFinite', { drivers: [{ driver: left, to: 1 }, good], to: Number.POSITIVE_INFINITY }],
    ['unknownOption', { drivers: [{ driver: left, schedule: () => [0, 0, 0], to: 1 }, good] }],
    ['notASchedule', { drivers: [{ driver: left, schedule: 1 }, good] }],
    ['scheduleNotNumbers', { drivers: [{ driver: left, schedule: () => 1 }, good] }],
    ['scheduleDerivatives', { drivers: [{ driver: left, schedule: (u: number) => [u, 2, 0] }, good] }],
    [
      'scheduleDerivatives',
      {
        drivers: [
          { driver: left, schedule: (u: number) => [Math.abs(u - 0.3) - 0.3, u < 0.3 ? -1 : 1, 0] },
          good,
        ],
      },
    ],
    ['drawnPoseOffSchedule', { drivers: [{ driver: left, schedule: (u: number) => [1 + u, 1, 0] }, good] }],
    ['drawnPoseOffSchedule', { drivers: [{ driver: left, from: -0.1, to: 0.1 }, good] }],
    ['rangeWithoutDrawnPose', { drivers: [{ driver: left, to: 1 }, good], from: 0.5 }],
    ['driversForFreedoms', { drivers: [good] }],
    ['driversForFreedoms', { drivers: [{ driver: left, to: 1 }, good, { driver: { x: 'C' }, to: 3 }] }],
    ['driversDependent', { drivers: [good, { driver: { angle: ['E', 'D'] }, to: 1 }] }],
    ['driverNeverChanges', { drivers: [good, { driver: { x: 'A' }, to: 1 }] }],
  ];

  it.each(refused)('are refused: %s', (code, options) => {
    let thrown: unknown;
    try {
      trace(fiveBar as Drawing, options as TraceOptions);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(InputError);
    expect((thrown as InputError).issues.map((issue) => issue.code)).toContain(code);
  });
});
