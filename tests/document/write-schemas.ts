// Writes the JSON Schemas beside the example files, for editors: npm run schemas
import { writeFileSync } from 'node:fs';
import { carJsonSchema, cornerJsonSchema } from '../../src/document/file-schema.ts';

for (const [name, schema] of Object.entries({ car: carJsonSchema(), corner: cornerJsonSchema() })) {
  writeFileSync(`docs/examples/${name}.schema.json`, JSON.stringify(schema, null, 2));
}
