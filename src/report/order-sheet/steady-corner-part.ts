import { type AxleLinkage, axle as axleOf } from '../../axle/axle.ts';
import type { AxleRest, Equilibrium, WheelRest } from '../../axle/equilibrium.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import type { SteadyCorner } from '../../coilover/sizing/steady-corner.ts';
import { axleName } from '../../corner/axles.ts';
import { modelOf } from '../../corner/corner.ts';
import { sweep } from '../../corner/sweep.ts';
import { DEGREES } from '../../units.ts';
import { axleMapPicture } from '../axle-map.ts';
import { axlePicture } from '../axle-picture.ts';
import { SIZE } from '../marks.ts';
import type { PlotLayout } from '../plot.ts';
import { beside, element, type Picture, stacked, svgDocument, text } from '../svg.ts';
import { type Block, heading, paragraph, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** How the lateral force of an axle is shared, in words. */
const SPLITS = { proportional: 'by load', equal: 'half each' } as const;
/** Width of the pictures of an axle, two of which stand side by side on paper, and the layout of their maps. */
const COLUMN = 440;
const MAP: PlotLayout = {
  left: 50,
  words: 8,
  right: COLUMN - 24,
  top: 4,
  height: 200,
  between: 8,
  size: 12.5,
  small: 12,
  names: 'above',
};

/** What each wheel does in the fastest corner of the file; nothing where that is not known. */
export function steadyCornerPart({ steadyCorner, axles }: Sizing, paper: OnPaper): Block[] {
  if (steadyCorner === null) return [];
  const rested = (['proportional', 'equal'] as const).flatMap((split) => {
    const found = steadyCorner.bySplit[split];
    return found.status === 'rests' ? [{ split, found }] : [];
  });
  if (rested.length === 0) return [];
  const [{ found }] = rested;
  return [
    heading(2, 'In a steady corner'),
    paragraph(introduction(steadyCorner, found, paper)),
    table(
      'In a steady corner',
      [
        'axle and wheel',
        'lateral force',
        'travel, bump +',
        'to the bump stop',
        'to the limit',
        'shock length',
        'wheel load',
      ],
      axles.flatMap((sized) =>
        rested.flatMap(({ split, found }) => wheelRows(sized, found, SPLITS[split], paper)),
      ),
      [2, 3, 4, 5, 6],
    ),
    ...intervals(axles, paper),
    ...pictures(axles, found, steadyCorner, paper),
  ];
}

/** How uncertain the travel of each outer wheel is. */
function intervals(axles: readonly AxleSizing[], { both }: OnPaper): Block[] {
  const words = axles.flatMap(({ axle, figure }) => {
    const { value, lower, upper } = figure('outerWheelTravel');
    return value === null || lower === null || upper === null
      ? []
      : [
          `${axleName(axle).toLowerCase()} ${both(value, 'length')}, 95 % interval ${both(lower, 'length')} to ${both(upper, 'length')}`,
        ];
  });
  return words.length === 0
    ? []
    : [
        paragraph(
          `Travel of the outer wheel without bump stop and damper ends, which the required travel counts: ${words.join('; ')}.`,
        ),
      ];
}

function introduction(
  { lateralAcceleration, speed }: SteadyCorner,
  { roll, frontTransferFraction }: Equilibrium,
  paper: OnPaper,
): string {
  const pressed = speed === null ? '' : `, with the downforce of ${paper.both(speed, 'speed')}`;
  const share =
    frontTransferFraction === null
      ? ''
      : ` The front axle takes ${(100 * frontTransferFraction).toFixed(0)} % of the load transfer.`;
  return `A left turn of ${lateralAcceleration} g${pressed}: the right wheels are the outer ones. Travel counts from design ride height. The body rolls ${roll.toFixed(2)} deg.${share} Each wheel is where its own curve has it, with springs, stops, gas, anti-roll bars and tyres at their nominal values and a rigid chassis. How the two tyres of an axle share the lateral force is not known beforehand: it is given in proportion to the wheel loads and half each.`;
}

function wheelRows(
  { axle, limits, steadyStates }: AxleSizing,
  found: Equilibrium,
  split: string,
  { orDash, both }: OnPaper,
): string[][] {
  const rest = found.axles[axle];
  if (rest === undefined) return [];
  const still = steadyStates.find(({ state }) => state === 'rest');
  const contact = still?.travelToContact == null ? null : still.travel + still.travelToContact;
  const row = (name: string, { travel, shockLength, load, isOnBumpStop, damper }: WheelRest) => {
    const end = travel >= 0 ? limits.bump : limits.droop;
    const left = end === null ? null : Math.abs(end.travel) - Math.abs(travel);
    return [
      `${axleName(axle)}, ${name}`,
      split,
      both(travel, 'length'),
      isOnBumpStop ? 'on it' : orDash(contact === null ? null : contact - travel, 'length'),
      damper === 'free' ? orDash(left, 'length') : 'none',
      both(shockLength, 'length'),
      both(load.total, 'force'),
    ];
  };
  return [row('outer wheel', rest.right), row('inner wheel', rest.left)];
}

/** The axles as they stand there, and their way there on the maps of their limits. */
function pictures(
  axles: readonly AxleSizing[],
  found: Equilibrium,
  { lateralAcceleration }: SteadyCorner,
  paper: OnPaper,
): Block[] {
  const [units] = paper.units;
  const drawn = axles.flatMap(({ axle, input, limits }) => {
    const rest = found.axles[axle];
    if (rest === undefined) return [];
    const { corner, thirdSpring, rollSpring, sizing, limits: given } = input;
    const linkage = axleOf({ left: corner, thirdSpring, rollSpring });
    const place = onItsWheels(linkage, rest);
    const name = `${axleName(axle)} axle`;
    const { tyre } = given;
    const bodyEnd = sizing?.order?.bodyEnd ?? 'up';
    const looks = { ...place, units, bodyEnd, ...(tyre === undefined ? {} : { tyre }) };
    const poses = [{ heave: 0, roll: 0 }, place];
    const path = { name: `from ride height to ${lateralAcceleration} g`, poses };
    const paperOfAxle = { width: COLUMN, hasHeading: false };
    return [
      {
        rolled: captioned(name, axlePicture(linkage, looks, paperOfAxle)),
        map: captioned(name, axleMapPicture(linkage, { left: limits }, { units, path }, MAP, false)),
      },
    ];
  });
  const picture = (title: string, each: readonly Picture[]): Block => ({
    kind: 'picture',
    title,
    svg: svgDocument(beside(title, each)),
    narrow: svgDocument(stacked(title, each)),
  });
  return [
    picture(
      `Both axles in a left turn of ${lateralAcceleration} g, seen from the front: the left wheel is on the right`,
      drawn.map(({ rolled }) => rolled),
    ),
    picture(
      'Heave and roll that the wheels of each axle allow',
      drawn.map(({ map }) => map),
    ),
  ];
}

/** Height of the caption above a picture. */
const CAPTION = 24;

function captioned(words: string, { width, height, title, content }: Picture): Picture {
  const caption = text(words, [8, 16], { 'font-size': SIZE, 'font-weight': 'bold' });
  const below = element('g', { transform: `translate(0 ${CAPTION})` }, ...content);
  return { width, height: height + CAPTION, title, content: [caption, below] };
}

/** Heave and roll of the body over the line through both contact patches: where tyres give, it rolls more than that over the road. */
function onItsWheels(
  { left: corner }: AxleLinkage,
  { left, right }: AxleRest,
): { heave: number; roll: number } {
  const farthest = Math.max(Math.abs(left.travel), Math.abs(right.travel));
  const { at } = sweep(corner, { bump: farthest, droop: farthest });
  const { drawing, contactPatch } = modelOf(corner);
  const [drawn] = drawing.points[contactPatch];
  const [yLeft, yRight] = [left, right].map(({ travel }) => drawn + at(travel).halfTrackChange);
  const slope = (right.travel - left.travel) / (yLeft + yRight);
  return { heave: left.travel + yLeft * slope, roll: Math.atan(slope) * DEGREES };
}
