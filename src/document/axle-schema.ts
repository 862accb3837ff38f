import * as z from 'zod';
import { having } from './choice.ts';
import { bareNumber, point, quantity, size } from './quantity.ts';

/** A round bar in torsion. */
export const roundBarSchema = z
  .strictObject({
    diameter: size('Outer diameter'),
    innerDiameter: quantity(
      'length',
      'Inner diameter of a tube; 0 if left out',
      z.number().gte(0),
    ).optional(),
    length: size('Length in torsion, between the levers'),
    shearModulus: bareNumber(
      'Shear modulus in N/mm²; that of steel, 79,300, if left out',
      z.number().gt(0),
    ).optional(),
  })
  .describe('A round bar or tube in torsion.');

/** An anti-roll bar as `axle` documents it: one end of it, the other is its mirror image. */
export const antiRollBarSchema = z
  .strictObject({
    on: z
      .string()
      .describe('Body of the corner that carries the drop link: lowerArm, upperArm, upright, rocker.'),
    linkMount: point('End of the drop link on that body'),
    leverEnd: point('End of the drop link on the lever of the bar'),
    leverLength: size(
      'From the axis of the bar to the end of its lever, which is level at design ride height',
    ),
    torsionalStiffness: quantity(
      'rollStiffness',
      'Torque in the bar per angle between its levers, with links, levers and bushes in series; that of roundBar if left out',
      z.number().gt(0),
    ).optional(),
    roundBar: roundBarSchema.optional(),
  })
  .refine(...having(['torsionalStiffness', 'roundBar'], 'any'))
  .describe('The anti-roll bar of the axle, by one of its ends; the other is the mirror image.');
