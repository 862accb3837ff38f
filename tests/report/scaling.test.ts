// The example of docs/scaling.md: its jobs on two threads and as JSON lines, held against the same jobs on this thread.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { Tinypool } from 'tinypool';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawings, inParts, merged, spread, whatIfs } from '../../docs/examples/scaling.mjs';
import type { Job } from '../../docs/examples/scaling-worker.mjs';
import answers from '../../docs/examples/scaling-worker.mjs';
import { uniform } from '../../src/numerics/random.ts';

const root = join(import.meta.dirname, '../..');
const out = join(root, 'out/scaling');
const example = (name: string) => JSON.parse(readFileSync(join(root, 'docs/examples', name), 'utf8'));
const car = example('car.json');
const corner = example('front-corner.json');

const wrong: Job = { id: 'wrong', task: 'sweep', corner: { ...corner, upperArm: {} }, travel: {} };
const sweeps = Array.from({ length: 9 }, (_, n): Job => {
  return { id: `to ${20 + n}`, task: 'sweep', corner, travel: { bump: 20 + n, droop: 30, step: 5 } };
});
const jobs: Job[] = [
  ...drawings(car, { parts: 2, draws: 100 }),
  ...whatIfs(car, { outward: [19.5], lean: [25], total: [1420] }),
  wrong,
  ...sweeps,
];

let pool: Tinypool;
beforeAll(async () => {
  // The worker as users have it, on the source in place of the build, which threads of their own can't read.
  await build({
    entryPoints: ['scaling-worker.mjs', 'scaling-lines.mjs'].map((name) => join(root, 'docs/examples', name)),
    bundle: true,
    format: 'esm',
    platform: 'node',
    outExtension: { '.js': '.mjs' },
    alias: { jounce: join(root, 'src/index.ts') },
    outdir: out,
    logLevel: 'silent',
  });
  const filename = pathToFileURL(join(out, 'scaling-worker.mjs')).href;
  pool = new Tinypool({ filename, minThreads: 2, maxThreads: 2 });
});
afterAll(() => pool.destroy());

describe('jobs spread over threads', () => {
  it('are answered in their order, to the last bit as on one thread, however they are cut up', async () => {
    const alone = answers(jobs);
    expect(await spread(inParts(jobs, 1), pool)).toStrictEqual(alone);
    // The quick ones in longer parts as well, the last of them short.
    const quick = jobs.filter(({ task }) => task === 'sweep');
    expect(await spread(inParts(quick, 4), pool)).toStrictEqual(alone.slice(-quick.length));
    expect(alone.map(({ id }) => id)).toEqual(jobs.map(({ id }) => id));
    expect(alone.filter((one) => 'issues' in one).map(({ id }) => id)).toEqual(['wrong']);
  });

  it('tell wrong input with its issues', async () => {
    const [answer] = await spread([[wrong]], pool);
    expect(answer).toMatchObject({ issues: [{ path: 'upperArm.inner' }, { path: 'upperArm.outer' }] });
  });

  it('are answered line by line alike', () => {
    const some = [wrong, ...sweeps];
    const input = some.map((job) => `${JSON.stringify(job)}\n`).join('');
    const { stdout } = spawnSync(process.execPath, [join(out, 'scaling-lines.mjs')], {
      input,
      encoding: 'utf8',
    });
    const lines = answers(some).map((one) => `${JSON.stringify(one)}\n`);
    expect(stdout).toBe(lines.join(''));
  });

  it('can be ended, and the pool goes on', async () => {
    const ended = new AbortController();
    const all = spread(inParts(jobs, 5), pool, ended.signal);
    ended.abort();
    // A job that waits is aborted, one that runs is ended with its thread.
    await expect(all).rejects.toThrow(/aborted|Terminating worker thread/);
    // A job given while a thread is still ending may end with it, and is given again.
    const goesOn = async (tries = 20): Promise<unknown> => {
      try {
        return await spread([sweeps], pool);
      } catch (error) {
        if (tries === 0 || !String(error).includes('Terminating worker thread')) throw error;
        return goesOn(tries - 1);
      }
    };
    expect(await goesOn()).toStrictEqual(answers(sweeps));
  });
});

it('percentiles of parts are merged with their standard error', () => {
  // Mean 3; variance 2.5 with four degrees of freedom, of the mean 0.5.
  expect(merged([1, 2, 3, 4, 5])).toEqual({ value: 3, standardError: Math.sqrt(0.5) });
});

it('seeds that follow one another draw from places far apart of one sequence', () => {
  // A seed one step of the counter ahead is the same sequence, one number on. So streams of seeds d apart are k numbers apart,
  // k STEP = d modulo 2^32.
  const STEP = 0x6d2b79f5n;
  const WORD = 1n << 32n;
  const [behind, ahead] = [uniform(1), uniform(Number(1n + STEP))];
  behind();
  for (let n = 0; n < 5; n++) expect(ahead()).toBe(behind());

  let inverse = 1n;
  for (let n = 0; n < 6; n++) inverse = BigInt.asUintN(32, inverse * (2n - STEP * inverse));
  expect(BigInt.asUintN(32, inverse * STEP)).toBe(1n);
  const apart = (seeds: number) => {
    const k = BigInt.asUintN(32, inverse * BigInt(seeds));
    return Number(k < WORD - k ? k : WORD - k);
  };
  const nearest = (most: number) => Math.min(...Array.from({ length: most }, (_, n) => apart(n + 1)));
  // What docs/scaling.md says.
  expect(nearest(78)).toBe(48_536_991);
  expect(nearest(796)).toBe(5_014_754);
  expect(nearest(797)).toBe(680_841);
});
