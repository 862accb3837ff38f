import * as z from 'zod';
import type { CornerKind } from './corner-kind.ts';
import { direction, point, quantity, size, takes, unitOf } from './quantity.ts';

/** A travel or length of 0 or more. */
const distance = (description: string) => quantity('length', description, z.number().gte(0));
const tilt = (description: string) => quantity('angle', description, z.number().gt(0).lt(90));

/** Ball joints made so far, so that those held alike are one schema. */
const ballJoints = new Map<string, z.ZodType>();

/** A ball joint or rod end whose housing is held by one of some parts. */
function ballJoint(holders: readonly [string, ...string[]]): z.ZodType {
  const holder = anyOf(holders);
  const housing = `What holds the housing: ${holder}. The stud is bolted to the other.`;
  const joint = ballJoints.get(holder) ?? jointWith(z.enum(holders).describe(housing));
  ballJoints.set(holder, joint);
  return joint;
}

function jointWith<Housing extends z.ZodType>(housing: Housing) {
  return z
    .strictObject({
      maxArticulation: tilt('How far the stud may lean from the axis of its housing, to either side'),
      housing,
      housingAxis: direction('Axis of the housing, out of its mouth; along the stud if left out').optional(),
      studAxis: direction('Axis of the stud, towards its thread; along the housing if left out').optional(),
    })
    .describe('A ball joint: how far it may articulate, and how it sits at ride height.');
}

/** `rod, rocker or upright` */
function anyOf(names: readonly string[]): string {
  return names.join(', ').replace(/, (\w+)$/, ' or $1');
}

const bearing = z
  .strictObject({
    boltAxis: z
      .enum(['longitudinal', 'inPlane'])
      .describe(
        'Direction of the bolt axis: longitudinal (the swing of the coilover costs no misalignment) or inPlane, in the transverse plane and square to the coilover (all of the swing does).',
      ),
    maxMisalignment: tilt('Bearing rating: largest misalignment to either side'),
  })
  .describe('Bearing at one end of the coilover.');

/** The two radii of a tyre and its width, or the marking on its sidewall. */
const tyre = takes(
  z
    .union([
      z
        .strictObject({
          overallRadius: size('Radius of the tyre with no load on it: half its overall diameter'),
          width: size('Width over the sidewalls'),
        })
        .describe('A tyre by its overall radius and width.'),
      z.string(),
    ])
    .describe('The tyre: its overall radius and width, or the size on its sidewall, as "205/55R16".'),
  'tyre',
);

/** Remarks of whoever wrote the file: they change nothing. */
export const remarks = takes(
  z
    .union([z.string(), z.array(z.string())])
    .describe('Remarks of yours, a text or a list of texts. They change nothing.'),
  'remarks',
);

const lengths = {
  notes: remarks.optional(),
  damper: z
    .strictObject({
      extendedLength: size('Length between the end eyes, fully extended'),
      compressedLength: size('Length between the end eyes, fully compressed; less than extended'),
    })
    .describe('The damper to order: its extended and compressed length between the end eyes.')
    .optional(),
  bumpStop: z
    .strictObject({
      height: size('Height of the bump stop with no load on it'),
      solidHeight: distance('Height at which it gives no more; less than height'),
    })
    .describe(
      'The bump stop on the shaft: contact at compressed length plus height; the travel ends at compressed length plus solidHeight. Needs damper.',
    )
    .optional(),
  springMinLengthAt: size(
    'Length between the end eyes at which the spring is at its minimum permissible length; where sizing knows the spring it finds that itself',
  ).optional(),
  tyre: tyre.optional(),
  arch: z
    .array(point('A point of the wheel arch'))
    .min(1)
    .describe(
      `Points [y, z] of the wheel arch and whatever else the tyre could touch, one after the other: y outboard, z up from the ground. Needs tyre. ${unitOf('length')}`,
    )
    .optional(),
  chassisLowPoints: z
    .array(point('A low point of the chassis'))
    .min(1)
    .describe(
      `Lowest points [y, z] of the chassis, what would touch the ground first: y outboard, z up from the ground. ${unitOf('length')}`,
    )
    .optional(),
};

const others = {
  bearings: z
    .strictObject({ mount: bearing.optional(), chassis: bearing.optional(), otherEnd: bearing.optional() })
    .describe(
      'Bearings at the ends of the coilover: mount (moving end) and chassis (fixed end), or otherEnd where that moves too.',
    )
    .optional(),
  required: z
    .strictObject({
      bump: distance('Travel upward from ride height that you want').optional(),
      droop: distance('Travel downward from ride height that you want, as a positive number').optional(),
    })
    .describe('The wheel travel that you want, to be set against what there is.')
    .optional(),
  donor: z
    .strictObject({
      length: size('Length between the end eyes of the unit that was fitted for the drawing'),
      state: z
        .enum(['extended', 'compressed', 'measured'])
        .describe(
          'In what state that length was taken: extended, compressed, or measured at some length between.',
        ),
      stroke: size('Stroke: extended length minus compressed length').optional(),
    })
    .describe('The unit that was used to set the car up, if there was one.')
    .optional(),
};

/** What ends the travel of a corner, as a document gives it; with ball joints by name, if it has any. */
function limitsWith<Joints extends z.ZodRawShape>(joints: Joints) {
  return z
    .strictObject({ ...lengths, ...joints, ...others })
    .describe('What ends the travel. Leave out what you do not know.');
}

/** Limits of a corner of a kind, as files hold them. */
export type LimitsOf<Kind extends CornerKind> = z.output<
  ReturnType<typeof limitsWith<Record<never, never>>>
> &
  (Kind['ballJoints'] extends { readonly holders: infer Holders extends HoldersByPoint }
    ? { readonly ballJoints?: JointsOf<Holders> | undefined }
    : unknown);

type HoldersByPoint = NonNullable<CornerKind['ballJoints']>['holders'];
type JointsOf<Holders extends HoldersByPoint> = {
  readonly [Point in keyof Holders]?:
    | z.output<ReturnType<typeof jointWith<z.ZodType<Holders[Point][number]>>>>
    | undefined;
};

/** Limits of a corner of a kind. */
export function limitsSchema({ ballJoints }: CornerKind): z.ZodType {
  if (ballJoints === null) return limitsWith({});
  const joints = Object.entries(ballJoints.holders).map(
    ([point, holders]) => [point, ballJoint(holders).optional()] as const,
  );
  const byPoint = z.strictObject(Object.fromEntries(joints)).describe(ballJoints.about);
  return limitsWith({ ballJoints: byPoint.optional() });
}

/** Options of `limits`: the same for joints of any name. */
export const limitOptionsSchema = limitsWith({
  ballJoints: z
    .record(
      z.string(),
      jointWith(
        z
          .string()
          .describe(
            'What holds the housing: arm, upright, or a part by its name. The stud is bolted to the other.',
          ),
      ).optional(),
    )
    .describe(
      'Ball joints and rod ends by the point where they join two parts: lowerOuter, upperOuter; with a rocker rodMount and rodRockerMount; in a drawing of your own any point that joins two bodies.',
    )
    .optional(),
});
