// What the figure of an axle shows, from the library: both wheels over heave and roll, and where their limits end that.

import { type AxleLinkage, axle, axleLimits, type HeaveLimit, type HeaveRange, sweepAxle } from 'jounce';
import { leverEndAt, leverOn } from '#jounce/axle/bar.js';
import { limitWords } from '#jounce/report/order-sheet/limit-words.js';
import { DEGREES } from '#jounce/units.js';
import { movedWith, poseAt, type Sized, type Study, study } from './corner-study.ts';
import { clamp, type Point } from './plane.ts';
import type { ShownFile } from './shown-file.ts';

/** Where a body stands: mm, bump of both wheels positive; degrees, left side up positive. */
export interface BodyPose {
  readonly heave: number;
  readonly roll: number;
}

/** Heave and roll shown where no limit ends them, mm and degrees; and the most that are shown before a limit. */
const FARTHEST = 90;
const MOST = 250;
const LARGEST_ROLL = 6;
const MOST_ROLL = 15;
/** Travel of a wheel that roll adds to that heave at most, mm. */
const BEYOND = 200;
/** Rolls at which the map has its edges. */
const STATIONS = 48;

/** An axle with its limits. */
export interface AxleStudy {
  readonly linkage: AxleLinkage;
  /** Its corner by itself: both sides are alike. */
  readonly corner: Study;
  /** From the right side up to the left side up, degrees. */
  readonly rightUp: number;
  readonly leftUp: number;
  /** What ends the heave, from the one roll to the other. */
  readonly ranges: readonly HeaveRange[];
}

/**
 * The axle of a file: its corner on both sides, and what is between them.
 *
 * @throws InputError for a corner whose motion is not determined, and for what does not fit between the wheels.
 */
export function studyAxle(file: ShownFile, sized: Sized | null): AxleStudy {
  const corner = study(file, sized, BEYOND);
  const { bar, thirdSpring, rollSpring } = file.corner;
  const linkage = axle({ left: file.corner.corner, bar, thirdSpring, rollSpring });
  const limits = (roll: number[]) => axleLimits(linkage, { left: corner.found, roll });
  const ends = limits([]);
  const rightUp = Math.max(ends.rightUp?.roll ?? -LARGEST_ROLL, -MOST_ROLL);
  const leftUp = Math.min(ends.leftUp?.roll ?? LARGEST_ROLL, MOST_ROLL);
  const rolls = Array.from({ length: STATIONS + 1 }, (_, k) => rightUp + ((leftUp - rightUp) * k) / STATIONS);
  return { linkage, corner, rightUp, leftUp, ranges: limits(rolls).ranges };
}

/** What ends the heave at a roll. */
export function rangeAt({ linkage, corner }: AxleStudy, roll: number): HeaveRange {
  return axleLimits(linkage, { left: corner.found, roll: [roll] }).ranges[0];
}

export const lowest = ({ droop }: HeaveRange): number => Math.max(droop?.heave ?? -FARTHEST, -MOST);
export const highest = ({ bump }: HeaveRange): number => Math.min(bump?.heave ?? FARTHEST, MOST);

/** The nearest pose that no limit ends: the roll first, then the heave. */
export function within(found: AxleStudy, { heave, roll }: BodyPose): BodyPose {
  const reached = clamp(roll, found.rightUp, found.leftUp);
  const range = rangeAt(found, reached);
  const [low, high] = [lowest(range), highest(range)];
  // At the largest roll both limits meet, to rounding.
  return { roll: reached, heave: low < high ? clamp(heave, low, high) : 0.5 * (low + high) };
}

/** Both wheels in a pose of the body, and what is between them; null for a pose that a wheel does not get to. */
export function axlePoseAt({ linkage, corner }: AxleStudy, { heave, roll }: BodyPose) {
  const [row] = sweepAxle(linkage, { heave: [heave], roll: [roll] }).rows();
  if (row === undefined) return null;
  const { curves } = corner;
  const { bump, droop } = curves.end;
  const wheel = (side: 'left' | 'right') => {
    const pose = poseAt(corner, clamp(row[`${side}Travel`], droop.travel, bump.travel));
    return { pose, link: linkOf(corner, linkage, pose.places, side, row[`${side}LeverAngle`] ?? 0) };
  };
  return { row, left: wheel('left'), right: wheel('right') };
}

/** The drop link from the part that carries it to the end of its lever, y outboard; empty without a bar. */
function linkOf(
  { model }: Study,
  { bar }: AxleLinkage,
  places: Readonly<Record<string, Point>>,
  side: 'left' | 'right',
  angle: number,
): readonly Point[] {
  if (bar === null) return [];
  const lever = leverOn(bar, side === 'left' ? 1 : -1);
  const end = leverEndAt(lever, angle / DEGREES);
  return [
    movedWith(model, lever.on, places, lever.linkMount),
    end,
    ...(lever.axis === null ? [] : [lever.axis]),
  ];
}

/** A point of the body in the picture of a level road, [left, up] in mm. */
export function onRoad([y, z]: Point, { heave, roll }: BodyPose): Point {
  const [cos, sin] = [Math.cos(roll / DEGREES), Math.sin(roll / DEGREES)];
  return [y * cos - z * sin, (z - heave) * cos + y * sin];
}

/** The point of the body at a place in that picture. */
export function onBody([left, up]: Point, { heave, roll }: BodyPose): Point {
  const [cos, sin] = [Math.cos(roll / DEGREES), Math.sin(roll / DEGREES)];
  const lifted = up + heave * cos;
  return [left * cos + lifted * sin, lifted * cos - left * sin];
}

/** The pose of a body whose centreline at a height z above the ground as drawn is taken to a place in the picture. */
export function poseWith(z: number, [left, up]: Point): BodyPose {
  const sin = clamp(-left / z, -0.5, 0.5);
  return { roll: Math.asin(sin) * DEGREES, heave: z - up / Math.sqrt(1 - sin * sin) };
}

/** A limit in words: the wheel, or both where the body is level, and what ends the travel. */
export function wordsOf({ side, cause, part }: HeaveLimit, { roll }: BodyPose): string {
  const wheel = isLevel(roll) ? 'both wheels' : `${side} wheel`;
  switch (cause) {
    case 'leverOverCentre':
      return `${wheel}: lever of the bar over its centre`;
    case 'thirdSpringCompressed':
      return 'third spring at its compressed length';
    case 'thirdSpringExtended':
      return 'third spring at its extended length';
    default:
      return `${wheel}: ${limitWords({ cause, part })}`;
  }
}

/** Whether a roll is shown as none, degrees. */
export const isLevel = (roll: number): boolean => Math.abs(roll) < 0.005;
