// One job of the queue, in a process of its own: a worker goes on renewing its lock on a job while this is at work, which it could not do if it
// computed the answer itself.
import { answer } from '../scaling-worker.mjs';

export default async function processor({ data }) {
  return answer(data);
}
