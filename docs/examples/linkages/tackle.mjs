// @ts-check
// A tackle with four falls: node docs/examples/linkages/tackle.mjs, after npm run build.
//
// Without friction (from memory, any statics textbook) each of n vertical falls carries W / n: the hand pulls W / n and goes n times as
// far as the hook. Each of the upper pulleys carries two falls.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';

const radius = 20;
const drawn = linkage({
  points: {
    anchor: [-20, 300],
    low1: [0, 60],
    top1: [40, 300],
    low2: [80, 60],
    top2: [120, 300],
    hand: [140, 180],
    hook: [40, 0],
  },
  ground: ['anchor', 'top1', 'top2'],
  bodies: { block: ['low1', 'low2', 'hook'] },
  // The block keeps its direction and goes up and down.
  fixedCoordinates: [{ x: 'low1' }, { x: 'hook' }, { x: 'hand' }],
  ropes: {
    fall: [
      'anchor',
      { about: 'low1', radius, side: 'left' },
      { about: 'top1', radius, side: 'right' },
      { about: 'low2', radius, side: 'left' },
      { about: 'top2', radius, side: 'right' },
      'hand',
    ],
  },
});
/** @type {{ y: 'hand' }} */
const driver = { y: 'hand' };
const motion = trace(drawn, { driver, from: 20, to: 240 });
console.log('hook with the hand 160 lower:', motion.at(20).hook[1].toFixed(4));
const carried = forces(drawn, [{ at: 'hook', force: [0, -800] }], { driver });
console.log('tension for 800 N at the hook [N]:', carried.ropes.fall?.toFixed(4));
console.log('force of the rope on the pulley top1 [N]:', carried.ground.top1?.[1].toFixed(4));

writeFileSync(
  new URL('../../pictures/linkages/tackle.svg', import.meta.url),
  drawLinkage(drawn, { title: 'Tackle with four falls' }),
);
