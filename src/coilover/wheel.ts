// What a coilover does at the wheel. With L(z) the length between its eyes by travel of the contact patch, R = -dL/dz the
// installation ratio, F its whole force and k = -dF/dL:
//
//   wheel load   W   = F R            (the sprung share: what the ground bears beside the unsprung weight)
//   wheel rate   k_w = dW/dz = k R^2 + F R'
//
// and beside them what the springs between both wheels bear with both at that travel (springs-across.ts),
//
// by virtual work, without lateral force at the tyre, friction, and weight of the links (J. C. Dixon, "The Shock Absorber Handbook",
// on rising rates; from memory).

import type { AcrossAt } from '../axle/springs-across.ts';
import { type CoiloverForce, jumpLengths, totalPush } from '../corner/axial-force.ts';
import type { CornerModel } from '../corner/model.ts';
import { trace } from '../linkage/motion.ts';
import { zeroBetween } from '../numerics/zero.ts';

/** How the shock goes with the wheel, over the travel that was laid. */
export interface ShockCurve {
  /** Length between the end eyes, mm; installation ratio; its derivative with respect to travel, 1/mm. */
  at(travel: number): { length: number; ratio: number; slope: number };
  /** Travel laid: droop negative, mm. */
  readonly droop: number;
  readonly bump: number;
  /** Lateral place of the contact patch, mm, and roll-centre height above the ground (both wheels alike), mm, at a travel. */
  patch(travel: number): { y: number; rollCentreHeight: number };
  /** How the two eyes move with the wheel at a travel: mm per mm of travel, `[y, z]` each. */
  eyes(travel: number): { outer: readonly [number, number]; inner: readonly [number, number] };
  /** The springs between both wheels, both at a travel; left out or null without any. */
  readonly across?: AcrossAt | null;
}

/** Share of the travel by which a curve stops short of a dead point, where its ratio does not exist. */
const HAIR = 1e-9;

/** Travels whose readings are kept: the search for a length, or for rest, comes by the same ones time and again. */
const KEPT = 1024;

/** The shock of a corner from so much droop to so much bump (mm, both positive), or as far as the linkage goes. */
export function shockCurve(
  model: CornerModel,
  droop: number,
  bump: number,
  across: ShockCurve['across'] = null,
): ShockCurve {
  const height = model.drawing.points[model.contactPatch][1];
  const motion = trace(model.drawing, {
    driver: { y: model.contactPatch },
    from: height - droop,
    to: height + bump,
  });
  const { outer, inner, foreAftOffset: offset } = model.shock;
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
    across,
  };
}

/** What the wheel sees at a travel. */
export interface WheelState {
  readonly length: number;
  readonly ratio: number;
  /** Sprung share of the wheel load, N. */
  readonly load: number;
  /** N/mm, without the tyre, both wheels alike. */
  readonly rate: number;
  /** The same where the other wheel goes down as far as this one goes up: with springs between both wheels another rate. */
  readonly rollRate: number;
  /** The whole force between the eyes, N. */
  readonly force: number;
  /** Share of the rate that is not spring but force times change of ratio: F R' / k_w, all springs in k_w. */
  readonly geometricRateFraction: number;
}

/** What acts at a wheel without springs between both. */
const ALONE = { load: 0, rate: 0, rollRate: 0 };

/** The wheel at a travel, mm. */
export function wheelAt(shock: ShockCurve, coilover: CoiloverForce, travel: number): WheelState {
  const { length, ratio, slope } = shock.at(travel);
  const { force, rate: k } = totalPush(coilover, length);
  const own = k * ratio * ratio + force * slope;
  const beside = shock.across?.(travel).all ?? ALONE;
  const rate = own + beside.rate;
  return {
    length,
    ratio,
    load: force * ratio + beside.load,
    rate,
    rollRate: own + beside.rollRate,
    force,
    geometricRateFraction: rate === 0 ? 0 : (force * slope) / rate,
  };
}

/** Places at which a change of sign is looked for between two travels: a shock may shorten, and lengthen again. */
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

/** The first travel from 0 to `end` at which the shock has a length, mm; null where it has it nowhere. */
export function travelAtLength(shock: ShockCurve, length: number, end: number): number | null {
  return firstZero((travel) => shock.at(travel).length - length, end);
}

/** The same of the third spring between both wheels. */
export function travelAtThirdLength({ across }: ShockCurve, length: number, end: number): number | null {
  return across == null ? null : firstZero((travel) => (across(travel).length ?? length) - length, end);
}

/** A piece of the travel over which the wheel load only rises with bump (k_w > 0), or only falls. */
export interface LoadPiece {
  /** mm, from one end of the piece to the other in the direction of the walk. */
  readonly from: number;
  readonly to: number;
  readonly rises: boolean;
}

/** Places between two travels at which the sign of the wheel rate is looked for. */
const RATE_LOOKS = 32;
/** Pieces of travel shorter than this are left out, mm: places that only rounding tells apart. */
const SHORTEST = 1e-9;
/** Share of a piece by which its rate is taken inside it: at its ends the rate may jump. */
const INSIDE = 1e-9;

/** The travel from one place to another, either way, in pieces between which the sign of k_w changes or its value jumps. */
export function* loadPieces(
  shock: ShockCurve,
  coilover: CoiloverForce,
  from: number,
  end: number,
): Generator<LoadPiece> {
  const rate = (travel: number) => wheelAt(shock, coilover, travel).rate;
  const { across } = shock;
  const jumps = [
    ...jumpLengths(coilover).map((length) => (travel: number) => shock.at(travel).length - length),
    ...(across == null ? [] : [(travel: number) => across(travel).stretch]),
  ];
  for (let k = 0; k < RATE_LOOKS; k++) {
    const [a, b] = [k, k + 1].map((n) => from + ((end - from) * n) / RATE_LOOKS);
    const between = jumps
      .filter((past) => Math.sign(past(a)) * Math.sign(past(b)) < 0)
      .map((past) => zeroBetween(past, a, b))
      .sort((one, other) => Math.abs(one - a) - Math.abs(other - a));
    let p = a;
    for (const q of [...between, b]) {
      if (Math.abs(q - p) < SHORTEST) continue;
      const hair = INSIDE * (q - p);
      const [rises, stillRises] = [rate(p + hair) > 0, rate(q - hair) > 0];
      if (rises === stillRises) yield { from: p, to: q, rises };
      else {
        const turn = zeroBetween(rate, p + hair, q - hair);
        yield { from: p, to: turn, rises };
        yield { from: turn, to: q, rises: stillRises };
      }
      p = q;
    }
  }
}

/** Where the wheel comes to rest under a load. */
export interface Rest {
  /** mm, bump +. */
  readonly travel: number;
  /** `onSpring` between the ends of the travel, or at one of them: the coilover gives too little there, or too much. */
  readonly state: 'onSpring' | 'bumpLimit' | 'droopLimit';
}

/** Share of a load to which rounding lets a coilover bear it. */
const BORNE = 1e-12;

/** Whether a load is the one that is borne, N. */
export function isBorne(borne: number, load: number): boolean {
  return Math.abs(borne - load) <= BORNE * (Math.abs(borne) + Math.abs(load));
}

/**
 * Where the wheel comes to rest under a sprung load (N) when it is let go at the travel `from`, slowly, between two ends of travel: it
 * goes the way it is pushed to the first travel at which the coilover bears the load, and stays there, because the load rises with
 * bump there (k_w > 0). Where several travels bear the load this is the one meant. Balanced at `from` on a rate of 0 or less, it sinks.
 */
export function restUnder(
  shock: ShockCurve,
  coilover: CoiloverForce,
  load: number,
  { droop, bump }: { readonly droop: number; readonly bump: number },
  from = 0,
): Rest {
  const missing = (travel: number) => load - wheelAt(shock, coilover, travel).load;
  const start = wheelAt(shock, coilover, from);
  const balanced = isBorne(start.load, load);
  if (balanced && (start.rate > 0 || load === 0)) return { travel: from, state: 'onSpring' };
  const sinks = balanced || start.load < load;
  const end = sinks ? bump : droop;
  if (sinks === end > from) {
    for (const piece of loadPieces(shock, coilover, from, end)) {
      const left = missing(piece.to);
      if (left === 0 || sinks === left < 0) {
        return { travel: crossing(missing, piece.from, piece.to), state: 'onSpring' };
      }
    }
  }
  return { travel: end, state: sinks ? 'bumpLimit' : 'droopLimit' };
}

/** Where a corner that stands comes to lose its hold: the wheel rate is 0 there, and below 0 beyond. */
export interface Collapse {
  readonly side: 'bump' | 'droop';
  /** mm, bump +. */
  readonly travel: number;
  /** Sprung wheel load there, N: the most that the corner bears on the bump side, the least on the droop side. */
  readonly load: number;
  /** Travel from which the wheel rate is above 0 again, mm, as on a bump stop; null where it is not before the end. */
  readonly standsAgain: number | null;
  /** Travel at which the wheel comes to rest under just that load, mm; null where it goes to the end. */
  readonly comesTo: number | null;
}

/** The first collapse between a travel at which the corner stands and an end of the travel; null where there is none. */
export function collapseBetween(
  shock: ShockCurve,
  coilover: CoiloverForce,
  from: number,
  end: number,
): Collapse | null {
  const side = end > from ? 'bump' : 'droop';
  const pieces = [...loadPieces(shock, coilover, from, end)];
  const first = pieces.findIndex(({ rises }) => !rises);
  if (first < 0) return null;
  // On the way to full droop a spring comes loose: the wheel hangs, and nothing collapses.
  const middle = (pieces[first].from + pieces[first].to) / 2;
  if (side === 'droop' && shock.at(middle).length >= coilover.loose) return null;
  const travel = pieces[first].from;
  const { load } = wheelAt(shock, coilover, travel);
  const risen = pieces.slice(first).filter(({ rises }) => rises);
  const left = (at: number) => (side === 'bump' ? 1 : -1) * (load - wheelAt(shock, coilover, at).load);
  const last = risen.find(({ to }) => left(to) <= 0);
  return {
    side,
    travel,
    load,
    standsAgain: risen[0]?.from ?? null,
    comesTo: last === undefined ? null : crossing(left, last.from, last.to),
  };
}

/** Where a function comes to 0 in a piece at whose end it has; at its start where only rounding has it pass before. */
function crossing(f: (travel: number) => number, from: number, to: number): number {
  const [first, last] = [Math.sign(f(from)), Math.sign(f(to))];
  if (first === last || first === 0) return from;
  // 0 all the way to the end, as the load of a loose spring: where that begins.
  if (last === 0) return zeroBetween((travel) => (Math.sign(f(travel)) === first ? 1 : -1), from, to);
  return zeroBetween(f, from, to);
}
