import { cut } from '../diagnostic.ts';
import type { Words } from './plain.ts';

/** Signs of a path that a message gives: no name of ours makes it nearly as long. */
const LONGEST_PATH = 160;

/** Words as a line: `path: problem, got X (allowed: Y); advice`; of a check `(usual: Y)`. */
export function line(words: Words, path = ''): string {
  const place = path === '' ? '' : `${cut(path, LONGEST_PATH)}: `;
  const got = words.got === undefined ? '' : `, got ${words.got}`;
  const allowed = words.allowed === undefined ? '' : ` (allowed: ${words.allowed})`;
  const usual = words.usual === undefined ? '' : ` (usual: ${words.usual})`;
  const advice = words.advice === undefined ? '' : `; ${words.advice}`;
  return `${place}${words.problem}${got}${allowed}${usual}${advice}`;
}
