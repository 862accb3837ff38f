import { type Issue, show, unknownOptions } from '../errors.ts';

/** Fewer draws than this have no 2.5th percentile worth the name. */
const LEAST_DRAWS = 100;

/** What is wrong with the draws and the seed of a Monte Carlo's options. */
export function drawIssues(
  what: string,
  options: { readonly draws?: number; readonly seed?: number },
  known: readonly string[],
  most: number,
): Issue[] {
  const issues = unknownOptions(what, options, known);
  const { draws, seed } = options;
  if (draws !== undefined && !(Number.isInteger(draws) && draws >= LEAST_DRAWS && draws <= most)) {
    issues.push({
      path: 'draws',
      problem: 'not a number of draws',
      got: show(draws),
      allowed: `a whole number, ${LEAST_DRAWS} to ${most}`,
    });
  }
  if (seed !== undefined && !Number.isSafeInteger(seed)) {
    issues.push({ path: 'seed', problem: 'not a seed', got: show(seed), allowed: 'a whole number' });
  }
  return issues;
}
