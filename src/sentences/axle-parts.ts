import { suggestion } from './input.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about the parts between the wheels of an axle, to `axle` and in files. */
export const AXLE_PARTS: PlainSentences = {
  leverOverCentre: {
    problem:
      'the drop link goes through the axis of the bar at design ride height: the bar would lock the axle',
    advice: 'move linkMount, or leverEnd with the lever',
  },
  barTwice: {
    problem: 'a roll stiffness beside a bar',
    advice: 'leave out antiRollBarStiffness, or the bar of the axle',
  },
  rightEndAcrossCar: {
    problem: 'a right-hand end of a bar across the car, whose ends are mirror images',
    advice: 'leave right out, or give axis in place of leverLength for a bar along the car',
  },
  springWithoutLength: {
    problem: 'both ends of the spring are in one place',
    advice: 'move mount, or right.mount',
  },
  notAPartOfCorner: (say) => ({ problem: 'not a part of this corner that moves', ...suggestion(say) }),
};
