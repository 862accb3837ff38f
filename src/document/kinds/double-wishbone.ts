import * as z from 'zod';
import type { CornerKind } from '../corner-kind.ts';
import { arm, plainCoilover, wheel } from '../corner-schema.ts';

/** The parts of a double wishbone that move with the wheel. */
export const WISHBONE_PARTS = ['lowerArm', 'upperArm', 'upright'] as const;

/** Arms and upright of two wishbones. */
export const WISHBONES = {
  arms: {
    lowerArm: ['lowerArm.inner', 'lowerArm.outer'],
    upperArm: ['upperArm.inner', 'upperArm.outer'],
  },
  upright: ['lowerArm.outer', 'upperArm.outer'],
  strut: null,
} as const;

/** The points of two wishbones and their wheel. */
export const WISHBONE_POINTS = {
  'lowerArm.inner': 'lowerInner',
  'lowerArm.outer': 'lowerOuter',
  'upperArm.inner': 'upperInner',
  'upperArm.outer': 'upperOuter',
  'wheel.centre': 'wheelCentre',
  'wheel.contactPatch': 'contactPatch',
} as const;

const schema = z.strictObject({
  lowerArm: arm,
  upperArm: arm,
  wheel,
  coilover: plainCoilover(...WISHBONE_PARTS),
});

/** Two wishbones, with a coilover from an arm or the upright to the chassis. */
export const DOUBLE_WISHBONE = {
  kind: 'doubleWishbone',
  what: 'double wishbone',
  about: 'taken if left out',
  schema,
  points: {
    ...WISHBONE_POINTS,
    'coilover.mount': 'shockMount',
    'coilover.chassisMount': 'shockChassisMount',
    'coilover.otherEnd.mount': 'shockOtherMount',
  },
  apart: [WISHBONES.upright],
  ...WISHBONES,
  sizes: [],
  ends: [],
  ballJoints: {
    about: 'Ball joints at the outer ends of the arms.',
    holders: { lowerOuter: ['arm', 'upright'], upperOuter: ['arm', 'upright'] },
  },
} as const satisfies CornerKind<typeof schema>;
