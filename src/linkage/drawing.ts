import { type Diagnostic, fault, show, unknownName } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { unknownKeys } from './former-names.ts';
import {
  areFixedCoordinates,
  isNames,
  isRecord,
  JOINT_SHAPES,
  type Joints,
  jointFaults,
  jointPoints,
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
export const PARTS = [
  'ground',
  'bodies',
  'fixedCoordinates',
  'sliders',
  'fixedAngles',
  'telescopes',
] as const;

/**
 * Checks a drawing.
 *
 * @throws InputError with every issue: coordinates that are not finite numbers, unknown or repeated names, points on
 * no body, bodies whose points all coincide, joints that name no point or direction.
 */
export function checkDrawing<D extends Drawing>(drawing: D): asserts drawing is D & CheckedDrawing {
  refuse('drawing', missingParts(drawing));
  const faults = unknownKeys('drawing', drawing, ['points', ...PARTS]);
  const names = Object.keys(drawing.points);
  const known = new Set(names);
  const used = new Set([...drawing.ground, ...jointPoints(drawing)]);
  for (const name of names) {
    const at: unknown = drawing.points[name];
    if (!isPoint(at)) faults.push(fault('notAPoint', `points.${name}`, { got: show(at) }));
  }
  const checkName = (path: string, name: string) => {
    if (known.has(name)) return true;
    faults.push(unknownName(path, 'point', name, names));
    return false;
  };
  const checkNames = (path: string, listed: readonly string[]) => {
    listed.forEach((name, k) => {
      const place = `${path}[${k}]`;
      checkName(place, name);
      if (listed.indexOf(name) === k) return;
      faults.push(fault('pointTwice', place, { got: show(name) }));
    });
  };
  checkNames('ground', drawing.ground);
  for (const [body, members] of Object.entries(drawing.bodies)) {
    const path = `bodies.${body}`;
    for (const name of members) used.add(name);
    checkNames(path, members);
    if (members.length < 2) {
      faults.push(fault('bodyOfOnePoint', path, { got: show(members) }));
    } else if (members.every((name) => samePlace(drawing.points[members[0]], drawing.points[name]))) {
      const got = `${members.join(', ')} at ${show(drawing.points[members[0]])}`;
      faults.push(fault('bodyOfNoLength', path, { points: members.length, got }));
    }
  }
  const { points, ground, bodies } = drawing;
  const together = (a: string, b: string) => samePlace(points[a], points[b]);
  faults.push(...jointFaults(drawing, { bodies, ground, checkName, together }));
  for (const name of names) {
    if (used.has(name)) continue;
    faults.push(fault('pointUnused', `points.${name}`));
  }
  refuse('drawing', faults);
}

/** What keeps a drawing from being checked any farther: parts that are missing or of the wrong kind. */
function missingParts(drawing: unknown): Diagnostic[] {
  if (!isRecord(drawing)) return [fault('notADrawing', '', { got: show(drawing), allowed: SHAPE })];
  const faults: Diagnostic[] = [];
  const { points, ground, bodies, fixedCoordinates } = drawing;
  const check = (path: string, good: boolean, got: unknown, allowed: string) => {
    if (good) return;
    faults.push(
      got === undefined
        ? fault('missing', path, { allowed })
        : fault('wrongType', path, { got: show(got), allowed }),
    );
  };
  const each = (path: string, all: unknown, good: (one: unknown) => boolean, allowed: string) => {
    for (const [name, one] of Object.entries(all as object)) {
      check(`${path}.${name}`, good(one), one, allowed);
    }
  };
  check('points', isRecord(points), points, '{ name: [x, y], ... }');
  check('ground', isNames(ground), ground, NAMES);
  check('bodies', isRecord(bodies), bodies, "{ name: ['A', 'B'], ... }");
  if (isRecord(bodies)) each('bodies', bodies, isNames, NAMES);
  if (fixedCoordinates !== undefined) {
    check(
      'fixedCoordinates',
      areFixedCoordinates(fixedCoordinates),
      fixedCoordinates,
      "[{ x: 'P' }, { y: 'Q' }]",
    );
  }
  for (const [part, [good, allowed]] of Object.entries(JOINT_SHAPES)) {
    const all = drawing[part];
    if (isRecord(all)) each(part, all, good, allowed);
    else check(part, all === undefined, all, `{ name: ${allowed}, ... }`);
  }
  return faults;
}

const SHAPE = '{ points, ground, bodies }';
const NAMES = "names of points, as ['A', 'D']";

/** Whether a value is a point: two finite numbers. */
export function isPoint(at: unknown): at is Point {
  return Array.isArray(at) && at.length === 2 && Number.isFinite(at[0]) && Number.isFinite(at[1]);
}

function samePlace(a: unknown, b: unknown): boolean {
  return isPoint(a) && isPoint(b) && a[0] === b[0] && a[1] === b[1];
}
