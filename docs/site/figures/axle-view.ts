// How the study of an axle is shown: the frame of its picture, what the reader can move in it, its body.

import { carrierOf } from '#jounce/corner/model.js';
import { hull } from '#jounce/report/poses.js';
import type { AxleStudy } from './axle-study.ts';
import { type Hardpoint, shockEnds } from './corner-study.ts';
import { type Frame, framed, type Point, xy } from './plane.ts';

/** Room about the picture, mm. */
const MARGIN = 60;
/** Height of the grip on the centreline of the body above the ground, as a share of the half-track: as high as a roof. */
const GRIP = 1.3;

/** Height of the grip, mm: it is as far from the roll centre that a degree can be seen. */
export function gripHeight({ corner: { model } }: AxleStudy): number {
  return Math.round(GRIP * model.drawing.points[model.contactPatch][0]);
}

/** The frame of an axle, mm on a level road. */
export function frameOf(found: AxleStudy): Frame {
  const { model, tyre } = found.corner;
  const half = model.drawing.points[model.wheelCentre][0] + 0.5 * tyre.width + MARGIN;
  const top = gripHeight(found) + 1.6 * MARGIN;
  return framed(-half, top, half, -0.5 * MARGIN);
}

/** The body as the hull of the points on it, and its centreline up to the grip; mm of the body. */
export function bodyOf(found: AxleStudy): { readonly hull: string; readonly middle: string } {
  const { ground, points } = found.corner.model.drawing;
  const left = ground.map((name) => points[name]);
  const around = hull([...left, ...left.map(([y, z]): Point => [-y, z])]);
  const low = Math.min(...around.map(([, z]) => z));
  return { hull: `M${around.map(xy).join('L')}Z`, middle: `M0 ${-low}V${-gripHeight(found)}` };
}

/** A point that the reader can move, where it is drawn and the part that it is on. */
export interface Movable extends Hardpoint {
  readonly drawn: Point;
  /** null for the chassis. */
  readonly on: string | null;
}

/** The coilover's mount on the chassis, the inner pivot of an arm, and where the drop link of the bar stands. */
export function movables({ corner, linkage: { bar } }: AxleStudy): readonly Movable[] {
  const { model } = corner;
  const { points } = model.drawing;
  const pivot: Hardpoint =
    points.upperInner === undefined
      ? { path: 'lowerArm.inner', name: 'lowerInner', label: 'inner pivot of the lower arm' }
      : { path: 'upperArm.inner', name: 'upperInner', label: 'inner pivot of the upper arm' };
  const drawn = [pivot, ...shockEnds(corner).slice(1)].map((one) => ({
    ...one,
    drawn: points[one.name],
    on: carrierOf(model, one.name),
  }));
  if (bar === null) return drawn;
  const { linkMount, on } = bar.left;
  return [
    ...drawn,
    { path: 'bar.linkMount', name: 'linkMount', label: 'foot of the drop link', drawn: linkMount, on },
  ];
}
