// @ts-check
// The picture of axes, signs and travel in the definitions: npm run build && node docs/examples/axes.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import { limits, readCorner, sweep } from 'jounce';

const text = readFileSync(new URL('front-corner.json', import.meta.url), 'utf8');
const { corner } = readCorner(text);
const found = limits(corner, {
  damper: { extendedLength: 375, compressedLength: 285 },
  bumpStop: { height: 35, solidHeight: 12 },
});
const curves = sweep(corner, { bump: 90, droop: 90 });
const { lowerArm, upperArm, wheel, coilover } = JSON.parse(text);
const drawn = curves.at(0);

/** Picture of 900 by 640; the origin of the car is at (90, 560). */
const at = (/** @type {readonly number[]} */ [y, z]) =>
  [90 + y * 0.8, 560 - z * 0.8].map((px) => px.toFixed(1));
const line = (/** @type {(readonly number[])[]} */ points, rest = 'stroke-width="1"') =>
  `<path d="M${points.map((point) => at(point).join(' ')).join('L')}" fill="none" stroke="#000" ${rest}/>`;
const word = (/** @type {readonly number[]} */ point, /** @type {string} */ words, anchor = 'start') =>
  `<text x="${at(point)[0]}" y="${at(point)[1]}" font-size="14" text-anchor="${anchor}">${words}</text>`;
/** Length of an arrow's tip and half its width, in units of the picture. */
const TIP = [12, 5];
const arrow = (/** @type {readonly number[]} */ from, /** @type {readonly number[]} */ to) => {
  const [[x0, y0], [x, y]] = [from, to].map((point) => at(point).map(Number));
  const size = Math.hypot(x - x0, y - y0);
  const [u, v] = [(x - x0) / size, (y - y0) / size];
  const [back, wide] = TIP;
  const corners = [1, -1].map((way) =>
    [x - back * u - way * wide * v, y - back * v + way * wide * u].map((px) => px.toFixed(1)).join(' '),
  );
  return `${line([from, to], 'stroke-width="1.6"')}\n<path d="M${x} ${y}L${corners.join('L')}Z" fill="#000"/>`;
};

const patch = [drawn.contactPatchY, 0];
const tyre = [-95, 95].flatMap((half) => [
  [wheel.centre[0] + half, 0],
  [wheel.centre[0] + half, 578],
]);
/** The scale of the travel at the right: what happens where. */
const scale = 900;
const marks = [
  [found.bump?.travel ?? 0, 'full bump: bump stop solid'],
  [found.events[0].travel, 'bump stop contact'],
  [0, 'design ride height: travel 0'],
  [found.droop?.travel ?? 0, 'full droop: damper topped out'],
].map(([travel, words]) => ({ travel: Number(travel), words }));

const picture = [
  '<?xml version="1.0" encoding="UTF-8"?>',
  `<svg xmlns="http://www.w3.org/2000/svg" width="1120" height="640" viewBox="0 0 1120 640" role="img" font-family="'DejaVu Sans', Arial, Helvetica, sans-serif" font-size="14" fill="#000">`,
  '<title>Axes, signs and travel of a corner</title>',
  '<rect width="1120" height="640" fill="#fff"/>',
  line(
    [
      [0, -50],
      [0, 640],
    ],
    'stroke-dasharray="14 4 2 4"',
  ),
  word([10, 625], 'vehicle centreline'),
  line([
    [-40, 0],
    [830, 0],
  ]),
  arrow([0, 0], [150, 0]),
  arrow([0, 0], [0, 150]),
  word([60, -30], 'y outboard +'),
  word([12, 120], 'z up +'),
  word([-70, -30], 'origin'),
  line([tyre[0], tyre[1], tyre[3], tyre[2]], 'stroke-width="1.4" stroke-dasharray="7 4"'),
  line([lowerArm.inner, lowerArm.outer], 'stroke-width="4"'),
  line([upperArm.inner, upperArm.outer], 'stroke-width="4"'),
  line([lowerArm.outer, upperArm.outer, wheel.centre, lowerArm.outer], 'stroke-width="2"'),
  line([lowerArm.inner, coilover.mount, lowerArm.outer], 'stroke-width="1.4"'),
  line([coilover.mount, coilover.chassisMount], 'stroke-width="2" stroke-dasharray="3 3"'),
  ...[
    lowerArm.inner,
    upperArm.inner,
    coilover.chassisMount,
    lowerArm.outer,
    upperArm.outer,
    coilover.mount,
    wheel.centre,
    patch,
  ].map(
    (point) =>
      `<circle cx="${at(point)[0]}" cy="${at(point)[1]}" r="5" fill="#fff" stroke="#000" stroke-width="1.6"/>`,
  ),
  word([lowerArm.inner[0] - 12, lowerArm.inner[1] - 24], 'lowerInner', 'end'),
  word([upperArm.inner[0] - 12, upperArm.inner[1] + 6], 'upperInner', 'end'),
  word([coilover.chassisMount[0] - 12, coilover.chassisMount[1] + 8], 'shockChassisMount', 'end'),
  word([coilover.mount[0] - 20, coilover.mount[1] - 44], 'shockMount', 'end'),
  word([lowerArm.outer[0] + 14, lowerArm.outer[1] - 14], 'lowerOuter'),
  word([upperArm.outer[0] - 10, upperArm.outer[1] + 22], 'upperOuter', 'end'),
  word([wheel.centre[0] + 105, wheel.centre[1] - 6], 'wheelCentre'),
  word([patch[0] - 12, -30], 'contactPatch'),
  word([395, 270], 'shockLength, eye to eye', 'end'),
  word([215, 205], 'arm angle: outer end up +'),
  word([wheel.centre[0], 600], 'camber: top outboard +', 'middle'),
  arrow([scale, -90], [scale, 120]),
  word([scale + 12, 112], 'travel: bump +'),
  ...marks.flatMap(({ travel, words }) => [
    line(
      [
        [scale - 8, travel],
        [scale + 8, travel],
      ],
      'stroke-width="1.6"',
    ),
    word(
      [scale + 14, travel - 5],
      `${travel > 0 ? '+' : travel < 0 ? '−' : ''}${Math.abs(travel).toFixed(1)} ${words}`,
    ),
  ]),
  '</svg>',
];
writeFileSync(new URL('../pictures/axes.svg', import.meta.url), `${picture.join('\n')}\n`);
