// What the figures of a corner show, from the library: the corner of the guides with its two mounts where the reader put
// them, its curves, its first limits and its estimate by hand.

import { doubleWishbone, handMethod, limits, sentence, sweep } from 'jounce';

export type Point = readonly [number, number];

/** What the reader moves: the ends of the coilover in the drawn pose, [y, z] in mm. */
export interface Mounts {
  readonly mount: Point;
  readonly chassisMount: Point;
}
export type Mount = keyof Mounts;

const LOWER_ARM = { inner: [255, 165], outer: [640, 150] } as const;
const UPPER_ARM = { inner: [310, 355], outer: [600, 375] } as const;
const WHEEL = { centre: [705, 312], camber: -0.5 } as const;
/** Behind the geometric part of the wheel rate: kg and Hz. */
export const LOAD = { sprungMass: 180, frequency: 1.5 };
/** The travel that a figure shows where nothing stops the wheel before, mm. */
const FARTHEST = 90;

/** What can stop the wheel, mm. */
export const PARTS = { extendedLength: 385, compressedLength: 300, height: 35, solidHeight: 12 };
export type Parts = typeof PARTS;

export const AS_DRAWN: Mounts = { mount: [505, 170], chassisMount: [345, 480] };
export const FIXED = { lowerInner: LOWER_ARM.inner, upperInner: UPPER_ARM.inner };
/** Overall radius and width of the tyre, mm. */
export const TYRE = { radius: 312, width: 195 };

export type Study = ReturnType<typeof study>;

const COLUMNS = [
  ...(['shockLength', 'installationRatio', 'camber', 'contactPatchZ', 'lowerOuterY', 'lowerOuterZ'] as const),
  ...(['upperOuterY', 'upperOuterZ', 'wheelCentreY', 'wheelCentreZ', 'shockMountY', 'shockMountZ'] as const),
];

/**
 * Everything about the corner with these mounts and parts, its estimate by hand if wanted.
 *
 * @throws InputError if there is no such corner.
 */
export function study({ mount, chassisMount }: Mounts, parts: Parts, byHand: boolean) {
  const corner = doubleWishbone({
    lowerArm: LOWER_ARM,
    upperArm: UPPER_ARM,
    wheel: WHEEL,
    coilover: { on: 'lowerArm', mount, chassisMount },
  });
  const found = limits(corner, {
    damper: { extendedLength: parts.extendedLength, compressedLength: parts.compressedLength },
    bumpStop: { height: parts.height, solidHeight: parts.solidHeight },
  });
  const reach = (side: 'bump' | 'droop') => Math.min(Math.abs(found[side]?.travel ?? FARTHEST), FARTHEST);
  const travel = { bump: reach('bump'), droop: reach('droop') };
  const curves = sweep(corner, { ...travel, columns: COLUMNS });
  return {
    curves,
    found,
    low: -travel.droop,
    high: travel.bump,
    hand: byHand ? handMethod(corner, { ...LOAD, travel }) : null,
  };
}

/** What stops the wheel on a side, in words. */
export function stop({ found }: Study, side: 'bump' | 'droop'): string {
  const first = found[side];
  return first === null ? `Nothing stops the wheel in ${side}.` : sentence(first.diagnostic);
}

/** The moving points at a travel. */
export function poseAt({ curves }: Study, travel: number) {
  const row = curves.at(travel);
  return {
    lowerOuter: [row.lowerOuterY, row.lowerOuterZ] as Point,
    upperOuter: [row.upperOuterY, row.upperOuterZ] as Point,
    wheelCentre: [row.wheelCentreY, row.wheelCentreZ] as Point,
    mount: [row.shockMountY, row.shockMountZ] as Point,
    ground: row.contactPatchZ,
    camber: row.camber,
    shockLength: row.shockLength,
    ratio: row.installationRatio,
  };
}
export type Pose = ReturnType<typeof poseAt>;

/** Where a point of the lower arm lies in the drawn pose, if it lies at `point` in another: the arm turned back. */
export function drawnBack(point: Point, { lowerOuter }: Pose): Point {
  const [oy, oz] = LOWER_ARM.inner;
  const direction = ([y, z]: Point) => Math.atan2(z - oz, y - oy);
  const turn = direction(LOWER_ARM.outer) - direction(lowerOuter);
  const [y, z] = [point[0] - oy, point[1] - oz];
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [oy + cos * y - sin * z, oz + sin * y + cos * z];
}

/** A broken line along the shock between two fractions of its length, as a spring is drawn. */
export function coil([ay, az]: Point, [by, bz]: Point, from: number, to: number): string {
  const length = Math.sqrt((by - ay) ** 2 + (bz - az) ** 2);
  const [ny, nz] = [(-(bz - az) / length) * 28, ((by - ay) / length) * 28];
  const turns = 12;
  return Array.from({ length: turns + 1 }, (_, k) => {
    const t = from + ((to - from) * k) / turns;
    const side = k === 0 || k === turns ? 0 : k % 2 ? 1 : -1;
    return `${k === 0 ? 'M' : 'L'}${(ay + t * (by - ay) + side * ny).toFixed(1)} ${(-(az + t * (bz - az) + side * nz)).toFixed(1)}`;
  }).join('');
}
