import { show } from '../diagnostic.ts';
import { customCornerSchema } from '../document/custom-schema.ts';
import type { CustomPartsInput } from '../document/inputs.ts';
import { type Finding, found, type Place, parse, placeAt, valueAt } from '../document/parse.ts';
import { refuse } from '../errors/file.ts';
import { InputError } from '../errors/input-error.ts';
import { mirroredCouplings } from '../linkage/couplings.ts';
import type { CheckedDrawing, Drawing, Point } from '../linkage/drawing.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import { bindMeasure, type Measure } from '../linkage/measure.ts';
import { compile, type System } from '../linkage/system.ts';
import { meantName } from '../spelling.ts';
import { columnNames } from './columns.ts';
import { leanOf, placing } from './hardpoints.ts';
import type { CornerModel } from './model.ts';

/** A corner of any linkage as plain, frozen data; made by `customCorner`. */
export interface CustomCorner extends CornerModel {
  readonly kind: 'custom';
  /** Whether the input was a right-hand corner (negative y), and was mirrored. */
  readonly mirrored: boolean;
}

/** What names points, bodies and directions in an input, by the names that a drawing has. */
type Named<Input, P, B, D> = Input extends string
  ? P
  : { [K in keyof Input]: K extends 'body' ? B : K extends 'turn' ? D : Named<Input[K], P, B, D> };

type Parts<P, B, D> = {
  [K in keyof CustomPartsInput]: K extends 'upright' ? B : Named<CustomPartsInput[K], P, B, D>;
};

/**
 * A linkage with the parts that its points and bodies play, by name; `P`, `B` and `T` are the names of its points, bodies and
 * telescopes.
 */
export interface CustomCornerInput<
  P extends string = string,
  B extends string = string,
  T extends string = string,
> extends Parts<NoInfer<P>, NoInfer<B>, NoInfer<B | T>> {
  /** The linkage; its points are `[y, z]` in mm, y outboard from the centreline, z up from the ground. */
  readonly drawing: Drawing<P, B, T>;
}

/**
 * A corner from any linkage with one degree of freedom. It has every column and limit that its parts allow.
 *
 * - `drawing`: points `[y, z]` in mm, as for `doubleWishbone`; a right-hand corner (wheel at negative y) is mirrored.
 * - `upright`: the body that carries `wheelCentre` and `contactPatch`.
 * - `shock`: the two ends of the coilover, `outer` nearer to the wheel, and `foreAftOffset`, their fore-aft distance (mm).
 * - `kingpin` (optional): two points of the steering axis; without it there is no kingpin inclination.
 * - `rocker` (optional): for angles and dead points of a rocker and its rod.
 * - `camber` (optional): as drawn, deg, top outboard positive; default that of a thin disc on its contact patch.
 * - `angles` (optional): further columns in degrees: the direction `{ angle: ['A', 'B'] }` of a line from horizontal, counter-clockwise
 *   positive, or the `{ turn: 'body' }` of a body from its drawn pose.
 *
 * @throws InputError with every issue; a linkage without exactly one degree of freedom is refused when it is moved.
 */
export function customCorner<const P extends string, const B extends string, const T extends string = never>(
  input: CustomCornerInput<P, B, T>,
): CustomCorner {
  const given = parse(customCornerSchema, input, 'custom corner', findings, refuse);
  const drawing: CheckedDrawing = input.drawing as CheckedDrawing<P, B, T>;
  const { mirrored, place } = placing(drawing.points[given.wheelCentre]);
  const points = Object.fromEntries(Object.entries(drawing.points).map(([name, at]) => [name, place(at)]));
  const { shock, kingpin = null, rocker = null, angles = {}, ...names } = given;
  return frozenCopy({
    kind: 'custom',
    ...names,
    drawing: { ...drawing, ...(mirrored ? mirroredCouplings(drawing) : {}), points },
    shock: { outer: shock.outer, inner: shock.inner, foreAftOffset: shock.foreAftOffset ?? 0 },
    kingpin,
    rocker,
    camber: given.camber ?? leanOf(points[given.wheelCentre], points[given.contactPatch]),
    standsBy: given.camber === undefined ? 'contactPatch' : 'both',
    angles: angles as Readonly<Record<string, Measure>>,
    mirrored,
  });
}

/** What the shape alone can't tell: a faulty drawing, and parts that its points can't play. */
function findings(input: unknown): Finding[] {
  const drawing = valueAt(input, ['drawing']) as CheckedDrawing;
  let system: System | undefined;
  const faults = issuesOf(['drawing'], () => {
    system = compile(drawing);
  });
  return system === undefined ? faults : partFindings(input, drawing, system);
}

/** What something refuses, under a place. */
function issuesOf(at: Place, run: () => void): Finding[] {
  try {
    run();
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.issues.map(({ path, code, values }) => found([...at, ...placeAt(path)], code, values));
  }
}

function partFindings(input: unknown, { points, ground, bodies }: CheckedDrawing, system: System): Finding[] {
  const findings: Finding[] = [];
  /** The name at a place, where it is one of those that there are; else it is reported, if there is a name at all. */
  const named = (at: Place, what: string, names: readonly string[]): string | undefined => {
    const name = valueAt(input, at);
    if (typeof name !== 'string' || names.includes(name)) return typeof name === 'string' ? name : undefined;
    const meant = meantName(name, names) ?? null;
    findings.push(found(at, 'unknownName', { what, got: show(name), allowed: names, meant }));
    return undefined;
  };
  const point = (...at: string[]) => named(at, 'point', Object.keys(points));
  const body = (...at: string[]) => named(at, 'body', Object.keys(bodies));
  /** Tells a point that is not where it should be. */
  const expectOn = (name: string | undefined, at: Place, where: readonly string[], part: string) => {
    if (name === undefined || where.includes(name)) return;
    findings.push(found(at, 'pointNotOnPart', { part, got: show(name), allowed: where }));
  };
  const expectApart = (a: string | undefined, b: string | undefined, at: Place, of: string) => {
    if (a === undefined || b === undefined || !samePlace(points[a], points[b])) return;
    findings.push(found(at, a === b ? 'onePointForTwo' : 'twoPointsInOnePlace', { of, got: `${a}, ${b}` }));
  };

  const upright = body('upright');
  const centre = point('wheelCentre');
  const patch = point('contactPatch');
  if (upright !== undefined) {
    expectOn(centre, ['wheelCentre'], bodies[upright], 'upright');
    expectOn(patch, ['contactPatch'], bodies[upright], 'upright');
  }
  if (centre !== undefined && patch !== undefined && points[centre][1] <= points[patch][1]) {
    const [got, above] = [show(points[centre][1]), points[patch][1]];
    findings.push(found(['wheelCentre'], 'wheelNotAboveContactPatch', { point: centre, got, above }));
  }

  const outer = point('shock', 'outer');
  const inner = point('shock', 'inner');
  expectApart(outer, inner, ['shock'], 'shock');
  if (outer !== undefined && inner !== undefined && outer !== inner) {
    const parts = [ground, ...Object.values(bodies)];
    if (parts.some((names) => names.includes(outer) && names.includes(inner))) {
      findings.push(found(['shock'], 'bothEndsOnOnePart', { got: `${outer}, ${inner}`, isDrawn: true }));
    }
  }

  const [lower, upper] = [point('kingpin', 'lower'), point('kingpin', 'upper')];
  expectApart(lower, upper, ['kingpin'], 'kingpin');

  const rocker = body('rocker', 'body');
  const pivot = point('rocker', 'pivot');
  const [rodOuter, rodInner] = [point('rocker', 'rod', 'outer'), point('rocker', 'rod', 'inner')];
  expectOn(pivot, ['rocker', 'pivot'], ground, 'ground');
  if (rocker !== undefined) {
    expectOn(pivot, ['rocker', 'pivot'], bodies[rocker], 'rocker');
    expectOn(rodInner, ['rocker', 'rod', 'inner'], bodies[rocker], 'rocker');
  }
  expectApart(rodOuter, rodInner, ['rocker', 'rod'], 'rod');
  expectApart(pivot, rodInner, ['rocker', 'rod', 'inner'], 'rodOnRocker');

  const angles = valueAt(input, ['angles']) ?? {};
  for (const [name, measure] of Object.entries(angles)) {
    findings.push(...issuesOf(['angles'], () => bindMeasure(system, measure as Measure, name)));
  }
  return [...findings, ...takenNames(Object.keys(angles), Object.keys(points), ground)];
}

/** Angles and points whose columns would have the name of another. */
function takenNames(
  angles: readonly string[],
  points: readonly string[],
  ground: readonly string[],
): Finding[] {
  const taken = new Set(columnNames());
  const faults: Finding[] = [];
  const take = (name: string, at: Place) => {
    if (taken.has(name)) faults.push(found(at, 'columnNameTaken', { name }));
    taken.add(name);
  };
  for (const name of angles) take(name, ['angles', name]);
  for (const name of points) {
    if (ground.includes(name)) continue;
    take(`${name}Y`, ['drawing', 'points', name]);
    take(`${name}Z`, ['drawing', 'points', name]);
  }
  return faults;
}

function samePlace(a: Point, b: Point): boolean {
  return a[0] === b[0] && a[1] === b[1];
}
