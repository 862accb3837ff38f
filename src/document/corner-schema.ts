import * as z from 'zod';

/** A point of the corner's plane, `[y, z]` in mm: y outboard from the vehicle's centreline, z up from the ground. */
const point = z.tuple([z.number(), z.number()]).readonly();

/** Wheel: its centre, and where it stands - by camber (deg, top outboard positive) or by the contact patch itself. */
const wheel = z
  .strictObject({
    centre: point,
    camber: z.number().gt(-45).lt(45).optional(),
    contactPatch: point.optional(),
  })
  .refine((given: unknown) => stands(given), {
    error: 'give camber (degrees) or contactPatch [y, z], or both',
    // Told together with whatever else is wrong.
    when: ({ value }) => typeof value === 'object' && value !== null && !Array.isArray(value),
  });

function stands(wheel: unknown): boolean {
  const { camber, contactPatch } = wheel as { camber?: unknown; contactPatch?: unknown };
  return camber !== undefined || contactPatch !== undefined;
}

/** An arm as its chassis pivot and its ball joint. */
const arm = z.strictObject({ inner: point, outer: point });

/** Double wishbone with a coilover from an arm or the upright to the chassis; shape as `doubleWishbone` documents. */
export const doubleWishboneSchema = z.strictObject({
  lowerArm: arm,
  upperArm: arm,
  wheel,
  coilover: z.strictObject({
    on: z.enum(['lowerArm', 'upperArm', 'upright']),
    mount: point,
    chassisMount: point,
    offset: z.number().optional(),
  }),
});

/** Input of `doubleWishbone`. */
export type DoubleWishboneInput = z.input<typeof doubleWishboneSchema>;
