// @ts-check
// Many cars on as many threads as there are cores, and the same on one: npm run build && node docs/examples/scaling.mjs, or
// `scaling.mjs 5` for five rounds of both, or `scaling.mjs jobs` to print the jobs as JSON lines. The worker is scaling-worker.mjs;
// docs/scaling.md tells about it.
//
// Two questions about car.json. Where may the front coilover's mounts be welded, so that the springs and the damper at hand will do
// whatever the car comes to weigh? And how far may the figures of the car as drawn be off?
import { setMaxListeners } from 'node:events';
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import { Tinypool } from 'tinypool';
import answers from './scaling-worker.mjs';

/**
 * @typedef {import('./scaling-worker.mjs').Job} Job
 * @typedef {import('./scaling-worker.mjs').Answer} Answer
 * @typedef {{ outward: number, lean: number, total: number }} WhatIf inches, degrees, lb
 * @typedef {{ value: number, standardError: number }} Estimate
 */

/** The mount's distance from the centreline, inches; the coilover's lean from vertical, degrees; the car's mass, lb. */
const GRID = {
  outward: [18.5, 19, 19.5, 20, 20.5],
  lean: [10, 17.5, 25, 32.5, 40],
  total: [1360, 1420, 1480],
};
/** Cars in a part: some 0.2 s of work. */
const CARS = 5;
/** The draws of the car as drawn: parts, each a seed of its own, and draws in each. */
const DRAWN = { parts: 8, draws: 500 };

/**
 * A grid of what-ifs, each a whole car: the coilover keeps its length and the mount its height.
 * @param {any} car
 * @param {{ outward: number[], lean: number[], total: number[] }} grid
 * @returns {Job[]}
 */
export function whatIfs(car, { outward, lean, total }) {
  const points = outward.flatMap((y) => lean.flatMap((by) => total.map((mass) => [y, by, mass])));
  return points.map(([y, by, mass]) => {
    const changed = structuredClone(car);
    const { coilover } = changed.corners.front;
    const [from, to] = [coilover.mount, coilover.chassisMount];
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const angle = (by * Math.PI) / 180;
    coilover.mount = [y, from[1]];
    coilover.chassisMount = [y - length * Math.sin(angle), from[1] + length * Math.cos(angle)];
    changed.masses.estimate.total.value = mass;
    return { id: JSON.stringify({ outward: y, lean: by, total: mass }), task: 'size', car: changed };
  });
}

/**
 * Draws of one car in parts. The seeds belong to the parts, not to the threads: whoever answers a part, it is the same.
 * @param {unknown} car
 * @param {{ parts: number, draws: number }} of
 * @returns {Job[]}
 */
export function drawings(car, { parts, draws }) {
  return Array.from({ length: parts }, (_, n) => {
    return { id: `seed ${n + 1}`, task: 'draw', car, draws, seed: n + 1 };
  });
}

/**
 * @template T
 * @param {readonly T[]} all
 * @param {number} size
 * @returns {T[][]}
 */
export function inParts(all, size) {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, n) => all.slice(n * size, (n + 1) * size));
}

/**
 * The answers to all parts, in the order of the jobs, whichever part is done first.
 * @param {readonly Job[][]} parts
 * @param {Tinypool} pool
 * @param {AbortSignal | null} [signal] ends it all
 * @returns {Promise<Answer[]>}
 */
export async function spread(parts, pool, signal = null) {
  if (signal !== null) setMaxListeners(0, signal);
  const answered = await Promise.all(parts.map((part) => pool.run(part, { signal })));
  return answered.flat();
}

/**
 * A percentile of all parts: the mean of theirs, and its standard error by how they differ. The sum runs from the first part to the
 * last, so that it comes out alike to the last bit.
 * @param {readonly number[]} values
 * @returns {Estimate}
 */
export function merged(values) {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { value: mean, standardError: Math.sqrt(squares / (values.length - 1) / values.length) };
}

/**
 * The places without a conflict at any mass, with the frequency farthest from the target; the best first.
 * @param {readonly Answer[]} sized
 * @param {number} target Hz
 */
function places(sized, target) {
  /** @type {Map<string, { misses: number[], springs: Set<string | null> }>} */
  const found = new Map();
  for (const one of sized) {
    const { outward, lean } = /** @type {WhatIf} */ (JSON.parse(one.id));
    const name = `mount at ${outward} in, leaning ${lean} degrees`;
    const place = found.get(name) ?? { misses: [], springs: new Set() };
    found.set(name, place);
    const fits =
      'result' in one && 'springs' in one.result && one.result.findings.length === 0 ? one.result : null;
    const frequency = fits?.figures['front.frequency'] ?? null;
    place.misses.push(frequency === null ? Number.POSITIVE_INFINITY : Math.abs(frequency - target));
    if (fits !== null) place.springs.add(fits.springs[0]);
  }
  return [...found]
    .map(([name, { misses, springs }]) => ({ name, miss: Math.max(...misses), springs: [...springs] }))
    .filter(({ miss }) => Number.isFinite(miss))
    .sort((a, b) => a.miss - b.miss);
}

/**
 * The interval of a figure over all draws.
 * @param {readonly Answer[]} drawn
 * @param {string} figure
 */
function interval(drawn, figure) {
  const each = drawn.flatMap((one) => {
    const found = 'result' in one && 'draws' in one.result ? one.result.figures[figure] : null;
    return found === null ? [] : [found];
  });
  return { low: merged(each.map(({ p2_5 }) => p2_5)), high: merged(each.map(({ p97_5 }) => p97_5)) };
}

/** @param {() => unknown} work */
async function secondsOf(work) {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
}

/** @param {number} rounds */
async function run(rounds) {
  const cars = whatIfs(car, GRID);
  const draws = drawings(car, DRAWN);
  // The longest parts first: no thread then begins one when the others are done.
  const parts = [...inParts(draws, 1), ...inParts(cars, CARS)];
  const threads = availableParallelism();
  const pool = new Tinypool({
    filename: new URL('./scaling-worker.mjs', import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
  });
  console.log(`${cars.length} cars and ${DRAWN.parts * DRAWN.draws} draws of one, in ${parts.length} parts`);

  /** @type {Answer[]} */
  let alone = [];
  /** @type {Answer[]} */
  let together = [];
  const onOne = () => secondsOf(() => (alone = parts.flatMap(answers)));
  const onAll = () => secondsOf(async () => (together = await spread(parts, pool)));
  for (let round = 1; round <= rounds; round++) {
    const all = round % 2 === 1 ? await onAll() : null;
    const one = await onOne();
    const took = all ?? (await onAll());
    const [a, b] = [one, took].map((seconds) => seconds.toFixed(2));
    console.log(`one thread ${a} s, ${threads} threads ${b} s: ${(one / took).toFixed(2)} times as fast`);
  }
  await pool.destroy();
  console.log(`The same to the last bit: ${isDeepStrictEqual(alone, together)}`);

  console.log('\nWhere the front coilover may stand, the frequency farthest from 1.6 Hz and the springs:');
  for (const { name, miss, springs } of places(together.slice(draws.length), 1.6)) {
    console.log(`  ${name}: ${miss.toFixed(3)} Hz off, ${springs.join(' or ')}`);
  }
  console.log('\nThe required front spring, N/mm, 95 % interval, and how well its ends are known:');
  const { low, high } = interval(together.slice(0, draws.length), 'front.requiredSpringRate');
  for (const { value, standardError } of [low, high]) {
    console.log(`  ${value.toFixed(2)}, standard error ${standardError.toFixed(2)}`);
  }
}

const car = JSON.parse(readFileSync(new URL('car.json', import.meta.url), 'utf8'));
const [, program, given = '1'] = process.argv;
if (program === fileURLToPath(import.meta.url)) {
  if (given === 'jobs') for (const job of whatIfs(car, GRID)) console.log(JSON.stringify(job));
  else await run(Number(given));
}
