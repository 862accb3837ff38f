import type { MotionStatus } from '../../linkage/path.ts';
import type { CornerModel } from '../model.ts';
import type { Side } from './first-crossing.ts';
import { type Ask, type Pose, TRAVEL, type TravelPath } from './travel-path.ts';
import type { Words } from './words.ts';

/** Why a linkage goes no farther. */
export type EndCause = 'deadPoint' | 'locked' | 'bifurcation';

/** The end of a corner's travel path on one side. */
export interface TravelPathEnd {
  readonly travel: number;
  readonly cause: EndCause;
  /** Of a corner with a rocker, what is at a dead point: `arms`, or `rodAndRocker`. */
  readonly part: string;
  readonly sentence: string;
}

/** What is at a dead point in a pose; empty where it can be but one thing. */
export type DeadPart = (pose: Pose) => '' | 'arms' | 'rodAndRocker';

/** Sine of the angle between rod and rocker's arm up to which they are in line. */
const IN_LINE = 1e-6;

/** Asks for what tells which part is at a dead point. */
export function askDeadPart({ rocker }: CornerModel, ask: Ask): DeadPart {
  if (rocker === null) return () => '';
  const arm = ask({ angle: [rocker.rod.inner, rocker.pivot] });
  const rod = ask({ angle: [rocker.rod.inner, rocker.rod.outer] });
  return (pose) => (Math.abs(Math.sin(pose[rod] - pose[arm])) <= IN_LINE ? 'rodAndRocker' : 'arms');
}

/** Where and why the linkage itself goes no farther on one side; null where its motion closes or is unbounded. */
export function endOf(
  { path, poseAt }: TravelPath,
  side: Side,
  deadPart: DeadPart,
  words: Words,
): TravelPathEnd | null {
  const bump = side === 'bump';
  const { status, constraint } = bump ? path.high : path.low;
  const last = bump ? path.pieces.length - 1 : 0;
  const pose = poseAt(last, bump ? path.pieces[last].hi : path.pieces[last].lo);
  const travel = pose[TRAVEL] + 0;
  const cause = causeOf(status);
  if (cause === null) return null;
  const part = cause === 'deadPoint' ? deadPart(pose) : '';
  const where = words.at(side, travel);
  return {
    travel,
    cause,
    part,
    sentence: sentenceOn(status, part, where, bump ? 'higher' : 'lower', constraint),
  };
}

function causeOf(status: MotionStatus): EndCause | null {
  switch (status) {
    case 'deadPoint':
    case 'locked':
      return status;
    case 'bifurcation':
      return 'bifurcation';
    // Closed or unbounded: nothing ends it.
    case 'closed':
    case 'unbounded':
    case 'stepLimit':
    case 'reached':
      return null;
  }
}

function sentenceOn(
  status: MotionStatus,
  part: ReturnType<DeadPart>,
  where: string,
  way: string,
  row: string | undefined,
): string {
  switch (status) {
    case 'deadPoint': {
      const what = { '': 'The linkage is', arms: 'The arms are', rodAndRocker: 'The rod is' }[part];
      const why = part === 'rodAndRocker' ? ", in line with the rocker's arm" : '';
      const they = part === 'arms' ? 'they' : 'it';
      return `${what} at a dead point ${where}${why}: ${they} can take the wheel no ${way}.`;
    }
    case 'locked':
      return `The linkage locks ${where}: ${row ?? 'a length'} can't be kept any farther.`;
    default:
      return `The linkage can go on in more than one way ${where}: how it does is not determined.`;
  }
}
