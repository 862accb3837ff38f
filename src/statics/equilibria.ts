// A linkage of one degree of freedom is in equilibrium where the force Q of all loads along its motion is zero; V' = -Q, so that it
// is stable where Q changes from + to -. The motion is cut into parts. Between two ends of a part
//
//   Q changes its sign                       a root, found by bracketing
//   Q' does, and turns Q towards zero        Q at the turning point: of the other sign, two roots; zero, one double root
//
// An end at which Q is zero belongs to the parts on both sides. Where Q is zero at three ends running it is so between them.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/equilibrium.ts';
import { checkMotion } from '../linkage/check-motion.ts';
import type { Point } from '../linkage/drawing.ts';
import type { Motion } from '../linkage/motion.ts';
import type { MotionStatus } from '../linkage/path.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { type ForceAt, type Line, type LoadsAlong, lineOf, loadsAlong } from './force-along.ts';
import { bindLoads, type MotionLoad } from './motion-loads.ts';
import { ropesAlong } from './slack-ropes.ts';

/** How equilibria are searched for. */
export interface EquilibriaOptions {
  /** Parts into which the motion is cut at least; default 400. Two pairs of equilibria in one part can be missed. */
  readonly parts?: number;
}

/**
 * How a linkage rests: `stable`, it comes back when moved a little; `unstable`, it goes on; `semistable`, it comes back from one side
 * only, as on the point of snapping through; `neutral`, it stays where it is put; `slackRope`, it does not stay, as a rope would have to
 * push.
 */
export type EquilibriumStatus = 'stable' | 'unstable' | 'semistable' | 'neutral' | 'slackRope';

/** A pose in which all forces are in balance. */
export interface Equilibrium<P extends string = string> {
  /** The driver there; for `neutral` where that begins. */
  readonly at: number;
  /** For `neutral`: the driver where it ends. */
  readonly to?: number;
  readonly status: EquilibriumStatus;
  /** Places of all points: `{ ...drawing, points }` is the drawing in this pose. */
  readonly points: Record<P, Point>;
  /** Second derivative of the potential by the driver; null at a dead point of the driver, and where the force jumps. */
  readonly stiffness: number | null;
  /** Potential of all loads, 0 as drawn; null if one has none, as a load that turns with a body. */
  readonly potential: number | null;
  /** Ropes that would have to push; of `neutral` where that begins. */
  readonly slackRopes: readonly string[];
}

/** Where a linkage is in equilibrium. */
export interface Equilibria<P extends string = string> {
  /** `neutral`: everywhere in the motion, and no list; `none`: nowhere. */
  readonly status: 'found' | 'none' | 'neutral';
  /** In order of the driver. */
  readonly equilibria: readonly Equilibrium<P>[];
  /** Whether the loads press the linkage against the lower, and the upper end of its motion: it rests there if that is a stop. */
  readonly pressedLow: boolean;
  readonly pressedHigh: boolean;
  /** How the motion ends on either side. At a `bifurcation` it could go on: `branch` of `trace` says where, and the search goes along. */
  readonly ends: { readonly low: MotionStatus; readonly high: MotionStatus };
  /** Parts of the motion where a load has no value (a gas column used up): the driver from and to. */
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
}

/**
 * Where a linkage of one degree of freedom comes to rest under loads, within its traced motion.
 *
 * @throws InputError for what is no motion, and for loads on what is not there.
 */
export function equilibria<P extends string, B extends string>(
  motion: Motion<P, B>,
  loads: readonly MotionLoad<NoInfer<P>, NoInfer<B>>[],
  options?: EquilibriaOptions,
): Equilibria<P>;
export function equilibria(
  motion: Motion,
  loads: readonly MotionLoad[],
  options: EquilibriaOptions = {},
): Equilibria {
  checkMotion(motion);
  const { path } = motion;
  const faults = optionFaults(options, ['parts']);
  const bound = bindLoads(path.system, loads, '', faults);
  refuse('loads', faults);
  const line = lineOf(path);
  const along = loadsAlong(line, bound);
  const { force } = along;
  const ropes = ropesAlong(line, bound);
  const ends = endsOf(force, line.cut(options.parts ?? PARTS));
  const isNeutral = ends.every(({ sign }) => sign === 0);
  const rests = isNeutral ? [] : restsAmong(line, force, ends);
  const status = isNeutral ? 'neutral' : rests.length > 0 ? 'found' : 'none';
  return {
    status,
    equilibria: rests.map(equilibriumAt(line, along, (w) => ropes.slack(w, 0))).sort((a, b) => a.at - b.at),
    pressedLow: !line.isClosed && ends[0].sign < 0,
    pressedHigh: !line.isClosed && ends[ends.length - 1].sign > 0,
    ends: { low: path.low.status, high: path.high.status },
    gaps: gapsOf(line, ends),
  };
}

/** Parts into which a motion is cut, if nothing is asked for, and the most that may be. */
export const PARTS = 400;
const MOST_PARTS = 1e6;

/** What is wrong with options of which one is `parts`. */
export function optionFaults(options: { readonly parts?: number }, known: readonly string[]): Diagnostic[] {
  const faults = unknownOptions(options, known);
  const { parts = PARTS } = options ?? {};
  if (!(Number.isInteger(parts) && parts >= 2 && parts <= MOST_PARTS)) {
    faults.push(fault('notWhole', 'parts', { got: show(parts), min: 2, max: MOST_PARTS }));
  }
  return faults;
}

/** Places of equilibrium on a line that is cut at places in order. */
export function restsOf(line: Line, force: (w: number) => ForceAt, places: readonly number[]): Rest[] {
  return restsAmong(line, force, endsOf(force, places));
}

function restsAmong(line: Line, force: (w: number) => ForceAt, ends: readonly End[]): Rest[] {
  return stretchesOf(line, ends).flatMap((stretch) => restsIn(force, stretch));
}

/** An end of a part, with the sign of the force there: 0 where that is rounding, NaN where it has no value. */
interface End extends ForceAt {
  readonly w: number;
  readonly sign: number;
}

/** A force below this share of what it is made of, there or at a neighbouring end, is rounding. */
export const ROUNDING = 1e-11;

/** The ends of parts at places in order. */
function endsOf(force: (w: number) => ForceAt, places: readonly number[]): End[] {
  const all = places.map((w) => ({ w, ...force(w) }));
  return all.map((end, k) => {
    const size = Math.max(...[all[k - 1], end, all[k + 1]].map((one) => finite(one?.size)));
    const { Q, slope } = end;
    const isZero = Math.abs(Q) <= ROUNDING * size;
    return { ...end, sign: Number.isFinite(Q + slope) ? (isZero ? 0 : Math.sign(Q)) : Number.NaN };
  });
}

function finite(value = 0): number {
  return Number.isFinite(value) ? value : 0;
}

/** Ends in a row that have a value, without a kink; of a closed motion from an end where Q is not zero round to it again. */
function stretchesOf(line: Line, ends: readonly End[]): End[][] {
  if (line.isClosed && line.kinks.length === 0 && ends.every(({ sign }) => !Number.isNaN(sign))) {
    const first = ends.findIndex(({ sign }) => sign !== 0);
    const round = ends.slice(1, first + 1).map((end) => ({ ...end, w: end.w + line.length }));
    return [[...ends.slice(first), ...round]];
  }
  const stretches: End[][] = [[]];
  for (const end of ends) {
    if (!Number.isNaN(end.sign)) stretches[stretches.length - 1].push(end);
    if (Number.isNaN(end.sign) || line.kinks.includes(end.w)) stretches.push([]);
  }
  return stretches;
}

function gapsOf(line: Line, ends: readonly End[]): Equilibria['gaps'] {
  const gaps: { from: number; to: number }[] = [];
  for (let k = 0; k < ends.length; k++) {
    if (!Number.isNaN(ends[k].sign)) continue;
    const first = Math.max(0, k - 1);
    while (k < ends.length - 1 && Number.isNaN(ends[k].sign)) k++;
    gaps.push({ from: line.driverAt(ends[first].w), to: line.driverAt(ends[k].w) });
  }
  return gaps;
}

/** A place of equilibrium. */
export interface Rest {
  readonly w: number;
  readonly status: EquilibriumStatus;
  /** For `neutral`, where it ends. */
  readonly to?: number;
}

/** Places of equilibrium among ends in a row. */
function restsIn(force: (w: number) => ForceAt, ends: readonly End[]): Rest[] {
  const found: Rest[] = [];
  let last = -1;
  for (let k = 0; k <= ends.length; k++) {
    if (k < ends.length && ends[k].sign === 0) continue;
    found.push(...restsBetween(force, ends[last], ends[k], ends.slice(last + 1, k)));
    last = k;
  }
  return found;
}

/** Ends running at which Q is zero that are no root but a stretch. */
const STRETCH = 3;

/** Places of equilibrium between two ends, of which one may be missing at an end of the motion; Q is zero at `zeros` between them. */
function restsBetween(
  force: (w: number) => ForceAt,
  a: End | undefined,
  b: End | undefined,
  zeros: readonly End[],
): Rest[] {
  if (zeros.length >= STRETCH) {
    return [{ w: zeros[0].w, to: zeros[zeros.length - 1].w, status: 'neutral' }];
  }
  if (a === undefined || b === undefined) {
    // A simple root at the end of the motion.
    const before = a?.sign ?? -(b?.sign ?? 0);
    return zeros.slice(0, 1).map(({ w }) => ({ w, status: before > 0 ? 'stable' : 'unstable' }));
  }
  const root = (from: number, to: number, sign: number): Rest => ({
    w: zeroBetween((w) => force(w).Q, from, to),
    status: sign > 0 ? 'stable' : 'unstable',
  });
  if (a.sign !== b.sign) return [root(a.w, b.w, a.sign)];
  if (zeros.length === 0 && !(a.sign * a.slope < 0 && b.sign * b.slope > 0)) return [];
  const turns = a.slope * b.slope < 0;
  const w = turns ? zeroBetween((place) => force(place).slope, a.w, b.w) : zeros[0].w;
  const { Q, size } = force(w);
  if (Math.abs(Q) <= ROUNDING * Math.max(size, a.size, b.size)) return [{ w, status: 'semistable' }];
  if (Math.sign(Q) === a.sign) return [];
  return [root(a.w, w, a.sign), root(w, b.w, -a.sign)];
}

/** Where more is left at a root than this share of all forces, and of what they change by over the motion, the force jumps: a length is 0. */
const JUMP = 1e-6;

/** Makes what tells of a place of equilibrium. */
export function equilibriumAt(
  line: Line,
  { force, potential }: LoadsAlong,
  slack: (w: number) => readonly string[],
): (rest: Rest) => Equilibrium {
  const drawn = potential(line.drawn);
  return ({ w, to, status }) => {
    const rate = line.driverRateAt(w);
    const { Q, slope, size } = force(w);
    const jumps = Math.abs(Q) > JUMP * (size + Math.abs(slope) * line.length);
    const stiffness = status === 'neutral' ? 0 : jumps ? Number.NaN : -slope / (rate * rate);
    const V = (potential(w) ?? Number.NaN) - (drawn ?? Number.NaN);
    const slackRopes = slack(w);
    return {
      at: line.driverAt(w),
      ...(to === undefined ? {} : { to: line.driverAt(to) }),
      status: slackRopes.length > 0 ? 'slackRope' : status,
      points: line.poseAt(w),
      stiffness: Number.isFinite(stiffness) ? stiffness : null,
      potential: Number.isFinite(V) ? V : null,
      slackRopes,
    };
  };
}
