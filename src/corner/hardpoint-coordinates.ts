// The coordinates that a corner is drawn with, each an input of its own: what moves with a mm of it, and the corner with
// some of them moved. All points stand for themselves but for the wheel's, whose camber and contact patch hang together
// by the thin disc,
//
//   y_wc - y_cp = (z_wc - z_cp) tan(camber);
//
// what was given of the two is kept, and the other follows.

import { type Diagnostic, fault, show } from '../diagnostic.ts';
import type { Point } from '../linkage/drawing.ts';
import type { Shift } from '../linkage/form-rates.ts';
import { meantName } from '../spelling.ts';
import { DEGREES } from '../units.ts';
import type { CornerModel } from './model.ts';

/** A hardpoint's coordinate. */
export interface HardpointCoordinate {
  /** As its column is named: `lowerInnerY`. */
  readonly name: string;
  readonly point: string;
  /** 0 for y, 1 for z. */
  readonly axis: 0 | 1;
  /** Where points go with a mm of it, mm. */
  readonly shift: Shift;
  /** What the drawn camber changes by with a mm of it, degrees. */
  readonly camber: number;
}

const AXES = ['Y', 'Z'] as const;

/** All coordinates of a corner's hardpoints, in the order of its drawing; a contact patch that follows is none. */
export function hardpointsOf(model: CornerModel): HardpointCoordinate[] {
  const { drawing, contactPatch, standsBy } = model;
  return Object.keys(drawing.points)
    .filter((point) => point !== contactPatch || standsBy !== 'camber')
    .flatMap((point) => AXES.map((_, axis) => coordinateOf(model, point, axis as 0 | 1)));
}

function coordinateOf(model: CornerModel, point: string, axis: 0 | 1): HardpointCoordinate {
  const { drawing, wheelCentre, contactPatch, standsBy, camber } = model;
  const unit: Point = axis === 0 ? [1, 0] : [0, 1];
  const alone = { name: point + AXES[axis], point, axis, shift: { [point]: unit }, camber: 0 };
  if (standsBy === 'camber' && point === wheelCentre) {
    const patch: Point = axis === 0 ? [1, 0] : [-Math.tan(camber / DEGREES), 0];
    return { ...alone, shift: { [point]: unit, [contactPatch]: patch } };
  }
  if (standsBy === 'contactPatch' && (point === wheelCentre || point === contactPatch)) {
    const [[y, z], [py, pz]] = [drawing.points[wheelCentre], drawing.points[contactPatch]];
    const [out, up] = [y - py, z - pz];
    const turn = ((axis === 0 ? up : -out) / (out * out + up * up)) * DEGREES;
    return { ...alone, camber: point === wheelCentre ? turn : -turn };
  }
  return alone;
}

/** The corner with coordinates moved by so many mm; camber or contact patch follow. */
export function moveHardpoints(model: CornerModel, by: Readonly<Record<string, number>>): CornerModel {
  const { drawing, wheelCentre, contactPatch, standsBy } = model;
  const points: Record<string, Point> = {};
  for (const [point, [y, z]] of Object.entries(drawing.points)) {
    points[point] = [y + (by[`${point}Y`] ?? 0), z + (by[`${point}Z`] ?? 0)];
  }
  const [y, z] = points[wheelCentre];
  let { camber } = model;
  if (standsBy === 'camber') {
    const [, ground] = drawing.points[contactPatch];
    points[contactPatch] = [y - (z - ground) * Math.tan(camber / DEGREES), ground];
  } else if (standsBy === 'contactPatch') {
    const [py, pz] = points[contactPatch];
    camber = Math.atan((y - py) / (z - pz)) * DEGREES;
  }
  return { ...model, drawing: { ...drawing, points }, camber };
}

/** What to say of a name that is none of a corner's coordinates. */
export function unknownCoordinate(path: string, name: string, names: readonly string[]): Diagnostic {
  return fault('unknownCoordinate', path, {
    ...(path === name ? {} : { got: show(name) }),
    allowed: names,
    followsFromCamber: /^(left|right)?contactPatch/i.test(name),
    meant: meantName(name, names) ?? null,
  });
}
