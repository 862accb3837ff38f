// A corner at a few travels, ready to be drawn: the places of its points, all from a sweep, and the wheel's outline.

import { type Corner, modelOf } from '../corner/corner.ts';
import type { CornerModel } from '../corner/model.ts';
import { type Row, type Sweep, sweep } from '../corner/sweep.ts';
import { InputError } from '../errors.ts';
import type { Point } from '../linkage/drawing.ts';
import { DEGREES } from '../units.ts';

/** Sizes of the wheel for the eye, mm: a corner has neither. */
export interface WheelSizes {
  readonly tyreWidth?: number;
  readonly rimDiameter?: number;
}

/** Which side of ride a pose is on. */
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

/** The sweep behind a motion: the given one, or one that reaches the given travels. */
export function sweepOf(corner: Corner, motion: Sweep | readonly number[]): Sweep {
  if ('end' in motion) return motion;
  return sweep(corner, { bump: Math.max(0, ...motion), droop: Math.max(0, ...motion.map((t) => -t)) });
}

/** The poses of a motion and ride, the highest travel first. */
export function posesOf(
  corner: Corner,
  motion: Sweep | readonly number[],
  swept: Sweep,
  sizes: WheelSizes,
): Pose[] {
  const travels = 'end' in motion ? [motion.end.droop.travel, motion.end.bump.travel] : motion;
  const model = modelOf(corner);
  return [...new Set([...travels, 0])].sort((a, b) => b - a).map((t) => poseAt(model, swept, t, sizes));
}

/** Places of all points at a travel, mm. */
export function placesAt(model: CornerModel, row: Row): Record<string, Point> {
  const { points, ground } = model.drawing;
  return Object.fromEntries(
    Object.entries(points).map(([name, drawn]) => {
      if (ground.includes(name)) return [name, drawn];
      const [y, z] = [row[`${name}Y`], row[`${name}Z`]];
      if (typeof y === 'number' && typeof z === 'number') return [name, [y, z]];
      throw new InputError('sweep', [
        {
          path: 'columns',
          problem: 'missing for a drawing',
          got: `no ${name}Y, ${name}Z`,
          advice: 'sweep without a choice of columns',
        },
      ]);
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
  { tyreWidth, rimDiameter }: WheelSizes,
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
  const width = tyreWidth ?? TYRE_WIDTH * radius;
  return {
    tyre: outline(width / 2, radius),
    rim: outline((RIM_WIDTH * width) / 2, (rimDiameter ?? RIM_DIAMETER * radius) / 2),
  };
}
