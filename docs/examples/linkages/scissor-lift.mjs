// @ts-check
// A scissor lift of three cells: node docs/examples/linkages/scissor-lift.mjs, after npm run build.
//
// Bars of length b at the angle a, N cells: height N b sin a, width b cos a. By virtual work (from memory) a load P on top needs
//   N P / tan a                                at the sliding foot, inwards,
//   N P sqrt(cos^2 a + 9 sin^2 a) / (4 sin a)  in a cylinder from the pinned foot to the middle of the second cell.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';

/** @param {number} a @param {number} cells @returns {import('jounce/linkage').Drawing} */
function lift(a, cells = 3, b = 1000) {
  const [width, rise] = [b * Math.cos(a), b * Math.sin(a)];
  /** @type {Record<string, [number, number]>} */
  const points = { left0: [0, 0], right0: [width, 0] };
  /** @type {Record<string, string[]>} */
  const bodies = {};
  for (let k = 1; k <= cells; k++) {
    points[`middle${k}`] = [width / 2, (k - 0.5) * rise];
    points[`left${k}`] = [0, k * rise];
    points[`right${k}`] = [width, k * rise];
    bodies[`up${k}`] = [`left${k - 1}`, `middle${k}`, `right${k}`];
    bodies[`down${k}`] = [`right${k - 1}`, `middle${k}`, `left${k}`];
  }
  return { points, ground: ['left0'], bodies, fixedCoordinates: [{ y: 'right0' }] };
}

const drawn = lift(0.5);
const load = [{ at: 'left3', force: /** @type {const} */ ([0, -1000]) }];
const foot = { x: 'right0' };
const motion = trace(drawn, { driver: foot, from: 700, to: 950 });

console.log('height with the foot at 800:', motion.at(800).left3[1].toFixed(4));
console.log('force at the foot [N]:', forces(drawn, load, { driver: foot }).driver?.toFixed(3));
const ram = forces(drawn, load, { driver: { length: ['left0', 'middle2'] } });
console.log('force in the cylinder [N]:', ram.driver?.toFixed(3));

writeFileSync(
  new URL('../../pictures/linkages/scissor-lift.svg', import.meta.url),
  drawLinkage(drawn, { title: 'Scissor lift of three cells' }),
);
