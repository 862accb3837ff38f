import type { LimitCause } from '../../corner/limits/limits.ts';
import { ballJointName } from '../../words.ts';

/** What ends the travel, in the words of an order. */
const CAUSES: Readonly<Record<LimitCause, string>> = {
  damperExtended: 'damper fully extended',
  damperCompressed: 'damper fully compressed',
  springMinLength: 'spring at its minimum permissible length',
  bumpStopSolid: 'bump stop solid',
  ballJointArticulation: 'ball joint at its largest angle',
  bearingMisalignment: 'bearing at its largest misalignment',
  tyreContact: 'tyre contact with the arch',
  groundContact: 'chassis on the ground',
  deadPoint: 'dead point of the linkage',
  ratioZero: 'installation ratio zero',
  locked: 'linkage locked',
  bifurcation: 'bifurcation of the linkage',
};

/** A limit in a few words, with the ball joint by its name. */
export function limitWords({ cause, part }: { readonly cause: LimitCause; readonly part: string }): string {
  return cause === 'ballJointArticulation' && part !== ''
    ? `${ballJointName(part)} at its largest angle`
    : CAUSES[cause];
}
