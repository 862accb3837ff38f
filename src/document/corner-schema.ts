import * as z from 'zod';
import { having } from './choice.ts';
import { hardpoint, pairOf, quantity, takes } from './quantity.ts';

/** Wheel: its centre, and where it stands - by camber (deg, top outboard positive) or by the contact patch itself. */
const wheel = z
  .strictObject({
    centre: hardpoint('Centre of the wheel, in its middle plane; as high as the loaded radius'),
    camber: quantity(
      'angle',
      'Camber as drawn: top outboard positive, so that a top leaning in is negative',
      z.number().gt(-45).lt(45),
    ).optional(),
    contactPatch: hardpoint('Middle of the tyre on the ground, in place of camber or beside it').optional(),
  })
  .refine(...having(['camber', 'contactPatch'], 'any', 'wheelNotPlaced'))
  .describe('The wheel: its centre, and where it stands by camber or contactPatch.');

/** An arm as its chassis pivot and its ball joint. */
function arm(name: string) {
  return z
    .strictObject({
      inner: hardpoint(
        `Chassis pivot of the ${name} arm: where its axis pierces the plane across the wheel centre`,
      ),
      outer: hardpoint(`Ball joint of the ${name} arm, where it meets the upright`),
    })
    .describe(`The ${name} arm, from its chassis pivot (inner) to its ball joint (outer).`);
}

type Part = 'lowerArm' | 'upperArm' | 'upright';

/** A choice among the parts that move with the wheel. */
function parts<const Parts extends readonly Part[]>(names: Parts, what: string) {
  return z
    .enum(names)
    .describe(`What ${what} is bolted to: ${names.join(', ').replace(/, (\w+)$/, ' or $1')}.`);
}

/** A coilover as its moving end, and its other one: fixed, or on another part that moves. */
function coilover<Mount extends z.ZodRawShape>(mount: Mount, names: readonly [Part, ...Part[]]) {
  return z
    .strictObject({
      ...mount,
      chassisMount: hardpoint('Fixed end of the coilover on the chassis, middle of the bolt').optional(),
      otherEnd: z
        .strictObject({
          on: parts(names, 'the other end of the coilover'),
          mount: hardpoint('Other end of the coilover, middle of the bolt'),
        })
        .describe('The other end of the coilover where that moves too, in place of chassisMount.')
        .optional(),
      foreAftOffset: quantity(
        'length',
        'Fore-aft distance between the two ends, either sign; 0 if left out',
      ).optional(),
    })
    .refine(...having(['chassisMount', 'otherEnd'], 'any', 'otherEndMissing'))
    .refine(...having(['chassisMount', 'otherEnd'], 'atMostOne', 'otherEndTwice'));
}

/** The coilover of a corner without rocker. */
function plainCoilover(...names: [Part, ...Part[]]) {
  return coilover(
    {
      on: parts(names, 'the moving end of the coilover'),
      mount: hardpoint('Moving end of the coilover, middle of the bolt'),
    },
    names,
  ).describe('The coilover: what it stands on, and its two ends.');
}

/** The parts of a double wishbone that move with the wheel. */
export const PARTS = ['lowerArm', 'upperArm', 'upright'] as const;

/** Double wishbone with a coilover from an arm or the upright to the chassis; shape as `doubleWishbone` documents. */
export const doubleWishboneSchema = z.strictObject({
  lowerArm: arm('lower'),
  upperArm: arm('upper'),
  wheel,
  coilover: plainCoilover(...PARTS),
});

/** Double wishbone with a rod from an arm or the upright to a rocker that works the coilover; as `pushrod` documents. */
export const pushrodSchema = z.strictObject({
  lowerArm: arm('lower'),
  upperArm: arm('upper'),
  wheel,
  rod: z
    .strictObject({
      on: parts(PARTS, 'the wheel end of the rod'),
      mount: hardpoint('Wheel end of the rod, middle of its joint'),
      rockerMount: hardpoint('Other end of the rod, on the rocker'),
    })
    .describe('The pushrod or pullrod: what it stands on, and its two ends.'),
  rocker: z
    .strictObject({ pivot: hardpoint('Pivot of the rocker on the chassis, middle of the bolt') })
    .describe('The rocker between rod and coilover.'),
  coilover: coilover(
    { rockerMount: hardpoint('End of the coilover on the rocker, middle of the bolt') },
    PARTS,
  ).describe('The coilover: its end on the rocker, and its other one.'),
});

/** Strut that slides along an axis of the upright; as `strut` documents. */
export const strutSchema = z.strictObject({
  lowerArm: arm('lower'),
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

const name = z.string();
const pair = takes(pairOf(name, name), 'twoPoints');

/** The parts that a drawing's points and bodies play; as `customCorner` documents. The drawing is checked as one. */
export const customCornerSchema = z.strictObject({
  drawing: z.unknown(),
  upright: name,
  wheelCentre: name,
  contactPatch: name,
  shock: z.strictObject({
    outer: name,
    inner: name,
    foreAftOffset: quantity('length', 'Fore-aft').optional(),
  }),
  kingpin: z.strictObject({ lower: name, upper: name }).optional(),
  rocker: z
    .strictObject({ body: name, pivot: name, rod: z.strictObject({ outer: name, inner: name }) })
    .optional(),
  /** Degrees, top outboard positive. */
  camber: quantity('angle', 'Camber', z.number().gt(-45).lt(45)).optional(),
  angles: z
    .record(
      name,
      takes(z.union([z.strictObject({ angle: pair }), z.strictObject({ turn: name })]), 'lineOrTurn'),
    )
    .optional(),
});

/** Input of `customCorner` but for its drawing. */
export type CustomPartsInput = Omit<z.input<typeof customCornerSchema>, 'drawing'>;
/** Input of `doubleWishbone`, which says what its fields are; the JSON Schemas explain each. */
export type DoubleWishboneInput = z.input<typeof doubleWishboneSchema>;
/** Input of `pushrod`. */
export type PushrodInput = z.input<typeof pushrodSchema>;
/** Input of `strut`. */
export type StrutInput = z.input<typeof strutSchema>;
