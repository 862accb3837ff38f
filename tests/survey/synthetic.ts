/** A corner that is known, and what tape, ruler and angle finder read on it: computed here, not by the library. */

import type { SurveyInput } from 'jounce';
import { normal, uniform } from '../../src/numerics/random.ts';
import { deepFreeze } from '../support/freeze.ts';

type Spot = readonly [x: number, y: number, z: number];

/** Where all points are, mm: x forward of the wheel centre, y outboard, z up. */
export const TRUTH: Readonly<Record<string, Spot>> = deepFreeze({
  // The axis of the lower arm, through [255, 165] in the plane of the wheel centre.
  lowerFront: [120, 247, 163],
  lowerRear: [-180, 267, 168],
  lowerOuter: [-8, 640, 150],
  // The axis of the upper arm, through [310, 355].
  upperFront: [90, 306.4, 352.3],
  upperRear: [-110, 314.4, 358.3],
  upperOuter: [12, 600, 375],
  wheelCentre: [0, 705, 312],
  contactPatch: [0, 707.7, 0],
  shockMount: [15, 505, 170],
  shockChassisMount: [40, 345, 480],
});

/** First guesses from a rough sketch. */
const SKETCH: Readonly<Record<string, readonly [number, number]>> = {
  lowerFront: [240, 170],
  lowerRear: [260, 180],
  lowerOuter: [650, 140],
  upperFront: [300, 340],
  upperRear: [320, 350],
  upperOuter: [590, 390],
  wheelCentre: [700, 300],
  contactPatch: [700, 10],
  shockMount: [500, 190],
  shockChassisMount: [330, 500],
};

const DEGREES = 180 / Math.PI;

/** What is read without any error, and the half-width of each kind. */
const PLUS_MINUS = {
  distances: 1.5,
  heights: 2,
  laterals: 3,
  inclinations: 0.3,
  slopes: 0.3,
  collinear: 1.5,
} as const;

function distance(a: string, b: string): number {
  const [p, q] = [TRUTH[a], TRUTH[b]];
  return Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
}

/** From horizontal in front view, of the end that lies outboard, up positive. */
function slope(inboard: string, outboard: string): number {
  const [[, y, z], [, oy, oz]] = [TRUTH[inboard], TRUTH[outboard]];
  return Math.atan((oz - z) / (oy - y)) * DEGREES;
}

/** From vertical in front view, top inboard positive. */
function lean(bottom: string, top: string): number {
  const [[, y, z], [, ty, tz]] = [TRUTH[bottom], TRUTH[top]];
  return Math.atan((y - ty) / (tz - z)) * DEGREES;
}

const DISTANCES = [
  ['lowerFront', 'lowerOuter'],
  ['lowerRear', 'lowerOuter'],
  ['upperFront', 'upperOuter'],
  ['upperRear', 'upperOuter'],
  ['lowerOuter', 'upperOuter'],
  ['lowerOuter', 'wheelCentre'],
  ['upperOuter', 'wheelCentre'],
  ['wheelCentre', 'contactPatch'],
  ['lowerFront', 'shockMount'],
  ['lowerRear', 'shockMount'],
  ['lowerOuter', 'shockMount'],
  ['shockMount', 'shockChassisMount'],
  ['upperFront', 'shockChassisMount'],
  ['lowerFront', 'upperFront'],
  ['lowerRear', 'upperRear'],
] as const;
const HEIGHTS = [
  'lowerFront',
  'lowerRear',
  'upperFront',
  'upperRear',
  'lowerOuter',
  'wheelCentre',
  'contactPatch',
  'shockChassisMount',
];
const LATERALS = ['lowerFront', 'lowerRear', 'upperFront', 'upperRear', 'wheelCentre', 'shockChassisMount'];

/** The survey with each reading off by an error of its own; 0 for every one: exact. */
export function surveyWith(errorOf: (plusMinus: number) => number) {
  const read = (value: number, kind: keyof typeof PLUS_MINUS) => ({
    value: value + errorOf(PLUS_MINUS[kind]),
    plusMinus: PLUS_MINUS[kind],
  });
  const estimates = Object.entries(SKETCH).map(([name, estimate]) => [name, { estimate, x: TRUTH[name][0] }]);
  return {
    points: {
      ...Object.fromEntries(estimates),
      lowerInner: { pivotAxis: ['lowerFront', 'lowerRear'] as const },
      upperInner: { pivotAxis: ['upperFront', 'upperRear'] as const },
    },
    distances: DISTANCES.map(([a, b]) => ({
      between: [a, b] as [string, string],
      ...read(distance(a, b), 'distances'),
    })),
    heights: HEIGHTS.map((of) => ({ of, ...read(TRUTH[of][2], 'heights') })),
    laterals: LATERALS.map((of) => ({ of, ...read(TRUTH[of][1], 'laterals') })),
    inclinations: [
      {
        line: ['shockMount', 'shockChassisMount'],
        ...read(lean('shockMount', 'shockChassisMount'), 'inclinations'),
      },
      { line: ['upperOuter', 'lowerOuter'], ...read(lean('lowerOuter', 'upperOuter'), 'inclinations') },
      { line: ['contactPatch', 'wheelCentre'], ...read(lean('contactPatch', 'wheelCentre'), 'inclinations') },
    ],
    slopes: [{ line: ['lowerFront', 'lowerOuter'], ...read(slope('lowerFront', 'lowerOuter'), 'slopes') }],
  } satisfies SurveyInput;
}

/** Where the hardpoints are in the plane of the corner, [y, z]. */
export const HARDPOINTS: Readonly<Record<string, readonly [number, number]>> = {
  lowerInner: [255, 165],
  upperInner: [310, 355],
  ...Object.fromEntries(
    ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch', 'shockMount', 'shockChassisMount'].map(
      (name) => [name, [TRUTH[name][1], TRUTH[name][2]] as const],
    ),
  ),
};

/** Fewer points, all in the plane, as a car with its wheel off is measured in an afternoon. */
export function planeSurvey(errorOf: (plusMinus: number) => number) {
  const names = Object.keys(HARDPOINTS).filter((name) => name !== 'contactPatch');
  const read = (value: number, plusMinus: number) => ({ value: value + errorOf(plusMinus), plusMinus });
  const apart = (a: string, b: string) =>
    Math.hypot(HARDPOINTS[b][0] - HARDPOINTS[a][0], HARDPOINTS[b][1] - HARDPOINTS[a][1]);
  const between: [string, string][] = [
    ['lowerInner', 'lowerOuter'],
    ['upperInner', 'upperOuter'],
    ['lowerOuter', 'upperOuter'],
    ['lowerOuter', 'wheelCentre'],
    ['upperOuter', 'wheelCentre'],
    ['lowerInner', 'upperInner'],
    ['lowerInner', 'shockMount'],
    ['lowerOuter', 'shockMount'],
    ['shockMount', 'shockChassisMount'],
    ['upperInner', 'shockChassisMount'],
    ['lowerInner', 'shockChassisMount'],
    ['lowerInner', 'upperOuter'],
  ];
  return {
    points: Object.fromEntries(
      names.map((name, k) => {
        const [y, z] = HARDPOINTS[name];
        return [name, { estimate: [y + (k % 3) - 1, z + (k % 2)] as [number, number] }];
      }),
    ),
    distances: between.map(([a, b]) => ({ between: [a, b] as [string, string], ...read(apart(a, b), 1.5) })),
    heights: names.map((of) => ({ of, ...read(HARDPOINTS[of][1], 2) })),
    laterals: ['lowerInner', 'wheelCentre', 'shockChassisMount'].map((of) => ({
      of,
      ...read(HARDPOINTS[of][0], 3),
    })),
    inclinations: [
      {
        line: ['shockMount', 'shockChassisMount'] as [string, string],
        ...read(lean('shockMount', 'shockChassisMount'), 0.3),
      },
    ],
  } satisfies SurveyInput;
}

/** Errors as large as the readings say, normal, the same for the same seed. */
export function errors(seed: number): (plusMinus: number) => number {
  const next = normal(uniform(seed));
  return (plusMinus) => (next() * plusMinus) / 1.96;
}
