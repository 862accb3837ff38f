// A car file to fill in, or one of tape readings: an invented car in which every part has a note. The numbers are there to be replaced.

import { existsSync } from 'node:fs';
import type { Units } from '../index.ts';
import { fromMetric, type Quantity, unitName } from '../units.ts';
import { unitsOf, write } from './files.ts';
import type { Given } from './job.ts';
import { FileFault, folded, print } from './terminal.ts';

export function run({ operands: [file], options }: Given): number {
  const units = unitsOf(options.units, 'metric');
  const text = `${pretty(options.survey ? startSurvey(units) : startCar(units))}\n`;
  if (file === undefined) {
    print(text.trimEnd());
    return 0;
  }
  if (existsSync(file)) {
    throw new FileFault(
      folded([
        'This file is there already.',
        `  found:    ${file}`,
        '  required: a name that is not taken',
        '  fix:      give another name; nothing was written',
      ]),
    );
  }
  print(
    `Written: ${write('.', file, text)}. Replace its numbers with yours, then: jounce ${options.survey ? 'survey' : 'order'} ${file}`,
  );
  return 0;
}

/** Steps to which numbers are rounded: what a tape, a scale and a catalogue give. */
const STEPS: Partial<Record<Quantity, Readonly<Record<Units, number>>>> = {
  length: { metric: 1, imperial: 1 / 16 },
  mass: { metric: 1, imperial: 1 },
  rate: { metric: 1, imperial: 5 },
};

/** The document, in the units asked for. */
function startCar(units: Units) {
  const rounded = (quantity: Quantity) => (value: number) => {
    const step = STEPS[quantity]?.[units] ?? 1;
    return Math.round(fromMetric(value, quantity, units) / step) * step;
  };
  const [mm, kg, rate] = [rounded('length'), rounded('mass'), rounded('rate')];
  const at = (y: number, z: number) => [mm(y), mm(z)];
  const names = { length: unitName('length', units), mass: unitName('mass', units) };
  const corner = (outboard: number) => ({
    notes: 'Points as measured with the car level at ride height. Shock mounts: centre of the bolt.',
    lowerArm: { inner: at(245, 150), outer: at(620 + outboard, 140) },
    upperArm: { inner: at(300, 340), outer: at(580 + outboard, 360) },
    wheel: { centre: at(685 + outboard, 282), camber: -0.5 },
    coilover: { on: 'lowerArm', mount: at(495 + outboard, 165), chassisMount: at(350, 470) },
    limits: {
      notes: 'What can end the travel. Leave out what you do not know.',
      tyre: '185/60R14',
      required: { bump: mm(60), droop: mm(50) },
    },
    sizing: {
      notes: `Unsprung mass of one corner: wheel, tyre, hub, brake, half of the arms. Frequency in Hz at ride height.`,
      unsprungMass: { value: kg(28), plusMinus: kg(4) },
      target: { frequency: 1.6 },
      tyreRate: { value: rate(180), plusMinus: rate(30) },
      damping: { ratio: 0.35 },
      order: {
        bodyEnd: 'up',
        mounts: {
          mount: { type: 'eye', bore: mm(12) },
          chassis: { type: 'eye', bore: mm(12) },
        },
      },
    },
  });
  return {
    formatVersion: 1,
    units,
    name: 'My car',
    use: 'Road.',
    notes: [
      'The numbers of this file are those of an invented car: replace them with yours, or take out what you do not know. What stays goes to the maker as yours: bodyEnd and bores too.',
      `Lengths in ${names.length}, masses in ${names.mass}, angles in degrees.`,
      'Points are [y, z] at ride height, car level, seen from the front: y from the centreline of the car out to the left-hand wheel, z from the ground up.',
      'A number that is not certain is written { "value": 300, "plusMinus": 20 }: 95 % sure to lie between 280 and 320.',
      'travelCases: cornering and braking in g, and the bump and the dip that a wheel must take as well.',
      'What you do not know under limits and sizing you can leave out, and the rear as well.',
    ],
    masses: {
      notes:
        'Of the car without driver and luggage. frontFraction is the share on the front wheels. Height of the sprung centre of gravity above the ground.',
      estimate: {
        total: { value: kg(640), plusMinus: kg(30) },
        frontFraction: { value: 0.46, plusMinus: 0.02 },
      },
      added: [
        { name: 'driver', mass: { value: kg(80), plusMinus: kg(5) }, frontFraction: 0.45, leftFraction: 0.6 },
      ],
      sprungCentreOfGravityHeight: { value: mm(440), plusMinus: mm(30) },
      wheelbase: mm(2300),
    },
    travelCases: {
      lateralAcceleration: 0.9,
      deceleration: 0.9,
      roadBump: mm(25),
      roadDip: mm(25),
      margin: mm(5),
    },
    corners: { front: corner(0), rear: corner(6) },
  };
}

/** Readings of the front corner of that car, in the units asked for, as a tape and a ruler would have them. */
function startSurvey(units: Units) {
  const step = STEPS.length?.[units] ?? 1;
  const length = (mm: number) => Math.round(fromMetric(mm, 'length', units) / step) * step;
  /** Outboard, up, forward of the wheel's centre, mm. */
  const points: Readonly<Record<string, readonly [number, number, number]>> = {
    lowerFront: [245, 150, 120],
    lowerRear: [245, 150, -170],
    lowerOuter: [620, 140, 0],
    upperFront: [300, 340, 90],
    upperRear: [300, 340, -110],
    upperOuter: [580, 360, 0],
    wheelCentre: [685, 282, 0],
    contactPatch: [687, 0, 0],
    shockMount: [495, 165, 0],
    shockChassisMount: [350, 470, 0],
  };
  const tape = (a: string, b: string) => ({
    between: [a, b],
    value: length(Math.hypot(...points[a].map((at, axis) => at - points[b][axis]))),
  });
  const entries = Object.entries(points);
  return {
    formatVersion: 1,
    units,
    name: 'Front corner',
    notes: [
      'The readings of this file are those of an invented corner: replace them with yours, left-hand wheel, car level at ride height.',
      `Lengths in ${unitName('length', units)}. estimate: [outboard, up] from a rough sketch; x: forward of the plane of the wheel centre, negative behind it.`,
      'Read more than is needed: each reading too many checks the others. One that is less certain has a plusMinus of its own.',
      'lowerFront, lowerRear: the bushes of the lower arm, as far apart as they are; lowerInner follows from them. Leave both names as they are, and those of the other points.',
    ],
    points: {
      ...Object.fromEntries(
        entries.map(([name, [y, z, x]]) => [
          name,
          { estimate: [length(y), length(z)], ...(x === 0 ? {} : { x: length(x) }) },
        ]),
      ),
      lowerInner: { pivotAxis: ['lowerFront', 'lowerRear'] },
      upperInner: { pivotAxis: ['upperFront', 'upperRear'] },
    },
    distances: [
      tape('lowerFront', 'lowerOuter'),
      tape('lowerRear', 'lowerOuter'),
      tape('lowerFront', 'lowerRear'),
      tape('upperFront', 'upperOuter'),
      tape('upperRear', 'upperOuter'),
      tape('upperFront', 'upperRear'),
      tape('lowerOuter', 'upperOuter'),
      tape('shockMount', 'shockChassisMount'),
      tape('shockMount', 'lowerOuter'),
      tape('lowerFront', 'upperFront'),
      tape('wheelCentre', 'lowerOuter'),
      tape('wheelCentre', 'upperOuter'),
    ],
    heights: entries
      .filter(([name]) => name !== 'contactPatch')
      .map(([of, [, z]]) => ({ of, value: length(z) })),
    laterals: entries.map(([of, [y]]) => ({ of, value: length(y) })),
  };
}

/** JSON with the points of a car on one line each. */
function pretty(document: unknown): string {
  return JSON.stringify(document, null, 2).replace(/\[\s+(-?[\d.]+),\s+(-?[\d.]+)\s+\]/g, '[$1, $2]');
}
