// Where the points of a corner make one ask: other sides, exchanged coordinates and arms, mounts far from what they stand on.

import { DEGREES } from '../../units.ts';
import { onPathOf } from '../corner-kind.ts';
import { placeAt, valueAt } from '../parse.ts';
import { apart, archOf, type Point } from '../written.ts';
import type { CheckRule, Found } from './check.ts';
import type { CornerSubject } from './corner-subject.ts';

/** Height within which a contact patch stands on the ground, mm: readings of a tape are off by as much. */
const ON_GROUND = 3;
/** Camber that no wheel has, and a contact patch that contradicts it or the ground; degrees. */
const MOST_CAMBER = 8;
const CAMBER_TOLERANCE = 0.5;
/** How far past its ball joint a mount may lie on an arm, mm: within the eye. */
const PAST_JOINT = 30;
/** How far brackets reach from the line of an arm, and of the ball joints, mm. Generous; common practice, no source. */
const OFF_ARM = 150;
const OFF_UPRIGHT = 250;
/** A mount nearer than this to its part with y and z exchanged was exchanged, mm. */
const ON_PART = 60;
/** How far a coilover on a rocker may reach across the centreline, mm. */
const ACROSS = 50;

const EXCHANGED_ARMS = ['armsExchanged', 'outerPointsExchanged', 'armEndsExchanged', 'endsExchanged'];

/** The table; sentences by code in `sentences/checks.ts`. */
export const GEOMETRY_CHECKS: readonly CheckRule<CornerSubject>[] = [
  { code: 'wheelOnOtherSide', severity: 'check', find: wheelOnOtherSide },
  {
    code: 'rightHandCorner',
    severity: 'note',
    find: rightHand,
    unless: ['wheelOnOtherSide'],
  },
  {
    code: 'pointOnOtherSide',
    severity: 'check',
    find: onOtherSide,
    unless: ['wheelOnOtherSide'],
  },
  {
    code: 'coiloverAcrossCentreline',
    severity: 'check',
    find: across,
    unless: ['wheelOnOtherSide'],
  },
  { code: 'pointBelowGround', severity: 'check', find: belowGround },
  { code: 'allCoordinatesExchanged', severity: 'error', find: allExchanged },
  {
    code: 'coordinatesExchanged',
    severity: 'check',
    find: coordinatesExchanged,
    unless: ['allCoordinatesExchanged'],
  },
];

/** Those that follow the checks of sizes: nothing lies where it should with coordinates exchanged. */
export const PLACE_CHECKS: readonly CheckRule<CornerSubject>[] = (
  [
    { code: 'armsExchanged', severity: 'check', find: (subject) => armsExchanged(subject, true) },
    { code: 'outerPointsExchanged', severity: 'check', find: (subject) => armsExchanged(subject, false) },
    { code: 'armEndsExchanged', severity: 'check', find: armEndsExchanged },
    { code: 'endsExchanged', severity: 'check', find: endsExchanged },
    { code: 'wheelInboardOfJoints', severity: 'check', find: inboardWheel },
    {
      code: 'mountBeyondJoint',
      severity: 'check',
      find: beyondJoint,
      unless: ['unitsWrong', ...EXCHANGED_ARMS],
    },
    {
      code: 'mountOffPart',
      severity: 'check',
      find: offPart,
      unless: ['unitsWrong', ...EXCHANGED_ARMS],
      unlessHere: ['mountBeyondJoint', 'pointOnOtherSide', 'pointBelowGround'],
    },
  ] satisfies CheckRule<CornerSubject>[]
).map((check: CheckRule<CornerSubject>) => ({
  ...check,
  unless: ['allCoordinatesExchanged', 'coordinatesExchanged', ...(check.unless ?? [])],
}));

/** How the wheel stands, and points that may lie together but hardly do. */
export const STANDING_CHECKS: readonly CheckRule<CornerSubject>[] = [
  { code: 'camberUnusual', severity: 'check', find: oddCamber },
  { code: 'camberSignReversed', severity: 'check', find: (subject) => camberAgainstPatch(subject, true) },
  {
    code: 'camberAgainstContactPatch',
    severity: 'check',
    find: (subject) => camberAgainstPatch(subject, false),
  },
  { code: 'contactPatchOffGround', severity: 'check', find: offGround },
  { code: 'pointCopied', severity: 'check', find: copied },
  { code: 'mountOnPivot', severity: 'check', find: onPivot },
];

function at(point: Point): { y: number; z: number } {
  return { y: point[0], z: point[1] };
}

function isRight({ corner: { wheel } }: CornerSubject): boolean {
  return wheel.centre[0] < 0;
}

function rightHand(subject: CornerSubject): Found[] {
  return isRight(subject) ? [{ path: 'wheel.centre', values: {} }] : [];
}

/** All points but the wheel's, those of the arch too, with their paths. */
function pointsOf({ corner, points }: CornerSubject): [path: string, point: Point][] {
  return [...[...points].filter(([path]) => !path.startsWith('wheel.')), ...archOf(corner)];
}

/** Points on the other side of the car than the wheel. */
function others(subject: CornerSubject): { others: [string, Point][]; areMost: boolean } {
  const right = isRight(subject);
  const points = pointsOf(subject);
  const mayCross = crossing(subject) === undefined ? '' : ACROSS_CAR;
  const others = points.filter(([path, [y]]) => y !== 0 && y < 0 !== right && path !== mayCross);
  return { others, areMost: 2 * others.length > points.length };
}

const ACROSS_CAR = 'coilover.chassisMount';

/** The end of a coilover on a rocker, which may well lie across the car. */
function crossing({ points }: CornerSubject): Point | undefined {
  return points.has('rocker.pivot') ? points.get(ACROSS_CAR) : undefined;
}

function wheelOnOtherSide(subject: CornerSubject): Found[] {
  const { centre } = subject.corner.wheel;
  return others(subject).areMost ? [{ path: 'wheel.centre', values: at(centre) }] : [];
}

function onOtherSide(subject: CornerSubject): Found[] {
  return others(subject).others.map(([path, point]) => ({ path, values: at(point) }));
}

function across(subject: CornerSubject): Found[] {
  const end = crossing(subject);
  if (end === undefined) return [];
  const by = isRight(subject) ? end[0] : -end[0];
  return by > ACROSS ? [{ path: ACROSS_CAR, values: { by } }] : [];
}

function belowGround(subject: CornerSubject): Found[] {
  return pointsOf(subject)
    .filter(([, [, z]]) => z < 0)
    .map(([path, [, z]]) => ({ path, values: { z } }));
}

interface Arm {
  readonly name: string;
  readonly innerPath: string;
  readonly outerPath: string;
  readonly inner: Point;
  readonly outer: Point;
}

function armsOf({ kind, points }: CornerSubject): Arm[] {
  return Object.entries(kind.arms).map(([name, [innerPath, outerPath]]) => ({
    name,
    innerPath,
    outerPath,
    inner: points.get(innerPath) as Point,
    outer: points.get(outerPath) as Point,
  }));
}

function isSteep([y, z]: Point, [toY, toZ]: Point): boolean {
  return Math.abs(toZ - z) > Math.abs(toY - y);
}

/** The wheel higher than it is far out, and every arm nearer to upright than to level. */
function allExchanged(subject: CornerSubject): Found[] {
  const { centre } = subject.corner.wheel;
  const areSteep = armsOf(subject).every(({ inner, outer }) => isSteep(inner, outer));
  return Math.abs(centre[0]) < centre[1] && areSteep ? [{ path: '', values: at(centre) }] : [];
}

/** Points that would lie as they should if their coordinates were exchanged, and do not as they are. */
function coordinatesExchanged(subject: CornerSubject): Found[] {
  const arms = armsOf(subject);
  const right = isRight(subject);
  const { centre } = subject.corner.wheel;
  const outboard = [
    ...arms.slice(0, 1).map(({ outer }) => ({ path: 'wheel.centre', point: centre, of: outer })),
    ...arms.map(({ outerPath, inner, outer }) => ({ path: outerPath, point: outer, of: inner })),
  ];
  const odd = outboard
    .filter(
      ({ point: [y, z], of: [inner] }) =>
        Math.abs(y) < z && Math.abs(y) < Math.abs(inner) && z > Math.abs(inner),
    )
    .map(({ path, point }) => ({ path, values: at(point) }));
  const steep = arms.flatMap(({ innerPath, outerPath, inner, outer }): Found[] => {
    if (!isSteep(inner, outer)) return [];
    for (const [path, point, other] of [
      [outerPath, outer, inner],
      [innerPath, inner, outer],
    ] as const) {
      const turned = exchanged(point, right);
      const isOutboard = Math.abs(turned[0]) > Math.abs(other[0]) === (path === outerPath);
      if (isOutboard && 2 * Math.abs(turned[1] - other[1]) < Math.abs(turned[0] - other[0]))
        return [{ path, values: at(point) }];
    }
    return [];
  });
  const mounts = mountsOf(subject)
    .filter(({ point, on, reach }) => {
      const turned = exchanged(point, right);
      return offLine(point, on) > reach && offLine(turned, on) < ON_PART && pastEnd(turned, on) < PAST_JOINT;
    })
    .map(({ path, point }) => ({ path, values: at(point) }));
  const all = [...odd, ...steep, ...mounts];
  return all.filter(({ path }, k) => all.findIndex((one) => one.path === path) === k);
}

function exchanged([y, z]: Point, isRight: boolean): Point {
  return isRight ? [-z, -y] : [z, y];
}

type Line = readonly [from: Point, to: Point];

interface Mount {
  readonly path: string;
  readonly point: Point;
  readonly part: string;
  readonly on: Line;
  /** How far it may lie from the line, mm. */
  readonly reach: number;
}

/** Mounts on the parts that a corner chooses for them, and the line of each part. */
function mountsOf({ kind, corner, points }: CornerSubject): Mount[] {
  return [...points].flatMap(([path, point]): Mount[] => {
    const onPath = onPathOf(path);
    const part = onPath && (valueAt(corner, placeAt(onPath)) as string | undefined);
    const ends = part === 'upright' ? kind.upright : part && kind.arms[part];
    if (!part || !ends) return [];
    const on: Line = [points.get(ends[0]) as Point, points.get(ends[1]) as Point];
    return [{ path, point, part, on, reach: part === 'upright' ? OFF_UPRIGHT : OFF_ARM }];
  });
}

/** How far along a line a point lies, as a share of its length. */
function along([y, z]: Point, [from, to]: Line): number {
  const [dy, dz] = [to[0] - from[0], to[1] - from[1]];
  return ((y - from[0]) * dy + (z - from[1]) * dz) / (dy * dy + dz * dz);
}

/** Distance from a line that ends at `to`; inboard of its pivot an arm may go on as a rocker. */
function offLine(point: Point, on: Line): number {
  const [from, to] = on;
  const t = Math.min(1, along(point, on));
  return apart(point, [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
}

function pastEnd(point: Point, on: Line): number {
  return (along(point, on) - 1) * apart(...on);
}

function beyondJoint(subject: CornerSubject): Found[] {
  return mountsOf(subject)
    .filter(({ point, part, on }) => part !== 'upright' && pastEnd(point, on) > PAST_JOINT)
    .map(({ path, point, part, on }) => ({ path, values: { part, by: pastEnd(point, on) } }));
}

function offPart(subject: CornerSubject): Found[] {
  return mountsOf(subject)
    .filter(({ point, on, reach }) => offLine(point, on) > reach)
    .map(({ path, point, part, on }) => ({ path, values: { part, by: offLine(point, on) } }));
}

/** Upper arm below lower arm: with its pivot too, or its ball joint alone. */
function armsExchanged({ points }: CornerSubject, both: boolean): Found[] {
  const [lower, upper] = ['lowerArm', 'upperArm'].map((arm) => ({
    inner: points.get(`${arm}.inner`),
    outer: points.get(`${arm}.outer`),
  }));
  if (!lower.inner || !lower.outer || !upper.inner || !upper.outer) return [];
  const below = lower.outer[1] - upper.outer[1];
  const isBoth = lower.inner[1] > upper.inner[1];
  return below > 0 && isBoth === both ? [{ path: 'upperArm', values: { below } }] : [];
}

function armEndsExchanged(subject: CornerSubject): Found[] {
  return armsOf(subject)
    .filter(({ inner, outer }) => Math.abs(outer[0]) < Math.abs(inner[0]))
    .map(({ name }) => ({ path: name, values: {} }));
}

const LIES_WRONG = { above: 'below', outboardOf: 'inboardOf' };

function endsExchanged({ kind, points }: CornerSubject): Found[] {
  const ends = [...kind.ends, ['coilover.chassisMount', 'above', 'coilover.mount'] as const];
  return ends.flatMap(([one, lies, another]): Found[] => {
    const [a, b] = [points.get(one), points.get(another)];
    if (a === undefined || b === undefined) return [];
    if (lies === 'above' ? a[1] >= b[1] : Math.abs(a[0]) >= Math.abs(b[0])) return [];
    const [part, end] = one.split('.');
    return [{ path: part, values: { one: end, lies: LIES_WRONG[lies], another: another.split('.')[1] } }];
  });
}

/** The wheel's centre lies outboard of the ball joints, as a rule. */
function inboardWheel(subject: CornerSubject): Found[] {
  const joints = armsOf(subject).map(({ outer: [y] }) => Math.abs(y));
  if (joints.length === 0) return [];
  const by = Math.min(...joints) - Math.abs(subject.corner.wheel.centre[0]);
  return by > 0 ? [{ path: 'wheel.centre', values: { by, joints: joints.length } }] : [];
}

/** Camber by centre and contact patch, degrees. */
function drawnCamber({
  corner: {
    wheel: { centre, contactPatch },
  },
}: CornerSubject): number | undefined {
  if (contactPatch === undefined) return undefined;
  const side = centre[0] < 0 ? -1 : 1;
  return Math.atan2(side * (centre[0] - contactPatch[0]), centre[1] - contactPatch[1]) * DEGREES;
}

function oddCamber(subject: CornerSubject): Found[] {
  const given = subject.corner.wheel.camber;
  const camber = given ?? drawnCamber(subject);
  if (camber === undefined || Math.abs(camber) <= MOST_CAMBER) return [];
  const path = given === undefined ? 'wheel.contactPatch' : 'wheel.camber';
  return [{ path, values: { camber, most: MOST_CAMBER } }];
}

function camberAgainstPatch(subject: CornerSubject, isReversed: boolean): Found[] {
  const { camber } = subject.corner.wheel;
  const drawn = drawnCamber(subject);
  if (camber === undefined || drawn === undefined || Math.abs(camber - drawn) <= CAMBER_TOLERANCE) return [];
  const fitsReversed = Math.abs(camber + drawn) <= CAMBER_TOLERANCE;
  if (fitsReversed !== isReversed) return [];
  return [{ path: isReversed ? 'wheel.camber' : 'wheel.contactPatch', values: { drawn, camber } }];
}

function offGround({
  corner: {
    wheel: { contactPatch },
  },
}: CornerSubject): Found[] {
  if (contactPatch === undefined || Math.abs(contactPatch[1]) <= ON_GROUND) return [];
  return [{ path: 'wheel.contactPatch', values: { z: contactPatch[1] } }];
}

function same(a: Point | undefined, b: Point | undefined): boolean {
  return a !== undefined && b !== undefined && a[0] === b[0] && a[1] === b[1];
}

function copied({ points }: CornerSubject): Found[] {
  return same(points.get('lowerArm.inner'), points.get('upperArm.inner'))
    ? [{ path: 'upperArm.inner', values: { of: 'lowerArm.inner' } }]
    : [];
}

/** What works the coilover stands on the pivot of its part: it does not move. */
function onPivot(subject: CornerSubject): Found[] {
  const { kind, points } = subject;
  const found: Found[] = [];
  const add = (path: string, pivot: string) =>
    found.push({ path, values: { pivot, moved: path.split('.')[0] } });
  for (const { path, point, part } of mountsOf(subject)) {
    const isWorking = path !== 'coilover.otherEnd.mount' && part !== 'upright';
    if (isWorking && same(point, points.get(kind.arms[part][0]))) add(path, part);
  }
  if (same(points.get('coilover.rockerMount'), points.get('rocker.pivot')))
    add('coilover.rockerMount', 'rocker');
  return found;
}
