// @ts-check
// The truss after von Mises: node docs/examples/linkages/von-mises-truss.mjs, after npm run build.
//
// Two elastic bars of rate k, their feet 2 b apart, carry P at an apex that is free to go anywhere; a post stands on it. Straight down
// P = 2 k y (L0/L - 1), L^2 = b^2 + y^2, is greatest at L^3 = L0 b^2. If L0/b > 3 sqrt(3)/2 the apex goes aside before, at L^3 = L0 y^2
// (R. von Mises, Z. angew. Math. Mech. 3, 1923, from memory; derived anew).
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage } from 'jounce/linkage';
import { equilibriaFrom, followEquilibriumFrom } from 'jounce/statics';

/** @param {number} b @param {number} h @param {number} k */
function truss(b, h, k) {
  const drawn = linkage({
    points: { left: [-b, 0], right: [b, 0], apex: [0, h], tip: [0, h + 100] },
    ground: ['left', 'right'],
    bodies: { post: ['apex', 'tip'] },
    fixedAngles: { upright: ['post'] },
  });
  const free = Math.hypot(b, h);
  /** @type {import('jounce/statics').MotionLoad<'left' | 'right' | 'apex', 'post'>[]} */
  const bars = [
    { along: { length: ['left', 'apex'] }, rate: k, freeAt: free },
    { along: { length: ['right', 'apex'] }, rate: k, freeAt: free },
  ];
  return { drawn, bars };
}

/** @type {import('jounce/statics').MotionLoad<'apex', 'post'>} */
const load = { at: 'apex', force: [0, -1] };
const { drawn, bars } = truss(400, 250, 100);
const down = followEquilibriumFrom(drawn, bars, [load], { to: 12_000 });
const [snap] = down.snaps;
console.log('limit load [N]:', snap.factor.toFixed(3));
console.log('height of the apex there:', snap.from.apex[1].toFixed(3));
console.log('height after the snap:', snap.to?.apex[1].toFixed(4));

// Half that load: one rest above, one below, and one between them that does not last.
const half = equilibriaFrom(drawn, [...bars, { at: 'apex', force: [0, -snap.factor / 2] }], {
  seek: 'any',
  starts: [
    [],
    [
      { driver: { y: 'apex' }, to: 50 },
      { driver: { x: 'apex' }, to: 0 },
    ],
    [
      { driver: { y: 'apex' }, to: -300 },
      { driver: { x: 'apex' }, to: 0 },
    ],
  ],
});
for (const { status, points } of half) console.log(`at half of it, ${status}:`, points.apex[1].toFixed(4));

const steep = truss(400, 1200, 100);
const aside = followEquilibriumFrom(steep.drawn, steep.bars, [load], { to: 100_000 });
console.log(`a steep one, ${aside.status} [N]:`, aside.factor.toFixed(3));

const bodies = { ...drawn.bodies, first: ['left', 'apex'], second: ['apex', 'right'] };
writeFileSync(
  new URL('../../pictures/linkages/von-mises-truss.svg', import.meta.url),
  drawLinkage(
    { ...drawn, bodies },
    { title: 'Truss after von Mises', poses: snap.to === null ? [snap.from] : [snap.from, snap.to] },
  ),
);
