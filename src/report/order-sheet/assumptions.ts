// What the sizing assumes, and what each assumption would change: in figures where the sizing has them.

import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { sentence } from '../../sentences/sentence.ts';
import { type Block, heading, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

export function assumptionsPart({ assumptions, axles, units }: Sizing, paper: OnPaper): Block[] {
  return [
    heading(2, 'Assumptions'),
    table(
      'Assumptions',
      ['assumption', 'what it changes'],
      assumptions.map((one) => [sentence(one, units), CHANGES[one.code]?.(axles, paper) ?? '']),
      [],
    ),
  ];
}

/** A figure of each axle that has it: `2.1 % at the front, 3.0 % at the rear`. */
function ofEach(axles: readonly AxleSizing[], say: (axle: AxleSizing) => string | null): string | null {
  const found = axles.flatMap((sized) => {
    const text = say(sized);
    return text === null ? [] : [`${text} at the ${axleName(sized.axle).toLowerCase()}`];
  });
  return found.length === 0 ? null : found.join(', ');
}

/** The size of a length of each axle. */
function lengthOfEach(axles: readonly AxleSizing[], name: AxleFigureName, paper: OnPaper): string | null {
  return ofEach(axles, ({ figure }) => {
    const { value } = figure(name);
    return value === null ? null : paper.both(Math.abs(value), 'length');
  });
}

type Change = (axles: readonly AxleSizing[], paper: OnPaper) => string;

const CHANGES: Readonly<Record<string, Change>> = {
  linksIdeal: () =>
    'Bushings, arms and brackets that flex lower the wheel rate and the frequency. Friction holds the wheel until it is overcome.',
  sidesAveraged: (axles, paper) => {
    const difference = lengthOfEach(axles, 'leftRightHeightDifference', paper);
    return difference === null
      ? 'Each side has a rate, a preload and a frequency of its own.'
      : `With both perches alike the two sides would differ in height by ${difference}.`;
  },
  cornersUncoupled: () =>
    'Exact where pitch inertia = sprung mass × distance to the front axle × distance to the rear axle. With less inertia the car pitches at a higher frequency.',
  thirdSpringCounted: () =>
    'A wheel that moves alone has about half of that rate from the third spring, roll has none: frequency, damping ratio and wheel rate are those of both wheels alike.',
  rollSpringCounted: () => 'Roll stiffness, roll gradient, and the travel that a corner takes.',
  gasForceConstant: (axles) => {
    const share = ofEach(axles, ({ figure }) => {
      const [gas, axial] = [figure('gasForce').value, figure('staticAxialForce').value];
      return !gas || !axial ? null : `${((100 * gas) / axial).toFixed(0)} %`;
    });
    return `The gas force rises as the shaft goes in, most with a small gas volume.${share === null ? '' : ` At ride height gas gives ${share} of the axial force.`}`;
  },
  travelCasesAssumed: () => 'Required travel changes by as much as its parts: see the travel cases.',
  downforceWithSpeedSquared: (axles, paper) => {
    const loss = lengthOfEach(axles, 'topSpeedRideHeightLoss', paper);
    return `Ride height at speed, and the travel left there.${loss === null ? '' : ` Lost at top speed: ${loss}; about a tenth more for a tenth more downforce.`}`;
  },
  coiloverAlongStrut: () => 'A spring set at an angle to the strut has a ratio of its own.',
  rateStepAssumed: () => 'The next rates available, and so the spring rate chosen and its frequency.',
  compressionFractionAssumed: () => 'Both forces of the damper; their mean follows the damping ratio.',
  highSpeedFractionAssumed: () => 'The forces above the knee, in proportion to the slope.',
  damperFromTravel: () =>
    'Another damper has other lengths and another stroke, and may stop the wheel elsewhere.',
  minLengthTaken: () => 'The spring travel available, and so whether the spring fits.',
  loadFactorsAssumed: () =>
    'The wheel load of each case is proportional to its factor; the joint loads follow. Braking adds forces that no case counts.',
};
