import { worded } from '../../sentences/worded.ts';
import { textIn, type Units } from '../../units.ts';
import { LOAD_FACTORS } from '../forces/load-cases.ts';
import { ASSUMED_CLEARANCE } from '../springs/min-length.ts';
import { axleName, type CarInputs, isStrutUnit, ofAxle } from './inputs.ts';
import { commonRateStep } from './listed-springs.ts';
import { TRAVEL_CASES } from './required-travel.ts';
import type { AxleSizing } from './result.ts';

/** What was assumed. */
export function assumptionsOf({ car }: CarInputs, axles: readonly AxleSizing[], units: Units): string[] {
  const words = [
    'The corner is flat and rigid, its links weigh nothing and its joints have no friction; nothing steers.',
    'Each axle is sized for the mean of its two sides; a heavier side is levelled by its perch.',
    'Frequencies are those of one corner by itself: bounce and pitch are taken as uncoupled.',
    'The force of the gas does not change with the stroke.',
  ];
  const taken = Object.entries(TRAVEL_CASES).filter(
    ([name]) => car.travelCases?.[name as keyof typeof TRAVEL_CASES] === undefined,
  );
  if (taken.length > 0) {
    const written = (name: string, value: number) =>
      name === 'lateralAcceleration' || name === 'deceleration'
        ? `${value} g`
        : textIn(value, 'length', units);
    const list = taken.map(([name, value]) => `${CASE_WORDS[name]} ${written(name, value)}`);
    words.push(`Travel cases taken as common practice has them, without a source: ${list.join(', ')}.`);
  }
  if (car.downforce !== undefined) {
    words.push(
      'Downforce goes with the square of the speed at a fixed balance; ride height does not feed back on it.',
    );
  }
  for (const { axle, travelRequirement, damper, input } of axles) {
    if (isStrutUnit(input.corner)) {
      words.push(
        `${axleName(axle)}: spring and damper act along the strut; its lengths go from the top mount to the point that the file calls lowerMount.`,
      );
    }
    if (input.sizing?.target !== undefined && input.sizing.rateStep === undefined) {
      words.push(
        `${axleName(axle)}: springs are taken to be available in steps of ${textIn(commonRateStep(units), 'rate', units)} (common practice).`,
      );
    }
    for (const one of travelRequirement.omitted) {
      const { problem, allowed } = worded(one, units);
      words.push(`${axleName(axle)}: ${problem}, which needs ${allowed}.`);
    }
    if (damper !== null && !damper.specified) {
      words.push(
        `${axleName(axle)}: no damper was given; its lengths follow from the upper end of the required travel’s 95 % interval, in whole mm outward.`,
      );
    }
  }
  words.push(
    `Load cases for the joints take ${LOAD_FACTORS.bump} static wheel loads in full bump, ${LOAD_FACTORS.transfer} in a corner, ${LOAD_FACTORS.kerb} on a kerb: common practice, without a source.`,
  );
  return words;
}

const CASE_WORDS: Readonly<Record<string, string>> = {
  lateralAcceleration: 'cornering',
  deceleration: 'braking',
  roadBump: 'a bump of the road of',
  roadDip: 'a dip of',
  margin: 'a margin of',
};

/** What is still to be found out or settled: the user's own points, then what is missing. */
export function openQuestionsOf(inputs: CarInputs, axles: readonly AxleSizing[], units: Units): string[] {
  const { car } = inputs;
  const points = [...(car.openQuestions ?? [])];
  if (car.masses === undefined)
    points.push(
      'Masses of the car: not given. Where a corner has no sprungMass of its own its spring, preload and damping are to be agreed; roll and dive are not counted.',
    );
  else if (car.masses.estimate !== undefined) {
    points.push('Masses are estimated: weigh the car on four scales when it stands, and run this again.');
  }
  if (car.masses?.scales?.perches === 'untouched') {
    for (const { axle } of axles) {
      if (ofAxle(inputs, axle).sizing.perch?.setting === undefined) {
        points.push(
          `${axleName(axle)}: weighed with the perches untouched; measure perch.setting, or the ride height on the scales is not known.`,
        );
      }
    }
  }
  for (const { axle, spring, input } of axles) {
    const sizing = input.sizing;
    const { order } = sizing ?? {};
    const missing = [
      ...(sizing === undefined ? ['sizing (unsprung mass, target)'] : []),
      ...(sizing !== undefined && sizing.target === undefined ? ['target'] : []),
      ...(sizing !== undefined && sizing.tyreRate === undefined ? ['tyre rate'] : []),
      ...(sizing !== undefined && sizing.damping === undefined ? ['damping'] : []),
      ...(input.limits.bearings === undefined ? ['end bearings'] : []),
      ...(input.limits.bumpStop === undefined ? ['bump stop'] : []),
      ...(order?.mounts === undefined ? ['ends to order'] : []),
      ...(order?.bodyEnd === undefined && !isStrutUnit(input.corner) ? ['which way up the body lies'] : []),
      ...(order?.bodyDiameter === undefined ? ['diameter of the body, room for the spring'] : []),
      ...(order?.adjusters === undefined ? ['adjusters'] : []),
      ...(order?.lengthTolerance === undefined ? ['tolerances'] : []),
    ];
    if (missing.length > 0) points.push(`${axleName(axle)}: not given yet: ${missing.join(', ')}.`);
    if (spring !== null && spring.freeLength === null) {
      points.push(
        `${axleName(axle)}: the spring is a rate only; its free and minimum length are to be agreed, or list springs that you can buy.`,
      );
    }
    if (spring !== null && (spring.minLengthSource === 'estimated' || spring.minLengthSource === 'assumed')) {
      points.push(
        `${axleName(axle)}: the minimum permissible length of the spring is to be agreed with its maker; it is judged here with ${textIn(spring.minLength ?? 0, 'length', units)}, ${spring.minLengthSource === 'estimated' ? 'estimated from rate, solid length and inner diameter' : `the solid length and ${100 * ASSUMED_CLEARANCE} % of it`}.`,
      );
    }
  }
  return points;
}
