/** The axle of the tests: an invented car's, with a bar on its lower arms. */
import { customCorner, doubleWishbone, torsionalStiffness } from 'jounce';

export const CORNER = doubleWishbone({
  lowerArm: { inner: [231, 148], outer: [628, 139] },
  upperArm: { inner: [287, 342], outer: [591, 361] },
  wheel: { centre: [694, 301], camber: -1 },
  coilover: { on: 'lowerArm', mount: [497, 158], chassisMount: [322, 471] },
});

export const BAR = {
  on: 'lowerArm',
  linkMount: [470, 160],
  leverEnd: [462, 318],
  leverLength: 210,
  torsionalStiffness: torsionalStiffness({ diameter: 20, length: 760 }),
} as const;

/** A swing axle: its wheel turns about a pivot on the chassis, [y, z] mm. */
export const PIVOT = [90, 260] as const;
export const PATCH = [650, 0] as const;
export const SWING_AXLE = customCorner({
  drawing: {
    points: {
      pivot: PIVOT,
      wheelCentre: [650, 290],
      contactPatch: PATCH,
      eye: [420, 250],
      chassisEye: [300, 600],
    },
    ground: ['pivot', 'chassisEye'],
    bodies: { halfShaft: ['pivot', 'wheelCentre', 'contactPatch', 'eye'] },
  },
  upright: 'halfShaft',
  wheelCentre: 'wheelCentre',
  contactPatch: 'contactPatch',
  shock: { outer: 'eye', inner: 'chassisEye' },
});
