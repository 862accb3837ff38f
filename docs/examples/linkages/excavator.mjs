// @ts-check
// An excavator, its three cylinders as drivers along one parameter: node docs/examples/linkages/excavator.mjs, after npm run build.
//
// Moments about the pins (from memory): 10 kN at the tip, 7000 from the foot; the boom cylinder stands upright 600 from the foot and
// carries 10000 * 7000 / 600 N. The boom turns by the law of cosines in the triangle of foot, boomBase and boomEye.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';

const drawn = linkage({
  points: {
    foot: [0, 0],
    boomBase: [600, -900],
    boomEye: [600, 500],
    elbow: [4000, 2000],
    stickBase: [2800, 2600],
    stickEye: [4300, 2900],
    wrist: [6500, 500],
    bucketBase: [5200, 2100],
    bucketEye: [7000, 1000],
    tip: [7000, 0],
  },
  ground: ['foot', 'boomBase'],
  bodies: {
    boom: ['foot', 'boomEye', 'stickBase', 'elbow'],
    stick: ['elbow', 'stickEye', 'bucketBase', 'wrist'],
    bucket: ['wrist', 'bucketEye', 'tip'],
  },
});
/** @type {['boomBase', 'boomEye']} */
const boomRam = ['boomBase', 'boomEye'];
/** @type {['stickBase', 'stickEye']} */
const stickRam = ['stickBase', 'stickEye'];
/** @type {['bucketBase', 'bucketEye']} */
const bucketRam = ['bucketBase', 'bucketEye'];
const drivers = [{ length: boomRam }, { length: stickRam }, { length: bucketRam }];

const [boom, stick, bucket] = forces(drawn, [{ at: 'tip', on: 'bucket', force: [0, -10_000] }], {
  drivers,
}).drivers;
console.log('force in the boom cylinder [N]:', boom?.toFixed(3));
console.log('force in the stick cylinder [N]:', stick?.toFixed(3));
console.log('force in the bucket cylinder [N]:', bucket?.toFixed(3));

const lengths = [1300, 1750, 2000];
const dig = trace(drawn, { drivers: drivers.map((driver, k) => ({ driver, to: lengths[k] })) });
console.log('the boom turns [rad]:', dig.read({ turn: 'boom' })(1).value.toFixed(6));

// Cylinders as telescopes, for the picture.
const telescopes = { boomRam, stickRam, bucketRam };
writeFileSync(
  new URL('../../pictures/linkages/excavator.svg', import.meta.url),
  drawLinkage({ ...drawn, telescopes }, { title: 'Excavator with three cylinders', poses: [dig.at(1)] }),
);
