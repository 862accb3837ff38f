// A wheel of an axle at a travel: all that forces on it need, with derivatives by travel.

import { bindMeasure } from '../linkage/measure.ts';
import { FIRST, READING, type Reader, reader, SECOND } from '../linkage/reader.ts';
import { leverThere, READ, readAlong, type WheelCurve } from './wheel-curve.ts';

/** Value, first and second derivative by travel. */
export type Jet = [value: number, first: number, second: number];

/** A wheel at a travel, mm and radians; y is outboard. */
export interface WheelAt {
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
  };
}

const place = new Float64Array(1);

/** Reads a wheel at a travel, kept between its ends. */
export function readWheelAt(
  { curve, all, centre, droop, bump }: WheelReader,
  travel: number,
  into: WheelAt,
): void {
  const z = Math.min(bump, Math.max(droop, travel));
  into.travel = z;
  place[0] = z;
  readAlong(all, curve.drawn, place, (m, row) => {
    take(m, READ.shock, row, into.shock);
    take(m, READ.halfTrack, row, into.halfTrack);
    take(m, READ.turn, row, into.turn);
    take(m, centre, row, into.centreY);
    take(m, centre + 1, row, into.centreZ);
    into.centreZ[0] -= curve.drawn;
    const lever = leverThere(curve, z, m, row);
    into.lever[0] = lever?.angle ?? z;
    into.lever[1] = lever?.first ?? 1;
    into.lever[2] = lever?.second ?? 0;
  });
}

function take(m: Float64Array, measure: number, row: number, into: Jet): void {
  const at = measure * READING + row;
  into[0] = m[at];
  into[1] = m[at + FIRST];
  into[2] = m[at + SECOND];
}
