// @ts-check
// Ferguson's paradox, three gears on one idler: node docs/examples/linkages/ferguson.mjs, after npm run build.
//
// J. Ferguson, 1764 (from memory). Gears of 99, 100 and 101 teeth on one axis mesh with one wide idler on an arm; the gear of 100 is
// held. As seen from the arm, a gear of z teeth turns by -100 / z for each turn of the arm: by Willis' equation 1 - 100 / z as seen
// from the ground. So 101 turns of the arm take one gear a turn forward, one nowhere, and one 101 / 99 of a turn back.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';

/** @type {'arm'} */
const relativeTo = 'arm';
/** @param {'slow' | 'still' | 'back'} gear @param {number} teeth of the gear; the idler has 20 */
const mesh = (gear, teeth) => ({
  of: /** @type {const} */ ([
    { turn: gear, relativeTo },
    { turn: 'idler', relativeTo },
  ]),
  ratio: -20 / teeth,
});
const drawn = linkage({
  points: { O: [0, 0], P: [120, 0], I: [132, 16], A: [0, 101], B: [-100, 0], C: [0, -99] },
  ground: ['O', 'B'],
  bodies: { arm: ['O', 'P'], idler: ['P', 'I'], slow: ['O', 'A'], still: ['O', 'B'], back: ['O', 'C'] },
  ratios: { one: mesh('slow', 101), two: mesh('still', 100), three: mesh('back', 99) },
});
const turns = 101 * 2 * Math.PI;
const motion = trace(drawn, { driver: { turn: 'arm' }, from: 0, to: turns });
for (const gear of /** @type {const} */ (['slow', 'still', 'back'])) {
  const turned = motion.read({ turn: gear })(turns).value / (2 * Math.PI);
  console.log(`turns of the gear "${gear}" for 101 of the arm:`, turned.toFixed(6));
}

/** @param {number} x @param {number} r @returns {[number, number][]} */
const circle = (x, r) =>
  Array.from({ length: 91 }, (_, k) => [
    x + r * Math.cos((k * Math.PI) / 45),
    r * Math.sin((k * Math.PI) / 45),
  ]);
writeFileSync(
  new URL('../../pictures/linkages/ferguson.svg', import.meta.url),
  drawLinkage(drawn, {
    title: "Ferguson's paradox: 99, 100 and 101 teeth on one idler",
    curves: [circle(0, 100), circle(120, 20)],
  }),
);
