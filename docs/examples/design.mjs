// @ts-check
// The figures and the picture of docs/design.md: node docs/examples/design.mjs, after npm run build.
//
// An invented corner whose coilover stands on the lower arm, leaning a good deal. Both its mounts may be moved: the welder has a plate on
// the arm, and a stretch of chassis tube above.
import { writeFileSync } from 'node:fs';
import { design, doubleWishbone, drawDesign, sentence } from 'jounce';

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
    // Springs of 35 N/mm are at hand, for 1.5 Hz.
    { quantity: 'springRate', sprungMass: 180, frequency: 1.5, target: 35 },
    { quantity: 'ratioChange', min: 0, max: 0.05 },
    { quantity: 'maxLength', max: 385 },
    { quantity: 'strokeFraction', stroke: 100, max: 0.9 },
  ],
  clearances: {
    springToTyre: 40,
    mountToArm: { upperArm: 40 },
    spring: { diameter: 76, seatOffset: 60 },
    tyre: { overallRadius: 318, width: 205 },
  },
  travel: { bump: 60, droop: 60, step: 10 },
};

/** @param {string} what @param {import('jounce').Design} made */
function tell(what, made) {
  console.log(`\n${what}: ${made.status}, ${made.trials} corners tried`);
  for (const one of made.diagnostics) console.log(`  ${sentence(one)}`);
  for (const [name, { from, to }] of Object.entries(made.mounts)) {
    console.log(`  ${name}: [${from.join(', ')}] -> [${to.map((one) => one.toFixed(1)).join(', ')}]`);
  }
}

const made = design(drawn, options);
tell('Springs at hand', made);

// The same with more required than is possible: what each objective costs the others.
const greedy = design(drawn, {
  ...options,
  objectives: [
    { quantity: 'springRate', sprungMass: 180, frequency: 1.5, target: 35, tolerance: 0.5 },
    { quantity: 'designRatio', target: 0.75, tolerance: 0.01 },
    { quantity: 'maxLength', max: 370, tolerance: 1 },
  ],
});
tell('More than there is', greedy);
console.log('  The trade-off, spring rate [N/mm], ratio at ride, longest length [mm]:');
for (const { values } of greedy.tradeOff) {
  console.log(`    ${values[0].toFixed(2)}, ${values[1].toFixed(4)}, ${values[2].toFixed(1)}`);
}

writeFileSync(
  new URL('../pictures/design.svg', import.meta.url),
  drawDesign(drawn, made, { title: 'Mounts moved for the springs on the shelf' }),
);
