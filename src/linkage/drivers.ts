// What several drivers along one parameter u are asked for, as a system with a row for each (driven-rows.ts) that u drives.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/drivers.ts';
import type { Drawing } from './drawing.ts';
import { drivenSystem, type Scheduled } from './driven-rows.ts';
import { isConstant } from './form.ts';
import { isRecord } from './joints.ts';
import { type BoundMeasure, bindMeasure, type Measure, measureFaults } from './measure.ts';
import { drawnValue } from './measure-series.ts';
import { downTo, type Schedule, type ScheduleFunction, scheduleOf, straight } from './schedule.ts';
import { stationaryDriver } from './stationary-driver.ts';
import { compile, type System } from './system.ts';

/** One of several drivers, and where it is as the parameter u of the motion goes from 0 to 1. In the drawing's unit, or radians. */
export type ScheduledDriver<P extends string = string, B extends string = string> =
  | {
      readonly driver: Measure<P, B>;
      /** Value at u = 0; default as drawn. */
      readonly from?: number;
      /** Value at u = 1. In between it goes in proportion to u. */
      readonly to: number;
    }
  | {
      readonly driver: Measure<P, B>;
      /** Value at any u, with its first and second derivative by u; as drawn at u = 0. */
      readonly schedule: ScheduleFunction;
    };

/** What several drivers are asked for. */
export interface DriversOptions {
  readonly drivers: readonly ScheduledDriver[];
  readonly hold?: readonly Measure[];
  /** The range of u; default 0 to 1. */
  readonly from?: number;
  readonly to?: number;
}

/** A path to be laid: a system, the measure that drives it, and its range. */
export interface DrivenTask {
  readonly system: System;
  readonly measure: BoundMeasure;
  readonly from: number;
  readonly to: number;
  /** The driven length that comes to nothing there, if one does: it can grow again, but get no shorter. */
  readonly fromNothing: string | undefined;
  readonly toNothing: string | undefined;
  /** The driver that by itself cannot go on in a pose at a dead point, if it is one. */
  stuckAt(pose: Float64Array): string | undefined;
}

/** The drawn pose may be so far off the schedules, as a share of the size or of a radian: an input's last digit. */
const OFF = 1e-6;
/** A length that is down to this share of the size has come to nothing. */
const NOTHING = 1e-9;

/**
 * The system of a drawing with a row for each driver and each measure that is held, and the parameter that drives it.
 *
 * @throws InputError for drivers that are none, or do not pass the drawn pose.
 */
export function drivenTask(
  drawing: Drawing,
  { drivers, hold = [], from = 0, to = 1 }: DriversOptions,
): DrivenTask {
  const system = compile(drawing);
  const bind = (measure: Measure, path: string) => {
    const bound = bindMeasure(system, measure, path);
    const isNothing = bound.kind === 'length' && drawnValue(bound) === 0;
    if (isConstant(bound.form) && bound.frame === null)
      refuse('linkage', [fault('driverNeverChanges', path)]);
    if (isNothing) refuse('linkage', [fault('driverOfNoLength', path)]);
    return bound;
  };
  const asked = drivers.map((one, k) => ({ ...one, measure: bind(one.driver, `drivers[${k}].driver`) }));
  const drawn = drawnParameter(asked);
  const faults: Diagnostic[] = [];
  for (const [name, value] of Object.entries({ from, to })) {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', name, { got: show(value) }));
  }
  const rounding = 8 * Number.EPSILON;
  if (from > drawn + rounding)
    faults.push(fault('rangeWithoutDrawnPose', 'from', { got: show(from), max: drawn }));
  if (to < drawn - rounding) faults.push(fault('rangeWithoutDrawnPose', 'to', { got: show(to), min: drawn }));
  refuse('driver range', faults);
  const range = { from, to, drawn };
  const scheduled: Scheduled[] = asked.map((one, k) => {
    const label = `drivers[${k}]`;
    return { label, measure: one.measure, schedule: boundSchedule(one, label, range, system.size, faults) };
  });
  refuse('drivers', faults);
  hold.forEach((one, k) => {
    const label = `hold[${k}]`;
    scheduled.push({ label, measure: bind(one, label), schedule: straight(0, 0) });
  });
  const [low, high] = [from, to].map((end) => {
    let nearest: { at: number; by?: string } = { at: end - drawn };
    for (const { label, measure, schedule } of scheduled) {
      if (measure.kind !== 'length') continue;
      const nothing = Math.abs(measure.offset) + NOTHING * system.size;
      const at = downTo(schedule, nothing - drawnValue(measure), nearest.at);
      if (at !== nearest.at) nearest = { at, by: label };
    }
    return nearest;
  });
  const { system: driven, parameter } = drivenSystem(system, scheduled, drawn, to - from || 1);
  return {
    system: driven,
    measure: parameter,
    from: low.by === undefined ? from : drawn + low.at,
    to: high.by === undefined ? to : drawn + high.at,
    fromNothing: low.by,
    toNothing: high.by,
    stuckAt: (pose) => stationaryDriver(system, scheduled, pose.subarray(0, system.unknowns)),
  };
}

/** A driver as asked for, and bound. */
type Asked = ScheduledDriver & { readonly measure: BoundMeasure };

/** Where the parameter is in the drawn pose: where a driver that goes straight from a value to another has its drawn value. */
function drawnParameter(asked: readonly Asked[]): number {
  for (const one of asked) {
    if ('schedule' in one || one.from === undefined || one.from === one.to) continue;
    return (drawnValue(one.measure) - one.from) / (one.to - one.from);
  }
  return 0;
}

/** What a driver's schedule adds to its drawn value, by how far the parameter is from where it is drawn. */
function boundSchedule(
  one: Asked,
  path: string,
  { from, to, drawn }: { readonly from: number; readonly to: number; readonly drawn: number },
  size: number,
  faults: Diagnostic[],
): Schedule {
  const start = drawnValue(one.measure);
  const scale = one.measure.unit ?? size;
  let change: number;
  let schedule: Schedule;
  if ('schedule' in one) {
    let wrong: Diagnostic | undefined;
    const added: ScheduleFunction = (v) => {
      const given: unknown = one.schedule(drawn + v);
      if (isThreeNumbers(given)) return [given[0] - start, given[1], given[2]];
      wrong ??= fault('scheduleNotNumbers', `${path}.schedule`, { at: drawn + v, got: show(given) });
      return [Number.NaN, Number.NaN, Number.NaN];
    };
    [change] = added(0);
    const found = scheduleOf(added, from - drawn, to - drawn, Math.max(scale, Math.abs(start)));
    if (typeof found === 'number') {
      faults.push(wrong ?? fault('scheduleDerivatives', `${path}.schedule`, { at: drawn + found }));
      return straight(0, 0);
    }
    schedule = found;
  } else {
    const { from: first = start, to: last } = one;
    change = first - start + drawn * (last - first);
    schedule = straight(change, last - first);
  }
  if (!(Math.abs(change) <= OFF * Math.max(scale, Math.abs(start)))) {
    faults.push(fault('drawnPoseOffSchedule', path, { got: start + change, at: drawn, drawn: start }));
  }
  return schedule;
}

function isThreeNumbers(given: unknown): given is [number, number, number] {
  return Array.isArray(given) && given.length === 3 && given.every(Number.isFinite);
}

/** What is wrong with a list of drivers; `known` are the names that one may have. */
export function driverFaults(drivers: unknown, under: string, known: readonly string[]): Diagnostic[] {
  if (!Array.isArray(drivers) || drivers.length === 0) {
    return [fault('noDriver', under, { got: show(drivers) })];
  }
  return drivers.flatMap((one: unknown, k): Diagnostic[] => {
    const path = `${under}[${k}]`;
    if (!isRecord(one)) return [fault('notADriver', path, { got: show(one) })];
    const hasSchedule = known.includes('schedule') && 'schedule' in one;
    const faults = [
      ...unknownOptions(one, hasSchedule ? ['driver', 'schedule'] : known, path),
      ...measureFaults(one.driver, `${path}.driver`),
    ];
    if (hasSchedule) {
      if (typeof one.schedule !== 'function') {
        faults.push(fault('notASchedule', `${path}.schedule`, { got: show(one.schedule) }));
      }
      return faults;
    }
    for (const name of ['from', 'to']) {
      const value = one[name];
      if (Number.isFinite(value) || (name === 'from' && value === undefined)) continue;
      faults.push(fault('notFinite', `${path}.${name}`, { got: show(value) }));
    }
    return faults;
  });
}
