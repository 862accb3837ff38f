// The forces of a load case as arrows on the corner where it stands: each begins where it acts and is as long as it is large, all
// to one scale, which is stated.

import type { CaseForces } from '../coilover/forces/corner-forces.ts';
import type { Corner } from '../corner/corner.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Point } from '../linkage/drawing.ts';
import { fromMetric, type Units, unitName } from '../units.ts';
import { spaced } from '../words.ts';
import { inFull, paperFor, type Room } from './drawing.ts';
import { HEAVY } from './labels.ts';
import { CORNER_LOOKS, lookFaults } from './looks.ts';
import { EDGE, heading, LINE, type Paper, SMALL, THIN, WIDTH } from './marks.ts';
import { labelsAt, obstacles } from './names.ts';
import { type BodyEnd, sceneOf, type WheelSizes } from './poses.ts';
import { type Element, element, line, type Place, svgDocument, text, through } from './svg.ts';
import { travelIn } from './text.ts';
import { roundStep } from './ticks.ts';

/** As far as arrows can go beyond what they stand on. */
function roomFor(arrows: readonly Arrow[], scale: number): Room {
  const most = (way: (force: Point) => number) =>
    scale * Math.max(0, ...arrows.map(({ force }) => way(force)));
  return {
    left: most(([y]) => -y),
    right: most(([y]) => y),
    above: most(([, z]) => z),
    below: most(([, z]) => -z),
  };
}

/** A force to be drawn, in the picture's unit. */
interface Arrow {
  readonly what: string;
  readonly point: string;
  readonly force: Point;
}

/** The longest arrow on the paper, and the head of each. */
const LONGEST = 150;
const HEAD = 9;
/** Forces below this fraction of the largest are in the table, not drawn. */
const SMALLEST = 0.005;
/** How strongly the corner is drawn behind its forces. */
const PALE = 0.4;
/** Where the heading ends. */
const HEADER = 70;

/**
 * The forces of a load case on its corner, as a self-contained SVG document: of the ground on the tyre, of the arms and the
 * coilover on the upright, and of all on the chassis, with a table in N, or lbf for `imperial`. Arrows are to one scale.
 */
export function drawForces(
  corner: Corner,
  one: CaseForces,
  options: WheelSizes & { readonly title?: string; readonly bodyEnd?: BodyEnd; readonly units?: Units } = {},
): string {
  refuseOtherThan('load case', one);
  refuse('options of drawForces', lookFaults(options, CORNER_LOOKS));
  const { units = 'metric' } = options;
  const whole = sceneOf(corner, [one.travel], options);
  const pose = whole.poses.find((pose) => pose !== whole.ride) ?? whole.ride;
  const scene = { ...whole, poses: [pose], ride: pose };
  const inShown = (newton: number) => fromMetric(newton, 'force', units);
  const arrows = arrowsOf(one, scene.model.upright, scene.model.contactPatch).map((one) => ({
    ...one,
    force: [inShown(one.force[0]), inShown(one.force[1])] as const,
  }));
  const most = Math.max(1, ...arrows.map(({ force }) => Math.hypot(force[0], force[1])));
  const step = roundStep(most / 4);
  const scale = LONGEST / most;
  const paper = paperFor([pose], roomFor(arrows, scale));
  const drawn = arrows.filter(({ force }) => Math.hypot(force[0], force[1]) >= SMALLEST * most);
  const lines = drawn.map(({ point, force }) => {
    const [x, y] = paper.to(pose.points[point]);
    return { from: [x, y] as Place, to: [x + scale * force[0], y - scale * force[1]] as Place };
  });
  const title = options.title ?? `Forces: ${one.name}, travel ${travelIn(one.travel, units)}`;
  const unit = unitName('force', units);
  const below = table(arrows, paper.bottom + 40, step, scale, unit);
  return svgDocument({
    width: WIDTH,
    height: below.bottom,
    title,
    content: [
      heading(title),
      text(SUBTITLE, [EDGE, 60], { 'font-size': SMALL }),
      element('g', { opacity: PALE }, ...inFull(scene, paper)),
      ...lines.flatMap(({ from, to }) => arrow(from, to)),
      ...sizes(drawn, lines, paper, obstacles(scene, paper, []), unit),
      ...below.elements,
    ],
  });
}

const SUBTITLE =
  'Seen from the front, left-hand wheel. Arrows: forces on upright and chassis, from where they act, to one scale.';

function arrowsOf({ tyre, on, chassis }: CaseForces, upright: string, contactPatch: string): Arrow[] {
  const parts = (point: string) =>
    Object.keys(on).filter((body) => body !== upright && on[body][point] !== undefined);
  const onUpright = Object.entries(on[upright] ?? {}).flatMap(([point, force]): Arrow[] => {
    const from = parts(point);
    return force === null || from.length === 0
      ? []
      : [{ what: `${spaced(from.join(', '))} on upright`, point, force }];
  });
  const onChassis = Object.entries(chassis).flatMap(([point, force]): Arrow[] =>
    force === null ? [] : [{ what: `${spaced(point)} on chassis`, point, force }],
  );
  return [
    ...(tyre === null ? [] : [{ what: 'ground on tyre', point: contactPatch, force: tyre }]),
    ...onUpright,
    ...onChassis,
  ];
}

function arrow([x, y]: Place, [tx, ty]: Place): Element[] {
  const length = Math.hypot(tx - x, ty - y);
  const [ux, uy] = [(tx - x) / length, (ty - y) / length];
  const base: Place = [tx - HEAD * ux, ty - HEAD * uy];
  const side = 0.36 * HEAD;
  return [
    line([x, y], base, { stroke: '#000', 'stroke-width': 2.2 }),
    element('path', {
      d: through(
        [
          [tx, ty],
          [base[0] - side * uy, base[1] + side * ux],
          [base[0] + side * uy, base[1] - side * ux],
        ],
        true,
      ),
    }),
  ];
}

function sizes(
  arrows: readonly Arrow[],
  lines: readonly { from: Place; to: Place }[],
  paper: Paper,
  around: ReturnType<typeof obstacles>,
  unit: string,
): Element[] {
  const labels = arrows.map(({ force }, k) => ({
    words: `${Math.hypot(force[0], force[1]).toFixed(0)} ${unit}`,
    anchor: lines[k].to,
    clear: 6,
  }));
  const heavy = lines.map(({ from, to }) => ({ from, to, weight: HEAVY }));
  const frame = { x: 8, y: HEADER, width: WIDTH - 16, height: paper.bottom + 24 - HEADER };
  return labelsAt(labels, { ...around, lines: [...around.lines, ...heavy] }, frame);
}

/** Right edges of the table's columns. */
const COLUMNS = [430, 530, 630];

/** The scale, and the forces in figures. */
function table(
  arrows: readonly Arrow[],
  top: number,
  step: number,
  scale: number,
  unit: string,
): { elements: Element[]; bottom: number } {
  const right = { 'font-size': SMALL, 'text-anchor': 'end' };
  const bar = step * scale;
  const rows = arrows.map(({ what, force: [y, z] }, k) => {
    const at = top + 64 + k * LINE;
    const figures = [y, z, Math.hypot(y, z)].map((value) => (Math.round(value) + 0).toFixed(0));
    return [
      text(what, [EDGE, at], { 'font-size': SMALL }),
      ...figures.map((value, c) => text(value, [COLUMNS[c], at], right)),
    ];
  });
  const titles = ['y', 'z', 'magnitude'].map((name) => `${name} [${unit}]`);
  return {
    elements: [
      line([EDGE, top], [EDGE + bar, top], { stroke: '#000', 'stroke-width': 2.2 }),
      text(`${step.toFixed(0)} ${unit}`, [EDGE + bar + 8, top + 4], { 'font-size': SMALL }),
      text('force (y outboard, z up)', [EDGE, top + 42], { 'font-size': SMALL }),
      ...titles.map((title, c) => text(title, [COLUMNS[c], top + 42], right)),
      line([EDGE, top + 48], [COLUMNS[2], top + 48], THIN),
      ...rows.flat(),
    ],
    bottom: top + 64 + arrows.length * LINE + 12,
  };
}
