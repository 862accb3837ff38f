// A corner that stands still at a travel: the ground pushes on the tyre, the unsprung weight hangs at the wheel's centre, springs between
// both wheels push on it as they do with both at that travel, and what the end eyes of the coilover must bear follows from equilibrium.

import { type AxleLinkage, endsOn } from '../../axle/axle.ts';
import type { SpringName } from '../../axle/coupling.ts';
import type { AcrossAt } from '../../axle/springs-across.ts';
import { pointOf, withEnds } from '../../axle/wheel-curve.ts';
import {
  type AxialForce,
  axialForce,
  bumpStopForce,
  type CoiloverForce,
  contactLength,
} from '../../corner/axial-force.ts';
import { type Corner, modelOf } from '../../corner/corner.ts';
import { type Limits, limitsOf } from '../../corner/limits/limits.ts';
import { type CheckedOptions, checkOptions } from '../../corner/limits/options.ts';
import type { CornerModel } from '../../corner/model.ts';
import { fault } from '../../diagnostic.ts';
import { refusal, refuse } from '../../errors/sizing.ts';
import type { CheckedDrawing, Drawing, Point } from '../../linkage/drawing.ts';
import { type Motion, trace } from '../../linkage/motion.ts';
import type { Load } from '../../statics/loads.ts';
import { type Forces, forces } from '../../statics/statics.ts';
import { GRAVITY } from '../../units.ts';
import { type ForceOptions, forceFaults } from './options.ts';

/** A corner ready to stand. */
export interface SetUp {
  readonly model: CornerModel;
  readonly given: CheckedOptions;
  readonly found: Limits;
  readonly motion: Motion;
  readonly coilover: CoiloverForce;
  readonly unsprungWeight: number;
  /** Travel at which the car stands on its springs, mm, bump +; null where it is taken to stand as drawn. */
  readonly restingAt: number | null;
  readonly between: BetweenWheels | null;
}

/** Springs between both wheels of an axle, and what they do at a travel of both. */
export interface BetweenWheels {
  readonly linkage: Pick<AxleLinkage, SpringName>;
  readonly at: AcrossAt;
}

/**
 * Makes a corner ready; `known` are its limits, its coilover, where it rests and what is between both wheels, if they have been found before.
 *
 * @throws InputError for options that can't be, with every issue.
 */
export function setUp(
  corner: Corner,
  options: ForceOptions,
  known: {
    readonly found?: Limits;
    readonly coilover?: CoiloverForce;
    readonly restingAt?: number | null;
    readonly between?: BetweenWheels | null;
  } = {},
): SetUp {
  const { between = null } = known;
  const model =
    between === null
      ? modelOf(corner)
      : withEnds(modelOf(corner), endsOn({ bar: null, ...between.linkage }, 'left'));
  refuse('forces', forceFaults(options));
  const given = checkOptions(options.limits ?? {}, model);
  const { sprungMass, unsprungMass, springRate, gasForce = 0, bumpStopTable } = options;
  const motion = trace(model.drawing, { driver: { y: model.contactPatch } });
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const ride = motion.read({ length: [outer, inner], offset })(motion.drawn);
  const ratio = -(ride.first ?? 0);
  if (!(ratio > 0)) throw refusal('forces', [fault('coiloverCarriesNothing', 'corner', { ratio })]);
  const unsprungWeight = unsprungMass * GRAVITY;
  const atRide = (): CoiloverForce => {
    const contact = contactLength(given.bumpStop, given.damper);
    const bumpStop =
      contact === null || bumpStopTable === undefined ? null : { contact, table: bumpStopTable };
    const tyre: Point = [0, sprungMass * GRAVITY + unsprungWeight];
    const force =
      equilibrium(model, model.drawing, equilibriumLoads(model, unsprungWeight, tyre)).driver ?? 0;
    const springForce = force - gasForce - bumpStopForce(bumpStop, ride.value).force;
    return {
      spring: { springs: [{ rate: springRate, travel: Number.POSITIVE_INFINITY }] },
      loose: ride.value + springForce / springRate,
      gasForce,
      bumpStop,
    };
  };
  const coilover = known.coilover ?? atRide();
  return {
    model,
    given,
    found: known.found ?? limitsOf(model, given),
    motion,
    coilover,
    unsprungWeight,
    restingAt: known.restingAt ?? null,
    between,
  };
}

/** Height of the contact patch at a travel, kept in its range against rounding. */
export function heightAt({ motion }: SetUp, travel: number): number {
  return Math.min(motion.high.at, Math.max(motion.low.at, motion.drawn + travel));
}

/** Forces of a corner drawn at some travel; the driver's is what the end eyes must bear. */
function equilibrium(model: CornerModel, drawing: Drawing, loads: readonly Load[]): Forces {
  const { outer, inner, foreAftOffset: offset } = model.shock;
  return forces(drawing, loads, { driver: { length: [outer, inner], offset } });
}

/** What acts on a corner from outside: the unsprung weight, and the ground on the tyre. */
export function equilibriumLoads(
  { wheelCentre, contactPatch, upright }: CornerModel,
  unsprungWeight: number,
  tyre: Point | null,
): Load[] {
  return [
    { at: wheelCentre, on: upright, force: [0, -unsprungWeight] },
    ...(tyre === null ? [] : [{ at: contactPatch, on: upright, force: tyre }]),
  ];
}

/** A corner at a travel: the drawing there, all forces, the length between the end eyes, what they must bear, what the coilover gives. */
export interface Standing {
  readonly drawing: CheckedDrawing;
  readonly found: Forces;
  readonly length: number;
  readonly total: number;
  readonly shares: AxialForce;
  /** What springs between both wheels do to it. */
  readonly pushes: readonly Push[];
}

/** A force on a body at one of its points, N. */
type Push = Extract<Load, { readonly force: Point }>;

/** The corner at a travel with a force of the ground on the tyre. */
export function standAt(setup: SetUp, travel: number, tyre: Point | null): Standing {
  const { model, coilover, unsprungWeight } = setup;
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const drawing = { ...model.drawing, points: setup.motion.at(heightAt(setup, travel)) };
  const pushes = pushesAt(setup, travel);
  const found = equilibrium(model, drawing, [...equilibriumLoads(model, unsprungWeight, tyre), ...pushes]);
  const [a, b] = [drawing.points[outer], drawing.points[inner]];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1], offset);
  return { drawing, found, length, total: found.driver ?? 0, shares: axialForce(coilover, length), pushes };
}

function pushesAt({ between }: SetUp, travel: number): Push[] {
  if (between === null) return [];
  const { linkage, at } = between;
  return at(travel).onLeftEnd.map(({ name, force }) => {
    const on = linkage[name]?.left.on;
    return { at: pointOf(name), force, ...(on === undefined ? {} : { on }) };
  });
}

/** Load of the wheel that springs between both wheels carry at a travel, N. */
function carriedBetween({ between }: SetUp, travel: number): number {
  return between === null ? 0 : between.at(travel).loads[0];
}

/** What that takes off the coilover, N along the shock; 0 at a dead point of it. */
export function takenOffShock(setup: SetUp, travel: number): number {
  const { outer, inner, foreAftOffset: offset } = setup.model.shock;
  const { first } = setup.motion.read({ length: [outer, inner], offset })(heightAt(setup, travel));
  return first ? carriedBetween(setup, travel) / -first : 0;
}

/** Travel that there is: to the first limits, or as far as the linkage goes. */
export function travelRange({ found, motion }: SetUp): { bump: number; droop: number } {
  return {
    bump: found.bump?.travel ?? motion.high.at - motion.drawn,
    droop: found.droop?.travel ?? motion.low.at - motion.drawn,
  };
}

/** What a coilover gives in all. */
export function given({ spring, gas, bumpStop: stop }: AxialForce): number {
  return spring + gas + stop;
}

/**
 * What the coilover lacks, N, to bear a force of the ground on the tyre at a travel. By virtual work the force between the eyes is
 *
 *   P = (F_z + F_y dy/dz - W_u dz_c/dz - T) / R,
 *
 * y the contact patch's lateral place, z_c the height of the wheel's centre, T what springs between both wheels carry: as `standAt` finds it from equilibrium, and quicker.
 */
export function missingForce(setup: SetUp, tyre: Point | null): (travel: number) => number {
  const { model, motion, coilover, unsprungWeight } = setup;
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const shock = motion.read({ length: [outer, inner], offset });
  const patch = motion.read({ x: model.contactPatch });
  const centre = motion.read({ y: model.wheelCentre });
  const [side, up] = tyre ?? [0, 0];
  return (travel) => {
    const at = heightAt(setup, travel);
    const { value, first } = shock(at);
    const work =
      up +
      side * (patch(at).first ?? 0) -
      unsprungWeight * (centre(at).first ?? 0) -
      carriedBetween(setup, travel);
    return work / -(first ?? 0) - given(axialForce(coilover, value));
  };
}

/**
 * Vertical force of the ground on the tyre, N, that the coilover balances at a travel: by virtual work F_z = S R + W_u dz_c/dz + T, with S what
 * spring, gas and stop give and T what springs between both wheels carry.
 */
export function balancedLoad(setup: SetUp, travel: number): number {
  const { model, motion, coilover, unsprungWeight } = setup;
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const at = heightAt(setup, travel);
  const { value, first } = motion.read({ length: [outer, inner], offset })(at);
  const centre = motion.read({ y: model.wheelCentre })(at);
  return (
    given(axialForce(coilover, value)) * -(first ?? 0) +
    unsprungWeight * (centre.first ?? 0) +
    carriedBetween(setup, travel)
  );
}
