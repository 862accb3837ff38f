import * as z from 'zod';
import { having } from './choice.ts';
import { remarks } from './limits-schema.ts';
import { date, revision } from './ordered-schema.ts';
import { bareNumber, quantity, size, takes, uncertain, uncertainNumber, unitOf } from './quantity.ts';

const notNegative = z.number().gte(0);
const positive = z.number().gt(0);

/** A fraction of the whole. */
const fraction = (description: string) =>
  uncertainNumber(`${description}, as a fraction of 1`, notNegative.lte(1));
const mass = (description: string) => uncertain('mass', description, positive);

/** Something that weighs on the four wheels by its fractions. */
const spread = {
  frontFraction: fraction('How much of it is on the front axle'),
  leftFraction: fraction('How much of it is on the left-hand wheels; half if left out').optional(),
};

const listOf = <Item extends z.ZodType>(item: Item, what: string, description: string) =>
  takes(z.array(item).min(1).describe(description), what);

const named = z
  .strictObject({
    name: z.string().describe('What it is, in your words.'),
    mass: mass('Its mass'),
    ...spread,
  })
  .describe('Something that weighs on the wheels, by its fractions.');

/** A load state: what of the added loads is aboard, and what else. */
const stateSchema = z
  .strictObject({
    name: z.string().describe('What you call it, as two up and luggage.'),
    loads: takes(
      z
        .array(
          takes(
            z
              .union([z.string().describe('Name of a load in added.'), named])
              .describe('A load: the name of one in added, or one of its own.'),
            'load',
          ),
        )
        .describe('What is aboard: names of added loads, or loads of its own; [] for the empty car.'),
      'stateLoads',
    ),
  })
  .describe('A state in which the car is used: what is aboard.');

/** What the car weighs; as documents have it. */
const massesSchema = z
  .strictObject({
    notes: remarks.optional(),
    estimate: z
      .strictObject({ total: mass('Mass of the whole car, wheels and all'), ...spread })
      .describe('The estimated mass of the whole car, and how it lies.')
      .optional(),
    parts: listOf(
      named,
      'parts',
      'The car built up from its parts, wheels and all, in place of an estimate.',
    ).optional(),
    scales: z
      .strictObject({
        frontLeft: mass('Reading under the front left-hand wheel'),
        frontRight: mass('Reading under the front right-hand wheel'),
        rearLeft: mass('Reading under the rear left-hand wheel'),
        rearRight: mass('Reading under the rear right-hand wheel'),
        perches: z
          .enum(['reset', 'untouched'])
          .describe(
            'Whether the perches were turned until the car stood at design ride height (reset), or left as they were (untouched).',
          ),
        aboard: takes(
          z
            .array(z.string().describe('Name of a load in added.'))
            .describe(
              'Names of those added loads that were on the car when it stood on the scales; the others are added to the readings.',
            ),
          'loadNames',
        ).optional(),
      })
      .describe('Four scales under the wheels, in place of an estimate.')
      .optional(),
    added: listOf(named, 'loads', 'What comes on top: driver, fuel, luggage.').optional(),
    states: listOf(
      stateSchema,
      'states',
      'States in which the car is used: each must have the travel that it requires.',
    ).optional(),
    designState: z
      .string()
      .describe(
        'Name of the state that design ride height belongs to; if left out, the car with everything in added aboard.',
      )
      .optional(),
    sprungCentreOfGravityHeight: uncertain(
      'length',
      'Height of the centre of gravity of the sprung part above the ground',
      positive,
    ).optional(),
    wheelbase: uncertain('length', 'Distance of the axles', positive).optional(),
  })
  .refine(...having(['estimate', 'parts', 'scales'], 'one'))
  .describe('What the car weighs: an estimate, a list of its parts, or four scales; and what comes on top.');

const downforceSchema = z
  .strictObject({
    speed: uncertain('speed', 'Speed at which the force is known', positive),
    force: uncertain('force', 'Downforce of the whole car at that speed; negative if it lifts'),
    frontFraction: fraction('How much of it is on the front axle'),
    speedsToCheck: listOf(
      quantity('speed', 'A speed', notNegative),
      'speeds',
      `Speeds to check; the last is taken as the top speed. Five up to speed if left out. ${unitOf('speed')}`,
    ).optional(),
  })
  .describe('Downforce at one speed; it goes with the square of the speed, at the same balance.');

const travelCasesSchema = z
  .strictObject({
    lateralAcceleration: uncertainNumber(
      'Lateral acceleration in a corner, in g; 1 if left out (common practice)',
      notNegative.lte(5),
    ).optional(),
    deceleration: uncertainNumber(
      'Deceleration under braking, in g; 1 if left out (common practice)',
      notNegative.lte(5),
    ).optional(),
    roadBump: uncertain(
      'length',
      'A bump of the road, taken by the wheel alone; 40 mm if left out (common practice)',
      notNegative,
    ).optional(),
    roadDip: uncertain(
      'length',
      'A dip of the road; 40 mm if left out (common practice)',
      notNegative,
    ).optional(),
    margin: uncertain(
      'length',
      'Travel kept in reserve at either end; 5 mm if left out (common practice)',
      notNegative,
    ).optional(),
  })
  .describe('What the travel must be enough for.');

/** What a whole car has beside its corners. */
export const carSizingShape = {
  order: z
    .strictObject({ revision, date })
    .describe(
      'The order that this file stands for: its revision and its date stand on it and in its file name. Without them its pages have lines to write them on.',
    )
    .optional(),
  use: z.string().describe('What the car is for: road, hill climb, track ...').optional(),
  masses: massesSchema.optional(),
  downforce: downforceSchema.optional(),
  travelCases: travelCasesSchema.optional(),
  openQuestions: z
    .array(z.string().describe('An open question.'))
    .describe('What is still to be decided, for the report: a list of texts.')
    .optional(),
};

const targetSchema = z
  .strictObject({
    frequency: uncertain('frequency', 'Frequency of the sprung mass at ride height', positive).optional(),
    withTyre: z
      .boolean()
      .describe('Whether that is with the tyre as a spring in series; if left out, of the suspension alone.')
      .optional(),
    wheelRate: uncertain('rate', 'Rate at the wheel at ride height, without the tyre', positive).optional(),
    springRate: uncertain('rate', 'Rate of the spring itself', positive).optional(),
  })
  .refine(...having(['frequency', 'wheelRate', 'springRate'], 'one'))
  .describe('What the spring is to give: a frequency, a rate at the wheel, or a rate of its own.');

const ends = z
  .enum(['closedGround', 'closed', 'openGround', 'open'])
  .describe('How the coils end: closed and ground, closed, open and ground, open.');

export const wireSchema = z
  .strictObject({
    diameter: size('Diameter of the wire'),
    meanDiameter: size('Mean diameter of the coils: from middle of wire to middle of wire'),
    totalCoils: bareNumber('Coils in all, with those at the ends that do not work', positive),
    ends,
    shearModulus: positive
      .describe('Shear modulus of the wire; 81500 for spring steel if left out. Unit: N/mm^2, in any file.')
      .optional(),
    hotFormed: z.boolean().describe('Whether it was formed hot; cold if left out.').optional(),
  })
  .describe('A spring by its wire: rate and solid length follow.');

const springSchema = z
  .strictObject({
    name: z.string().describe('What you call it.'),
    rate: quantity('rate', 'Rate; that of the wire if left out', positive).optional(),
    freeLength: size('Free length L_0'),
    solidLength: size('Solid length L_c, all coils touching').optional(),
    minLength: size('Minimum permissible length L_n, a little more than solid').optional(),
    innerDiameter: size('Inner diameter').optional(),
    wire: wireSchema.optional(),
  })
  .refine(...having(['rate', 'wire'], 'any'))
  .refine(...having(['solidLength', 'minLength', 'wire'], 'any'))
  .describe('A spring that is available.');

const mountSchema = z
  .strictObject({
    type: takes(
      z
        .enum(['eye', 'clevis', 'stud', 'clamp', 'weldOn', 'fork'])
        .describe(
          'What the end is: an eye, a clevis (also written fork), or a stud; of a strut that is the coilover, how the upright holds it: clamp or weldOn.',
        ),
      'eye, clevis, stud, clamp, weldOn',
    ),
    bore: size('Bore for the bolt; for a stud its thread').optional(),
    width: size('Width over the eye or its spacers: what goes between the cheeks of the bracket').optional(),
    spacers: z.string().describe('Spacers, in words.').optional(),
    threadPitch: size('Pitch of a stud’s thread').optional(),
    fixing: z.string().describe('Nut, washers and bushes of a stud, in words.').optional(),
    referenceFace: z
      .string()
      .describe('Face of a stud that lengths are taken to, in words: its shoulder, as a rule.')
      .optional(),
    clampDiameter: size('Diameter of a strut where the upright clamps it').optional(),
    bearing: z
      .string()
      .describe('Bearing of the end, in words: spherical or bush, and its width.')
      .optional(),
  })
  .describe('What one end of the coilover is to be.');

/** What the order says beyond figures. */
const orderSchema = z
  .strictObject({
    quantity: bareNumber('How many; to be agreed if left out', z.number().int().gt(0)).optional(),
    handed: z.string().describe('Whether left and right differ, and in what.').optional(),
    bodyEnd: z
      .enum(['up', 'down'])
      .describe('Which end of the coilover the body of the damper is at: up (body up, shaft down) or down.')
      .optional(),
    mounts: z
      .strictObject({ mount: mountSchema.optional(), chassis: mountSchema.optional() })
      .describe('The two ends of the coilover: mount is the moving one.')
      .optional(),
    bodyDiameter: size('Outer diameter of the body and its perch: springs must go over it').optional(),
    maxSpringOuterDiameter: size('Largest outer diameter of the spring for which there is room').optional(),
    lengthAdjustment: quantity(
      'length',
      'By how much the length of the body can be set, apart from the perch; 0 for none',
      notNegative,
    ).optional(),
    adjusters: z.string().describe('Adjusters of the damping, in words; none if there are none.').optional(),
    adjusterSetting: z
      .string()
      .describe('At which setting of the adjusters the damper has the forces of the order, in words.')
      .optional(),
    reservoir: z.string().describe('Reservoir, in words; none if there is none.').optional(),
    springSupplier: z.string().describe('Who supplies the spring.').optional(),
    bumpStopSupplier: z.string().describe('Who supplies the bump stop.').optional(),
    springClearance: size('Clearance between spring and body, at the radius').optional(),
    lengthTolerance: size('By how much lengths may be off').optional(),
    forceTolerance: bareNumber(
      'By how much the forces of the damper may be off, as a fraction of 1',
      positive.lt(1),
    ).optional(),
    rateTolerance: bareNumber('By how much rates may be off, as a fraction of 1', positive.lt(1)).optional(),
  })
  .describe('What the order says besides the figures.');

/** What sizes the coilover of a corner. */
export const cornerSizingSchema = z
  .strictObject({
    notes: remarks.optional(),
    unsprungMass: uncertain(
      'mass',
      'Mass of wheel, upright, brake and the shares of arms and coilover that move with them, of one corner',
      notNegative,
    ),
    target: targetSchema.optional(),
    tyreRate: uncertain('rate', 'Rate of the tyre, upward', positive).optional(),
    antiRollBarStiffness: uncertain(
      'rollStiffness',
      'Stiffness in roll that an anti-roll bar adds to this axle',
      notNegative,
    ).optional(),
    gas: z
      .strictObject({
        force: uncertain('force', 'Force of the gas on the shaft, at ride height', notNegative).optional(),
        shaftDiameter: uncertain('length', 'Diameter of the shaft', positive).optional(),
        pressure: uncertain(
          'pressure',
          'Pressure of the gas above the air, at ride height',
          notNegative,
        ).optional(),
      })
      .describe('The gas in the damper: its force, or shaftDiameter and pressure.')
      .optional(),
    springs: listOf(springSchema, 'springs', 'Available springs, to choose from.').optional(),
    rateStep: quantity(
      'rate',
      'Steps in which spring rates are available; common ones if left out',
      positive,
    ).optional(),
    helper: z
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
      .describe('A second spring in series with the main one: a helper or tender.')
      .optional(),
    bumpStopTable: listOf(
      z
        .tuple([
          quantity('length', 'Compression of the stop', notNegative),
          quantity('force', 'Its force there', notNegative),
        ])
        .describe('A point of the table: compression and force.'),
      'bumpStopTable',
      `Force of the bump stop at its compression: rows [compression, force], none negative. ${unitOf('length', 'force')}`,
    ).optional(),
    perch: z
      .strictObject({
        setting: uncertain(
          'length',
          'Perch setting: eye-to-eye length minus spring length between its seats; if left out, the perch is set for design ride height',
          positive,
        ).optional(),
        min: size('Smallest setting within the thread').optional(),
        max: size('Largest setting within the thread').optional(),
        threadPitch: size('Travel of the perch per turn').optional(),
      })
      .describe('The perch: the adjustable spring seat.')
      .optional(),
    deadLength: size(
      'Smallest dead length that the maker can build: compressed length minus stroke',
    ).optional(),
    damping: z
      .strictObject({
        ratio: uncertainNumber('Damping ratio of the sprung mass at ride height, as 0.3', positive.lte(2)),
        compressionFraction: bareNumber(
          'Fraction of compression in the sum of compression and rebound damping; 0.4 if left out (common practice)',
          notNegative.lte(1),
        ).optional(),
        kneeSpeed: quantity(
          'shaftSpeed',
          'Shaft speed above which the force rises less',
          positive,
        ).optional(),
        highSpeedFraction: bareNumber(
          'Slope of the force above the knee, as a fraction of the slope below it; 0.5 if left out (common practice)',
          notNegative.lte(1),
        ).optional(),
        shaftSpeeds: listOf(
          quantity('shaftSpeed', 'A shaft speed', positive),
          'shaftSpeeds',
          `Shaft speeds of the table; 25 to 500 mm/s, or 1 to 20 in/s, if left out. The knee has a row of its own. ${unitOf('shaftSpeed')}`,
        ).optional(),
      })
      .describe('What the damper is to give.')
      .optional(),
    unitMass: z
      .strictObject({
        new: mass('Mass of the new coilover with its spring').optional(),
        replaced: mass('Mass of the coilover that it replaces').optional(),
      })
      .describe('Masses of the coilover: the new one, and the one that it replaces.')
      .optional(),
    order: orderSchema.optional(),
  })
  .describe('What the coilover of this corner is sized by. Leave out what you do not know.');
