import { fault, show } from '../diagnostic.ts';
import { refusal } from '../errors/file.ts';
import { valueAt } from './parse.ts';

/** Version of the format of files. What a later one changes goes into `migrateFile`. */
export const FORMAT_VERSION = 1;

/**
 * Refuses a file of a later format by that alone: what else is unknown in it may be right there.
 *
 * @throws InputError
 */
export function refuseNewer(value: unknown, what: string): void {
  const version = valueAt(value, ['formatVersion']);
  if (typeof version !== 'number' || !(version > FORMAT_VERSION)) return;
  const newer = fault('newerFormat', 'formatVersion', { got: show(version), allowed: FORMAT_VERSION });
  throw refusal(what, [newer], 'metric');
}
