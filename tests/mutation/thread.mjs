// A thread that runs tests, and is stopped and begun anew where a fault keeps a test from ending.
import { Worker } from 'node:worker_threads';

/** Milliseconds between two looks whether a test has passed its time. */
const LOOK_EVERY = 250;

export class Thread {
  /** @param {string} bundle */
  constructor(bundle) {
    this.bundle = bundle;
    this.deadline = new SharedArrayBuffer(8);
    this.until = new Float64Array(this.deadline);
    /** @type {Worker | null} */
    this.worker = null;
    /** @type {(answer: any) => void} */
    this.answered = () => {};
  }

  /** Sends a task and waits for its answer; one that does not end is answered as endless. @param {object} task */
  async ask(task) {
    const worker = await this.begun();
    return new Promise((answered) => {
      const timer = setInterval(() => {
        if (Date.now() > this.until[0]) void worker.terminate();
      }, LOOK_EVERY);
      this.answered = (/** @type {object} */ answer) => {
        clearInterval(timer);
        answered(answer);
      };
      worker.postMessage(task);
    });
  }

  async begun() {
    if (this.worker !== null) return this.worker;
    this.until[0] = Number.POSITIVE_INFINITY;
    const worker = new Worker(new URL('worker.mjs', import.meta.url), {
      workerData: { bundle: this.bundle, deadline: this.deadline },
      resourceLimits: { maxOldGenerationSizeMb: 2500 },
    });
    const ready = new Promise((begun) => {
      this.answered = begun;
    });
    worker.on('message', (answer) => this.answered(answer));
    // One that runs out of memory does not end either.
    worker.on('error', (error) => {
      if (!('code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY')) console.log(String(error.stack));
    });
    worker.on('exit', () => {
      this.worker = null;
      this.answered({ status: 'endless' });
    });
    if (!(/** @type {{ ready?: boolean }} */ (await ready).ready)) throw new Error('the tests do not load');
    this.worker = worker;
    return worker;
  }

  async end() {
    await this.worker?.terminate();
  }
}
