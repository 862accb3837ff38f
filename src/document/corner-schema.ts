import * as z from 'zod';
import { having } from './choice.ts';
import { hardpoint, pairOf, quantity, takes } from './quantity.ts';

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

const nameOf = (what: string) => z.string().describe(`Name of ${what}.`);
const twoPoints = takes(pairOf(z.string(), z.string()), 'twoPoints');

/** The parts that a drawing's points and bodies play; as `customCorner` documents. The drawing is checked as one. */
export const customCornerSchema = z.strictObject({
  drawing: z.unknown(),
  upright: nameOf('the body that carries the wheel'),
  wheelCentre: nameOf('the point in the middle of the wheel, on the upright'),
  contactPatch: nameOf('the point in the middle of the tyre on the ground, on the upright'),
  shock: z
    .strictObject({
      outer: nameOf('the end nearer to the wheel'),
      inner: nameOf('the other end'),
      foreAftOffset: foreAftOffset.optional(),
    })
    .describe('The points between which the coilover stands.'),
  kingpin: z
    .strictObject({ lower: nameOf('the lower point'), upper: nameOf('the upper point') })
    .describe('Two points of the axis about which the wheel steers; without it no kingpin inclination.')
    .optional(),
  rocker: z
    .strictObject({
      body: nameOf('the rocker, a body'),
      pivot: nameOf('its pivot, a ground point'),
      rod: z
        .strictObject({
          outer: nameOf('the end on the part that moves with the wheel'),
          inner: nameOf('the end on the rocker'),
        })
        .describe('The ends of the rod that works the rocker.'),
    })
    .describe('The rocker between wheel and coilover, for its angles and dead points.')
    .optional(),
  camber: quantity(
    'angle',
    'Camber as drawn: top outboard positive; that of a thin disc on its contact patch if left out',
    z.number().gt(-45).lt(45),
  ).optional(),
  angles: z
    .record(
      z.string(),
      takes(
        z
          .union([
            z
              .strictObject({
                angle: twoPoints.describe(
                  'The two points of a line: its angle from horizontal, counter-clockwise positive. Unit: degrees.',
                ),
              })
              .describe('The direction of a line as a column.'),
            z
              .strictObject({
                turn: nameOf('a body: its angle from the drawn pose, counter-clockwise positive; degrees'),
              })
              .describe('The turn of a body as a column.'),
          ])
          .describe('The direction of a line, or the turn of a body.'),
        'lineOrTurn',
      ),
    )
    .describe('Further columns by name, in degrees, counter-clockwise positive.')
    .optional(),
});
