// Counts and times the cases of a campaign's laws, and measures the memory in use early and late. CAMPAIGN names the folder that it writes to.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { configureGlobal, readConfigureGlobal } from 'fast-check';
import { afterAll } from 'vitest';

declare const gc: () => void;

const { numRuns = 100 } = readConfigureGlobal();
/** Cases of a law after which memory is first measured: all code is warm by then. */
const EARLY = Math.ceil(numRuns / 5);

const figures = { cases: 0, slowest: 0, growth: 0 };
let [inLaw, begun, early] = [0, 0, 0];

const inUse = () => {
  gc();
  return process.memoryUsage().heapUsed;
};

configureGlobal({
  ...readConfigureGlobal(),
  endOnFailure: true,
  beforeEach: () => {
    figures.cases++;
    inLaw++;
    if (inLaw === EARLY) early = inUse();
    begun = performance.now();
  },
  afterEach: () => {
    figures.slowest = Math.max(figures.slowest, performance.now() - begun);
    if (inLaw !== numRuns) return;
    figures.growth = Math.max(figures.growth, inUse() - early);
    inLaw = 0;
  },
});

afterAll(() => {
  const { CAMPAIGN } = process.env;
  if (CAMPAIGN === undefined) throw new Error('CAMPAIGN names no folder');
  writeFileSync(join(CAMPAIGN, `${process.pid}.json`), JSON.stringify(figures));
});
