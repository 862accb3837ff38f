// @ts-check
// The figures and the picture of docs/design.md: node docs/examples/design.mjs, after npm run build.
//
// An invented corner whose coilover stands on the lower arm, leaning a good deal. Both its mounts may be moved: the welder has a plate on
// the arm, and a stretch of chassis tube above.
import { writeFileSync } from 'node:fs';
import { design, doubleWishbone, drawDesign } from 'jounce';

const drawn = doubleWishbone({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});

/** @type {import('jounce').DesignOptions} */
const options = {
  mounts: {
    shockMount: { y: [450, 580], z: [165, 195] },
    shockChassisMount: { y: [320, 460], z: [440, 540] },
  },
  objectives: [
    { of: 'ratioAtRide', target: 0.7 },
    { of: 'ratioChange', least: 0, most: 0.05 },
    { of: 'springRate', sprungMass: 180, frequency: 1.5, target: 35, within: 0.5 },
    { of: 'longestLength', most: 385 },
    { of: 'strokeUse', stroke: 120, most: 0.9 },
  ],
  keepOut: {
    springToTyre: 25,
    mountToArm: { upperArm: 40 },
    spring: { diameter: 76, fromEyes: 60 },
    tyre: { overallRadius: 318, width: 205 },
  },
  travel: { bump: 60, droop: 60, step: 10 },
};

const made = design(drawn, options);
console.log(`${made.how}, ${made.trials} corners tried`);
for (const reason of made.reasons) console.log(`  ${reason}`);
for (const [name, { from, to }] of Object.entries(made.mounts)) {
  console.log(`  ${name}: [${from.join(', ')}] -> [${to.map((one) => one.toFixed(1)).join(', ')}]`);
}
console.log('What can be had instead, each as far off what is wanted as it says:');
for (const { off } of made.tradeOff) {
  console.log(`  ${made.objectives.map(({ of }, k) => `${of} ${off[k].toFixed(4)}`).join(', ')}`);
}

const picture = new URL('../pictures/design.svg', import.meta.url);
writeFileSync(
  picture,
  drawDesign(drawn, made, { title: 'Both mounts of the coilover moved: as drawn (pale), and as designed' }),
);
