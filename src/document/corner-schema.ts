import * as z from 'zod';
import { having } from './choice.ts';
import { hardpoint, quantity } from './quantity.ts';

/** Wheel: its centre, and where it stands - by camber (deg, top outboard positive) or by the contact patch itself. */
export const wheel = z
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
export const arm = z
  .strictObject({
    inner: hardpoint('Chassis pivot of the arm: where its axis pierces the plane across the wheel centre'),
    outer: hardpoint('Ball joint of the arm, where it meets the upright'),
  })
  .describe('An arm, from its chassis pivot (inner) to its ball joint (outer).');

/** A choice among the parts that move with the wheel. */
export function parts<const Parts extends readonly string[]>(names: Parts, what: string) {
  return z
    .enum(names)
    .describe(`What ${what} is bolted to: ${names.join(', ').replace(/, (\w+)$/, ' or $1')}.`);
}

/** The fixed end of a coilover. */
export const chassisMount = hardpoint('Fixed end of the coilover on the chassis, middle of the bolt');

/** How far the two ends of a coilover lie apart along the car. */
export const foreAftOffset = quantity(
  'length',
  'Fore-aft distance between the two ends, either sign; 0 if left out',
);

/** A coilover as its moving end, and its other one: fixed, or on another part that moves. */
export function coilover<Mount extends z.ZodRawShape, const Parts extends readonly string[]>(
  mount: Mount,
  names: Parts,
) {
  return z
    .strictObject({
      ...mount,
      chassisMount: chassisMount.optional(),
      otherEnd: z
        .strictObject({
          on: parts(names, 'the other end of the coilover'),
          mount: hardpoint('Other end of the coilover, middle of the bolt'),
        })
        .describe('The other end of the coilover where that moves too, in place of chassisMount.')
        .optional(),
      foreAftOffset: foreAftOffset.optional(),
    })
    .refine(...having(['chassisMount', 'otherEnd'], 'any', 'otherEndMissing'))
    .refine(...having(['chassisMount', 'otherEnd'], 'atMostOne', 'otherEndTwice'));
}

/** The coilover of a corner without rocker. */
export function plainCoilover<const Parts extends readonly string[]>(...names: Parts) {
  return coilover(
    {
      on: parts(names, 'the moving end of the coilover'),
      mount: hardpoint('Moving end of the coilover, middle of the bolt'),
    },
    names,
  ).describe('The coilover: what it stands on, and its two ends.');
}
