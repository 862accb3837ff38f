import type { LimitCause } from '../../corner/limits/limits.ts';
import { spaced } from '../../words.ts';

/** What ends the travel, in the words of an order. */
const CAUSES: Readonly<Record<LimitCause, string>> = {
  damperOpen: 'damper fully extended',
  damperClosed: 'damper fully compressed',
  springAtLeast: 'spring at its minimum length',
  stopSolid: 'bump stop solid',
  ballJoint: 'ball joint at its articulation',
  bearingTilt: 'bearing at its misalignment',
  tyreAtArch: 'tyre contact',
  chassisOnGround: 'chassis on the ground',
  deadPoint: 'dead point of the linkage',
  ratioThroughZero: 'installation ratio zero',
  locked: 'linkage locked',
  undetermined: 'linkage undetermined',
};

/** A limit in a few words, with the ball joint by its name. */
export function limitWords({ cause, part }: { readonly cause: LimitCause; readonly part: string }): string {
  return cause === 'ballJoint' && part !== '' ? `${spaced(part)} ball joint` : CAUSES[cause];
}
