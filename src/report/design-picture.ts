// A design over the corner that it was made from: the new one in full lines, the old one pale behind it, the boxes that mounts could
// be in, and what it comes to in a table.

import type { Corner } from '../corner/corner.ts';
import type { Design, MovedMount } from '../design/result.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Point } from '../linkage/drawing.ts';
import { goalText, objectiveLabel, objectiveText } from '../sentences/designed.ts';
import { sentence } from '../sentences/sentence.ts';
import { fromMetric, type Units, unitName } from '../units.ts';
import { figure, spaced } from '../words.ts';
import { inFull, paperFor } from './drawing.ts';
import { HEAVY } from './labels.ts';
import { CORNER_LOOKS, lookFaults } from './looks.ts';
import { EDGE, FAINT, heading, joint, LINE, type Paper, SMALL, THIN, WIDTH } from './marks.ts';
import { labelsAt, obstacles, reachOf } from './names.ts';
import { type BodyEnd, type Pose, type Scene, sceneOf, type WheelSizes } from './poses.ts';
import { type Element, element, line, type Place, svgDocument, text, through } from './svg.ts';

/** How strongly the old corner is drawn. */
const PALE = 0.35;
/** Where the heading ends. */
const HEADER = 70;
/** Room for labels above and below the drawing. */
const AROUND = 26;

/**
 * A design and the corner that it was made from, as a self-contained SVG document: both at design ride height, the boxes of the
 * mounts, how far each moved, and the objectives with their values as drawn and now; in `units`, metric if left out.
 */
export function drawDesign(
  corner: Corner,
  made: Design,
  options: WheelSizes & { readonly title?: string; readonly bodyEnd?: BodyEnd; readonly units?: Units } = {},
): string {
  refuseOtherThan('design', made);
  refuse('options of drawDesign', lookFaults(options, CORNER_LOOKS));
  const [old, scene] = [corner, made.corner].map((one) => sceneOf(one, [0], options));
  const { units = 'metric' } = options;
  const boxes = Object.values(made.mounts).map(cornersOf);
  const shown: Pose = {
    ...old.ride,
    points: { ...old.ride.points, ...Object.fromEntries(boxes.flat().map((at, k) => [String(k), at])) },
  };
  const paper = paperFor([scene.ride, shown], { left: 0, right: 0, above: AROUND, below: AROUND });
  const title = options.title ?? 'Mounts moved: as drawn (pale), and as designed';
  const below = table(made, units, paper.bottom + 30);
  return svgDocument({
    width: WIDTH,
    height: below.bottom,
    title,
    content: [
      heading(title),
      text(SUBTITLE, [EDGE, 60], { 'font-size': SMALL }),
      element('g', { opacity: PALE }, ...inFull(old, paper)),
      ...inFull(scene, paper),
      ...boxes.map((box) =>
        element('path', { ...FAINT, 'stroke-dasharray': '5 3', d: through(box.map(paper.to), true) }),
      ),
      ...Object.values(made.mounts).flatMap(({ from, to }) => way(paper.to(from), paper.to(to))),
      ...ways(made, units, old, scene, paper),
      ...below.elements,
    ],
  });
}

const SUBTITLE =
  'Seen from the front, left-hand wheel, at design ride height. Pale: as drawn. Dashed: where the mounts may be. y outboard, z up.';

/** Corners of a mount's box; of a coordinate that could not move just that. */
function cornersOf({ from, box }: MovedMount): Point[] {
  const [[y0, y1], [z0, z1]] = [box.y ?? [from[0], from[0]], box.z ?? [from[1], from[1]]];
  return [
    [y0, z0],
    [y1, z0],
    [y1, z1],
    [y0, z1],
  ];
}

/** From the old place to the new. */
function way(from: Place, to: Place): Element[] {
  return [
    joint(from, 3.2, 1),
    line(from, to, { stroke: '#000', 'stroke-width': 1.2, 'stroke-dasharray': '2 2' }),
  ];
}

/** How far each mount went, beside its new place. */
function ways({ mounts }: Design, units: Units, old: Scene, scene: Scene, paper: Paper): Element[] {
  const signed = (mm: number) => `${mm >= 0 ? '+' : ''}${lengthFigure(mm, units)}`;
  const all = Object.entries(mounts);
  const labels = all.map(([name, { from, to }]) => ({
    words: `${spaced(name)}: y ${signed(to[0] - from[0])}, z ${signed(to[1] - from[1])} ${unitName('length', units)}`,
    anchor: paper.to(to),
    clear: 9,
    reach: reachOf(scene.model, name),
  }));
  const around = obstacles(scene, paper, []);
  const edges = all.flatMap(([, mount]) => {
    const box = cornersOf(mount).map(paper.to);
    return box.map((from, k) => ({ from, to: box[(k + 1) % box.length], weight: HEAVY }));
  });
  const clear = {
    ...around,
    lines: [...around.lines, ...obstacles(old, paper, []).lines, ...edges],
    dots: [...around.dots, ...all.map(([, { from }]) => ({ at: paper.to(from), weight: 1 }))],
  };
  const frame = { x: 8, y: HEADER, width: WIDTH - 16, height: paper.bottom + 16 - HEADER };
  return labelsAt(labels, clear, frame);
}

/** Right edges of the table's columns, and where the last one begins. */
const COLUMNS = [560, 660, 760];
const VERDICT = 776;

/** Goals, values as drawn and now; where the mounts are; what limits the design. */
function table(
  { objectives, mounts, active }: Design,
  units: Units,
  top: number,
): { elements: Element[]; bottom: number } {
  const small = { 'font-size': SMALL };
  const right = { ...small, 'text-anchor': 'end' };
  const length = (mm: number) => lengthFigure(mm, units);
  let at = top;
  const elements: Element[] = [];
  const row = (first: string, figures: readonly string[], last = '') => {
    elements.push(
      text(first, [EDGE, at], small),
      ...figures.map((one, c) => text(one, [COLUMNS[c], at], right)),
      ...(last === '' ? [] : [text(last, [VERDICT, at], small)]),
    );
    at += LINE;
  };
  const head = (...titles: Parameters<typeof row>) => {
    row(...titles);
    elements.push(line([EDGE, at - LINE + 6], [WIDTH - EDGE, at - LINE + 6], THIN));
    at += 6;
  };
  head('quantity', ['target', 'as drawn', 'new']);
  for (const { objective, initial, achieved, met } of objectives) {
    row(
      objectiveLabel(objective),
      [
        goalText(objective, units),
        ...[initial, achieved].map((value) => objectiveText(objective, value, units)),
      ],
      met ? 'met' : 'not met',
    );
  }
  at += LINE;
  head(`mount, y and z [${unitName('length', units)}]`, ['range', 'as drawn', 'new']);
  for (const [name, { from, to, box }] of Object.entries(mounts)) {
    for (const [axis, letter] of (['y', 'z'] as const).entries()) {
      const range = box[letter];
      if (range === undefined) continue;
      row(`${spaced(name)}, ${letter}`, [
        range.map(length).join(' to '),
        length(from[axis]),
        length(to[axis]),
      ]);
    }
  }
  if (active.length > 0) at += LINE;
  for (const one of active) row(sentence(one, units), []);
  return { elements, bottom: at + 6 };
}

/** A length in figures, without its unit: tenths of a mm, hundredths of an inch. */
function lengthFigure(mm: number, units: Units): string {
  return figure(fromMetric(mm, 'length', units), units === 'metric' ? 1 : 2);
}
