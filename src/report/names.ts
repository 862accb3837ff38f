// Points and bodies named by the trade's words, beside the ride pose.

import type { CornerModel } from '../corner/model.ts';
import type { Point } from '../linkage/drawing.ts';
import { spaced } from '../words.ts';
import { type Box, type Obstacles, placeLabels } from './labels.ts';
import { acrossFrom, type Paper, rimmed, SIZE, springRadius, THIN } from './marks.ts';
import { hull, middle, moving, outlines, type Scene, shortestShock, slides } from './poses.ts';
import { type Element, line, type Place } from './svg.ts';
import { textWidth } from './text.ts';

/** Cost of hiding a unit of line behind a label: of the ride pose, of anything else. */
const HEAVY = 1.5;
const LIGHT = 0.5;
/** Room that a label leaves around a joint, around the middle of a body, beside the spring. */
const JOINT_ROOM = 8;
const BODY_ROOM = 4;
const SPRING_ROOM = 3;

/** Labels of all points, bodies and slides within a frame, clear of what is already written. */
export function nameLabels(scene: Scene, paper: Paper, written: readonly Box[], frame: Box): Element[] {
  const { model, ride, poses } = scene;
  const { to, scale } = paper;
  const { points } = ride;
  const { bodies } = model.drawing;
  const { inner, outer } = model.shock;
  const named: { name: string; anchor: Place; clear: number }[] = [
    ...Object.keys(points).map((point) => ({
      name: pointName(model, point),
      anchor: to(points[point]),
      clear: JOINT_ROOM,
    })),
    ...Object.keys(bodies).map((body) => {
      const shown = bodies[body].filter((point) => point !== model.contactPatch);
      return { name: spaced(body), anchor: to(middle(hull(shown.map((p) => points[p])))), clear: BODY_ROOM };
    }),
    ...slides(model).map(({ name, ends: [a, b] }) => ({
      name: spaced(name),
      anchor: to(middle([points[a], points[b]])),
      clear: BODY_ROOM,
    })),
    {
      name: 'shock',
      anchor: to(middle([points[inner], points[outer]])),
      clear: springRadius(shortestShock(model, poses) * scale, scale) + SPRING_ROOM,
    },
  ];
  const labels = named.map(({ name, ...where }) => ({ words: name, ...where }));
  return labelsAt(labels, obstacles(scene, paper, written), frame);
}

/** Words to stand near a place, so far clear of it. */
export interface Label {
  readonly words: string;
  readonly anchor: Place;
  readonly clear: number;
}

/** Labels where they cover the least, with a line to what they are about where they stand far from it. */
export function labelsAt(labels: readonly Label[], around: Obstacles, frame: Box): Element[] {
  const wishes = labels.map(({ words, ...where }) => ({
    ...where,
    width: textWidth(words, SIZE),
    height: SIZE + 2,
  }));
  return placeLabels(wishes, around, frame).flatMap(({ box, leader }, k) => [
    ...(leader === null ? [] : [line(...leader, THIN)]),
    rimmed(labels[k].words, [box.x, box.y + SIZE - 1.5], SIZE),
  ]);
}

/** A point by the part it plays. */
export function pointName({ drawing, shock, kingpin, ...model }: CornerModel, point: string): string {
  const { bodies, ground } = drawing;
  const body = Object.keys(bodies).find((name) => bodies[name].includes(point));
  if (point === model.wheelCentre) return 'wheel centre';
  if (point === model.contactPatch) return 'contact patch';
  if (point === kingpin?.lower || point === kingpin?.upper) {
    if (ground.includes(point)) return spaced(point);
    return point === kingpin.lower ? 'lower ball joint' : 'upper ball joint';
  }
  if (point === shock.inner || point === shock.outer) {
    return `shock mount, ${body === undefined ? 'chassis' : spaced(body)}`;
  }
  return ground.includes(point) && body !== undefined ? `${spaced(body)} pivot` : spaced(point);
}

/** What labels should not cover. */
export function obstacles({ model, poses, ride }: Scene, paper: Paper, written: readonly Box[]): Obstacles {
  const { to, scale, top, bottom } = paper;
  const { inner, outer } = model.shock;
  const lines: { from: Place; to: Place; weight: number }[] = [];
  const addLine = (from: Place, end: Place, weight: number) => lines.push({ from, to: end, weight });
  const addOutline = (outline: readonly Point[], weight: number) =>
    outline.forEach((point, k) => addLine(to(point), to(outline[(k + 1) % outline.length]), weight));

  for (const pose of poses) {
    const { points, tyre } = pose;
    const weight = pose === ride ? HEAVY : LIGHT;
    for (const outline of outlines(model, points)) addOutline(outline, weight);
    addOutline(tyre, weight);
    addLine(to(points[inner]), to(points[outer]), weight);
  }
  addOutline(ride.rim, LIGHT);

  const [eye, foot] = [to(ride.points[inner]), to(ride.points[outer])];
  const shockAt = acrossFrom(eye, foot);
  const length = Math.hypot(foot[0] - eye[0], foot[1] - eye[1]);
  const spring = springRadius(shortestShock(model, poses) * scale, scale);
  for (const side of [-spring, -spring / 2, 0, spring / 2, spring]) {
    addLine(shockAt(0.1 * length, side), shockAt(0.9 * length, side), HEAVY);
  }

  const patch = ride.points[model.contactPatch];
  addLine(to([0, patch[1]]), to(patch), HEAVY);
  const [centreline] = to([0, 0]);
  addLine([centreline, top], [centreline, bottom], HEAVY);
  const dots = poses.flatMap((pose) =>
    (pose === ride ? Object.keys(pose.points) : moving(model)).map((name) => ({
      at: to(pose.points[name]),
      weight: pose === ride ? 1 : 0.4,
    })),
  );
  return { lines, boxes: written, dots };
}
