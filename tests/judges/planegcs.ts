/**
 * A position oracle that shares no code with the library: the drawing is handed to a general 2D constraint
 * solver as points and point-point distances, one coordinate is prescribed, and the pose is stepped away from
 * the drawing.
 *
 *   ground points     fixed numbers
 *   driver            one coordinate of a moving point, a fixed number that is changed between poses
 *   body of k points  2k - 3 distances |p - q| = |P - Q|; each further point is held by the two points of its
 *                     body that it sees at the best angle. Distances along a line hold a point across it to
 *                     second order only: a body whose points lie nearly on a line gets a helper point, the
 *                     apex of a right angle over its longest side.
 *
 * Two facts of the solver shape this file. Its trust region starts at 0.1 and its residual bound is 1e-10,
 * both in the unit of the sketch and neither to be set. So the unit is twice the size of the drawing (then
 * steps are taken whole), and the constraints are weighted until the bound means `tolerance`.
 *
 * Lengths are in the unit of the drawing, here called mm.
 */
import { createRequire } from 'node:module';
import type { GcsSystem } from '@salusoft89/planegcs';
import { Algorithm, init_planegcs_module } from '@salusoft89/planegcs';

export interface PlanegcsModule {
  readonly GcsSystem: new () => GcsSystem;
}

export interface PlanegcsDrawing {
  /** Coordinates of every point in the drawn pose, mm. */
  points: Record<string, readonly [number, number]>;
  ground: readonly string[];
  bodies: Record<string, readonly string[]>;
  /** The prescribed coordinate: `x` the first, `y` the second. Without it only mobility can be asked for. */
  driver?: { point: string; axis: 'x' | 'y' };
}

export interface PlanegcsOptions {
  /** Default DogLeg, the fastest of the three. */
  algorithm?: keyof typeof Algorithm;
  /** Error at which a length counts as kept, mm. Default 2e-14 of the size; rounding alone is some 1e-15. */
  tolerance?: number;
  /** Longest step of the driver between two solved poses, mm. Default a twelfth of the size. */
  maxStep?: number;
}

export interface PlanegcsPose {
  /** Coordinate that was asked for, mm; absolute, not counted from the drawn pose. */
  value: number;
  /** Coordinate at which the stepping ended, mm; equal to `value` when converged. */
  reached: number;
  /**
   * `failed`: no pose within the tolerance (as beyond a dead point); `mirrored`: a point changed sides within
   * its body; `jumped`: the pose left the path that its own steps predict. Steps are halved before any of the
   * three is reported, and what is handed back is the last good pose.
   */
  status: 'converged' | 'failed' | 'mirrored' | 'jumped';
  /** All points, ground included, mm, at `reached`. */
  positions: Record<string, [number, number]>;
  /** Largest |length - drawn length| over the distances of the sketch, mm. */
  residual: number;
  /** Largest distance of a point from where its body, moved without reflection, would carry it, mm. */
  shapeError: number;
}

export interface PlanegcsLinkage {
  /** Names of the moving points, in the order of the rows that `trace` writes. */
  readonly moving: readonly string[];
  /** Drawn value of the driver, mm; NaN without one. */
  readonly drawn: number;
  /** The pose at a value of the driver, stepped and checked from the drawn pose. */
  solve(value: number): PlanegcsPose;
  /** The same for many values, outward from the drawn pose; results in the order of the values. */
  sweep(values: ArrayLike<number>): PlanegcsPose[];
  /**
   * The bare loop, for timing: one solve for each value, no step between and no check, outward from the drawn
   * pose. Writes x and y of each moving point, row by row; returns how many poses the solver says it reached.
   * `order` is the degree of the extrapolation that each pose starts from: 0 is the previous pose; default 2.
   */
  trace(values: ArrayLike<number>, out: Float64Array, order?: 0 | 1 | 2): number;
  /** Unknowns less independent distances in the drawn pose, the driver not counted as a constraint. */
  degreesOfFreedom(): number;
  /**
   * Distances dependent on others in the drawn pose, as `body: point-point`. Which one of a dependent set is
   * named is the solver's choice; their number is what counts.
   */
  redundant(): string[];
  /** Frees the solver's memory; nothing else may be called afterwards. */
  destroy(): void;
}

/** Unit of the sketch, as a multiple of the drawing's size (its longer side along an axis). */
const UNIT = 2;
const TOLERANCE = 2e-14;
const MAX_STEP = 1 / 12;
/** The residual bound that is built into the solver, in units of the sketch times weight. */
const BUILT_IN_BOUND = 1e-10;
/** Iterations of one solve; a pose that is reached takes two to six. */
const MAX_ITERATIONS = 50;
/** Sine of the smallest angle at which two distances may hold a point. */
const MIN_SINE = 0.1;
/** A pose may miss its extrapolation by this share of its displacement. */
const MAX_BEND = 0.3;
/** Below this bend the next step is four times as long. */
const EASY_BEND = 0.1;
/** First step, which has no extrapolation to be held against, as a share of the longest. */
const FIRST_STEP = 1e-3;
/** Step at which halving ends, as a share of the longest; no rate is taken from a shorter one. */
const LAST_STEP = 1e-7;
/** A look back for the rate at a pose, as a share of the step that was refused there. */
const PROBE = 1e-3;

type Vec = readonly [number, number];
interface Node {
  name: string;
  at: Vec;
  ground: boolean;
}
interface Distance {
  body: string;
  from: number;
  to: number;
  length: number;
}
interface Shape {
  base: [number, number];
  /** Every other point with its drawn place along and across the base, mm. */
  rest: { node: number; along: number; across: number }[];
}
interface Sketch {
  system: GcsSystem;
  /** Index of the solver's parameter that holds the x of each node; its y is the next. */
  param: number[];
}

let loading: Promise<PlanegcsModule> | undefined;

/** The solver, compiled once in a process from the file beside its own code. */
export function loadPlanegcs(): Promise<PlanegcsModule> {
  loading ??= (
    init_planegcs_module as unknown as (config: { locateFile: () => string }) => Promise<PlanegcsModule>
  )({
    locateFile: () =>
      createRequire(import.meta.url).resolve('@salusoft89/planegcs/dist/planegcs_dist/planegcs.wasm'),
  });
  return loading;
}

export function planegcsLinkage(
  gcs: PlanegcsModule,
  drawing: PlanegcsDrawing,
  options: PlanegcsOptions = {},
): PlanegcsLinkage {
  const { nodes, distances, shapes } = layOut(drawing);
  const size = Math.max(...[0, 1].map((axis) => spread(nodes.map(({ at }) => at[axis]))));
  const { algorithm = 'DogLeg', tolerance = TOLERANCE * size, maxStep = MAX_STEP * size } = options;
  const unit = UNIT * size;
  const weight = (BUILT_IN_BOUND * unit) / tolerance;
  const method = Algorithm[algorithm];
  // Coordinates are counted from a ground point, so that a drawing far from the origin costs no digits.
  const origin = nodes.find((node) => node.ground)?.at ?? [0, 0];

  // The unknowns, node by node, helper points last, and the driver among them.
  const free = nodes.flatMap((node, i) => (node.ground ? [] : [i]));
  const names = Object.keys(drawing.points);
  const moving = names.filter((_, i) => !nodes[i].ground);
  const driverNode = drawing.driver ? names.indexOf(drawing.driver.point) : -1;
  const driverAxis = drawing.driver?.axis === 'y' ? 1 : 0;
  if (drawing.driver && !nodes[driverNode]) {
    throw new Error(`unknown point "${drawing.driver.point}" in driver (points: ${names.join(', ')})`);
  }
  if (nodes[driverNode]?.ground) {
    throw new Error(`invalid driver: ${drawing.driver?.point} is a ground point`);
  }
  const drawn = nodes[driverNode]?.at[driverAxis] ?? NaN;
  const driverSlot = 2 * free.indexOf(driverNode) + driverAxis;

  const { system, param } = compile(true);
  const slots = free.flatMap((i) => [param[i], param[i] + 1]);
  const shift = free.flatMap(() => origin);
  const start = Float64Array.from(free.flatMap((i) => nodes[i].at));
  const count = start.length;
  let destroyed = false;

  // The last good pose, the rate at which it was reached, and the step that the next one may take.
  let here = drawn;
  let pose = start.slice();
  let rate: Float64Array | undefined;
  let step = maxStep * FIRST_STEP;
  let probed = false;

  function compile(driven: boolean): Sketch {
    const s = new gcs.GcsSystem();
    s.set_debug_mode(0);
    s.set_max_iterations(MAX_ITERATIONS);
    s.set_covergence_threshold(tolerance / unit); // asked by BFGS alone
    const at = nodes.map((node, i) => {
      const first = s.push_p_param(
        (node.at[0] - origin[0]) / unit,
        node.ground || (driven && isDriver(i, 0)),
      );
      s.push_p_param((node.at[1] - origin[1]) / unit, node.ground || (driven && isDriver(i, 1)));
      return first;
    });
    const handles = at.map((i) => s.make_point(i, i + 1));
    distances.forEach(({ from, to, length }, tag) => {
      const value = s.push_p_param(length / unit, true);
      s.add_constraint_p2p_distance(handles[from], handles[to], value, tag + 1, true, weight);
    });
    for (const handle of handles) handle.delete();
    return { system: s, param: at };
  }

  function isDriver(node: number, axis: number): boolean {
    return node === driverNode && axis === driverAxis;
  }

  function write(value: number, guess: Float64Array): void {
    for (let i = 0; i < count; i++) {
      const mm = i === driverSlot ? value : guess[i];
      system.set_p_param(slots[i], (mm - shift[i]) / unit, i === driverSlot);
    }
  }

  function read(out: Float64Array, offset = 0, width = count): void {
    for (let i = 0; i < width; i++) out[offset + i] = system.get_p_param(slots[i]) * unit + shift[i];
  }

  /** Where a node is in a pose. */
  function place(node: number, x: Float64Array): Vec {
    const i = 2 * free.indexOf(node);
    return i < 0 ? nodes[node].at : [x[i], x[i + 1]];
  }

  function residual(x: Float64Array): number {
    let worst = 0;
    for (const { from, to, length } of distances) {
      worst = Math.max(worst, Math.abs(gap(place(from, x), place(to, x)) - length));
    }
    return worst;
  }

  function shapeError(x: Float64Array): number {
    let worst = 0;
    for (const { base, rest } of shapes) {
      const a = place(base[0], x);
      const b = place(base[1], x);
      const l = gap(a, b);
      const u: Vec = [(b[0] - a[0]) / l, (b[1] - a[1]) / l];
      for (const { node, along, across } of rest) {
        const carried: Vec = [a[0] + along * u[0] - across * u[1], a[1] + along * u[1] + across * u[0]];
        worst = Math.max(worst, gap(place(node, x), carried));
      }
    }
    return worst;
  }

  function restart(): void {
    here = drawn;
    pose = start.slice();
    rate = undefined;
    step = maxStep * FIRST_STEP;
    probed = false;
  }

  /** One step to a value; keeps it only if it is a pose of the same motion. */
  function advance(value: number): PlanegcsPose['status'] {
    const h = value - here;
    const slope = rate;
    const guess = slope ? pose.map((p, i) => p + h * slope[i]) : pose;
    write(value, guess);
    // BFGS may call a standstill converged, so lengths are measured here and not believed.
    if (system.solve_system(method) > 1) return 'failed';
    system.apply_solution();
    const next = new Float64Array(count);
    read(next);
    next[driverSlot] = value;
    if (!(residual(next) <= 10 * tolerance)) return 'failed';
    if (shapeError(next) > 1e4 * tolerance) return 'mirrored';
    let moved = 0;
    let missed = 0;
    for (let i = 0; i < count; i++) {
      moved = Math.max(moved, Math.abs(next[i] - pose[i]));
      missed = Math.max(missed, Math.abs(next[i] - guess[i]));
    }
    if (slope && missed > MAX_BEND * moved + 100 * tolerance) return 'jumped';
    if (!slope || missed < EASY_BEND * moved) step = Math.min(maxStep, 4 * step);
    if (Math.abs(h) >= maxStep * LAST_STEP) rate = next.map((p, i) => (p - pose[i]) / h);
    pose = next;
    here = value;
    probed = false;
    return 'converged';
  }

  /** The rate at the pose itself: that of the last step is too old once its end bends away from it. */
  function probe(h: number): void {
    probed = true;
    const value = here - Math.sign(h) * Math.max(Math.abs(h) * PROBE, maxStep * LAST_STEP);
    write(value, pose);
    if (system.solve_system(method) > 1) return;
    system.apply_solution();
    const back = new Float64Array(count);
    read(back);
    rate = back.map((p, i) => (pose[i] - p) / (here - value));
  }

  function solve(value: number): PlanegcsPose {
    guard();
    if (!Number.isFinite(value)) throw new Error(`invalid driver value: ${value}`);
    // The last pose serves if it lies on the way; then the result depends on the value alone.
    if ((here - drawn) * (value - here) < 0) restart();
    let status: PlanegcsPose['status'] = 'converged';
    while (here !== value) {
      const left = value - here;
      const next = Math.abs(left) <= step ? value : here + Math.sign(left) * step;
      const h = next - here;
      status = advance(next);
      if (status === 'converged') continue;
      if (!probed) probe(h);
      step = Math.abs(h) / 2;
      if (step < maxStep * LAST_STEP) break;
    }
    const reached = here;
    const positions: PlanegcsPose['positions'] = {};
    names.forEach((name, i) => {
      const [x, y] = place(i, pose);
      positions[name] = [x, y];
    });
    const result = {
      value,
      reached,
      status,
      positions,
      residual: residual(pose),
      shapeError: shapeError(pose),
    };
    if (status !== 'converged') restart();
    return result;
  }

  /** Indices of the values on one side of the drawn pose, outward. */
  function outward(values: ArrayLike<number>, side: 1 | -1): number[] {
    const all = Array.from(values, (value, i) => ({ i, away: side * (value - drawn) }));
    const kept = all.filter(({ away }) => (side > 0 ? away >= 0 : away > 0));
    return kept.sort((a, b) => a.away - b.away).map(({ i }) => i);
  }

  function sweep(values: ArrayLike<number>): PlanegcsPose[] {
    const poses: PlanegcsPose[] = [];
    for (const side of [1, -1] as const) {
      let end: PlanegcsPose | undefined; // beyond it nothing is tried again
      for (const i of outward(values, side)) {
        const got: PlanegcsPose = end ? { ...end, value: values[i] } : solve(values[i]);
        if (got.status !== 'converged') end = got;
        poses[i] = got;
      }
    }
    return poses;
  }

  function trace(values: ArrayLike<number>, out: Float64Array, order: 0 | 1 | 2 = 2): number {
    guard();
    restart();
    const width = 2 * moving.length;
    const driver = slots[driverSlot];
    let reached = 0;
    // Extrapolation by divided differences, as the values need not be evenly spaced; in units of the sketch.
    const p0 = new Float64Array(count);
    const d1 = new Float64Array(count);
    const d2 = new Float64Array(count);
    for (const side of [1, -1] as const) {
      write(drawn, start);
      slots.forEach((slot, i) => (p0[i] = system.get_p_param(slot)));
      let known = 1;
      let last = drawn;
      let before = drawn;
      for (const index of outward(values, side)) {
        const value = values[index];
        system.set_p_param(driver, (value - shift[driverSlot]) / unit, true);
        const degree = Math.min(order, known - 1);
        if (degree > 0) {
          const h = value - last;
          const bend = degree > 1 ? h * (value - before) : 0;
          for (let i = 0; i < count; i++) {
            if (i !== driverSlot) system.set_p_param(slots[i], p0[i] + h * d1[i] + bend * d2[i], false);
          }
        }
        if (system.solve_system(method) <= 1) {
          reached++;
          system.apply_solution();
        }
        read(out, index * width, width);
        if (order > 0 && value !== last) {
          for (let i = 0; i < count; i++) {
            const p = system.get_p_param(slots[i]);
            const slope = (p - p0[i]) / (value - last);
            d2[i] = known > 1 ? (slope - d1[i]) / (value - before) : 0;
            d1[i] = slope;
            p0[i] = p;
          }
          before = last;
          last = value;
          known++;
        }
      }
    }
    return reached;
  }

  /** A sketch whose driver is let go, diagnosed in the drawn pose. */
  function diagnose<T>(ask: (system: GcsSystem) => T): T {
    const { system: loose } = compile(false);
    loose.solve_system(method);
    const answer = ask(loose);
    loose.clear_data();
    loose.delete();
    return answer;
  }

  function redundant(): string[] {
    return diagnose((loose) => {
      const tags = loose.get_redundant();
      const found = Array.from({ length: tags.size() }, (_, i) => distances[tags.get(i) - 1]);
      tags.delete();
      return found.map(({ body, from, to }) => `${body}: ${nodes[from].name}-${nodes[to].name}`);
    });
  }

  function destroy(): void {
    if (destroyed) return;
    destroyed = true;
    system.clear_data();
    system.delete();
  }

  function guard(): void {
    if (destroyed) throw new Error('destroyed planegcs linkage');
    if (!drawing.driver) throw new Error('missing driver');
  }

  return {
    moving,
    drawn,
    solve,
    sweep,
    trace,
    degreesOfFreedom: () => diagnose((loose) => loose.dof()),
    redundant,
    destroy,
  };
}

/** The drawing as points and distances. */
function layOut(drawing: PlanegcsDrawing): { nodes: Node[]; distances: Distance[]; shapes: Shape[] } {
  const names = Object.keys(drawing.points);
  const known = ` (points: ${names.join(', ')})`;
  drawing.ground.forEach((name, i) => {
    if (!names.includes(name)) throw new Error(`unknown point "${name}" in ground[${i}]${known}`);
  });
  const nodes: Node[] = names.map((name) => ({
    name,
    at: drawing.points[name],
    ground: drawing.ground.includes(name),
  }));
  const distances: Distance[] = [];
  const shapes: Shape[] = [];

  for (const [body, members] of Object.entries(drawing.bodies)) {
    const at = (node: number): Vec => nodes[node].at;
    const left = members.map((name, i) => {
      const node = names.indexOf(name);
      if (node < 0) throw new Error(`unknown point "${name}" in bodies.${body}[${i}]${known}`);
      return node;
    });
    const hold = (from: number, to: number): void => {
      // A distance between ground points would hold numbers that don't move.
      if (nodes[from].ground && nodes[to].ground) return;
      distances.push({ body, from, to, length: gap(at(from), at(to)) });
    };

    const pairs = left.flatMap((p, i) => left.slice(i + 1).map((q): [number, number] => [p, q]));
    const twins = pairs.find(([p, q]) => gap(at(p), at(q)) === 0);
    if (twins) {
      throw new Error(`invalid bodies.${body}: ${twins.map((i) => nodes[i].name).join(' and ')} coincide`);
    }
    const base = pairs.reduce<[number, number] | undefined>(
      (best, pair) => (best && gap(at(best[0]), at(best[1])) >= gap(at(pair[0]), at(pair[1])) ? best : pair),
      undefined,
    );
    if (!base) continue;
    hold(...base);
    const [a, b] = base;
    const l = gap(at(a), at(b));
    const u: Vec = [(at(b)[0] - at(a)[0]) / l, (at(b)[1] - at(a)[1]) / l];
    const rest: Shape['rest'] = [];
    const placed: number[] = [a, b];
    const waiting = new Set(left.filter((node) => node !== a && node !== b));
    for (const node of waiting) {
      const w: Vec = [at(node)[0] - at(a)[0], at(node)[1] - at(a)[1]];
      rest.push({ node, along: w[0] * u[0] + w[1] * u[1], across: w[1] * u[0] - w[0] * u[1] });
    }
    while (waiting.size > 0) {
      let best = { sine: -1, node: -1, p: -1, q: -1 };
      for (const node of waiting) {
        for (const p of placed) {
          for (const q of placed) {
            const sine = p < q ? sineAt(at(node), at(p), at(q)) : -1;
            if (sine > best.sine) best = { sine, node, p, q };
          }
        }
      }
      if (best.sine < MIN_SINE) {
        const apex: Vec = [(at(a)[0] + at(b)[0] - l * u[1]) / 2, (at(a)[1] + at(b)[1] + l * u[0]) / 2];
        best = { sine: 1, node: nodes.length, p: a, q: b };
        nodes.push({ name: `apex of ${body}`, at: apex, ground: false });
      }
      hold(best.p, best.node);
      hold(best.q, best.node);
      placed.push(best.node);
      waiting.delete(best.node);
    }
    if (rest.length > 0) shapes.push({ base, rest });
  }
  return { nodes, distances, shapes };
}

function spread(values: number[]): number {
  return Math.max(...values) - Math.min(...values);
}

function gap(p: Vec, q: Vec): number {
  return Math.hypot(q[0] - p[0], q[1] - p[1]);
}

/** Sine of the angle between the directions from c to p and to q, without sign. */
function sineAt(c: Vec, p: Vec, q: Vec): number {
  const [px, py] = [p[0] - c[0], p[1] - c[1]];
  const [qx, qy] = [q[0] - c[0], q[1] - c[1]];
  return Math.abs(px * qy - py * qx) / (Math.hypot(px, py) * Math.hypot(qx, qy));
}
