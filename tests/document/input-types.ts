// Writes src/document/inputs.ts from the schemas: an interface for each object, and what each field is, in its words there.

import * as z from 'zod';
import { FILES } from '../../src/corner/file-schemas.ts';
import { KINDS } from '../../src/corner/kinds.ts';
import { customCornerSchema } from '../../src/document/custom-schema.ts';
import { fileFields } from '../../src/document/file-schema.ts';
import { limitOptionsSchema } from '../../src/document/limits-schema.ts';
import { orderedSchema } from '../../src/document/ordered-schema.ts';
import { shapeOf } from '../../src/document/quantity.ts';
import { bare, schemaAt } from '../../src/document/schema-walk.ts';
import { carSizingShape, cornerSizingSchema, wireSchema } from '../../src/document/sizing-schema.ts';
import { surveyCheckSchemas } from '../../src/document/survey-check-schema.ts';
import { surveySchema } from '../../src/document/survey-schema.ts';

type Schema = z.core.$ZodType;
type Shape = Readonly<Record<string, Schema>>;

const kinds = Object.values(KINDS).map(({ input }) => input);
const files = Object.values(FILES.corner);
const limitsSchemas = files.map((file) => shapeOfObject(file).limits);
const carSchema = FILES.anyCar();
const corners = optionsOf(schemaAt(carSchema, ['corners', 'front']));
/** A name for each kind. */
const eachKind = (end: string, schemas: readonly Schema[]) =>
  kinds.map(({ kind }, k) => [capital(kind) + end, schemas[k]] as const);

/** Objects with a name of their own, those that others extend first; with what they are where the schema does not say. */
const ROOTS: readonly (readonly [name: string, schema: Schema, words?: string])[] = [
  ...kinds.map(
    ({ kind, what, schema }) =>
      [`${capital(kind)}Input`, schema, `Hardpoints of a ${what}, for \`${kind}\`.`] as const,
  ),
  [
    'CustomPartsInput',
    customCornerSchema.omit({ drawing: true }),
    'The parts that points and bodies of a drawing play, for `customCorner`.',
  ],
  ['TravelLimits', common(limitOptionsSchema, ...limitsSchemas), 'What ends the travel of any corner.'],
  [
    'LimitOptions',
    limitOptionsSchema,
    'What ends the travel of a corner, for `limits`: mm and degrees. Leave out what you do not know.',
  ],
  ...eachKind('Limits', limitsSchemas),
  ['CoilSpringInput', wireSchema],
  ['CornerSizingFile', cornerSizingSchema],
  ['OrderedFile', orderedSchema],
  ['FileFields', z.object(fileFields), 'What any file says about itself.'],
  ...Object.entries(surveyCheckSchemas).map(([code, schema]) => [`${capital(code)}Check`, schema] as const),
  [
    'CornerFields',
    common(...corners.map(besideHardpoints)),
    'What a corner of any kind has in a file beside its hardpoints.',
  ],
  ...eachKind('CornerInput', corners),
  ...eachKind('File', files),
  ['CornerFile', FILES.anyCorner()],
  ['CarSizingFile', z.object(carSizingShape), 'What a car file has beside its corners.'],
  ['CarFile', carSchema],
  ['SurveyInput', surveySchema],
];

/** Names of objects that are not that of their field, with Input after it; by the interface and field where they stand, and which of several it is. */
const NAMES: Readonly<Record<string, string>> = {
  'DoubleWishboneInput.lowerArm': 'ArmInput',
  'PushrodInput.coilover': 'RockerCoiloverInput',
  'StrutInput.strut': 'StrutMountsInput',
  'StrutInput.coilover': 'StrutCoiloverInput',
  'StrutCoiloverInput.otherEnd': 'StrutOtherEndInput',
  'CustomPartsInput.angles[0]': 'LineAngleInput',
  'CustomPartsInput.angles[1]': 'BodyTurnInput',
  'CustomPartsInput.rocker': 'RockerPartsInput',
  'RockerPartsInput.rod': 'RodEndsInput',
  'LimitOptions.ballJoints': 'BallJoint',
  ...Object.fromEntries(
    kinds.map(({ kind }) => [`${capital(kind)}Limits.ballJoints`, `${capital(kind)}BallJoints`]),
  ),
  'DoubleWishboneBallJoints.lowerOuter': 'ArmBallJoint',
  'PushrodBallJoints.rodMount': 'RodMountBallJoint',
  'PushrodBallJoints.rodRockerMount': 'RodRockerBallJoint',
  'BearingsInput.mount': 'Bearing',
  'TravelLimits.required': 'RequiredTravelInput',
  'TravelLimits.donor': 'Donor',
  'CornerFields.bar': 'AntiRollBarInput',
  'AntiRollBarInput.right': 'AntiRollBarEndInput',
  'ThirdSpringInput.right': 'SpringEndInput',
  'OrderInput.mounts': 'OrderMountsInput',
  'CornerSizingFile.springs': 'SpringInput',
  'OrderedFile.damper': 'OrderedDamperInput',
  'OrderedFile.spring': 'OrderedSpringInput',
  'OrderedFile.helper': 'OrderedHelperInput',
  'OrderedFile.bumpStop': 'OrderedBumpStopInput',
  'OrderedFile.perch': 'OrderedPerchInput',
  'CarSizingFile.order': 'OrderIssueInput',
  'CarFile.corners': 'CarCornersInput',
  'MassesInput.parts': 'LoadInput',
  'MassesInput.states': 'LoadStateInput',
  'SurveyInput.points': 'SurveyPointInput',
  'SurveyInput.plusMinus': 'SurveyPlusMinusInput',
  'SurveyInput.distances': 'DistanceInput',
  'SurveyInput.heights': 'HeightInput',
  'SurveyInput.laterals': 'LateralInput',
  'SurveyInput.inclinations': 'InclinationInput',
  'SurveyInput.slopes': 'SlopeInput',
};

/** Names of the items of pairs, and of rows of a table, by what a schema takes. */
const ITEMS: Readonly<Record<string, readonly string[]>> = {
  point: ['y', 'z'],
  direction: ['y', 'z'],
  bumpStopTable: ['compression', 'force'],
  forceTable: ['speed', 'compression', 'rebound'],
};

const HEAD = `// Inputs and files, as their schemas have them. Written by \`npm run schemas\`; not to be edited.

/** A number that is known to plus or minus. */
export interface UncertainNumber {
  /** The number. Unit and sign: those of the field that it stands for. */
  readonly value: number;
  /** How far it may be off, to either side: half of the interval that holds it 95 times in 100. Unit: that of the value. */
  readonly plusMinus: number;
}
`;

/** The text of src/document/inputs.ts. */
export function inputTypes(): string {
  const names = new Map<Schema, string>(ROOTS.map(([name, schema]) => [bare(schema), name]));
  const declarations = new Map<string, string>();
  for (const [name, schema, words] of ROOTS) declare(name, bare(schema), words);
  return [HEAD, ...declarations.values()].join('\n');

  function declare(name: string, schema: z.core.$ZodTypes, words = wordsOf(schema, name)): void {
    const known = declarations.get(name);
    // Its place is before those of the objects in it.
    if (known === undefined) declarations.set(name, '');
    const text = textOf(name, schema, words);
    if (known !== undefined && known !== text) throw new Error(`two objects have the name ${name}`);
    declarations.set(name, text);
  }

  function textOf(name: string, schema: z.core.$ZodTypes, words = wordsOf(schema, name)): string {
    return `${comment(words, '')}${declaration(name, schema)}`;
  }

  /** Ball joints by point are taken where joints by any name are: an interface would not be. */
  function declaration(name: string, schema: z.core.$ZodTypes): string {
    const { def } = schema._zod;
    if (def.type !== 'object') return `export type ${name} = ${typeOf(schema, name)};\n`;
    const own = new Map(Object.entries(def.shape as Shape));
    const bases: string[] = [];
    const before = ROOTS.slice(
      0,
      Math.max(
        0,
        ROOTS.findIndex(([root]) => root === name),
      ),
    );
    for (const [base, other] of before.reverse()) {
      const fields = Object.entries(shapeOfObject(other));
      if (fields.length === 0 || !fields.every(([field, one]) => isSame(one, def.shape[field]))) continue;
      const adds = fields.filter(([field]) => own.delete(field)).length > 0;
      if (adds) bases.push(base);
    }
    const members = [...own].map(([field, one]) => member(name, field, one));
    if (name.endsWith('BallJoints')) return `export type ${name} = {\n${members.join('')}};\n`;
    const heritage = bases.length === 0 ? '' : ` extends ${bases.reverse().join(', ')}`;
    return `export interface ${name}${heritage} {\n${members.join('')}}\n`;
  }

  function member(owner: string, field: string, schema: Schema): string {
    const type = typeOf(schema, `${owner}.${field}`);
    const isOptional = schema._zod.optin !== undefined;
    const line = `  readonly ${field}${isOptional ? '?' : ''}: ${type}${isOptional ? ' | undefined' : ''};\n`;
    return comment(wordsOf(schema, `${owner}.${field}`), '  ') + line;
  }

  /** `table` is what a list takes whose rows this is. */
  function typeOf(wrapped: Schema, at: string, table?: ReturnType<typeof shapeOf>): string {
    const schema = bare(wrapped);
    const { def } = schema._zod;
    switch (def.type) {
      case 'string':
      case 'number':
      case 'boolean':
        return def.type;
      case 'literal':
        return def.values
          .map((value) => (typeof value === 'string' ? `'${value}'` : String(value)))
          .join(' | ');
      case 'enum':
        return Object.values(def.entries)
          .map((value) => `'${value}'`)
          .join(' | ');
      case 'array': {
        const item = typeOf(def.element, at, shapeOf(schema));
        return `readonly ${/ /.test(item) ? `(${item})` : item}[]`;
      }
      case 'tuple': {
        const labels = ITEMS[String(shapeOf(schema) ?? table)];
        const items = def.items.map((item, k) => `${labels ? `${labels[k]}: ` : ''}${typeOf(item, at)}`);
        return `readonly [${items.join(', ')}]`;
      }
      case 'record': {
        const isOptional = def.valueType._zod.optin !== undefined;
        return `{ readonly [name: string]: ${typeOf(def.valueType, at)}${isOptional ? ' | undefined' : ''} }`;
      }
      case 'union':
        return def.options
          .map((option, k) => typeOf(option, `${at}[${k}]` in NAMES ? `${at}[${k}]` : at))
          .join(' | ');
      case 'object':
        return nameOf(schema, def.shape, at);
      default:
        throw new Error(`${at} is ${def.type}, which no type stands for`);
    }
  }

  /** A name; where another object has it, with that of its owner before it. */
  function freeName(name: string, schema: z.core.$ZodTypes, at: string): string {
    const other = declarations.get(name);
    if (other === undefined || other === textOf(name, schema)) return name;
    return `${at.slice(0, at.lastIndexOf('.')).replace(/Input$/, '')}${name}`;
  }

  function nameOf(schema: z.core.$ZodTypes, shape: Shape, at: string): string {
    if (Object.keys(shape).join() === 'value,plusMinus') return 'UncertainNumber';
    const known = names.get(schema);
    if (known !== undefined) return known;
    const field = at.slice(at.lastIndexOf('.') + 1);
    const name = NAMES[at] ?? freeName(`${capital(field)}Input`, schema, at);
    names.set(schema, name);
    declare(name, schema);
    return name;
  }
}

/** What a corner has that its kind does not. */
function besideHardpoints(corner: Schema): z.ZodObject {
  const isOfKind = (field: string) => kinds.some(({ schema }) => field in schema.shape);
  const others = Object.entries(shapeOfObject(corner)).filter(([field]) => !isOfKind(field));
  return z.object(Object.fromEntries(others) as z.ZodRawShape);
}

/** What is the same in all of some objects. */
function common(...schemas: readonly Schema[]): z.ZodObject {
  const [first, ...others] = schemas.map(shapeOfObject);
  const shared = Object.entries(first).filter(([field, schema]) =>
    others.every((shape) => isSame(schema, shape[field])),
  );
  return z.object(Object.fromEntries(shared) as z.ZodRawShape);
}

function optionsOf(schema: Schema | undefined): readonly Schema[] {
  const def = schema && bare(schema)._zod.def;
  return def?.type === 'union' ? def.options : [];
}

function shapeOfObject(schema: Schema): Shape {
  const { def } = bare(schema)._zod;
  return def.type === 'object' ? def.shape : {};
}

/** Whether two fields have one schema. */
function isSame(a: Schema, b: Schema | undefined): boolean {
  return b !== undefined && bare(a) === bare(b) && a._zod.optin === b._zod.optin;
}

function wordsOf(schema: Schema, at: string): string {
  const words = z.globalRegistry.get(bare(schema))?.description;
  if (words === undefined) throw new Error(`${at} is not described`);
  return words;
}

function capital(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

const WIDTH = 110;

/** A comment on what follows, its names of fields as they are. */
function comment(words: string, indent: string): string {
  if (indent.length + words.length + 7 <= WIDTH) return `${indent}/** ${words} */\n`;
  const lines = [''];
  for (const word of words.split(' ')) {
    const line = `${lines[lines.length - 1]} ${word}`;
    if (indent.length + line.length + 2 > WIDTH) lines.push(` ${word}`);
    else lines[lines.length - 1] = line;
  }
  return `${indent}/**\n${lines.map((line) => `${indent} *${line}\n`).join('')}${indent} */\n`;
}
