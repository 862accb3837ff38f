// @ts-check
// Watt's parallel motion, a six-bar: node docs/examples/linkages/watt.mjs, after npm run build.
//
// Beam OAB and radius rod CE lead the middle M of the link AE along Watt's curve. The parallelogram A, B, P, E makes P = 2 M as seen
// from O, so that the piston rod at P goes almost straight.
// With c half the link, b the arms and 2 a from O to C (from memory), M is at r and theta about the middle of O and C with
//   r^2 = b^2 - (a sin theta ± sqrt(c^2 - a^2 cos^2 theta))^2.
// The beam stops where rod and link are in line: cos(AOC) = (b^2 + 4 a^2 - (b + 2 c)^2) / (4 a b).
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { couplerCurve } from 'jounce/synthesis';

const drawn = linkage({
  points: { O: [0, 0], A: [100, 0], B: [200, 0], M: [100, -30], E: [100, -60], P: [200, -60], C: [200, -60] },
  ground: ['O', 'C'],
  bodies: {
    beam: ['O', 'A', 'B'],
    link: ['A', 'M', 'E'],
    radiusRod: ['C', 'E'],
    parallel: ['E', 'P'],
    hanger: ['B', 'P'],
  },
});
/** @type {{ turn: 'beam' }} */
const driver = { turn: 'beam' };
const motion = trace(drawn, { driver });

const { M, P } = motion.at(0.5);
const [x, y] = [M[0] - 100, M[1] + 30];
console.log('beam up 0.5 rad, M about the middle of O and C, r:', Math.hypot(x, y).toFixed(4));
console.log('theta [rad]:', (Math.atan2(y, x) - Math.atan2(-60, 200)).toFixed(6));
console.log('OP / OM:', (Math.hypot(...P) / Math.hypot(...M)).toFixed(6));
console.log('beam at its stop [rad]:', motion.high.at.toFixed(6));

const picture = { ...drawn, points: motion.at(0.4) };
const stroke = trace(drawn, { driver, from: -0.5, to: 0.5 });
writeFileSync(
  new URL('../../pictures/linkages/watt.svg', import.meta.url),
  drawLinkage(picture, {
    title: "Watt's parallel motion",
    poses: [motion.at(-0.4)],
    curves: [couplerCurve(motion, 'M').points, couplerCurve(stroke, 'P').points],
  }),
);
