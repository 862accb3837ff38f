/** The laws hold over all random linkages, and over one of every joint. */
import * as fc from 'fast-check';
import { doubleWishbone, pushrod } from 'jounce';
import { type Drawing, InputError, linkage, type Measure, mobility, type Point, trace } from 'jounce/linkage';
import {
  checkLaws,
  doubleWishbones,
  fourBars,
  type LawOptions,
  LawViolation,
  laws,
  linkages,
  pushrods,
  type SkippedPart,
} from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { deepFreeze } from '../support/freeze.ts';
import { few } from '../support/runs.ts';
import { expectSame } from '../support/tolerance.ts';

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
  fixedCoordinates: [{ y: 'P' }, { x: 'Q' }],
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
  fixedAngles: { same: ['short', 'long'] },
};

describe('all laws hold', () => {
  it('of random linkages', () => {
    fc.assert(
      fc.property(linkages(fc, { maxPairs: 2 }), (drawing) => checkLaws(asDrawn, drawing)),
      few(8),
    );
  });

  it('of random linkages with wheels, racks and ropes', () => {
    fc.assert(
      fc.property(linkages(fc, { maxPairs: 1, maxCouplings: 2 }), (drawing) => checkLaws(asDrawn, drawing)),
      few(6),
    );
  });

  it('of random four-bars', () => {
    fc.assert(
      fc.property(fourBars(fc), (drawing) => checkLaws(asDrawn, drawing)),
      few(8),
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
      few(5),
    );
    fc.assert(
      fc.property(pushrods(fc), (input) => checkLaws(rocker, input, options(rocker(input)))),
      few(4),
    );
  });

  it.each<[what: string, drawing: Drawing, options?: LawOptions<Drawing>]>([
    [
      'sliders, fixed angles and telescopes in one',
      {
        points: { O: [0, 0], C: [20, 100], P: [80, 110], T: [160, 190], S: [190, 170], R: [220, 150] },
        ground: ['O', 'C', 'R'],
        bodies: { crank: ['C', 'P'], arm: ['O', 'T'], plate: ['T', 'S'] },
        sliders: { block: { point: 'P', on: ['O', 'T'] } },
        fixedAngles: { level: ['plate', ['O', 'C']] },
        telescopes: { ram: ['R', 'S'] },
      },
      { driver: { turn: 'crank' }, range: [-0.2, 0.2] },
    ],
    ['a slide through the crank pivot, where two points are drawn in one place', sliderCrank(0)],
    ['a slide beside it, that drives', sliderCrank(1), { driver: { x: 'B' } }],
    ['two guides, fixed coordinates', trammel],
    ['a telescope that turns and drives', swing, { driver: { turn: 'ram' }, range: [-0.2, 0.1] }],
    [
      'a telescope relative to a body',
      swing,
      { driver: { turn: 'ram', relativeTo: 'arm' }, range: [-0.3, 0.3] },
    ],
    ['a direction relative to a body', swing, { driver: { angle: ['O', 'A'], relativeTo: 'arm' } }],
    ['a coordinate relative to a body', swing, { driver: { y: 'O', relativeTo: 'arm' }, range: [-0.5, 0.5] }],
    ['two bodies kept parallel, one a thousand times as long', parallel],
    [
      'a rope that a crank winds on a pulley, turn after turn',
      {
        points: { O: [0, 0], A: [100, 0], E: [20, 10], H: [0, 600] },
        ground: ['O', 'E'],
        bodies: { crank: ['O', 'A'] },
        fixedCoordinates: [{ x: 'H' }],
        ropes: { hoist: ['E', { about: 'A', radius: 10, side: 'left' }, 'H'] },
      },
      { driver: { turn: 'crank' }, range: [-7, 7] },
    ],
  ])('of %s', (_, drawing, options) => checkLaws(asDrawn, deepFreeze(drawing), options));

  it('of a telescope that passes through nothing', () => {
    const ram: Drawing = {
      points: { O: [0, 0], B: [3, 0] },
      ground: ['O'],
      bodies: {},
      fixedAngles: { guide: ['ram'] },
      telescopes: { ram: ['O', 'B'] },
    };
    for (const law of [laws.closes, laws.keepsLengths, laws.measuresAgree, laws.outAndBack]) {
      law(asDrawn, deepFreeze(ram), { driver: { x: 'B' }, range: [-3, 4] });
    }
  });
});

/** Crank 20 and rod 30 in line, over a slide that lies 10 below the crank's pivot. */
const inLine = (rod: number): Drawing => {
  const [reach, offset] = [20 + rod, -10];
  const x = Math.sqrt(reach ** 2 - offset ** 2);
  return {
    points: {
      O: [0, 0],
      A: [(20 * x) / reach, (20 * offset) / reach],
      P: [x, offset],
      near: [0, offset],
      far: [50, offset],
    },
    ground: ['O', 'near', 'far'],
    bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
    sliders: { piston: { point: 'P', on: ['near', 'far'] } },
  };
};
const upright: Drawing = { ...inLine(30), points: { ...inLine(30).points, A: [0, 20], P: [0, -10] } };
const fourBar = (B: Point, C: Point, ground: number): Drawing => ({
  points: { A: [0, 0], B, C, D: [ground, 0] },
  ground: ['A', 'D'],
  bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
});
/** Crank 80 where coupler 60 and rocker 50 are in line: by the law of cosines. */
const stretched = (): Drawing => {
  const cosine = (80 ** 2 + 50 ** 2 - (60 + 50) ** 2) / (2 * 80 * 50);
  const B: Point = [80 * cosine, 80 * Math.sqrt(1 - cosine ** 2)];
  return fourBar(B, [B[0] + (60 / 110) * (50 - B[0]), B[1] * (1 - 60 / 110)], 50);
};
const crank: Measure = { turn: 'crank' };
const flat = fourBar([40, 0], [-10, 0], 60);

/** What the laws leave out, each once. */
function skippedOf(drawing: Drawing, options: LawOptions<Drawing> = {}): string[] {
  const all = new Set<string>();
  const skipped = ({ law, what, reason }: SkippedPart) => all.add(`${law}: ${what}, ${reason}`);
  checkLaws(asDrawn, deepFreeze(drawing), { ...options, skipped });
  return [...all];
}

describe('all laws hold along each branch of a drawing at a change point, but for the way back into it', () => {
  it.each([
    ['a slider-crank 20, 30, -10, crank and rod upright', upright],
    ['a four-bar 40, 50, 70, 60 that lies flat', flat],
  ])('%s', (_, drawing) => {
    expect(mobility(drawing).branches).toHaveLength(2);
    for (const options of [{}, { driver: crank, range: [-0.5, 0.4] }] as LawOptions<Drawing>[]) {
      expectSame(skippedOf(drawing, options), [
        'outAndBack: the last half of the way back, it ends in a change point',
      ]);
    }
  });

  it('and a fault on either branch violates them', () => {
    for (const wrong of [0, 1]) {
      const options: LawOptions<Drawing> = {
        trace: (drawing, given) => {
          const motion = trace(drawing, given);
          const isWrong = Array.isArray(given?.branch) && given.branch[0] === wrong;
          const at = (driver: number) => {
            const places = motion.at(driver);
            return isWrong ? { ...places, C: [places.C[0], places.C[1] + 1e-6] as const } : places;
          };
          return { ...motion, at };
        },
      };
      for (const law of [laws.closes, laws.keepsLengths, laws.outAndBack])
        expect(() => law(asDrawn, flat, options)).toThrow(LawViolation);
    }
  });

  it('which has its like in the drawing of changed data, or violates them', () => {
    const redraw: LawOptions<Drawing>['redraw'] = (drawing, { place }) => ({
      ...drawing,
      points: Object.fromEntries(
        Object.entries(drawing.points).map(([name, at]) => [name, place(at as Point)]),
      ),
    });
    for (const law of [laws.mirror, laws.rotate, laws.scale]) law(asDrawn, flat, { redraw });
    // A four-bar of other proportions along the same line.
    const other = () => ({ ...flat, points: { ...flat.points, C: [-10 + 1e-3, 0] as const } });
    expect(() => laws.scale(asDrawn, flat, { redraw: other })).toThrow(LawViolation);
  });
});

describe('all laws hold of a drawing at a dead point, which says that something else drives', () => {
  it.each<[string, Drawing, Measure, string]>([
    ['a slider-crank 20, 30, -10 stretched', inLine(30), { x: 'P' }, 'turn of crank'],
    ['a four-bar 80, 60, 50, 50, coupler and rocker stretched', stretched(), crank, 'turn of rocker'],
  ])('%s', (_, drawing, driver, other) => {
    const { low, high } = trace(drawing, { driver });
    expectSame([low.status, high.status], ['deadPoint', 'deadPoint']);
    const left = skippedOf(drawing, { driver });
    expect(left).toHaveLength(Object.keys(laws).length);
    for (const words of left) expect(words).toContain(`${other} drives`);
    expectSame(skippedOf(drawing), []);
  });
});

it('a linkage of two degrees of freedom is refused in words that fit a law', () => {
  const open: Drawing = {
    points: { O: [0, 0], A: [100, 0], B: [100, 80] },
    ground: ['O'],
    bodies: { boom: ['O', 'A'], stick: ['A', 'B'] },
  };
  const words = /2 degrees of freedom.*the laws are for linkages with one: add a body/;
  expect(() => checkLaws(asDrawn, open)).toThrow(words);
  expect(() => checkLaws(asDrawn, open)).not.toThrow(/hold/);
  expect(() => (checkLaws as () => void)()).toThrow(/build: not a function, got undefined/);
});

it('options and drawings that are none are refused by every law', () => {
  for (const law of Object.values(laws)) {
    expect(() => law(asDrawn, flat, null as never)).toThrow(InputError);
    expect(() => law(linkage as never, null)).toThrow(InputError);
    expect(() => law(3 as never, {})).toThrow(/build: not a function/);
    expect(() => law(asDrawn, flat, { skipped: 1 } as never)).toThrow(/skipped: not a function/);
  }
});
