// Jobs as JSON lines on standard input, answers as JSON lines on standard output, in the same order: node ask.mjs PORT < jobs.jsonl
import { createInterface } from 'node:readline';
import { Queue, QueueEvents } from 'bullmq';

const connection = { host: '127.0.0.1', port: Number(process.argv[2]), maxRetriesPerRequest: null };
const queue = new Queue('jobs', { connection });
const events = new QueueEvents('jobs', { connection });
events.setMaxListeners(0);
await events.waitUntilReady();

const waiting = [];
for await (const line of createInterface({ input: process.stdin })) {
  if (line !== '') waiting.push(await queue.add('job', JSON.parse(line)));
}
for (const job of waiting) {
  process.stdout.write(`${JSON.stringify(await job.waitUntilFinished(events))}\n`);
}
await Promise.all([events.close(), queue.close()]);
