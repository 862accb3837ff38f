import { hardpointsOf } from '../corner/hardpoint-coordinates.ts';
import { holdersOf } from '../corner/limits/joints.ts';
import type { CornerModel } from '../corner/model.ts';
import { type Tyre, tyreFindings, tyreOf } from '../corner/tyre.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/design.ts';
import { isPoint } from '../linkage/drawing.ts';
import { jointsIn } from '../linkage/joints.ts';
import type { Bounds, Box } from '../numerics/box.ts';
import { meantName } from '../spelling.ts';
import { checkSearch, SEARCH_OPTIONS, type SearchOptions } from '../synthesis/search-options.ts';
import { armsOf, type CheckedClearances, type Clearances } from './clearances.ts';
import { OBJECTIVES, type Objective } from './objectives.ts';
import type { TrialPlan } from './trial.ts';

/** What may be moved, what for, and within what. */
export interface DesignOptions extends SearchOptions {
  /**
   * Boxes of the points that may be moved, by name (`shockMount`), each axis that is given; `[min, max]` in mm, in the
   * corner's own coordinates. The corner as drawn must lie in them.
   */
  readonly mounts: Readonly<Record<string, { readonly y?: Bounds; readonly z?: Bounds }>>;
  readonly objectives: readonly Objective[];
  readonly clearances?: Clearances;
  /** Travel that the corner is looked at in, mm, both positive, and the distance of the rows; default 80, 80, 10. */
  readonly travel?: { readonly bump?: number; readonly droop?: number; readonly step?: number };
}

/** Options that have been checked, with defaults. */
export interface CheckedDesign {
  readonly plan: TrialPlan;
  readonly boxes: readonly Box[];
  readonly objectives: readonly Objective[];
  readonly clearances: CheckedClearances;
  readonly starts: number;
  readonly seed: number;
}

const OPTIONS = ['mounts', 'objectives', 'clearances', 'travel', ...SEARCH_OPTIONS];
const AXES = ['y', 'z'] as const;
const MAX_ROWS = 1000;
const WHAT = 'design options';

/**
 * Checks the options for a corner, all but what only moving it can show.
 *
 * @throws InputError with every issue.
 */
export function checkDesign(model: CornerModel, options: DesignOptions): CheckedDesign {
  const faults = unknownOptions(options, OPTIONS);
  refuse(
    WHAT,
    faults.filter(({ path }) => path === ''),
  );
  const add: Add = (code, path, got, values = {}) => {
    faults.push(fault(code, path, { ...(got === undefined ? {} : { got: show(got) }), ...values }));
  };
  const moved = checkMounts(model, options.mounts, add);
  checkObjectives(model, options.objectives, add);
  const clearances = checkClearances(model, options.clearances, add, faults);
  const { bump = 80, droop = 80, step = 10 } = isRecord(options.travel) ? options.travel : {};
  if (options.travel !== undefined) {
    const known = unknownNames('travel', options.travel, ['bump', 'droop', 'step'], add);
    if (known) {
      for (const [name, value] of Object.entries({ bump, droop })) {
        if (!isNumber(value, 0)) add('notADistance', `travel.${name}`, value);
      }
      const length = [bump, droop].reduce((sum, one) => sum + (isNumber(one, 0) ? one : 0), 0);
      if (!(isNumber(step, 0) && step > 0 && length / step <= MAX_ROWS)) {
        add('notAStep', 'travel.step', step, { maxRows: MAX_ROWS });
      }
    }
  }
  const { starts, seed } = checkSearch(options, faults);
  refuse(WHAT, faults);
  return {
    plan: {
      model,
      coordinates: moved.map(({ coordinate }) => coordinate),
      sweep: { bump, droop, step },
    },
    boxes: moved.map(({ box }) => box),
    objectives: options.objectives,
    clearances,
    starts,
    seed,
  };
}

type Add = (code: string, path: string, got: unknown, values?: Diagnostic['values']) => void;

function isNumber(value: unknown, least = Number.NEGATIVE_INFINITY): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value >= least;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Tells what is no record, or has names that are not known; whether it is a record. */
function unknownNames(
  path: string,
  value: unknown,
  known: readonly string[],
  add: Add,
): value is Record<string, unknown> {
  if (!isRecord(value)) {
    add('notAnObject', path, value, { allowed: known });
    return false;
  }
  for (const name of Object.keys(value)) {
    if (known.includes(name)) continue;
    const meant = meantName(name, known) ?? null;
    add('unknownField', `${path}.${name}`, undefined, { allowed: known, meant });
  }
  return true;
}

function checkMounts(model: CornerModel, mounts: unknown, add: Add) {
  const all = hardpointsOf(model).filter(
    ({ point }) => point !== model.wheelCentre && point !== model.contactPatch,
  );
  const names = [...new Set(all.map(({ point }) => point))];
  const given = unknownNames('mounts', mounts, names, add) ? mounts : {};
  const moved = all.flatMap((coordinate) => {
    const { point, axis } = coordinate;
    const box = given[point];
    if (box === undefined) return [];
    const range: unknown = isRecord(box) ? box[AXES[axis]] : undefined;
    if (range === undefined) return [];
    const path = `mounts.${point}.${AXES[axis]}`;
    if (
      !(
        Array.isArray(range) &&
        range.length === 2 &&
        range.every((one) => isNumber(one)) &&
        range[0] < range[1]
      )
    ) {
      add('notARange', path, range);
      return [];
    }
    const [least, most]: number[] = range;
    const drawn = model.drawing.points[point][axis];
    if (drawn < least || drawn > most) {
      add('boxWithoutDrawnCorner', path, range, {
        drawn,
        isMirrored: -drawn >= least && -drawn <= most,
      });
    }
    return [{ coordinate, box: { least, most } }];
  });
  for (const [point, box] of Object.entries(given)) {
    if (!names.includes(point)) continue;
    if (unknownNames(`mounts.${point}`, box, AXES, add) && Object.keys(box).length === 0) {
      add('emptyBox', `mounts.${point}`, box);
    }
  }
  if (isRecord(mounts) && Object.keys(mounts).length === 0) {
    add('noBoxes', 'mounts', mounts, { points: names });
  }
  return moved;
}

const GOAL = ['quantity', 'target', 'min', 'max', 'tolerance', 'weight'];
/** What an objective has besides. */
const FIGURES: Readonly<Record<string, readonly string[]>> = {
  strokeFraction: ['stroke'],
  springRate: ['sprungMass', 'frequency'],
  jointForce: ['joint', 'tyre', 'station', 'unsprungMass'],
};
const STATIONS = ['droop', 'design', 'bump'];

function checkObjectives(model: CornerModel, objectives: unknown, add: Add): void {
  if (!Array.isArray(objectives) || objectives.length === 0) {
    add('noObjectives', 'objectives', objectives);
    return;
  }
  objectives.forEach((one: unknown, k) => {
    checkObjective(`objectives[${k}]`, model, one, add);
  });
}

function checkObjective(path: string, model: CornerModel, one: unknown, add: Add): void {
  if (!isRecord(one)) {
    add('notAnObjective', path, one);
    return;
  }
  const { quantity } = one;
  const kinds = Object.keys(OBJECTIVES);
  if (typeof quantity !== 'string' || !kinds.includes(quantity)) {
    const meant = typeof quantity === 'string' ? (meantName(quantity, kinds) ?? null) : null;
    add('unknownObjective', `${path}.quantity`, quantity, { allowed: kinds, meant });
    return;
  }
  unknownNames(path, one, [...GOAL, ...(FIGURES[quantity] ?? [])], add);
  checkGoal(path, one, add);
  const positive = (name: string, unit: string) => {
    const value = one[name];
    if (isNumber(value, 0) && value > 0) return;
    const code = value === undefined ? 'missingNumber' : 'outOfRange';
    add(code, `${path}.${name}`, value, { above: 0, unit });
  };
  if (quantity === 'strokeFraction') positive('stroke', 'mm');
  if (quantity === 'springRate') {
    positive('sprungMass', 'kg');
    positive('frequency', 'Hz');
  }
  if (quantity === 'jointForce') checkJointForce(path, model, one, add);
}

function checkGoal(
  path: string,
  { target, min, max, tolerance, weight }: Readonly<Record<string, unknown>>,
  add: Add,
) {
  for (const [name, value] of Object.entries({ target, min, max })) {
    if (value !== undefined && !isNumber(value)) add('notFinite', `${path}.${name}`, value);
  }
  const some = min !== undefined || max !== undefined;
  if ((target !== undefined) === some) {
    add(some ? 'targetAndBounds' : 'noGoal', path, undefined);
  } else if (isNumber(min) && isNumber(max) && min > max) {
    add('boundsReversed', path, [min, max]);
  }
  if (tolerance !== undefined && !(isNumber(tolerance, 0) && tolerance > 0)) {
    add('outOfRange', `${path}.tolerance`, tolerance, { above: 0 });
  }
  if (weight !== undefined && !isNumber(weight, 0)) add('outOfRange', `${path}.weight`, weight, { min: 0 });
}

function checkJointForce(
  path: string,
  model: CornerModel,
  { joint, tyre, station, unsprungMass }: Readonly<Record<string, unknown>>,
  add: Add,
): void {
  const { outer, inner } = model.shock;
  const { bodies, ground } = model.drawing;
  const moving = (point: string) =>
    !ground.includes(point) && Object.values(bodies).some((points) => points.includes(point));
  const held = jointsIn(model.drawing).flatMap(({ points }) => points.filter(moving));
  const joints = [...new Set([...Object.keys(holdersOf(model)), outer, inner, ...held])];
  if (typeof joint !== 'string' || !joints.includes(joint)) {
    add(joint === undefined ? 'missing' : 'unknownJoint', `${path}.joint`, joint, { allowed: joints });
  }
  if (!isPoint(tyre)) add(tyre === undefined ? 'missingForce' : 'notAWheelForce', `${path}.tyre`, tyre);
  if (station !== undefined && !STATIONS.includes(station as string)) {
    add('unknownChoice', `${path}.station`, station, { allowed: STATIONS });
  }
  if (unsprungMass !== undefined && !isNumber(unsprungMass, 0)) {
    add('outOfRange', `${path}.unsprungMass`, unsprungMass, { min: 0, unit: 'kg' });
  }
}

const CLEARANCES = ['mountToArm', 'springToArm', 'springToTyre', 'spring', 'tyre'];

function checkClearances(
  model: CornerModel,
  clearances: unknown,
  add: Add,
  faults: Diagnostic[],
): CheckedClearances {
  if (clearances === undefined || !unknownNames('clearances', clearances, CLEARANCES, add)) return {};
  const { mountToArm, springToArm, springToTyre, spring, tyre } = clearances;
  const arms = Object.keys(armsOf(model));
  for (const [name, distances] of Object.entries({ mountToArm, springToArm })) {
    if (distances === undefined || !unknownNames(`clearances.${name}`, distances, arms, add)) continue;
    for (const [arm, distance] of Object.entries(distances)) {
      if (arms.includes(arm) && !isNumber(distance, 0))
        add('outOfRange', `clearances.${name}.${arm}`, distance, { min: 0, unit: 'mm' });
    }
  }
  if (springToTyre !== undefined && !isNumber(springToTyre, 0)) {
    add('outOfRange', 'clearances.springToTyre', springToTyre, { min: 0, unit: 'mm' });
  }
  const wantsSpring = springToArm !== undefined || springToTyre !== undefined;
  if (
    spring === undefined
      ? wantsSpring
      : unknownNames('clearances.spring', spring, ['diameter', 'seatOffset'], add)
  ) {
    const { diameter, seatOffset } = (spring ?? {}) as Record<string, unknown>;
    if (spring === undefined) {
      add('springMissing', 'clearances.spring', undefined);
    } else {
      if (!(isNumber(diameter, 0) && diameter > 0))
        add('outOfRange', 'clearances.spring.diameter', diameter, { above: 0, unit: 'mm' });
      if (!isNumber(seatOffset, 0))
        add('outOfRange', 'clearances.spring.seatOffset', seatOffset, { min: 0, unit: 'mm' });
    }
  }
  if (springToTyre !== undefined && tyre === undefined) {
    add('tyreMissing', 'clearances.tyre', undefined);
  }
  if (tyre !== undefined && typeof tyre !== 'string') {
    const { overallRadius, width } = (isRecord(tyre) ? tyre : {}) as Record<string, unknown>;
    if (!(isNumber(overallRadius, 0) && isNumber(width, 0) && overallRadius > 0 && width > 0)) {
      add('notATyre', 'clearances.tyre', tyre);
    }
  }
  const marking = tyreFindings(clearances, ['tyre']);
  faults.push(...marking.map(({ code, values }) => fault(code, 'clearances.tyre', values)));
  const { tyre: _, ...others } = clearances as Clearances;
  const good =
    tyre !== undefined && marking.length === 0 && !faults.some(({ path }) => path === 'clearances.tyre');
  return { ...others, ...(good ? { tyre: tyreOf(tyre as Tyre | string) } : {}) };
}
