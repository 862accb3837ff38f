// What a coilover does at the wheel. With L(z) the length between its eyes by travel of the contact patch, R = -dL/dz the
// installation ratio, F its whole force and k = -dF/dL:
//
//   wheel load   W   = F R            (the sprung share: what the ground bears beside the unsprung weight)
//   wheel rate   k_w = dW/dz = k R^2 + F R'
//
// by virtual work, without lateral force at the tyre, friction, and weight of the links (J. C. Dixon, "The Shock Absorber Handbook",
// on rising rates; from memory).

import type { CornerModel } from '../corner/model.ts';
import { trace } from '../linkage/motion.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { type CoiloverForce, totalPush } from './forces/eye-force.ts';

/** How the shock goes with the wheel, over the travel that was laid. */
export interface ShockCurve {
  /** Length between the end eyes, mm; installation ratio; its derivative by travel, 1/mm. */
  at(travel: number): { length: number; ratio: number; slope: number };
  /** Travel laid: droop negative, mm. */
  readonly droop: number;
  readonly bump: number;
  /** Lateral place of the contact patch, mm, and roll-centre height above the ground (both wheels alike), mm, at a travel. */
  patch(travel: number): { y: number; rollCentreHeight: number };
  /** How the two eyes move with the wheel at a travel: mm a mm of travel, `[y, z]` each. */
  eyes(travel: number): { outer: readonly [number, number]; inner: readonly [number, number] };
}

/** Share of the travel by which a curve stops short of a dead point, where its ratio does not exist. */
const HAIR = 1e-9;

/** Travels whose readings are kept: the search for a length, or for rest, comes by the same ones time and again. */
const KEPT = 1024;

/** The shock of a corner from so much droop to so much bump (mm, both positive), or as far as the linkage goes. */
export function shockCurve(model: CornerModel, droop: number, bump: number): ShockCurve {
  const height = model.drawing.points[model.contactPatch][1];
  const motion = trace(model.drawing, {
    driver: { y: model.contactPatch },
    from: height - droop,
    to: height + bump,
  });
  const { outer, inner, offset } = model.shock;
  const shock = motion.read({ length: [outer, inner], offset });
  const patchY = motion.read({ x: model.contactPatch });
  const [low, high] = [motion.low.at, motion.high.at];
  const heightAt = (travel: number) =>
    Math.min(high - HAIR * (high - height), Math.max(low + HAIR * (height - low), height + travel));
  const along = (point: string) => {
    const [y, z] = [motion.read({ x: point }), motion.read({ y: point })];
    return (at: number) => [y(at).first ?? 0, z(at).first ?? 0] as const;
  };
  const known = new Map<number, { length: number; ratio: number; slope: number }>();
  const [ofOuter, ofInner] = [along(outer), along(inner)];
  return {
    droop: low - height,
    bump: high - height,
    at(travel) {
      const before = known.get(travel);
      if (before !== undefined) return before;
      const { value, first, second } = shock(heightAt(travel));
      const there = { length: value, ratio: -(first ?? 0), slope: -(second ?? 0) };
      if (known.size === KEPT) known.clear();
      known.set(travel, there);
      return there;
    },
    patch(travel) {
      const { value, first } = patchY(heightAt(travel));
      return { y: value, rollCentreHeight: value * (first ?? 0) };
    },
    eyes(travel) {
      const at = heightAt(travel);
      return { outer: ofOuter(at), inner: ofInner(at) };
    },
  };
}

/** What the wheel sees at a travel. */
export interface WheelState {
  readonly length: number;
  readonly ratio: number;
  /** Sprung share of the wheel load, N. */
  readonly load: number;
  /** N/mm, without the tyre. */
  readonly rate: number;
  /** The whole force between the eyes, N. */
  readonly force: number;
  /** Share of the rate that is not spring but force times change of ratio: F R' / k_w. */
  readonly forceTerm: number;
}

/** The wheel at a travel, mm. */
export function wheelAt(shock: ShockCurve, coilover: CoiloverForce, travel: number): WheelState {
  const { length, ratio, slope } = shock.at(travel);
  const { force, rate: k } = totalPush(coilover, length);
  const rate = k * ratio * ratio + force * slope;
  return {
    length,
    ratio,
    load: force * ratio,
    rate,
    force,
    forceTerm: rate === 0 ? 0 : (force * slope) / rate,
  };
}

/** Where the wheel comes to rest under a load. */
export interface Rest {
  /** mm, bump +. */
  readonly travel: number;
  /** `between` the ends of the travel, or on one of them: the coilover gives too little there, or too much. */
  readonly how: 'between' | 'bumpEnd' | 'droopEnd';
}

/** Places between ride and an end of the travel at which a change of sign is looked for: a shock may shorten, and lengthen again. */
const LOOKS = 16;

/** The zero of a function of travel that is met first from 0 to `end`, and null where there is none. */
function firstZero(f: (travel: number) => number, end: number): number | null {
  let from = 0;
  const sign = Math.sign(f(0));
  if (sign === 0) return 0;
  for (let k = 1; k <= LOOKS; k++) {
    const to = (end * k) / LOOKS;
    if (Math.sign(f(to)) !== sign) return zeroBetween(f, from, to);
    from = to;
  }
  return null;
}

/** The travel, first from ride, at which the coilover bears a sprung load (N), sought between two ends of travel. */
export function restUnder(
  shock: ShockCurve,
  coilover: CoiloverForce,
  load: number,
  { droop, bump }: { readonly droop: number; readonly bump: number },
): Rest {
  const missing = (travel: number) => load - wheelAt(shock, coilover, travel).load;
  const low = missing(0) > 0;
  const outward = low ? bump : droop;
  const travel = firstZero(missing, outward);
  if (travel !== null) return { travel, how: 'between' };
  return { travel: outward, how: low ? 'bumpEnd' : 'droopEnd' };
}

/** The first travel from 0 to `end` at which the shock has a length, mm; null where it has it nowhere. */
export function travelAtLength(shock: ShockCurve, length: number, end: number): number | null {
  return firstZero((travel) => shock.at(travel).length - length, end);
}
