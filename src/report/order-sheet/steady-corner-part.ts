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
import { type PlotLayout, WIDE } from '../plot.ts';
import { svgDocument } from '../svg.ts';
import { type Block, heading, paragraph, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** How the lateral force of an axle is shared, in words. */
const SPLITS = { proportional: 'by load', equal: 'half each' } as const;
/** Width of the pictures for a narrow screen, and the maps: on paper so that both axles fit on a page. */
const NARROW = 470;
const MAP_HEIGHT = 150;
const NARROW_MAP: PlotLayout = {
  left: 56,
  words: 8,
  right: NARROW - 24,
  top: 4,
  height: 260,
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
        'lateral force shared',
        'travel from design ride height, bump +',
        'to the bump stop',
        'travel left to the limit',
        'shock length',
        'wheel load',
      ],
      axles.flatMap((sized) =>
        rested.flatMap(({ split, found }) => wheelRows(sized, found, SPLITS[split], paper)),
      ),
      [2, 3, 4, 5, 6],
    ),
    ...axles.flatMap((sized) => {
      const rest = found.axles[sized.axle];
      return rest === undefined ? [] : pictures(sized, rest, steadyCorner, paper);
    }),
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
  return `A left turn of ${lateralAcceleration} g${pressed}: the right wheels are the outer ones. The body rolls ${roll.toFixed(2)} deg.${share} Each wheel is where its own curve has it, with springs, stops, gas, anti-roll bars and tyres at their nominal values and a rigid chassis. How the two tyres of an axle share the lateral force is not known beforehand: both cases are given, in proportion to the wheel loads and half each.`;
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

/** The axle as it stands there, and its way there on the map of its limits. */
function pictures(
  { axle, input, limits }: AxleSizing,
  rest: AxleRest,
  { lateralAcceleration }: SteadyCorner,
  paper: OnPaper,
): Block[] {
  const { corner, sizing, limits: given } = input;
  const [units] = paper.units;
  const linkage = axleOf({ left: corner });
  const place = onItsWheels(linkage, rest);
  const { tyre } = given;
  const bodyEnd = sizing?.order?.bodyEnd ?? 'up';
  const title = `${axleName(axle)} axle in a left turn of ${lateralAcceleration} g`;
  const looks = { ...place, title, units, bodyEnd, ...(tyre === undefined ? {} : { tyre }) };
  const mapTitle = `${axleName(axle)} axle: heave and roll on its wheels`;
  const poses = [{ heave: 0, roll: 0 }, place];
  const map = {
    title: mapTitle,
    units,
    path: { name: `from ride height to ${lateralAcceleration} g`, poses },
  };
  return [
    {
      kind: 'picture',
      title,
      svg: svgDocument(axlePicture(linkage, looks)),
      narrow: svgDocument(axlePicture(linkage, looks, { width: NARROW, hasHeading: false })),
    },
    {
      kind: 'picture',
      title: mapTitle,
      svg: svgDocument(axleMapPicture(linkage, { left: limits }, map, { ...WIDE, height: MAP_HEIGHT })),
      narrow: svgDocument(axleMapPicture(linkage, { left: limits }, map, NARROW_MAP, false)),
    },
  ];
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
