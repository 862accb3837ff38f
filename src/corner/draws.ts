import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';

/** Fewer draws than this have no 2.5th percentile worth the name. */
const LEAST_DRAWS = 100;
/** Of sweeps. */
export const MOST_DRAWS = 10_000;

/** What is wrong with the draws and the seed of a Monte Carlo's options. */
export function drawFaults(
  options: { readonly draws?: number; readonly seed?: number },
  known: readonly string[],
  most: number,
): Diagnostic[] {
  const faults = unknownOptions(options, known);
  const { draws, seed } = options ?? {};
  if (draws !== undefined && !(Number.isInteger(draws) && draws >= LEAST_DRAWS && draws <= most)) {
    faults.push(fault('notADrawCount', 'draws', { got: show(draws), min: LEAST_DRAWS, max: most }));
  }
  if (seed !== undefined && !Number.isSafeInteger(seed)) {
    faults.push(fault('notASeed', 'seed', { got: show(seed) }));
  }
  return faults;
}
