// @ts-check
// The rear of a motorcycle, its shock on a rocker: node docs/examples/linkages/rear-rocker.mjs, after npm run build.
//
// Invented dimensions in mm, seen from the left, front to the left. Moments about the two pivots (from memory, any statics textbook):
// wheel load times its arm is the rod's force times its arm, and so again about the rocker's pivot. The same factor is the
// installation ratio, shock per wheel travel (virtual work).
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';
import { couplerCurve } from 'jounce/synthesis';

const drawn = linkage({
  points: {
    armPivot: [0, 0],
    axle: [560, -60],
    rodFoot: [180, -50],
    rodEye: [150, 150],
    rockerPivot: [60, 130],
    shockEye: [110, 195],
    shockMount: [-170, 290],
  },
  ground: ['armPivot', 'rockerPivot', 'shockMount'],
  bodies: {
    swingarm: ['armPivot', 'rodFoot', 'axle'],
    rod: ['rodFoot', 'rodEye'],
    rocker: ['rockerPivot', 'rodEye', 'shockEye'],
  },
});
/** @type {{ length: ['shockMount', 'shockEye'] }} */
const shock = { length: ['shockMount', 'shockEye'] };
const motion = trace(drawn, { driver: { y: 'axle' }, from: -110, to: 60 });
const length = motion.read(shock);
console.log('installation ratio as drawn:', Math.abs(length(-60).first ?? 0).toFixed(6));
console.log('the same at 120 of bump:', Math.abs(length(60).first ?? 0).toFixed(6));
console.log('shock length there:', length(60).value.toFixed(4));
const carried = forces(drawn, [{ at: 'axle', force: [0, 1000] }], { driver: shock });
console.log('shock force for 1000 N at the axle [N]:', carried.driver?.toFixed(3));

writeFileSync(
  new URL('../../pictures/linkages/rear-rocker.svg', import.meta.url),
  drawLinkage(
    { ...drawn, telescopes: { shock: shock.length } },
    {
      title: 'Rear suspension of a motorcycle with a rocker',
      poses: [motion.at(60)],
      curves: [couplerCurve(motion, 'axle').points],
    },
  ),
);
