import type { CornerInput } from '../tests/judges/circle-intersection.ts';

/** The corner of the table. */
export const mainCorner: CornerInput = {
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
};

/** A corner whose upper arm comes in line with its upright before the full droop. */
export const endingCorner: CornerInput = {
  ...mainCorner,
  upperArm: { inner: [530, 355], outer: [600, 375] },
};

/** Corners that differ from it in what could matter to speed, by what is said of them. */
export const otherCorners: Readonly<Record<string, CornerInput>> = {
  'coilover on the upper arm': {
    lowerArm: { inner: [215, 172], outer: [668, 141] },
    upperArm: { inner: [335, 338], outer: [622, 361] },
    wheel: { centre: [731, 303], contactPatch: [733, 0] },
    coilover: { on: 'upperArm', mount: [498, 366], chassisMount: [421, 702] },
  },
  'coilover on the upright, leaning fore and aft': {
    lowerArm: { inner: [284, 181], outer: [651, 147] },
    upperArm: { inner: [352, 428], outer: [617, 449] },
    wheel: { centre: [702, 321], camber: -1.2 },
    coilover: { on: 'upright', mount: [598, 402], chassisMount: [463, 745], foreAftOffset: 38 },
  },
  'parallel level arms': {
    lowerArm: { inner: [302, 158], outer: [661, 158] },
    upperArm: { inner: [371, 396], outer: [604, 396] },
    wheel: { centre: [712, 309], camber: 0 },
    coilover: { on: 'lowerArm', mount: [541, 183], chassisMount: [397, 521] },
  },
};
