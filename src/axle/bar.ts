// An anti-roll bar lies across the car; its levers point fore and aft, and a drop link takes the end of each to a part of the suspension.
// Seen from the front the lever's end moves up and down: at an angle a from level it stands l sin a higher, and l (1 - cos a) nearer
// to the bar along the car, so that for the link of length L from the point p of the part
//
//   F(a, z) = |p(z) - b - (0, l sin a)|^2 + (l (1 - cos a))^2 - L^2 = 0,      b the lever's end as drawn.
//
// From it a' = -F_z / F_a by travel, and a'' the same way. F_a = 0 is a lever over its centre: there the link goes through the bar's axis.

import { antiRollBarSchema, roundBarSchema } from '../document/axle-schema.ts';
import { type Finding, found, parse } from '../document/parse.ts';
import type { Point } from '../linkage/drawing.ts';
import { NEWTON_METRE_PER_DEGREE } from '../units.ts';

/** An anti-roll bar, by one of its ends; the other is the mirror image. */
export interface AntiRollBar {
  /** Body of the corner that carries the drop link, by its name in the drawing: `lowerArm`, `upperArm`, `upright`, `rocker`. */
  readonly on: string;
  /** End of the drop link on that body, [y, z] mm at design ride height. */
  readonly linkMount: Point;
  /** End of the drop link on the lever, [y, z] mm at design ride height. */
  readonly leverEnd: Point;
  /** From the axis of the bar to the end of its lever, mm; the lever is level at design ride height. */
  readonly leverLength: number;
  /** Torque in the bar per angle between its levers, N·m/deg, with links, levers and bushes in series. */
  readonly torsionalStiffness: number;
}

/** A round bar or tube in torsion. */
export interface RoundBar {
  /** mm. */
  readonly diameter: number;
  /** Of a tube, mm; default 0. */
  readonly innerDiameter?: number;
  /** Length in torsion, mm. */
  readonly length: number;
  /** N/mm²; default 79,300, steel. */
  readonly shearModulus?: number;
}

/** Shear modulus of spring steel, N/mm^2 (EN 13906-1 takes 79,500 for drawn wire and 78,500 hot-coiled; steel bar 79,300, from memory). */
const STEEL = 79_300;

/**
 * Torsional stiffness G pi (d^4 - d_i^4) / (32 L) of a round bar, N·m/deg (elementary theory of torsion, S. P. Timoshenko).
 *
 * @throws InputError for sizes out of range.
 */
export function torsionalStiffness(bar: RoundBar): number {
  const {
    diameter,
    innerDiameter = 0,
    length,
    shearModulus = STEEL,
  } = parse(roundBarSchema, bar, 'round bar', wallFindings);
  const polar = (Math.PI * (diameter ** 4 - innerDiameter ** 4)) / 32;
  return (shearModulus * polar) / length / NEWTON_METRE_PER_DEGREE;
}

/** A tube has a wall. */
function wallFindings(bar: unknown): Finding[] {
  const { diameter, innerDiameter = 0 } = (bar ?? {}) as Partial<RoundBar>;
  if (!(typeof diameter === 'number' && diameter > 0 && innerDiameter >= diameter)) return [];
  return [
    found(['innerDiameter'], 'outOfRange', {
      got: String(innerDiameter),
      below: diameter,
      quantity: 'length',
    }),
  ];
}

/** A bar as plain, checked data. */
export function checkedBar(bar: AntiRollBar): AntiRollBar {
  return parse(antiRollBarSchema, bar, 'anti-roll bar');
}

/** A lever's angle from level, radians, end up positive, with its derivatives by the wheel's travel. */
export interface LeverAngle {
  readonly angle: number;
  readonly first: number;
  readonly second: number;
}

/** Where the drop link's end on the suspension is, with its derivatives by travel: [value, first, second] of y and of z. */
export type Following = readonly [y: Triple, z: Triple];
type Triple = readonly [number, number, number];

const ROUNDS = 30;
/** After a step of Newton's method below this, radians, the next would be rounding; one above the other is no step towards a root. */
const CLOSE = 1e-9;
const FAR = 1;
/** Share of the link that its lever arm about the bar's axis must have; with less the lever is over its centre. */
const OVER_CENTRE = 1e-6;

/** The lever's angle for a place of the drop link's end, from a near angle; null where the link does not reach or the lever is over its centre. */
export function leverAngle(bar: AntiRollBar, [y, z]: Following, near: number): LeverAngle | null {
  const { leverEnd, linkMount, leverLength: l } = bar;
  const length2 = (linkMount[0] - leverEnd[0]) ** 2 + (linkMount[1] - leverEnd[1]) ** 2;
  const across = y[0] - leverEnd[0];
  const up = z[0] - leverEnd[1];
  let angle = near;
  for (let round = 0; round < ROUNDS; round++) {
    const [s, c] = [Math.sin(angle), Math.cos(angle)];
    const rise = up - l * s;
    const along = l * (1 - c);
    const missed = across * across + rise * rise + along * along - length2;
    const slope = 2 * l * (along * s - rise * c);
    if (!(Math.abs(slope) > OVER_CENTRE * l * Math.sqrt(length2))) return null;
    const by = missed / slope;
    if (!(Math.abs(by) < FAR)) return null;
    angle -= by;
    if (Math.abs(by) < CLOSE) return withSlopes(angle, l, across, up, y, z);
  }
  return null;
}

function withSlopes(
  angle: number,
  l: number,
  across: number,
  up: number,
  [, y1, y2]: Triple,
  [, z1, z2]: Triple,
): LeverAngle {
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  const rise = up - l * s;
  const along = l * (1 - c);
  const byAngle = 2 * l * (along * s - rise * c);
  const byTravel = 2 * (across * y1 + rise * z1);
  const first = -byTravel / byAngle;
  const twiceTravel = 2 * (y1 * y1 + across * y2 + z1 * z1 + rise * z2);
  const mixed = -2 * z1 * l * c;
  const twiceAngle = 2 * l * (l * c * c + rise * s + l * s * s + along * c);
  const second = -(twiceTravel + 2 * mixed * first + twiceAngle * first * first) / byAngle;
  return { angle, first, second };
}
