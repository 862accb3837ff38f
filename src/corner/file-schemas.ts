import { fileSchemas, jsonSchema } from '../document/file-schema.ts';
import { KINDS } from './kinds.ts';

/** Schemas of files with corners of all kinds. */
export const FILES = fileSchemas(KINDS);

/** JSON Schema (draft 7) of a corner file: name it as `"$schema"` in the file, and an editor explains each field. */
export function cornerJsonSchema(): Record<string, unknown> {
  return jsonSchema(FILES.anyCorner());
}

/** JSON Schema (draft 7) of a car file: name it as `"$schema"` in the file, and an editor explains each field. */
export function carJsonSchema(): Record<string, unknown> {
  return jsonSchema(FILES.anyCar());
}
