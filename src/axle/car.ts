// A car for its equilibrium: its axles with what stands on each wheel, its masses, and what is brought on it.

import { type BumpStopTable, contactLength } from '../corner/axial-force.ts';
import { AXLES, type Axle } from '../corner/axles.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import type { AxleLinkage } from './axle.ts';

/** The coilover of a wheel. */
export interface WheelCoilover {
  /** Of the spring, N/mm. */
  readonly springRate: number;
  /**
   * Of the spring at design ride height, N. Left out, and without `freeLength`, the spring has the force with which the level car stands at
   * design ride height under its masses alone.
   */
  readonly springForce?: number;
  /** Of the spring, mm, with `perchSetting` in place of `springForce`. */
  readonly freeLength?: number;
  /** Eye-to-eye length minus spring length, mm. */
  readonly perchSetting?: number;
  /** How far the spring seat is moved towards the spring from all that, mm; default 0. */
  readonly perchMove?: number;
  /** Gas force of the damper, N; default 0. */
  readonly gasForce?: number;
  /** The damper, eye to eye, mm. Without it the wheel goes as far as its linkage. */
  readonly damper?: { readonly extendedLength: number; readonly compressedLength: number };
  /** Free height of the bump stop on the shaft, mm, and its compression (mm) and force (N), both rising from 0; needs `damper`. */
  readonly bumpStop?: { readonly height: number; readonly table: BumpStopTable };
  /** Damping coefficient along the shock, mean of compression and rebound, N·s/m: for roll damping. */
  readonly damping?: number;
}

/** An axle of a car, with what stands on it. */
export interface CarAxle {
  readonly linkage: AxleLinkage;
  /** Sprung mass that both wheels carry, kg. */
  readonly sprungMass: number;
  /** Unsprung mass of each wheel, kg, at the wheel centre. */
  readonly unsprungMass: number;
  readonly left: WheelCoilover;
  /** As the left one if left out. */
  readonly right?: WheelCoilover;
  /** Vertical rate of each tyre, N/mm; rigid if left out. */
  readonly tyreRate?: number;
  /**
   * Roll stiffness that an anti-roll bar adds, N·m/deg, where `linkage` has none: it is taken to act on the difference of the travels of
   * both wheels.
   */
  readonly antiRollBarStiffness?: number;
}

/** A car of one or two axles with a rigid chassis. */
export interface CarOnAxles {
  readonly front?: CarAxle;
  readonly rear?: CarAxle;
  /** Centre of gravity of the sprung part above the ground, mm, at design ride height. */
  readonly sprungCentreOfGravityHeight: number;
  /** How far it lies to the left of the centreline, mm; default 0. */
  readonly sprungCentreOfGravityY?: number;
  /** Distance of the axles, mm: required with `deceleration`. */
  readonly wheelbase?: number;
}

/** How the lateral force of an axle is shared by its wheels: in proportion to their vertical loads, or half each. */
export type LateralSplit = 'proportional' | 'equal';

/** What is brought on a car beside its weight; all optional. */
export interface CarLoads {
  /** In g, to the left (a left turn) positive; default 0. */
  readonly lateralAcceleration?: number;
  /** Of braking, in g; default 0. The load that it brings on the front axle is that of design ride height. */
  readonly deceleration?: number;
  /** Load brought from the rear to the front axle, N, in place of `deceleration`; default 0. */
  readonly longitudinalTransfer?: number;
  /** Of each axle, N, on the centreline; default 0. */
  readonly downforce?: { readonly front?: number; readonly rear?: number };
  /** Default `proportional`. */
  readonly lateralSplit?: LateralSplit;
}

const COILOVER = [
  'springRate',
  'springForce',
  'freeLength',
  'perchSetting',
  'perchMove',
  'gasForce',
  'damper',
  'bumpStop',
  'damping',
];
const CAR_AXLE = [
  'linkage',
  'sprungMass',
  'unsprungMass',
  'left',
  'right',
  'tyreRate',
  'antiRollBarStiffness',
];
const CAR = ['front', 'rear', 'sprungCentreOfGravityHeight', 'sprungCentreOfGravityY', 'wheelbase'];
export const LOADS = [
  'lateralAcceleration',
  'deceleration',
  'longitudinalTransfer',
  'downforce',
  'lateralSplit',
];
/** In g: no car on tyres corners or brakes harder. */
export const MOST_G = 10;

/** Axles that a car has, front first. */
export function axlesOf(car: CarOnAxles): (CarAxle & { readonly name: Axle })[] {
  return AXLES.flatMap((name) => {
    const found = car[name];
    return found === undefined ? [] : [{ ...found, name }];
  });
}

/** Faults by what they are about. */
class Checker {
  readonly faults: Diagnostic[] = [];

  /** A number, above or not below a bound. */
  number(
    path: string,
    value: unknown,
    bound: Readonly<Record<string, number>> = {},
    isRequired = false,
  ): void {
    if (value === undefined) {
      if (isRequired)
        this.faults.push(fault(Object.keys(bound).length === 0 ? 'missing' : 'missingNumber', path, bound));
      return;
    }
    if (!(typeof value === 'number' && Number.isFinite(value)))
      this.faults.push(fault('notFinite', path, { got: show(value) }));
    else if (
      ('above' in bound && value <= bound.above) ||
      ('min' in bound && value < bound.min) ||
      ('max' in bound && value > bound.max)
    )
      this.faults.push(fault('outOfRange', path, { ...bound, got: show(value) }));
  }

  /** Whether it is an object of these fields. */
  fields(path: string, value: unknown, known: readonly string[]): boolean {
    this.faults.push(...unknownOptions(value, known, path));
    return typeof value === 'object' && value !== null && !Array.isArray(value);
  }
}

/**
 * Refuses what is no car.
 *
 * @throws InputError with every issue.
 */
export function checkCar(car: CarOnAxles): void {
  const check = new Checker();
  if (check.fields('', car, CAR)) {
    check.number('sprungCentreOfGravityHeight', car.sprungCentreOfGravityHeight, { above: 0 }, true);
    check.number('sprungCentreOfGravityY', car.sprungCentreOfGravityY);
    check.number('wheelbase', car.wheelbase, { above: 0 });
    if (car.front === undefined && car.rear === undefined)
      check.faults.push(fault('carWithoutAxle', 'front'));
    for (const name of AXLES) if (car[name] !== undefined) checkAxle(check, name, car[name]);
  }
  refuse('car', check.faults);
}

function checkAxle(check: Checker, path: string, axle: CarAxle): void {
  if (!check.fields(path, axle, CAR_AXLE)) return;
  if (axle.linkage?.kind !== 'axle')
    check.faults.push(fault('notAnAxle', `${path}.linkage`, { got: show(axle.linkage) }));
  check.number(`${path}.sprungMass`, axle.sprungMass, { above: 0 }, true);
  check.number(`${path}.unsprungMass`, axle.unsprungMass, { min: 0 }, true);
  check.number(`${path}.tyreRate`, axle.tyreRate, { above: 0 });
  check.number(`${path}.antiRollBarStiffness`, axle.antiRollBarStiffness, { min: 0 });
  if (axle.antiRollBarStiffness !== undefined && (axle.linkage?.bar ?? null) !== null)
    check.faults.push(fault('barTwice', `${path}.antiRollBarStiffness`));
  checkCoilover(check, `${path}.left`, axle.left);
  if (axle.right !== undefined) checkCoilover(check, `${path}.right`, axle.right);
}

function checkCoilover(check: Checker, path: string, coilover: WheelCoilover): void {
  if (!check.fields(path, coilover, COILOVER)) return;
  const { springForce, freeLength, perchSetting, damper, bumpStop } = coilover;
  check.number(`${path}.springRate`, coilover.springRate, { above: 0 }, true);
  check.number(`${path}.springForce`, springForce);
  check.number(`${path}.freeLength`, freeLength, { above: 0 }, perchSetting !== undefined);
  check.number(`${path}.perchSetting`, perchSetting, {}, freeLength !== undefined);
  if (springForce !== undefined && freeLength !== undefined)
    check.faults.push(fault('forceAndFreeLength', `${path}.springForce`));
  check.number(`${path}.perchMove`, coilover.perchMove);
  check.number(`${path}.gasForce`, coilover.gasForce, { min: 0 });
  check.number(`${path}.damping`, coilover.damping, { min: 0 });
  if (
    damper !== undefined &&
    check.fields(`${path}.damper`, damper, ['extendedLength', 'compressedLength'])
  ) {
    check.number(`${path}.damper.extendedLength`, damper.extendedLength, { above: 0 }, true);
    check.number(`${path}.damper.compressedLength`, damper.compressedLength, { above: 0 }, true);
  }
  if (bumpStop !== undefined && check.fields(`${path}.bumpStop`, bumpStop, ['height', 'table'])) {
    check.number(`${path}.bumpStop.height`, bumpStop.height, { above: 0 }, true);
    checkTable(check, `${path}.bumpStop.table`, bumpStop.table);
    if (damper === undefined) check.faults.push(fault('stopWithoutDamper', `${path}.bumpStop`));
  }
}

function checkTable(check: Checker, path: string, table: unknown): void {
  const isTable =
    Array.isArray(table) &&
    table.length > 0 &&
    table.every((row) => Array.isArray(row) && row.length === 2 && row.every(Number.isFinite));
  const rises = (rows: BumpStopTable) =>
    rows.every(([at, force], k) => {
      const [before, forceBefore] = rows[k - 1] ?? [0, 0];
      return (k === 0 && at === 0 && force === 0) || (at > before && force >= forceBefore);
    });
  if (!isTable || !rises(table as BumpStopTable))
    check.faults.push(fault('notARisingTable', path, { got: show(table) }));
}

/** Refuses loads that a car cannot have; `also` is what else is wrong with the options that they are among. */
export function checkLoads(car: CarOnAxles, loads: CarLoads, also: readonly Diagnostic[] = []): void {
  const check = new Checker();
  if (check.fields('', loads, LOADS)) {
    const { lateralSplit, deceleration, longitudinalTransfer, downforce } = loads;
    const bounds = { min: -MOST_G, max: MOST_G };
    check.number('lateralAcceleration', loads.lateralAcceleration, bounds);
    check.number('deceleration', deceleration, bounds);
    check.number('longitudinalTransfer', longitudinalTransfer);
    if (deceleration !== undefined && longitudinalTransfer !== undefined)
      check.faults.push(fault('decelerationAndTransfer', 'longitudinalTransfer'));
    if (deceleration !== undefined && car.wheelbase === undefined)
      check.faults.push(fault('wheelbaseMissing', 'deceleration'));
    if (
      (deceleration !== undefined || longitudinalTransfer !== undefined) &&
      (car.front === undefined || car.rear === undefined)
    )
      check.faults.push(
        fault('oneAxleOnly', deceleration === undefined ? 'longitudinalTransfer' : 'deceleration'),
      );
    if (downforce !== undefined && check.fields('downforce', downforce, AXLES))
      for (const name of AXLES) check.number(`downforce.${name}`, downforce[name]);
    if (lateralSplit !== undefined && lateralSplit !== 'proportional' && lateralSplit !== 'equal')
      check.faults.push(
        fault('unknownChoice', 'lateralSplit', {
          got: show(lateralSplit),
          allowed: ['proportional', 'equal'],
        }),
      );
  }
  refuse('loads', [...check.faults, ...also]);
}

/** Eye-to-eye length at which the bump stop makes contact, mm; null without one. */
export function stopContact({ bumpStop, damper }: WheelCoilover): number | null {
  return contactLength(bumpStop, damper);
}
