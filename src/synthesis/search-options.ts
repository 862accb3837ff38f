import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { isRecord } from '../linkage/joints.ts';
import type { SearchProgress } from '../numerics/multistart.ts';

/** How a search is made, and how it is followed. */
export interface SearchOptions {
  /** Number of searches, each from another start, the first from the drawing; default 6. */
  readonly starts?: number;
  /** Seed of the random starts: a whole number, default 1. */
  readonly seed?: number;
  /** Ends the search once `aborted` is true: read before each search and each trial. */
  readonly signal?: { readonly aborted: boolean };
  /** Called at the start of each search, and from time to time within it. */
  readonly progress?: (progress: SearchProgress) => void;
}

export const SEARCH_OPTIONS = ['starts', 'seed', 'signal', 'progress'] as const;

const MOST_STARTS = 1000;

/** The options of a search with their defaults; what is wrong goes to `faults`. */
export function checkSearch(
  { starts = 6, seed = 1, signal, progress }: SearchOptions,
  faults: Diagnostic[],
): { readonly starts: number; readonly seed: number } {
  if (!(Number.isInteger(starts) && starts >= 1 && starts <= MOST_STARTS)) {
    faults.push(fault('notWhole', 'starts', { got: show(starts), min: 1, max: MOST_STARTS }));
  }
  if (!Number.isSafeInteger(seed)) faults.push(fault('notASeed', 'seed', { got: show(seed) }));
  if (signal !== undefined && !(isRecord(signal) && 'aborted' in signal)) {
    faults.push(fault('notASignal', 'signal', { got: show(signal) }));
  }
  if (progress !== undefined && typeof progress !== 'function') {
    faults.push(fault('notAFunction', 'progress', { got: show(progress) }));
  }
  return { starts, seed };
}
