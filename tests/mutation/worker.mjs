// Runs the tests of a bundle against one fault after another. What a fault leaves behind must not judge the next one: a test that
// fails has to pass again without the fault, else the bundle is loaded anew and the fault tried once more.
import { parentPort, workerData } from 'node:worker_threads';

/** Turns of a switch within one test, as a multiple of those without the fault: beyond, the code is taken not to end. */
const MOST_TURNS = 100;

/** @typedef {import('./vitest-in-process.ts').Test} Test */

const { bundle, deadline } = workerData;
/** Until when the test that runs has to end: if not, this thread is stopped. */
const until = new Float64Array(deadline);
const port = /** @type {import('node:worker_threads').MessagePort} */ (parentPort);

let loads = 0;
/** @type {Map<string, Test>} */
let tests = new Map();
/** @type {{ counts: Uint32Array, setFault(id: number, atMost: number): void, isEndless(): boolean, setCounting(on: boolean): void }} */
let faults;
/** Faults that were met while the code was loaded. @type {[id: number, turns: number][]} */
let atLoad = [];
const metNow = () => [...faults.counts.entries()].filter(([, turns]) => turns > 0);
/** The number of the last fault that each test caught. @type {Map<string, number>} */
const caught = new Map();
let kills = 0;

async function load() {
  const loaded = await import(`${bundle}?${++loads}`);
  faults = loaded;
  atLoad = metNow();
  faults.setCounting(false);
  tests = new Map(loaded.all.map((/** @type {Test} */ test) => [test.id, test]));
}

/** Why a test fails; null if it passes. */
async function failureOf(/** @type {Test} */ test) {
  try {
    await test.run();
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** For each test how long it takes, whether it fails, and how often it meets which faults. */
async function measured() {
  const found = [];
  for (const test of tests.values()) {
    faults.setCounting(true);
    const start = performance.now();
    const failure = await failureOf(test);
    const cost = performance.now() - start;
    faults.setCounting(false);
    found.push({ id: test.id, cost, failure, met: metNow() });
  }
  return found;
}

/**
 * Runs tests until one fails, or until they have taken long enough.
 * @param {number} id
 * @param {{ id: string, cost: number, turns: number }[]} judges
 * @param {number} budget
 */
async function trial(id, judges, budget) {
  const last = (/** @type {string} */ test) => caught.get(test) ?? 0;
  const order = [...judges].sort((a, b) => last(b.id) - last(a.id) || a.cost - b.cost);
  const start = performance.now();
  for (const { id: name, cost, turns } of order) {
    if (performance.now() - start > budget) return { status: 'survived', whole: false };
    const test = tests.get(name);
    if (test === undefined) throw new Error(`no test ${name}`);
    faults.setFault(id, MOST_TURNS * (turns + 10));
    until[0] = Date.now() + 3000 + 20 * cost;
    const failure = await failureOf(test);
    const isEndless = faults.isEndless();
    faults.setFault(-1, Number.POSITIVE_INFINITY);
    until[0] = Number.POSITIVE_INFINITY;
    if (isEndless) return { status: 'endless', test };
    if (failure === null) continue;
    caught.set(name, ++kills);
    return { status: 'killed', test };
  }
  return { status: 'survived', whole: true };
}

until[0] = Number.POSITIVE_INFINITY;
await load();
port.on('message', async ({ task, id, judges, budget }) => {
  if (task === 'measure') {
    port.postMessage({ measured: await measured(), atLoad: atLoad.map(([fault]) => fault) });
    return;
  }
  let result = await trial(id, judges, budget);
  if (result.test !== undefined && (await failureOf(result.test)) !== null) {
    await load();
    result = await trial(id, judges, budget);
    if (result.test !== undefined && (await failureOf(result.test)) !== null) await load();
  }
  port.postMessage({ id, status: result.status, whole: result.whole ?? true });
});
port.postMessage({ ready: true });
