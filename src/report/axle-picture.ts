// An axle in a pose, seen from the front on a level road: the body leans, and each wheel stands where its own curve has it.

import type { AxleLinkage } from '../axle/axle.ts';
import { leverEndAt, leverOn } from '../axle/bar.ts';
import { type AxleRow, sweepAxle } from '../axle/sweep-axle.ts';
import { fault } from '../diagnostic.ts';
import { refusal } from '../errors/axle.ts';
import { refuse } from '../errors/report.ts';
import type { Point } from '../linkage/drawing.ts';
import { between, carried, turnBetween } from '../numerics/plane.ts';
import { DEGREES, type Units, unitName } from '../units.ts';
import { inFull } from './drawing.ts';
import { shownLength } from './in-units.ts';
import { HEAVY } from './labels.ts';
import { CORNER_LOOKS, lookFaults } from './looks.ts';
import { EDGE, heading, joint, LINE, type Paper, SMALL, THIN, WIDTH } from './marks.ts';
import { labelsAt, obstacles } from './names.ts';
import { type BodyEnd, type Scene, sceneOf, type WheelSizes } from './poses.ts';
import { type Element, element, line, type Picture, type Place, svgDocument, text } from './svg.ts';
import { figure, travelIn } from './text.ts';

/** Where an axle is drawn, and how; all optional. */
export interface DrawAxleOptions extends WheelSizes {
  /** mm, bump of both wheels positive; default 0. */
  readonly heave?: number;
  /** Degrees, left side up positive; default 0. */
  readonly roll?: number;
  /** Heading; default says what is shown. */
  readonly title?: string;
  /** Which end of the coilovers the body of the damper is at; default up. */
  readonly bodyEnd?: BodyEnd;
  /** Units of the labels; default metric. */
  readonly units?: Units;
}

/** The paper of an axle: its width, and whether it has a heading. */
export interface AxlePaper {
  readonly width: number;
  readonly hasHeading: boolean;
}

const WHOLE: AxlePaper = { width: WIDTH, hasHeading: true };

const SIDES = ['left', 'right'] as const;
type Side = (typeof SIDES)[number];

const SPRINGS = ['thirdSpring', 'rollSpring'] as const;
/** Weights of the lines of a drop link, and of a spring between both wheels. */
const LINK_WEIGHT = 2.6;
const SPRING_WEIGHT = 4;

const TOP = 84;
const SIDE_ROOM = 40;
const MOST_HEIGHT = 360;
/** From the road to the words below it, and from the words of a wheel to the middle of its column. */
const BELOW = 40;
/** How far the middle of the car is drawn above and below what moves, mm. */
const BEYOND = 60;

/**
 * An axle in a pose, seen from the front, as a self-contained SVG document in black and white: the left wheel is on the right. The road is
 * level, the body leans. The bar, where there is one, is shown by its drop links, the
 * springs between both wheels by lines.
 *
 * @throws InputError for a pose that a wheel does not get to, and as `sweepAxle`.
 */
export function drawAxle(axle: AxleLinkage, options: DrawAxleOptions = {}): string {
  refuse('options of drawAxle', lookFaults(options, [...CORNER_LOOKS, 'heave', 'roll']));
  return svgDocument(axlePicture(axle, options));
}

/** The picture behind `drawAxle`. */
export function axlePicture(
  axle: AxleLinkage,
  options: DrawAxleOptions,
  { width, hasHeading }: AxlePaper = WHOLE,
): Picture {
  const { heave = 0, roll = 0, units = 'metric' } = options;
  const { rows, outOfReach } = sweepAxle(axle, { heave: [heave], roll: [roll] });
  const [row] = rows();
  if (row === undefined) {
    throw refusal('axle picture', [fault('poseOutOfReach', '', { side: outOfReach[0].side })]);
  }
  const wheels = SIDES.map((side) => wheelOf(axle, side, row, options));
  const paper = paperFor(wheels, row, width, hasHeading ? TOP : EDGE);
  const title =
    options.title ?? `Axle at ${travelIn(heave, units)} of heave and ${figure(roll, 'deg')} deg of roll`;
  const ground = paper.onRoad([0, 0])[1];
  const below = table(row, ground + BELOW, units, width);
  const papers = wheels.map(({ side }) => paper.of(side));
  const around = wheels.map(({ scene }, w) => obstacles(scene, papers[w], []));
  return {
    width,
    height: below.bottom,
    title,
    content: [
      ...(hasHeading ? [heading(title), text(SUBTITLE, [EDGE, 60], { 'font-size': SMALL })] : []),
      line([SIDE_ROOM / 2, ground], [width - SIDE_ROOM / 2, ground], { ...THIN, 'stroke-width': 1.2 }),
      line(...paper.middle, { ...THIN, 'stroke-dasharray': '14 4 2 4' }),
      ...wheels.flatMap(({ scene, bar }, w) => [
        ...inFull(scene, papers[w]),
        ...(bar === null ? [] : pinned(bar.map(papers[w].to), LINK_WEIGHT)),
      ]),
      ...SPRINGS.flatMap((name) => {
        const ends = wheels.flatMap(({ springs }, w) => springs[name].map(papers[w].to));
        return ends.length === 0 ? [] : pinned(ends, SPRING_WEIGHT);
      }),
      ...rollCentre(row, paper, {
        lines: [
          ...around.flatMap(({ lines }) => lines),
          { from: paper.middle[0], to: paper.middle[1], weight: HEAVY },
        ],
        boxes: [],
        dots: around.flatMap(({ dots }) => dots),
      }),
      ...below.elements,
    ],
  };
}

const SUBTITLE =
  'Seen from the front: the left wheel is on the right. Positive roll is that of a left turn, with the right wheel outside.';

/** A wheel with its suspension in the pose, the ends of its drop link (with the axis of a bar along the car behind them) and of springs to the other wheel; points of the chassis as drawn, [y outboard, z]. */
interface Wheel {
  readonly side: Side;
  readonly scene: Scene;
  readonly bar: readonly Point[] | null;
  readonly springs: Readonly<Record<(typeof SPRINGS)[number], readonly Point[]>>;
}

function wheelOf(axle: AxleLinkage, side: Side, row: AxleRow, looks: DrawAxleOptions): Wheel {
  const whole = sceneOf(axle[side], [row[`${side}Travel`]], looks);
  const pose = whole.poses.find((one) => one !== whole.ride) ?? whole.ride;
  const scene = { ...whole, poses: [pose], ride: pose };
  const { bodies, points } = scene.model.drawing;
  const moved = ({ on, mount }: { readonly on: string; readonly mount: Point }): Point => {
    const [a, b] = bodies[on];
    const turn = turnBetween(between(points[a], points[b]), between(pose.points[a], pose.points[b]));
    return carried(mount, points[a], pose.points[a], turn);
  };
  const ofSpring = (name: (typeof SPRINGS)[number]) => {
    const spring = axle[name];
    return spring === null ? [] : [moved(spring[side])];
  };
  const springs = { thirdSpring: ofSpring('thirdSpring'), rollSpring: ofSpring('rollSpring') };
  if (axle.bar === null) return { side, scene, bar: null, springs };
  const lever = leverOn(axle.bar, side === 'left' ? 1 : -1);
  const end = leverEndAt(lever, (row[`${side}LeverAngle`] ?? 0) / DEGREES);
  const { axis } = lever;
  const mount = moved({ on: lever.on, mount: lever.linkMount });
  return { side, scene, bar: [mount, end, ...(axis === null ? [] : [axis])], springs };
}

/** The paper for a pose: from points of either side in the chassis, and from places on the road, to it. */
function paperFor(wheels: readonly Wheel[], row: AxleRow, width: number, top: number) {
  const [sin, cos] = [Math.sin(row.roll / DEGREES), Math.cos(row.roll / DEGREES)];
  const toRoad = (side: Side, [y, z]: Point): Point => {
    const left = side === 'left' ? y : -y;
    return [left * cos - z * sin, (z - row.heave) * cos + left * sin];
  };
  const all = wheels.flatMap(({ side, scene: { ride } }) =>
    [...Object.values(ride.points), ...ride.tyre].map((point) => toRoad(side, point)),
  );
  const half = Math.max(...all.map(([y]) => Math.abs(y)));
  const [low, high] = [Math.min(0, ...all.map(([, z]) => z)), Math.max(...all.map(([, z]) => z))];
  const scale = Math.min((width - 2 * SIDE_ROOM) / (2 * half), MOST_HEIGHT / (high - low));
  const onRoad = ([y, z]: Point): Place => [width / 2 + scale * y, top + scale * (high - z)];
  const bottom = top + scale * (high - low);
  return {
    frame: { x: 8, y: top, width: width - 16, height: onRoad([0, 0])[1] + 26 - top },
    onRoad,
    middle: [
      onRoad(toRoad('left', [0, high + row.heave])),
      onRoad(toRoad('left', [0, row.heave - BEYOND])),
    ] as const,
    of: (side: Side): Paper => ({
      to: (point) => onRoad(toRoad(side, point)),
      scale,
      top,
      right: width - SIDE_ROOM,
      bottom,
    }),
  };
}

/** What is pinned at its ends, one behind the other. */
function pinned(places: readonly Place[], weight: number): Element[] {
  return [
    ...places.slice(1).map((to, k) => line(places[k], to, { ...THIN, 'stroke-width': weight })),
    ...places.map((place) => joint(place, 3.4, 1.4)),
  ];
}

/** The roll centre, where it lies on the paper. */
function rollCentre(
  { rollCentreY: y, rollCentreHeight: z }: AxleRow,
  { onRoad, frame }: ReturnType<typeof paperFor>,
  around: Parameters<typeof labelsAt>[1],
): Element[] {
  if (y === null || z === null) return [];
  const [cx, cy] = onRoad([y, z]);
  if (cx < frame.x || cx > frame.x + frame.width || cy < frame.y || cy > frame.y + frame.height) return [];
  return [
    element('circle', { cx, cy, r: 5, fill: '#fff', stroke: '#000', 'stroke-width': 1.4 }),
    line([cx - 9, cy], [cx + 9, cy], THIN),
    line([cx, cy - 9], [cx, cy + 9], THIN),
    ...labelsAt([{ words: 'roll centre', anchor: [cx, cy], clear: 11, reach: 9 }], around, frame),
  ];
}

/** What each wheel does, below it. */
function table(
  row: AxleRow,
  top: number,
  units: Units,
  width: number,
): { elements: Element[]; bottom: number } {
  const length = unitName('length', units);
  const rows: readonly [string, (side: Side) => string][] = [
    ['travel', (side) => travelIn(row[`${side}Travel`], units)],
    ['shock length', (side) => `${figure(shownLength(row[`${side}ShockLength`], units), length)} ${length}`],
    ['installation ratio', (side) => figure(row[`${side}InstallationRatio`], '')],
    ['camber to the road', (side) => `${figure(row[`${side}Camber`], 'deg')} deg`],
  ];
  const columns = { right: width / 6, left: (5 * width) / 6 } as const;
  const centred = (words: string, [x, y]: Place, more = {}) =>
    text(words, [x, y], { 'font-size': SMALL, 'text-anchor': 'middle', ...more });
  return {
    elements: [
      ...SIDES.map((side) => centred(`${side} wheel`, [columns[side], top], { 'font-weight': 'bold' })),
      ...rows.flatMap(([words, of], k) => {
        const y = top + (k + 1) * LINE;
        return [
          centred(words, [width / 2, y]),
          ...SIDES.map((side) => centred(of(side), [columns[side], y])),
        ];
      }),
    ],
    bottom: top + rows.length * LINE + 18,
  };
}
