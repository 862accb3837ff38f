import type { Say, Sentences } from './say.ts';

const wheel = (say: Say) => `${say.text('axle')} ${say.text('side')}`;
/** Low where bump is taken up. */
const low = (say: Say) => (say.number('staticTravel') > 0 ? 'low' : 'high');
const named = (say: Say) => (say.text('name') === '' ? '' : `${say.text('name')}, `);
/** The way a perch goes, and what that does; with another spring the corner goes elsewhere too. */
const way = (say: Say) => {
  const [to, does] = say.is('towardsSpring')
    ? ['towards the spring', ' (raises the corner)']
    : ['away from the spring', ' (lowers the corner)'];
  return `${to}${say.is('withNewSpring') ? '' : does}`;
};
const percent = (say: Say, name: string) => `${(100 * say.number(name)).toFixed(1)} %`;
const perch = (say: Say) => `the ${say.text('side')} ${say.text('axle')} perch`;
const withSpring = (say: Say) => (say.is('withNewSpring') ? 'with the new spring, ' : '');
const toSetting = (say: Say) =>
  say.text('setting') === 'null' ? '' : `, to a setting of ${say.measure('setting', 'length')}`;

/** What is said about what was ordered, load states and comparisons. */
export const ORDERED: Sentences = {
  wheelStands: (say) => ({
    problem: `the ${wheel(say)} corner stands ${say.measure('off', 'length')} ${low(say)} with what is fitted`,
  }),
  wheelStandsOnLimit: (say) => ({
    problem: `the ${wheel(say)} corner rests on its ${say.text('limit')} limit with what is fitted`,
  }),
  resetPerchOff: (say) => ({
    problem: `the perches are given as reset to ride height, but the setting given puts the ${wheel(say)} corner ${say.measure('off', 'length')} ${low(say)}`,
    advice: 'measure the perch setting and the spring again, or give the perches as untouched',
  }),
  changeSpring: (say) => ({
    problem: `change the ${say.text('axle')} spring to ${named(say)}${say.measure('rate', 'rate')}: the target requires ${say.measure('required', 'rate')}, ${say.measure('fitted', 'rate')} is fitted`,
  }),
  changeSpringForTravel: (say) => ({
    problem: `change the ${say.text('axle')} spring to ${named(say)}${say.measure('rate', 'rate')}: the one that is fitted has too little travel`,
  }),
  newSpringLengths: (say) => ({
    problem: `choose the new ${say.text('axle')} spring with a free length of ${say.measure('freeLength', 'length')} and a minimum permissible length of at most ${say.measure('maxMinLength', 'length')}`,
  }),
  newSpringDoesNotFit: (say) => ({
    problem: `no spring fits: ${named(say)}${say.measure('rate', 'rate')} is the nearest to the target, and does not fit either`,
    advice: 'list more springs, or change the target',
  }),
  crossWeightAimed: (say) => ({
    problem: `the cross weight on the scales is ${percent(say, 'weighed')}, and the settings wheel by wheel keep it; for ${percent(say, 'after')} at design ride height take these in their place, all four at once`,
  }),
  crossWeightOutOfReach: (say) => ({
    problem: `no setting of the perches gives a cross weight of ${percent(say, 'after')}, which is ${percent(say, 'weighed')} on the scales`,
    advice: 'move weight across the car, or accept another cross weight',
  }),
  crossWeightNotCarried: (say) => ({
    problem: `the spring of the ${wheel(say)} wheel has not the travel for that cross weight`,
    advice: 'fit a longer or a stiffer spring',
  }),
  crossWeightBeyondThread: (say) => ({
    problem: `${perch(say)} does not reach ${say.measure('setting', 'length')}, which that cross weight takes`,
    advice: 'accept another cross weight, or fit a spring of another free length',
  }),
  perchTurn: (say) => ({
    problem: `${withSpring(say)}turn ${perch(say)} ${say.number('turns').toFixed(1)} turns ${way(say)}, ${say.measure('move', 'length')}${toSetting(say)}`,
  }),
  perchMove: (say) => ({
    problem: `${withSpring(say)}move ${perch(say)} ${say.measure('move', 'length')} ${way(say)}${toSetting(say)}`,
  }),
  perchStays: (say) => ({
    problem: `leave ${perch(say)} as it is`,
  }),
  perchSet: (say) => ({
    problem: `set ${perch(say)} to ${say.measure('setting', 'length')} (eye-to-eye length minus spring length)`,
  }),
  perchSettingUnknown: (say) => ({
    problem: `the perch setting at the ${wheel(say)} wheel is not known: the turns cannot be given`,
    advice:
      'measure the distances of both spring seats from the eyes beside them, and give the free length of the spring',
  }),
  dampingOffTarget: (say) => ({
    problem: `the ${say.text('axle')} valving as bought gives a damping ratio of ${say.measure('ratio', 'ratio', 'target')} at ride height`,
    allowed: `${say.measure('target', 'ratio', 'ratio')}, at a mean low-speed damping of ${say.measure('requiredDamping', 'damping')}`,
    advice: 'turn the adjusters, or have the damper revalved',
  }),
  perchOutOfThread: (say) => ({
    problem: `the ${wheel(say)} perch does not reach ride height: the corner stands ${say.measure('off', 'length')} ${low(say)} at the end of the thread`,
    got: `a setting of ${say.measure('setting', 'length')}`,
    allowed: say.measure('required', 'length'),
    advice: 'choose a spring of another free length, or a spacer under it',
  }),
  rideHeightNotCarried: (say) => ({
    problem: `the ${say.text('axle')} spring cannot carry the ${say.text('side')} corner at ride height`,
    got: `a sprung mass of ${say.measure('sprungMass', 'mass')}`,
    advice: 'choose a spring with more travel or a higher rate, or correct gas force and masses',
  }),
  boughtTravelShort: (say) => ({
    problem: `the coilover as bought leaves the ${wheel(say)} wheel ${say.measure('short', 'length')} short of the required ${say.text('direction')} travel, with the perch set for ride height`,
    advice: 'require less travel, or accept contact with the limit; spring and perch cannot cure it',
  }),
  boughtSpringTravelShort: (say) => ({
    problem: `the ${say.text('axle')} spring reaches its minimum permissible length before the bump limit at the ${say.text('side')} wheel`,
    got: `${say.measure('short', 'length')} too little spring travel`,
    advice: 'choose a longer spring, or one with a shorter minimum permissible length',
  }),
  loadStateWithoutMass: (say) => ({
    problem: `no sprung mass is left at the ${say.text('axle')} axle in the load state "${say.text('state')}"`,
    advice: 'check the loads of that state and the unsprung mass',
  }),
  loadStateOnLimit: (say) => ({
    problem: `in the load state "${say.text('state')}" the ${say.text('axle')} axle rests on its ${say.text('side')} limit`,
    got: `${say.measure('staticTravel', 'length')} of travel from design ride height`,
    advice: 'choose a stiffer spring, or more travel',
  }),
  loadStateOnBumpStop: (say) => ({
    problem: `in the load state "${say.text('state')}" the ${say.text('axle')} axle rides on its bump stop at rest`,
    got: `${say.measure('compression', 'length')} of wheel travel past contact`,
    advice: 'choose a stiffer spring or a shorter bump stop, or raise the perch for that load',
  }),
};
