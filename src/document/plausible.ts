// What a corner's numbers make one ask, though they may be right: sizes that no car has, names exchanged, another side.

import { fromMetric, type Units, unitName } from '../units.ts';
import type { DoubleWishboneInput } from './corner-schema.ts';
import type { Note } from './note.ts';
import { inWords } from './number-meant.ts';
import type { Certain } from './uncertain.ts';

/** A corner's parts that can be looked at, in the numbers that were written. */
export interface Written extends Certain<DoubleWishboneInput> {
  readonly sprungMass?: number | undefined;
}

/** Notes to a corner as written; `under` is its path with a dot at the end, or nothing. */
export function cornerNotes(corner: Written, under: string, units: Units): Note[] {
  return [
    ...otherSide(corner),
    ...oddSizes(corner, units),
    ...exchanged(corner, unitName('length', units)),
    ...oddMass(corner.sprungMass, units),
  ].map(({ path, text }) => ({ path: path === 'units' ? path : `${under}${path}`, text }));
}

function otherSide({ wheel, lowerArm, upperArm }: Written): Note[] {
  const right = wheel.centre[0] < 0;
  const notes: Note[] = right
    ? [
        {
          path: 'wheel.centre',
          text: 'a right-hand corner (y is negative). It was mirrored, and is counted as a left-hand one: y outboard.',
        },
      ]
    : [];
  for (const [name, { outer }] of Object.entries({ lowerArm, upperArm })) {
    if (outer[0] < 0 === right) continue;
    notes.push({
      path: `${name}.outer`,
      text: `${pointText(outer)} lies on the other side of the car than the wheel: is its sign right? It was read as written.`,
    });
  }
  return notes;
}

/** A size of the corner in the file's unit, and what is usual, mm. */
interface Size {
  readonly path: string;
  readonly what: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
}

function sizesOf({ lowerArm, upperArm, wheel }: Written): Size[] {
  const arm = ({ inner, outer }: { inner: readonly number[]; outer: readonly number[] }) =>
    Math.hypot(outer[0] - inner[0], outer[1] - inner[1]);
  const height = wheel.centre[1] - (wheel.contactPatch?.[1] ?? 0);
  const half = Math.abs(wheel.centre[0]);
  const long = { least: 60, most: 1000 };
  return [
    { path: 'lowerArm', what: 'long', value: arm(lowerArm), ...long },
    { path: 'upperArm', what: 'long', value: arm(upperArm), ...long },
    { path: 'wheel.centre', what: 'above the ground', value: height, least: 100, most: 700 },
    { path: 'wheel.centre', what: 'from the centreline', value: half, least: 250, most: 1500 },
  ];
}

/** Units that a tape or a drawing may have, and mm in one. */
const TAPES: readonly [name: string, mm: number, remedy: string][] = [
  ['mm', 1, '"units": "metric"'],
  ['inches', 25.4, '"units": "imperial"'],
  ['cm', 10, 'them in mm'],
  ['metres', 1000, 'them in mm'],
];

/** Sizes that no car has. Where one other unit makes good all of them, that is said once, of the file. */
function oddSizes(corner: Written, units: Units): Note[] {
  const sizes = sizesOf(corner);
  const unit = unitName('length', units);
  const own = units === 'metric' ? 1 : 25.4;
  const usual = ({ value, least, most }: Size, mm: number) => value * mm >= least && value * mm <= most;
  const odd = sizes.filter((one) => !usual(one, own));
  if (odd.length === 0) return [];
  const tape = TAPES.find(([, mm]) => mm !== own && odd.every((one) => usual(one, mm)));
  if (odd.length === sizes.length && tape !== undefined) {
    const [name, , remedy] = tape;
    const listed = sizes.map(({ path, what, value }) => `${path} ${short(value)} ${unit} ${what}`).join(', ');
    return [
      {
        path: 'units',
        text: `no car has such sizes (${listed}). Were they measured in ${name}? Then write ${remedy}. They were read in ${inWords(unit)}.`,
      },
    ];
  }
  return odd.map(({ path, what, value, least, most }) => {
    const range = [least, most].map((mm) => short(fromMetric(mm, 'length', units))).join(' to ');
    const guess = tape === undefined ? '' : ` ${tape[0]}, perhaps?`;
    return {
      path,
      text: `${short(value)} ${unit} ${what}, where ${range} ${unit} is usual. In which unit was it measured?${guess} It was read in ${inWords(unit)}.`,
    };
  });
}

function exchanged({ lowerArm, upperArm, coilover }: Written, unit: string): Note[] {
  const notes: Note[] = [];
  const below = lowerArm.outer[1] - upperArm.outer[1];
  if (below > 0) {
    const both = lowerArm.inner[1] > upperArm.inner[1];
    notes.push({
      path: 'upperArm',
      text: both
        ? `its ball joint lies ${short(below)} ${unit} below that of lowerArm, and its pivot lies lower too: upperArm and lowerArm seem to be exchanged. They were read as written.`
        : `its ball joint lies ${short(below)} ${unit} below that of lowerArm: are the two outer points exchanged, or the arms? They were read as written.`,
    });
  }
  for (const [name, { inner, outer }] of Object.entries({ lowerArm, upperArm })) {
    if (Math.abs(outer[0]) >= Math.abs(inner[0])) continue;
    notes.push({
      path: name,
      text: `its outer point is nearer to the centreline than its inner one: inner and outer seem to be exchanged. They were read as written.`,
    });
  }
  if (coilover.chassisMount[1] < coilover.mount[1]) {
    notes.push({
      path: 'coilover',
      text: 'its chassisMount lies below its mount: are the two exchanged? They were read as written.',
    });
  }
  return notes;
}

/** What one corner of a car may carry, kg. */
const MASS = { least: 30, most: 800 };

function oddMass(mass: number | undefined, units: Units): Note[] {
  if (mass === undefined) return [];
  const [least, most] = [MASS.least, MASS.most].map((kg) => fromMetric(kg, 'mass', units));
  if (mass >= least && mass <= most) return [];
  const unit = unitName('mass', units);
  return [
    {
      path: 'sprungMass',
      text: `${short(mass)} ${unit} on one corner, where ${short(least)} to ${short(most)} ${unit} is usual: is it that of one corner, in ${unit}? It was read as written.`,
    },
  ];
}

/** Notes to the tyre's overall radius against the drawn height of the wheel's centre, both in the file's unit. */
export function radiusNotes(overall: number, loaded: number, path: string, units: Units): Note[] {
  const unit = unitName('length', units);
  // A tape reads no finer.
  if (overall > loaded + fromMetric(0.5, 'length', units)) return [];
  const how =
    overall < loaded - fromMetric(0.5, 'length', units)
      ? `less than the height of the wheel's centre, ${short(loaded)} ${unit}`
      : "equal to the height of the wheel's centre";
  return [
    {
      path,
      text: `${short(overall)} ${unit}, ${how}. The overall radius is that of the tyre with no load on it; the centre stands at the loaded radius, which is less. Was one of the two taken for the other?`,
    },
  ];
}

function pointText([y, z]: readonly [number, number]): string {
  return `[${y}, ${z}]`;
}

/** To a tenth, or three digits of what is small. */
function short(value: number): string {
  return String(value >= 100 ? Number(value.toFixed(1)) : Number(value.toPrecision(3)));
}
