// The example of a queue in docs/scaling.md: a server, two workers, one of them killed while it is at work on a job longer than its lock.
//
//   npm run test:queue
//
// The server is Debian's (apt-get install redis-server); the library is the build (npm run build), the queue comes with docs/examples/queue.

import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createConnection, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Job } from '../../docs/examples/scaling-worker.mjs';
import { run } from '../support/run.ts';
import { count, expectNone, test } from '../support/steps.ts';

const example = resolve('docs/examples/queue');
/** Lock of a job in worker.mjs, ms. */
const LOCK = 2000;
/** Longer than anything here takes on a slow machine, ms. */
const LONGEST = 300_000;

const read = (name: string) => JSON.parse(readFileSync(join('docs/examples', name), 'utf8'));
const car = read('car.json');
const corner = read('front-corner.json');

/** One long job among many short ones, a refused one among them: sweeps first, whole cars after them. */
const jobs: Job[] = [
  ...Array.from({ length: 35 }, (_, k): Job => {
    const [y, z] = corner.coilover.mount;
    const document = { ...corner, coilover: { ...corner.coilover, mount: [y - k / 10, z] } };
    return { id: `sweep ${k}`, task: 'sweep', corner: document, travel: { bump: 40, droop: 40 } };
  }),
  { id: 'refused', task: 'sweep', corner: { ...corner, upperArm: {} }, travel: {} },
  ...Array.from({ length: 40 }, (_, k): Job => {
    const total = { value: 1400 + k, plusMinus: 60 };
    const masses = { ...car.masses, estimate: { ...car.masses.estimate, total } };
    return { id: `car ${k}`, task: 'size', car: { ...car, masses } };
  }),
];
const long: Job = { id: 'long', task: 'draw', car, draws: 8000, seed: 3 };
jobs.splice(20, 0, long);
const lines = `${jobs.map((job) => JSON.stringify(job)).join('\n')}\n`;

/** A port that nobody listens on. */
function freePort(): Promise<number> {
  return new Promise((done) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      server.close(() => done(port));
    });
  });
}

function listens(port: number): Promise<boolean> {
  return new Promise((done) => {
    const socket = createConnection({ port, host: '127.0.0.1' })
      .on('connect', () => {
        socket.destroy();
        done(true);
      })
      .on('error', () => done(false));
  });
}

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** What a program prints that gets a text. */
function fed(program: string, args: readonly string[], text: string): Promise<string> {
  return new Promise((done, failed) => {
    const child = spawn(process.execPath, [program, ...args], {
      cwd: example,
      stdio: ['pipe', 'pipe', 'inherit'],
      timeout: LONGEST,
    });
    let printed = '';
    child.stdout.on('data', (part) => (printed += part));
    child.on('error', failed);
    child.on('close', (code) =>
      code === 0 ? done(printed) : failed(new Error(`${program}: ${code}\n${printed}`)),
    );
    child.stdin.end(text);
  });
}

/** Ends a program with all that it has started, outright. */
function kill({ pid }: ChildProcess): void {
  if (pid !== undefined) process.kill(-pid, 'SIGKILL');
}

/** What is seen of a job of the queue. */
interface QueuedJob {
  readonly data: Job;
  readonly processedBy?: string;
  readonly stalledCounter: number;
  readonly processedOn?: number;
  readonly finishedOn?: number;
}
interface Queue {
  getJobs(states: readonly string[]): Promise<QueuedJob[]>;
  getJobCounts(): Promise<Record<string, number>>;
  close(): Promise<void>;
}

if (!existsSync(join(example, 'node_modules')))
  await run('npm', ['ci', '--prefer-offline', '--no-audit', '--no-fund', '--loglevel=error'], example);
const { Queue } = createRequire(join(example, 'package.json'))('bullmq') as {
  Queue: new (name: string, options: object) => Queue;
};

const folder = mkdtempSync(join(tmpdir(), 'jounce-queue-'));
const port = await freePort();
const settings = ['--save', '', '--appendonly', 'no', '--maxmemory-policy', 'noeviction'];
const server = spawn(
  'redis-server',
  ['--port', `${port}`, '--bind', '127.0.0.1', '--dir', folder, ...settings],
  { stdio: 'ignore' },
);
const workers = new Map<string, ChildProcess>();
try {
  for (let k = 0; !(await listens(port)); k++) {
    if (k > 100) throw new Error('redis-server does not answer');
    await pause(100);
  }
  const queue = new Queue('jobs', { connection: { host: '127.0.0.1', port, maxRetriesPerRequest: null } });

  await test('one of two workers killed in mid-run and in mid-job: each job answered once, with the bytes of one process', async () => {
    const alone = await fed(resolve('docs/examples/scaling-lines.mjs'), [], lines);
    for (const name of ['first', 'second'])
      workers.set(
        name,
        spawn(process.execPath, ['worker.mjs', `${port}`, name], {
          cwd: example,
          stdio: ['ignore', 'ignore', 'inherit'],
          detached: true,
        }),
      );
    const asked = fed('ask.mjs', [`${port}`], lines);
    // The long job has been at work for a while: then its worker goes.
    let victim: string | undefined;
    for (const start = Date.now(); victim === undefined; await pause(50)) {
      if (Date.now() - start > LONGEST) throw new Error('the long job was not begun');
      const active = (await queue.getJobs(['active'])).find(({ data }) => data.id === long.id);
      if (active?.processedOn !== undefined && Date.now() - active.processedOn > LOCK / 4)
        victim = active.processedBy;
    }
    const before = (await queue.getJobCounts()).completed;
    const killed = workers.get(victim);
    if (killed === undefined) throw new Error(`no worker ${victim}`);
    kill(killed);
    workers.delete(victim);

    const answers = await asked;
    const done = await queue.getJobs(['completed']);
    const one = done.find(({ data }) => data.id === long.id);
    const took = (one?.finishedOn ?? 0) - (one?.processedOn ?? 0);
    expectNone([
      ...(before > 0 && before < jobs.length - 1
        ? []
        : [`${before} jobs were done when the worker was killed`]),
      ...(done.length === jobs.length ? [] : [`${done.length} of ${jobs.length} jobs were completed`]),
      ...(one?.processedBy === victim ? ['the killed worker answered the long job'] : []),
      ...((one?.stalledCounter ?? 0) > 0 ? [] : ['the long job was not lost']),
      ...(took > LOCK ? [] : [`the long job took ${took} ms, no longer than its lock`]),
      ...(answers === alone ? [] : ['not the same bytes as one process']),
    ]);
    return `${jobs.length} answers, ${before} before the kill; the long job took ${(took / LOCK).toFixed(1)} times its lock`;
  });
  await queue.close();
} finally {
  for (const worker of workers.values()) kill(worker);
  server.kill();
  rmSync(folder, { recursive: true, force: true });
}

count();
