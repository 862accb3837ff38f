import * as z from 'zod';
import { doubleWishboneSchema } from './corner-schema.ts';
import { limitsSchema, remarks } from './limits-schema.ts';
import { quantity, takes } from './quantity.ts';

/** What any file says about itself. */
const file = {
  $schema: z.string().describe('Where an editor finds the description of this file.').optional(),
  units: takes(
    z
      .enum(['metric', 'imperial'])
      .describe(
        'What the numbers are written in: metric (mm, kg, N, N/mm; taken if left out) or imperial (inch, lb, lbf, lbf/in). Angles are in degrees in both.',
      ),
    'metric (mm, kg), imperial (inch, lb)',
  ).optional(),
  name: z.string().describe('Name of the car, for titles.').optional(),
  notes: remarks.optional(),
};

const kind = z
  .literal('doubleWishbone')
  .describe('What sort of corner it is: doubleWishbone, taken if left out.')
  .optional();

/** What a corner has beside its geometry. */
const besides = {
  sprungMass: quantity(
    'mass',
    'Mass that the spring of this corner carries: the load on the wheel without the unsprung parts',
    z.number().gt(0),
  ).optional(),
  limits: limitsSchema.optional(),
};

const geometry = doubleWishboneSchema.shape;

function corner(which: string) {
  return z
    .strictObject({ notes: remarks.optional(), kind, ...geometry, ...besides })
    .describe(`The ${which} corner, seen from the front of the car, left-hand wheel.`);
}

/** A file with one corner. */
export const cornerFileSchema = z
  .strictObject({ ...file, kind, ...geometry, ...besides })
  .describe('One suspension corner, at ride height.');

/** A file with the corners of a car. */
export const carFileSchema = z
  .strictObject({
    ...file,
    corners: z
      .strictObject({ front: corner('front'), rear: corner('rear').optional() })
      .describe('The corners of the car, one for each axle.'),
  })
  .describe('A car: its suspension corners at ride height, one for each axle.');

/** A corner as files hold it. */
export type CornerFile = z.output<typeof cornerFileSchema>;
/** A car as files hold it. */
export type CarFile = z.output<typeof carFileSchema>;

/** JSON Schema (draft 7) of a corner file: name it as `"$schema"` in the file, and an editor explains each field. */
export function cornerJsonSchema(): Record<string, unknown> {
  return jsonSchema(cornerFileSchema);
}

/** JSON Schema (draft 7) of a car file: name it as `"$schema"` in the file, and an editor explains each field. */
export function carJsonSchema(): Record<string, unknown> {
  return jsonSchema(carFileSchema);
}

function jsonSchema(schema: z.ZodType): Record<string, unknown> {
  return z.toJSONSchema(schema, {
    target: 'draft-7',
    io: 'input',
    override: ({ jsonSchema }) => {
      // An editor would take it for "not to be written".
      delete jsonSchema.readOnly;
    },
  }) as Record<string, unknown>;
}
