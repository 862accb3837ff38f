import * as z from 'zod';
import { doubleWishboneSchema, pushrodSchema, strutSchema } from './corner-schema.ts';
import { limitsSchemas, remarks } from './limits-schema.ts';
import { orderedSchema } from './ordered-schema.ts';
import { valueAt } from './parse.ts';
import { bareNumber, quantity, takes } from './quantity.ts';
import { carSizingShape, cornerSizingSchema } from './sizing-schema.ts';
import { meantName } from './spelling.ts';
import { surveyChecksSchema } from './survey-check-schema.ts';

/** What any file says about itself. */
export const fileFields = {
  $schema: z.string().describe('Where an editor finds the description of this file.').optional(),
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

/** Kinds of corners that files may have; the first is taken if none is named. */
const KINDS = ['doubleWishbone', 'pushrod', 'strut'] as const;
export type Kind = (typeof KINDS)[number];

/** The kind that a corner is of, or seems to be meant to be where that is missing or misspelt. */
export function kindOf(corner: unknown): Kind {
  const written = valueAt(corner, ['kind']);
  const meant = typeof written === 'string' ? meantName(written, KINDS) : undefined;
  if (meant !== undefined) return meant as Kind;
  const has = (name: string) => valueAt(corner, [name]) !== undefined;
  if (has('rod') || has('rocker')) return 'pushrod';
  return has('strut') ? 'strut' : 'doubleWishbone';
}

/** What says which kind a corner is. */
function kindField<K extends Kind>(kind: K, words: string) {
  return takes(z.literal(kind).describe(`What sort of corner it is: ${words}.`), KINDS);
}

/** What a corner has, by its kind. */
const CORNERS = {
  doubleWishbone: {
    kind: kindField('doubleWishbone', 'doubleWishbone, taken if left out').optional(),
    ...doubleWishboneSchema.shape,
    sprungMass: sprungMass.optional(),
    limits: limitsSchemas.doubleWishbone.optional(),
    sizing: cornerSizingSchema.optional(),
    ordered: orderedSchema.optional(),
    ...surveyed,
  },
  pushrod: {
    kind: kindField('pushrod', 'pushrod, for a coilover worked by a pushrod or pullrod through a rocker'),
    ...pushrodSchema.shape,
    sprungMass: sprungMass.optional(),
    limits: limitsSchemas.pushrod.optional(),
    sizing: cornerSizingSchema.optional(),
    ordered: orderedSchema.optional(),
    ...surveyed,
  },
  strut: {
    kind: kindField('strut', 'strut, for an upright that slides along a strut'),
    ...strutSchema.shape,
    sprungMass: sprungMass.optional(),
    limits: limitsSchemas.strut.optional(),
    sizing: cornerSizingSchema.optional(),
    ordered: orderedSchema.optional(),
    ...surveyed,
  },
};

/** A corner of a car; its kind is its name among the definitions of the JSON Schema. */
function corner<Shape extends z.ZodRawShape>(kind: Kind, shape: Shape) {
  return z
    .strictObject({ notes: remarks.optional(), ...shape })
    .meta({ id: kind, description: 'A corner, seen from the front of the car, left-hand wheel.' });
}

const cornerSchemas = {
  doubleWishbone: corner('doubleWishbone', CORNERS.doubleWishbone),
  pushrod: corner('pushrod', CORNERS.pushrod),
  strut: corner('strut', CORNERS.strut),
};

function cornerFile<Shape extends z.ZodRawShape>(shape: Shape) {
  return z.strictObject({ ...fileFields, ...shape }).describe('One suspension corner, at ride height.');
}

/** Files with one corner, by its kind. */
export const cornerFileSchemas = {
  doubleWishbone: cornerFile(CORNERS.doubleWishbone),
  pushrod: cornerFile(CORNERS.pushrod),
  strut: cornerFile(CORNERS.strut),
};

function carFile<Front extends z.ZodType, Rear extends z.ZodType>(front: Front, rear: Rear) {
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

/** A file with the corners of a car, by their kinds. */
export function carFileSchema(front: Kind, rear: Kind) {
  const kinds = `${front} ${rear}`;
  let schema = carFileSchemas.get(kinds);
  if (schema === undefined) {
    schema = carFile(cornerSchemas[front], cornerSchemas[rear]);
    carFileSchemas.set(kinds, schema);
  }
  return schema;
}

type CarFileSchema = ReturnType<typeof carFile<(typeof cornerSchemas)[Kind], (typeof cornerSchemas)[Kind]>>;

/** Those made so far, so that each is compiled once. */
const carFileSchemas = new Map<string, CarFileSchema>();

/** A file with a corner of any kind. */
export function anyCornerFileSchema() {
  return z.union(Object.values(cornerFileSchemas)).describe('One suspension corner, at ride height.');
}

/** A file with the corners of a car, of any kind. */
export function anyCarFileSchema() {
  const either = z.union(Object.values(cornerSchemas));
  return carFile(either.describe('The front corner.'), either.describe('The rear corner.'));
}

/** JSON Schema (draft 7) of a corner file: name it as `"$schema"` in the file, and an editor explains each field. */
export function cornerJsonSchema(): Record<string, unknown> {
  return jsonSchema(anyCornerFileSchema());
}

/** JSON Schema (draft 7) of a car file: name it as `"$schema"` in the file, and an editor explains each field. */
export function carJsonSchema(): Record<string, unknown> {
  return jsonSchema(anyCarFileSchema());
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
