// A spring from a part of the left corner to one of the right. With the ends at (y_l, z_l) and (y_r, z_r), y outboard on both sides, its
// length is
//
//   L^2 = Y^2 + Z^2,   Y = y_l + y_r,   Z = z_l - z_r,
//
// and by the travels of the left and the right wheel, each end going with its own,
//
//   L L_l = Y y_l' + Z z_l',     L L_ll = y_l'^2 + z_l'^2 + Y y_l'' + Z z_l'' - L_l^2,     L L_lr = y_l' y_r' - z_l' z_r' - L_l L_r,
//   L L_r = Y y_r' - Z z_r',     L L_rr = y_r'^2 + z_r'^2 + Y y_r'' - Z z_r'' - L_r^2.

import { crossSpringFindings, distanceAcross } from '../document/axle-findings.ts';
import { rollSpringSchema, thirdSpringSchema } from '../document/axle-schema.ts';
import type { RollSpringInput, SpringEndInput, ThirdSpringInput } from '../document/inputs.ts';
import { parse } from '../document/parse.ts';
import { refuse } from '../errors/file.ts';
import type { Jet } from './jet.ts';

/** A spring between both wheels, mm, N/mm, N·s/m; y of both ends is outboard. */
export interface CrossSpring {
  readonly left: SpringEndInput;
  readonly right: SpringEndInput;
  readonly rate: number;
  /** Between its ends, where its force is 0. */
  readonly freeLength: number;
  /** Between its ends; null where nothing ends it. */
  readonly extendedLength: number | null;
  readonly compressedLength: number | null;
  /** Coefficient of the damper beside it. */
  readonly damping: number;
}

/** A third spring as plain, checked data. */
export function checkedThirdSpring(input: ThirdSpringInput): CrossSpring {
  const {
    on,
    mount,
    right,
    rate,
    preload = 0,
    ...given
  } = parse(thirdSpringSchema, input, 'third spring', crossSpringFindings, refuse);
  const ends = { left: { on, mount }, right: right ?? { on, mount } };
  const {
    freeLength = distanceAcross(mount, ends.right.mount) + preload / rate,
    extendedLength = null,
    compressedLength = null,
    damping = 0,
  } = given;
  return { ...ends, rate, freeLength, extendedLength, compressedLength, damping };
}

/** A roll spring as plain, checked data. */
export function checkedRollSpring(input: RollSpringInput): CrossSpring {
  const {
    on,
    mount,
    right,
    rate,
    damping = 0,
  } = parse(rollSpringSchema, input, 'roll spring', crossSpringFindings, refuse);
  return {
    left: { on, mount },
    right,
    rate,
    freeLength: distanceAcross(mount, right.mount),
    extendedLength: null,
    compressedLength: null,
    damping,
  };
}

/** An end of a spring: y outboard and z, each with its derivatives by the wheel's travel. */
export type SpringEnd = readonly [y: Jet, z: Jet];

/** What both wheels share, with its derivatives by their travels. */
export interface Across {
  value: number;
  left: number;
  right: number;
  leftLeft: number;
  leftRight: number;
  rightRight: number;
}

/** The length of a spring between both wheels, mm. */
export function lengthAcross([yl, zl]: SpringEnd, [yr, zr]: SpringEnd, into: Across): void {
  const [y, z] = [yl[0] + yr[0], zl[0] - zr[0]];
  const length = Math.hypot(y, z);
  const left = (y * yl[1] + z * zl[1]) / length;
  const right = (y * yr[1] - z * zr[1]) / length;
  into.value = length;
  into.left = left;
  into.right = right;
  into.leftLeft = (yl[1] * yl[1] + zl[1] * zl[1] + y * yl[2] + z * zl[2] - left * left) / length;
  into.leftRight = (yl[1] * yr[1] - zl[1] * zr[1] - left * right) / length;
  into.rightRight = (yr[1] * yr[1] + zr[1] * zr[1] + y * yr[2] - z * zr[2] - right * right) / length;
}
