// The rest of a linkage of any degrees of freedom while a factor c grows: the curve Q(z, c) = 0 is followed by its length, so that c may
// turn back (E. Riks, Int. J. Solids Structures 15, 1979; from memory). With K and h of balance.ts its tangent is
//
//   K y + h c' = 0,
//
// and a step along it is corrected by the shortest way that Newton's method knows back onto the curve. The rest is stable as long as K is
// positive definite. Where its least principal value comes to zero, and c turns back, the linkage snaps through: downhill under the load
// that stays. Where c goes on, the curve of rests is crossed by another one, a bifurcation.

import { type Diagnostic, fault, show, unknownName, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/equilibrium.ts';
import { checkDrawing, type Drawing, type Point } from '../linkage/drawing.ts';
import type { Driver } from '../linkage/drive.ts';
import { driverFaults } from '../linkage/drivers.ts';
import { isRecord } from '../linkage/joints.ts';
import { dot } from '../linkage/singular-pose.ts';
import { compile, type System } from '../linkage/system.ts';
import { decompose, shortestLeast } from '../numerics/singular-values.ts';
import { zeroBetween } from '../numerics/zero.ts';
import {
  type Balance,
  balanceAt,
  closedNear,
  type GrowingBar,
  type Loaded,
  loaded,
  type Place,
  stepLength,
} from './balance.ts';
import { descend, isBalanced, moved, polished, principal } from './descend.ts';
import {
  drawnPlace,
  drivenPlace,
  immovable,
  pointsAt,
  type ReachedEquilibrium,
  reachedBy,
  statusOf,
} from './equilibria-from.ts';
import { bindLoads, type GrowingSpring, type MotionLoad } from './motion-loads.ts';
import { ropesOf, slackRopes } from './slack-ropes.ts';

/** A bar whose length grows: a body of two points, of the length drawn plus `by` times the factor. */
export interface GrowingLength<B extends string = string> {
  readonly bar: B;
  /** How much longer at factor 1, in the drawing's unit. */
  readonly by: number;
}

/** How a rest is followed from a pose. */
export interface FollowFromOptions<P extends string = string, B extends string = string> {
  /** Factor of what grows at the start; default 0. */
  readonly from?: number;
  /** The same at the end, smaller or greater; default 1. */
  readonly to?: number;
  /** Drivers to a pose near which the linkage rests at first, as `drive` takes them, with the lengths drawn; default as drawn. */
  readonly start?: readonly Driver<P, B>[];
}

/** A rest, and the factor there. */
export interface RestPose<P extends string = string> {
  /** Times what grows as given. */
  readonly factor: number;
  /** Places of all points, in the drawing's unit. */
  readonly points: Record<P, Point>;
}

/** A snap-through at a factor that stays: from one rest to another. */
export interface SnapThroughPose<P extends string = string> {
  /** Times what grows as given. */
  readonly factor: number;
  /** Places of all points before, in the drawing's unit. */
  readonly from: Record<P, Point>;
  /** The rest after; null where there is none downhill. */
  readonly to: Record<P, Point> | null;
}

/** A rest of a linkage of several degrees of freedom, followed while loads or lengths grow. */
export interface FollowedPose<P extends string = string> {
  /**
   * - `reached`: the target factor;
   * - `bifurcation`: the rest becomes unstable, and the linkage can go either way;
   * - `noRest`: there is no stable rest at the start, or none after a snap-through;
   * - `slackRope`: a rope would have to push from there on;
   * - `changePoint`: degrees of freedom change there;
   * - `deadPoint`: a length cannot grow any more;
   * - `notConverged`: no rest is found farther on, as where a load has no value;
   * - `stepLimit`: the rest is followed on and on.
   */
  readonly status:
    | 'reached'
    | 'bifurcation'
    | 'noRest'
    | 'slackRope'
    | 'changePoint'
    | 'deadPoint'
    | 'notConverged'
    | 'stepLimit';
  /** Factor where it ended. */
  readonly factor: number;
  /** The rest there; null for `noRest`. */
  readonly rest: ReachedEquilibrium<P> | null;
  /** The rest on the way, in order: both sides of each snap-through among them. */
  readonly rows: readonly RestPose<P>[];
  readonly snaps: readonly SnapThroughPose<P>[];
}

/**
 * Follows the stable rest of a linkage of one or several degrees of freedom while `growing` loads are multiplied by a factor from `from`
 * to `to`, or lengths of bars and free lengths of springs grow in proportion to it.
 *
 * @throws InputError for a faulty drawing, for loads, bars and drivers of what is not there, and for a linkage that cannot move.
 */
export function followEquilibriumFrom<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  loads: readonly MotionLoad<NoInfer<P>, NoInfer<B | T>>[],
  growing: readonly (
    | MotionLoad<NoInfer<P>, NoInfer<B | T>>
    | GrowingSpring<NoInfer<P>, NoInfer<B | T>>
    | GrowingLength<NoInfer<B>>
  )[],
  options?: FollowFromOptions<NoInfer<P>, NoInfer<B | T>>,
): FollowedPose<P>;
export function followEquilibriumFrom(
  drawing: Drawing,
  loads: readonly MotionLoad[],
  growing: readonly (MotionLoad | GrowingSpring | GrowingLength)[],
  options: FollowFromOptions = {},
): FollowedPose {
  checkDrawing(drawing);
  const faults = unknownOptions(options, ['from', 'to', 'start']);
  const { from = 0, to = 1, start = [] } = options ?? {};
  for (const [name, value] of Object.entries({ from, to })) {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', name, { got: show(value) }));
  }
  if (!Array.isArray(start) || start.length > 0) {
    faults.push(...driverFaults(start, 'start', ['driver', 'to']));
  }
  const system = compile(drawing);
  const constant = bindLoads(system, loads, 'loads', faults);
  const isBar = (one: unknown) => isRecord(one) && 'bar' in one;
  const bars: GrowingBar[] = [];
  (Array.isArray(growing) ? growing : []).forEach((one, k) => {
    if (isBar(one)) bars.push(...growingBar(system, one as GrowingLength, `growing[${k}]`, faults));
  });
  const factored = bindLoads(system, growing, 'growing', faults, isBar);
  refuse('loads', faults);
  const task = loaded(system, constant, factored, bars);
  refuse('linkage', immovable(task));

  const place = start.length === 0 ? drawnPlace(task) : drivenPlace(task, drawing, start);
  const opened = place.isReached ? grownTo(task, place, from) : null;
  return opened === null
    ? { status: 'noRest', factor: from, rest: null, rows: [], snaps: [] }
    : follow(task, opened, from, to);
}

/** The row of a bar that grows; what is wrong with it goes to `faults`. */
function growingBar(
  { structure, places }: System,
  grown: GrowingLength,
  path: string,
  faults: Diagnostic[],
): GrowingBar[] {
  const { bar, by } = grown;
  faults.push(...unknownOptions(grown, ['bar', 'by'], path));
  if (!Number.isFinite(by)) faults.push(fault('notFinite', `${path}.by`, { got: show(by) }));
  const { bodies, ratios = {}, sliders = {} } = structure.drawn;
  if (!Object.hasOwn(bodies, bar)) {
    faults.push(unknownName(`${path}.bar`, 'body', bar, Object.keys(bodies)));
    return [];
  }
  const ends = bodies[bar];
  // What turns with it, or slides on it, has its length in constants.
  const isPair = (pair: readonly string[]) => pair.every((name) => ends.includes(name));
  const carries =
    Object.values(sliders).some(({ on }) => isPair(on)) ||
    Object.values(ratios).some(({ of }) =>
      of.some((one) =>
        'turn' in one ? one.turn === bar || one.relativeTo === bar : 'travel' in one && isPair(one.along),
      ),
    );
  const row = structure.rows.findIndex(({ of, a, b }) => of.body === bar && a === b);
  if (ends.length !== 2 || carries || row < 0) {
    faults.push(fault('notABarThatGrows', `${path}.bar`, { got: show(bar) }));
    return [];
  }
  const [a, b] = ends.map((name) => places[structure.index.get(name) as number]);
  return [{ row, drawn: Math.hypot(b.x - a.x, b.y - a.y), by }];
}

/** Steps in which lengths are brought to where they start. */
const OPENING = 64;

/** A place with bars as long as at a factor; null where they do not fit. */
function grownTo(task: Loaded, { pose, values }: Place, c: number): Place | null {
  let grown: Place | null = { pose, values, c };
  if (task.bars.length === 0) return grown;
  grown = { pose, values, c: 0 };
  for (let k = 1; k <= OPENING && grown !== null; k++) {
    const at: number = (c * k) / OPENING;
    const closed = closedNear(task, grown.pose, at);
    const balance: Balance | null =
      closed === null ? null : balanceAt(task, { ...grown, pose: closed, c: at });
    grown = balance;
  }
  return grown;
}

/** First, largest and least step along the curve, as shares of the size for each root of a free point. */
const FIRST = 0.01;
const LARGEST = 0.05;
const LEAST = 1e-9;
const STEPS = 5000;
const CORRECTIONS = 8;
/** Corrections longer than this share of a step, and tangents with a cosine below this between them, are too much for one. */
const ASTRAY = 0.3;
const STRAIGHT = 0.95;
/** A step that is corrected in so many rounds may grow. */
const EASY = 3;
/** Force left over that no correction makes less, as a share of all forces. */
const LITTLE = 1e-9;
/** How far past a limit point the way down begins, and steps on it, as shares of the size. */
const PAST = 1e-4;
const DOWN = 0.02;
const SNAPS = 100;

/** A direction along the curve: y along the freedoms, and by how much c grows. */
interface Tangent {
  readonly y: readonly number[];
  readonly c: number;
}

/** A rest on the curve. */
interface Standing {
  readonly balance: Balance;
  readonly rounds: number;
}

function follow(task: Loaded, opened: Place, from: number, to: number): FollowedPose {
  const { system } = task;
  const length = stepLength(system);
  /** What of c counts as much as a size. */
  const unit = to === from ? 1 : Math.abs(to - from) / length;
  const way = Math.sign(to - from);
  const rows: RestPose[] = [];
  const snaps: SnapThroughPose[] = [];
  const points = ({ pose }: Place) => pointsAt(system, pose);
  const drawnAt = (c: number) => balanceAt(task, { ...drawnPlace(task), c })?.potential ?? null;
  const end = (status: FollowedPose['status'], factor: number, at: Balance | null): FollowedPose => {
    if (at === null) return { status, factor, rest: null, rows, snaps };
    note(at);
    const rest = reachedBy(task, { status: 'balanced', balance: at, place: at }, drawnAt(at.c));
    return { status, factor, rest, rows, snaps };
  };
  const note = (at: Balance) => {
    const last = rows[rows.length - 1];
    const own = points(at);
    if (last?.factor === at.c && samePoints(last.points, own)) return;
    rows.push({ factor: at.c, points: own });
  };

  const first = descend(task, opened, 'stable');
  if (first.status === 'changePoint') return end('changePoint', from, first.balance);
  if (first.balance === null || first.status !== 'balanced') return end('noRest', from, null);
  let now: Balance = first.balance;
  if (statusOf(task, now) === 'slackRope') return end('slackRope', from, now);
  if (statusOf(task, now) !== 'stable') return end('noRest', from, null);
  let tangent = onward(tangentAt(now, unit), way);
  let ds = FIRST * length;
  for (let left = STEPS; left > 0 && to !== from; left--) {
    note(now);
    const start = now;
    const along = tangent;
    const stepped = (s: number) => stepAlong(task, start, along, s, unit);
    const next = stepped(ds);
    const after = next === null ? null : turnedOn(tangentAt(next.balance, unit), start, along, next.balance);
    const cosine = after === null || next === null ? 0 : cosineOf(start, along, next.balance, after, unit);
    if (next === null || after === null || cosine < STRAIGHT) {
      ds /= 4;
      if (ds < LEAST * length) return end('notConverged', now.c, now);
      continue;
    }
    const { balance } = next;
    if (balance.basis.length !== now.basis.length || balance.isSingular) {
      ds /= 4;
      if (ds < LEAST * length) return end('changePoint', balance.c, balance);
      continue;
    }
    // What happens on the step, the first of it.
    const at = (s: number) => stepped(s)?.balance ?? balance;
    let stop = ds;
    let event = 'none' as 'none' | 'unstable' | 'slackRope' | 'deadPoint' | 'reached';
    const happens = (name: typeof event, margin: (of: Balance) => number, rounding = 0) => {
      if (!(margin(at(stop)) <= -rounding)) return;
      stop = margin(start) <= 0 ? 0 : zeroBetween((s) => margin(at(s)), 0, stop);
      event = name;
    };
    for (const [, row] of ropesOf(system)) happens('slackRope', ({ multipliers }) => multipliers[row] ?? 1);
    happens('unstable', leastStiffness, LITTLE * balance.stiffness);
    if (event !== 'unstable' && after.c * way < 0) {
      happens('deadPoint', (of) => turnedOn(tangentAt(of, unit), start, along, of).c * way);
    }
    happens('reached', ({ c }) => (to - c) * way);
    const found = event === 'none' ? balance : at(stop);
    if (event === 'reached') {
      const landed = moved(
        task,
        found,
        found.Q.map(() => 0),
        to,
      );
      return end('reached', to, landed === null ? found : polished(task, landed));
    }
    if (event === 'slackRope' || event === 'deadPoint') return end(event, found.c, found);
    now = found;
    tangent = after;
    if (event === 'none') {
      if (next.rounds <= EASY) ds = Math.min(1.5 * ds, LARGEST * length);
      continue;
    }
    if (after.c * along.c > 0) return end('bifurcation', found.c, found);
    note(found);
    const y = turnedOn(tangentAt(found, unit), start, along, found).y;
    const scale = (PAST * length) / Math.hypot(...y);
    const past = moved(
      task,
      found,
      y.map((value) => scale * value),
    );
    const down = past === null ? null : descend(task, past, 'stable', DOWN);
    const rest = down?.status === 'balanced' ? down.balance : null;
    const isRest = rest !== null && ['stable', 'slackRope'].includes(statusOf(task, rest));
    snaps.push({ factor: found.c, from: points(found), to: isRest ? points(rest) : null });
    if (!isRest) return end('noRest', found.c, null);
    if (slackRopes(system, rest).length > 0) return end('slackRope', rest.c, rest);
    if (snaps.length >= SNAPS) return end('stepLimit', rest.c, rest);
    now = rest;
    tangent = onward(tangentAt(now, unit), way);
    ds = FIRST * length;
  }
  return to === from ? end('reached', to, now) : end('stepLimit', now.c, now);
}

function samePoints(one: Record<string, Point>, other: Record<string, Point>): boolean {
  return Object.keys(one).every((name) => one[name][0] === other[name][0] && one[name][1] === other[name][1]);
}

function leastStiffness({ K }: Balance): number {
  const { values } = principal(K);
  return values[values.length - 1];
}

/** The direction of the curve, of length 1, either way. */
function tangentAt({ K, growth }: Balance, unit: number): Tangent {
  const n = K.length;
  const { right } = decompose(
    K.map((row, i) => [...row, growth[i] * unit]),
    n + 1,
  );
  const last = right[n];
  return { y: last.slice(0, n), c: last[n] };
}

/** A direction in which c grows, or shrinks. */
function onward({ y, c }: Tangent, way: number): Tangent {
  return c * way < 0 ? { y: y.map((value) => -value), c: -c } : { y, c };
}

/** A direction in the unknowns. */
function inUnknowns({ basis, along }: Balance, { y, c }: Tangent, unit: number): Float64Array {
  return along.map((value, i) => y.reduce((sum, factor, k) => sum + factor * basis[k][i], value * c * unit));
}

/** A direction of the curve in the sense of an earlier one. */
function turnedOn(tangent: Tangent, before: Balance, along: Tangent, here: Balance): Tangent {
  const sense = dot(inUnknowns(before, along, 0), inUnknowns(here, tangent, 0)) + along.c * tangent.c;
  return sense < 0 ? { y: tangent.y.map((value) => -value), c: -tangent.c } : tangent;
}

function cosineOf(before: Balance, along: Tangent, here: Balance, tangent: Tangent, unit: number): number {
  const [one, other] = [inUnknowns(before, along, unit), inUnknowns(here, tangent, unit)];
  const both = dot(one, other) + along.c * tangent.c;
  return both / Math.sqrt((dot(one, one) + along.c ** 2) * (dot(other, other) + tangent.c ** 2));
}

/** The rest a step farther along the curve; null where none is found near enough. */
function stepAlong(
  task: Loaded,
  start: Balance,
  { y, c }: Tangent,
  ds: number,
  unit: number,
): Standing | null {
  let now = moved(
    task,
    start,
    y.map((value) => ds * value),
    start.c + ds * c * unit,
  );
  let off = 0;
  for (let rounds = 0; rounds <= CORRECTIONS; rounds++) {
    if (now === null || now.basis.length !== start.basis.length) return null;
    if (isBalanced(now, task.system.extent)) return { balance: now, rounds };
    const by = shortest(now, unit);
    off += Math.hypot(...by.y, by.c);
    if (off > ASTRAY * ds && rounds > 0 && off > LITTLE * task.system.size) return null;
    const next: Balance | null = moved(task, now, by.y, now.c + by.c * unit);
    const isLess = next !== null && Math.hypot(...next.Q) < Math.hypot(...now.Q);
    if (!isLess && Math.hypot(...now.Q) <= LITTLE * now.force) return { balance: now, rounds };
    now = next;
  }
  return null;
}

/** Singular values below this share of the largest are none: near a bifurcation they would turn rounding into a step aside. */
const FLAT = 1e-7;

/** The shortest step that takes the force left over away. */
function shortest({ K, Q, growth }: Balance, unit: number): Tangent {
  const n = K.length;
  const step = shortestLeast(
    K.map((row, i) => [...row, growth[i] * unit]),
    Q,
    n + 1,
    (largest) => FLAT * largest,
  );
  return { y: step.slice(0, n), c: step[n] };
}
