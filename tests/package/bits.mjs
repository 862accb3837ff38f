// @ts-check
// Of a car and a corner, all that is to have the same bytes on every version of Node, and nearly the same on other engines, with all digits.
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

/** @type {(key: string, value: unknown) => unknown} */
const plain = (_, value) => (ArrayBuffer.isView(value) ? [.../** @type {Float64Array} */ (value)] : value);

/** As JSON, from the texts of a car file and a corner file. @type {(carFile: string, cornerFile: string) => string} */
export function bits(carFile, cornerFile) {
  const { corner } = readCorner(cornerFile);
  const car = readCar(carFile);
  const sizing = sizeCoilovers(car);
  const found = {
    sweep: sweep(corner, { bump: 60, droop: 60 }).columns,
    limits: limits(corner),
    sizing: sizing.axles.map(({ figures }) => figures),
    order: JSON.parse(sheetJson(orderSheet(sizing))),
    draws: monteCarloSizing(car, { draws: 100, seed: 7 }),
  };
  return JSON.stringify(found, plain);
}
