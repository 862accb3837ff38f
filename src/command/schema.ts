// The JSON schema of a file.

import { carJsonSchema, cornerJsonSchema, surveyJsonSchema } from '../index.ts';
import { type Given, UsageFault } from './job.ts';
import { print } from './terminal.ts';

const SCHEMAS = { car: carJsonSchema, corner: cornerJsonSchema, survey: surveyJsonSchema };

export function run({ operands: [what] }: Given): number {
  if (!Object.hasOwn(SCHEMAS, what)) {
    throw new UsageFault(`There is a schema of ${Object.keys(SCHEMAS).join(', ')}, not of "${what}".`);
  }
  print(JSON.stringify(SCHEMAS[what as keyof typeof SCHEMAS](), null, 2));
  return 0;
}
