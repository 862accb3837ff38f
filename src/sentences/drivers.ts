import { counted } from '../words.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about several drivers along one parameter. */
export const DRIVERS: PlainSentences = {
  ...LINKAGE,
  driverAndDrivers: {
    problem: 'a driver and several drivers',
    advice: 'put it into the list, or take one out',
  },
  notASchedule: {
    problem: 'not a schedule',
    allowed: 'a function of u that gives [value, first derivative, second derivative]',
  },
  scheduleNotNumbers: (say) => ({
    problem: `not three finite numbers at u = ${Number(say.number('at').toPrecision(3))}`,
    allowed: '[value, first derivative, second derivative]',
  }),
  scheduleDerivatives: (say) => ({
    problem: `value and derivatives that do not fit each other near u = ${Number(say.number('at').toPrecision(3))}`,
    allowed: '[value, first derivative, second derivative], the value without jumps or kinks',
    advice: 'correct the derivatives, or trace the motion up to a kink and on from there',
  }),
  drawnPoseOffSchedule: (say) => ({
    problem: `not the drawn value at u = ${say.number('at')}, where the linkage is drawn`,
    allowed: say.text('drawn'),
    advice: 'bring the drawing to that value with `drive` first, or leave out `from`',
  }),
  driversForFreedoms: (say) => ({
    problem: `${counted(say.text('drivers'), 'driver')} and held measures for ${say.text('degreesOfFreedom')} degrees of freedom`,
    allowed: 'one for each degree of freedom in the drawn pose',
    advice: 'add drivers, hold measures with `hold`, or take some out; `mobility` names what can move',
  }),
  driversDependent: {
    problem: 'drivers that do not determine the motion in the drawn pose',
    advice: 'drive other measures, or draw the linkage in another pose',
  },
};
