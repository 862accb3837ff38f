// The travel path of a corner: the path of its linkage from the lowest to the highest place of the contact patch. A pose on it
// is known by its piece and the arc length in that, by which every measure is smooth, dead points included.

import { bindMeasure, type Measure } from '../../linkage/measure.ts';
import { tracePath } from '../../linkage/motion.ts';
import type { Path } from '../../linkage/path.ts';
import { FIRST, READING, reader, readPlace, readPlacesOf } from '../../linkage/reader.ts';
import { compile } from '../../linkage/system.ts';
import type { CornerModel } from '../model.ts';

/** What was asked for of one pose: each value, and after it its derivative by arc length. */
export type Pose = Float64Array;

/** Asks for a measure; returns where its value will stand in a pose. */
export type Ask = (measure: Measure) => number;

/** Where the travel stands in a pose: the contact patch's height above that as drawn, mm. */
export const TRAVEL = 0;

/** A corner's path, with what is to be read of its poses. */
export interface TravelPath {
  readonly path: Path;
  /** Index of the piece that holds the drawn pose, at 0. */
  readonly start: number;
  readonly drawn: Pose;
  /** The pose at a local arc length of a piece. Kept: do not write to it. */
  poseAt(piece: number, s: number): Pose;
  /** Reads poses of a piece together, which costs less than one by one, and keeps them for `poseAt`. */
  readAhead(piece: number, s: Float64Array): void;
}

/** The last travel path of each model, by the measures that were asked for. */
const laid = new WeakMap<CornerModel, { readonly key: string; readonly course: TravelPath }>();

/** Lays the travel path of a corner; `plan` asks for what will be read of it. */
export function layTravelPath<T>(
  model: CornerModel,
  plan: (ask: Ask) => T,
): { course: TravelPath; planned: T } {
  const system = compile(model.drawing);
  const travel: Measure = { y: model.contactPatch };
  const measures: Measure[] = [travel];
  const keys = [JSON.stringify(travel)];
  const planned = plan((measure) => {
    const key = JSON.stringify(measure);
    const known = keys.indexOf(key);
    if (known >= 0) return 2 * known;
    measures.push(measure);
    return 2 * (keys.push(key) - 1);
  });
  const key = keys.join();
  const before = laid.get(model);
  if (before?.key === key) return { course: before.course, planned };
  const bound = measures.map((measure) => bindMeasure(system, measure, 'measure'));
  const path = tracePath(system, bound[0], Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  const r = reader(path, bound);
  const ground = model.drawing.points[model.contactPatch][1];
  const kept = path.pieces.map(() => new Map<number, Pose>());
  const poseIn = (row: number): Pose => {
    const pose = new Float64Array(2 * bound.length);
    for (let i = 0; i < bound.length; i++) {
      pose[2 * i] = r.m[i * READING + row];
      pose[2 * i + 1] = r.m[i * READING + FIRST + row];
    }
    pose[TRAVEL] -= ground;
    return pose;
  };
  const poseAt = (piece: number, s: number): Pose => {
    const known = kept[piece].get(s);
    if (known !== undefined) return known;
    readPlace(r, piece, s);
    const pose = poseIn(0);
    kept[piece].set(s, pose);
    return pose;
  };
  const readAhead = (piece: number, s: Float64Array) => {
    const missing = s.filter((place) => !kept[piece].has(place));
    if (missing.length === 0) return;
    readPlacesOf(r, piece, missing);
    missing.forEach((place, row) => {
      kept[piece].set(place, poseIn(row));
    });
  };
  const start = path.pieces.findIndex(({ origin }) => origin === 0);
  const travelPath = { path, start, drawn: poseAt(start, 0), poseAt, readAhead };
  laid.set(model, { key, course: travelPath });
  return { course: travelPath, planned };
}
