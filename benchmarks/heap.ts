// What a task leaves behind on the heap: bytes in use after a collection, before and after many runs; buffers of
// typed arrays, which lie beside the heap, are counted. A task that is known to leave nothing shows the noise.

import { type Quartiles, quartiles, type Task } from './measure.ts';

const BATCHES = 7;

export interface Growth {
  /** Bytes, over one batch of runs. */
  readonly bytes: Quartiles;
  /** Bytes, by as many runs of the control. */
  readonly noise: Quartiles;
}

/** Bytes in use after a collection, on the heap and beside it. */
export function bytesInUse(): number {
  const { gc } = globalThis;
  if (gc === undefined) throw new Error('missing --expose-gc');
  // The second collection takes what finalisers of the first let go.
  gc();
  gc();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

/** Growth over so many runs, of several batches, after one that is not counted; the control leaves nothing. */
export function heapGrowth(task: Task, control: Task, runs: number): Growth {
  const growth = (what: Task): number => {
    const before = bytesInUse();
    for (let run = 0; run < runs; run++) what();
    return bytesInUse() - before;
  };
  const bytes = new Float64Array(BATCHES);
  const noise = new Float64Array(BATCHES);
  growth(control);
  growth(task);
  for (let batch = 0; batch < BATCHES; batch++) {
    noise[batch] = growth(control);
    bytes[batch] = growth(task);
  }
  return { bytes: quartiles(bytes), noise: quartiles(noise) };
}
