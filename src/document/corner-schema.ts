import * as z from 'zod';
import { hardpoint, quantity } from './quantity.ts';

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
  .refine((given: unknown) => stands(given), {
    error: 'give camber (degrees) or contactPatch [y, z], or both',
    // Told together with whatever else is wrong.
    when: ({ value }) => typeof value === 'object' && value !== null && !Array.isArray(value),
    params: { oneOf: ['camber', 'contactPatch'] },
  })
  .describe('The wheel: its centre, and where it stands by camber or contactPatch.');

function stands(wheel: unknown): boolean {
  const { camber, contactPatch } = wheel as { camber?: unknown; contactPatch?: unknown };
  return camber !== undefined || contactPatch !== undefined;
}

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

/** Double wishbone with a coilover from an arm or the upright to the chassis; shape as `doubleWishbone` documents. */
export const doubleWishboneSchema = z.strictObject({
  lowerArm: arm('lower'),
  upperArm: arm('upper'),
  wheel,
  coilover: z
    .strictObject({
      on: z
        .enum(['lowerArm', 'upperArm', 'upright'])
        .describe('What the moving end of the coilover is bolted to: lowerArm, upperArm or upright.'),
      mount: hardpoint('Moving end of the coilover, middle of the bolt'),
      chassisMount: hardpoint('Fixed end of the coilover on the chassis, middle of the bolt'),
      offset: quantity(
        'length',
        'Fore-aft distance between the two ends, either sign; 0 if left out',
      ).optional(),
    })
    .describe('The coilover: what it stands on, and its two ends.'),
});

/** Input of `doubleWishbone`. */
export type DoubleWishboneInput = z.input<typeof doubleWishboneSchema>;
