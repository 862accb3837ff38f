// @ts-check
// Jobs as JSON lines on standard input, answers as JSON lines on standard output, in the same order. For job queues and clusters: docs/scaling.md.
import { createInterface } from 'node:readline';
import { answer } from './scaling-worker.mjs';

for await (const line of createInterface({ input: process.stdin })) {
  if (line !== '') process.stdout.write(`${JSON.stringify(answer(JSON.parse(line)))}\n`);
}
