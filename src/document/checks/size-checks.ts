// Sizes, rates and masses of a corner that no car has, and the unit in which they may have been measured. Bounds are common
// practice for cars, no source, and generous.

import { apart, type Written } from '../written.ts';
import type { CheckRule, Found } from './check.ts';
import type { CornerSubject } from './corner-subject.ts';
import { isWithin, type Looked, outside, type Range, unitMeant } from './ranges.ts';

const LONG = { what: 'length', least: 60, most: 1000 };
const SHOCK = { least: 100, most: 900 };
const EYE = { least: 5, most: 30 };

/** A size between two points, if both are there. */
function between({ points }: CornerSubject, at: string, [from, to]: readonly [string, string]): Looked {
  const [a, b] = [points.get(from), points.get(to)];
  return [at, a && b && apart(a, b)];
}

/** Sizes of the drawing: in a wrong unit all of them are odd. */
function geometry({ kind }: CornerSubject): readonly Range<CornerSubject>[] {
  const arms = Object.entries(kind.arms).map(([at, ends]) => ({ ...LONG, at, between: ends }));
  const own = [...arms, ...kind.sizes].map(
    ({ at, between: ends, ...range }): Range<CornerSubject> => ({
      ...range,
      of: (subject) => [between(subject, at, ends)],
    }),
  );
  return [...own, ...WHEEL];
}

/** Where the wheel stands. */
const WHEEL: readonly Range<CornerSubject>[] = [
  {
    what: 'height',
    least: 100,
    most: 700,
    of: ({ corner: { wheel } }) => [['wheel.centre', wheel.centre[1] - (wheel.contactPatch?.[1] ?? 0)]],
  },
  {
    what: 'centrelineDistance',
    least: 250,
    most: 1500,
    of: ({ corner: { wheel } }) => [['wheel.centre', Math.abs(wheel.centre[0])]],
  },
];

/** Sizes beside the drawing. */
const OTHERS: readonly Range<CornerSubject>[] = [
  {
    what: 'endDistance',
    ...SHOCK,
    of(subject) {
      const [one, other] = [...subject.points.keys()].filter((path) => path.startsWith('coilover.'));
      return other === undefined ? [] : [between(subject, 'coilover', [one, other])];
    },
  },
  {
    what: 'length',
    ...SHOCK,
    of: ({ corner: { limits } }) => [
      ['limits.damper.extendedLength', limits?.damper?.extendedLength],
      ['limits.damper.compressedLength', limits?.damper?.compressedLength],
      ['limits.donor.length', limits?.donor?.length],
    ],
  },
  {
    what: 'freeHeight',
    least: 5,
    most: 150,
    of: ({ corner: { limits } }) => [['limits.bumpStop.height', limits?.bumpStop?.height]],
  },
  {
    what: 'travel',
    least: 0,
    most: 300,
    of: ({ corner: { limits } }) => [
      ['limits.required.bump', limits?.required?.bump],
      ['limits.required.droop', limits?.required?.droop],
    ],
  },
  {
    what: 'archDistance',
    least: 250,
    most: 1700,
    of: ({ corner: { limits } }) =>
      (limits?.arch ?? []).map(([y, z], k) => [`limits.arch[${k}]`, Math.max(Math.abs(y), z)]),
  },
  {
    what: 'height',
    least: 20,
    most: 500,
    of: ({ corner: { limits } }) =>
      (limits?.chassisLowPoints ?? []).map(([, z], k) => [`limits.chassisLowPoints[${k}]`, Math.abs(z)]),
  },
  // Tyres of cars are less than 1 m across.
  {
    what: 'radius',
    least: 150,
    most: 508,
    of: ({ corner: { limits } }) => [['limits.tyre.overallRadius', tyreOf(limits?.tyre)?.overallRadius]],
  },
  {
    what: 'width',
    least: 60,
    most: 500,
    of: ({ corner: { limits } }) => [['limits.tyre.width', tyreOf(limits?.tyre)?.width]],
  },
  { what: 'bore', ...EYE, of: ({ corner }) => mountLooked(corner, 'bore') },
  { what: 'width', least: 8, most: 120, of: ({ corner }) => mountLooked(corner, 'width') },
  {
    what: 'diameter',
    least: 25,
    most: 120,
    of: ({ corner: { sizing } }) => [['sizing.order.bodyDiameter', sizing?.order?.bodyDiameter]],
  },
  {
    what: 'threadPitch',
    least: 0.5,
    most: 5,
    of: ({ corner: { sizing } }) => [['sizing.perch.threadPitch', sizing?.perch?.threadPitch]],
  },
  {
    what: 'freeLength',
    least: 50,
    most: 700,
    of: ({ corner: { sizing } }) =>
      (sizing?.springs ?? []).map(({ freeLength }, k) => [`sizing.springs[${k}].freeLength`, freeLength]),
  },
  {
    what: 'innerDiameter',
    least: 35,
    most: 200,
    of: ({ corner: { sizing } }) =>
      (sizing?.springs ?? []).map(({ innerDiameter }, k) => [
        `sizing.springs[${k}].innerDiameter`,
        innerDiameter,
      ]),
  },
];

/** Rates of springs and tyres, N/mm. */
const RATES: readonly Range<CornerSubject>[] = [
  {
    what: 'tyreRate',
    least: 80,
    most: 600,
    of: ({ corner: { sizing } }) => [['sizing.tyreRate', sizing?.tyreRate]],
  },
  {
    what: 'wheelRate',
    least: 2,
    most: 300,
    of: ({ corner: { sizing } }) => [['sizing.target.wheelRate', sizing?.target?.wheelRate]],
  },
  {
    what: 'springRate',
    least: 4,
    most: 600,
    of: ({ corner: { sizing, thirdSpring, rollSpring } }) => [
      ['sizing.target.springRate', sizing?.target?.springRate],
      ['thirdSpring.rate', thirdSpring?.rate],
      ['rollSpring.rate', rollSpring?.rate],
      ...(sizing?.springs ?? []).map(({ rate }, k): Looked => [`sizing.springs[${k}].rate`, rate]),
    ],
  },
];

/** What of one corner is unsprung, kg. */
const UNSPRUNG: readonly Range<CornerSubject>[] = [
  {
    what: 'unsprungMass',
    least: 8,
    most: 60,
    of: ({ corner: { sizing } }) => [['sizing.unsprungMass', sizing?.unsprungMass]],
  },
];

/** What one corner of a car may carry, kg. */
const SPRUNG: readonly Range<CornerSubject>[] = [
  { what: 'sprungMass', least: 30, most: 800, of: ({ corner }) => [['sprungMass', corner.sprungMass]] },
];

/** Frequencies that springs of cars have, with much downforce too, and below which no suspension is; Hz. */
const FREQUENCY = { least: 0.6, most: 8 };
/** Radius by height of the wheel's centre above which the radius is rather a diameter. */
const DIAMETER = 1.5;
/** What a tape can tell, mm. */
const TAPE = 0.5;

const IN_ITS_UNIT = ['unitsWrong', 'allCoordinatesExchanged'];

/** The table; sentences by code in `sentences/checks.ts`. */
export const SIZE_CHECKS: readonly CheckRule<CornerSubject>[] = [
  { code: 'unitsWrong', severity: 'error', find: wrongUnits, unless: ['allCoordinatesExchanged'] },
  outside('length', { code: 'sizeUnusual', severity: 'check', unless: IN_ITS_UNIT }, geometry),
  { code: 'tyreDiameterForRadius', severity: 'check', find: diameterForRadius, unless: IN_ITS_UNIT },
  outside(
    'length',
    { code: 'sizeUnusual', severity: 'check', unless: IN_ITS_UNIT, unlessHere: ['tyreDiameterForRadius'] },
    OTHERS,
  ),
];

/** What has no place in the drawing. */
export const LOAD_CHECKS: readonly CheckRule<CornerSubject>[] = [
  outside('mass', { code: 'sprungMassUnusual', severity: 'check', unless: ['unitsWrong'] }, SPRUNG),
  outside('mass', { code: 'massUnusual', severity: 'check', unless: ['unitsWrong'] }, UNSPRUNG),
  { code: 'frequencyPerMinute', severity: 'error', find: (subject) => oddFrequency(subject, true) },
  { code: 'frequencyUnusual', severity: 'check', find: (subject) => oddFrequency(subject, false) },
  outside('rate', { code: 'rateUnusual', severity: 'check', unless: ['unitsWrong'] }, RATES),
  { code: 'overallRadiusNotAboveLoaded', severity: 'check', find: lowRadius, unless: IN_ITS_UNIT },
];

function tyreOf(tyre: NonNullable<Written['limits']>['tyre']) {
  return typeof tyre === 'object' ? tyre : undefined;
}

function mountLooked({ sizing }: Written, what: 'bore' | 'width'): Looked[] {
  const mounts = sizing?.order?.mounts;
  return (['mount', 'chassis'] as const).map((end) => [
    `sizing.order.mounts.${end}.${what}`,
    mounts?.[end]?.[what],
  ]);
}

/** All sizes of the drawing odd, and usual in one other unit: said once, of the file. */
function wrongUnits(subject: CornerSubject): Found[] {
  const { units } = subject;
  const sizes = geometry(subject).flatMap(({ of, ...range }) =>
    of(subject).flatMap(([path, value]) => (value === undefined ? [] : [{ ...range, path, value }])),
  );
  if (sizes.some(({ value, least, most }) => isWithin(value, least, most))) return [];
  const unit = unitMeant(sizes, 'length', units);
  if (unit === null) return [];
  const [paths, what, values] = [
    sizes.map(({ path }) => path),
    sizes.map((size) => size.what),
    sizes.map(({ value }) => value),
  ];
  return [{ path: 'units', values: { paths, what, sizes: values, unit } }];
}

/** Height of the wheel's centre above the ground: the loaded radius. */
function loadedRadius({ corner: { wheel } }: CornerSubject): number {
  return wheel.centre[1] - (wheel.contactPatch?.[1] ?? 0);
}

function diameterForRadius(subject: CornerSubject): Found[] {
  const { tyre } = subject;
  const loaded = loadedRadius(subject);
  if (tyre === undefined || tyre.overallRadius < DIAMETER * loaded) return [];
  return [
    { path: tyre.path, values: { radius: tyre.overallRadius, half: 0.5 * tyre.overallRadius, loaded } },
  ];
}

function lowRadius(subject: CornerSubject): Found[] {
  const { tyre } = subject;
  if (tyre === undefined) return [];
  const loaded = loadedRadius(subject);
  const { overallRadius: overall } = tyre;
  if (overall > loaded + TAPE) return [];
  return [{ path: tyre.path, values: { overall, loaded, isLess: overall < loaded - TAPE } }];
}

/** Above 8 Hz as cycles a minute it is that of a car, or it is none. */
function oddFrequency({ corner }: CornerSubject, isPerMinute: boolean): Found[] {
  const frequency = corner.sizing?.target?.frequency;
  const { least, most } = FREQUENCY;
  if (frequency === undefined || isWithin(frequency, least, most)) return [];
  const perSecond = frequency / 60;
  if (isWithin(perSecond, least, most) !== isPerMinute) return [];
  const values = isPerMinute ? { frequency, perSecond } : { frequency, least, most };
  return [{ path: 'sizing.target.frequency', values }];
}
