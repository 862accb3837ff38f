// What a corner's numbers make one ask, though they may be right: sizes that no car has, names exchanged, another side.

import { DEGREES, fromMetric, toMetric, type Units, unitName } from '../units.ts';
import type { DoubleWishboneInput } from './corner-schema.ts';
import type { LimitsDocument } from './limits-schema.ts';
import type { Note } from './note.ts';
import { inWords } from './number-meant.ts';

type Point = readonly [number, number];

/** What a tape can tell, mm. */
const TAPE = 0.5;

/** A corner's parts that can be looked at, as they were written. */
export interface Written extends DoubleWishboneInput {
  readonly sprungMass?: number | undefined;
  readonly limits?: LimitsDocument | undefined;
}

/** Notes to a corner as written; `under` is its path with a dot at the end, or nothing. */
export function cornerNotes(corner: Written, under: string, units: Units): Note[] {
  const unit = unitName('length', units);
  const turned = exchangedCoordinates(corner);
  return [
    ...otherSide(corner),
    ...belowGround(corner, unit),
    ...turned,
    ...oddSizes(corner, units),
    // With coordinates exchanged nothing lies where it should.
    ...(turned.length > 0 ? [] : [...exchanged(corner, unit), ...inboardWheel(corner, unit)]),
    ...standing(corner, units),
    ...together(corner),
    ...oddMass(corner.sprungMass, units),
  ].map(({ path, text }) => ({ path: path === 'units' ? path : `${under}${path}`, text }));
}

const AS_WRITTEN = 'It was read as written.';

function otherSide(corner: Written): Note[] {
  const right = corner.wheel.centre[0] < 0;
  const notes: Note[] = right
    ? [
        {
          path: 'wheel.centre',
          text: 'a right-hand corner (y is negative). It was mirrored, and is counted as a left-hand one: y outboard.',
        },
      ]
    : [];
  const points = [...pointsOf(corner), ...archOf(corner)];
  const others = points.filter(([, [y]]) => y !== 0 && y < 0 !== right);
  if (2 * others.length > points.length) {
    return [
      {
        path: 'wheel.centre',
        text: `${pointText(corner.wheel.centre)} lies on the other side of the car than most points: is its sign right? It was read as written, and the side with the wheel counts as the outer one.`,
      },
    ];
  }
  for (const [path, point] of others) {
    notes.push({
      path,
      text: `${pointText(point)} lies on the other side of the car than the wheel: is its sign right? ${AS_WRITTEN}`,
    });
  }
  return notes;
}

/** All points but the wheel's, with their paths. */
function pointsOf({ lowerArm, upperArm, coilover }: Written): [path: string, point: Point][] {
  return [
    ['lowerArm.inner', lowerArm.inner],
    ['lowerArm.outer', lowerArm.outer],
    ['upperArm.inner', upperArm.inner],
    ['upperArm.outer', upperArm.outer],
    ['coilover.mount', coilover.mount],
    ['coilover.chassisMount', coilover.chassisMount],
  ];
}

function archOf({ limits }: Written): [path: string, point: Point][] {
  return (limits?.arch ?? []).map((point, k) => [`limits.arch[${k}]`, point]);
}

function belowGround(corner: Written, unit: string): Note[] {
  return [...pointsOf(corner), ...archOf(corner)]
    .filter(([, [, z]]) => z < 0)
    .map(([path, [, z]]) => ({
      path,
      text: `z is ${z} ${unit}, below the ground: is its sign right? ${AS_WRITTEN}`,
    }));
}

/** Points that would lie outboard of their neighbour if their coordinates were exchanged, and do not as they are. */
function exchangedCoordinates({ wheel, lowerArm, upperArm }: Written): Note[] {
  const outboard: [path: string, point: Point, of: Point][] = [
    ['wheel.centre', wheel.centre, lowerArm.outer],
    ['lowerArm.outer', lowerArm.outer, lowerArm.inner],
    ['upperArm.outer', upperArm.outer, upperArm.inner],
  ];
  return outboard
    .filter(([, [y, z], [inner]]) => Math.abs(y) < z && Math.abs(y) < Math.abs(inner) && z > Math.abs(inner))
    .map(([path, point]) => ({
      path,
      text: `${pointText(point)} is higher above the ground than far from the centreline: are y and z exchanged? ${AS_WRITTEN}`,
    }));
}

/** The wheel's centre lies outboard of both ball joints, as a rule. */
function inboardWheel({ wheel, lowerArm, upperArm }: Written, unit: string): Note[] {
  const inboard =
    Math.min(Math.abs(lowerArm.outer[0]), Math.abs(upperArm.outer[0])) - Math.abs(wheel.centre[0]);
  if (inboard <= 0) return [];
  return [
    {
      path: 'wheel.centre',
      text: `it lies ${short(inboard)} ${unit} inboard of both ball joints: is it right? ${AS_WRITTEN}`,
    },
  ];
}

/** Camber that no wheel has, and a contact patch that contradicts it or the ground; degrees. */
const MOST_CAMBER = 8;
const CAMBER_TOLERANCE = 0.5;

function standing({ wheel }: Written, units: Units): Note[] {
  const { centre, camber, contactPatch } = wheel;
  const unit = unitName('length', units);
  const notes: Note[] = [];
  const side = centre[0] < 0 ? -1 : 1;
  const drawn =
    contactPatch === undefined
      ? undefined
      : Math.atan2(side * (centre[0] - contactPatch[0]), centre[1] - contactPatch[1]) * DEGREES;
  const odd = camber ?? drawn;
  if (odd !== undefined && Math.abs(odd) > MOST_CAMBER) {
    const path = camber === undefined ? 'contactPatch' : 'camber';
    notes.push({
      path: `wheel.${path}`,
      text: `a camber of ${short(odd)} degrees, where ${MOST_CAMBER} either way is much. Is it right? ${AS_WRITTEN}`,
    });
  }
  if (camber !== undefined && drawn !== undefined && Math.abs(camber - drawn) > CAMBER_TOLERANCE) {
    notes.push({
      path: 'wheel.contactPatch',
      text: `with it and the centre the wheel leans ${short(drawn)} degrees, and camber says ${short(camber)}. The contact patch counts for where the load acts, the camber for what is shown: measure again, or leave one out.`,
    });
  }
  if (contactPatch !== undefined && Math.abs(contactPatch[1]) > fromMetric(TAPE, 'length', units)) {
    notes.push({
      path: 'wheel.contactPatch',
      text: `z is ${contactPatch[1]} ${unit}, where the ground has 0: heights count from the ground. ${AS_WRITTEN}`,
    });
  }
  return notes;
}

/** Points that may lie together, but hardly do. */
function together({ lowerArm, upperArm, coilover }: Written): Note[] {
  const same = ([y, z]: Point, other: Point) => y === other[0] && z === other[1];
  const notes: Note[] = [];
  if (same(lowerArm.inner, upperArm.inner)) {
    notes.push({
      path: 'upperArm.inner',
      text: `in the same place as lowerArm.inner: copied and not changed? ${AS_WRITTEN}`,
    });
  }
  const { on } = coilover;
  if (on !== 'upright' && same(coilover.mount, { lowerArm, upperArm }[on].inner)) {
    notes.push({
      path: 'coilover.mount',
      text: `it lies on the pivot of ${on}, on which it stands: the wheel moves without moving the coilover. ${AS_WRITTEN}`,
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

function geometrySizes({ lowerArm, upperArm, wheel }: Written): Size[] {
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

function limitSizes({ coilover, limits = {} }: Written): Size[] {
  const { damper, bumpStop, tyre, arch = [], ground = [], required, donor } = limits;
  const apart = Math.hypot(
    coilover.chassisMount[0] - coilover.mount[0],
    coilover.chassisMount[1] - coilover.mount[1],
  );
  const shock = { least: 100, most: 900 };
  const far = ([y, z]: Point) => Math.max(Math.abs(y), z);
  const sizes: (Omit<Size, 'value'> & { value: number | undefined })[] = [
    { path: 'coilover', what: 'between its ends', value: apart, ...shock },
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
function oddSizes(corner: Written, units: Units): Note[] {
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
  const [least, most] = [MASS.least, MASS.most].map((kg) =>
    Number(fromMetric(kg, 'mass', units).toPrecision(2)),
  );
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
  const tape = fromMetric(TAPE, 'length', units);
  if (overall > loaded + tape) return [];
  const how =
    overall < loaded - tape
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

/** To a tenth, or four digits of what is small. */
function short(value: number): string {
  return String(Math.abs(value) >= 1000 ? Number(value.toFixed(1)) : Number(value.toPrecision(4)));
}
