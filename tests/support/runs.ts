import { readConfigureGlobal } from 'fast-check';

/** So many runs of a slow property in place of the usual 100, and as many times more where FC_RUNS asks for more. */
export function few(runs: number): { numRuns: number } {
  return { numRuns: Math.ceil((runs * (readConfigureGlobal().numRuns ?? 100)) / 100) };
}
