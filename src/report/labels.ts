// Placing labels beside the things they name. Each label tries places around its anchor, nearest first, and takes the
// cheapest: off the frame or on another label counts as forbidden, on heavy lines as bad, on light lines as a nuisance,
// far away as a pity. A few rounds over all labels let early ones give way to later ones.

import { distance } from '../numerics/plane.ts';
import type { Place } from './svg.ts';

/** A rectangle on the paper, from its upper left corner. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A straight piece of a line on the paper. */
export type Segment = readonly [from: Place, to: Place];

/** A label wanted: its size, what it names, how much room to leave around that, and how near a leader goes to it. */
export interface LabelWish {
  readonly width: number;
  readonly height: number;
  readonly anchor: Place;
  readonly clear: number;
  readonly reach?: number;
}

/** What labels should keep off. */
export interface Obstacles {
  /** Lines, with the cost of each unit of length hidden; those from `HEAVY` on are hidden only where nothing else can be done. */
  readonly lines: readonly { readonly from: Place; readonly to: Place; readonly weight: number }[];
  /** Things already labelled or written. */
  readonly boxes: readonly Box[];
  /** Points that should stay visible, and that leaders to others should keep away from, with their weight. */
  readonly dots: readonly { readonly at: Place; readonly weight: number }[];
}

/** Where a label stands, and the line from its anchor if it stands away. */
export interface PlacedLabel {
  readonly box: Box;
  readonly leader: Segment | null;
}

/** Weight of a line that no label may cover. */
export const HEAVY = 100;

const DISTANCES = [
  2, 5, 8, 12, 16, 21, 26, 32, 38, 45, 52, 61, 70, 81, 92, 106, 120, 137, 155, 177, 200, 230, 260,
];
const DIRECTIONS = 24;
const ROUNDS = 4;
/** Room between labels. */
const GAP = 6;
/** A label farther than this from its anchor has a leader. */
const NEAR = 11;
/** Costs, in units of a label's distance. */
const FORBIDDEN = 1e6;
const LEADER_ON_LABEL = 1e4;
/** Of a line that is hidden, as a length of it. */
const STRUCK = 40;
const LEADER_ON_LINE = 8;
const LEADER_NEAR_DOT = 60;
const DOT_HIDDEN = 80;

/** A place that a label might take; its leader and its cost are worked out only if it is tried. */
interface Option {
  readonly x: number;
  readonly y: number;
  /** Distance of the box from the anchor. */
  readonly away: number;
  place: PlacedLabel | null;
  /** Its cost by itself, or a lower bound of it. */
  atLeast: number;
  whole: boolean;
}

/** A place for each wish, in order; the same wishes always come out in the same places. */
export function placeLabels(wishes: readonly LabelWish[], obstacles: Obstacles, frame: Box): PlacedLabel[] {
  const options = wishes.map((wish) => candidates(wish, frame));
  const placeOf = (option: Option, { width, height, anchor, clear, reach = 0 }: LabelWish) => {
    if (option.place === null) {
      const box = { x: option.x, y: option.y, width, height };
      option.place = { box, leader: leaderTo(box, anchor, clear, reach) };
    }
    return option.place;
  };
  const chosen: (Option | undefined)[] = wishes.map(() => undefined);
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    wishes.forEach((wish, k) => {
      const others = chosen.flatMap((other, j) =>
        j === k || other === undefined ? [] : placeOf(other, wishes[j]),
      );
      const costOf = (option: Option, most: number) => {
        const place = placeOf(option, wish);
        if (!option.whole) {
          option.atLeast = fixedCost(place, wish, obstacles, most);
          option.whole = option.atLeast < most;
        }
        return option.atLeast < most ? option.atLeast + costAmong(place, others) : option.atLeast;
      };
      const before = chosen[k];
      let least = before === undefined ? Number.POSITIVE_INFINITY : costOf(before, Number.POSITIVE_INFINITY);
      for (const option of options[k]) {
        // No place costs less than it is away.
        if (option.away >= least) break;
        if (option.atLeast >= least) continue;
        const cost = costOf(option, least);
        if (cost >= least) continue;
        least = cost;
        chosen[k] = option;
      }
      moved ||= chosen[k] !== before;
    });
    if (!moved) break;
  }
  return chosen.map((option, k) => placeOf(option as Option, wishes[k]));
}

/** The best of some places for a label: on no other label, struck by as few lines as can be, and then the nearest. */
export function freest<Spot extends PlacedLabel & { readonly away: number }>(
  spots: readonly Spot[],
  lines: readonly Segment[],
  taken: readonly Box[],
): Spot {
  let [best, least] = [spots[0], Number.POSITIVE_INFINITY];
  for (const spot of [...spots].sort((a, b) => a.away - b.away)) {
    // No place costs less than it is away.
    if (spot.away >= least) break;
    const { box, leader, away } = spot;
    const isOn = taken.some(
      (other) => overlap(box, other) || (leader !== null && hidden(...leader, other) > 0),
    );
    const struck = lines.filter((one) => hidden(...one, padded(box)) > 0).length;
    const cost = away + LEADER_ON_LABEL * struck + (isOn ? FORBIDDEN : 0);
    if (cost < least) [best, least] = [spot, cost];
  }
  return best;
}

const TURNS: readonly Place[] = Array.from({ length: DIRECTIONS }, (_, k) => {
  const turn = (2 * Math.PI * k) / DIRECTIONS;
  return [Math.cos(turn), -Math.sin(turn)];
});

/** Places around the anchor, pushed back into the frame where they stick out, nearest first. */
function candidates({ width, height, anchor, clear }: LabelWish, frame: Box): Option[] {
  const places: Option[] = [];
  for (const distance of DISTANCES) {
    for (const [cos, sin] of TURNS) {
      // The box touches the circle of that distance with the side or corner that faces the anchor.
      const out = clear + distance;
      const left = anchor[0] + cos * out + width * (0.5 * softSign(cos) - 0.5);
      const top = anchor[1] + sin * out + height * (0.5 * softSign(sin) - 0.5);
      const x = within(left, frame.x, frame.x + frame.width - width);
      const y = within(top, frame.y, frame.y + frame.height - height);
      const away = distanceOf(x, y, width, height, anchor);
      places.push({ x, y, away, place: null, atLeast: 0, whole: false });
    }
  }
  return places.sort((a, b) => a.away - b.away);
}

/** -1 .. 1: which side of the anchor the box is on, with a gentle passage over the middle. */
function softSign(share: number): number {
  return within(2.5 * share, -1, 1);
}

function within(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}

function leaderTo(box: Box, anchor: Place, clear: number, reach: number): PlacedLabel['leader'] {
  const to: Place = [
    within(anchor[0], box.x, box.x + box.width),
    within(anchor[1], box.y, box.y + box.height),
  ];
  const length = distance(anchor, to);
  if (length <= clear + NEAR) return null;
  const share = reach / length;
  return [[anchor[0] + share * (to[0] - anchor[0]), anchor[1] + share * (to[1] - anchor[1])], to];
}

/** What a place costs by itself; not reckoned to its end once that is `most` or more. */
function fixedCost(
  { box, leader }: PlacedLabel,
  { anchor, clear }: LabelWish,
  obstacles: Obstacles,
  most: number,
): number {
  const { lines, boxes, dots } = obstacles;
  let cost = distanceOf(box.x, box.y, box.width, box.height, anchor);
  if (cost < clear) cost += FORBIDDEN;
  for (const { from, to, weight } of lines) {
    if (cost >= most) return cost;
    const length = hidden(from, to, padded(box));
    if (length > 0) cost += weight * (STRUCK + length);
    if (leader !== null && weight >= HEAVY && cross(leader, [from, to])) cost += LEADER_ON_LINE;
  }
  for (const other of boxes) {
    if (overlap(box, other)) cost += FORBIDDEN;
    if (leader !== null && hidden(...leader, other) > 0) cost += LEADER_ON_LABEL;
  }
  for (const { at, weight } of dots) {
    if (overlap(box, { x: at[0] - 4, y: at[1] - 4, width: 8, height: 8 })) cost += weight * DOT_HIDDEN;
    if (at[0] === anchor[0] && at[1] === anchor[1]) continue;
    if (leader !== null && distanceTo(at, leader) < 9) cost += weight * LEADER_NEAR_DOT;
  }
  return cost;
}

/** A box with the least room between words and a line. */
function padded({ x, y, width, height }: Box): Box {
  return { x: x - 3, y: y - 1, width: width + 6, height: height + 2 };
}

/** Distance of a box from a place, 0 where it covers it. */
function distanceOf(x: number, y: number, width: number, height: number, [px, py]: Place): number {
  const [dx, dy] = [Math.max(0, x - px, px - x - width), Math.max(0, y - py, py - y - height)];
  return Math.sqrt(dx * dx + dy * dy);
}

function costAmong({ box, leader }: PlacedLabel, others: readonly PlacedLabel[]): number {
  let cost = 0;
  for (const other of others) {
    if (overlap(box, other.box)) cost += FORBIDDEN;
    if (leader !== null && hidden(...leader, other.box) > 0) cost += LEADER_ON_LABEL;
    if (other.leader !== null && hidden(...other.leader, box) > 0) cost += LEADER_ON_LABEL;
    if (leader !== null && other.leader !== null && cross(leader, other.leader)) cost += LEADER_ON_LABEL;
  }
  return cost;
}

function overlap(a: Box, b: Box): boolean {
  return (
    a.x < b.x + b.width + GAP &&
    b.x < a.x + a.width + GAP &&
    a.y < b.y + b.height + GAP &&
    b.y < a.y + a.height + GAP
  );
}

/** Length of the line from a to b that lies in a box (Liang and Barsky 1984: cut by each side in turn). */
function hidden(a: Place, b: Place, { x, y, width, height }: Box): number {
  if (Math.max(a[0], b[0]) < x || Math.min(a[0], b[0]) > x + width) return 0;
  if (Math.max(a[1], b[1]) < y || Math.min(a[1], b[1]) > y + height) return 0;
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  let enter = 0;
  let leave = 1;
  if (dx !== 0) {
    const [left, right] = [(x - a[0]) / dx, (x + width - a[0]) / dx];
    enter = Math.max(enter, Math.min(left, right));
    leave = Math.min(leave, Math.max(left, right));
  }
  if (dy !== 0) {
    const [top, bottom] = [(y - a[1]) / dy, (y + height - a[1]) / dy];
    enter = Math.max(enter, Math.min(top, bottom));
    leave = Math.min(leave, Math.max(top, bottom));
  }
  return enter < leave ? (leave - enter) * Math.hypot(dx, dy) : 0;
}

function cross([a, b]: Segment, [c, d]: Segment): boolean {
  const side = (p: Place, q: Place, r: Place) =>
    Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function distanceTo(point: Place, [a, b]: Segment): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const along = within(((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / (dx * dx + dy * dy || 1), 0, 1);
  return Math.hypot(a[0] + along * dx - point[0], a[1] + along * dy - point[1]);
}
