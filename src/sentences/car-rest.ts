import type { Sentences } from './say.ts';

/** What is said about a car at rest on its wheels. */
export const CAR_REST: Sentences = {
  rollsOver: (say) => ({
    problem:
      'the car does not stand in roll at design ride height: its centre of gravity is too high for its roll stiffness',
    got: `${say.measure('stiffness', 'rollStiffness', 'required')} of roll stiffness about the middle of the ground`,
    allowed: `more than ${say.measure('required', 'rollStiffness', 'stiffness')}, sprung weight × height of its centre of gravity`,
    advice: 'choose stiffer springs or bars',
  }),
  barTwistsInHeave: (say) => ({
    problem: `heave twists the anti-roll bar by more than ${say.text('share')} of what one wheel does`,
    advice: 'give bar.right a lever on the other side of the axis, so that in bump both levers turn alike',
  }),
  thirdSpringNotShortened: (say) => ({
    problem: 'heave does not shorten the third spring at design ride height',
    got: `${say.measure('ratio', 'ratio')} of shortening per heave`,
    advice: 'move mount: both ends are to come nearer to each other in bump',
  }),
  rollSpringMovesInHeave: (say) => ({
    problem: `heave moves the roll spring by more than ${say.text('share')} of what one wheel does`,
    got: `${say.measure('ratio', 'ratio')} of shortening per heave`,
    advice: 'move right.mount: as a rule it lies beyond the pivot of the rocker from where mount is',
  }),
  barLeadsRollStiffness: (say) => ({
    problem: `the anti-roll bar has more than ${say.text('times')} times the roll stiffness of the springs: one wheel on a bump moves the other nearly as much`,
    got: `${say.measure('bar', 'rollStiffness')} from the bar, ${say.measure('springs', 'rollStiffness')} from the springs`,
    advice: 'choose stiffer springs, or a softer bar',
  }),
};
