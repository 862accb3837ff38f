// @ts-check
// A planetary set of 30, 21 and 72 teeth: node docs/examples/linkages/planetary.mjs, after npm run build.
//
// Willis' equation (from memory), turns as seen from the carrier: (sun - carrier) / (ring - carrier) = -72 / 30. So a turn of the sun
// gives 30 / (30 + 72) of the carrier with the ring held, and -30 / 72 of the ring with the carrier held; a turn of the ring gives
// 72 / (30 + 72) of the carrier with the sun held. The ring holds 72 / 30 times the moment of the sun.
import { writeFileSync } from 'node:fs';
import { drawLinkage } from 'jounce';
import { linkage, trace } from 'jounce/linkage';
import { forces } from 'jounce/statics';

/** @type {'carrier'} */
const relativeTo = 'carrier';
const drawn = linkage({
  points: { O: [0, 0], S: [0, 30], P: [51, 0], Q: [72, 0], R: [-72, 0] },
  ground: ['O'],
  bodies: { sun: ['O', 'S'], carrier: ['O', 'P'], planet: ['P', 'Q'], ring: ['O', 'R'] },
  ratios: {
    inner: {
      of: [
        { turn: 'planet', relativeTo },
        { turn: 'sun', relativeTo },
      ],
      ratio: -30 / 21,
    },
    outer: {
      of: [
        { turn: 'planet', relativeTo },
        { turn: 'ring', relativeTo },
      ],
      ratio: 72 / 21,
    },
  },
});
/** @typedef {'sun' | 'carrier' | 'ring'} Part */
/** @param {Part} driver @param {Part} held @param {Part} out */
function ratio(driver, held, out) {
  const motion = trace(drawn, { driver: { turn: driver }, hold: [{ turn: held }], from: 0, to: 2 * Math.PI });
  return (motion.read({ turn: out })(2 * Math.PI).value / (2 * Math.PI)).toFixed(6);
}
console.log('carrier per turn of the sun, ring held:', ratio('sun', 'ring', 'carrier'));
console.log('ring per turn of the sun, carrier held:', ratio('sun', 'carrier', 'ring'));
console.log('carrier per turn of the ring, sun held:', ratio('ring', 'sun', 'carrier'));
const { hold } = forces(drawn, [{ on: 'sun', moment: 10 }], {
  driver: { turn: 'carrier' },
  hold: [{ turn: 'ring' }],
});
console.log('moment that holds the ring, 10 on the sun:', hold[0]?.toFixed(6));

/** @param {number} x @param {number} r @returns {[number, number][]} */
const circle = (x, r) =>
  Array.from({ length: 91 }, (_, k) => [
    x + r * Math.cos((k * Math.PI) / 45),
    r * Math.sin((k * Math.PI) / 45),
  ]);
writeFileSync(
  new URL('../../pictures/linkages/planetary.svg', import.meta.url),
  drawLinkage(drawn, {
    title: 'Planetary set with its pitch circles',
    curves: [circle(0, 30), circle(51, 21), circle(0, 72)],
  }),
);
