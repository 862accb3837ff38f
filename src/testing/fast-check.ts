/** fast-check as its user imported it, `import * as fc from 'fast-check'`: this library never imports it itself. */
export type FastCheck = typeof import('fast-check');

export type { Arbitrary } from 'fast-check';
