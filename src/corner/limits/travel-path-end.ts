import type { Diagnostic } from '../../diagnostic.ts';
import type { MotionStatus } from '../../linkage/path.ts';
import type { CornerModel } from '../model.ts';
import type { Side } from './first-crossing.ts';
import { metAt } from './limit-diagnostics.ts';
import { type Ask, type Pose, TRAVEL, type TravelPath } from './travel-path.ts';

/** Why a linkage goes no farther. */
export type EndCause = 'deadPoint' | 'locked' | 'bifurcation';

/** The end of a corner's travel path on one side. */
export interface TravelPathEnd {
  readonly travel: number;
  readonly cause: EndCause;
  /** Of a corner with a rocker, what is at a dead point: `arms`, or `rodAndRocker`. */
  readonly part: string;
  readonly diagnostic: Diagnostic;
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
export function endOf({ path, poseAt }: TravelPath, side: Side, deadPart: DeadPart): TravelPathEnd | null {
  const bump = side === 'bump';
  const { status, constraint } = bump ? path.high : path.low;
  const last = bump ? path.pieces.length - 1 : 0;
  const pose = poseAt(last, bump ? path.pieces[last].hi : path.pieces[last].lo);
  const travel = pose[TRAVEL] + 0;
  const cause = causeOf(status);
  if (cause === null) return null;
  const part = cause === 'deadPoint' ? deadPart(pose) : '';
  return {
    travel,
    cause,
    part,
    diagnostic: metAt({ cause, path: '' }, side, travel, valuesOf(cause, part, constraint)),
  };
}

function valuesOf(cause: EndCause, part: string, constraint: string | undefined): Diagnostic['values'] {
  if (cause === 'deadPoint') return { part };
  return cause === 'locked' ? { constraint: constraint ?? null } : {};
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
