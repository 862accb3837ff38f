// @ts-check
// A corner from file to figures: npm run demo, or npm run demo -- my-corner.json
//
// The corner in front-corner.json is made up: the front of a light two-seater, built once, in a barn. Its points
// stand for ones taken with tape, level and plumb line at ride height. A file of yours has the same shape.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, extname } from 'node:path';
import { describeEnd, doubleWishbone, drawSweep, InputError, sweep, sweepCsv, sweepTable } from 'jounce';

/** Travel to look at, and one that no corner reaches, mm. */
const TRAVEL = { bump: 70, droop: 70 };
const BEYOND = { bump: 2000, droop: 2000, step: 50, columns: ['shockLength'] };

const file = process.argv[2] ?? new URL('front-corner.json', import.meta.url);
const out = new URL('../../out/', import.meta.url);

/** The file's name without folder and ending: front-corner. */
const name = basename(String(file), extname(String(file)));
const title = name.charAt(0).toUpperCase() + name.slice(1).replaceAll('-', ' ');

try {
  const corner = doubleWishbone(JSON.parse(readFileSync(file, 'utf8')));
  const curves = sweep(corner, { ...TRAVEL, step: 1 });

  print(`${title}: shock and wheel through the travel\n`);
  print(sweepTable(sweep(corner, { ...TRAVEL, step: 10 })));

  print('Where the sweep ended');
  printEnds(curves);
  print('How far the linkage itself would go, with no shock, stop, arch or ground in its way');
  printEnds(sweep(corner, BEYOND));

  print('What it says');
  for (const line of findings(curves)) print(`  - ${line}`);

  mkdirSync(out, { recursive: true });
  writeFileSync(new URL(`${name}.csv`, out), sweepCsv(curves));
  writeFileSync(new URL(`${name}.svg`, out), drawSweep(corner, curves, { title }));
  print(`\nWritten: out/${name}.csv  every column of the sweep, a row a mm`);
  print(`         out/${name}.svg  the corner at droop, ride and bump, with its curves`);

  print(`
These figures are for planning. The model is flat and rigid: it knows no steering, no bushing that gives, no fore-aft
geometry but the shock's offset. Strength, welds, steering, brakes and whether a car may go on the road are matters of
local codes and of a licensed engineer or inspector.`);
} catch (error) {
  if (!(error instanceof InputError || error instanceof SyntaxError || isFileError(error))) throw error;
  console.error(error.message);
  process.exitCode = 1;
}

/** @param {string} text */
function print(text) {
  console.log(text);
}

/** @param {import('jounce').Sweep} curves */
function printEnds({ end }) {
  print(`  bump:  ${describeEnd(end.bump)}`);
  print(`  droop: ${describeEnd(end.droop)}\n`);
}

/**
 * The sweep in sentences.
 * @param {import('jounce').Sweep} curves
 */
function findings({ columns, at }) {
  const { travel, shockLength, installationRatio, camber, rollCentreHeight } = columns;
  if (travel.length === 0) return ['The corner is drawn at a dead point: draw it where the wheel can move.'];
  const last = travel.length - 1;
  const ride = at(0);
  const stroke = Math.abs(shockLength[0] - shockLength[last]);
  const [low, high] = [installationRatio[0], installationRatio[last]];
  const rate = 100 * ((high / low) ** 2 - 1);
  const way = Math.abs(rate) < 1 ? 'hardly changes' : rate > 0 ? 'rises' : 'falls';
  return [
    `From ${mm(travel[0])} to ${mm(travel[last])} of travel the shock moves ${stroke.toFixed(1)} mm; at ride it is ${ride.shockLength.toFixed(1)} mm long.`,
    `A mm at the wheel is ${ride.installationRatio.toFixed(3)} mm at the shock (ride). The ratio ${way} towards bump: ${low.toFixed(3)} to ${high.toFixed(3)}.`,
    `The spring's part of the wheel rate goes with the square of the ratio: ${signed(rate, 0)} % from droop to bump.`,
    `Camber goes from ${signed(camber[0], 2)} to ${signed(camber[last], 2)} degrees between droop and bump.`,
    `The roll centre is ${rollCentreHeight[0].toFixed(0)} mm above the ground at droop, ${ride.rollCentreHeight.toFixed(0)} mm at ride, ${rollCentreHeight[last].toFixed(0)} mm at bump.`,
  ];
}

/** @param {number} travel */
function mm(travel) {
  return `${signed(travel, 0)} mm`;
}

/**
 * @param {number} value
 * @param {number} decimals
 */
function signed(value, decimals) {
  return `${value > 0 ? '+' : ''}${value.toFixed(decimals)}`;
}

/**
 * A file that can't be read is the reader's to mend, as a wrong input is.
 * @param {unknown} error
 * @returns {error is NodeJS.ErrnoException}
 */
function isFileError(error) {
  return error instanceof Error && 'code' in error && 'path' in error;
}
