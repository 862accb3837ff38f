// @ts-check
// The pictures of docs/hand-method.md: npm run build && node docs/examples/hand-method.mjs
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { drawCorner, handMethod, limits, plotHandMethod, readCar, sentence } from 'jounce';

/** What the spring carries, kg, and the frequency that it is chosen for, Hz. */
const LOAD = { sprungMass: 330 * 0.45359237, frequency: 1.5 };

const folder = new URL('../pictures/', import.meta.url);
mkdirSync(folder, { recursive: true });
const { front } = readCar(readFileSync(new URL('car.json', import.meta.url), 'utf8')).corners;
const ends = limits(front.corner, front.limits);

/** The car's corner, and the same with its shock leaned over by 45 degrees about its mount. */
const { corner: drawn } = front;
if (drawn.kind !== 'doubleWishbone') throw new Error('the hand figure is about an arm with a coilover');
const cases = { 'as-drawn': drawn, 'leaned-over': leanedOver(drawn) };
for (const [name, corner] of Object.entries(cases)) {
  const method = handMethod(corner, {
    ...LOAD,
    travel: { bump: 80, droop: 80 },
  });
  if (!method.defined) throw new Error(sentence(method.reason));
  const title = `Hand method, coilover ${name.replace('-', ' ')}`;
  writeFileSync(
    new URL(`hand-method-${name}.svg`, folder),
    plotHandMethod(method, name === 'as-drawn' ? { title, limits: ends } : { title }),
  );
  writeFileSync(new URL(`hand-method-${name}-corner.svg`, folder), drawCorner(corner, [0], { title }));
  console.log(`${title}\n  ${method.diagnostics.map((one) => sentence(one)).join('\n  ')}`);
}

/**
 * @param {import('jounce').DoubleWishbone} corner
 * @returns {import('jounce').DoubleWishbone}
 */
function leanedOver(corner) {
  const { mount, chassisMount } = corner.coilover;
  if (chassisMount === undefined) return corner;
  const length = Math.hypot(chassisMount[0] - mount[0], chassisMount[1] - mount[1]);
  const side = length * Math.SQRT1_2;
  return { ...corner, coilover: { ...corner.coilover, chassisMount: [mount[0] - side, mount[1] + side] } };
}
