import { fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/motion.ts';
import { isRecord } from './joints.ts';
import type { Motion } from './motion.ts';

/** @throws InputError for what is no motion, as a drawing that has not been traced. */
export function checkMotion(motion: unknown): asserts motion is Motion {
  if (!isMotion(motion)) refuse('motion', [fault('notAMotion', '', { got: show(motion) })]);
}

function isMotion(motion: unknown): boolean {
  if (!isRecord(motion) || !isRecord(motion.path) || !Array.isArray(motion.path.pieces)) return false;
  return [motion.at, motion.read].every((one) => typeof one === 'function');
}
