import { quantityIn, textIn, type Units } from '../units.ts';
import { figure, spaced } from '../words.ts';
import { DESIGN } from './design.ts';
import { LOADS } from './loads.ts';
import type { PlainSay } from './plain.ts';
import type { Say, Sentences } from './say.ts';

/** A quantity of an objective in words, its unit in the library's units, and its decimals. */
const QUANTITIES: Readonly<Record<string, readonly [label: string, unit: string, decimals: number]>> = {
  designRatio: ['installation ratio at design ride height', '', 4],
  ratioChange: ['change of the installation ratio from droop to bump', '', 4],
  minLength: ['shortest length, eye to eye', 'mm', 1],
  maxLength: ['longest length, eye to eye', 'mm', 1],
  inclination: ['inclination of the coilover at design ride height', 'deg', 1],
  strokeFraction: ['fraction of the stroke used', '', 4],
  springRate: ['spring rate', 'N/mm', 2],
  jointForce: ['force', 'N', 0],
};

const STATIONS: Readonly<Record<string, string>> = { design: 'design ride height' };

/** The goal of a design's objective, in the library's units. */
export interface Goal {
  readonly quantity: string;
  readonly joint?: string | null;
  readonly station?: string | null;
  readonly target?: number | null;
  readonly min?: number | null;
  readonly max?: number | null;
}

/** What an objective is about: `spring rate`, `force in lowerOuter at bump`. */
export function objectiveLabel({ quantity, joint, station }: Goal): string {
  const [label] = QUANTITIES[quantity];
  if (joint == null) return label;
  return `${label} in ${joint} at ${STATIONS[station ?? 'design'] ?? station}`;
}

/** A value of a quantity with its unit. */
export function objectiveText({ quantity }: Pick<Goal, 'quantity'>, value: number, units: Units): string {
  const [, unit, decimals] = QUANTITIES[quantity];
  const kind = quantityIn(unit);
  if (kind !== null && units !== 'metric') return textIn(value, kind, units);
  return `${figure(value, decimals)}${unit === '' ? '' : ` ${unit}`}`;
}

/** A goal: `0.62`, `at most 20 deg`, `300 mm to 380 mm`. */
export function goalText(goal: Goal, units: Units): string {
  const written = (value: number) => objectiveText(goal, value, units);
  const { target = null, min = null, max = null } = goal;
  if (target !== null) return written(target);
  if (min === null) return `at most ${written(max ?? Number.NaN)}`;
  return max === null ? `at least ${written(min)}` : `${written(min)} to ${written(max)}`;
}

/** Its goal, value as drawn, value now. */
function objective(say: Say): string {
  const optional = (name: string) => (say.has(name) ? say.number(name) : null);
  const goal: Goal = {
    quantity: say.text('quantity'),
    joint: say.has('joint') ? say.text('joint') : null,
    station: say.has('station') ? say.text('station') : null,
    target: optional('target'),
    min: optional('min'),
    max: optional('max'),
  };
  return `${objectiveLabel(goal)}: goal ${goalText(goal, say.units)}, ${written(say, 'initial')} as drawn, ${written(say, 'achieved')} now`;
}

function written(say: Say, name: string): string {
  return objectiveText({ quantity: say.text('quantity') }, say.number(name), say.units);
}

/** How far it is off, and what was nearer. */
function offGoal(say: Say): string {
  const [quantity, deviation] = [say.text('quantity'), say.number('deviation')];
  const off = `${objectiveText({ quantity }, Math.abs(deviation), say.units)} too ${deviation > 0 ? 'much' : 'little'}`;
  return !say.has('nearest') || written(say, 'nearest') === written(say, 'achieved')
    ? off
    : `${off}; the nearest of all corners tried that keep their clearances is ${written(say, 'nearest')}`;
}

/** `spring to upper arm`. */
const parts = (say: PlainSay) => `${spaced(say.text('of'))} to ${spaced(say.text('to'))}`;
const missed = (say: PlainSay) => `${say.text('missed')} of ${say.text('goals')}`;

/** Why corners can't be judged. */
const REASONS: Sentences = { ...LOADS, ...DESIGN };

function problemOf(say: Say): string {
  const words = REASONS[say.text('reason')];
  return (typeof words === 'function' ? words(say) : words).problem;
}

/** What is said about what a design came to. */
export const DESIGNED: Sentences = {
  targetsMet: (say) => ({
    problem: say.number('goals') === 1 ? 'the goal is met' : `all ${say.text('goals')} goals are met`,
  }),
  targetUnreachable: (say) => ({
    problem:
      say.number('goals') === 1
        ? 'the goal is unreachable: no corner was found that meets it'
        : `not all goals can be met together: ${missed(say)} are missed`,
  }),
  clearanceUnreachable: {
    problem:
      'no corner was found that keeps all clearances; this is the one with the smallest shortfall, whatever its values',
  },
  evaluationLimit: (say) => ({
    problem: `the search reached its limit of evaluations: ${missed(say)} goals are missed, and may come nearer`,
  }),
  cancelled: (say) => ({
    problem: `cancelled: this is the best of the ${say.text('trials')} ${say.number('trials') === 1 ? 'corner' : 'corners'} tried so far`,
  }),
  objectiveMet: (say) => ({ problem: `${objective(say)}: met` }),
  objectiveMissed: (say) => ({ problem: `${objective(say)}: ${offGoal(say)}` }),
  coordinateAtMin: (say) => ({
    problem: `${spaced(say.text('coordinate'))} is at its minimum, ${say.measure('at', 'length')}`,
  }),
  coordinateAtMax: (say) => ({
    problem: `${spaced(say.text('coordinate'))} is at its maximum, ${say.measure('at', 'length')}`,
  }),
  clearanceUsedUp: (say) => ({
    problem: `${parts(say)} is down to its clearance of ${say.measure('distance', 'length')} at a travel of ${say.measure('travel', 'length')}`,
  }),
  clearanceShort: (say) => ({
    problem: `${parts(say)} is ${say.measure('shortfall', 'length')} short of its clearance of ${say.measure('distance', 'length')} at a travel of ${say.measure('travel', 'length')}`,
  }),
  cornersNotJudged: (say) => ({
    problem: `${say.text('count')} of the ${say.text('trials')} corners tried could not be judged: ${problemOf(say)}`,
  }),
  searchesUnfinished: (say) => ({
    problem: `${say.text('unfinished')} of ${say.text('searches')} searches reached their limit of evaluations`,
  }),
  noProof: {
    problem: 'this is what the searches found, no proof that no other place in the boxes does better',
    advice: 'more starts look at more places',
  },
};
