// Points and bodies named by the trade's words, beside the ride pose.

import type { CornerModel } from '../corner/model.ts';
import type { Point } from '../linkage/drawing.ts';
import { distance } from '../numerics/plane.ts';
import { spaced } from '../words.ts';
import { type Box, HEAVY, type Obstacles, placeLabels } from './labels.ts';
import { acrossFrom, type Paper, rimmed, SIZE, springRadius, THIN } from './marks.ts';
import {
  hull,
  isStrut,
  middle,
  moving,
  outlines,
  paths,
  type Scene,
  shortestShock,
  slides,
} from './poses.ts';
import { type Element, element, line, type Place } from './svg.ts';
import { textWidth } from './text.ts';

/** Weights of the lines of other poses, and of paths and pale lines. */
const LIGHT = 1;
const LEAST = 0.3;
/** Room that a label leaves around a joint, around the middle of a body, beside the spring. */
const JOINT_ROOM = 8;
const BODY_ROOM = 4;
const SPRING_ROOM = 3;
/** How near leaders go to a joint and to a pivot; those to a body end in a dot on it. */
const JOINT_REACH = 5.2;
const PIVOT_REACH = 7.4;
const DOT = 2.2;
/** How far the ground line of a pose goes inboard of its contact patch at most. */
const GROUND = 110;

/** Labels of all points, bodies and slides, and `more`, within a frame, clear of what is already written. */
export function nameLabels(
  scene: Scene,
  paper: Paper,
  more: readonly Label[],
  written: readonly Box[],
  frame: Box,
): Element[] {
  const { model, ride, poses } = scene;
  const { to, scale } = paper;
  const { points } = ride;
  const { bodies } = model.drawing;
  const { inner, outer } = model.shock;
  const onParts: Label[] = [
    ...Object.keys(bodies).map((body) => {
      const shown = bodies[body].filter((point) => point !== model.contactPatch);
      return { words: spaced(body), anchor: to(middle(hull(shown.map((p) => points[p])))), clear: BODY_ROOM };
    }),
    ...slides(model).map(({ name, ends: [a, b] }) => ({
      words: spaced(name),
      anchor: to(middle([points[a], points[b]])),
      clear: BODY_ROOM,
    })),
    {
      words: isStrut(model) ? 'strut' : 'coilover',
      anchor: to(middle([points[inner], points[outer]])),
      clear: springRadius(shortestShock(model, poses) * scale, scale) + SPRING_ROOM,
    },
  ];
  const labels = [
    ...Object.keys(points).map((point) => ({
      words: pointName(model, point),
      anchor: to(points[point]),
      clear: JOINT_ROOM,
      reach: reachOf(model, point),
    })),
    ...onParts.map((label) => ({ ...label, dot: true })),
    ...more,
  ];
  const around = obstacles(scene, paper, written);
  const dots = [...around.dots, ...onParts.map(({ anchor }) => ({ at: anchor, weight: 1 }))];
  return labelsAt(labels, { ...around, dots }, frame);
}

/** How near a leader goes to a point: to the edge of its mark. */
export function reachOf({ drawing, wheelCentre, contactPatch }: CornerModel, point: string): number {
  if (drawing.ground.includes(point)) return PIVOT_REACH;
  return point === wheelCentre || point === contactPatch ? 0 : JOINT_REACH;
}

/** Words to stand near a place, so far clear of it; a leader ends `reach` before it, or in a dot. */
export interface Label {
  readonly words: string;
  readonly anchor: Place;
  readonly clear: number;
  readonly reach?: number;
  readonly dot?: boolean;
}

/** Labels where they cover the least, with a line to what they are about where they stand far from it. */
export function labelsAt(labels: readonly Label[], around: Obstacles, frame: Box): Element[] {
  const wishes = labels.map(({ words, dot, ...where }) => ({
    ...where,
    width: textWidth(words, SIZE),
    height: SIZE + 2,
  }));
  const placed = placeLabels(wishes, around, frame);
  // Leaders first: no rim of a label hides a leader to another.
  return [
    ...placed.flatMap(({ leader }, k) => {
      if (leader === null) return [];
      const [cx, cy] = labels[k].anchor;
      return [line(...leader, THIN), ...(labels[k].dot ? [element('circle', { cx, cy, r: DOT })] : [])];
    }),
    ...placed.map(({ box }, k) => rimmed(labels[k].words, [box.x, box.y + SIZE - 1.5], SIZE)),
  ];
}

/** A point by the part it plays. */
export function pointName(model: CornerModel, point: string): string {
  const { drawing, shock, kingpin, rocker } = model;
  const { bodies, ground } = drawing;
  const body = Object.keys(bodies).find((name) => bodies[name].includes(point));
  if (point === model.wheelCentre) return 'wheel centre';
  if (point === model.contactPatch) return 'contact patch';
  if (point === kingpin?.lower || point === kingpin?.upper) {
    if (ground.includes(point)) return spaced(point);
    return point === kingpin.lower ? 'lower ball joint' : 'upper ball joint';
  }
  if (point === rocker?.rod.inner) return 'rod at the rocker';
  if (isStrut(model) && point === shock.outer) return 'strut, lower end';
  if (point === shock.inner || point === shock.outer) {
    return `shock mount, ${body === undefined ? 'chassis' : spaced(body)}`;
  }
  return ground.includes(point) && body !== undefined ? `${spaced(body)} pivot` : spaced(point);
}

/** What labels should not cover. */
export function obstacles(scene: Scene, paper: Paper, written: readonly Box[]): Obstacles {
  const { model, poses, ride } = scene;
  const { to, scale, top, right, bottom } = paper;
  const { inner, outer } = model.shock;
  const lines: { from: Place; to: Place; weight: number }[] = [];
  const addLine = (from: Place, end: Place, weight: number) => lines.push({ from, to: end, weight });
  const addOutline = (outline: readonly Point[], weight: number, isClosed = true) =>
    outline.forEach((point, k) => {
      if (isClosed || k > 0) addLine(to(outline.at(k - 1) ?? point), to(point), weight);
    });

  for (const pose of poses) {
    const { points, tyre } = pose;
    const weight = pose === ride ? HEAVY : LIGHT;
    for (const outline of outlines(model, points)) addOutline(outline, weight);
    addOutline(tyre, weight);
    addLine(to(points[inner]), to(points[outer]), weight);
    const [patchX, patchY] = to(points[model.contactPatch]);
    addLine([pose === ride ? to([0, 0])[0] : patchX - GROUND, patchY], [right, patchY], weight);
  }
  for (const path of paths(scene)) addOutline(path, LEAST, false);
  addOutline(ride.rim, LIGHT);

  const [eye, foot] = [to(ride.points[inner]), to(ride.points[outer])];
  const shockAt = acrossFrom(eye, foot);
  const length = distance(eye, foot);
  const spring = springRadius(shortestShock(model, poses) * scale, scale);
  for (const side of [-spring, -spring / 2, 0, spring / 2, spring]) {
    addLine(shockAt(0.1 * length, side), shockAt(0.9 * length, side), HEAVY);
  }

  const [centreline] = to([0, 0]);
  addLine([centreline, top - 22], [centreline, bottom + 14], HEAVY);
  const dots = poses.flatMap((pose) =>
    (pose === ride ? Object.keys(pose.points) : moving(model)).map((name) => ({
      at: to(pose.points[name]),
      weight: pose === ride ? 1 : 0.4,
    })),
  );
  return { lines, boxes: written, dots };
}
