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

/** Where an end of a spring between the wheels stands. */
const springEnd = {
  on: z.string().describe('Part of the corner that carries the spring: rocker, lowerArm, upperArm, upright.'),
  mount: point('End of the spring on that part'),
};
const rightEnd = z
  .strictObject(springEnd)
  .describe(
    'The end of the spring on the right-hand corner, y outboard there too; of a third spring the mirror image if left out.',
  );
const springDamping = quantity(
  'damping',
  'Damping coefficient of the damper beside the spring, mean of compression and rebound; 0 if left out',
  z.number().gte(0),
);

/** A spring between both wheels that heave shortens, as `axle` documents it. */
export const thirdSpringSchema = z
  .strictObject({
    ...springEnd,
    right: rightEnd.optional(),
    rate: quantity('rate', 'Rate of the spring', z.number().gt(0)),
    preload: quantity(
      'force',
      'Force of the spring at design ride height; 0 if left out',
      z.number().gte(0),
    ).optional(),
    freeLength: size(
      'Length between both ends at which the spring comes loose, in place of preload: less than at design ride height leaves a gap',
    ).optional(),
    extendedLength: size('Longest length between both ends').optional(),
    compressedLength: size('Shortest length between both ends').optional(),
    damping: springDamping.optional(),
  })
  .refine(...having(['preload', 'freeLength'], 'atMostOne'))
  .describe('The third spring (heave spring) between both wheels of the axle: it only pushes.');

/** A spring between both wheels that roll changes in length, and heave hardly, as `axle` documents it. */
export const rollSpringSchema = z
  .strictObject({
    ...springEnd,
    right: rightEnd,
    rate: quantity('rate', 'Rate of the spring, the same in both directions', z.number().gt(0)),
    damping: springDamping.optional(),
  })
  .describe(
    'The roll spring between both wheels of the axle: free at design ride height, it pushes and pulls.',
  );

/** An anti-roll bar as `axle` documents it. */
export const antiRollBarSchema = z
  .strictObject({
    on: z
      .string()
      .describe('Body of the corner that carries the drop link: lowerArm, upperArm, upright, rocker.'),
    linkMount: point('End of the drop link on that body'),
    leverEnd: point('End of the drop link on the lever of the bar'),
    leverLength: size(
      'From the axis of a bar across the car to the end of its lever, which is level at design ride height',
    ).optional(),
    axis: point(
      'Axis of a bar along the car, in place of leverLength: its levers turn in the plane of the axle',
    ).optional(),
    right: z
      .strictObject({
        on: z
          .string()
          .describe('Part of the right-hand corner that carries the drop link; that of the left if left out.')
          .optional(),
        linkMount: point('End of the drop link on that part'),
        leverEnd: point('End of the drop link on the right-hand lever'),
      })
      .describe(
        'The right-hand end of a bar along the car, y outboard there too; if left out it has the same linkMount, and its lever on the other side of the axis.',
      )
      .optional(),
    torsionalStiffness: quantity(
      'rollStiffness',
      'Torque in the bar per angle between its levers, with links, levers and bushes in series; that of roundBar if left out',
      z.number().gt(0),
    ).optional(),
    roundBar: roundBarSchema.optional(),
  })
  .refine(...having(['torsionalStiffness', 'roundBar'], 'any'))
  .refine(...having(['leverLength', 'axis'], 'one'))
  .describe(
    'The anti-roll bar of the axle, by its left end; the right one is the mirror image, or for a bar along the car as right says.',
  );
