// What an order leaves to be agreed, in words.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { type Decider, type UnsettledItem, unsettledOn } from '../../coilover/sizing/unsettled.ts';
import { endNames } from './end-names.ts';

/** Something that is not settled, in words; what is `essential` decides what is made. */
export interface ToAgree {
  readonly what: string;
  readonly who: Decider;
  readonly essential: boolean;
}

const WORDS: Readonly<Record<UnsettledItem, string>> = {
  lengths: 'extended and compressed length',
  end: 'type and size',
  bore: 'bore',
  width: 'width in the bracket',
  spacers: 'spacers',
  boltAxis: 'bolt axis and bearing rating',
  thread: 'thread',
  threadPitch: 'thread pitch',
  fixing: 'nut and bushes',
  referenceFace: 'face that lengths are taken to',
  clampDiameter: 'diameter at the clamp',
  topBearing: 'top bearing',
  spring: 'spring',
  freeLength: 'free length of the spring',
  innerDiameter: 'inner diameter of the spring',
  solidLength: 'solid length of the spring',
  minLength: 'minimum permissible length of the spring',
  quantity: 'quantity',
  handed: 'left and right alike, or handed',
  bodyEnd: 'body up or down',
  maxSpringOuterDiameter: 'maximum outer diameter of the spring',
  bumpStop: 'bump stop',
  valving: 'valving',
  highSpeedForces: 'forces at high speed',
  compressionFraction: 'split of forces between compression and rebound',
  strokeFits: 'whether this stroke fits this compressed length',
  lengthTolerance: 'tolerance of lengths',
  rateTolerance: 'tolerance of the spring rate',
  forceTolerance: 'tolerance of forces',
  bodyDiameter: 'body diameter',
  perchRange: 'range of the perch',
  perchPitch: 'thread pitch of the perch',
  lengthAdjustment: 'length adjustment',
  adjusters: 'adjusters',
  adjusterSetting: 'adjuster setting of the force table',
  reservoir: 'reservoir',
  gasForce: 'gas force at ride height',
  shaftDiameter: 'shaft diameter',
  bumpStopTable: 'force table of the bump stop',
  bumpStopSolidForce: 'force of the bump stop at solid',
  springSupplier: 'who supplies the spring',
  bumpStopSupplier: 'who supplies the bump stop',
};

/** All that is not settled on an axle, what is essential first. */
export function toAgree(sized: AxleSizing): ToAgree[] {
  const [chassis, moving] = endNames(sized);
  return unsettledOn(sized).map(({ item, end, who, essential }) => ({
    what: end === undefined ? WORDS[item] : `${WORDS[item]} at the ${end === 'chassis' ? chassis : moving}`,
    who,
    essential,
  }));
}

/** What an asterisk means. */
export const MARK = '* decides what is made; the rest until delivery';

/** The same in a line for each who decides. */
export function agreeLines(items: readonly ToAgree[], isMarked: boolean): [who: string, what: string][] {
  return (['builder', 'builder and maker', 'maker', 'spring maker'] as const).flatMap(
    (who): [string, string][] => {
      const his = items.filter((item) => item.who === who);
      if (his.length === 0) return [];
      return [
        [who, his.map(({ what, essential }) => (isMarked && essential ? `* ${what}` : what)).join('; ')],
      ];
    },
  );
}
