// @ts-check
// The backhoe of a loader, its bucket on a four-bar: node docs/examples/linkages/backhoe.mjs, after npm run build.
//
// Invented dimensions in mm. The bucket cylinder pushes the pin K of two links: the guide to the stick, the link to the bucket.
// Moments (from memory, any statics textbook) for 5 kN down at the tip: link times its arm about the wrist is the load times its own;
// cylinder times its arm about the guide's pivot is link times its own; the other cylinders by the load's arm about elbow and foot.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';

/** @type {{ boomRam: ['boomBase', 'boomEye'], stickRam: ['stickBase', 'stickEye'], bucketRam: ['bucketBase', 'K'] }} */
const rams = {
  boomRam: ['boomBase', 'boomEye'],
  stickRam: ['stickBase', 'stickEye'],
  bucketRam: ['bucketBase', 'K'],
};
const drawn = linkage({
  points: {
    foot: [0, 0],
    boomBase: [-60, 420],
    boomEye: [820, 1500],
    stickBase: [760, 1640],
    elbow: [1500, 2150],
    stickEye: [1320, 2420],
    bucketBase: [1610, 2330],
    guidePivot: [2180, 1010],
    wrist: [2280, 800],
    K: [2390, 1120],
    bucketEye: [2530, 900],
    tip: [2650, 150],
  },
  ground: ['foot', 'boomBase'],
  bodies: {
    boom: ['foot', 'boomEye', 'stickBase', 'elbow'],
    stick: ['elbow', 'stickEye', 'bucketBase', 'guidePivot', 'wrist'],
    guide: ['guidePivot', 'K'],
    link: ['K', 'bucketEye'],
    bucket: ['wrist', 'bucketEye', 'tip'],
  },
  telescopes: rams,
});
const drivers = Object.values(rams).map((length) => ({ length }));

const carried = forces(drawn, [{ at: 'tip', on: 'bucket', force: [0, -5000] }], { drivers }).drivers;
['boom', 'stick', 'bucket'].forEach((name, k) => {
  console.log(`force in the ${name} cylinder [N]:`, carried[k]?.toFixed(2));
});

const lengths = [1600, 1050, 1500];
const dig = trace(drawn, { drivers: drivers.map((driver, k) => ({ driver, to: lengths[k] })) });
const [x, y] = dig.at(1).tip;
console.log('tip with the cylinders at 1600, 1050 and 1500, x:', x.toFixed(3));
console.log('y:', y.toFixed(3));

writeFileSync(
  new URL('../../pictures/linkages/backhoe.svg', import.meta.url),
  drawLinkage(drawn, { title: 'Backhoe with its bucket linkage', poses: [dig.at(1)] }),
);
