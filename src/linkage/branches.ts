// Which branches leave a bifurcation, and which of them a motion takes.

import { expandOnBranch } from './branch-series.ts';
import { variablePart } from './form.ts';
import type { BoundMeasure } from './measure.ts';
import { measureSeries } from './measure-series.ts';
import { driverScale } from './parameter.ts';
import type { Branch, Leave } from './path.ts';
import { STRIDE, type TaylorExpansion } from './series.ts';
import { dot, type SingularPose } from './singular-pose.ts';

/** A choice among branches, its measure bound. */
export type BoundChoice =
  | 'straight'
  | number
  | { readonly measure: BoundMeasure; readonly sign: number }
  | undefined;

/** Rates of a measure below this share of its scale are none. */
const NO_RATE = 1e-9;

/** Takes the branches that are chosen for the first, second, ... bifurcation on either side. */
export function leaving(driver: BoundMeasure | null, choiceAt: (nth: number) => BoundChoice): Leave {
  return (e, singular, arriving, way, nth, redundant) => {
    const branches = branchesAt(e, singular, driver, arriving, way);
    // Without a driver a drawn branch has no sense yet.
    const either = arriving === null && driver === null;
    const leaves = branches.flatMap(({ v }) => (either ? [v, negative(v)] : [v]));
    const sense = (v: Float64Array, measure: BoundMeasure | null) =>
      way * Math.sign(rateAlong(e, singular.pose, v, measure, way));
    // Where nothing else leaves, the motion goes on.
    const isAlone = arriving !== null && branches.length === 1 && !singular.hasFamily;
    const choice = isAlone ? 'straight' : choiceAt(nth);
    const v = chosen(choice);
    const isTaken =
      v !== undefined &&
      sense(v, driver) > 0 &&
      expandOnBranch(e, singular, way > 0 ? v : negative(v), redundant);
    const isMissing = choice !== undefined && v === undefined;
    return { branches: branches.map(({ branch }) => branch), isTaken, isMissing };

    function chosen(choice: BoundChoice): Float64Array | undefined {
      if (choice === undefined) return undefined;
      if (choice === 'straight') return arriving === null ? undefined : branches[0].v;
      if (typeof choice === 'number') return branches[choice]?.v;
      const { measure, sign } = choice;
      return leaves.find((v) => sense(v, driver) > 0 && sense(v, measure) === sign);
    }
  };
}

/**
 * The branches of a singular pose, away from it: straight on first, then those on which the driver goes on, then those less aside. Where
 * the pose is not come to (`arriving` null), each of them once, those first on which less turns.
 */
export function branchesAt(
  e: TaylorExpansion,
  { pose, tangents }: SingularPose,
  driver: BoundMeasure | null,
  arriving: Float64Array | null,
  way: 1 | -1,
): { readonly v: Float64Array; readonly branch: Branch }[] {
  const described = (v: Float64Array) => ({
    v,
    branch: describe(e, pose, v, rateAlong(e, pose, v, driver, way)),
  });
  const lines = tangents ?? [];
  if (arriving === null) {
    return lines
      .map((v) => described(rateAlong(e, pose, v, driver, way) < 0 ? negative(v) : v))
      .sort((one, other) => turning(one.branch) - turning(other.branch));
  }
  const cosine = (v: Float64Array) => dot(v, arriving);
  const ahead = lines.reduce((best, v) => (Math.abs(cosine(v)) > Math.abs(cosine(best)) ? v : best));
  const goesOn = ({ branch }: { branch: Branch }) => Number(way * branch.driver > 0);
  const others = lines.filter((v) => v !== ahead).flatMap((v) => [described(v), described(negative(v))]);
  return [
    described(cosine(ahead) < 0 ? negative(ahead) : ahead),
    ...others.sort((one, other) => goesOn(other) - goesOn(one) || cosine(other.v) - cosine(one.v)),
  ];
}

function turning({ turns }: Branch): number {
  return Object.values(turns).reduce((sum, turn) => sum + turn * turn, 0);
}

function negative(v: Float64Array): Float64Array {
  return v.map((value) => -value);
}

/** Rate of a measure along a direction in a pose, 0 for rounding; that of the arc length, which grows on the upper side, for none. */
function rateAlong(
  { z, system }: TaylorExpansion,
  pose: Float64Array,
  v: Float64Array,
  measure: BoundMeasure | null,
  way: 1 | -1,
): number {
  if (measure === null) return way;
  for (let i = 0; i < pose.length; i++) {
    z[i * STRIDE] = pose[i];
    z[i * STRIDE + 1] = v[i];
  }
  const series = new Float64Array(2);
  measureSeries(measure, z, STRIDE, 1, series);
  return Math.abs(series[1]) * system.size < NO_RATE * driverScale(measure, system.size) ? 0 : series[1];
}

function describe({ system }: TaylorExpansion, pose: Float64Array, v: Float64Array, driver: number): Branch {
  const { places, structure } = system;
  const velocities = places.map((place) => variablePart(place, v));
  const turns = [...structure.bodies.values()].map(({ name, a, b }): [string, number] => {
    const [ax, ay] = variablePart(places[a], pose);
    const [bx, by] = variablePart(places[b], pose);
    const [x, y] = [places[b].x - places[a].x + bx - ax, places[b].y - places[a].y + by - ay];
    const [vx, vy] = [velocities[b][0] - velocities[a][0], velocities[b][1] - velocities[a][1]];
    // Not of two ground points in one place.
    return [name, vx === 0 && vy === 0 ? 0 : (x * vy - y * vx) / (x * x + y * y) + 0];
  });
  return {
    driver,
    velocities: Object.fromEntries(structure.names.map((name, p) => [name, velocities[p]])),
    turns: Object.fromEntries(turns),
  };
}
