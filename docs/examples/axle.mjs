// @ts-check
// The pictures of docs/axle.md: npm run build && node docs/examples/axle.mjs
import { writeFileSync } from 'node:fs';
import { axle, doubleWishbone, drawAxle, limits, plotAxleLimits, torsionalStiffness } from 'jounce';

const left = doubleWishbone({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});
const front = axle({
  left,
  bar: {
    on: 'lowerArm',
    linkMount: [480, 175],
    leverEnd: [470, 330],
    leverLength: 180,
    torsionalStiffness: torsionalStiffness({ diameter: 16, length: 800 }),
  },
});
const save = (/** @type {string} */ name, /** @type {string} */ svg) =>
  writeFileSync(new URL(`../pictures/${name}.svg`, import.meta.url), svg);

save('axle-rolled', drawAxle(front, { heave: 10, roll: 2 }));
const found = limits(left, {
  damper: { extendedLength: 372, compressedLength: 308 },
  bumpStop: { height: 30, solidHeight: 10 },
});
save('axle-limits', plotAxleLimits(front, { left: found }));
