import type { Say, Sentences } from './say.ts';

const DONOR = 'the donor damper';

const UNITS: Readonly<Record<string, string>> = {
  ordered: 'the new damper',
  requiredTravel: 'the damper for the required travel',
};
const unit = (say: Say) => UNITS[say.text('basis')];

const STATES: Readonly<Record<string, string>> = {
  extended: 'fully extended',
  compressed: 'fully compressed',
  measured: 'somewhere between extended and compressed',
};
const state = (say: Say) => STATES[say.text('state')];
/** The side on which a donor that is at its end at ride height has no travel. */
const lost = (say: Say) => (say.text('state') === 'extended' ? 'droop' : 'bump');

const ride = (say: Say) => `design ride height (${say.measure('rideLength', 'length')} eye to eye)`;

/** `12.0 mm longer`, or that there is no difference. */
function than(say: Say, name: string, [more, less, same]: readonly string[]): string {
  if (say.isNothing(name, 'length')) return same;
  return `${say.size(name, 'length')} ${say.number(name) > 0 ? more : less}`;
}

const DEAD_LENGTH = 'dead length (compressed length minus stroke)';
const DIFFERENCES: Readonly<Record<string, readonly string[]>> = {
  extendedLength: ['longer extended', 'shorter extended', 'as long extended'],
  compressedLength: ['longer compressed', 'shorter compressed', 'as long compressed'],
  stroke: ['more stroke', 'less stroke', 'the same stroke'],
  deadLength: [`more ${DEAD_LENGTH}`, `less ${DEAD_LENGTH}`, `the same ${DEAD_LENGTH}`],
};

/** What is said about a donor damper and the unit that it is compared with. */
export const DONOR_DAMPER: Sentences = {
  comparedUnit: (say) => {
    const [least, most] = say.text('basis') === 'ordered' ? ['', ''] : [' or more', ' or less'];
    return {
      problem: `${unit(say)} is ${say.measure('extendedLength', 'length')}${least} extended and ${say.measure('compressedLength', 'length')}${most} compressed, with a stroke of ${say.measure('stroke', 'length')}${least}`,
    };
  },
  unitAgainstDonor: (say) => ({
    problem: `${unit(say)} against ${DONOR}: ${Object.entries(DIFFERENCES)
      .flatMap(([name, words]) => (say.has(name) ? [than(say, name, words)] : []))
      .join(', ')}`,
  }),
  unitAtRideHeight: (say) => ({
    problem: `at design ride height ${unit(say)} is ${say.measure('rideLength', 'length')} long, ${than(say, 'difference', ['longer than', 'shorter than', 'as long as'])} ${DONOR} ${state(say)} (${say.measure('length', 'length')})`,
  }),
  donorOutsideUnit: (say) => ({
    problem: `${DONOR} measured ${say.size('by', 'length')} ${say.number('by') > 0 ? 'longer' : 'shorter'} than ${unit(say)} ${state(say)}: it differs there by at least that`,
  }),
  donorAtEnd: (say) => ({
    problem: `fitted as it is, ${state(say)} at design ride height, ${DONOR} has no ${lost(say)} travel`,
  }),
  donorTooLong: (say) => ({
    problem: `fitted as it is, ${DONOR} is ${say.measure('by', 'length')} too long for ${ride(say)}, even fully compressed`,
  }),
  donorTooShort: (say) => ({
    problem: `fitted as it is, ${DONOR} is ${say.measure('by', 'length')} too short for ${ride(say)}, even fully extended`,
  }),
  donorMeasuredBetween: (say) => ({
    problem: `${DONOR} measured ${say.measure('length', 'length')} ${STATES.measured}, ${than(say, 'difference', ['more than at', 'less than at', 'as at'])} ${ride(say)}`,
    advice: 'measure its extended and compressed lengths to know how far it goes from there',
  }),
  donorTravel: (say) => {
    const sides = (['bump', 'droop'] as const).filter((side) => say.has(side));
    const gives = sides.map((side) => `${say.measure(side, 'length')} of ${side}`).join(' and ');
    const judged = sides.filter((side) => say.has(`${side}Required`));
    const required = judged.map((side) => `${say.measure(`${side}Required`, 'length')} of ${side}`);
    const short = judged
      .filter((side) => say.number(side) < say.number(`${side}Required`))
      .map((side) => `${say.difference(`${side}Required`, side, 'length')} of ${side}`);
    const verdict =
      judged.length === 0
        ? ''
        : `; ${required.join(' and ')} required: ${
            short.length > 0
              ? `that is not enough, ${short.join(' and ')} ${short.length === 1 ? 'is' : 'are'} missing`
              : 'that is enough'
          }`;
    return {
      problem: `fitted as it is and without a bump stop, ${DONOR} gives ${gives} at the wheel${verdict}`,
    };
  },
  donorStrokeLeft: (say) => {
    const ways = (['extension', 'compression'] as const).flatMap((way) =>
      say.has(way) ? [`${way === 'extension' ? 'extend' : 'compress'} by ${say.measure(way, 'length')}`] : [],
    );
    const missing = say.has('extension') ? 'compress' : 'extend';
    return {
      problem: `fitted as it is, ${DONOR} can ${ways.join(' and ')} from ${ride(say)}`,
      ...(ways.length === 2 ? {} : { advice: `give its stroke to know how far it can ${missing}` }),
    };
  },
};
