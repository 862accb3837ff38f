import { limitsSchema } from '../../document/limits-schema.ts';
import { parse } from '../../document/parse.ts';
import { InputError, type Issue, show, throwIfAny } from '../../errors.ts';
import type { Point } from '../../linkage/drawing.ts';
import type { Units } from '../../units.ts';
import { type Tyre, tyreFromSize } from '../tyre.ts';

/**
 * What ends the travel of a corner; all optional, mm and degrees. Points and directions are `[y, z]` in the corner's own
 * coordinates: y outboard, chassis fixed, at the drawn ride height.
 */
export interface LimitOptions {
  /** Open (longest) and closed (shortest) length of the damper between the centres of its end eyes. */
  readonly damper?: { readonly open: number; readonly closed: number } | undefined;
  /**
   * Bump stop on the shaft: it is met at closed + `height`, and gives no more at closed + `solidHeight`. The first is an
   * event, the second a limit. Needs `damper`.
   */
  readonly bumpStop?: { readonly height: number; readonly solidHeight: number } | undefined;
  /** Tyre by its overall (unloaded) radius and width, or by its marking: '205/55R16'. */
  readonly tyre?: Tyre | string | undefined;
  /** Points of the wheel arch and its inner panel, fixed in the chassis. Needs `tyre`. */
  readonly arch?: readonly Point[] | undefined;
  /** Lowest points of the chassis. Both wheels move alike: the ground stays under both contact patches. */
  readonly ground?: readonly Point[] | undefined;
  /** Ball joints at the outer ends of the arms. */
  readonly ballJoints?:
    | { readonly lowerOuter?: BallJoint | undefined; readonly upperOuter?: BallJoint | undefined }
    | undefined;
  /** Bearings at the ends of the coilover: `mount` moves, `chassis` does not. */
  readonly ends?:
    | { readonly mount?: BearingEnd | undefined; readonly chassis?: BearingEnd | undefined }
    | undefined;
  /** Travel wanted from ride height, both positive. */
  readonly required?: { readonly bump?: number | undefined; readonly droop?: number | undefined } | undefined;
  /**
   * A unit at hand: its length between the end eyes, and the state in which that was measured. `stroke` is its way from
   * open to closed.
   */
  readonly donor?: Donor | undefined;
  /** What lengths in sentences are written in; default metric. Numbers are mm either way. */
  readonly units?: Units | undefined;
}

/** A ball joint. */
export interface BallJoint {
  /** Largest angle between the axes of stud and housing, degrees. */
  readonly maxArticulation: number;
  /** Which body holds the housing; the stud is bolted to the other. */
  readonly housing: 'arm' | 'upright';
  /** Directions `[y, z]` of the two axes at ride height, any length; default: one along the other. */
  readonly housingAxis?: Point | undefined;
  readonly studAxis?: Point | undefined;
}

/** The bearing at one end of the coilover. */
export interface BearingEnd {
  /** Direction of its bolt: fore-aft, or in the corner's plane and square to the coilover at ride height. */
  readonly bolt: 'foreAft' | 'inPlane';
  /** Largest tilt to either side, degrees; see `bearingTilt`. */
  readonly maxTilt: number;
}

/** A unit at hand, mm. */
export interface Donor {
  readonly length: number;
  readonly state: 'open' | 'closed' | 'measured';
  readonly stroke?: number | undefined;
}

/** Options that have been checked, with the tyre as numbers. */
export interface CheckedOptions extends Omit<LimitOptions, 'tyre' | 'units'> {
  readonly tyre?: Tyre | undefined;
  readonly units: Units;
}

/**
 * Checks the options.
 *
 * @throws InputError with every issue.
 */
export function checkOptions(options: LimitOptions): CheckedOptions {
  if (!isRecord(options)) parse(limitsSchema, options, WHAT);
  const { units = 'metric', ...rest }: LimitOptions = options;
  const issues: Issue[] = [];
  let given: LimitOptions = {};
  try {
    given = parse(limitsSchema, withoutEmpty(rest), WHAT) as LimitOptions;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    issues.push(...error.issues);
  }
  if (units !== 'metric' && units !== 'imperial') {
    issues.push({
      path: 'units',
      problem: 'unknown choice',
      got: show(units),
      allowed: 'metric, imperial',
    });
  }
  issues.push(...contradictions(rest).filter(({ path }) => !told(issues, path)));
  let tyre = typeof given.tyre === 'object' ? given.tyre : undefined;
  if (typeof given.tyre === 'string') {
    try {
      tyre = tyreFromSize(given.tyre);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      issues.push(...error.issues.map((issue) => ({ ...issue, path: 'tyre' })));
    }
  }
  throwIfAny(WHAT, issues);
  const { tyre: _, ...others } = given;
  return { ...others, ...(tyre === undefined ? {} : { tyre }), units };
}

const WHAT = 'limit options';

/** An empty list, in a file a slip, is here no list. */
function withoutEmpty(options: LimitOptions): LimitOptions {
  const isEmpty = (value: unknown) => Array.isArray(value) && value.length === 0;
  return Object.fromEntries(
    Object.entries(options).filter(([name, value]) => !(LISTS.includes(name) && isEmpty(value))),
  );
}

const LISTS = ['arch', 'ground'];

function told(issues: readonly Issue[], path: string): boolean {
  return issues.some((issue) => issue.path === path || path.startsWith(`${issue.path}.`));
}

/** What no single value shows: lengths that contradict each other, directions without one. */
function contradictions(options: LimitOptions): Issue[] {
  const issues: Issue[] = [];
  const { damper, bumpStop, arch, tyre, ballJoints, donor } = options;
  const less = (path: string, small: unknown, large: unknown, than: string, advice: string) => {
    if (!isNumber(small) || !isNumber(large) || small < large) return;
    issues.push({
      path,
      problem: `not less than ${than}`,
      got: `${small} mm`,
      allowed: `less than ${large} mm`,
      advice,
    });
  };
  less(
    'damper.closed',
    damper?.closed,
    damper?.open,
    'damper.open',
    'closed is the length fully compressed, open the length fully extended: are the two exchanged?',
  );
  less(
    'bumpStop.solidHeight',
    bumpStop?.solidHeight,
    bumpStop?.height,
    'bumpStop.height',
    'height is that with no load on it, solidHeight what is left when it gives no more: are the two exchanged?',
  );
  if (isNumber(damper?.open) && isNumber(damper?.closed) && damper.closed < damper.open) {
    less(
      'bumpStop.solidHeight',
      bumpStop?.solidHeight,
      damper.open - damper.closed,
      "the damper's stroke",
      'a stop as high as the stroke leaves nothing of it: check it and the lengths of the damper',
    );
  }
  less(
    'donor.stroke',
    donor?.stroke,
    donor?.length,
    'donor.length',
    'length is that between the end eyes, stroke how far the unit moves',
  );
  if (bumpStop !== undefined && damper === undefined) {
    issues.push({
      path: 'bumpStop',
      problem: 'a bump stop without a damper',
      advice: 'give damper: { open, closed } too: its heights count from the closed length',
    });
  }
  if (Array.isArray(arch) && arch.length > 0 && tyre === undefined) {
    issues.push({
      path: 'arch',
      problem: 'an arch without a tyre',
      advice: "give tyre: { overallRadius, width }, or its marking as '205/55R16'",
    });
  }
  if (isRecord(ballJoints)) {
    for (const [name, joint] of Object.entries(ballJoints)) {
      if (!isRecord(joint)) continue;
      for (const axis of ['housingAxis', 'studAxis'] as const) {
        const direction = joint[axis];
        if (!Array.isArray(direction) || direction[0] !== 0 || direction[1] !== 0) continue;
        issues.push({
          path: `ballJoints.${name}.${axis}`,
          problem: 'no direction',
          got: show(direction),
          allowed: 'a direction [y, z] that is not nothing: [0, 1] is up',
        });
      }
    }
  }
  return issues;
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
