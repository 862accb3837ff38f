/** The laws hold over all random linkages, and over one of every joint. */
import * as fc from 'fast-check';
import { doubleWishbone, pushrod } from 'jounce';
import type { Drawing, Measure } from 'jounce/linkage';
import {
  checkLaws,
  doubleWishbones,
  fourBars,
  type LawOptions,
  laws,
  linkages,
  pushrods,
} from 'jounce/testing';
import { describe, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { deepFreeze } from '../support/freeze.ts';
import { few } from '../support/runs.ts';

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
