// Interleaved timing. A round times a batch of runs of one task, then of the other, and the next round takes them
// in the other order: what slows the machine for a while slows both. The ratio is taken round by round; of
// everything the median is given, with the quartiles as its spread.

/** Something to be timed; what it returns is kept from being optimised away. */
export type Task = () => unknown;

/** Microseconds a run, one entry a round. */
export interface Timing {
  readonly ours: Float64Array;
  readonly rival: Float64Array;
}

export interface Quartiles {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/** µs that a batch takes at least; one run, when that takes longer. */
const BATCH = 5000;
/** Rounds run at first, and forgotten. */
const IDLE_ROUNDS = 4;

const kept: { value?: unknown } = {};

/** Times two tasks in alternation. */
export function interleave(ours: Task, rival: Task, rounds: number): Timing {
  const timing = { ours: new Float64Array(rounds), rival: new Float64Array(rounds) };
  const oursBatch = batchOf(ours);
  const rivalBatch = batchOf(rival);
  for (let round = -IDLE_ROUNDS; round < rounds; round++) {
    const rivalFirst = round % 2 !== 0;
    const before = rivalFirst ? time(rival, rivalBatch) : 0;
    const own = time(ours, oursBatch);
    const other = rivalFirst ? before : time(rival, rivalBatch);
    if (round < 0) continue;
    timing.ours[round] = own;
    timing.rival[round] = other;
  }
  kept.value = undefined;
  return timing;
}

/** Runs a task for so many ms: enough for the engine to have compiled it for good. */
export function warmUp(task: Task, ms: number): void {
  const end = performance.now() + ms;
  while (performance.now() < end) kept.value = task();
  kept.value = undefined;
}

/** Median and quartiles, between neighbours where they fall between. */
export function quartiles(values: ArrayLike<number>): Quartiles {
  const sorted = Float64Array.from(values).sort();
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const below = Math.floor(place);
    const above = Math.ceil(place);
    return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
  };
  return { low: at(0.25), median: at(0.5), high: at(0.75) };
}

/** How many runs make a batch. */
function batchOf(task: Task): number {
  let runs = 1;
  for (;;) {
    const batch = time(task, runs) * runs;
    if (batch >= BATCH / 2) return Math.max(1, Math.ceil((runs * BATCH) / batch));
    runs *= 2;
  }
}

/** µs a run. */
function time(task: Task, runs: number): number {
  const start = performance.now();
  for (let run = 0; run < runs; run++) kept.value = task();
  return ((performance.now() - start) * 1000) / runs;
}
