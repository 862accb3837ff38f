import { show } from '../errors.ts';
import { type Finding, type Place, pathText, valueAt } from './parse.ts';

type Point = readonly [number, number];

/**
 * What keeps the points of a corner, as far as they are points, from being one: two in one place, a wheel in the ground, a
 * coilover with both ends on one part. `unit` is theirs.
 */
export function geometryFindings(corner: unknown, unit: string): Finding[] {
  return [
    ...APART.flatMap(([first, second]) => coincidence(corner, first, second)),
    ...unsoundWheel(corner, unit),
    ...onOnePart(corner),
  ];
}

/** Pairs of points that must lie apart for a corner to have a geometry; a fault is told at the first. */
const APART: readonly [first: Place, second: Place][] = [
  [
    ['lowerArm', 'inner'],
    ['lowerArm', 'outer'],
  ],
  [
    ['upperArm', 'inner'],
    ['upperArm', 'outer'],
  ],
  [
    ['lowerArm', 'outer'],
    ['upperArm', 'outer'],
  ],
  [
    ['strut', 'top'],
    ['strut', 'lower'],
  ],
  [
    ['strut', 'top'],
    ['lowerArm', 'outer'],
  ],
  [
    ['wheel', 'centre'],
    ['wheel', 'contactPatch'],
  ],
  [
    ['rod', 'mount'],
    ['rod', 'rockerMount'],
  ],
  [
    ['rocker', 'pivot'],
    ['rod', 'rockerMount'],
  ],
  [
    ['coilover', 'mount'],
    ['coilover', 'chassisMount'],
  ],
  [
    ['coilover', 'mount'],
    ['coilover', 'otherEnd', 'mount'],
  ],
  [
    ['coilover', 'rockerMount'],
    ['coilover', 'chassisMount'],
  ],
  [
    ['coilover', 'rockerMount'],
    ['coilover', 'otherEnd', 'mount'],
  ],
];

function coincidence(corner: unknown, first: Place, second: Place): Finding[] {
  const [a, b] = [pointAt(corner, first), pointAt(corner, second)];
  if (a === undefined || b === undefined || a[0] !== b[0] || a[1] !== b[1]) return [];
  return [
    {
      at: first,
      problem: `in the same place as ${pathText(second)}`,
      got: `[${a[0]}, ${a[1]}]`,
      advice: 'measure the two again: they must lie apart',
    },
  ];
}

/** The wheel stands on the ground: its centre is above that, and above its contact patch. */
function unsoundWheel(corner: unknown, unit: string): Finding[] {
  const centre = pointAt(corner, ['wheel', 'centre']);
  const contactPatch = pointAt(corner, ['wheel', 'contactPatch']);
  if (centre === undefined) return [];
  const ground = contactPatch === undefined ? 0 : contactPatch[1];
  // In one place is told as such.
  const together = contactPatch?.[0] === centre[0] && contactPatch[1] === centre[1];
  if (centre[1] > ground || together) return [];
  return [
    {
      at: ['wheel', 'centre', 1],
      problem:
        contactPatch === undefined
          ? 'wheel centre not above the ground'
          : 'wheel centre not above its contact patch',
      got: `${centre[1]} ${unit}`,
      allowed: `more than ${ground} ${unit}`,
      advice: 'z counts up from the ground at the drawn ride height',
    },
  ];
}

/** Between two points of one part a coilover would never change its length. */
function onOnePart(corner: unknown): Finding[] {
  const at = ['coilover', 'otherEnd', 'on'];
  const on = valueAt(corner, at);
  if (typeof on !== 'string' || on !== valueAt(corner, ['coilover', 'on'])) return [];
  return [
    {
      at,
      problem: 'both ends of the coilover on one part',
      got: show(on),
      advice: 'name the part that the other end is bolted to, or give chassisMount in place of otherEnd',
    },
  ];
}

/** The point at a place of a corner, if one stands there. */
export function pointAt(corner: unknown, at: Place): Point | undefined {
  const point = valueAt(corner, at);
  if (!Array.isArray(point) || point.length !== 2) return undefined;
  const [y, z] = [point[0], point[1]].map((coordinate) => valueAt(coordinate, ['value']) ?? coordinate);
  return Number.isFinite(y) && Number.isFinite(z) ? [y, z] : undefined;
}
