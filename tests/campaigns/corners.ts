// Random corners of each kind, in their own size, a thousandth or a thousand times as large, against the closed form of the kind: every moving
// point, the length of the shock and its ratio, at five places of the travel.
import * as fc from 'fast-check';
import { type Sweep, sweep } from 'jounce';
import { conditioningOf, forEachKind, type Input, type Kind, magnitudeOf, scaled } from '../corner/kinds.ts';

/** Roundings of a place against its closed form, times the size of the drawing and the conditioning of the pose. */
const CLOSED = 64;
/** What a ratio may be off where nothing goes faster than the travel. */
const RATIO = 1e-10;
/** mm to either side. */
const FAR = 80;
/** Sizes beside that of a car. */
const SIZES = [1, 1, 1, 1 / 25.4, 0.001, 1000];
/** Beyond this share of the way to an end of the motion a pose is not held to its closed form. */
const NEAR_END = 0.9;

const kinds: Kind<Input>[] = [];
forEachKind((kind) => kinds.push(kind as unknown as Kind<Input>));

/** Corners of a seed: four of ten are double wishbones, the others in equal parts. */
export function* corners(seed: number, cases: number): Generator<() => string | null> {
  const [wishbone, ...others] = kinds;
  const shares = [wishbone, wishbone, ...others].slice(0, 4);
  for (const [k, kind] of shares.entries()) {
    const count = Math.ceil(cases / shares.length);
    for (const [n, input] of fc.sample(kind.inputs, { seed: 16 * seed + k, numRuns: count }).entries())
      yield () => faultOf(kind, input, SIZES[n % SIZES.length]);
  }
}

/** Where a corner is not as its closed form has it; null where all agrees. */
function faultOf(kind: Kind<Input>, drawn: Input, size: number): string | null {
  const input = size === 1 ? drawn : scaled(kind, drawn, size);
  const swept: Sweep = sweep(kind.corner(input), { bump: FAR * size, droop: FAR * size, step: FAR * size });
  const { bump, droop } = swept.end;
  let judged = 0;
  for (const pose of kind.judged(drawn)) {
    const travel = size * pose.travel;
    if (travel < NEAR_END * droop.travel || travel > NEAR_END * bump.travel) continue;
    const row = swept.at(travel);
    const c = conditioningOf(kind, drawn, pose.points);
    const place = CLOSED * Number.EPSILON * size * magnitudeOf(drawn) * c;
    const wrong = (name: string, found: unknown, right: number | null, allowed: number) =>
      typeof found === 'number' && right !== null && Math.abs(found - right) <= allowed
        ? null
        : `${kind.name} ${JSON.stringify(input)} at ${travel}: ${name} ${found}, not ${right} by ${allowed}`;
    for (const [name, [y, z]] of Object.entries(pose.points)) {
      const fault =
        wrong(`${name}Y`, row[`${name}Y`], size * y, place) ??
        wrong(`${name}Z`, row[`${name}Z`], size * z, place);
      if (fault !== null) return fault;
    }
    const fault =
      wrong('shockLength', row.shockLength, size * pose.shockLength, place) ??
      wrong('installationRatio', row.installationRatio, pose.installationRatio, RATIO * c ** 2);
    if (fault !== null) return fault;
    judged++;
  }
  // The drawn pose at least is on every motion.
  return judged > 0 ? null : `${kind.name} ${JSON.stringify(input)}: no pose was judged`;
}
