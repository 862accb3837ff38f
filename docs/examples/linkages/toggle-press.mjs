// @ts-check
// A toggle press: node docs/examples/linkages/toggle-press.mjs, after npm run build.
//
// Two links of length l, each at the angle a to the vertical; a cylinder pushes the knee out square to it. From memory: the ram stands
// 2 l cos a below the frame, moves 2 tan a per unit of the knee, and presses with 1 / (2 tan a) times the force at the knee.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';
import { mechanicalAdvantage } from 'jounce/synthesis';

const [l, a] = [300, 0.3];
const [aside, down] = [l * Math.sin(a), l * Math.cos(a)];
const drawn = linkage({
  points: {
    frame: [0, 0],
    knee: [-aside, -down],
    ram: [0, -2 * down],
    top: [0, -450],
    bottom: [0, -650],
    cylinder: [-aside - 250, -down],
  },
  ground: ['frame', 'top', 'bottom', 'cylinder'],
  bodies: { upper: ['frame', 'knee'], lower: ['knee', 'ram'] },
  sliders: { guide: { point: 'ram', on: ['top', 'bottom'] } },
});
/** @type {{ x: 'knee' }} */
const driver = { x: 'knee' };
const motion = trace(drawn, { driver, from: -200, to: -10 });
// Down is -y.
const pressing = mechanicalAdvantage(motion, { y: 'ram' });
console.log('advantage as drawn:', Math.abs(pressing(-aside) ?? 0).toFixed(6));
console.log('advantage with the knee 10 from the line:', Math.abs(pressing(-10) ?? 0).toFixed(6));
console.log('ram with the knee 200 from the line:', motion.at(-200).ram[1].toFixed(4));
const held = forces(drawn, [{ at: 'ram', force: [0, 100_000] }], {
  driver: { length: ['cylinder', 'knee'] },
});
console.log('cylinder for 100 kN at the ram [N]:', held.driver?.toFixed(3));

writeFileSync(
  new URL('../../pictures/linkages/toggle-press.svg', import.meta.url),
  drawLinkage(
    { ...drawn, telescopes: { piston: ['cylinder', 'knee'] } },
    { title: 'Toggle press', poses: [motion.at(-10), motion.at(-200)] },
  ),
);
