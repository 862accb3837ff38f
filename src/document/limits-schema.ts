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
      maxArticulation: tilt(
        'Largest articulation angle: between the axes of stud and housing, to either side',
      ),
      housing,
      housingAxis: direction('Axis of the housing, out of its mouth; along the stud if left out').optional(),
      studAxis: direction('Axis of the stud, towards its thread; along the housing if left out').optional(),
    })
    .describe('A ball joint: its largest articulation angle, and its axes at ride height.');
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
        'Direction of the bolt axis: longitudinal (swing of the coilover causes no misalignment) or inPlane, in the transverse plane and square to the coilover (all swing is misalignment).',
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
          overallRadius: size('Radius of the unloaded tyre: half its overall diameter'),
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
      extendedLength: size('Eye-to-eye length, fully extended'),
      compressedLength: size('Eye-to-eye length, fully compressed; less than extended'),
    })
    .describe('The damper to order: its extended and compressed length, eye to eye.')
    .optional(),
  bumpStop: z
    .strictObject({
      height: size('Free height of the bump stop'),
      solidHeight: distance('Height at which the bump stop is solid; less than height'),
    })
    .describe(
      'The bump stop on the shaft: contact at compressed length plus height; the travel ends at compressed length plus solidHeight. Needs damper.',
    )
    .optional(),
  springMinLengthAt: size(
    'Eye-to-eye length at which the spring has its minimum permissible length L_n; a sizing computes it from its spring',
  ).optional(),
  tyre: tyre.optional(),
  arch: z
    .array(point('A point of the wheel arch'))
    .min(1)
    .describe(
      `Points [y, z] of the wheel arch and of whatever else the tyre could touch: y outboard, z up from the ground. Needs tyre. ${unitOf('length')}`,
    )
    .optional(),
  chassisLowPoints: z
    .array(point('A low point of the chassis'))
    .min(1)
    .describe(`Lowest points [y, z] of the chassis: y outboard, z up from the ground. ${unitOf('length')}`)
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
      bump: distance('Required bump travel from design ride height').optional(),
      droop: distance('Required droop travel from design ride height, as a positive number').optional(),
    })
    .describe('Required wheel travel, for the margins against the available travel.')
    .optional(),
  donor: z
    .strictObject({
      length: size('Eye-to-eye length of the donor damper as it was fitted when the corner was drawn'),
      state: z
        .enum(['extended', 'compressed', 'measured'])
        .describe(
          'State in which that length was taken: extended, compressed, or measured at a length in between.',
        ),
      stroke: size('Stroke: extended length minus compressed length').optional(),
    })
    .describe('Donor damper: an existing unit, for comparison.')
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
