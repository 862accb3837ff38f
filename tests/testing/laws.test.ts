/** The laws hold over every random linkage, and catch the smallest bug planted in each. */
import * as fc from 'fast-check';
import { doubleWishbone, pushrod } from 'jounce';
import { type Drawing, type Measure, trace } from 'jounce/linkage';
import {
  checkLaws,
  doubleWishbones,
  fourBars,
  LawBroken,
  type LawOptions,
  laws,
  linkages,
  pushrods,
  type Trace,
  type Traced,
} from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { deepFreeze } from '../support/freeze.ts';

const asDrawn = (drawing: Drawing) => drawing;
const corner = (input: Parameters<typeof doubleWishbone>[0]) => modelOf(doubleWishbone(input)).drawing;
const rocker = (input: Parameters<typeof pushrod>[0]) => modelOf(pushrod(input)).drawing;

/** Crank O-A and rod A-B, whose end slides along x at a height. */
const sliderCrank = (height: number): Drawing => ({
  points: {
    O: [0, 0],
    A: [3, 4],
    B: [3 + Math.sqrt(196 - (height - 4) ** 2), height],
    L: [0, height],
    R: [1, height],
  },
  ground: ['O', 'L', 'R'],
  bodies: { crank: ['O', 'A'], rod: ['A', 'B'] },
  sliders: { piston: { point: 'B', on: ['L', 'R'] } },
});
const trammel: Drawing = {
  points: { P: [30, 0], Q: [0, 40] },
  ground: [],
  bodies: { bar: ['P', 'Q'] },
  held: [{ y: 'P' }, { x: 'Q' }],
};
const swing: Drawing = {
  points: { O: [0, 0], C: [3, 0], A: [3, 1] },
  ground: ['O', 'C'],
  bodies: { arm: ['C', 'A'] },
  telescopes: { ram: ['O', 'A'] },
};
const parallel: Drawing = {
  points: { O: [0, 0], A: [1, 0], B: [600, 1800], C: [0, 1000] },
  ground: ['O', 'C'],
  bodies: { short: ['O', 'A'], long: ['C', 'B'] },
  angles: { same: ['short', 'long'] },
};

describe('all laws hold', () => {
  it('of random linkages', () => {
    fc.assert(
      fc.property(linkages(fc, { maxPairs: 2 }), (drawing) => checkLaws(asDrawn, drawing)),
      { numRuns: 8 },
    );
  });

  it('of random four-bars', () => {
    fc.assert(
      fc.property(fourBars(fc), (drawing) => checkLaws(asDrawn, drawing)),
      { numRuns: 8 },
    );
  });

  it('of random double wishbones and corners with a rocker, from the data that draw them', () => {
    const driver: Measure = { y: 'contactPatch' };
    const options = (drawing: Drawing): LawOptions<never> => {
      const [, drawn] = drawing.points.contactPatch;
      return { driver, range: [drawn - 20, drawn + 20] };
    };
    fc.assert(
      fc.property(doubleWishbones(fc), (input) => checkLaws(corner, input, options(corner(input)))),
      { numRuns: 5 },
    );
    fc.assert(
      fc.property(pushrods(fc), (input) => checkLaws(rocker, input, options(rocker(input)))),
      { numRuns: 4 },
    );
  });

  it.each<[what: string, drawing: Drawing, options?: LawOptions<Drawing>]>([
    [
      'sliders, kept angles and telescopes in one',
      {
        points: { O: [0, 0], C: [20, 100], P: [80, 110], T: [160, 190], S: [190, 170], R: [220, 150] },
        ground: ['O', 'C', 'R'],
        bodies: { crank: ['C', 'P'], arm: ['O', 'T'], plate: ['T', 'S'] },
        sliders: { block: { point: 'P', on: ['O', 'T'] } },
        angles: { level: ['plate', ['O', 'C']] },
        telescopes: { ram: ['R', 'S'] },
      },
      { driver: { turn: 'crank' }, range: [-0.2, 0.2] },
    ],
    ['a slide through the crank pivot, where two points are drawn in one place', sliderCrank(0)],
    ['a slide beside it, that drives', sliderCrank(1), { driver: { x: 'B' } }],
    ['two guides, held coordinates', trammel],
    ['a telescope that turns and drives', swing, { driver: { turn: 'ram' }, range: [-0.2, 0.1] }],
    ['a telescope seen from a body', swing, { driver: { turn: 'ram', seenFrom: 'arm' }, range: [-0.3, 0.3] }],
    ['a direction seen from a body', swing, { driver: { angle: ['O', 'A'], seenFrom: 'arm' } }],
    ['a coordinate seen from a body', swing, { driver: { y: 'O', seenFrom: 'arm' }, range: [-0.5, 0.5] }],
    ['two bodies kept parallel, one a thousand times as long', parallel],
  ])('of %s', (_, drawing, options) => checkLaws(asDrawn, deepFreeze(drawing), options));

  it('of a telescope that passes through nothing', () => {
    const ram: Drawing = {
      points: { O: [0, 0], B: [3, 0] },
      ground: ['O'],
      bodies: {},
      angles: { guide: ['ram'] },
      telescopes: { ram: ['O', 'B'] },
    };
    for (const law of [laws.closes, laws.keepsLengths, laws.readings, laws.outAndBack]) {
      law(asDrawn, deepFreeze(ram), { driver: { x: 'B' }, range: [-3, 4] });
    }
  });
});

/** A four-bar away from its dead points, and how it is put to the laws. */
const fourBar: Drawing = deepFreeze({
  points: { O: [0, 0], A: [0, 40], B: [115, 75], T: [70, 95], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B', 'T'], rocker: ['C', 'B'] },
});
const DRIVER: Measure = { turn: 'crank' };
const options: LawOptions<Drawing> = { driver: DRIVER, range: [-0.6, 0.6] };
const SMALL = 1e-8;

/** `trace` with its motion falsified. */
const falsified =
  (change: (motion: Traced, drawing: Drawing) => Partial<Traced>): Trace =>
  (drawing, asked) => {
    const motion = trace(drawing, asked);
    return { ...motion, ...change(motion, drawing) };
  };

/** What a law says of a four-bar, or null where it finds nothing. */
function found(
  name: keyof typeof laws,
  given: Partial<LawOptions<Drawing>>,
  build: (drawing: Drawing) => Drawing = asDrawn,
): LawBroken | null {
  try {
    laws[name](build, fourBar, { ...options, ...given });
    return null;
  } catch (error) {
    if (error instanceof LawBroken) return error;
    throw error;
  }
}

const reading =
  (change: (value: number, key: 'value' | 'first' | 'second', measure: Measure) => number) =>
  (motion: Traced): Partial<Traced> => ({
    read: (measure) => {
      const read = motion.read(measure);
      return (at) => {
        const { value, first, second } = read(at);
        return {
          value: change(value, 'value', measure),
          first: first === null ? null : change(first, 'first', measure),
          second: second === null ? null : change(second, 'second', measure),
        };
      };
    },
  });
const moving = (motion: Traced, point: string, by: (at: number) => number): Partial<Traced> => ({
  at: (driver) => {
    const places = motion.at(driver);
    const [x, y] = places[point];
    return { ...places, [point]: [x + by(driver), y] };
  },
});
const isLength = (measure: Measure) => 'length' in measure;
/** All lengths read too long by a small share, on a drawing where something is so. */
const longerWhere = (is: (drawing: Drawing) => boolean) =>
  falsified((motion, drawing) =>
    reading((value, key, measure) =>
      key === 'value' && isLength(measure) && is(drawing) ? value * (1 + SMALL) : value,
    )(motion),
  );

describe('the smallest bug planted is caught by', () => {
  it('nothing, without a bug', () => {
    for (const name of Object.keys(laws) as (keyof typeof laws)[]) expect(found(name, {})).toBeNull();
  });

  const planted: [law: keyof typeof laws, bug: string, trace: Trace, what: RegExp][] = [
    [
      'closes',
      'a ground point that creeps by 1e-8 of the size',
      falsified((m) => moving(m, 'C', (t) => 120 * SMALL * t)),
      /C/,
    ],
    [
      'keepsLengths',
      'a pin that is off by 1e-8 of the size',
      falsified((m) => moving(m, 'B', (t) => 120 * SMALL * Math.sign(t))),
      /B/,
    ],
    [
      'keepsLengths',
      'a bar left out: the rocker no longer holds',
      (drawing, asked) => {
        const motion = trace(drawing, asked);
        return { ...motion, ...moving(motion, 'B', (t) => t) };
      },
      /rocker|coupler/,
    ],
    [
      'readings',
      'a length that reads 1e-8 too long',
      falsified(reading((v, k, m) => (k === 'value' && isLength(m) ? v * (1 + SMALL) : v))),
      /length/,
    ],
    [
      'readings',
      'a turn of the wrong sign',
      falsified(reading((v, k, m) => (k === 'value' && 'turn' in m && m.turn === 'rocker' ? -v : v))),
      /rocker/,
    ],
    [
      'derivativesAgree',
      'a first derivative off by 1e-8',
      falsified(reading((v, k) => (k === 'first' ? v * (1 + SMALL) : v))),
      /first/,
    ],
    [
      'derivativesAgree',
      'a second derivative off by 1e-7',
      falsified(reading((v, k) => (k === 'second' ? v * (1 + 10 * SMALL) : v))),
      /second/,
    ],
    [
      'derivativesAgree',
      'a second derivative of the wrong sign',
      falsified(reading((v, k) => (k === 'second' ? -v : v))),
      /second/,
    ],
    [
      'virtualWork',
      'rates of lengths that are 1e-8 too large',
      falsified(reading((v, k, m) => (k === 'first' && isLength(m) ? v * (1 + SMALL) : v))),
      /./,
    ],
    [
      'virtualWork',
      'a rate of the wrong sign',
      falsified(reading((v, k, m) => (k === 'first' && isLength(m) ? -v : v))),
      /./,
    ],
    [
      'mirror',
      'lengths of 1e-8 more on the other side',
      longerWhere(({ points }) => points.C[0] < points.O[0]),
      /length/,
    ],
    [
      'move',
      'lengths of 1e-8 more away from the origin',
      longerWhere(({ points }) => points.O[0] !== 0),
      /length/,
    ],
    [
      'turn',
      'lengths of 1e-8 more where the ground line is not level',
      longerWhere(({ points }) => points.C[1] !== points.O[1]),
      /length/,
    ],
    [
      'scale',
      'lengths of 1e-8 more in another unit',
      longerWhere(({ points }) => Math.abs(points.C[0] - 100) > 1),
      /length/,
    ],
    [
      'outAndBack',
      'a creep of 1e-8 in what a pose is drawn anew from',
      falsified((m) => moving(m, 'A', (t) => 40 * SMALL * t)),
      /./,
    ],
  ];
  it.each(planted)('%s: %s', (law, _, planter, what) => {
    const broken = found(law, { trace: planter });
    expect(broken?.law).toBe(law);
    expect(broken?.what).toMatch(what);
    expect(broken?.message).toMatch(/ at driver value -?[\d.e-]+ \(turn of crank\)/);
  });

  it('sameBits: an answer that differs in its last bit the second time', () => {
    let asked = 0;
    const broken = found('sameBits', {
      trace: falsified(
        reading((value, key) => (key === 'value' ? value * (1 + (asked++ % 2) * Number.EPSILON) : value)),
      ),
    });
    expect(broken?.law).toBe('sameBits');
  });

  it('sameBits: data that is changed by who builds from it', () => {
    const loose = structuredClone(fourBar) as unknown as { points: { B: [number, number] } };
    expect(() =>
      laws.sameBits(
        (data) => {
          data.points.B[0] += 1e-12;
          return structuredClone(data) as unknown as Drawing;
        },
        loose,
        { driver: DRIVER, range: [-0.6, 0.6] },
      ),
    ).toThrow(LawBroken);
  });

  it('closes: a builder that turns a sign, by the driver it then has', () => {
    const flipped = falsified((m) => ({
      at: (t) =>
        Object.fromEntries(Object.entries(m.at(t)).map(([name, [x, y]]) => [name, [x, -y] as const])),
    }));
    expect(found('closes', { trace: flipped })?.law).toBe('closes');
  });
});

describe('random linkages', () => {
  it('shrink to round numbers, and all that they shrink through can move', () => {
    const failing = fc.check(
      fc.property(linkages(fc), (drawing) => {
        trace(drawing, { driver: DRIVER, from: -0.01, to: 0.01 });
        return Object.keys(drawing.bodies).length < 4;
      }),
      { numRuns: 200 },
    );
    expect(failing.failed).toBe(true);
    const [smallest] = failing.counterexample as [Drawing];
    expect(Object.keys(smallest.bodies)).toHaveLength(5);
    const numbers = Object.values(smallest.points).flat();
    expect(numbers.filter((x) => x % 1 === 0).length).toBeGreaterThan(numbers.length / 2);
  });
});
