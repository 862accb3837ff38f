/** Corners of each kind with what the laws of corners need to know of them, no part of it from the library. */
import * as fc from 'fast-check';
import { type Corner, type DrawnCorner, doubleWishbone, pushrod, strut } from 'jounce';
import {
  type CornerInput,
  circleCorner,
  drawnContactPatch,
  type TravelReference,
} from '../judges/circle-intersection.ts';
import { across, cross, dot, minus, type Point, times } from '../judges/plane.ts';
import { type RockerInput, rockerCorner } from '../judges/rocker.ts';
import { type StrutCornerInput, strutCorner } from '../judges/strut.ts';
import { unlikeArms, wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { rockerCorners, strutCorners } from '../support/rocker-corners.ts';
import { carriedByUpright } from './geometry.ts';

/** Places of the moving points of a pose. */
export type Places = Readonly<Record<string, Point>>;

/** What inputs of all kinds have. */
export interface Input {
  readonly wheel: { readonly centre: Point };
}

/** What a pose is held to. */
export interface JudgedPose {
  /** mm of the contact patch, bump positive. */
  readonly travel: number;
  /** All moving points, by their names. */
  readonly points: Places;
  readonly shockLength: number;
  readonly installationRatio: number | null;
}

/** mm at which those that know their pose by its travel are judged. */
const TRAVELS = [-55, -20, 0, 10, 45];
/** rad of the arm at which the others are. */
const TURNS = [-0.1, -0.03, 0, 0.04, 0.11];

const reached = <Pose>(poses: readonly (Pose | null)[]) => poses.filter((pose) => pose !== null);

export interface Kind<In> {
  readonly name: string;
  readonly inputs: fc.Arbitrary<In>;
  /** Those that end at dead points on both sides. */
  readonly endingDead: fc.Arbitrary<In>;
  readonly corner: (input: In) => Corner;
  readonly contactPatch: (input: In) => Point;
  /** Velocities of all moving points at one speed of the motion. */
  readonly velocities: (input: In, places: Places) => Record<string, Point>;
  /** Poses by the judge of the kind, in closed form; those that the linkage does not reach are left out. */
  readonly judged: (input: In) => readonly JudgedPose[];
  /** Share of the usual number of runs. */
  readonly share: number;
}

export const wishbone: Kind<CornerInput> = {
  name: 'double wishbone',
  inputs: wildCorners,
  endingDead: unlikeArms,
  corner: doubleWishbone,
  contactPatch: drawnContactPatch,
  velocities: (input, places) =>
    Object.fromEntries(
      ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch'].map((name) => [
        name,
        byUpright(input, places, places[name]),
      ]),
    ),
  judged(input) {
    const judge = circleCorner(input);
    return reached(TRAVELS.map((travel) => judge.atTravel(travel))).map((pose) => ({
      ...pose,
      points: {
        lowerOuter: pose.lowerOuter,
        upperOuter: pose.upperOuter,
        wheelCentre: pose.wheelCentre,
        contactPatch: pose.contactPatch,
        shockMount: pose.mount,
      },
    }));
  },
  share: 1,
};

export const rocker: Kind<RockerInput> = {
  name: 'pushrod or pullrod',
  inputs: rockerCorners,
  endingDead: rockerCorners.filter(({ lowerArm, upperArm }) =>
    [0, 1].some(
      (axis) =>
        Math.abs(lowerArm.outer[axis] - lowerArm.inner[axis] - upperArm.outer[axis] + upperArm.inner[axis]) >
        0.05,
    ),
  ),
  corner: pushrod,
  contactPatch: (input) => drawnContactPatch(asWishbone(input)),
  velocities(input, places) {
    const arms = wishbone.velocities(asWishbone(input), places);
    const { rod, lowerArm, upperArm } = input;
    // A point of an arm goes as the ball joint does, turned and scaled with its place.
    const onArm = (at: Point, pivot: Point, outer: string) => {
      const [v, r] = [minus(at, pivot), minus(places[outer], pivot)];
      return times(cross(r, arms[outer]) / dot(r, r), across(v));
    };
    const { rodMount, rodRockerMount, shockRockerMount } = places;
    const M =
      rod.on === 'upright'
        ? byUpright(asWishbone(input), places, rodMount)
        : rod.on === 'lowerArm'
          ? onArm(rodMount, lowerArm.inner, 'lowerOuter')
          : onArm(rodMount, upperArm.inner, 'upperOuter');
    const n = minus(rodRockerMount, input.rocker.pivot);
    const l = minus(rodRockerMount, rodMount);
    const w = dot(l, M) / dot(l, across(n));
    const turning = (at: Point) => times(w, across(minus(at, input.rocker.pivot)));
    return {
      ...arms,
      rodMount: M,
      rodRockerMount: turning(rodRockerMount),
      shockRockerMount: turning(shockRockerMount),
    };
  },
  judged(input) {
    const judge = rockerCorner(input);
    return reached(TRAVELS.map((travel) => judge.atTravel(travel))).map(({ points, ...pose }) => {
      const { shockOther, ...others } = points;
      return {
        ...pose,
        points: input.coilover.otherEnd === undefined ? others : { ...others, shockOtherMount: shockOther },
      };
    });
  },
  share: 0.15,
};

export const strutKind: Kind<StrutCornerInput> = {
  name: 'strut',
  inputs: strutCorners,
  endingDead: strutCorners,
  corner: strut,
  contactPatch: ({ wheel }) => wheel.contactPatch,
  velocities({ lowerArm, strut: { topMount } }, places) {
    // The upright's point at the top slides along the axis u: with the arm at w_p and the upright at w,
    // u⊥·(w_p p⊥ + w (T - P)⊥) = 0, up to the speed of the motion w_p = u·(T - P), w = -u·p.
    const P = places.lowerOuter;
    const p = minus(P, lowerArm.inner);
    const along = minus(topMount, places.strutLower);
    const u = times(1 / Math.hypot(...along), along);
    const [wp, w] = [dot(u, minus(topMount, P)), -dot(u, p)];
    const first = times(wp, across(p));
    const on = (at: Point): Point => {
      const s = times(w, across(minus(at, P)));
      return [first[0] + s[0], first[1] + s[1]];
    };
    return Object.fromEntries(
      ['lowerOuter', 'strutLower', 'wheelCentre', 'contactPatch'].map((name) => [name, on(places[name])]),
    );
  },
  judged(input) {
    const judge = strutCorner(input);
    return reached(TURNS.map((turn) => judge.atArm(turn))).map(({ points, ...pose }) => {
      const { shock, ...others } = points;
      return { ...pose, points: input.coilover === undefined ? others : { ...others, shockMount: shock } };
    });
  },
  share: 0.15,
};

function asWishbone({ lowerArm, upperArm, wheel }: RockerInput): CornerInput {
  return {
    lowerArm,
    upperArm,
    wheel,
    coilover: { on: 'upright', mount: upperArm.outer, chassisMount: lowerArm.inner },
  };
}

function byUpright(input: CornerInput, { lowerOuter, upperOuter }: Places, at: Point): Point {
  return carriedByUpright(input, { lowerOuter, upperOuter }, at).first;
}

/** Each kind that the library draws. */
const KINDS = { doubleWishbone: wishbone, pushrod: rocker, strut: strutKind } satisfies Record<
  DrawnCorner['kind'],
  unknown
>;

/** Runs something for each kind, as its type can't be told outside. */
export function forEachKind(run: <In extends Input>(kind: Kind<In>) => void): void {
  for (const kind of Object.values(KINDS)) run(kind as unknown as Kind<Input>);
}

/**
 * How much farther the fastest point goes than the driven one rises, 1 or more; it grows without bound towards a dead
 * point, and with it every error of a pose whose lengths are right to rounding.
 */
export function conditioningOf<In>(
  kind: Kind<In>,
  input: In,
  places: Places,
  travelReference: TravelReference = 'contactPatch',
): number {
  const velocities = kind.velocities(input, places);
  const fastest = Math.max(...Object.values(velocities).map((v) => Math.hypot(...v)));
  return Math.max(1, fastest / Math.abs(velocities[travelReference][1]));
}

/** Largest coordinate of an input: what its numbers are rounded at. */
export function magnitudeOf(input: unknown): number {
  if (typeof input === 'number') return Math.abs(input);
  if (typeof input !== 'object' || input === null) return 0;
  return Math.max(0, ...Object.values(input).map(magnitudeOf));
}

/** A corner with all its points moved: the contact patch is given then, as it may be off the ground. */
export function moved<In extends Input>(kind: Kind<In>, input: In, move: (point: Point) => Point): In {
  const wheel = { centre: input.wheel.centre, contactPatch: kind.contactPatch(input) };
  return movedPoints({ ...input, wheel }, move);
}

/** Plain data with every point of it moved, deeply frozen. */
export function movedPoints<T>(value: T, move: (point: Point) => Point): T {
  const each = (inner: unknown): unknown => {
    if (Array.isArray(inner)) return move(inner as unknown as Point);
    if (typeof inner !== 'object' || inner === null) return inner;
    return Object.fromEntries(Object.entries(inner).map(([name, part]) => [name, each(part)]));
  };
  return deepFreeze(each(value)) as T;
}

/** A corner drawn so many times as large, its fore-aft offset too. */
export function scaled<In extends Input>(kind: Kind<In>, input: In, k: number): In {
  const large: In & { readonly coilover?: { readonly foreAftOffset?: number } } = moved(
    kind,
    input,
    ([y, z]) => [k * y, k * z],
  );
  const { coilover } = large;
  if (coilover?.foreAftOffset === undefined) return large;
  return deepFreeze({ ...large, coilover: { ...coilover, foreAftOffset: k * coilover.foreAftOffset } });
}

/** So many runs of a property for a kind, of `usual` ones. */
export function runs<In>({ share }: Kind<In>, usual = fc.readConfigureGlobal().numRuns ?? 100) {
  return { numRuns: Math.ceil(share * usual) };
}
