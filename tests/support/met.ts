// What comparisons met: for each test how many there were, and the one that came nearest to its tolerance. Kept only where
// MET names a folder to write it to; `npm run validation` makes a table of it.

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The comparisons of one test. */
export interface Met {
  readonly file: string;
  readonly test: string;
  checks: number;
  /** Error and tolerance of the comparison that came nearest to its tolerance; without any error, the tightest one. */
  off: number;
  within: number;
}

const folder = process.env.MET;
const all: Met[] = [];
let current: Met | null = null;

/** Comparisons from here on belong to a test. */
export function beginTest(file: string, test: string): void {
  if (folder === undefined) return;
  current = { file, test, checks: 0, off: 0, within: 0 };
  all.push(current);
}

/** Notes a comparison; of what must be equal, or a verdict, both are 0. */
export function noteMet(off: number, within: number): void {
  if (current === null) return;
  current.checks++;
  if (isNearer({ off, within }, current)) Object.assign(current, { off, within });
}

type Comparison = Pick<Met, 'off' | 'within'>;

/** Whether a comparison came nearer to its tolerance than another, or, where neither has an error, has the tighter one. */
export function isNearer(one: Comparison, other: Comparison): boolean {
  const [a, b] = [one, other].map(({ off, within }) => (off === 0 ? 0 : off / within));
  if (a !== b) return a > b;
  return a === 0 && one.within > 0 && (other.within === 0 || one.within < other.within);
}

/** Writes what a file's tests met. */
export function writeMet(): void {
  if (folder === undefined || all.length === 0) return;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${all[0].file.replaceAll('/', '+')}.json`), JSON.stringify(all));
  // Files may share this module.
  all.length = 0;
  current = null;
}
