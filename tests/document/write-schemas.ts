// Writes the JSON Schemas that the package carries, for editors: npm run schemas
import { writeFileSync } from 'node:fs';
import { carJsonSchema, cornerJsonSchema } from '../../src/document/file-schema.ts';

for (const [name, schema] of Object.entries({ car: carJsonSchema(), corner: cornerJsonSchema() })) {
  writeFileSync(`schemas/${name}.schema.json`, JSON.stringify(schema, null, 2));
}
