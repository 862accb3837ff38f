/** The JSON Schemas: what they accept, what an editor shows from them, and that the files of the package are they. */
import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { carJsonSchema, cornerJsonSchema } from '../../src/corner/file-schemas.ts';
import { readCar, readCorner } from '../../src/corner/read-corner.ts';
import { surveyJsonSchema } from '../../src/document/survey-schema.ts';
import { withCoordinates } from '../corner/hardpoints.ts';
import { rockerCorners, strutCorners } from '../support/rocker-corners.ts';
import { expectSame } from '../support/tolerance.ts';
import { carWith, exampleText, frontWith, type Json, roadsterText } from './support.ts';

/** An independent reading of a JSON Schema: zod's own, from the schema alone. */
const accepts = (schema: Json, value: unknown) => z.fromJSONSchema(schema).safeParse(value).success;

/** Each schema within a schema that describes a named field or a coordinate; `root` has the definitions. */
function fieldsOf(referring: Json, path = '', root = referring): [string, Json][] {
  const referred = ({ $ref, ...schema }: Json) =>
    $ref === undefined ? schema : root.definitions[$ref.split('/').pop()];
  const schema = referred(referring);
  const inner: [string, Json][] = [
    ...Object.entries(schema.properties ?? {}).map(([name, field]): [string, Json] => [
      `${path}.${name}`,
      field,
    ]),
    ...(Array.isArray(schema.items) ? schema.items : schema.items === undefined ? [] : [schema.items]).map(
      (field: Json, k: number): [string, Json] => [`${path}[${k}]`, field],
    ),
  ];
  const options = (schema.anyOf ?? schema.oneOf ?? []).flatMap((option: Json) =>
    fieldsOf(option, path, root),
  );
  return [
    ...inner.flatMap(([name, field]) => [
      [name, referred(field)] as [string, Json],
      ...fieldsOf(field, name, root),
    ]),
    ...options,
  ];
}

describe('the JSON Schemas', () => {
  it('accept the examples', () => {
    expectSame(accepts(carJsonSchema(), JSON.parse(exampleText('car.json'))), true);
    expectSame(accepts(carJsonSchema(), JSON.parse(exampleText('car-weighed.json'))), true);
    expectSame(accepts(carJsonSchema(), JSON.parse(roadsterText())), true);
    for (const name of ['front-corner.json', 'pushrod-corner.json', 'strut-corner.json']) {
      expectSame(accepts(cornerJsonSchema(), JSON.parse(exampleText(name))), true);
    }
  });

  it.each<[string, Json]>([
    ['a name that is none', frontWith((front) => (front.colour = 'green'))],
    ['a number as a text', frontWith((front) => (front.lowerArm.inner[0] = '9.25'))],
    ['three coordinates', frontWith((front) => front.lowerArm.inner.push(1))],
    ['a length of nothing', frontWith((front) => (front.limits.damper.extendedLength = 0))],
    ['no front', carWith((car) => delete car.corners.front)],
  ])('refuse %s, as reading does', (_, car) => {
    expectSame(accepts(carJsonSchema(), car), false);
    expect(() => readCar(car)).toThrow('invalid car file');
  });

  it('accept corners of every kind, and points that are uncertain, as reading does', () => {
    const inputs = fc.oneof(
      rockerCorners.map((input) => ({ kind: 'pushrod', ...input })),
      strutCorners.map((input) => ({ kind: 'strut', ...input })),
    );
    const schema = z.fromJSONSchema(cornerJsonSchema());
    fc.assert(
      fc.property(inputs, (input) => {
        const uncertain = withCoordinates(input, (_, value) => ({ value, plusMinus: 1 }));
        for (const corner of [input, uncertain]) {
          expectSame(schema.safeParse(corner).success, true);
          expect(() => readCorner(corner)).not.toThrow();
        }
      }),
      { numRuns: 20 },
    );
  });

  it.each<[string, string, (corner: Json) => unknown]>([
    ['a rod on what is no part', 'pushrod', ({ rod }) => (rod.on = 'wheel')],
    ['a rocker without its pivot', 'pushrod', ({ rocker }) => delete rocker.pivot],
    ['a coilover with a mount beside the rocker', 'pushrod', ({ coilover }) => (coilover.mount = [1, 2])],
    ['a pushrod that calls itself a strut', 'pushrod', (corner) => (corner.kind = 'strut')],
    ['no kind', 'pushrod', (corner) => delete corner.kind],
    ['a strut without its top', 'strut', ({ strut }) => delete strut.topMount],
    ['a strut with an upper arm', 'strut', (corner) => (corner.upperArm = corner.lowerArm)],
    [
      'a coilover on an arm that a strut has not',
      'strut',
      (corner) => (corner.coilover = { on: 'upperArm', mount: [20, 10], chassisMount: [20, 30] }),
    ],
    [
      'a half-width below nothing',
      'strut',
      ({ strut }) => (strut.topMount[0] = { value: 22, plusMinus: -1 }),
    ],
  ])('refuse %s, as reading does', (_, kind, change) => {
    const corner = JSON.parse(exampleText(`${kind}-corner.json`));
    expectSame(accepts(cornerJsonSchema(), corner), true);
    change(corner);
    expectSame(accepts(cornerJsonSchema(), corner), false);
    expect(() => readCorner(corner)).toThrow('invalid corner file');
  });

  it('describe every field, and the unit of every number', () => {
    for (const schema of [carJsonSchema(), cornerJsonSchema()]) {
      const fields = fieldsOf(schema);
      expect(fields.length).toBeGreaterThan(40);
      for (const [path, field] of fields) {
        // Items of lists of texts, and components of a direction, are told by what holds them.
        if (/(notes|Axis)\[\d\]$/.test(path)) continue;
        expect(field.description, path).toMatch(/\.$/);
        if (field.type === 'number') expect(field.description, path).toMatch(/(Unit: \S+|Without unit)/);
      }
    }
  });

  it('are the files of the package; if not: npm run schemas', () => {
    const schemas = { car: carJsonSchema(), corner: cornerJsonSchema(), survey: surveyJsonSchema() };
    for (const [name, schema] of Object.entries(schemas)) {
      expect(JSON.parse(readFileSync(`schemas/${name}.schema.json`, 'utf8'))).toEqual(schema);
    }
  });

  it('leave room for $schema, name and notes', () => {
    const corner = {
      $schema: './corner.schema.json',
      name: 'Front',
      notes: ['a', 'b'],
      ...JSON.parse(exampleText('front-corner.json')),
    };
    expect(readCorner(corner).name).toBe('Front');
    expectSame(accepts(cornerJsonSchema(), corner), true);
  });
});
