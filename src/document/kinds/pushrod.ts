import * as z from 'zod';
import type { CornerKind } from '../corner-kind.ts';
import { arm, coilover, parts, wheel } from '../corner-schema.ts';
import { hardpoint } from '../quantity.ts';
import { WISHBONE_PARTS, WISHBONE_POINTS, WISHBONES } from './double-wishbone.ts';

const schema = z.strictObject({
  lowerArm: arm,
  upperArm: arm,
  wheel,
  rod: z
    .strictObject({
      on: parts(WISHBONE_PARTS, 'the wheel end of the rod'),
      mount: hardpoint('Wheel end of the rod, middle of its joint'),
      rockerMount: hardpoint('Other end of the rod, on the rocker'),
    })
    .describe('The pushrod or pullrod: what it stands on, and its two ends.'),
  rocker: z
    .strictObject({ pivot: hardpoint('Pivot of the rocker on the chassis, middle of the bolt') })
    .describe('The rocker between rod and coilover.'),
  coilover: coilover(
    { rockerMount: hardpoint('End of the coilover on the rocker, middle of the bolt') },
    WISHBONE_PARTS,
  ).describe('The coilover: its end on the rocker, and its other one.'),
});

const LEVER = { what: 'pivotDistance', least: 15, most: 400 } as const;

/** Two wishbones, with a rod from an arm or the upright to a rocker that works the coilover. */
export const PUSHROD = {
  kind: 'pushrod',
  what: 'pushrod corner',
  about: 'for a coilover worked by a pushrod or pullrod through a rocker',
  schema,
  points: {
    ...WISHBONE_POINTS,
    'rod.mount': 'rodMount',
    'rod.rockerMount': 'rodRockerMount',
    'rocker.pivot': 'rockerPivot',
    'coilover.rockerMount': 'shockRockerMount',
    'coilover.chassisMount': 'shockChassisMount',
    'coilover.otherEnd.mount': 'shockOtherMount',
  },
  apart: [WISHBONES.upright, ['rod.mount', 'rod.rockerMount'], ['rocker.pivot', 'rod.rockerMount']],
  ...WISHBONES,
  sizes: [
    { at: 'rod', between: ['rod.mount', 'rod.rockerMount'], what: 'length', least: 60, most: 1000 },
    { at: 'rod.rockerMount', between: ['rod.rockerMount', 'rocker.pivot'], ...LEVER },
    { at: 'coilover.rockerMount', between: ['coilover.rockerMount', 'rocker.pivot'], ...LEVER },
  ],
  ends: [['rod.mount', 'outboardOf', 'rod.rockerMount']],
  ballJoints: {
    about: 'Ball joints at the outer ends of the arms, and at both ends of the rod.',
    holders: {
      lowerOuter: ['arm', 'upright'],
      upperOuter: ['arm', 'upright'],
      rodMount: ['rod', ...WISHBONE_PARTS],
      rodRockerMount: ['rod', 'rocker'],
    },
  },
} as const satisfies CornerKind<typeof schema>;
