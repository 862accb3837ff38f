// Sizes that no car has, and the unit in which they may have been measured.

import { fromMetric, toMetric, type Units, unitName } from '../units.ts';
import type { Note } from './note.ts';
import { inWords } from './number-meant.ts';
import { apart, endsOf, type Point, short, type Written } from './written.ts';

/** A size of the corner in the file's unit, and what is usual, mm. */
interface Size {
  readonly path: string;
  readonly what: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
}

function geometrySizes({ lowerArm, upperArm, strut, wheel, rod, rocker, coilover }: Written): Size[] {
  const long = { least: 60, most: 1000 };
  const sizes = [{ path: 'lowerArm', what: 'long', value: apart(lowerArm.inner, lowerArm.outer), ...long }];
  const add = (path: string, what: string, a: Point | undefined, b: Point | undefined, range = long) => {
    if (a !== undefined && b !== undefined) sizes.push({ path, what, value: apart(a, b), ...range });
  };
  add('upperArm', 'long', upperArm?.inner, upperArm?.outer);
  add('strut', 'between top and lower', strut?.lower, strut?.top, { least: 150, most: 1000 });
  add('rod', 'long', rod?.mount, rod?.rockerMount);
  const lever = { least: 15, most: 400 };
  add('rod.rockerMount', "from the rocker's pivot", rod?.rockerMount, rocker?.pivot, lever);
  add('coilover.rockerMount', "from the rocker's pivot", coilover?.rockerMount, rocker?.pivot, lever);
  const height = wheel.centre[1] - (wheel.contactPatch?.[1] ?? 0);
  const half = Math.abs(wheel.centre[0]);
  return [
    ...sizes,
    { path: 'wheel.centre', what: 'above the ground', value: height, least: 100, most: 700 },
    { path: 'wheel.centre', what: 'from the centreline', value: half, least: 250, most: 1500 },
  ];
}

function limitSizes(written: Written): Size[] {
  const { damper, bumpStop, tyre, arch = [], ground = [], required, donor } = written.limits ?? {};
  const ends = endsOf(written);
  const shock = { least: 100, most: 900 };
  const far = ([y, z]: Point) => Math.max(Math.abs(y), z);
  const sizes: (Omit<Size, 'value'> & { value: number | undefined })[] = [
    { path: 'coilover', what: 'between its ends', value: ends && apart(...ends), ...shock },
    { path: 'limits.damper.open', what: 'long', value: damper?.open, ...shock },
    { path: 'limits.damper.closed', what: 'long', value: damper?.closed, ...shock },
    { path: 'limits.donor.length', what: 'long', value: donor?.length, ...shock },
    { path: 'limits.bumpStop.height', what: 'high', value: bumpStop?.height, least: 5, most: 150 },
    { path: 'limits.required.bump', what: 'of travel', value: required?.bump, least: 0, most: 300 },
    { path: 'limits.required.droop', what: 'of travel', value: required?.droop, least: 0, most: 300 },
    ...arch.map((point, k) => ({
      path: `limits.arch[${k}]`,
      what: 'at the most from centreline or ground',
      value: far(point),
      least: 250,
      most: 1700,
    })),
    ...ground.map(([, z], k) => ({
      path: `limits.ground[${k}]`,
      what: 'above the ground',
      value: Math.abs(z),
      least: 20,
      most: 500,
    })),
  ];
  if (typeof tyre === 'object') {
    sizes.push(
      {
        path: 'limits.tyre.overallRadius',
        what: 'of radius',
        value: tyre.overallRadius,
        least: 150,
        most: 600,
      },
      { path: 'limits.tyre.width', what: 'wide', value: tyre.width, least: 60, most: 500 },
    );
  }
  return sizes.flatMap((size) => (size.value === undefined ? [] : [{ ...size, value: size.value }]));
}

/** Units that a tape or a drawing may have, and mm in one. */
const TAPES: readonly [name: string, mm: number, remedy: string][] = [
  ['mm', 1, '"units": "metric"'],
  ['inches', 25.4, '"units": "imperial"'],
  ['cm', 10, 'them in mm'],
  ['metres', 1000, 'them in mm'],
];

/** Sizes that no car has. Where one other unit makes good all of the geometry, that is said once, of the file. */
export function oddSizes(corner: Written, units: Units): Note[] {
  const sizes = geometrySizes(corner);
  const odd = oddOf(sizes, units);
  const tape = tapeFor(odd, units);
  if (odd.length < sizes.length || tape === undefined) {
    return [...odd, ...oddOf(limitSizes(corner), units)].map((size) => oddNote(size, units));
  }
  const [name, , remedy] = tape;
  const unit = unitName('length', units);
  const listed = sizes.map(({ path, what, value }) => `${path} ${short(value)} ${unit} ${what}`).join(', ');
  return [
    {
      path: 'units',
      text: `no car has such sizes (${listed}). Were they measured in ${name}? Then write ${remedy}. They were read in ${inWords(unit)}.`,
    },
  ];
}

function usual({ value, least, most }: Size, mm: number): boolean {
  return value * mm >= least && value * mm <= most;
}

function oddOf(sizes: readonly Size[], units: Units): Size[] {
  return sizes.filter((one) => !usual(one, toMetric(1, 'length', units)));
}

/** Another unit that makes all sizes usual ones. */
function tapeFor(odd: readonly Size[], units: Units): (typeof TAPES)[number] | undefined {
  const own = toMetric(1, 'length', units);
  return TAPES.find(([, mm]) => mm !== own && odd.length > 0 && odd.every((one) => usual(one, mm)));
}

function oddNote(size: Size, units: Units): Note {
  const { path, what, value, least, most } = size;
  const unit = unitName('length', units);
  const range = [least, most]
    .map((mm) => Number(fromMetric(mm, 'length', units).toPrecision(2)))
    .join(' to ');
  const tape = tapeFor([size], units);
  const guess =
    tape === undefined ? 'a digit or a point too many?' : `${tape[0]}, or a digit or a point too many?`;
  return {
    path,
    text: `${short(value)} ${unit} ${what}, where ${range} ${unit} is usual: ${guess} It was read in ${inWords(unit)}.`,
  };
}
