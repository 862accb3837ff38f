// Writes what is made from the schemas: the JSON Schemas that the package carries, in one line each, and the types of inputs: npm run schemas
import { writeFileSync } from 'node:fs';
import { carJsonSchema, cornerJsonSchema } from '../../src/corner/file-schemas.ts';
import { surveyJsonSchema } from '../../src/document/survey-schema.ts';
import { inputTypes } from './input-types.ts';

const schemas = { car: carJsonSchema(), corner: cornerJsonSchema(), survey: surveyJsonSchema() };
for (const [name, schema] of Object.entries(schemas)) {
  writeFileSync(`schemas/${name}.schema.json`, `${JSON.stringify(schema)}\n`);
}
writeFileSync('src/document/inputs.ts', inputTypes());
