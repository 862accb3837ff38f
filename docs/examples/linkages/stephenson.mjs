// @ts-check
// A six-bar that dwells, Stephenson III: node docs/examples/linkages/stephenson.mjs, after npm run build.
//
// Stephenson's chain with a ternary link as the ground, the third of its inversions (names from memory): the point P of a four-bar's
// coupler moves a further rocker by a link. Invented dimensions. Coupler, rocker and the arm CP are alike, so that the path of P is
// symmetric; for a third of a turn it is nearly an arc of radius 100.8 about one place. There the link has that length, and the output
// rocker stands. Each point is where two circles meet.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, placePoints, trace } from 'jounce/linkage';
import { couplerCurve, extremeValues } from 'jounce/synthesis';

const degree = Math.PI / 180;
const drawn = linkage({
  points: placePoints({
    A: [0, 0],
    D: [60, 0],
    E: [186, 171],
    B: { from: 'A', length: 20, angle: Math.PI },
    C: { from: ['B', 'D'], lengths: [80, 80], side: 'left' },
    P: { from: 'C', towards: 'B', length: 80, angle: 140 * degree },
    Q: { from: ['P', 'E'], lengths: [100.8, 60], side: 'left' },
  }),
  ground: ['A', 'D', 'E'],
  bodies: {
    crank: ['A', 'B'],
    coupler: ['B', 'C', 'P'],
    rocker: ['D', 'C'],
    link: ['P', 'Q'],
    output: ['E', 'Q'],
  },
});
/** @type {{ turn: 'output' }} */
const output = { turn: 'output' };
/** @param {number} from @param {number} to */
const swing = (from, to) => {
  const { minimum, maximum } = extremeValues(
    trace(drawn, { driver: { turn: 'crank' }, from: from * degree, to: to * degree }),
    output,
  );
  return (((maximum?.value ?? NaN) - (minimum?.value ?? NaN)) / degree).toFixed(4);
};
console.log('swing of the output in a whole turn [deg]:', swing(-180, 180));
console.log('over 120 deg of the crank, where it dwells [deg]:', swing(-60, 60));

const motion = trace(drawn, { driver: { turn: 'crank' }, from: -Math.PI, to: Math.PI });
const [x, y] = motion.at(Math.PI / 2).Q;
console.log('pin of the output a quarter turn on, x:', x.toFixed(4));
console.log('y:', y.toFixed(4));

writeFileSync(
  new URL('../../pictures/linkages/stephenson.svg', import.meta.url),
  drawLinkage(drawn, {
    title: 'Stephenson III six-bar with a dwell',
    poses: [motion.at(Math.PI)],
    curves: [couplerCurve(motion, 'P').points],
  }),
);
