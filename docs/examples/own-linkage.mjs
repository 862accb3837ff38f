// @ts-check
// A linkage of one's own put to the laws: node docs/examples/own-linkage.mjs, after npm run build. It prints nothing if all
// of them hold.
//
// A lid on four bars, as for a chest: arms from the chest to the lid, all by three numbers. What is tested is the function
// that draws it, over random lids.
import * as fc from 'fast-check';
import { checkLaws } from 'jounce/testing';

/**
 * @typedef {{ front: number, back: number, lift: number }} Lid
 * @param {Lid} lid lengths of front and back arm, and how far the lid's pins lie apart, mm
 * @returns {import('jounce/linkage').Drawing}
 */
export function lid({ front, back, lift }) {
  return {
    points: {
      A: [0, 0],
      B: [0.6 * front, 0.8 * front],
      C: [120, 30],
      D: [120 + 0.6 * back, 30 + 0.8 * back],
      E: [60, lift],
    },
    ground: ['A', 'C'],
    bodies: { frontArm: ['A', 'B'], backArm: ['C', 'D'], lid: ['B', 'D', 'E'] },
  };
}

const lids = fc.record({
  front: fc.integer({ min: 100, max: 200 }),
  back: fc.integer({ min: 60, max: 90 }),
  lift: fc.integer({ min: 200, max: 300 }),
});

fc.assert(
  fc.property(lids, (one) => checkLaws(lid, one, { driver: { turn: 'frontArm' }, range: [-0.1, 0.1] })),
  { numRuns: 10 },
);
