import * as z from 'zod';
import { foreAftOffset } from './corner-schema.ts';
import { pairOf, quantity, takes } from './quantity.ts';

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
