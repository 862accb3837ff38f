// What acts on a linkage wherever it is. A force F(m) that would make the measure m grow does the work F dm and has the potential
//
//   constant  V = -F m
//   linear    F = k (m_0 - m),                 V = k (m - m_0)^2 / 2
//   gas       F = F_0 (h/(h + m - m_0))^n,     V = -int F dm,   h the length of the gas column at m_0
//   table     F straight from row to row

import { type Diagnostic, fault, show, unknownName, unknownOptions } from '../diagnostic.ts';
import { InputError } from '../errors/input-error.ts';
import { drawingOf } from '../linkage/bar-misfit.ts';
import { isPoint, type Point } from '../linkage/drawing.ts';
import { isRecord } from '../linkage/joints.ts';
import { type BoundMeasure, bindMeasure, type Measure, measureFaults } from '../linkage/measure.ts';
import type { System } from '../linkage/system.ts';
import { anyPower } from '../numerics/power.ts';
import { type Load, loadFaults } from './loads.ts';

/**
 * A spring along a measure: what it does is a force that would make the measure grow if it is positive; a moment for an angle or a
 * turn. Units as you like, if they fit together.
 *
 * - `{ along, rate, freeAt }`: rate x (freeAt - measure), pushing and pulling: a coil between two points has
 *   `along: { length: ['A', 'B'] }` and its free length, a torsion spring `along: { turn: 'arm' }`, rate per radian;
 * - `{ along, gas: { force, at, column, exponent } }`: `force` at the value `at`, where the gas column (volume over shaft area) is
 *   `column` long; exponent 1 (default) for slow motion, up to 1.4 for a fast one. No value where the column is used up;
 * - `{ along, table: [[value, force], ...] }`: straight from row to row, and on beyond the outer ones.
 */
export type Spring<P extends string = string, B extends string = string> = {
  readonly along: Measure<P, B>;
} & (
  | { readonly rate: number; readonly freeAt: number }
  | {
      readonly gas: {
        readonly force: number;
        readonly at: number;
        readonly column: number;
        readonly exponent?: number;
      };
    }
  | { readonly table: readonly (readonly [value: number, force: number])[] }
);

/** A force on a point that turns with a body. */
export interface FollowerForce<P extends string = string, B extends string = string> {
  readonly at: P;
  /** `[x, y]` in the drawn pose, in the unit of the other loads. */
  readonly force: Point;
  readonly relativeTo: B;
}

/** A linear spring whose free length grows: by `freeBy` times the factor. The spring itself is one of the other loads. */
export interface GrowingSpring<P extends string = string, B extends string = string> {
  readonly along: Measure<P, B>;
  /** Force per unit of the measure. */
  readonly rate: number;
  /** How much the free length grows at factor 1, in the measure's unit. */
  readonly freeBy: number;
}

/** What acts on a linkage through its motion: constant loads, forces that turn with a body, springs. */
export type MotionLoad<P extends string = string, B extends string = string> =
  | Load<P, B>
  | FollowerForce<P, B>
  | Spring<P, B>;

/** A force by its measure, with its derivative and its potential. */
export interface Law {
  readonly force: (m: number) => number;
  readonly rate: (m: number) => number;
  readonly potential: (m: number) => number;
}

/** Forces along measures, by their place in a list of those; and forces that turn with a body. */
export type Term =
  | { readonly i: number; readonly law: Law }
  | { readonly x: number; readonly y: number; readonly turn: number; readonly force: Point };

/** Loads bound to a system. */
export interface BoundLoads {
  readonly measures: readonly BoundMeasure[];
  readonly terms: readonly Term[];
}

/**
 * Binds loads to a system; what is wrong with them goes to `faults`. Where `isGrowing` is given they are times a factor, free lengths may be
 * among them, and what it is true of is bound elsewhere.
 */
export function bindLoads(
  system: System,
  loads: unknown,
  under: string,
  faults: Diagnostic[],
  isGrowing?: (load: unknown) => boolean,
): BoundLoads {
  if (!Array.isArray(loads)) faults.push(fault('notLoads', under, { got: show(loads) }));
  const drawing = drawingOf(system);
  const measures: BoundMeasure[] = [];
  const terms: Term[] = [];
  /** Its place among the measures. */
  const bound = (measure: Measure, path: string): number => {
    const wrong = measureFaults(measure, path);
    faults.push(...wrong);
    if (wrong.length > 0) return -1;
    try {
      return measures.push(bindMeasure(system, measure, path)) - 1;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      faults.push(...error.issues);
      return -1;
    }
  };
  const act = (measure: Measure, law: Law, path: string) => terms.push({ i: bound(measure, path), law });
  /** What is wrong with a constant load. */
  const wrong = (load: unknown, path: string): boolean => {
    const found = loadFaults(drawing, [load]).map((one) =>
      one.code === 'notALoad'
        ? fault('notALoadOfAMotion', path, one.values)
        : { ...one, path: one.path.replace('[0]', path) },
    );
    faults.push(...found);
    return found.length > 0;
  };
  (Array.isArray(loads) ? loads : []).forEach((load: unknown, k) => {
    const path = `${under}[${k}]`;
    if (isGrowing?.(load)) return;
    if (isGrowing !== undefined && isRecord(load) && 'freeBy' in load) {
      act(load.along as Measure, pushOf(load, path, faults), `${path}.along`);
    } else if (isRecord(load) && 'along' in load) {
      act(load.along as Measure, lawOf(load, path, faults), `${path}.along`);
    } else if (isRecord(load) && 'relativeTo' in load) {
      const { at, force, relativeTo } = load as unknown as FollowerForce;
      faults.push(...unknownOptions(load, ['at', 'force', 'relativeTo'], path));
      const bodies = [...system.structure.bodies.keys()];
      const isBody = bodies.includes(relativeTo);
      if (!isBody) faults.push(unknownName(`${path}.relativeTo`, 'body', relativeTo, bodies));
      if (wrong({ at, force }, path) || !isBody) return;
      const [x, y, turn] = [{ x: at }, { y: at }, { turn: relativeTo }].map((one) => bound(one, path));
      terms.push({ x, y, turn, force });
    } else if (!wrong(load, path)) {
      const good = load as Load;
      if ('between' in good) {
        const { between, push, offset = 0 } = good;
        act({ length: between, offset }, constant(push), path);
      } else if ('moment' in good) act({ turn: good.on }, constant(good.moment), path);
      else {
        act({ x: good.at }, constant(good.force[0]), path);
        act({ y: good.at }, constant(good.force[1]), path);
      }
    }
  });
  return { measures, terms };
}

function constant(F: number): Law {
  return { force: () => F, rate: () => 0, potential: (m) => -F * m };
}

/** What a free length that grows adds to a spring: a push of its rate times that. */
function pushOf(spring: Record<string, unknown>, path: string, faults: Diagnostic[]): Law {
  faults.push(...unknownOptions(spring, ['along', 'rate', 'freeBy'], path));
  const [rate, by] = ['rate', 'freeBy'].map((name) => {
    const value = spring[name];
    if (!Number.isFinite(value)) faults.push(fault('notFinite', `${path}.${name}`, { got: show(value) }));
    return value as number;
  });
  return constant(rate * by);
}

function lawOf(spring: Record<string, unknown>, path: string, faults: Diagnostic[]): Law {
  const keys = (...known: string[]) => faults.push(...unknownOptions(spring, ['along', ...known], path));
  const number = (value: unknown, at: string): number => {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', `${path}.${at}`, { got: show(value) }));
    return value as number;
  };
  const positive = (value: unknown, at: string): number => {
    if (!(Number.isFinite(value) && (value as number) > 0)) {
      faults.push(fault('outOfRange', `${path}.${at}`, { got: show(value), above: 0 }));
    }
    return value as number;
  };
  if ('rate' in spring) {
    keys('rate', 'freeAt');
    const k = number(spring.rate, 'rate');
    const free = number(spring.freeAt, 'freeAt');
    return {
      force: (m) => k * (free - m),
      rate: () => -k,
      potential: (m) => 0.5 * k * (m - free) * (m - free),
    };
  }
  if ('gas' in spring) {
    keys('gas');
    const { gas } = spring;
    if (!isRecord(gas)) {
      faults.push(fault('notAGas', `${path}.gas`, { got: show(gas) }));
      return constant(0);
    }
    faults.push(...unknownOptions(gas, ['force', 'at', 'column', 'exponent'], `${path}.gas`));
    return gasLaw(
      number(gas.force, 'gas.force'),
      number(gas.at, 'gas.at'),
      positive(gas.column, 'gas.column'),
      positive(gas.exponent ?? 1, 'gas.exponent'),
    );
  }
  if ('table' in spring) {
    keys('table');
    const { table } = spring;
    if (isTable(table)) return tableLaw(table);
    faults.push(fault('notATable', `${path}.table`, { got: show(table) }));
    return constant(0);
  }
  faults.push(fault('notALoadOfAMotion', path, { got: show(spring) }));
  return constant(0);
}

function gasLaw(F: number, at: number, h: number, n: number): Law {
  /** How long the column is over what it was at `at`. */
  const share = (m: number) => {
    const left = (h + m - at) / h;
    return left > 0 ? left : Number.NaN;
  };
  const force = (m: number) => F * anyPower(share(m), -n);
  return {
    force,
    rate: (m) => (-n * force(m)) / (h * share(m)),
    potential: (m) => (n === 1 ? -F * h * Math.log(share(m)) : (F * h * anyPower(share(m), 1 - n)) / (n - 1)),
  };
}

type Table = readonly (readonly [value: number, force: number])[];

function isTable(table: unknown): table is Table {
  return (
    Array.isArray(table) &&
    table.length >= 2 &&
    table.every((row, k) => isPoint(row) && (k === 0 || row[0] > table[k - 1]?.[0]))
  );
}

function tableLaw(table: Table): Law {
  const last = table.length - 2;
  const slopes = table.slice(1).map(([m, F], k) => (F - table[k][1]) / (m - table[k][0]));
  const row = (m: number) => {
    let k = 0;
    while (k < last && m > table[k + 1][0]) k++;
    return k;
  };
  const potentials = [0];
  for (let k = 0; k < last; k++) {
    const [[m0, F0], [m1, F1]] = [table[k], table[k + 1]];
    potentials.push(potentials[k] - 0.5 * (F0 + F1) * (m1 - m0));
  }
  const force = (m: number) => {
    const k = row(m);
    return table[k][1] + slopes[k] * (m - table[k][0]);
  };
  return {
    force,
    rate: (m) => slopes[row(m)],
    potential: (m) => {
      const k = row(m);
      return potentials[k] - 0.5 * (table[k][1] + force(m)) * (m - table[k][0]);
    },
  };
}
