/**
 * A pose from lengths by a general 2D constraint solver, @salusoft89/planegcs: points, ground, and distances that go in steps from
 * drawn to wanted. It shares no code with the library; what the solver asks of its sketch is said in planegcs.ts.
 */
import { Algorithm } from '@salusoft89/planegcs';
import type { PlanegcsModule } from './planegcs.ts';

type Pair = readonly [number, number];

/** A distance of two points that is to become a length. */
export interface WantedLength {
  readonly between: readonly [string, string];
  readonly length: number;
}

const STEPS = 64;
const TOLERANCE = 2e-14;
const BUILT_IN_BOUND = 1e-10;

/** Places of all points when every distance has its length. */
export function planegcsPose(
  gcs: PlanegcsModule,
  points: Readonly<Record<string, Pair>>,
  ground: readonly string[],
  wanted: readonly WantedLength[],
): Record<string, Pair> {
  const names = Object.keys(points);
  const unit = 2 * Math.max(...names.map((name) => Math.hypot(...points[name])));
  const system = new gcs.GcsSystem();
  system.set_debug_mode(0);
  const first = names.map((name) => {
    const isFixed = ground.includes(name);
    const at = system.push_p_param(points[name][0] / unit, isFixed);
    system.push_p_param(points[name][1] / unit, isFixed);
    return at;
  });
  const handles = first.map((at) => system.make_point(at, at + 1));
  const lengths = wanted.map(({ between: [a, b], length }, tag) => {
    const drawn = Math.hypot(points[b][0] - points[a][0], points[b][1] - points[a][1]);
    const param = system.push_p_param(drawn / unit, true);
    system.add_constraint_p2p_distance(
      handles[names.indexOf(a)],
      handles[names.indexOf(b)],
      param,
      tag + 1,
      true,
      BUILT_IN_BOUND / TOLERANCE,
    );
    return { param, drawn, length };
  });
  for (const handle of handles) handle.delete();
  for (let step = 1; step <= STEPS; step++) {
    for (const { param, drawn, length } of lengths) {
      system.set_p_param(param, (drawn + (step / STEPS) * (length - drawn)) / unit, true);
    }
    if (system.solve_system(Algorithm.DogLeg) > 1) throw new Error(`no pose at step ${step}`);
    system.apply_solution();
  }
  const pose = names.map((name, k): [string, Pair] => [
    name,
    [system.get_p_param(first[k]) * unit, system.get_p_param(first[k] + 1) * unit],
  ]);
  system.clear_data();
  return Object.fromEntries(pose);
}
