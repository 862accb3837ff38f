// Nothing is timed before all have been seen to compute the same.

import type { Sweep } from 'jounce';
import { type Jobs, POSES } from './jobs.ts';
import type { Rival, Rivals } from './rivals.ts';

/** mm, and 1 and 1/mm for ratio and slope. */
const SAME = 1e-9;

/**
 * Holds every rival against each sweep of the library, column by column; returns the largest difference.
 *
 * @throws Error when it is more than `SAME`, and when a row is missing, or a column from the sweep for all.
 */
export function agreement(jobs: Jobs, rivals: Rivals): number {
  const { planegcs, ...handWritten } = rivals;
  let worst = 0;
  for (const [name, rival] of Object.entries({ ...planegcs, ...handWritten })) {
    const met = rival.run();
    if (met !== POSES) throw new Error(`${name} met ${met} rows of ${POSES}`);
    for (const job of ['fromDocument', 'ratios', 'positions', 'everything'] as const) {
      worst = Math.max(
        worst,
        largestDifference(jobs[job](), rival, `${name} and ${job}`, job === 'everything'),
      );
    }
  }
  return worst;
}

function largestDifference(
  { columns }: Sweep,
  { columns: names, out }: Rival,
  who: string,
  whole: boolean,
): number {
  let worst = 0;
  names.forEach((name, k) => {
    const column = columns[name];
    if (column === undefined && !whole) return;
    if (column?.length !== POSES) throw new Error(`${who}: ${column?.length} rows in ${name}, of ${POSES}`);
    for (let i = 0; i < POSES; i++) {
      const apart = Math.abs((column[i] ?? Number.NaN) - out[i * names.length + k]);
      if (!(apart <= SAME)) throw new Error(`${who}: ${name} differs by ${apart} in row ${i}`);
      worst = Math.max(worst, apart);
    }
  });
  return worst;
}
