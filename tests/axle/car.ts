/** The car of the tests: an invented one, with a bar in front. */
import { axle, type CarOnAxles, doubleWishbone, type WheelCoilover } from 'jounce';
import { BAR, CORNER } from './roadster.ts';

export const REAR_CORNER = doubleWishbone({
  lowerArm: { inner: [242, 171], outer: [634, 152] },
  upperArm: { inner: [301, 349], outer: [588, 368] },
  wheel: { centre: [702, 306], camber: -0.7 },
  coilover: { on: 'lowerArm', mount: [502, 176], chassisMount: [349, 489] },
});

export const COILOVER: WheelCoilover = {
  springRate: 48,
  gasForce: 130,
  damper: { extendedLength: 385, compressedLength: 270 },
  bumpStop: {
    height: 36,
    table: [
      [6, 260],
      [12, 800],
      [18, 2100],
      [25, 5200],
    ],
  },
  damping: 3100,
};

/** Two axles, left and right alike. */
export const CAR = {
  front: {
    linkage: axle({ left: CORNER, bar: BAR }),
    sprungMass: 341,
    unsprungMass: 29,
    left: COILOVER,
    tyreRate: 210,
  },
  rear: {
    linkage: axle({ left: REAR_CORNER }),
    sprungMass: 388,
    unsprungMass: 33,
    left: { ...COILOVER, springRate: 55 },
    tyreRate: 230,
  },
  sprungCentreOfGravityHeight: 452,
  wheelbase: 2380,
} as const satisfies CarOnAxles;
