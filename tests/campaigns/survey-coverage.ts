// How often the 95 % intervals of surveys hold the truth whose stated errors are too small: a line for each number of redundant
// readings and each factor, with the coordinates that are held least and most often. It fails where
// the mean of the coordinates lies beyond 93 to 98 %; single ones that few tapes fix, at a flat angle, may lie a little below.
//
//   node benchmarks/start.mjs tests/campaigns/survey-coverage.ts           2000 surveys each, minutes
//   node benchmarks/start.mjs tests/campaigns/survey-coverage.ts 500 3     so many, with another seed

import { coverage, expectedCoverage } from '../survey/coverage.ts';

const draws = Number(process.argv[2] ?? 2000);
const seed = Number(process.argv[3] ?? 1);
/** Student's t, 97.5 %: the usual table, from memory. */
const STUDENT = { 4: 2.776, 9: 2.262 } as const;
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

for (const redundant of [4, 9] as const) {
  for (const factor of [2, 2.5, 3]) {
    const found = Object.entries(coverage(redundant, factor, draws, seed)).sort(([, a], [, b]) => a - b);
    const [[least, low], [most, high]] = [found[0], found[found.length - 1]];
    const mean = found.reduce((sum, [, share]) => sum + share / found.length, 0);
    const expected = expectedCoverage(redundant, factor, STUDENT[redundant]);
    console.log(
      `${redundant} redundant, errors ${factor} times: mean ${percent(mean)} (expected ${percent(expected)}), ${least} ${percent(low)} to ${most} ${percent(high)}`,
    );
    if (mean < 0.93 || mean > 0.98) process.exitCode = 1;
  }
}
