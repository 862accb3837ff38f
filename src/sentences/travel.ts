import { fixAfterAdvice } from './after-advice.ts';
import type { Words } from './plain.ts';
import type { Say, Sentences } from './say.ts';

/** What ends the travel, by the cause of the limit. */
const CAUSES: Readonly<Record<string, string>> = {
  damperExtended: 'the damper is topped out',
  damperCompressed: 'the damper is bottomed out',
  bumpStopSolid: 'the bump stop is solid',
  springMinLength: 'the spring is at its minimum permissible length',
  ballJointArticulation: 'a ball joint is at its largest angle',
  bearingMisalignment: 'an end bearing is at its largest misalignment',
  tyreContact: 'the tyre makes contact with the arch',
  groundContact: 'the chassis makes contact with the ground',
  deadPoint: 'the linkage is at a dead point',
  ratioZero: 'the installation ratio is zero',
  locked: 'the linkage locks',
  bifurcation: 'the motion is not determined any farther',
};

/** The travel case that requires the travel, with its load state where it is not that of the design. */
function caseWords({ has, text }: Say): string {
  if (has('state')) return `in the load state "${text('state')}", ${text('case')}`;
  return text('case') === 'specified' ? 'as specified' : `for ${text('case')}`;
}

const travelShort =
  (side: 'bump' | 'droop') =>
  (say: Say): Words => ({
    problem: `${side} travel is ${say.difference('required', 'available', 'length')} short`,
    got: `${say.measure('available', 'length', 'required')} available${
      say.text('cause') === 'null' ? '' : `, where ${CAUSES[say.text('cause')]}`
    }`,
    allowed: `${say.measure('required', 'length', 'available')} or more, ${caseWords(say)}`,
    advice: fixAfterAdvice(say, 'reduce travelCases or limits.required, or move what ends the travel'),
  });

const travelUncertain =
  (side: 'bump' | 'droop') =>
  (say: Say): Words => ({
    problem: `the ${side} travel may be less than is required`,
    got: `a margin of ${say.difference('available', 'required', 'length')}, ${say.measure('lowest', 'length')} at the lower end of its 95 % interval, most of it from ${say.text('input')}`,
    allowed: `${say.measure('required', 'length')} or more; ${say.measure('available', 'length')} is available`,
    advice: 'measure that input more closely, or leave more travel',
  });

const OMITTED: Readonly<Record<string, string>> = {
  downforce: 'downforce',
  roll: 'roll in a corner',
  dive: 'dive and lift under braking',
  everyCase: 'every case',
};

/** What a part of the required travel needs, and what to do about it. */
const NEEDS: Readonly<Record<string, readonly [needs: string, advice: string]>> = {
  centreOfGravityHeight: [
    'the height of the centre of gravity of the sprung part',
    'give masses.sprungCentreOfGravityHeight; an estimate with its plusMinus will do',
  ],
  wheelbase: ['the wheelbase', 'give masses.wheelbase'],
  bothAxles: ['both axles with their masses and springs', 'describe the other axle, with its target'],
  spring: ['the spring', 'give the masses, the unsprung mass and a target'],
  stand: ['a corner that stands under it', 'resolve the conflict about how the corner stands'],
};

/** What is said about travel and damper lengths. */
export const TRAVEL: Sentences = {
  travelPartOmitted: (say) => {
    const [needs, advice] = NEEDS[say.text('needs')];
    const state = say.text('state');
    return {
      problem: `the required travel${say.has('axle') ? ` of the ${say.text('axle')} axle` : ''} does not count ${OMITTED[say.text('part')]}${state === '' ? '' : ` in the state "${state}"`}: that depends on ${needs}`,
      advice,
    };
  },
  noDamperForTravel: (say) => ({
    problem: 'the travel that is required leaves the damper no compressed length',
    got: `${say.measure('installed', 'length')} at design ride height, ${say.measure('required', 'length')} of bump required`,
    allowed: 'a coilover longer than the shortening in bump',
    advice: 'check units and mounts, or require less travel',
  }),
  damperDoesNotFit: (say) => ({
    problem: 'the damper does not fit its length at design ride height',
    got: `${say.measure('compressed', 'length')} compressed, ${say.measure('extended', 'length')} extended`,
    allowed: `compressed less and extended more than ${say.measure('installed', 'length')}`,
    advice: 'change the lengths, or move a mount',
  }),
  deadLengthShort: (say) => ({
    problem: `a stroke of ${say.measure('stroke', 'length')} does not fit a length of ${say.measure('installed', 'length')} at design ride height`,
    got: `a dead length (compressed length minus stroke) of ${say.measure('available', 'length')}`,
    allowed: `${say.measure('required', 'length')} or more: compressed length ${say.measure('compressed', 'length')}, extended ${say.measure('extended', 'length')}`,
    advice:
      'require less travel, move a mount so that the coilover is longer, or take one with a shorter body',
  }),
  deadLengthSmall: (say) => ({
    problem: 'the dead length is small: few coilovers are built so short',
    got: `${say.measure('available', 'length')}, a compressed length of ${say.measure('compressed', 'length')} minus a stroke of ${say.measure('stroke', 'length')}`,
    allowed: `${say.measure('usual', 'length')} or more is usual`,
    advice:
      'ask the maker for the smallest dead length and write it as sizing.deadLength; or require less travel, or move a mount so that the coilover is longer',
  }),
  strokeTooLong: (say) => ({
    problem: 'the stroke is not less than the compressed length: no damper can be built so',
    got: `a stroke of ${say.measure('stroke', 'length')}, ${say.measure('compressed', 'length')} compressed`,
    allowed: `a stroke well below ${say.measure('compressed', 'length')}: the rest is the dead length`,
    advice: 'check both lengths, require less travel, or move a mount so that the coilover is longer',
  }),
  bumpTravelShort: travelShort('bump'),
  droopTravelShort: travelShort('droop'),
  bumpTravelUncertain: travelUncertain('bump'),
  droopTravelUncertain: travelUncertain('droop'),
  bumpStopTableBeyondSolid: (say) => ({
    problem: 'the force table of the bump stop continues beyond its solid height',
    got: `a compression of ${say.measure('compression', 'length')}`,
    allowed: `${say.measure('max', 'length')}, its height minus its solid height`,
    advice: 'check the table and limits.bumpStop',
  }),
};
