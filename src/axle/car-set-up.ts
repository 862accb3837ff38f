// A car made ready for its equations: the curve of each wheel is laid once, and each coilover is given its length.

import { bumpStopForce, type CoiloverForce } from '../corner/axial-force.ts';
import type { Axle } from '../corner/axles.ts';
import { type Diagnostic, fault } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import { READING } from '../linkage/reader.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { GRAVITY } from '../units.ts';
import type { AxleLinkage } from './axle.ts';
import {
  axlesOf,
  type CarAxle,
  type CarLoads,
  type CarOnAxles,
  stopContact,
  type WheelCoilover,
} from './car.ts';
import { type DrawnCar, diagnosticsOn } from './car-diagnostics.ts';
import { type Coupling, coupledBy, couplingsOf, onWheel } from './coupling.ts';
import {
  type Acting,
  type AxleSetUp,
  type CarState,
  endedSprings,
  type WheelSetUp,
} from './rest-equations.ts';
import { noWheelAt, readWheelAt, type WheelAt, type WheelReader, wheelReader } from './wheel-at.ts';
import { layWheels, READ, readAlong } from './wheel-curve.ts';

/** Heave, mm, as far as which the wheels are laid: no car has so much travel. */
const FARTHEST = 250;
/** Places at which a length is looked for along the travel. */
const LOOKS = 64;

/** A car made ready. */
export interface Car extends DrawnCar {
  readonly given: CarOnAxles;
  readonly coilovers: readonly WheelCoilover[];
  /** Of what is between both wheels, on each wheel as drawn, N along its travel. */
  readonly coupledLoad: readonly number[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Makes a checked car ready.
 *
 * @throws InputError for coilovers that do not fit at design ride height, with every issue.
 */
export function setUpCar(given: CarOnAxles): Car {
  const faults: Diagnostic[] = [];
  const parts = axlesOf(given);
  const sideways = given.sprungCentreOfGravityY ?? 0;
  const made = parts.map((axle, k) => setUpAxle(axle, k, sideways, faults));
  refuse('car', faults);
  const car = {
    given,
    names: parts.map(({ name }) => name),
    linkages: parts.map(({ linkage }) => linkage),
    axles: made.map(({ axle }) => axle),
    wheels: made.flatMap(({ wheels }) => wheels),
    coilovers: made.flatMap(({ coilovers }) => coilovers),
    drawn: made.flatMap(({ drawn }) => drawn),
    coupledLoad: made.flatMap(({ coupledLoad }) => coupledLoad),
    sprungMass: parts.reduce((sum, { sprungMass }) => sum + sprungMass, 0),
    centre: [sideways, given.sprungCentreOfGravityHeight] as const,
  };
  return { ...car, diagnostics: diagnosticsOn(car) };
}

function setUpAxle(
  {
    linkage,
    sprungMass,
    unsprungMass,
    left,
    right = left,
    tyreRate,
    antiRollBarStiffness = 0,
    name,
  }: CarAxle & { readonly name: string },
  axle: number,
  sideways: number,
  faults: Diagnostic[],
): {
  readonly axle: AxleSetUp;
  readonly wheels: WheelSetUp[];
  readonly coilovers: readonly WheelCoilover[];
  readonly drawn: readonly WheelAt[];
  readonly coupledLoad: readonly number[];
} {
  const [first, second] = layWheels(linkage, FARTHEST, 0);
  const reader = wheelReader(first);
  const readers = [reader, second.all === first.all ? { ...reader, curve: second } : wheelReader(second)];
  const drawn = readers.map((reader) => {
    const at = noWheelAt();
    readWheelAt(reader, 0, at);
    return at;
  });
  const [l, r] = drawn;
  const weight = (sprungMass + 2 * unsprungMass) * GRAVITY;
  const moment = sprungMass * GRAVITY * sideways + unsprungMass * GRAVITY * (l.centreY[0] - r.centreY[0]);
  const track = l.halfTrack[0] + r.halfTrack[0];
  const onLeft = (weight * r.halfTrack[0] + moment) / track;
  const loads = [onLeft, (weight * l.halfTrack[0] - moment) / track];
  const coilovers = [left, right];
  const couplings = couplingsWith(linkage, antiRollBarStiffness, track);
  const coupled = coupledBy(couplings, l, r);
  const coupledLoad = ([1, -1] as const).map((side) =>
    coupled.reduce((sum, one) => sum + onWheel(one, side), 0),
  );
  const wheels = coilovers.map((coilover, w): WheelSetUp => {
    const side = w === 0 ? 'left' : 'right';
    const path = `${name}.${w === 1 && coilover === left ? 'left' : side}`;
    const at = drawn[w];
    faults.push(...fitFaults(path, coilover, at));
    return {
      side: w === 0 ? 1 : -1,
      reader: readers[w],
      coilover: forceOf(coilover, at, loads[w] - coupledLoad[w] - unsprungMass * GRAVITY * at.centreZ[1]),
      toppedAt: travelAt(readers[w], coilover.damper?.extendedLength, 'droop'),
      bottomedAt: travelAt(readers[w], coilover.damper?.compressedLength, 'bump'),
      designLoad: loads[w],
      tyreCompliance: tyreRate === undefined ? 0 : 1 / tyreRate,
      unsprungMass,
      axle,
      other: 2 * axle + (1 - w),
    };
  });
  return { axle: { sprungMass, couplings, weight }, wheels, coilovers, drawn, coupledLoad };
}

/** What is between both wheels. A given roll stiffness acts on the difference of the travels, which is the track times the roll. */
function couplingsWith(linkage: AxleLinkage, antiRollBarStiffness: number, track: number): Coupling[] {
  return couplingsOf(linkage, antiRollBarStiffness / (track * track));
}

/** A car with another `antiRollBarStiffness` on an axle whose linkage has no bar: as drawn such a bar does nothing. */
export function withAntiRollBar(car: Car, name: Axle, antiRollBarStiffness: number): Car {
  const changed = {
    ...car,
    axles: car.axles.map((axle, k): AxleSetUp => {
      if (car.names[k] !== name) return axle;
      const [left, right] = [car.drawn[2 * k], car.drawn[2 * k + 1]];
      const track = left.halfTrack[0] + right.halfTrack[0];
      return { ...axle, couplings: couplingsWith(car.linkages[k], antiRollBarStiffness, track) };
    }),
  };
  return { ...changed, diagnostics: diagnosticsOn(changed) };
}

/** What of a coilover does not fit as drawn. */
function fitFaults(path: string, { damper }: WheelCoilover, { shock }: WheelAt): Diagnostic[] {
  const [length, byTravel] = shock;
  if (!(byTravel < 0)) return [fault('carriesNothingAtRide', path, { ratio: -byTravel })];
  if (damper === undefined) return [];
  const { extendedLength, compressedLength } = damper;
  if (compressedLength < length && length < extendedLength) return [];
  return [fault('damperNotAtRide', `${path}.damper`, { extendedLength, compressedLength, length })];
}

/** What a coilover pushes with, given what its wheel carries as drawn (N along the travel). */
function forceOf(coilover: WheelCoilover, { shock }: WheelAt, carried: number): CoiloverForce {
  const { springRate, freeLength, perchSetting = 0, perchMove = 0, gasForce = 0, bumpStop } = coilover;
  const contact = stopContact(coilover);
  const stop = contact === null || bumpStop === undefined ? null : { contact, table: bumpStop.table };
  const [length, byTravel] = shock;
  const { springForce = carried / -byTravel - gasForce - bumpStopForce(stop, length).force } = coilover;
  const loose = freeLength === undefined ? length + springForce / springRate : freeLength + perchSetting;
  return {
    spring: { springs: [{ rate: springRate, travel: Number.POSITIVE_INFINITY }] },
    loose: loose + perchMove,
    gasForce,
    bumpStop: stop,
  };
}

/** The first travel towards an end at which the shock has a length, mm; null where nothing of that length holds the wheel. */
function travelAt(reader: WheelReader, length: number | undefined, end: 'droop' | 'bump'): number | null {
  if (length === undefined) return null;
  const places = Float64Array.from({ length: LOOKS + 1 }, (_, k) => (reader[end] * k) / LOOKS);
  const over = new Float64Array(places.length);
  readAlong(reader.all, reader.curve.drawn, places, (m, row, k) => {
    over[k] = m[READ.shock * READING + row] - length;
  });
  const k = over.findIndex((value) => Math.sign(value) !== Math.sign(over[0]));
  if (k < 0) return null;
  const at = noWheelAt();
  const missed = (travel: number) => {
    readWheelAt(reader, travel, at);
    return at.shock[0] - length;
  };
  return zeroBetween(missed, places[k - 1], places[k]);
}

/** What acts on a car under loads; at no lateral acceleration. */
export function actingOn(car: Car, loads: CarLoads): Acting {
  const { deceleration = 0, longitudinalTransfer = 0, downforce = {}, lateralSplit = 'proportional' } = loads;
  const transfer = longitudinalTransfer + deceleration * perDeceleration(car);
  return {
    lateral: 0,
    loads: car.axles.map(({ weight }, k) => {
      const forward = car.names[k] === 'front' ? transfer : -transfer;
      return weight + (downforce[car.names[k]] ?? 0) + forward;
    }),
    split: lateralSplit,
    held: car.wheels.map(() => 0),
  };
}

/** Load that braking at 1 g brings on the front axle, N: all masses at their heights as drawn. */
function perDeceleration({ given: { wheelbase }, sprungMass, centre, wheels, drawn }: Car): number {
  if (wheelbase === undefined) return 0;
  const unsprung = wheels.reduce((sum, { unsprungMass }, i) => sum + unsprungMass * drawn[i].centreZ[0], 0);
  return ((sprungMass * centre[1] + unsprung) * GRAVITY) / wheelbase;
}

/** The car as drawn, with the load on each wheel that it has there. */
export function drawnState(car: Car): CarState {
  const { axles, wheels } = car;
  const ended = endedSprings(car);
  return {
    height: axles.map(() => 0),
    roll: 0,
    travel: wheels.map(() => 0),
    load: wheels.map(({ designLoad }) => designLoad),
    held: wheels.map(() => 0),
    holds: wheels.map(() => ({ damper: 'free', inTheAir: false })),
    endForces: ended.map(() => 0),
    springHolds: ended.map(() => 'free'),
  };
}
