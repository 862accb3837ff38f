// Interleaved timing. A round times a batch of runs of each task, and the next round takes them in the opposite order: what
// slows the machine for a while slows all. Ratios are taken round by round; of everything the median is given, with the
// quartiles as its spread.

/** Something to be timed; what it returns is kept from being optimised away. */
export type Task = () => unknown;

/** Microseconds a run, one entry a round: of our task, and of the one that it is compared with. */
export interface Timing {
  readonly ours: Float64Array;
  readonly rival: Float64Array;
}

/** What tells the time: the wall, or what the process has worked, collecting garbage included. µs. */
export type Clock = 'wall' | 'cpu';

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

/** Times one task of ours once, and each of its rivals, in turns. */
export function interleave(
  ours: Task,
  rivals: readonly Task[],
  rounds: number,
  clock: Clock = 'wall',
): Timing[] {
  const tasks = [ours, ...rivals];
  const batches = tasks.map((task) => batchOf(task, clock));
  const times = tasks.map(() => new Float64Array(rounds));
  for (let round = -IDLE_ROUNDS; round < rounds; round++) {
    for (let k = 0; k < tasks.length; k++) {
      const turn = round % 2 === 0 ? k : tasks.length - 1 - k;
      const taken = time(tasks[turn], batches[turn], clock);
      if (round >= 0) times[turn][round] = taken;
    }
  }
  kept.value = undefined;
  const [own, ...others] = times;
  return others.map((rival) => ({ ours: own, rival }));
}

/** Batches that are compared with as many before, and the share by which the best is to be better for a task to be cold. */
const LOOK_BACK = 8;
const COLD = 0.02;
/** ms after which a task is taken to be as warm as it gets. */
const LONG_ENOUGH = 2000;

/** Runs a task for so many ms, and on until its own times tell that the engine has compiled it for good. */
export function warmUp(task: Task, ms: number): void {
  const start = performance.now();
  const batch = Math.max(1, batchOf(task, 'wall') >> 1);
  const best = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  do {
    best.shift();
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < LOOK_BACK; k++) least = Math.min(least, time(task, batch, 'wall'));
    best.push(least);
  } while (
    performance.now() - start < ms ||
    (best[1] < (1 - COLD) * best[0] && performance.now() - start < LONG_ENOUGH)
  );
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
function batchOf(task: Task, clock: Clock): number {
  let runs = 1;
  for (;;) {
    const batch = time(task, runs, clock) * runs;
    if (batch >= BATCH / 2) return Math.max(1, Math.ceil((runs * BATCH) / batch));
    runs *= 2;
  }
}

/** µs a run. */
function time(task: Task, runs: number, clock: Clock): number {
  const start = now(clock);
  for (let run = 0; run < runs; run++) kept.value = task();
  return (now(clock) - start) / runs;
}

function now(clock: Clock): number {
  if (clock === 'wall') return performance.now() * 1000;
  const { user, system } = process.cpuUsage();
  return user + system;
}
