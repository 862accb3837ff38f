import * as z from 'zod';
import { type Quantity, unitName } from '../units.ts';

const quantities = new WeakMap<z.core.$ZodType, Quantity>();
const shapes = new WeakMap<z.core.$ZodType, string | readonly string[]>();

/** A number that stands for a quantity: so marked, its unit can be told and its value converted. */
export function quantity(kind: Quantity, description: string, schema: z.ZodNumber = z.number()): z.ZodNumber {
  const marked = schema.describe(`${description}. ${unitOf(kind)}`);
  quantities.set(marked, kind);
  return marked;
}

/** The sentence on the unit of a quantity, or on those of the columns of a table. */
export function unitOf(...kinds: readonly Quantity[]): string {
  const metric = kinds.map((kind) => unitName(kind, 'metric')).join(' and ');
  const imperial = kinds.map((kind) => unitName(kind, 'imperial')).join(' and ');
  const units = metric === imperial ? metric : `${metric}, or ${imperial} (imperial)`;
  return `Unit${kinds.length > 1 ? 's' : ''}: ${units}.`;
}

/** What a number's schema stands for, if it was marked. */
export function quantityOf(schema: z.core.$ZodType): Quantity | undefined {
  return quantities.get(schema);
}

/** A length that is more than nothing. */
export function size(description: string): z.ZodNumber {
  return quantity('length', description, z.number().gt(0));
}

const y = quantity('length', 'y: outboard from the centreline of the car');
const z_ = quantity('length', 'z: up from the ground at design ride height');

/** A number that stands for a quantity, or one that is known to plus or minus: `{ value, plusMinus }`. */
export function uncertain(kind: Quantity, description: string, number: z.ZodNumber = z.number()) {
  const value = quantity(kind, description, number);
  const either = eitherOf(value, quantity(kind, HALF_WIDTH, z.number().gte(0)));
  quantities.set(either, kind);
  return either;
}

/** A number without unit. */
export function bareNumber(description: string, number: z.ZodNumber = z.number()): z.ZodNumber {
  return number.describe(`${description}. Without unit.`);
}

/** The same that may be known to plus or minus. */
export function uncertainNumber(description: string, number: z.ZodNumber = z.number()) {
  const value = bareNumber(description, number);
  return takes(eitherOf(value, bareNumber(HALF_WIDTH, z.number().gte(0))), 'uncertainNumber');
}

const HALF_WIDTH =
  'How far it may be off, to either side: half of the interval that holds it 95 times in 100';

function eitherOf(value: z.ZodNumber, plusMinus: z.ZodNumber) {
  return z.union([value, z.strictObject({ value, plusMinus })]).describe(value.description ?? '');
}

const uncertainY = uncertain('length', 'y: outboard from the centreline of the car');
const uncertainZ = uncertain('length', 'z: up from the ground at design ride height');

/**
 * A list of two whose type is readonly. The `readonly()` of zod would freeze even what it refuses, the caller's own, and throws
 * on a typed array.
 */
export function pairOf<First extends z.ZodType, Second extends z.ZodType>(first: First, second: Second) {
  const pair = z.tuple([first, second]);
  return pair as unknown as z.ZodReadonly<typeof pair>;
}

const POINT = 'Point [y, z]: y outboard from the centreline, z up from the ground';

/** A hardpoint: a point whose coordinates may be uncertain. */
export function hardpoint(description: string) {
  return takes(
    pairOf(uncertainY, uncertainZ).describe(
      `${description}. ${POINT}; either may be { value, plusMinus }. ${unitOf('length')}`,
    ),
    'point',
  );
}

/** A point of the corner's plane, `[y, z]`: y outboard from the vehicle's centreline, z up from the ground. */
export function point(description: string) {
  return takes(pairOf(y, z_).describe(`${description}. ${POINT}. ${unitOf('length')}`), 'point');
}

/** A direction in the corner's plane: `[y, z]` of any length. */
export function direction(description: string) {
  return takes(
    pairOf(z.number(), z.number()).describe(
      `${description}. Direction [y, z] at ride height, y outboard, z up, of any length. Without unit.`,
    ),
    'direction',
  );
}

/** A schema with a name for what it takes, which its sentences know, or with the names among which it takes one. */
export function takes<Schema extends z.core.$ZodType>(
  schema: Schema,
  what: string | readonly string[],
): Schema {
  shapes.set(schema, what);
  return schema;
}

/** What a schema takes, if it was named. */
export function shapeOf(schema: z.core.$ZodType): string | readonly string[] | undefined {
  return shapes.get(schema);
}
