// A corner at a few travels, ready to be drawn: the places of its points, all from a sweep, and the wheel's outline.

import type { Pose as Row } from '../corner/column-types.ts';
import { type Corner, modelOf } from '../corner/corner.ts';
import type { CornerModel } from '../corner/model.ts';
import { type Sweep, sweep } from '../corner/sweep.ts';
import { rimDiameterOf, tyreOf } from '../corner/tyre.ts';
import { type Diagnostic, fault, show } from '../diagnostic.ts';
import type { TyreInput } from '../document/inputs.ts';
import { refusal, refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
import { type ConstraintMaker, jointsIn } from '../linkage/joints.ts';
import { distance } from '../numerics/plane.ts';
import { DEGREES } from '../units.ts';

/** Sizes of the wheel for the drawing: a corner has none. */
export interface WheelSizes {
  /** The tyre, as for `limits`: gives the width, and the rim diameter where it is a size marking. */
  readonly tyre?: TyreInput | string;
  /** mm; in place of that of `tyre`. */
  readonly tyreWidth?: number;
  /** mm; in place of that of `tyre`. */
  readonly rimDiameter?: number;
}

/** Width and rim diameter, mm, as far as they are given. */
export function wheelSizes({ tyre, tyreWidth, rimDiameter }: WheelSizes): {
  readonly width: number | null;
  readonly rim: number | null;
} {
  return {
    width: tyreWidth ?? (tyre === undefined ? null : tyreOf(tyre).width),
    rim: rimDiameter ?? (tyre === undefined ? null : rimDiameterOf(tyre)),
  };
}

/** Which end of the coilover the body of the damper is at. */
export type BodyEnd = 'up' | 'down';

/** Which side of design ride height a pose is on. */
export type PoseName = 'droop' | 'ride' | 'bump';

/** A corner at one travel. */
export interface Pose {
  readonly name: PoseName;
  readonly travel: number;
  readonly row: Row;
  /** Every point, [y, z] in mm. */
  readonly points: Readonly<Record<string, Point>>;
  /** Corners of the tyre's and the rim's outline seen from the front, mm. */
  readonly tyre: readonly Point[];
  readonly rim: readonly Point[];
}

/** Proportions where no size is given, as shares of the loaded radius. */
const TYRE_WIDTH = 0.58;
const RIM_DIAMETER = 1.24;
const RIM_WIDTH = 0.84;

/** What is to be drawn: a corner at some travels. */
export interface Scene {
  readonly model: CornerModel;
  readonly swept: Sweep;
  /** The highest travel first; ride is among them. */
  readonly poses: readonly Pose[];
  readonly ride: Pose;
  /** How the sweep ended, where its ends are shown. */
  readonly ends: Sweep['end'] | null;
  /** Ends of the coilover: of its body and of its shaft. */
  readonly coilover: readonly [body: string, shaft: string];
}

/** A corner at the ends of a sweep and at design ride height, or at given travels and there. */
export function sceneOf(
  corner: Corner,
  motion: Sweep | readonly number[],
  looks: WheelSizes & { readonly bodyEnd?: BodyEnd },
): Scene {
  const model = modelOf(corner);
  if (!Array.isArray(motion)) refuseOtherThan('sweep', motion);
  else refuse('travels', travelFaults(motion));
  const ends = 'end' in motion ? motion.end : null;
  const swept = 'end' in motion ? motion : sweepThrough(corner, motion);
  const travels =
    'end' in motion
      ? [motion.end.droop.travel, motion.end.bump.travel]
      : motion.map((travel) => withinReach(travel, swept.end));
  const ride = poseAt(model, swept, 0, looks);
  const others = [...new Set(travels)].filter((travel) => travel !== 0);
  const poses = [ride, ...others.map((travel) => poseAt(model, swept, travel, looks))];
  return {
    model,
    swept,
    poses: poses.sort((a, b) => b.travel - a.travel),
    ride,
    ends,
    coilover: shockEnds(model, looks.bodyEnd),
  };
}

/** A fault for each travel that is no number. */
function travelFaults(travels: readonly unknown[]): Diagnostic[] {
  return travels.flatMap((travel, k) =>
    Number.isFinite(travel) ? [] : [fault('notFinite', `[${k}]`, { got: show(travel) })],
  );
}

/** Fraction of a travel by which rounding may put it beyond the end of a sweep. */
const HAIR = 1e-9;

/** A travel, or the end of the sweep that it is beyond by rounding alone. */
function withinReach(travel: number, { bump, droop }: Sweep['end']): number {
  const end = travel > 0 ? bump.travel : droop.travel;
  const beyond = Math.abs(travel) - Math.abs(end);
  return beyond > 0 && beyond <= HAIR * Math.abs(travel) ? end : travel;
}

function sweepThrough(corner: Corner, travels: readonly number[]): Sweep {
  return sweep(corner, { bump: Math.max(0, ...travels), droop: Math.max(0, ...travels.map((t) => -t)) });
}

/** Places of all points at a travel, mm. */
export function placesAt(model: CornerModel, row: Row): Record<string, Point> {
  const { points, ground } = model.drawing;
  return Object.fromEntries(
    Object.entries(points).map(([name, drawn]) => {
      if (ground.includes(name)) return [name, drawn];
      const [y, z] = [row[`${name}Y`], row[`${name}Z`]];
      if (typeof y === 'number' && typeof z === 'number') return [name, [y, z]];
      throw refusal('sweep', [fault('columnsMissing', 'columns', { columns: [`${name}Y`, `${name}Z`] })]);
    }),
  );
}

function poseAt(model: CornerModel, swept: Sweep, travel: number, sizes: WheelSizes): Pose {
  const row = swept.at(travel);
  const points = placesAt(model, row);
  const name = travel === 0 ? 'ride' : travel > 0 ? 'bump' : 'droop';
  return { name, travel, row, points, ...wheelAt(model, points, sizes) };
}

/** The wheel as a disc of the loaded radius about its centre: drawn camber, turned with the upright. */
function wheelAt(
  { drawing, wheelCentre, contactPatch, camber }: CornerModel,
  points: Readonly<Record<string, Point>>,
  sizes: WheelSizes,
): Pick<Pose, 'tyre' | 'rim'> {
  const drawn = drawing.points;
  const leanOf = ([y, z]: Point, [y0, z0]: Point) => Math.atan2(y - y0, z - z0);
  const lean =
    camber / DEGREES +
    leanOf(points[wheelCentre], points[contactPatch]) -
    leanOf(drawn[wheelCentre], drawn[contactPatch]);
  const radius = (drawn[wheelCentre][1] - drawn[contactPatch][1]) / Math.cos(camber / DEGREES);
  const [y, z] = points[wheelCentre];
  const outline = (halfWidth: number, halfHeight: number): Point[] =>
    [
      [-halfWidth, -halfHeight],
      [halfWidth, -halfHeight],
      [halfWidth, halfHeight],
      [-halfWidth, halfHeight],
    ].map(([out, up]) => [
      y + out * Math.cos(lean) + up * Math.sin(lean),
      z - out * Math.sin(lean) + up * Math.cos(lean),
    ]);
  const { width: given, rim } = wheelSizes(sizes);
  const width = given ?? TYRE_WIDTH * radius;
  return {
    tyre: outline(width / 2, radius),
    rim: outline((RIM_WIDTH * width) / 2, (rim ?? RIM_DIAMETER * radius) / 2),
  };
}

/** A pose in words. */
export const POSE_WORDS: Readonly<Record<PoseName, string>> = {
  droop: 'droop',
  ride: 'design ride height',
  bump: 'bump',
};

/** Joints that move and are not marked otherwise. */
export function moving(model: CornerModel): string[] {
  const { drawing, wheelCentre, contactPatch, shock } = model;
  const unmarked = [wheelCentre, contactPatch, ...(isStrut(model) ? [shock.outer] : [])];
  return Object.keys(drawing.points).filter(
    (name) => !drawing.ground.includes(name) && !unmarked.includes(name),
  );
}

/** Whether the coilover is a strut: its axis keeps its angle to the body that its lower end is fixed in. */
export function isStrut({ drawing: { fixedAngles = {}, ground }, shock }: CornerModel): boolean {
  return Object.values(fixedAngles).some((directions) =>
    directions.some(
      (one) =>
        typeof one !== 'string' &&
        !one.every((point) => ground.includes(point)) &&
        one.every((point) => point === shock.inner || point === shock.outer),
    ),
  );
}

/** The ends of the coilover: the one that its body is at, and that of its shaft. A strut has its body below. */
function shockEnds(model: CornerModel, bodyEnd: BodyEnd = 'up'): readonly [body: string, shaft: string] {
  const { drawing, shock } = model;
  const isInnerUp = drawing.points[shock.inner][1] >= drawing.points[shock.outer][1];
  const isBodyUp = bodyEnd === 'up' && !isStrut(model);
  return isInnerUp === isBodyUp ? [shock.inner, shock.outer] : [shock.outer, shock.inner];
}

/** Stages of a moving point's path. */
const STAGES = 24;

/** The paths of the moving points between the outermost poses, mm. */
export function paths({ model, swept, poses }: Scene): Point[][] {
  const [high, low] = [poses[0].travel, poses[poses.length - 1].travel];
  if (high === low) return [];
  const stages = Array.from({ length: STAGES + 1 }, (_, k) =>
    placesAt(model, swept.at(k === STAGES ? high : low + ((high - low) * k) / STAGES)),
  );
  return Object.keys(model.drawing.points)
    .filter((name) => !model.drawing.ground.includes(name))
    .map((name) => stages.map((points) => points[name]));
}

/** Bodies as the hulls of their points, the contact patch left out: the tyre shows it; then the lines of `slides`. */
export function outlines(model: CornerModel, points: Pose['points']): Point[][] {
  const { drawing, contactPatch } = model;
  const bodies = Object.values(drawing.bodies).map((members) =>
    hull(members.filter((name) => name !== contactPatch).map((name) => points[name])),
  );
  return [...bodies, ...slides(model).map(({ ends: [a, b] }) => [points[a], points[b]])];
}

type Line = readonly [string, string];

/** Lines that something slides along where a joint keeps a constraint; those of the chassis that an angle is kept to are no parts. */
const slidesOf = (ground: readonly string[]): ConstraintMaker<readonly Line[]> => ({
  coordinate: () => [],
  distance: (_, line) => [line],
  angle: (...directions) =>
    directions.flatMap((one) =>
      one === undefined || typeof one === 'string' || one.every((point) => ground.includes(point))
        ? []
        : [one],
    ),
  sum: (terms) => terms.flatMap(([of]) => ('length' in of ? [of.length] : [])),
});

/**
 * Lines that something slides along, each with its name and ends: telescopes, what sliders are on, and what keeps its angle
 * to a body, as a strut's axis does; each once, without those that a body or the shock shows.
 */
export function slides({ drawing, shock }: CornerModel): Slide[] {
  return slidesIn(drawing, [[shock.inner, shock.outer]]);
}

interface Slide {
  readonly name: string;
  readonly ends: Line;
}

/** The same of a drawing, without those that a body or another part shows. */
export function slidesIn(drawing: Drawing, parts: readonly Line[] = []): Slide[] {
  const along = slidesOf(drawing.ground);
  const lines = jointsIn(drawing).flatMap(({ at, direction, constraint }) =>
    (direction === undefined ? constraint(along) : [direction]).map((ends) => ({ name: at.name, ends })),
  );
  const shown: (readonly string[])[] = [...Object.values(drawing.bodies), ...parts];
  return lines.flatMap(({ name, ends }) => {
    if (shown.some((part) => ends.every((point) => part.includes(point)))) return [];
    shown.push(ends);
    return [{ name, ends }];
  });
}

/** The middle of some points. */
export function middle(points: readonly Point[]): Point {
  const sum = points.reduce<Point>(([y, z], [py, pz]) => [y + py, z + pz], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}

/** Convex hull, counter-clockwise, without points on its sides (A. M. Andrew 1979: monotone chain). */
export function hull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const turnsLeft = (a: Point, b: Point, c: Point) =>
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0;
  const chain = (row: readonly Point[]) => {
    const kept: Point[] = [];
    for (const point of row) {
      while (kept.length > 1 && !turnsLeft(kept[kept.length - 2], kept[kept.length - 1], point)) kept.pop();
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

/** The shock's least length in the plane over some poses, mm. */
export function shortestShock({ shock: { inner, outer } }: CornerModel, poses: readonly Pose[]): number {
  return Math.min(...poses.map(({ points }) => distance(points[outer], points[inner])));
}
