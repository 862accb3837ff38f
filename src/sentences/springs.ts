import { POUND_FORCE_PER_INCH } from '../units.ts';
import type { Say, Sentences } from './say.ts';

/** How the minimum length of a spring is known. */
const MIN_LENGTH_SOURCES: Readonly<Record<string, (say: Say) => string>> = {
  given: () => 'as given',
  wire: () => 'computed from its wire',
  estimated: () =>
    'estimated from rate, solid length and inner diameter, for cold-formed steel with ends closed and ground',
  assumed: (say) =>
    `taken as the solid length and ${(100 * say.number('assumedClearance')).toFixed(0)} % of it, because only the solid length is known`,
};

/** How the minimum length of the spring is known; empty where it is not. */
export function minLengthSource(say: Say): string {
  return MIN_LENGTH_SOURCES[say.text('minLengthSource')]?.(say) ?? '';
}

/** The minimum length of the spring with its source; empty where it is not known. */
function minLength(say: Say): string {
  const source = minLengthSource(say);
  return source === '' ? '' : ` (${say.measure('minLength', 'length')}, ${source})`;
}

/** A share as percent. */
function percent(say: Say, name: string): string {
  return (100 * Math.abs(say.number(name))).toFixed(0);
}

/** How far a rate may be from one in the other unit to be taken for it, as a ratio: 1 N/mm is 5.71 lbf/in. */
const NEAR_UNIT = 1.25;

/** A question about the unit where a rate would be about right in the other one. */
function unitDoubt(say: Say): string {
  const ratio = say.number('springRate') / say.number('requiredSpringRate');
  const own = say.unit('rate');
  const perOther = own === 'N/mm' ? 1 / POUND_FORCE_PER_INCH : POUND_FORCE_PER_INCH;
  const away = Math.abs(Math.log(ratio / perOther));
  if (!(away < Math.log(NEAR_UNIT))) return '';
  return `; or is the rate written in ${own === 'N/mm' ? 'lbf/in' : 'N/mm'}?`;
}

/** What is said about springs and tolerances. */
export const SPRINGS: Sentences = {
  springTravelShort: (say) => ({
    problem: 'the spring has less travel to its minimum permissible length than the bump limit requires',
    got: `${say.measure('available', 'length', 'required')} available, ${say.measure('required', 'length', 'available')} required${
      say.text('at') === 'null'
        ? ''
        : `; the minimum permissible length is reached at ${say.measure('at', 'length')} of bump`
    }`,
    allowed: `${say.measure('required', 'length', 'available')} or more from the free length to the minimum permissible length${minLength(say)}`,
    advice: 'choose a longer spring, one with a shorter minimum permissible length, or a taller bump stop',
  }),
  springTravelUncertain: (say) => ({
    problem: 'the spring may have too little travel to its minimum permissible length',
    got: `a margin of ${say.difference('available', 'required', 'length')}, ${say.measure('lowest', 'length')} at the lower end of its 95 % interval, most of it from ${say.text('input')}`,
    allowed: `${say.measure('required', 'length', 'available')} or more from the free length to the minimum permissible length${minLength(say)}`,
    advice: 'measure that input more closely, or choose a longer spring',
  }),
  springFarFromTarget: (say) => ({
    problem: `the frequency of the spring is ${percent(say, 'deviation')} % ${say.number('deviation') < 0 ? 'below' : 'above'} the required one`,
    got: `${say.measure('springRate', 'rate')} at the spring${say.text('frequency') === 'null' ? '' : `, ${say.measure('frequency', 'frequency')} at design ride height`}`,
    allowed: `${say.measure('requiredFrequency', 'frequency')} ± ${percent(say, 'maxDeviation')} %: about ${say.measure('requiredSpringRate', 'rate')} at the spring`,
    advice: `list a spring nearer to that rate, or change the target${unitDoubt(say)}`,
  }),
  coilDiameterOutOfRange: (say) => ({
    problem: 'no spring has such a diameter',
    got: Number.isFinite(say.number('value')) ? say.measure('value', 'length', 'above') : say.text('value'),
    allowed: `more than ${say.measure('above', 'length', 'value')}`,
    advice: 'check wire and mean diameter',
  }),
  coilOutOfRange: (say) => ({
    problem: 'no spring has such a value',
    got: say.text('value'),
    allowed: `more than ${say.text('above')}`,
    advice: 'check the value: the coils at the ends do not count as active',
  }),
  coilEndsUnknown: { problem: 'unknown choice' },
  springInnerDiameterSmall: (say) => ({
    problem: 'the spring does not go over the body of the damper',
    got: `an inner diameter of ${say.measure('innerDiameter', 'length', 'bodyDiameter')}`,
    allowed: `more than ${say.measure('bodyDiameter', 'length', 'innerDiameter')}`,
    advice: 'choose a spring of a larger inner diameter, or a thinner body',
  }),
  springClearanceSmall: (say) => ({
    problem: 'the spring has too little clearance to the body of the damper',
    got: `${say.given('clearance', 'length')} at the radius, from an inner diameter of ${say.given('innerDiameter', 'length')} over a body of ${say.given('bodyDiameter', 'length')}`,
    allowed: `${say.given('required', 'length')} or more`,
    advice: 'choose a spring of a larger inner diameter, a thinner body, or less clearance',
  }),
  springOuterDiameterLarge: (say) => ({
    problem: 'the spring is wider than there is room for',
    got: `an outer diameter of ${say.measure('outerDiameter', 'length')}`,
    allowed: `${say.measure('maxSpringOuterDiameter', 'length')} or less`,
    advice: 'choose a spring of a smaller diameter, or make more room',
  }),
  perchOutOfRange: (say) => ({
    problem: 'the perch setting for ride height is outside the range of the perch',
    got: `a setting of ${say.measure('setting', 'length')}`,
    allowed: `${say.measure('min', 'length')} to ${say.measure('max', 'length')}`,
    advice: 'choose a spring of another free length, a spacer under it, or a perch with more thread',
  }),
  perchWithoutFreeLength: () => ({
    problem: 'the perch setting is not used, because the free length of the spring is not known',
    advice: 'list the spring that is fitted under springs',
  }),
};
