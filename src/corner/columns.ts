// The columns of a sweep, from measures of the pose. z is the contact patch's travel, ' the derivative by it:
//
//   R = -L',  R' = -L''                      installation ratio and its slope
//   h = y_cp y_cp'                           roll-centre height: the line from the contact patch, square to its
//                                            velocity (y_cp', 1), meets y = 0 there
//   w = turn'                                rotation of the upright a mm of travel, counter-clockwise
//   y_ic = y_cp - 1/w,  z_ic = z_cp + y_cp'/w    instant centre: (y_cp', 1) = w x (cp - ic)
//
// The sweep's axis may be another point's travel t; derivatives by z follow from those by t:
//
//   m' = m_t / z_t,   m'' = (m_tt - m' z_tt) / z_t^2.

import { show, throwIfAny } from '../errors.ts';
import type { Measure } from '../linkage/measure.ts';
import { DEGREES } from '../units.ts';
import type { CornerModel } from './model.ts';

/** A column: its name, its unit ('' for a ratio), and what it is in words. */
export interface ColumnInfo {
  readonly name: string;
  readonly unit: string;
  readonly label: string;
  /** Whether the quantity is null at some poses; without it every entry is a finite number. */
  readonly gaps: boolean;
}

/** A column and its value from the readings `m` of a pose, null where it is not defined. */
export interface Column extends ColumnInfo {
  readonly of: (m: Float64Array) => number | null;
}

/** What is to be read of a pose, and the columns made from it. */
export interface ColumnPlan {
  readonly measures: readonly Measure[];
  /** The first so many measures are read with derivatives. */
  readonly derived: number;
  readonly columns: readonly Column[];
}

/** Value, first and second derivative of a reading, one after the other. */
const READING = 3;
const CONTACT_Z = 0;
const CONTACT_Y = 1 * READING;
const SHOCK = 2 * READING;
const TURN = 3 * READING;
const DERIVED = 4;

/** The instant centre counts as infinitely far when the upright turns less than this, in radians per size of travel. */
const NO_TURN = 1e-10;

/** Columns of a corner, in the order in which they are shown; all but those named in `only` are left out. */
export function planColumns(model: CornerModel, only?: readonly string[]): ColumnPlan {
  const { drawing, contactPatch, wheelCentre, upright, shock, kingpin, camber, angles } = model;
  const { points } = drawing;
  const [drawnY] = points[contactPatch];
  const size = Math.hypot(
    points[wheelCentre][0] - points[contactPatch][0],
    points[wheelCentre][1] - points[contactPatch][1],
  );
  const topIsInner = points[shock.inner][1] >= points[shock.outer][1];
  const [lower, upper] = [points[kingpin.lower], points[kingpin.upper]];
  const drawnInclination = Math.atan2(lower[0] - upper[0], upper[1] - lower[1]) * DEGREES;

  const measures: Measure[] = [
    { y: contactPatch },
    { x: contactPatch },
    { length: [shock.outer, shock.inner], offset: shock.offset },
    { turn: upright },
  ];
  /** Reads one more measure, as a value; returns its place among the readings. */
  const read = (measure: Measure) => READING * (measures.push(measure) - 1);

  const offers: { info: ColumnInfo; make: () => Column['of'] }[] = [];
  const offer = (name: string, unit: string, label: string, make: () => Column['of']) =>
    offers.push({
      info: { name, unit, label, gaps: name.startsWith('instantCentre') && unit === 'mm' },
      make,
    });

  offer('shockLength', 'mm', 'shock length', () => (m) => m[SHOCK]);
  offer('installationRatio', '', 'installation ratio', () => ratio);
  offer('installationRatioSlope', '1/mm', 'change of the installation ratio', () => ratioSlope);
  offer('shockLean', 'deg', 'lean of the shock from vertical, top inboard +', () => {
    const at = read({ angle: topIsInner ? [shock.outer, shock.inner] : [shock.inner, shock.outer] });
    return (m) => m[at] * DEGREES - 90;
  });
  offer('camber', 'deg', 'camber, top outboard +', () => (m) => camber - m[TURN] * DEGREES);
  offer(
    'kingpinInclination',
    'deg',
    'kingpin inclination, top inboard +',
    () => (m) => drawnInclination + m[TURN] * DEGREES,
  );
  offer('halfTrackChange', 'mm', 'half-track change, outboard +', () => (m) => m[CONTACT_Y] - drawnY);
  offer('rollCentreHeight', 'mm', 'roll-centre height above the ground of that pose', () => rollCentreHeight);
  offer('instantCentreY', 'mm', 'instant centre of the upright, y', () => (m) => {
    const w = turnRate(m);
    return w === null || Math.abs(w) * size < NO_TURN ? null : m[CONTACT_Y] - 1 / w;
  });
  offer('instantCentreZ', 'mm', 'instant centre of the upright, z', () => (m) => {
    const w = turnRate(m);
    const slide = byTravel(m, CONTACT_Y);
    return w === null || slide === null || Math.abs(w) * size < NO_TURN ? null : m[CONTACT_Z] + slide / w;
  });
  offer(
    'instantCentreCurvature',
    '1/mm',
    'inverse distance from contact patch to instant centre, inboard +',
    () => (m) => {
      const w = turnRate(m);
      const slide = byTravel(m, CONTACT_Y);
      return w === null || slide === null ? null : w / Math.sqrt(1 + slide * slide);
    },
  );
  for (const [name, measure] of Object.entries(angles)) {
    offer(name, 'deg', labelOf(name), () => {
      const at = read(measure);
      return (m) => m[at] * DEGREES;
    });
  }
  const fixed = new Set(drawing.ground);
  for (const name of Object.keys(points)) {
    if (fixed.has(name)) continue;
    for (const axis of ['y', 'z'] as const) {
      offer(`${name}${axis.toUpperCase()}`, 'mm', `${labelOf(name)}, ${axis}`, () => {
        const at = read(axis === 'y' ? { x: name } : { y: name });
        return (m) => m[at];
      });
    }
  }
  const known = offers.map(({ info }) => info.name);
  throwIfAny(
    'sweep options',
    (only ?? []).flatMap((name, k) =>
      known.includes(name)
        ? []
        : [{ path: `columns[${k}]`, problem: 'unknown column', got: show(name), allowed: known.join(', ') }],
    ),
  );
  const columns = offers
    .filter(({ info }) => only === undefined || only.includes(info.name))
    .map(({ info, make }) => ({ ...info, of: make() }));
  return { measures, derived: DERIVED, columns };
}

/** `lowerOuter` as `lower outer`. */
function labelOf(name: string): string {
  return name.replace(
    /([a-z])([A-Z])/g,
    (_, before: string, capital: string) => `${before} ${capital.toLowerCase()}`,
  );
}

function byTravel(m: Float64Array, at: number): number | null {
  return finite(m[at + 1] / m[CONTACT_Z + 1]);
}

function ratio(m: Float64Array): number | null {
  return finite(-m[SHOCK + 1] / m[CONTACT_Z + 1]);
}

function ratioSlope(m: Float64Array): number | null {
  const rate = m[CONTACT_Z + 1];
  return finite(-(m[SHOCK + 2] - (m[SHOCK + 1] / rate) * m[CONTACT_Z + 2]) / (rate * rate));
}

function rollCentreHeight(m: Float64Array): number | null {
  const slide = byTravel(m, CONTACT_Y);
  return slide === null ? null : m[CONTACT_Y] * slide;
}

function turnRate(m: Float64Array): number | null {
  return byTravel(m, TURN);
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
