// @ts-check
// A walking leg of eight bars, from its lengths: node docs/examples/linkages/walking-leg.mjs, after npm run build.
//
// Lengths as published, from memory. Each point is where two circles meet: about A and B with the radii a and b, at the distance d, at
// (d^2 + a^2 - b^2) / (2 d) along AB. So the leg placed with the crank turned by 2 must be the drawn leg moved there.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, placePoints, trace } from 'jounce/linkage';
import { couplerCurve } from 'jounce/synthesis';

/** @param {number} angle of the crank */
const placed = (angle) =>
  placePoints({
    O: [0, 0],
    C: [-38, -7.8],
    A: { from: 'O', length: 15, angle },
    B: { from: ['C', 'A'], lengths: [41.5, 50], side: 'left' },
    D: { from: ['C', 'A'], lengths: [39.3, 61.9], side: 'right' },
    E: { from: ['C', 'B'], lengths: [40.1, 55.8], side: 'left' },
    F: { from: ['D', 'E'], lengths: [36.7, 39.4], side: 'left' },
    foot: { from: ['D', 'F'], lengths: [49, 65.7], side: 'left' },
  });
const drawn = linkage({
  points: placed(0),
  ground: ['O', 'C'],
  bodies: {
    crank: ['O', 'A'],
    upper: ['A', 'B'],
    lower: ['A', 'D'],
    hip: ['C', 'B', 'E'],
    thigh: ['C', 'D'],
    link: ['E', 'F'],
    shin: ['D', 'F', 'foot'],
  },
});
const motion = trace(drawn, { driver: { turn: 'crank' }, from: 0, to: 2 * Math.PI });
const [x, y] = motion.at(2).foot;
console.log('foot with the crank at 2 rad, x:', x.toFixed(6));
console.log('y:', y.toFixed(6));
const { points, box } = couplerCurve(motion, 'foot');
console.log('step, length:', (box.x[1] - box.x[0]).toFixed(3));
console.log('height:', (box.y[1] - box.y[0]).toFixed(3));

writeFileSync(
  new URL('../../pictures/linkages/walking-leg.svg', import.meta.url),
  drawLinkage(drawn, { title: 'Walking leg of eight bars', poses: [motion.at(2)], curves: [points] }),
);
