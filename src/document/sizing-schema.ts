import * as z from 'zod';
import { having } from './choice.ts';
import { remarks } from './limits-schema.ts';
import { date, revision } from './ordered-schema.ts';
import { bareNumber, quantity, size, takes, uncertain, uncertainNumber } from './quantity.ts';

const notNegative = z.number().gte(0);
const positive = z.number().gt(0);

/** A share of the whole. */
const share = (description: string) => uncertainNumber(`${description}, as a share of 1`, notNegative.lte(1));
const mass = (description: string) => uncertain('mass', description, positive);

/** Something that weighs on the four wheels by its shares. */
const spread = {
  frontShare: share('How much of it the front axle carries'),
  leftShare: share('How much of it the left-hand wheels carry; half if left out').optional(),
};

const listOf = <Item extends z.ZodType>(item: Item, what: string, description: string) =>
  takes(z.array(item).min(1).describe(description), what);

const named = z
  .strictObject({
    name: z.string().describe('What it is, in your words.'),
    mass: mass('Its mass'),
    ...spread,
  })
  .describe('Something that weighs on the wheels, by its shares.');

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
    guess: z
      .strictObject({ total: mass('Mass of the whole car, wheels and all'), ...spread })
      .describe('The mass of the whole car as you guess it, and how it lies.')
      .optional(),
    parts: listOf(
      named,
      'parts',
      'The car built up from its parts, wheels and all, in place of a guess.',
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
            'Whether the perches were turned until the car stood at the drawn ride height (reset), or left as they were (untouched).',
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
      .describe('Four scales under the wheels, in place of a guess.')
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
        'Name of the state that the drawn ride height belongs to; if left out, the car with everything in added aboard.',
      )
      .optional(),
    centreHeight: uncertain(
      'length',
      'Height of the centre of gravity of the sprung part above the ground',
      positive,
    ).optional(),
    wheelbase: uncertain('length', 'Distance of the axles', positive).optional(),
  })
  .refine(...having(['guess', 'parts', 'scales'], 'one'))
  .describe('What the car weighs: a guess, a list of its parts, or four scales; and what comes on top.');

const downforceSchema = z
  .strictObject({
    speed: uncertain('speed', 'Speed at which the force is known', positive),
    force: uncertain('force', 'Downforce of the whole car at that speed; negative if it lifts'),
    frontShare: share('How much of it the front axle gets'),
    speeds: listOf(
      quantity('speed', 'A speed', notNegative),
      'speeds',
      'Speeds to look at; the last is taken as the top speed.',
    ).optional(),
  })
  .describe('Downforce at one speed; it goes with the square of the speed, at the same balance.');

const travelCasesSchema = z
  .strictObject({
    lateral: uncertainNumber(
      'Cornering, in g; 1 if left out (common practice)',
      notNegative.lte(5),
    ).optional(),
    braking: uncertainNumber('Braking, in g; 1 if left out (common practice)', notNegative.lte(5)).optional(),
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
      'The order that this file stands for: its revision and its date name the sheet. Without them the sheet is a draft.',
    )
    .optional(),
  use: z.string().describe('What the car is for: road, hill climb, track ...').optional(),
  masses: massesSchema.optional(),
  downforce: downforceSchema.optional(),
  travelCases: travelCasesSchema.optional(),
  openPoints: z
    .array(z.string().describe('An open point.'))
    .describe('What is still open, for the sheet: a list of texts.')
    .optional(),
};

const targetSchema = z
  .strictObject({
    frequency: uncertain('frequency', 'Frequency of the sprung mass at ride height', positive).optional(),
    onTyre: z
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

const coilSchema = z
  .strictObject({
    wire: size('Diameter of the wire'),
    meanDiameter: size('Mean diameter of the coils: from middle of wire to middle of wire'),
    coils: bareNumber('Coils in all, with those that lie on at the ends', positive),
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
    rate: quantity('rate', 'Rate', positive).optional(),
    free: size('Free length'),
    solid: size('Length with all coils touching').optional(),
    least: size('Least length that its maker permits, a little more than solid').optional(),
    innerDiameter: size('Inner diameter').optional(),
    coil: coilSchema.optional(),
  })
  .refine(...having(['rate', 'coil'], 'any'))
  .refine(...having(['solid', 'least', 'coil'], 'any'))
  .describe('A spring that can be had.');

const endSchema = z
  .strictObject({
    type: z.enum(['eye', 'fork', 'stud']).describe('What the end is: an eye, a fork, or a stud.'),
    bore: size('Bore for the bolt; for a stud its thread').optional(),
    width: size('Width over the eye or its spacers: what goes between the cheeks of the bracket').optional(),
    spacers: z.string().describe('Spacers, in words.').optional(),
  })
  .describe('What one end of the coilover is to be.');

/** What the order says beyond figures. */
const orderSchema = z
  .strictObject({
    quantity: bareNumber('How many; 2 if left out', z.number().int().gt(0)).optional(),
    handing: z.string().describe('Whether left and right differ, and in what.').optional(),
    body: z.enum(['up', 'down']).describe('Which way the body of the damper lies.').optional(),
    ends: z
      .strictObject({ mount: endSchema.optional(), chassis: endSchema.optional() })
      .describe('The two ends: mount is the moving one.')
      .optional(),
    bodyDiameter: size('Outer diameter of the body and its perch: springs must go over it').optional(),
    springSpace: size('Largest outer diameter of the spring that has room').optional(),
    lengthAdjustment: quantity(
      'length',
      'By how much the length of the body can be set, apart from the perch; 0 for none',
      notNegative,
    ).optional(),
    adjusters: z.string().describe('Adjusters of the damping, in words.').optional(),
    reservoir: z.string().describe('Reservoir, in words.').optional(),
    lengthTolerance: size('By how much lengths may be off').optional(),
    rateTolerance: bareNumber('By how much rates may be off, as a share of 1', positive.lt(1)).optional(),
  })
  .describe('What the maker is told beyond the figures.');

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
    antiRollBar: uncertain(
      'rollStiffness',
      'Stiffness in roll that an anti-roll bar adds to this axle',
      notNegative,
    ).optional(),
    gas: z
      .strictObject({
        force: uncertain('force', 'Force of the gas on the rod', notNegative).optional(),
        rodDiameter: uncertain('length', 'Diameter of the rod', positive).optional(),
        pressure: uncertain('pressure', 'Pressure of the gas above the air', notNegative).optional(),
      })
      .describe('The gas in the damper: its force, or rodDiameter and pressure.')
      .optional(),
    springs: listOf(springSchema, 'springs', 'Springs that can be had, to choose from.').optional(),
    rateStep: quantity('rate', 'Steps in which rates can be had', positive).optional(),
    helper: z
      .strictObject({
        rate: quantity('rate', 'Rate of the helper or tender spring', positive),
        free: size('Free length of the helper or tender spring'),
        least: size('Its length with all coils touching'),
        separator: quantity('length', 'Thickness of the ring between the springs', notNegative).optional(),
      })
      .describe('A second spring in series with the main one: a helper or tender.')
      .optional(),
    bumpStopForces: listOf(
      z
        .tuple([
          quantity('length', 'How far the stop is pressed in', notNegative),
          quantity('force', 'Its force there', notNegative),
        ])
        .describe('A point of the table: how far pressed in, and the force.'),
      'bumpStopTable',
      'Force of the bump stop by how far it is pressed in.',
    ).optional(),
    perch: z
      .strictObject({
        eyesToSeats: uncertain(
          'length',
          'Distance of the seats of the spring from the eyes beside them, both together, as the perch is set; if left out, the perch is set for the drawn ride height',
          positive,
        ).optional(),
        least: size('Least that eyesToSeats can be set to').optional(),
        most: size('Most that eyesToSeats can be set to').optional(),
        pitch: size('How far the perch goes in a turn').optional(),
      })
      .describe('The perch: the seat of the spring that is screwed up and down.')
      .optional(),
    deadLength: size(
      'Least closed length that the maker can build, less the stroke: what of the length is not stroke',
    ).optional(),
    damping: z
      .strictObject({
        ratio: uncertainNumber('Damping ratio of the sprung mass at ride height, as 0.3', positive.lte(2)),
        bumpShare: bareNumber(
          'Share of bump in the sum of bump and rebound damping; 0.4 if left out (common practice)',
          notNegative.lte(1),
        ).optional(),
        knee: quantity('shaftSpeed', 'Shaft speed above which the force rises less', positive).optional(),
        kneeShare: bareNumber(
          'How steep the force is above the knee, as a share of below; 0.5 if left out (common practice)',
          notNegative.lte(1),
        ).optional(),
        speeds: listOf(
          quantity('shaftSpeed', 'A shaft speed', positive),
          'shaftSpeeds',
          'Shaft speeds of the table.',
        ).optional(),
      })
      .describe('What the damper is to give.')
      .optional(),
    unit: z
      .strictObject({
        mass: mass('Mass of the new coilover with its spring').optional(),
        oldMass: mass('Mass of the unit that it replaces').optional(),
      })
      .describe('What the coilover weighs.')
      .optional(),
    order: orderSchema.optional(),
  })
  .describe('What the coilover of this corner is sized by. Leave out what you do not know.');

/** What sizes a corner's coilover, as documents have it. */
export type CornerSizingFile = z.output<typeof cornerSizingSchema>;
/** The parts of a car file that size the coilovers of both axles. */
export type CarSizingFile = z.output<z.ZodObject<typeof carSizingShape>>;
