// The loads Q_0 + c Q_1 along a motion, c a factor that grows. They balance at the place w where c(w) = -Q_0/Q_1: a curve that is
// followed in w, from end to end of the parts into which the motion is cut. The rest is stable as long as
//
//   S = Q_0' + c(w) Q_1' < 0,   and c' = -S/Q_1.
//
// Where S = 0 the factor turns back (a limit point): under a load that stays, the linkage snaps through to the next stable rest in
// the direction in which it is pushed. Where Q_1 = 0 at a rest, that is a rest whatever the factor; it ends where S = 0, in a bifurcation.

import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/equilibrium.ts';
import { checkMotion } from '../linkage/check-motion.ts';
import type { Motion } from '../linkage/motion.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { type Equilibrium, equilibriumAt, optionFaults, PARTS, ROUNDING, restsOf } from './equilibria.ts';
import { type Line, lineOf, loadsAlong } from './force-along.ts';
import { bindLoads, type GrowingSpring, type MotionLoad } from './motion-loads.ts';
import { ropesAlong } from './slack-ropes.ts';

/** How a rest is followed. */
export interface FollowOptions {
  /** Factor of the growing loads at the start; default 0. */
  readonly from?: number;
  /** The same at the end, smaller or greater; default 1. */
  readonly to?: number;
  /** The driver near which the linkage rests at first; default as drawn. */
  readonly start?: number;
  /** Parts into which the motion is cut at least; default 400. */
  readonly parts?: number;
}

/** A rest, and the factor of the growing loads there. */
export interface RestUnderLoad {
  /** Times the growing loads as given. */
  readonly factor: number;
  /** The driver, in the drawing's unit or radians. */
  readonly at: number;
}

/** A snap-through under a load that stays: from one rest to another. */
export interface SnapThrough {
  /** Times the growing loads as given. */
  readonly factor: number;
  /** The driver before, in the drawing's unit or radians. */
  readonly from: number;
  /** The driver after; null where there is no stable rest farther on in the motion. */
  readonly to: number | null;
}

/** A rest followed while loads grow. */
export interface FollowedRest<P extends string = string> {
  /**
   * - `reached`: the target factor;
   * - `endOfMotion`: the rest leaves the traced motion at this factor, or comes to a change point where the motion turns off;
   * - `slackRope`: a rope would have to push from there on;
   * - `bifurcation`: the rest becomes unstable, and the linkage can go either way;
   * - `noRest`: there is no stable rest at the start, or none after a snap-through;
   * - `stepLimit`: it snaps through again and again.
   */
  readonly status: 'reached' | 'endOfMotion' | 'slackRope' | 'bifurcation' | 'noRest' | 'stepLimit';
  /** Factor where it ended. */
  readonly factor: number;
  /** The rest there; null for `noRest`. */
  readonly rest: Equilibrium<P> | null;
  /** The rest on the way, in order: both sides of each snap-through among them. */
  readonly rows: readonly RestUnderLoad[];
  readonly snaps: readonly SnapThrough[];
}

/**
 * Follows the stable rest of a linkage of one degree of freedom while the `growing` loads are multiplied by a factor from `from` to `to`,
 * or free lengths of springs grow in proportion to it. With a bar that grows the motion changes: `followEquilibriumFrom`.
 *
 * @throws InputError for what is no motion, and for loads on what is not there.
 */
export function followEquilibrium<P extends string, B extends string>(
  motion: Motion<P, B>,
  loads: readonly MotionLoad<NoInfer<P>, NoInfer<B>>[],
  growing: readonly (MotionLoad<NoInfer<P>, NoInfer<B>> | GrowingSpring<NoInfer<P>, NoInfer<B>>)[],
  options?: FollowOptions,
): FollowedRest<P>;
export function followEquilibrium(
  motion: Motion,
  loads: readonly MotionLoad[],
  growing: readonly (MotionLoad | GrowingSpring)[],
  options: FollowOptions = {},
): FollowedRest {
  checkMotion(motion);
  const { path, low, high } = motion;
  const { from = 0, to = 1, start = motion.drawn, parts = PARTS } = options ?? {};
  const faults: Diagnostic[] = optionFaults(options, ['from', 'to', 'start', 'parts']);
  for (const [name, value] of Object.entries({ from, to })) {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', name, { got: show(value) }));
  }
  if (!(start >= low.at && start <= high.at)) {
    faults.push(
      fault('startOutsideMotion', 'start', { got: show(start), allowed: `${low.at} to ${high.at}` }),
    );
  }
  const constant = bindLoads(path.system, loads, 'loads', faults);
  const factored = bindLoads(path.system, growing, 'growing', faults, () => false);
  refuse('loads', faults);

  const line = lineOf(path);
  const [own, grown] = [constant, factored].map((one) => loadsAlong(line, one));
  const [force, more] = [own.force, grown.force];
  const total = (factor: number) => (w: number) => {
    const [one, other] = [force(w), more(w)];
    return {
      Q: one.Q + factor * other.Q,
      slope: one.slope + factor * other.slope,
      size: one.size + Math.abs(factor * other.size),
    };
  };
  const potential = (factor: number) => (w: number) => {
    const [one, other] = [own.potential(w), grown.potential(w)];
    return one === null || other === null ? null : one + factor * other;
  };
  const factorAt = (w: number) => -force(w).Q / more(w).Q;
  const stability = (w: number) => force(w).slope + factorAt(w) * more(w).slope;
  const ropes = ropesAlong(line, constant, factored);
  /** Where a rope gets slack on the way of a rest; null where none does. */
  const slackOn = (from: number, to: number): number | null => {
    const tension = (place: number) => ropes.tension(place, factorAt(place));
    if (ropes.slack(to, factorAt(to)).length === 0) return null;
    return tension(from) > 0 ? zeroBetween(tension, from, to) : from;
  };
  const places = line.cut(parts);
  const walk = walkOf(line, places);
  const way = Math.sign(to - from);
  const rows: RestUnderLoad[] = [];
  const snaps: SnapThrough[] = [];
  const note = (factor: number, w: number) => {
    const [at, last] = [line.driverAt(w), rows[rows.length - 1]];
    if (last?.factor !== factor || last.at !== at) rows.push({ factor, at });
  };
  const end = (status: FollowedRest['status'], factor: number, w: number | null): FollowedRest => {
    if (w === null) return { status, factor, rest: null, rows, snaps };
    note(factor, w);
    const near = PAST * (places[1] - places[0]);
    const [before, after] = [w - near, w + near].map((place) => Math.sign(total(factor)(place).Q));
    const isEven = status === 'bifurcation' && before * after > 0;
    const loads = { force: total(factor), potential: potential(factor) };
    const read = equilibriumAt(line, loads, (place) => ropes.slack(place, factor));
    const isRising = status === 'bifurcation' && before < 0;
    const rest = read({ w, status: isEven ? 'semistable' : isRising ? 'unstable' : 'stable' });
    return { status, factor, rest, rows, snaps };
  };

  const first = restsOf(line, total(from), places)
    .filter(({ status }) => status === 'stable')
    .map(({ w }) => ({ w, off: Math.abs(line.driverAt(w) - start) }))
    .sort((a, b) => a.off - b.off)[0];
  if (first === undefined) return end('noRest', from, null);
  let { w } = first;
  let factor = from;
  if (ropes.slack(w, factor).length > 0) return end('slackRope', factor, w);
  let [edge, d] = [0, 0];
  for (let left = MOST_ROUNDS * places.length; factor !== to; left--) {
    if (left === 0) return end('stepLimit', factor, w);
    note(factor, w);
    const { Q, size, slope } = more(w);
    const nearby = Math.max(size, ...[-1, 1].map((one) => more(walk.at(walk.beyond(w, one)) ?? w).size));
    if (Math.abs(Q) <= ROUNDING * nearby) {
      // A rest whatever the factor.
      const constantSlope = force(w).slope;
      return constantSlope + to * slope < 0
        ? end('reached', to, w)
        : end('bifurcation', -constantSlope / slope, w);
    }
    if (d !== way * Math.sign(Q)) {
      d = way * Math.sign(Q);
      edge = walk.beyond(w, d);
    }
    const next = walk.at(edge);
    if (next === null || line.kinks.some((kink) => isPassed(kink, w, next))) {
      return end('endOfMotion', factor, w);
    }
    if (!Number.isFinite(force(next).Q + more(next).Q)) return end('endOfMotion', factor, w);
    const isPole = !(more(next).Q * Q > 0);
    const pole = isPole ? zeroBetween((place) => more(place).Q, w, next) : next;
    // There the factor grows beyond all bounds, or two curves of rests cross.
    const isCrossing = isPole && Math.abs(force(pole).Q) <= ROUNDING * force(w).size;
    const far = isPole ? w + (pole - w) * SHORT_OF : next;
    const isLimit = !(stability(far) < 0);
    let stop = isPole && !isCrossing ? pole : far;
    if (isLimit) stop = stability(w) < 0 ? zeroBetween(stability, w, far) : w;
    const wanted = (place: number) => total(to)(place).Q;
    const isThere = !(wanted(stop) * d > 0);
    if (isThere) stop = zeroBetween(wanted, w, stop);
    const slack = isPole && stop === pole ? null : slackOn(w, stop);
    if (slack !== null) return end('slackRope', factorAt(slack), slack);
    if (isThere) return end('reached', to, stop);
    factor = factorAt(stop);
    w = stop;
    if (isLimit) {
      note(factor, w);
      const pushed = total(factor);
      const found = walk.first(w + (next - w) * PAST, edge, d, (place) => pushed(place).Q);
      snaps.push({
        factor,
        from: line.driverAt(w),
        to: found === null ? null : line.driverAt(found),
      });
      if (found === null) return end('noRest', factor, null);
      if (ropes.slack(found, factor).length > 0) return end('slackRope', factor, found);
      [w, d] = [found, 0];
    } else if (isPole) [w, factor] = [pole, -force(pole).slope / more(pole).slope];
    else edge += d;
  }
  return end('reached', to, w);
}

/** Ends of parts that are passed, in rounds of the whole motion, before it is given up. */
const MOST_ROUNDS = 20;
/** How near a crossing is gone, and how far past a limit point the next rest is looked for, as shares of a part. */
const SHORT_OF = 0.99;
const PAST = 1e-3;

/** Whether a kink lies between two places, or at the lower of them: its other side is a place of its own. */
function isPassed(kink: number, one: number, other: number): boolean {
  return Math.min(one, other) <= kink && kink < Math.max(one, other);
}

/** Places in a row, round and round in a closed motion. */
function walkOf({ length, isClosed, kinks }: Line, places: readonly number[]) {
  const n = places.length - 1;
  const at = (k: number): number | null => {
    if (!isClosed) return places[k] ?? null;
    const rounds = Math.floor(k / n);
    return rounds * length + places[k - rounds * n];
  };
  return {
    at,
    /** Index of the next place beyond w, upward or downward. */
    beyond: (w: number, d: number): number => {
      const rounds = isClosed ? Math.floor(w / length) : 0;
      const inside = w - rounds * length;
      const k = places.findIndex((place) => (d > 0 ? place > inside : place >= inside));
      return rounds * n + (k < 0 ? n + 1 : k) - (d > 0 ? 0 : 1);
    },
    /** The first root of f from a place past which it has the sign d, by way of the places from k on. */
    first: (from: number, k: number, d: number, f: (w: number) => number): number | null => {
      let before = from;
      for (let left = n + 1; left > 0; left--) {
        const next = at(k);
        const value = next === null ? Number.NaN : f(next);
        if (next === null || Number.isNaN(value)) return null;
        if (kinks.some((kink) => isPassed(kink, before, next))) return null;
        if (value * d <= 0) return zeroBetween(f, before, next);
        before = next;
        k += d;
      }
      return null;
    },
  };
}
