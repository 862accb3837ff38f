import * as z from 'zod';
import { meantName } from '../spelling.ts';
import { antiRollBarSchema, rollSpringSchema, thirdSpringSchema } from './axle-schema.ts';
import { type CornerKind, UNNAMED_KIND } from './corner-kind.ts';
import { FORMAT_VERSION } from './format-version.ts';
import { type LimitsOf, limitsSchema, remarks } from './limits-schema.ts';
import { orderedSchema } from './ordered-schema.ts';
import { valueAt } from './parse.ts';
import { bareNumber, quantity, takes } from './quantity.ts';
import { carSizingShape, cornerSizingSchema } from './sizing-schema.ts';
import { surveyChecksSchema } from './survey-check-schema.ts';

/** What any file says about itself. */
export const fileFields = {
  $schema: z.string().describe('Where an editor finds the description of this file.').optional(),
  formatVersion: z
    .literal(FORMAT_VERSION)
    .describe(`Version of the file format: ${FORMAT_VERSION}, also if left out. Without unit.`)
    .optional(),
  units: takes(
    z
      .enum(['metric', 'imperial'])
      .describe(
        'What the numbers are written in: metric (mm, kg, N, N/mm; taken if left out) or imperial (in, lb, lbf, lbf/in). Angles are in degrees in both.',
      ),
    'units',
  ).optional(),
  name: z.string().describe('Name of the car, for titles.').optional(),
  notes: remarks.optional(),
};

const sprungMass = quantity(
  'mass',
  'Mass that the spring of this corner carries: the load on the wheel without the unsprung parts',
  z.number().gt(0),
);

/** What a survey says beside the points of a corner. */
const surveyed = {
  correlations: z
    .strictObject({
      coordinates: z
        .array(z.string().describe('A coordinate of a hardpoint.'))
        .describe(
          'Coordinates of hardpoints by name, as lowerInnerY or shockChassisMountZ; each has a plusMinus at its point.',
        ),
      lowerTriangle: z
        .array(
          z
            .array(bareNumber('Correlation', z.number().gte(-1).lte(1)))
            .describe('Correlations of a coordinate with those before it.'),
        )
        .describe(
          'A row for each coordinate: its correlations, -1 to 1, with those before it. The first row is empty. Without unit.',
        ),
    })
    .describe(
      'How the errors of hardpoints hang together, as a survey gives it; coordinates that are not named are independent.',
    )
    .optional(),
  surveyChecks: surveyChecksSchema.optional(),
};

/** Kinds of corners by their names. */
export type Kinds = Readonly<Record<string, { readonly input: CornerKind }>>;

/** What a corner has beside the parts of its kind and what ends its travel. */
const loads = {
  sprungMass: sprungMass.optional(),
  bar: antiRollBarSchema.optional(),
  thirdSpring: thirdSpringSchema.optional(),
  rollSpring: rollSpringSchema.optional(),
  sizing: cornerSizingSchema.optional(),
  ordered: orderedSchema.optional(),
  ...surveyed,
};

/** A corner of a kind as a car has it. */
type CornerOf<Kind extends CornerKind> = z.output<
  z.ZodObject<Pick<typeof fileFields, 'notes'> & typeof loads>
> & {
  readonly limits?: LimitsOf<Kind> | undefined;
} & z.output<Kind['schema']> &
  Named<Kind['kind']>;

/** What says the kind; one is taken where it is missing. */
type Named<Kind extends string> = Kind extends typeof UNNAMED_KIND
  ? { readonly kind?: Kind | undefined }
  : { readonly kind: Kind };

/** A file with one corner of a kind. */
type CornerFileOf<Kind extends CornerKind> = z.output<z.ZodObject<typeof fileFields>> & CornerOf<Kind>;

/** A car as files hold it. */
type CarFileOf<Kind extends CornerKind> = z.output<z.ZodObject<typeof fileFields & typeof carSizingShape>> & {
  readonly corners: { readonly front: EachOf<Kind>; readonly rear?: EachOf<Kind> | undefined };
};
type EachOf<Kind extends CornerKind> = Kind extends CornerKind ? CornerOf<Kind> : never;

/** A schema that changes nothing of what it reads. */
type Reads<T> = z.ZodType<T, T>;

/** The schemas of files with corners of some kinds. */
export interface FileSchemas<All extends Kinds> {
  /** A file with one corner, by its kind. */
  readonly corner: { readonly [Name in keyof All]: Reads<CornerFileOf<All[Name]['input']>> };
  /** A file with one corner of any kind. */
  anyCorner(): Reads<{ [Name in keyof All]: CornerFileOf<All[Name]['input']> }[keyof All]>;
  /** A file with the corners of a car, by their kinds. */
  car(front: keyof All, rear: keyof All): Reads<CarFileOf<All[keyof All]['input']>>;
  /** A file with the corners of a car, of any kind. */
  anyCar(): Reads<CarFileOf<All[keyof All]['input']>>;
}

/** Makes the schemas of files with corners of some kinds. */
export function fileSchemas<All extends Kinds>(kinds: All): FileSchemas<All> {
  const names = Object.keys(kinds);
  const shapes = names.map((name) => [name, cornerShape(kinds[name].input, names)] as const);
  const files = Object.fromEntries(shapes.map(([name, shape]) => [name, cornerFile(shape)]));
  const corners = Object.fromEntries(shapes.map(([name, shape]) => [name, corner(name, shape)]));
  /** Those made so far, so that each is compiled once. */
  const cars = new Map<string, z.ZodType>();
  const made = {
    corner: files,
    anyCorner: () => z.union(Object.values(files)).describe(ONE_CORNER),
    car(front: string, rear: string) {
      const pair = `${front} ${rear}`;
      const car = cars.get(pair) ?? carFile(corners[front], corners[rear]);
      cars.set(pair, car);
      return car;
    },
    anyCar() {
      const either = z.union(Object.values(corners));
      return carFile(either.describe('The front corner.'), either.describe('The rear corner.'));
    },
  };
  return made as unknown as FileSchemas<All>;
}

/** What a corner of a kind has; `names` are those of all kinds. */
function cornerShape(input: CornerKind, names: readonly string[]): z.ZodRawShape {
  const { kind, about, schema } = input;
  const named = takes(z.literal(kind).describe(`What sort of corner it is: ${kind}, ${about}.`), names);
  const { sprungMass, ...others } = loads;
  return {
    kind: kind === UNNAMED_KIND ? named.optional() : named,
    ...schema.shape,
    sprungMass,
    limits: limitsSchema(input).optional(),
    ...others,
  };
}

/** A corner of a car; its kind is its name among the definitions of the JSON Schema. */
function corner(kind: string, shape: z.ZodRawShape) {
  return z
    .strictObject({ notes: remarks.optional(), ...shape })
    .meta({ id: kind, description: 'A corner, seen from the front of the car, left-hand wheel.' });
}

const ONE_CORNER = 'One suspension corner, at ride height.';

function cornerFile(shape: z.ZodRawShape) {
  return z.strictObject({ ...fileFields, ...shape }).describe(ONE_CORNER);
}

function carFile(front: z.ZodType, rear: z.ZodType) {
  return z
    .strictObject({
      ...fileFields,
      ...carSizingShape,
      corners: z
        .strictObject({ front, rear: rear.optional() })
        .describe('The corners of the car, one for each axle.'),
    })
    .describe('A car: its suspension corners at ride height, one for each axle.');
}

/** The kind that a corner is of, or seems to be meant to be where that is missing or misspelt: one has a part there that no other has. */
export function kindOf<All extends Kinds>(kinds: All, corner: unknown): keyof All & string {
  const names = Object.keys(kinds);
  const written = valueAt(corner, ['kind']);
  const meant = typeof written === 'string' ? meantName(written, names) : undefined;
  const isThere = (part: string) => valueAt(corner, [part]) !== undefined;
  const shapes = names.map((name) => kinds[name].input.schema.shape);
  const told = names.find((_, k) =>
    Object.keys(shapes[k]).some(
      (part) => isThere(part) && !shapes.some((shape, i) => i !== k && part in shape),
    ),
  );
  return meant ?? told ?? UNNAMED_KIND;
}

/** Whether something has a part that a corner of some kind has. */
export function isCorner(kinds: Kinds, value: unknown): boolean {
  const parts = Object.values(kinds).flatMap(({ input }) => Object.keys(input.schema.shape));
  return parts.some((part) => valueAt(value, [part]) !== undefined);
}

/** A schema as JSON Schema. */
export function jsonSchema(schema: z.ZodType): Record<string, unknown> {
  return z.toJSONSchema(schema, {
    target: 'draft-7',
    io: 'input',
    override: ({ jsonSchema }) => {
      // An editor would take it for "not to be written".
      delete jsonSchema.readOnly;
    },
  }) as Record<string, unknown>;
}
