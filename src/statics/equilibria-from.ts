// Equilibria of a linkage of any degrees of freedom, one from each start (descend.ts). K, the second derivatives of the potential along
// the freedoms, says by its principal values how the linkage rests.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/equilibrium.ts';
import { whyNotDriven } from '../linkage/degrees-of-freedom.ts';
import { checkDrawing, type Drawing, type Point } from '../linkage/drawing.ts';
import type { Driver } from '../linkage/drive.ts';
import { driverFaults } from '../linkage/drivers.ts';
import { variablePart } from '../linkage/form.ts';
import { drawnValue } from '../linkage/measure-series.ts';
import { trace } from '../linkage/motion.ts';
import { READING, reader, readPlace } from '../linkage/reader.ts';
import { taylorExpansion } from '../linkage/series.ts';
import { compile, type System } from '../linkage/system.ts';
import { horner } from '../numerics/polynomial.ts';
import { type Balance, balanceAt, type Loaded, loaded, type Place } from './balance.ts';
import { descend, type Found, principal, type Seek, sizeOf } from './descend.ts';
import { bindLoads, type MotionLoad } from './motion-loads.ts';
import { slackRopes } from './slack-ropes.ts';

/** From where, and for what, equilibria are searched. */
export interface EquilibriaFromOptions<P extends string = string, B extends string = string> {
  /**
   * Poses to start from, each as the drivers that `drive` takes there from the drawn pose, one for each degree of freedom; `[]` is the
   * drawn pose. Default: that alone.
   */
  readonly starts?: readonly (readonly Driver<P, B>[])[];
  /**
   * - `stable` (default): downhill, as the linkage goes when it is let go and friction slows it down;
   * - `any`: by Newton's method to an equilibrium nearby, stable or not. Also for loads without a potential.
   */
  readonly seek?: Seek;
}

/**
 * How a linkage of several degrees of freedom rests, or how the search ended without an equilibrium.
 *
 * - `stable`, `unstable`: the potential rises, or falls, in every direction;
 * - `saddle`: it rises in some and falls in others, so that the linkage does not stay either;
 * - `neutral`: it falls in none, and in some does not change to second order;
 * - `noPotential`: in balance, but a load that turns with a body leaves open whether it is stable; also where `seek: 'stable'` could not
 *   begin for that;
 * - `slackRope`: in balance, but a rope would have to push: the linkage does not stay there;
 * - `changePoint`: degrees of freedom, and with them what balance is, change there;
 * - `unbounded`: a point has gone 30 extents of the drawing from where it was drawn;
 * - `noValue`: a load has no value at the start (a gas column used up);
 * - `startNotReached`: the drivers do not get to the start;
 * - `notConverged`: forces are left over that no step makes less.
 */
export type ReachedStatus =
  | 'stable'
  | 'unstable'
  | 'saddle'
  | 'neutral'
  | 'noPotential'
  | 'slackRope'
  | 'changePoint'
  | 'unbounded'
  | 'noValue'
  | 'startNotReached'
  | 'notConverged';

/** Where a search ended. */
export interface ReachedEquilibrium<P extends string = string> {
  readonly status: ReachedStatus;
  /** Places of all points: `{ ...drawing, points }` is the drawing in this pose. */
  readonly points: Record<P, Point>;
  /** In how many independent directions the potential rises, stays to second order, and falls; null where it was not looked at. */
  readonly directions: { readonly rising: number; readonly level: number; readonly falling: number } | null;
  /** Potential of all loads, 0 as drawn; null if one has none. */
  readonly potential: number | null;
  /**
   * The force left over along the degrees of freedom, as a share of the forces of all loads, and of what they change by over the extent of
   * the drawing; null where a load has no value.
   */
  readonly residual: number | null;
  /** Ropes that would have to push. */
  readonly slackRopes: readonly string[];
}

/**
 * Equilibria of a linkage of one or several degrees of freedom under loads, one from each start, in their order. There may be others:
 * `equilibria` finds all of a linkage of one.
 *
 * @throws InputError for a faulty drawing, for loads and drivers of what is not there, and for a linkage that cannot move.
 */
export function equilibriaFrom<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  loads: readonly MotionLoad<NoInfer<P>, NoInfer<B | T>>[],
  options?: EquilibriaFromOptions<NoInfer<P>, NoInfer<B | T>>,
): ReachedEquilibrium<P>[];
export function equilibriaFrom(
  drawing: Drawing,
  loads: readonly MotionLoad[],
  options: EquilibriaFromOptions = {},
): ReachedEquilibrium[] {
  checkDrawing(drawing);
  const faults = unknownOptions(options, ['starts', 'seek']);
  const { starts = [[]], seek = 'stable' } = options ?? {};
  if (seek !== 'stable' && seek !== 'any') {
    faults.push(fault('unknownChoice', 'seek', { got: show(seek), allowed: ['stable', 'any'], meant: null }));
  }
  faults.push(...startFaults(starts));
  const system = compile(drawing);
  const task = loaded(system, bindLoads(system, loads, 'loads', faults));
  refuse('loads', faults);
  refuse('linkage', immovable(task));
  const drawn = balanceAt(task, drawnPlace(task))?.potential ?? null;
  return starts.map((drivers): ReachedEquilibrium => {
    const place = drivers.length === 0 ? drawnPlace(task) : drivenPlace(task, drawing, drivers);
    if (!place.isReached) return reached(task, { status: 'startNotReached', place }, drawn);
    if (seek === 'stable' && !task.terms.every(({ term }) => 'law' in term)) {
      return reached(task, { status: 'noPotential', place }, drawn);
    }
    return reachedBy(task, descend(task, place, seek), drawn);
  });
}

/** What is wrong with poses to start from. */
function startFaults(starts: unknown): Diagnostic[] {
  if (!Array.isArray(starts)) return [fault('noDriver', 'starts', { got: show(starts) })];
  return starts.flatMap((drivers, k) =>
    Array.isArray(drivers) && drivers.length === 0
      ? []
      : driverFaults(drivers, `starts[${k}]`, ['driver', 'to']),
  );
}

/** Why a linkage cannot move at all. */
export function immovable(task: Loaded): Diagnostic[] {
  const isMovable =
    task.system.unknowns > 0 && balanceAt({ ...task, terms: [] }, drawnPlace(task))?.basis.length !== 0;
  return isMovable ? [] : [whyNotDriven(taylorExpansion(task.system))];
}

/** A place to start from. */
interface Start extends Place {
  readonly isReached: boolean;
}

/** The drawn pose. */
export function drawnPlace({ system, measures }: Loaded): Start {
  return {
    pose: new Float64Array(system.unknowns),
    c: 0,
    values: measures.map(drawnValue),
    isReached: true,
  };
}

/** Where drivers take a linkage from its drawn pose. */
export function drivenPlace(
  { system, measures }: Loaded,
  drawing: Drawing,
  drivers: readonly Driver[],
): Start {
  const { path, high } = trace(drawing, { drivers });
  const last = path.pieces[path.pieces.length - 1];
  const r = reader(path, measures);
  readPlace(r, path.pieces.length - 1, last.hi);
  const values = measures.map((_, i) => r.m[i * READING]);
  // The unknowns of the drivers stand behind those of the drawing.
  const pose = Float64Array.from({ length: system.unknowns }, (_, j) =>
    horner(last.z, j * (last.order + 1), last.order, last.hi),
  );
  return { pose, c: 0, values, isReached: high.status === 'reached' };
}

/** Places of all points in a pose. */
export function pointsAt({ structure, places }: System, pose: ArrayLike<number>): Record<string, Point> {
  return Object.fromEntries(
    structure.names.map((name, p) => {
      const [x, y] = variablePart(places[p], pose);
      return [name, [places[p].x + x, places[p].y + y] as const];
    }),
  );
}

/** A principal stiffness below this share of what it is made of is none. */
const LEVEL = 1e-9;

/** In how many directions the potential rises, stays, and falls. */
export function directionsOf({ K, stiffness }: Balance): NonNullable<ReachedEquilibrium['directions']> {
  const { values } = principal(K);
  const level = values.filter((value) => Math.abs(value) <= LEVEL * stiffness).length;
  const rising = values.filter((value) => value > LEVEL * stiffness).length;
  return { rising, level, falling: values.length - rising - level };
}

/** How a linkage rests in a balance. */
export function statusOf(task: Loaded, balance: Balance): ReachedStatus {
  if (slackRopes(task.system, balance).length > 0) return 'slackRope';
  if (balance.potential === null && balance.basis.length > 1) return 'noPotential';
  const { rising, level, falling } = directionsOf(balance);
  if (falling > 0) return rising + level > 0 ? 'saddle' : 'unstable';
  return level > 0 ? 'neutral' : 'stable';
}

/** What a search tells. */
export function reachedBy(
  task: Loaded,
  { status, balance, place }: Found,
  drawn: number | null,
): ReachedEquilibrium {
  const own = status === 'balanced' && balance !== null ? statusOf(task, balance) : status;
  return reached(task, { status: own === 'balanced' ? 'notConverged' : own, place }, drawn, balance);
}

function reached(
  task: Loaded,
  { status, place }: { readonly status: ReachedStatus; readonly place: Place },
  drawn: number | null,
  balance: Balance | null = balanceAt(task, place),
): ReachedEquilibrium {
  const isRest = balance !== null && ENDED.every((one) => one !== status);
  const potential = (balance?.potential ?? Number.NaN) - (drawn ?? Number.NaN);
  const left =
    balance === null ? Number.NaN : Math.hypot(...balance.Q) / (sizeOf(balance, task.system.extent) || 1);
  return {
    status,
    points: pointsAt(task.system, place.pose),
    directions: isRest && balance.potential !== null ? directionsOf(balance) : null,
    potential: Number.isFinite(potential) ? potential : null,
    residual: Number.isFinite(left) ? left : null,
    slackRopes: isRest ? slackRopes(task.system, balance) : [],
  };
}

/** Ends without a balance. */
const ENDED: readonly ReachedStatus[] = [
  'changePoint',
  'unbounded',
  'noValue',
  'startNotReached',
  'notConverged',
];
