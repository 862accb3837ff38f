// @ts-check
// Of two files that it is given, a car and a corner, all that is to have the same bytes on every version of Node, with all digits.
import { readFileSync } from 'node:fs';
import {
  limits,
  monteCarloSizing,
  orderSheet,
  readCar,
  readCorner,
  sheetJson,
  sizeCoilovers,
  sweep,
} from 'jounce';

const [carFile, cornerFile] = process.argv.slice(2).map((file) => readFileSync(file, 'utf8'));
const { corner } = readCorner(cornerFile);
const car = readCar(carFile);
const sizing = sizeCoilovers(car);
/** @type {(key: string, value: unknown) => unknown} */
const plain = (_, value) => (ArrayBuffer.isView(value) ? [.../** @type {Float64Array} */ (value)] : value);

const found = {
  sweep: sweep(corner, { bump: 60, droop: 60 }).columns,
  limits: limits(corner),
  sizing: sizing.axles.map(({ figures }) => figures),
  order: sheetJson(orderSheet(sizing)),
  draws: monteCarloSizing(car, { draws: 100, seed: 7 }),
};
process.stdout.write(JSON.stringify(found, plain));
