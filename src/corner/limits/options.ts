import { limitFindings } from '../../document/limit-findings.ts';
import { limitOptionsSchema } from '../../document/limits-schema.ts';
import { parse, valueAt } from '../../document/parse.ts';
import { refuse } from '../../errors/file.ts';
import type { Point } from '../../linkage/drawing.ts';
import type { CornerModel } from '../model.ts';
import { type Tyre, tyreFindings, tyreOf } from '../tyre.ts';
import { partFindings } from './part-findings.ts';

/**
 * What ends the travel of a corner; all optional, mm and degrees. Points and directions are `[y, z]` in the corner's own
 * coordinates: y outboard, chassis fixed, at the drawn ride height.
 */
export interface LimitOptions {
  /** Extended (longest) and compressed (shortest) length of the damper to order, between the centres of its end eyes. */
  readonly damper?: { readonly extendedLength: number; readonly compressedLength: number } | undefined;
  /**
   * Bump stop on the shaft: contact at compressed length + `height`, solid at compressed length + `solidHeight`. The first is an
   * event, the second a limit. Needs `damper`.
   */
  readonly bumpStop?: { readonly height: number; readonly solidHeight: number } | undefined;
  /** Length between the end eyes at which the spring is at its minimum permissible length, as `sizeCoilovers` finds it. */
  readonly springMinLengthAt?: number | undefined;
  /** Tyre by its overall (unloaded) radius and width, or by its marking: '205/55R16'. */
  readonly tyre?: Tyre | string | undefined;
  /** Points of the wheel arch and its inner panel, fixed in the chassis. Needs `tyre`. */
  readonly arch?: readonly Point[] | undefined;
  /** Lowest points of the chassis. Both wheels move alike: the ground stays under both contact patches. */
  readonly chassisLowPoints?: readonly Point[] | undefined;
  /**
   * Ball joints and rod ends, by the point where they join two parts: `lowerOuter`, `upperOuter`; of a corner with a rocker
   * `rodMount`, `rodRockerMount` too; of a custom corner any point of its drawing that joins two bodies.
   */
  readonly ballJoints?: { readonly [point: string]: BallJoint | undefined } | undefined;
  /** Bearings at the ends of the coilover: `mount` moves; the other is `chassis`, or `otherEnd` where that moves too. */
  readonly bearings?:
    | {
        readonly mount?: Bearing | undefined;
        readonly chassis?: Bearing | undefined;
        readonly otherEnd?: Bearing | undefined;
      }
    | undefined;
  /** Required travel from the design ride height, both positive, mm. */
  readonly required?: { readonly bump?: number | undefined; readonly droop?: number | undefined } | undefined;
  /**
   * A donor damper, for comparison: its length between the end eyes, and the state in which that was measured. `stroke` is its travel from
   * extended to compressed.
   */
  readonly donor?: Donor | undefined;
}

/** A ball joint. */
export interface BallJoint {
  /** Largest angle between the axes of stud and housing, degrees. */
  readonly maxArticulation: number;
  /** Which part holds the housing, `arm`, `upright`, or by its name; the stud is bolted to the other. */
  readonly housing: string;
  /** Direction `[y, z]` of the housing at ride height, out of its mouth, any length; default: along the stud. */
  readonly housingAxis?: Point | undefined;
  /** Direction `[y, z]` of the stud at ride height, towards its thread, any length; default: along the housing. */
  readonly studAxis?: Point | undefined;
}

/** The bearing at one end of the coilover. */
export interface Bearing {
  /** Direction of the bolt's axis: longitudinal, or in the transverse plane and square to the coilover at ride height. */
  readonly boltAxis: 'longitudinal' | 'inPlane';
  /** Largest misalignment to either side, degrees; see `bearingMisalignment`. */
  readonly maxMisalignment: number;
}

/** An existing damper, for comparison; mm. */
export interface Donor {
  readonly length: number;
  readonly state: 'extended' | 'compressed' | 'measured';
  readonly stroke?: number | undefined;
}

/** Options that have been checked, with the tyre as numbers. */
export interface CheckedOptions extends Omit<LimitOptions, 'tyre'> {
  readonly tyre?: Tyre | undefined;
}

/**
 * Checks the options for a corner.
 *
 * @throws InputError with every issue.
 */
export function checkOptions(options: LimitOptions, model: CornerModel): CheckedOptions {
  const check = (value: unknown) => [
    ...limitFindings(value, 'metric'),
    ...tyreFindings(value, ['tyre']),
    ...partFindings(value, model),
  ];
  const given = parse(limitOptionsSchema, withoutEmpty(options), 'limit options', check, refuse);
  const { tyre, notes: _, ...others } = given;
  return { ...others, ...(tyre === undefined ? {} : { tyre: tyreOf(tyre) }) };
}

/** An empty list, in a file a slip, is here no list. */
function withoutEmpty(options: unknown): unknown {
  if (!LISTS.some((name) => isEmptyList(valueAt(options, [name]))) || Array.isArray(options)) return options;
  return Object.fromEntries(
    Object.entries(options as object).filter(
      ([name, value]) => !(LISTS.includes(name) && isEmptyList(value)),
    ),
  );
}

function isEmptyList(value: unknown): boolean {
  return Array.isArray(value) && value.length === 0;
}

const LISTS = ['arch', 'chassisLowPoints'];
