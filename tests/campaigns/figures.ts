// What campaigns have found so far, in figures.json: the next run goes on with other seeds.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

/** The figures of a campaign over all its parts. */
export interface Figures {
  /** Parts that have been run: the number of the next is its seed. */
  parts: number;
  cases: number;
  /** ms of the longest case. */
  slowest: number;
  /** Bytes: the largest growth of memory within a part, after collection of garbage. */
  growth: number;
  /** The date of the last part, and its version of Node. */
  date: string;
  node: string;
  failures: { seed: number; said: string }[];
}

const FILE = 'tests/campaigns/figures.json';

/** All figures there are, by campaign. */
export function readFigures(): Record<string, Figures> {
  return existsSync(FILE) ? JSON.parse(readFileSync(FILE, 'utf8')) : {};
}

/** The figures of a campaign of which nothing has been run. */
export function noFigures(): Figures {
  return { parts: 0, cases: 0, slowest: 0, growth: 0, date: '', node: '', failures: [] };
}

/** Keeps the figures of a campaign. */
export function writeFigures(name: string, figures: Figures): void {
  const all = readFigures();
  all[name] = {
    ...figures,
    slowest: Math.round(figures.slowest),
    date: new Date().toISOString().slice(0, 10),
    node: process.version,
  };
  const sorted = Object.fromEntries(Object.entries(all).sort(([a], [b]) => (a < b ? -1 : 1)));
  writeFileSync(FILE, `${JSON.stringify(sorted, null, 2)}\n`);
}
