// @ts-check
// The picture of the README: npm run build && node docs/examples/corner.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import { drawCorner, limits, readCar } from 'jounce';

const { units, corners } = readCar(readFileSync(new URL('car.json', import.meta.url), 'utf8'));
const { corner, limits: input, sizing } = corners.front;
writeFileSync(
  new URL('../pictures/corner.svg', import.meta.url),
  drawCorner(corner, [0], {
    title: 'Front corner of the example car at full droop, ride height and full bump',
    limits: limits(corner, input),
    bodyEnd: sizing?.order?.bodyEnd ?? 'up',
    units,
  }),
);
