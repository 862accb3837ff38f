// @ts-check
// A pantograph that enlarges three times: node docs/examples/linkages/pantograph.mjs, after npm run build.
//
// By similar triangles (from memory) the copy is at 3 times the tracer, as seen from the pivot O; so its force is a third. Two degrees
// of freedom: the tracer's two coordinates are drivers, by schedules in u with their two derivatives.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';

const drawn = linkage({
  points: { O: [0, 0], A: [20, 60], B: [60, 180], tracer: [60, 40], D: [100, 160], copy: [180, 120] },
  ground: ['O'],
  bodies: { arm: ['O', 'A', 'B'], long: ['B', 'D', 'copy'], link: ['A', 'tracer'], side: ['tracer', 'D'] },
});
// A circle of radius 10, begun on its right.
const [r, w] = [10, 2 * Math.PI];
/** @type {(u: number) => [number, number, number]} */
const xs = (u) => [50 + r * Math.cos(w * u), -r * w * Math.sin(w * u), -r * w * w * Math.cos(w * u)];
/** @type {(u: number) => [number, number, number]} */
const ys = (u) => [40 + r * Math.sin(w * u), r * w * Math.cos(w * u), -r * w * w * Math.sin(w * u)];
const motion = trace(drawn, {
  drivers: [
    { driver: { x: 'tracer' }, schedule: xs },
    { driver: { y: 'tracer' }, schedule: ys },
  ],
});
const path = Array.from({ length: 73 }, (_, k) => motion.at(k / 72));
const [x, y] = motion.at(0.25).copy;
console.log('copy above the middle of its circle, x:', x.toFixed(6));
console.log('y:', y.toFixed(6));
const { drivers } = forces(drawn, [{ at: 'copy', force: [0, -1] }], {
  drivers: [{ x: 'tracer' }, { y: 'tracer' }],
});
console.log('force up at the tracer per force down at the copy:', drivers[1]?.toFixed(6));

writeFileSync(
  new URL('../../pictures/linkages/pantograph.svg', import.meta.url),
  drawLinkage(drawn, {
    title: 'Pantograph, 3 : 1',
    poses: [motion.at(0.5)],
    curves: [path.map(({ tracer }) => tracer), path.map(({ copy }) => copy)],
  }),
);
