// @ts-check
// From tape readings to a better mount: node docs/examples/survey.mjs, after npm run build. It writes the pictures of
// docs/measuring.md.
//
// The readings in survey.json are invented, on an invented corner; one of them is wrong.
import { readFileSync, writeFileSync } from 'node:fs';
import {
  design,
  drawDesign,
  drawResiduals,
  plotCurves,
  readCar,
  sentence,
  sizeCoilovers,
  survey,
  surveyedCorner,
  sweep,
  uncertaintyBands,
  writeSurveyedCorner,
} from 'jounce';

const out = new URL('../pictures/', import.meta.url);

const readings = JSON.parse(readFileSync(new URL('survey.json', import.meta.url), 'utf8'));
const first = survey(readings);
tell('As it was read', first);
writeFileSync(new URL('survey-residuals.svg', out), drawResiduals(first));

// The reading that was named, read again.
const again = structuredClone(readings);
again.distances[8].value = 136.5;
const second = survey(again);
tell('With that distance read again', second);

const corner = surveyedCorner(second, { coilover: 'lowerArm' });
const travel = { bump: 60, droop: 60 };
const sure = uncertaintyBands(corner, undefined, travel);
const curves = sweep(corner, travel);
const ride = curves.at(0).installationRatio ?? 0;
const width = sure.columns.installationRatio[sure.travel.indexOf(0)] ?? 0;
console.log(`\nInstallation ratio at ride: ${ride.toFixed(3)}, sure to ${width.toFixed(3)} 95 times in 100.`);
writeFileSync(
  new URL('survey-band.svg', out),
  plotCurves(curves, { title: 'Installation ratio and shock length, 95 % interval shaded', bands: sure }),
);

// The points into the front corner of a car file, which is in inches; JSON.stringify(car, null, 2) is the file to keep.
const car = writeSurveyedCorner(readFileSync(new URL('car.json', import.meta.url), 'utf8'), second, {
  corner: 'front',
});
const [front] = sizeCoilovers(readCar(car)).axles;
const { label, value, lower, upper } = front.figure('designLength');
const millimetres = [value, lower, upper].map((mm) => (mm === null ? '?' : mm.toFixed(1)));
console.log(`In the car file: ${label} ${millimetres[0]}, ${millimetres[1]} to ${millimetres[2]} mm.`);

// The upper mount is not welded yet: where should it go for a ratio of 0.6 with little change?
const [y, z] = second.points.shockChassisMount.at;
const made = design(corner, {
  mounts: { shockChassisMount: { y: [y - 40, y + 90], z: [z - 40, z + 60] } },
  objectives: [
    { quantity: 'designRatio', target: 0.6 },
    { quantity: 'ratioChange', min: 0, max: 0.06 },
  ],
  travel: { ...travel, step: 10 },
});
console.log('\nThe upper mount, moved');
for (const one of made.diagnostics) console.log(`  ${sentence(one)}`);
writeFileSync(new URL('survey-mount.svg', out), drawDesign(corner, made));

/**
 * @param {string} what
 * @param {import('jounce').Survey} found
 */
function tell(what, found) {
  console.log(`\n${what}`);
  for (const one of found.diagnostics) console.log(`  ${sentence(one, found.units)}`);
  for (const [name, { at, plusMinus }] of Object.entries(found.points)) {
    const each = at.map((value, k) => `${value.toFixed(1)} ± ${plusMinus[k]?.toFixed(1) ?? '?'}`);
    console.log(`    ${name.padEnd(20)}${each.map((text) => text.padStart(14)).join('')}  mm`);
  }
}
