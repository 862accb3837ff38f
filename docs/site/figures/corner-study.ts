// What the figures of a corner show, from the library: the corner of a file, its curves, its first limits and its estimate by hand.

import {
  type ColumnOf,
  type DocumentCorner,
  handMethod,
  type Limits,
  limits,
  type Sweep,
  sweep,
  tyreFromSize,
} from 'jounce';
import { modelOf } from '#jounce/corner/corner.js';
import { KINDS } from '#jounce/corner/kinds.js';
import { type CornerModel, carrierOf } from '#jounce/corner/model.js';
import { between, carried, turnBetween } from '#jounce/numerics/plane.js';
import { moving, outlines } from '#jounce/report/poses.js';
import { spaced } from '#jounce/words.js';
import type { Point } from './plane.ts';
import type { ShownFile } from './shown-file.ts';

/** What a sizing adds to the corner of a file. */
export interface Sized {
  /** kg; null where the file has no masses. */
  readonly sprungMass: number | null;
  /** That the spring is chosen for, Hz. */
  readonly frequency: number | null;
  /** Eye-to-eye lengths of the damper, mm. */
  readonly damper: { readonly extendedLength: number; readonly compressedLength: number } | null;
}

/** The travel that a figure shows where nothing stops the wheel, mm; and the most that it shows before a stop. */
const FARTHEST = 90;
const MOST = 250;
/** Travel shown beyond a limit, mm. */
const BEYOND = 15;
/** Of a spring where the file has no target, Hz: an example, not advice. */
const FREQUENCY = 1.5;
/** Width of a tyre that has no size, as a share of its radius. */
const TYRE_WIDTH = 0.58;

/** A corner, with what ends its travel. */
export interface Study {
  readonly file: ShownFile;
  readonly model: CornerModel;
  readonly found: Limits;
  /** The lengths that end its travel, mm: those of the file, or those that its sizing chose. */
  readonly damper: Sized['damper'];
  readonly bumpStop: { readonly height: number; readonly solidHeight: number } | null;
  /** From full droop to full bump, mm. */
  readonly low: number;
  readonly high: number;
  /** Through that travel, and a little farther. */
  readonly curves: Sweep<ColumnOf>;
  readonly tyre: { readonly radius: number; readonly width: number };
}

/**
 * Everything about the corner of a file; its curves go so many mm beyond its limits.
 *
 * @throws InputError for a corner whose motion is not determined.
 */
export function study(file: ShownFile, sized: Sized | null, beyond = BEYOND): Study {
  const { corner } = file.corner;
  const model = modelOf(corner);
  const ends = endsOf(file.corner, sized);
  const found = limits(corner, ends);
  const reach = (side: 'bump' | 'droop') => {
    const stop = found[side];
    return stop === null ? FARTHEST : Math.min(Math.abs(stop.travel), MOST);
  };
  const curves = sweep(corner, {
    bump: reach('bump') + beyond,
    droop: reach('droop') + beyond,
  });
  const { end } = curves;
  return {
    file,
    model,
    found,
    damper: ends.damper ?? null,
    bumpStop: ends.bumpStop ?? null,
    low: Math.max(-reach('droop'), end.droop.travel),
    high: Math.min(reach('bump'), end.bump.travel),
    curves,
    tyre: tyreOn(model, ends.tyre),
  };
}

/** What ends the travel. The heights of a bump stop count from the compressed length of the damper: without one it is left out. */
function endsOf({ limits: ends, ordered }: DocumentCorner, sized: Sized | null): DocumentCorner['limits'] {
  const { bumpStop: drawn, ...others } = ends;
  const damper = ordered?.damper ?? ends.damper ?? sized?.damper ?? undefined;
  if (damper === undefined) return others;
  const bumpStop = ordered?.bumpStop ?? drawn;
  const heights =
    bumpStop === undefined
      ? {}
      : { bumpStop: { height: bumpStop.height, solidHeight: bumpStop.solidHeight } };
  const { extendedLength, compressedLength } = damper;
  return { ...others, damper: { extendedLength, compressedLength }, ...heights };
}

function tyreOn(
  { drawing: { points }, wheelCentre, contactPatch }: CornerModel,
  tyre: DocumentCorner['limits']['tyre'],
) {
  const radius = points[wheelCentre][1] - points[contactPatch][1];
  const width = (typeof tyre === 'string' ? tyreFromSize(tyre) : tyre)?.width;
  return { radius, width: width ?? TYRE_WIDTH * radius };
}

/** The estimate by hand over the travel, with the mass and the frequency behind the geometric part of the wheel rate. */
export function handStudy({ file, low, high }: Study, sized: Sized | null) {
  const sprungMass = sized?.sprungMass ?? file.corner.sprungMass ?? null;
  const frequency = sized?.frequency ?? FREQUENCY;
  const load = sprungMass === null ? {} : { sprungMass, frequency };
  const hand = handMethod(file.corner.corner, { ...load, travel: { bump: high, droop: -low } });
  return { hand, sprungMass, frequency };
}

/** A corner at a travel. */
export interface CornerPose {
  /** Every point, mm. */
  readonly places: Readonly<Record<string, Point>>;
  /** The parts as closed lines. */
  readonly parts: readonly (readonly Point[])[];
  /** Joints, the wheel's centre and the mounts on the chassis. */
  readonly joints: readonly Point[];
  readonly wheel: Point;
  readonly ground: number;
  /** Degrees, top outboard positive. */
  readonly camber: number;
  readonly shock: { readonly outer: Point; readonly inner: Point };
  readonly shockLength: number;
  /** null at a dead point. */
  readonly ratio: number | null;
}

export function poseAt({ model, curves }: Pick<Study, 'model' | 'curves'>, travel: number): CornerPose {
  const row = curves.at(travel);
  const at = new Map<string, unknown>(Object.entries(row));
  const { shock, wheelCentre, contactPatch, drawing } = model;
  // What has no column does not move.
  const places = Object.fromEntries(
    Object.entries(drawing.points).map(([name, [y, z]]): [string, Point] => [
      name,
      [Number(at.get(`${name}Y`) ?? y), Number(at.get(`${name}Z`) ?? z)],
    ]),
  );
  const fixed = drawing.ground.filter((name) => name !== shock.inner);
  const joints = [...fixed, ...moving(model).filter((name) => name !== shock.outer), wheelCentre];
  return {
    places,
    parts: outlines(model, places),
    joints: joints.map((name) => places[name]),
    wheel: places[wheelCentre],
    ground: places[contactPatch][1],
    camber: row.camber,
    shock: { outer: places[shock.outer], inner: places[shock.inner] },
    shockLength: row.shockLength,
    ratio: row.installationRatio,
  };
}

/** A point that the reader can move. */
export interface Hardpoint {
  /** Its path in the corner of the file. */
  readonly path: string;
  /** Its name in the drawing. */
  readonly name: string;
  /** What it is, as a sentence goes on. */
  readonly label: string;
}

/** The ends of the coilover: the one that the wheel moves, and the other. */
export function shockEnds({ file, model }: Pick<Study, 'file' | 'model'>): readonly Hardpoint[] {
  const { corner } = file.corner;
  const { points } = KINDS[corner.kind].input;
  return [model.shock.outer, model.shock.inner].flatMap((name) => {
    const path = Object.entries<string>(points).find(([, point]) => point === name)?.[0];
    if (path === undefined) return [];
    const on = carrierOf(model, name);
    const part = path.startsWith('strut') ? 'strut' : 'coilover';
    const label =
      part === 'strut'
        ? `${on === null ? 'top mount' : 'lower end'} of the strut`
        : on === null
          ? 'chassis mount of the coilover'
          : `mount of the coilover on the ${spaced(on)}`;
    return [{ path, name, label }];
  });
}

/** Where a point of a part lies in the drawn pose, if in another pose it lies at `place`. */
export function drawnBack(
  model: CornerModel,
  body: string | null,
  places: CornerPose['places'],
  place: Point,
): Point {
  return moved(model, body, places, place, true);
}

/** Where a point of a part, given as drawn, lies in a pose; one of the chassis stays. */
export function movedWith(
  model: CornerModel,
  body: string | null,
  places: CornerPose['places'],
  point: Point,
): Point {
  return moved(model, body, places, point, false);
}

function moved(
  { drawing: { bodies, points } }: CornerModel,
  body: string | null,
  places: CornerPose['places'],
  point: Point,
  isBack: boolean,
): Point {
  if (body === null) return point;
  const [a, b] = bodies[body];
  const [from, to] = isBack ? [places, points] : [points, places];
  return carried(point, from[a], to[a], turnBetween(between(from[a], from[b]), between(to[a], to[b])));
}
