import * as z from 'zod';
import type { CornerKind } from '../corner-kind.ts';
import { arm, plainCoilover, wheel } from '../corner-schema.ts';
import { hardpoint } from '../quantity.ts';

const schema = z.strictObject({
  lowerArm: arm,
  strut: z
    .strictObject({
      topMount: hardpoint('Top mount of the strut on the chassis, middle of its bearing'),
      lowerMount: hardpoint(
        'A point on the axis of the strut, low on the upright; the spring and damper act from here',
      ),
    })
    .describe('The strut: its top mount, and a point of its axis on the upright.'),
  wheel,
  coilover: plainCoilover('lowerArm', 'upright')
    .describe(
      'A coilover beside the strut; if left out, spring and damper act along the strut from lower to top.',
    )
    .optional(),
});

/** A strut that slides along an axis of the upright. */
export const STRUT = {
  kind: 'strut',
  what: 'strut corner',
  about: 'for an upright that slides along a strut',
  schema,
  points: {
    'lowerArm.inner': 'lowerInner',
    'lowerArm.outer': 'lowerOuter',
    'strut.topMount': 'strutTop',
    'strut.lowerMount': 'strutLower',
    'wheel.centre': 'wheelCentre',
    'wheel.contactPatch': 'contactPatch',
    'coilover.mount': 'shockMount',
    'coilover.chassisMount': 'shockChassisMount',
    'coilover.otherEnd.mount': 'shockOtherMount',
  },
  apart: [
    ['strut.topMount', 'strut.lowerMount'],
    ['strut.topMount', 'lowerArm.outer'],
  ],
  arms: { lowerArm: ['lowerArm.inner', 'lowerArm.outer'] },
  upright: ['lowerArm.outer', 'strut.lowerMount'],
  strut: 'strut',
  sizes: [
    {
      at: 'strut',
      between: ['strut.lowerMount', 'strut.topMount'],
      what: 'mountDistance',
      least: 150,
      most: 1000,
    },
  ],
  ends: [['strut.topMount', 'above', 'strut.lowerMount']],
  ballJoints: {
    about: 'The ball joint at the outer end of the arm.',
    holders: { lowerOuter: ['arm', 'upright'] },
  },
} as const satisfies CornerKind<typeof schema>;
