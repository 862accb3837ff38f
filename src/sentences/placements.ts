import { BOUNDED, INPUT } from './input.ts';
import type { PlainSay, PlainSentences } from './plain.ts';

/** What is said about points placed by lengths. */
export const PLACEMENTS: PlainSentences = {
  ...INPUT,
  ...BOUNDED,
  notPlacements: { problem: 'not placements', allowed: '{ name: [x, y], ... }' },
  notAPlacement: {
    problem: 'not a placement',
    allowed:
      '[x, y], { from: [a, b], lengths, side }, { from, length, angle }, { on: [a, b], at }, { on: [a, b], from, length, side }',
  },
  notTwoPoints: { problem: 'not two different points', allowed: "the names of two, as ['A', 'B']" },
  placedByItself: (say) => ({
    problem: 'placed by itself',
    got: say.list('chain').join(' from '),
    advice: 'place one of these points by others, or give its coordinates',
  }),
  basePointsCoincide: (say) => ({
    problem: `${say.list('points').join(' and ')} lie in one place`,
    advice: 'place it from two points that lie apart',
  }),
  lengthsDoNotMeet: (say) => {
    const [a, b] = say.list('points');
    const [one, other] = say.list('lengths').map(Number);
    const isShort = say.number('distance') > one + other;
    return {
      problem: 'the two lengths do not meet',
      got: `${one} from ${a} and ${other} from ${b}, which are ${short(say, 'distance')} apart: ${
        isShort ? 'together' : 'the longer one'
      } ${short(say, 'shortfall')} too ${isShort ? 'short' : 'long'}`,
    };
  },
  lengthOffTheLine: (say) => ({
    problem: 'the length does not reach the line',
    got: `${say.text('length')} from ${say.text('from')}, which is ${short(say, 'distance')} from the line: ${short(say, 'shortfall')} too short`,
  }),
};

function short(say: PlainSay, name: string): string {
  return String(Number(say.number(name).toPrecision(6)));
}
