// What each code said while the tests ran. Kept only where MESSAGES names a folder to write it to; `npm run messages` makes a
// page of it.

import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { line } from '../../src/sentences/line.ts';
import type { PlainSay, Words } from '../../src/sentences/plain.ts';
import { isTable, type Table } from './tables.ts';

const folder = process.env.MESSAGES;
/** What was said by code: one map for all files of a process, which may load this module again. */
const shared = globalThis as { saidByCode?: Map<string, string> };
shared.saidByCode ??= new Map();
const said = shared.saidByCode;

if (folder !== undefined) {
  const sentences = join(import.meta.dirname, '../../src/sentences');
  for (const file of readdirSync(sentences)) {
    // Tables made of others hold copies.
    Object.values(await import(join(sentences, file)))
      .filter(isTable)
      .forEach(wrap);
  }
}

function wrap(table: Table): void {
  for (const [code, sentence] of Object.entries(table)) {
    table[code] = (say) => {
      const words = typeof sentence === 'function' ? sentence(say) : sentence;
      note(code, say, words);
      return words;
    };
  }
}

/** Keeps the shortest line of a code. */
function note(code: string, say: PlainSay, words: Words): void {
  const got = say.has('got') ? { got: say.text('got') } : {};
  const allowed = say.has('allowed') ? { allowed: say.text('allowed') } : {};
  const text = line({ ...got, ...allowed, ...words });
  const before = said.get(code);
  if (before === undefined || isBefore(text, before)) said.set(code, text);
}

/** Shorter, or of one length and first by its letters: the same in every run. */
export function isBefore(one: string, other: string): boolean {
  return one.length === other.length ? one < other : one.length < other.length;
}

/** Writes what was said so far. */
export function writeMessages(): void {
  if (folder === undefined || said.size === 0) return;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${process.pid}.json`), JSON.stringify([...said]));
}
