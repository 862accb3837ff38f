import * as z from 'zod';
import { having } from './choice.ts';
import { remarks } from './limits-schema.ts';
import { bareNumber, quantity, size, takes, uncertain, unitOf } from './quantity.ts';

const notNegative = z.number().gte(0);
const positive = z.number().gt(0);

/** Which issue of an order it is. */
export const revision = z
  .string()
  .regex(/^[A-Za-z0-9]{1,8}$/, 'notARevision')
  .describe('Revision of the order, as A: letters and digits, 8 at most.');
export const date = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'notADate')
  .describe('Date of the order, as 2026-11-29: year, month, day.');

const spring = z
  .strictObject({
    name: z.string().describe('What you call it.').optional(),
    rate: quantity('rate', 'Rate', positive),
    freeLength: size('Length with no load on it'),
    solidLength: size('Length with all coils touching').optional(),
    minLength: size('Minimum permissible length, a little more than solid').optional(),
    innerDiameter: size('Inner diameter').optional(),
  })
  .describe('The main spring that was bought.');

const helper = z
  .strictObject({
    rate: quantity('rate', 'Rate of the helper or tender spring', positive),
    freeLength: size('Free length of the helper or tender spring'),
    solidLength: size('Solid length L_c: all coils touch'),
    separatorHeight: quantity(
      'length',
      'Thickness of the ring between the springs; 0 if left out',
      notNegative,
    ).optional(),
  })
  .describe('The helper or tender spring that was bought.');

const bumpStop = z
  .strictObject({
    height: size('Height with no load on it'),
    solidHeight: quantity('length', 'Height at which it compresses no further', notNegative),
    table: takes(
      z
        .array(
          z
            .tuple([
              quantity('length', 'Compression', notNegative),
              quantity('force', 'Force there', notNegative),
            ])
            .describe('A point of the table: compression and force.'),
        )
        .min(1)
        .describe(
          `Force of the bump stop at its compression: rows [compression, force], none negative. ${unitOf('length', 'force')}`,
        ),
      'bumpStopTable',
    ).optional(),
  })
  .describe('The bump stop that was bought.');

const valving = z
  .strictObject({
    compressionDamping: quantity(
      'damping',
      'Low-speed compression damping at the shaft',
      notNegative,
    ).optional(),
    reboundDamping: quantity('damping', 'Low-speed rebound damping at the shaft', notNegative).optional(),
    kneeSpeed: quantity('shaftSpeed', 'Shaft speed above which the force rises less', positive).optional(),
    highSpeedFraction: bareNumber(
      'Slope of the force above the knee, as a fraction of the slope below it; 0.5 if left out (common practice)',
      notNegative.lte(1),
    ).optional(),
    forceTable: takes(
      z
        .array(
          z
            .tuple([
              quantity('shaftSpeed', 'Shaft speed', positive),
              quantity('force', 'Compression force', notNegative),
              quantity('force', 'Rebound force', notNegative),
            ])
            .describe('A row of the table: shaft speed, compression force, rebound force.'),
        )
        .min(1)
        .describe(
          `Forces by shaft speed, as from a dynamometer: rows [speed, compression force, rebound force], none negative; the first gives the low-speed damping. ${unitOf('shaftSpeed', 'force')}`,
        ),
      'forceTable',
    ).optional(),
  })
  .refine(...having(['compressionDamping', 'forceTable'], 'one', 'dampingNotGiven'))
  .describe('The valving that was bought.');

const perch = z
  .strictObject({
    setting: uncertain(
      'length',
      'Perch setting as it is now: eye-to-eye length minus spring length between its seats',
      positive,
    ).optional(),
    seatDistances: z
      .strictObject({
        mount: size('Distance of the eye at the wheel end from the spring seat beside it'),
        chassis: size('Distance of the chassis eye from the spring seat beside it'),
      })
      .describe('The two distances that make up the setting, in place of it.')
      .optional(),
    left: size('Perch setting at the left-hand wheel, where the two wheels differ').optional(),
    right: size('Perch setting at the right-hand wheel, where the two wheels differ').optional(),
    min: size('Smallest setting within the thread').optional(),
    max: size('Largest setting within the thread').optional(),
    threadPitch: size('Travel of the perch per turn').optional(),
  })
  .refine(...having(['setting', 'seatDistances'], 'atMostOne'))
  .describe('The perch, the adjustable spring seat, as it is fitted and set.');

/** What was bought for the corners of an axle; as documents have it. */
export const orderedSchema = z
  .strictObject({
    notes: remarks.optional(),
    revision: revision.optional(),
    date: date.optional(),
    damper: z
      .strictObject({
        extendedLength: size('Eye-to-eye length, fully extended'),
        compressedLength: size('Eye-to-eye length, fully compressed; less than extended'),
      })
      .describe('The damper that was bought, by its eye-to-eye lengths.')
      .optional(),
    spring: spring.optional(),
    helper: helper.optional(),
    bumpStop: bumpStop.optional(),
    valving: valving.optional(),
    perch: perch.optional(),
  })
  .describe(
    'The coilover as bought. What stands here replaces the same part of limits and sizing and is never derived again; leave out what was not bought.',
  );
