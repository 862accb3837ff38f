// What a whole car has beside its corners: masses, wheelbase, height of the centre of gravity. Bounds are common practice for
// cars, no source, and generous.

import type { Diagnostic } from '../../diagnostic.ts';
import type { Units } from '../../units.ts';
import type { CarSizingFile } from '../inputs.ts';
import { type Certain, certain } from '../uncertain.ts';
import { type CheckRule, type Found, notesBy } from './check.ts';
import { isWithin, outside, type Range, unitMeant } from './ranges.ts';

/** A car that is looked at: in the library's units, as numbers and as written, with half-widths. */
interface CarSubject {
  readonly masses: Certain<CarSizingFile>['masses'];
  readonly written: CarSizingFile['masses'];
  readonly units: Units;
}

/** Mass of a whole car, kg: below it is lighter than almost any, or in another unit; above heavier. */
const TOTAL = { least: 400, most: 2500 };
/** A scale reads less than this share of the median of the others, or more than its inverse: a digit is missing or too many. */
const SCALE_SHARE = 0.35;
/** Nobody estimates the mass of a car more closely, as a share. */
const SUREST = 0.005;

const LENGTHS: readonly Range<CarSubject>[] = [
  {
    what: 'wheelbase',
    least: 1400,
    most: 4500,
    of: ({ masses }) => [['masses.wheelbase', masses?.wheelbase]],
  },
  {
    what: 'height',
    least: 150,
    most: 1000,
    of: ({ masses }) => [['masses.sprungCentreOfGravityHeight', masses?.sprungCentreOfGravityHeight]],
  },
];

/** The table; sentences by code in `sentences/checks.ts`. */
const CAR_CHECKS: readonly CheckRule<CarSubject>[] = [
  { code: 'scaleReadingOff', severity: 'check', find: oddScales },
  { code: 'partsIncomplete', severity: 'check', find: lightParts },
  {
    code: 'totalMassUnusual',
    severity: 'check',
    find: oddTotal,
    unless: ['scaleReadingOff', 'partsIncomplete'],
  },
  { code: 'massTooSure', severity: 'check', find: tooSure },
  outside('length', { code: 'sizeUnusual', severity: 'check' }, LENGTHS),
];

/** What of a car, but for its corners, should be looked at again; `sizing` is in the library's units. */
export function carNotes(sizing: CarSizingFile, units: Units): Diagnostic[] {
  const subject = { masses: certain(sizing).masses, written: sizing.masses, units };
  return notesBy(CAR_CHECKS, subject, '');
}

const WHEELS = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'] as const;

function oddScales({ masses }: CarSubject): Found[] {
  const scales = masses?.scales;
  if (scales === undefined) return [];
  return WHEELS.flatMap((wheel) => {
    const reading = scales[wheel];
    const [, others] = WHEELS.filter((other) => other !== wheel)
      .map((other) => scales[other])
      .sort((a, b) => a - b);
    if (isWithin(reading / others, SCALE_SHARE, 1 / SCALE_SHARE)) return [];
    return [{ path: `masses.scales.${wheel}`, values: { reading, others } }];
  });
}

function sumOf(parts: readonly { readonly mass: number }[]): number {
  return parts.reduce((sum, { mass }) => sum + mass, 0);
}

function lightParts({ masses, units }: CarSubject): Found[] {
  const parts = masses?.parts;
  if (parts === undefined) return [];
  const total = sumOf(parts);
  if (total >= TOTAL.least) return [];
  const unit = unitMeant([{ value: total, ...TOTAL }], 'mass', units);
  return [{ path: 'masses.parts', values: { total, count: parts.length, least: TOTAL.least, unit } }];
}

/** The mass of the car, what comes on top left out. */
function oddTotal({ masses, units }: CarSubject): Found[] {
  const { estimate, scales, parts } = masses ?? {};
  const looked: [string, number | undefined][] = [
    ['masses.estimate.total', estimate?.total],
    ['masses.parts', parts && sumOf(parts)],
    ['masses.scales', scales && WHEELS.reduce((sum, wheel) => sum + scales[wheel], 0)],
  ];
  return looked.flatMap(([path, total]): Found[] => {
    if (total === undefined || isWithin(total, TOTAL.least, TOTAL.most)) return [];
    return [
      { path, values: { total, ...TOTAL, unit: unitMeant([{ value: total, ...TOTAL }], 'mass', units) } },
    ];
  });
}

function tooSure({ written }: CarSubject): Found[] {
  const total = written?.estimate?.total;
  if (typeof total !== 'object' || total.plusMinus === 0 || total.plusMinus >= SUREST * total.value)
    return [];
  const { value, plusMinus } = total;
  return [
    { path: 'masses.estimate.total.plusMinus', values: { plusMinus, total: value, usual: 0.05 * value } },
  ];
}
