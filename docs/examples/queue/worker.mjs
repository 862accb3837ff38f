// A worker: node worker.mjs PORT NAME. Start as many as there are cores, on any machine that reaches the server; end one when you like.
import { Worker } from 'bullmq';

const [port, name] = process.argv.slice(2);
const worker = new Worker('jobs', new URL('./processor.mjs', import.meta.url), {
  name,
  connection: { host: '127.0.0.1', port: Number(port), maxRetriesPerRequest: null },
  // A job whose worker has not renewed its lock for so long goes to another worker, up to three times.
  lockDuration: 2000,
  stalledInterval: 1000,
  maxStalledCount: 3,
});
worker.on('error', ({ message }) => console.error(message));
