// @ts-check
// A linkage of one's own put to the laws: node docs/examples/own-linkage.mjs, after npm run build. It prints nothing if all
// of them hold.
//
// A lid on four bars, as for a chest, all by five numbers. What is tested is the function that draws it, over random lids.
import fc from 'fast-check';
import { checkLaws } from 'jounce/testing';

/**
 * Lengths in mm: the two arms, how far apart their pivots are, how much higher the back one is, and where the handle is.
 * @typedef {{ front: number, back: number, apart: number, step: number, handle: number }} Lid
 */

/**
 * The lid half open, its arms up at 3 : 4.
 * @param {Lid} lid
 * @returns {import('jounce/linkage').Drawing}
 */
export function lid({ front, back, apart, step, handle }) {
  return {
    points: {
      A: [0, 0],
      B: [0.6 * front, 0.8 * front],
      C: [apart, step],
      D: [apart + 0.6 * back, step + 0.8 * back],
      E: [apart / 2, handle],
    },
    ground: ['A', 'C'],
    bodies: { frontArm: ['A', 'B'], backArm: ['C', 'D'], lid: ['B', 'D', 'E'] },
  };
}

export const lids = fc.record({
  front: fc.integer({ min: 100, max: 200 }),
  back: fc.integer({ min: 60, max: 90 }),
  apart: fc.integer({ min: 110, max: 160 }),
  step: fc.integer({ min: 20, max: 40 }),
  handle: fc.integer({ min: 200, max: 300 }),
});

/**
 * What drives and how far, and how the data of a larger lid come from those of another: every length so many times as large.
 * Moved, turned or mirrored lids have no such data.
 * @type {import('jounce/testing').LawOptions<Lid>}
 */
export const options = {
  driver: { turn: 'frontArm' },
  range: [-0.1, 0.1],
  redraw: ({ front, back, apart, step, handle }, { law, lengths: k }) =>
    law === 'scale'
      ? { front: k * front, back: k * back, apart: k * apart, step: k * step, handle: k * handle }
      : null,
};

fc.assert(
  fc.property(lids, (one) => checkLaws(lid, one, options)),
  { numRuns: 10 },
);
