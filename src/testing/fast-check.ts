import { fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/testing.ts';

/** fast-check as its user imported it, whole (`* as fc`) or by its default: this library never imports it itself. */
export type FastCheck = Omit<typeof import('fast-check'), 'default'>;

export type { Arbitrary } from 'fast-check';

/** @throws InputError for what is not fast-check. */
export function checkFastCheck(fc: unknown): asserts fc is FastCheck {
  const { record, integer } = { ...(fc as Partial<FastCheck> | null | undefined) };
  if (typeof record === 'function' && typeof integer === 'function') return;
  refuse('arbitrary', [fault('notFastCheck', 'fc', { got: show(fc) })]);
}
