import { type Diagnostic, fault, show, unknownName } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { unknownKeys } from './former-names.ts';
import {
  isNames,
  isRecord,
  JOINT_KINDS,
  JOINTS,
  type JointCheck,
  type Joints,
  jointsIn,
  placesIn,
} from './joints.ts';

/** A point of the plane, `[x, y]`, in the drawing's own length unit. */
export type Point = readonly [number, number];

/**
 * A linkage in one drawn pose: every length and fixed angle is taken from the coordinates, so none can disagree.
 *
 * Bodies that share a point are pinned there, any number of them; a body of two points is a bar. `P`, `B` and `T` are the
 * names of points, bodies and telescopes, any where none are said.
 */
export interface Drawing<P extends string = string, B extends string = string, T extends string = string>
  extends Joints<string, string, T> {
  /** Every named point, `[x, y]`, in one length unit of your choice. */
  readonly points: { readonly [Name in P]: readonly number[] };
  /** Names of the points that never move. */
  readonly ground: readonly string[];
  /** Rigid bodies, each as the names of its points, two or more. */
  readonly bodies: { readonly [Name in B]: readonly string[] };
}

/** A drawing without a fault: every point has its two coordinates. */
export interface CheckedDrawing<
  P extends string = string,
  B extends string = string,
  T extends string = string,
> extends Drawing<P, B, T> {
  readonly points: { readonly [Name in P]: Point };
}

/** A drawing that names nothing but what it has: what `linkage` takes. */
export interface NamedDrawing<P extends string, B extends string, T extends string>
  extends Joints<NoInfer<P>, NoInfer<B | T>, T> {
  /** Every named point, `[x, y]`, in one length unit of your choice. */
  readonly points: { readonly [Name in P]: readonly number[] };
  /** Names of the points that never move. */
  readonly ground: readonly NoInfer<P>[];
  /** Rigid bodies, each as the names of its points, two or more. */
  readonly bodies: { readonly [Name in B]: readonly NoInfer<P>[] };
}

/**
 * Checks a drawing and returns it, with its names in its type: what traces, drives or reads it then takes no others.
 *
 * @throws InputError with every issue.
 */
export function linkage<const P extends string, const B extends string, const T extends string = never>(
  drawing: NamedDrawing<P, B, T>,
): CheckedDrawing<P, B, T> {
  const checked: Drawing<P, B, T> = drawing;
  checkDrawing(checked);
  return checked;
}

/** What a drawing is made of beside its points. */
export const PARTS = ['ground', 'bodies', ...JOINT_KINDS] as const;

/**
 * Checks a drawing.
 *
 * @throws InputError with every issue: coordinates that are not finite numbers, unknown or repeated names, points on
 * no body, bodies whose points all coincide, joints that name no point or direction.
 */
export function checkDrawing<D extends Drawing>(drawing: D): asserts drawing is D & CheckedDrawing {
  refuse('drawing', missingParts(drawing));
  const faults = unknownKeys('drawing', drawing, ['points', ...PARTS]);
  const { points, ground, bodies } = drawing;
  const joints = jointsIn(drawing);
  const names = { point: new Set(Object.keys(points)), body: new Set(Object.keys(bodies)) };
  const used = new Set(ground);
  for (const members of Object.values(bodies)) for (const name of members) used.add(name);
  for (const joint of joints) {
    for (const name of joint.points) used.add(name);
    if (joint.direction !== undefined) names.body.add(joint.at.name);
  }
  for (const [name, at] of Object.entries(points)) {
    if (!isPoint(at)) faults.push(fault('notAPoint', `points.${name}`, { got: show(at) }));
  }
  const known: JointCheck['known'] = (path, name, what = 'point') => {
    if (names[what].has(name)) return true;
    faults.push(unknownName(path, what, name, [...names[what]]));
    return false;
  };
  const checkNames = (path: string, listed: readonly string[]) => {
    listed.forEach((name, k) => {
      const place = `${path}[${k}]`;
      known(place, name);
      if (listed.indexOf(name) === k) return;
      faults.push(fault('pointTwice', place, { got: show(name) }));
    });
  };
  checkNames('ground', ground);
  for (const [body, members] of Object.entries(bodies)) {
    const path = `bodies.${body}`;
    checkNames(path, members);
    if (members.length < 2) {
      faults.push(fault('bodyOfOnePoint', path, { got: show(members) }));
    } else if (members.every((name) => samePlace(points[members[0]], points[name]))) {
      const got = `${members.join(', ')} at ${show(points[members[0]])}`;
      faults.push(fault('bodyOfNoLength', path, { points: members.length, got }));
    }
  }
  const parts = [ground, ...Object.values(bodies)];
  const check: JointCheck = {
    faults,
    known,
    apart(path, [a, b], code, of = '', by = 0) {
      const areKnown = [known(`${path}[0]`, a), known(`${path}[1]`, b)].every(Boolean);
      if (!areKnown || !areWithin(points[a], points[b], by)) return areKnown;
      faults.push(fault(code, path, { of, got: show([a, b]) }));
      return false;
    },
    share: (shared) => parts.some((part) => shared.every((name) => part.includes(name))),
  };
  for (const joint of joints) {
    joint.check(check);
    const { name, path } = joint.at;
    if (joint.direction === undefined || !(name in bodies)) continue;
    faults.push(fault('namedAsBody', path, { got: show(name) }));
  }
  for (const name of names.point) if (!used.has(name)) faults.push(fault('pointUnused', `points.${name}`));
  refuse('drawing', faults);
}

/** What keeps a drawing from being checked any farther: parts that are missing or of the wrong kind. */
function missingParts(drawing: unknown): Diagnostic[] {
  if (!isRecord(drawing)) return [fault('notADrawing', '', { got: show(drawing) })];
  const faults: Diagnostic[] = [];
  const check = (part: string, path: string, isGood: boolean, got: unknown) => {
    if (isGood) return;
    const place = { part, one: path !== part };
    faults.push(
      got === undefined
        ? fault('partMissing', path, place)
        : fault('partNotAsDrawn', path, { ...place, got: show(got) }),
    );
  };
  const part = (name: string, isGood: boolean) => check(name, name, isGood, drawing[name]);
  const each = (name: string, isShaped: (one: unknown) => boolean) => {
    for (const [, path, one] of placesIn(name, drawing[name] as object))
      check(name, path, isShaped(one), one);
  };
  part('points', isRecord(drawing.points));
  part('ground', isNames(drawing.ground));
  part('bodies', isRecord(drawing.bodies));
  if (isRecord(drawing.bodies)) each('bodies', isNames);
  for (const kind of JOINT_KINDS) {
    const all = drawing[kind];
    if (all === undefined) continue;
    if (JOINTS[kind].isListed ? Array.isArray(all) : isRecord(all)) each(kind, JOINTS[kind].isShaped);
    else part(kind, false);
  }
  return faults;
}

/** Whether a value is a point: two finite numbers. */
export function isPoint(at: unknown): at is Point {
  return Array.isArray(at) && at.length === 2 && Number.isFinite(at[0]) && Number.isFinite(at[1]);
}

/** Whether two values are points in one place. */
export function samePlace(a: unknown, b: unknown): boolean {
  return isPoint(a) && isPoint(b) && a[0] === b[0] && a[1] === b[1];
}

/** Whether two values are points no farther apart than a distance. */
function areWithin(a: unknown, b: unknown, distance: number): boolean {
  return isPoint(a) && isPoint(b) && Math.hypot(b[0] - a[0], b[1] - a[1]) <= distance;
}
