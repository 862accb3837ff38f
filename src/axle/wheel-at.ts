// A wheel of an axle at a travel: all that forces on it need, with derivatives by travel.

import { bindMeasure } from '../linkage/measure.ts';
import { FIRST, READING, type Reader, reader, readRows, SECOND } from '../linkage/reader.ts';
import type { CoupledWheel } from './coupling.ts';
import type { SpringEnd } from './cross-spring.ts';
import type { Jet } from './jet.ts';
import { leverAngles } from './lever-angle.ts';
import { type CouplingPlaces, leversThere, READ, type WheelCurve } from './wheel-curve.ts';

/** A wheel at a travel, mm and radians; y is outboard. */
export interface WheelAt extends CoupledWheel {
  travel: number;
  /** Eye-to-eye length of the coilover. */
  readonly shock: Jet;
  /** y of the contact patch. */
  readonly halfTrack: Jet;
  /** Turn of the upright, counter-clockwise in (y, z). */
  readonly turn: Jet;
  readonly centreY: Jet;
  /** Above the ground as drawn. */
  readonly centreZ: Jet;
  /** Angle of the bar's lever; without one the travel, for a bar of which only the roll stiffness is known. */
  readonly lever: Jet;
  /** Ends of the springs between both wheels; zeros without them. */
  readonly thirdSpring: SpringEnd;
  readonly rollSpring: SpringEnd;
}

/** What is read of a wheel for its forces: what `READ` names, then its centre. */
export interface WheelReader {
  readonly curve: WheelCurve;
  readonly all: Reader;
  /** Where the wheel centre is among the readings. */
  readonly centre: number;
  /** Travels between which all that is read has derivatives. */
  readonly droop: number;
  readonly bump: number;
}

/** Share of the travel by which a wheel stops short of a dead point, where nothing has a derivative. */
const HAIR = 1e-9;

export function wheelReader(curve: WheelCurve): WheelReader {
  const { all, model, end } = curve;
  const { path, measures } = all;
  const [y, z] = [{ x: model.wheelCentre }, { y: model.wheelCentre }].map((measure) =>
    bindMeasure(path.system, measure, 'measure'),
  );
  return {
    curve,
    all: reader(path, [...measures, y, z]),
    centre: measures.length,
    droop: end.droop.travel * (1 - HAIR),
    bump: end.bump.travel * (1 - HAIR),
  };
}

/** A wheel to be read into. */
export function noWheelAt(): WheelAt {
  const jet = (): Jet => [0, 0, 0];
  return {
    travel: 0,
    shock: jet(),
    halfTrack: jet(),
    turn: jet(),
    centreY: jet(),
    centreZ: jet(),
    lever: jet(),
    ...noEnds(),
  };
}

/** Ends of the springs between both wheels, to be read into. */
export function noEnds(): Pick<CoupledWheel, 'thirdSpring' | 'rollSpring'> {
  const end = (): SpringEnd => [
    [0, 0, 0],
    [0, 0, 0],
  ];
  return { thirdSpring: end(), rollSpring: end() };
}

const driver = new Float64Array(1);
const lever = leverAngles(1);

/** Reads a wheel at a travel, kept between its ends. */
export function readWheelAt(
  { curve, all, centre, droop, bump }: WheelReader,
  travel: number,
  into: WheelAt,
): void {
  const z = Math.min(bump, Math.max(droop, travel));
  const { low, high } = all.path;
  driver[0] = Math.min(high.at, Math.max(low.at, curve.drawn + z));
  readRows(all, driver, 0);
  const { m } = all;
  into.travel = z;
  take(m, READ.shock, into.shock);
  take(m, READ.halfTrack, into.halfTrack);
  take(m, READ.turn, into.turn);
  take(m, centre, into.centreY);
  take(m, centre + 1, into.centreZ);
  into.centreZ[0] -= curve.drawn;
  leversThere(curve, m, 1, lever);
  const hasLever = curve.lever !== null && !Number.isNaN(lever.angle[0]);
  into.lever[0] = hasLever ? lever.angle[0] : z;
  into.lever[1] = hasLever ? lever.first[0] : 1;
  into.lever[2] = hasLever ? lever.second[0] : 0;
  takeEnds(m, 0, curve.ends, into);
}

/** Moves a wheel that has been read by a travel so small that third derivatives do not count. */
export function moveWheelBy(at: WheelAt, by: number): void {
  at.travel += by;
  for (const jet of [
    at.shock,
    at.halfTrack,
    at.turn,
    at.centreY,
    at.centreZ,
    at.lever,
    ...at.thirdSpring,
    ...at.rollSpring,
  ]) {
    jet[0] += (jet[1] + 0.5 * jet[2] * by) * by;
    jet[1] += jet[2] * by;
  }
}

/** Takes the ends of the springs between both wheels from a row of readings. */
export function takeEnds(
  m: Float64Array,
  row: number,
  ends: CouplingPlaces,
  into: Pick<CoupledWheel, 'thirdSpring' | 'rollSpring'>,
): void {
  for (const name of ['thirdSpring', 'rollSpring'] as const) {
    const place = ends[name];
    if (place === undefined) continue;
    take(m, place, into[name][0], row);
    take(m, place + 1, into[name][1], row);
  }
}

function take(m: Float64Array, measure: number, into: Jet, row = 0): void {
  const at = measure * READING + row;
  into[0] = m[at];
  into[1] = m[at + FIRST];
  into[2] = m[at + SECOND];
}
