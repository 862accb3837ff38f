// Where the points of a corner make one ask: other sides, exchanged coordinates and arms, mounts far from what they stand on.

import { DEGREES } from '../../units.ts';
import { apart, archOf, type Point, pointsOf, type Written } from '../written.ts';
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
  { code: 'wheelOnOtherSide', severity: 'check', find: ({ corner }) => wheelOnOtherSide(corner) },
  {
    code: 'rightHandCorner',
    severity: 'note',
    find: ({ corner }) => rightHand(corner),
    unless: ['wheelOnOtherSide'],
  },
  {
    code: 'pointOnOtherSide',
    severity: 'check',
    find: ({ corner }) => onOtherSide(corner),
    unless: ['wheelOnOtherSide'],
  },
  {
    code: 'coiloverAcrossCentreline',
    severity: 'check',
    find: ({ corner }) => across(corner),
    unless: ['wheelOnOtherSide'],
  },
  { code: 'pointBelowGround', severity: 'check', find: ({ corner }) => belowGround(corner) },
  { code: 'allCoordinatesExchanged', severity: 'error', find: ({ corner }) => allExchanged(corner) },
  {
    code: 'coordinatesExchanged',
    severity: 'check',
    find: ({ corner }) => coordinatesExchanged(corner),
    unless: ['allCoordinatesExchanged'],
  },
];

/** Those that follow the checks of sizes: nothing lies where it should with coordinates exchanged. */
export const PLACE_CHECKS: readonly CheckRule<CornerSubject>[] = (
  [
    { code: 'armsExchanged', severity: 'check', find: ({ corner }) => armsExchanged(corner, true) },
    { code: 'outerPointsExchanged', severity: 'check', find: ({ corner }) => armsExchanged(corner, false) },
    { code: 'armEndsExchanged', severity: 'check', find: ({ corner }) => armEndsExchanged(corner) },
    { code: 'endsExchanged', severity: 'check', find: ({ corner }) => endsExchanged(corner) },
    { code: 'wheelInboardOfJoints', severity: 'check', find: ({ corner }) => inboardWheel(corner) },
    {
      code: 'mountBeyondJoint',
      severity: 'check',
      find: ({ corner }) => beyondJoint(corner),
      unless: ['unitsWrong', ...EXCHANGED_ARMS],
    },
    {
      code: 'mountOffPart',
      severity: 'check',
      find: ({ corner }) => offPart(corner),
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
  { code: 'camberUnusual', severity: 'check', find: ({ corner }) => oddCamber(corner) },
  { code: 'camberSignReversed', severity: 'check', find: ({ corner }) => camberAgainstPatch(corner, true) },
  {
    code: 'camberAgainstContactPatch',
    severity: 'check',
    find: ({ corner }) => camberAgainstPatch(corner, false),
  },
  { code: 'contactPatchOffGround', severity: 'check', find: ({ corner }) => offGround(corner) },
  { code: 'pointCopied', severity: 'check', find: ({ corner }) => copied(corner) },
  { code: 'mountOnPivot', severity: 'check', find: ({ corner }) => onPivot(corner) },
];

function at(point: Point): { y: number; z: number } {
  return { y: point[0], z: point[1] };
}

function isRight({ wheel }: Written): boolean {
  return wheel.centre[0] < 0;
}

function rightHand(corner: Written): Found[] {
  return isRight(corner) ? [{ path: 'wheel.centre', values: {} }] : [];
}

/** Points on the other side of the car than the wheel. */
function others(corner: Written): { others: [string, Point][]; areMost: boolean } {
  const right = isRight(corner);
  // A coilover on a rocker may well lie across the car.
  const mayCross = corner.rocker === undefined ? '' : 'coilover.chassisMount';
  const points = [...pointsOf(corner), ...archOf(corner)];
  const others = points.filter(([path, [y]]) => y !== 0 && y < 0 !== right && path !== mayCross);
  return { others, areMost: 2 * others.length > points.length };
}

function wheelOnOtherSide(corner: Written): Found[] {
  return others(corner).areMost ? [{ path: 'wheel.centre', values: at(corner.wheel.centre) }] : [];
}

function onOtherSide(corner: Written): Found[] {
  return others(corner).others.map(([path, point]) => ({ path, values: at(point) }));
}

function across(corner: Written): Found[] {
  const end = corner.coilover?.chassisMount;
  if (corner.rocker === undefined || end === undefined) return [];
  const by = isRight(corner) ? end[0] : -end[0];
  return by > ACROSS ? [{ path: 'coilover.chassisMount', values: { by } }] : [];
}

function belowGround(corner: Written): Found[] {
  return [...pointsOf(corner), ...archOf(corner)]
    .filter(([, [, z]]) => z < 0)
    .map(([path, [, z]]) => ({ path, values: { z } }));
}

function armsOf({ lowerArm, upperArm }: Written): [name: string, arm: Written['lowerArm']][] {
  return Object.entries({ lowerArm, upperArm }).flatMap(([name, arm]) =>
    arm === undefined ? [] : [[name, arm]],
  );
}

function isSteep([y, z]: Point, [toY, toZ]: Point): boolean {
  return Math.abs(toZ - z) > Math.abs(toY - y);
}

/** The wheel higher than it is far out, and every arm nearer to upright than to level. */
function allExchanged(corner: Written): Found[] {
  const [y, z] = corner.wheel.centre;
  const areSteep = armsOf(corner).every(([, { inner, outer }]) => isSteep(inner, outer));
  return Math.abs(y) < z && areSteep ? [{ path: '', values: at(corner.wheel.centre) }] : [];
}

/** Points that would lie as they should if their coordinates were exchanged, and do not as they are. */
function coordinatesExchanged(corner: Written): Found[] {
  const { wheel, lowerArm } = corner;
  const outboard: [path: string, point: Point, of: Point][] = [
    ['wheel.centre', wheel.centre, lowerArm.outer],
    ...armsOf(corner).map(([name, { inner, outer }]): [string, Point, Point] => [
      `${name}.outer`,
      outer,
      inner,
    ]),
  ];
  const odd = outboard
    .filter(([, [y, z], [inner]]) => Math.abs(y) < z && Math.abs(y) < Math.abs(inner) && z > Math.abs(inner))
    .map(([path, point]) => ({ path, values: at(point) }));
  const steep = armsOf(corner).flatMap(([name, { inner, outer }]): Found[] => {
    if (!isSteep(inner, outer)) return [];
    for (const [end, point, other] of [
      ['outer', outer, inner],
      ['inner', inner, outer],
    ] as const) {
      const turned = exchanged(point, isRight(corner));
      const isOutboard = Math.abs(turned[0]) > Math.abs(other[0]) === (end === 'outer');
      if (isOutboard && 2 * Math.abs(turned[1] - other[1]) < Math.abs(turned[0] - other[0]))
        return [{ path: `${name}.${end}`, values: at(point) }];
    }
    return [];
  });
  const mounts = mountsOf(corner)
    .filter(({ point, on, reach }) => {
      const turned = exchanged(point, isRight(corner));
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

/** Mounts on parts that move with the wheel, and the line of each part. */
function mountsOf({ lowerArm, upperArm, strut, rod, coilover }: Written): Mount[] {
  const top = upperArm?.outer ?? strut?.lowerMount;
  const lines: Record<string, Line | undefined> = {
    lowerArm: [lowerArm.inner, lowerArm.outer],
    upperArm: upperArm && [upperArm.inner, upperArm.outer],
    upright: top && [lowerArm.outer, top],
  };
  const mounts: [string, string | undefined, Point | undefined][] = [
    ['coilover.mount', coilover?.on, coilover?.mount],
    ['coilover.otherEnd.mount', coilover?.otherEnd?.on, coilover?.otherEnd?.mount],
    ['rod.mount', rod?.on, rod?.mount],
  ];
  return mounts.flatMap(([path, part, point]) => {
    const on = part === undefined ? undefined : lines[part];
    if (part === undefined || on === undefined || point === undefined) return [];
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

function beyondJoint(corner: Written): Found[] {
  return mountsOf(corner)
    .filter(({ point, part, on }) => part !== 'upright' && pastEnd(point, on) > PAST_JOINT)
    .map(({ path, point, part, on }) => ({ path, values: { part, by: pastEnd(point, on) } }));
}

function offPart(corner: Written): Found[] {
  return mountsOf(corner)
    .filter(({ point, on, reach }) => offLine(point, on) > reach)
    .map(({ path, point, part, on }) => ({ path, values: { part, by: offLine(point, on) } }));
}

/** Upper arm below lower arm: with its pivot too, or its ball joint alone. */
function armsExchanged({ lowerArm, upperArm }: Written, both: boolean): Found[] {
  if (upperArm === undefined) return [];
  const below = lowerArm.outer[1] - upperArm.outer[1];
  const isBoth = lowerArm.inner[1] > upperArm.inner[1];
  return below > 0 && isBoth === both ? [{ path: 'upperArm', values: { below } }] : [];
}

function armEndsExchanged(corner: Written): Found[] {
  return armsOf(corner)
    .filter(([, { inner, outer }]) => Math.abs(outer[0]) < Math.abs(inner[0]))
    .map(([path]) => ({ path, values: {} }));
}

function endsExchanged({ strut, rod, coilover }: Written): Found[] {
  const found: Found[] = [];
  const other = (path: string, one: string, lies: 'below' | 'inboardOf', another: string) =>
    found.push({ path, values: { one, lies, another } });
  if (strut !== undefined && strut.topMount[1] < strut.lowerMount[1])
    other('strut', 'topMount', 'below', 'lowerMount');
  if (rod !== undefined && Math.abs(rod.mount[0]) < Math.abs(rod.rockerMount[0]))
    other('rod', 'mount', 'inboardOf', 'rockerMount');
  const { mount, chassisMount } = coilover ?? {};
  if (mount !== undefined && chassisMount !== undefined && chassisMount[1] < mount[1])
    other('coilover', 'chassisMount', 'below', 'mount');
  return found;
}

/** The wheel's centre lies outboard of the ball joints, as a rule. */
function inboardWheel({ wheel, lowerArm, upperArm }: Written): Found[] {
  const joints = upperArm === undefined ? [lowerArm.outer] : [lowerArm.outer, upperArm.outer];
  const by = Math.min(...joints.map(([y]) => Math.abs(y))) - Math.abs(wheel.centre[0]);
  return by > 0 ? [{ path: 'wheel.centre', values: { by, joints: joints.length } }] : [];
}

/** Camber by centre and contact patch, degrees. */
function drawnCamber({ wheel: { centre, contactPatch } }: Written): number | undefined {
  if (contactPatch === undefined) return undefined;
  const side = centre[0] < 0 ? -1 : 1;
  return Math.atan2(side * (centre[0] - contactPatch[0]), centre[1] - contactPatch[1]) * DEGREES;
}

function oddCamber(corner: Written): Found[] {
  const given = corner.wheel.camber;
  const camber = given ?? drawnCamber(corner);
  if (camber === undefined || Math.abs(camber) <= MOST_CAMBER) return [];
  const path = given === undefined ? 'wheel.contactPatch' : 'wheel.camber';
  return [{ path, values: { camber, most: MOST_CAMBER } }];
}

function camberAgainstPatch(corner: Written, isReversed: boolean): Found[] {
  const { camber } = corner.wheel;
  const drawn = drawnCamber(corner);
  if (camber === undefined || drawn === undefined || Math.abs(camber - drawn) <= CAMBER_TOLERANCE) return [];
  const fitsReversed = Math.abs(camber + drawn) <= CAMBER_TOLERANCE;
  if (fitsReversed !== isReversed) return [];
  return [{ path: isReversed ? 'wheel.camber' : 'wheel.contactPatch', values: { drawn, camber } }];
}

function offGround({ wheel: { contactPatch } }: Written): Found[] {
  if (contactPatch === undefined || Math.abs(contactPatch[1]) <= ON_GROUND) return [];
  return [{ path: 'wheel.contactPatch', values: { z: contactPatch[1] } }];
}

function same(a: Point | undefined, b: Point | undefined): boolean {
  return a !== undefined && b !== undefined && a[0] === b[0] && a[1] === b[1];
}

function copied({ lowerArm, upperArm }: Written): Found[] {
  return same(lowerArm.inner, upperArm?.inner)
    ? [{ path: 'upperArm.inner', values: { of: 'lowerArm.inner' } }]
    : [];
}

function onPivot({ lowerArm, upperArm, rod, rocker, coilover }: Written): Found[] {
  const pivots = { lowerArm: lowerArm.inner, upperArm: upperArm?.inner, upright: undefined };
  const found: Found[] = [];
  const add = (path: string, pivot: string, moved: string) => found.push({ path, values: { pivot, moved } });
  if (rod !== undefined && same(rod.mount, pivots[rod.on])) add('rod.mount', rod.on, 'rod');
  if (coilover?.on !== undefined && same(coilover.mount, pivots[coilover.on]))
    add('coilover.mount', coilover.on, 'coilover');
  if (same(coilover?.rockerMount, rocker?.pivot)) add('coilover.rockerMount', 'rocker', 'coilover');
  return found;
}
