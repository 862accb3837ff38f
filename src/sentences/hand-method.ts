import type { Say, Sentences } from './say.ts';

/** The approximations of the hand method in words. */
export const APPROXIMATIONS = {
  cosineOnce: 'the cosine of the inclination taken once, where it counts twice',
  angleFromVertical: 'the inclination taken from vertical, not from square to pivot and mount',
  ballJoint: 'the ball joint taken for the contact patch',
  onePose: 'one pose taken for all',
  noGeometricPart: 'the geometric part of the wheel rate, left out',
};

/** An error as a builder says it: `23 % too soft`. */
function offBy(say: Say, name: string): string {
  const error = say.number(name);
  const percent = Math.abs(100 * error);
  if (percent < 0.5) return 'correct to 0.5 %';
  const way = error < 0 ? 'soft' : 'stiff';
  return percent > 900 ? `more than ten times too ${way}` : `${percent.toFixed(0)} % too ${way}`;
}

/** Where in the travel the error is largest. */
function where(say: Say): string {
  const travel = say.number('worstTravel');
  if (travel === 0) return 'there too';
  return travel > 0 ? 'in bump' : 'in droop';
}

const LEFT_OUT: Readonly<Record<string, string>> = {
  noSprungMass: 'no sprung mass was given',
  noSpringRate: 'neither spring rate nor frequency was given',
  noPositiveSpringRate: 'no spring gives that frequency here, its rate would be negative',
};

/** Why there is no hand figure. */
const undefinedFor = (what: string) => ({
  problem: `the coilover ${what}, and the hand method takes a ratio along one arm`,
});

/** What is said about the hand method. */
export const HAND_METHOD: Sentences = {
  handMethodThroughRocker: undefinedFor('acts through a rocker'),
  handMethodBetweenMovingParts: undefinedFor('is between two parts that move'),
  handMethodOnUpright: undefinedFor('is on the upright'),
  handMethodOffArms: undefinedFor('is not on an arm of the upright'),
  handMethodWithoutMotion: { problem: 'the shock does not work against the arm in the drawn pose' },
  handMethodEstimate: (say) => ({
    problem: `the hand method (two lengths squared × the factor for the inclination) gives a wheel rate of ${say.measure('estimate', 'ratio')} of the spring rate; the exact value is ${say.measure('exact', 'ratio')} at ride height`,
  }),
  handMethodError: (say) => ({
    problem: `a spring chosen by the hand method is ${offBy(say, 'ride')} at ride height, ${offBy(say, 'worst')} at worst over this travel (${where(say)})`,
  }),
  approximationError: (say) => ({
    problem: `${APPROXIMATIONS[say.text('approximation') as keyof typeof APPROXIMATIONS]}: ${offBy(say, 'error')} at ride height`,
  }),
  geometricPartIncluded: {
    problem: 'the exact value includes the geometric part: the changing ratio under the loaded spring',
  },
  geometricPartLeftOut: (say) => ({
    problem: `the exact value is the square of the ratio alone; the geometric part is left out: ${LEFT_OUT[say.text('because')]}`,
  }),
};
