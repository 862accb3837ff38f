/** fast-check as its user imported it, whole (`* as fc`) or by its default: this library never imports it itself. */
export type FastCheck = Omit<typeof import('fast-check'), 'default'>;

export type { Arbitrary } from 'fast-check';
