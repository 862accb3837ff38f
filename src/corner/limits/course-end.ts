import type { EndKind } from '../../linkage/path.ts';
import { type Course, TRAVEL } from './course.ts';
import type { Side } from './outward.ts';
import type { Words } from './words.ts';

/** Why a linkage goes no farther. */
export type EndCause = 'deadPoint' | 'locked' | 'undetermined';

/** The end of a corner's course on one side. */
export interface CourseEnd {
  readonly travel: number;
  readonly cause: EndCause;
  readonly sentence: string;
}

/** Where and why the linkage itself goes no farther on one side; null when it comes round to where it began. */
export function endOf({ path, poseAt }: Course, side: Side, words: Words): CourseEnd | null {
  const bump = side === 'bump';
  const { how, row } = bump ? path.high : path.low;
  const last = bump ? path.pieces.length - 1 : 0;
  const travel = poseAt(last, bump ? path.pieces[last].hi : path.pieces[last].lo)[TRAVEL] + 0;
  const where = words.at(side, travel);
  const told = wordsFor(how, where, bump ? 'higher' : 'lower', row);
  return told === null ? null : { travel, ...told };
}

function wordsFor(
  how: EndKind,
  where: string,
  way: string,
  row: string | undefined,
): { cause: EndCause; sentence: string } | null {
  switch (how) {
    case 'deadPoint':
      return {
        cause: 'deadPoint',
        sentence: `The linkage is at a dead point ${where}: it can take the wheel no ${way}.`,
      };
    case 'locked':
      return {
        cause: 'locked',
        sentence: `The linkage locks ${where}: ${row ?? 'a length'} can't be kept any farther.`,
      };
    case 'undetermined':
      return {
        cause: 'undetermined',
        sentence: `The linkage can go on in more than one way ${where}: how it does is not determined.`,
      };
    case 'gaveUp':
      return {
        cause: 'undetermined',
        sentence: `The search for what ends the travel was given up ${where}.`,
      };
    case 'closed':
    case 'reached':
      return null;
  }
}
