// @ts-check
// The pictures and figures of docs/forces.md: node docs/examples/forces.mjs, after npm run build.
//
// An invented corner, once with the coilover on the lower arm and once on the upper one, and the lower ball joint once upright and
// once upside down.
import { writeFileSync } from 'node:fs';
import { cornerForces, doubleWishbone, drawForces, forceCurves, limits, plotCurves, sentence } from 'jounce';

/** @type {(on: 'lowerArm' | 'upperArm', mount: [number, number], chassisMount: [number, number]) => import('jounce').DoubleWishbone} */
const corner = (on, mount, chassisMount) =>
  doubleWishbone({
    lowerArm: { inner: [255, 165], outer: [640, 150] },
    upperArm: { inner: [310, 355], outer: [600, 375] },
    wheel: { centre: [705, 312], camber: -0.5 },
    coilover: { on, mount, chassisMount },
  });

/** @type {(lower: [number, number], damper: { extendedLength: number, compressedLength: number }) => import('jounce').ForceOptions} */
const options = (lower, damper) => ({
  sprungMass: 160,
  unsprungMass: 30,
  springRate: 40,
  limits: {
    damper,
    ballJoints: {
      lowerOuter: { maxArticulation: 25, housing: 'arm', housingAxis: lower },
      upperOuter: { maxArticulation: 25, housing: 'arm', housingAxis: [0, 1] },
    },
  },
});

const pictures = new URL('../pictures/', import.meta.url);
const onLower = corner('lowerArm', [505, 170], [345, 480]);
const onUpper = corner('upperArm', [500, 370], [400, 640]);
const dampers = new Map([
  [onLower, { extendedLength: 385, compressedLength: 300 }],
  [onUpper, { extendedLength: 330, compressedLength: 235 }],
]);
/** @param {import('jounce').DoubleWishbone} drawn */
const damperOf = (drawn) => dampers.get(drawn) ?? { extendedLength: 0, compressedLength: 0 };

for (const [name, drawn, axis] of /** @type {const} */ ([
  ['lower arm, stud up', onLower, [0, 1]],
  ['lower arm, stud down', onLower, [0, -1]],
  ['upper arm, stud up', onUpper, [0, 1]],
])) {
  const { cases, maxPullOut } = cornerForces(drawn, options([...axis], damperOf(drawn)));
  console.log(`\nCoilover on the ${name}`);
  for (const { name: title, ballJoints } of cases) {
    for (const joint of ['lowerOuter', 'upperOuter']) {
      const { axial, radial } = ballJoints[joint];
      console.log(`  ${title}, ${joint}: axial ${axial.toFixed(0)} N, radial ${radial.toFixed(0)} N`);
    }
  }
  for (const { case: title, diagnostic } of Object.values(maxPullOut)) {
    console.log(`  ${title}: ${sentence(diagnostic)}`);
  }
}

const shown = [
  ['lower', onLower],
  ['upper', onUpper],
];
for (const [arm, drawn] of /** @type {[string, import('jounce').DoubleWishbone][]} */ (shown)) {
  const [still] = cornerForces(drawn, options([0, 1], damperOf(drawn))).cases;
  const title = `Coilover on the ${arm} arm: forces at static ride height`;
  writeFileSync(new URL(`forces-${arm}-arm.svg`, pictures), drawForces(drawn, still, { title }));
}

const loads = options([0, 1], damperOf(onLower));
writeFileSync(
  new URL('forces-through-travel.svg', pictures),
  plotCurves(forceCurves(onLower, loads), {
    title: 'Coilover on the lower arm: forces through travel',
    panels: ['wheelLoad', 'coiloverForce', 'lowerOuterAxial', 'lowerOuterRadial'],
    limits: limits(onLower, loads.limits),
  }),
);
