// The figure that the trade takes by hand for wheel rate by spring rate, and the exact one. I, B, M: the arm's chassis
// pivot, its ball joint and the shock's mount on it, as drawn; L the shock, R its installation ratio, ' by travel z.
//
//   hand    d1/d2 = foot of M on the line I-B, from I, over |IB|;   h = (d1/d2)^2 f,  f about cos(inclination from vertical)
//           (common practice, no source)
//   exact   W = F_s R:  k_w/k_s = R^2 + (F_s/k_s) R'    with a linear spring F_s/k_s = F_0/k_s + L_0 - L, F_0 = m g / R_0
//
// From the one to the other in five steps, each of which removes one approximation and multiplies the figure by a factor:
//
//   0  h                                    as taken by hand
//   1  (d1/d2)^2 cos^2(inclination)         the cosine acts twice: on the motion and on the force
//   2  (|IM|/|IB|)^2 cos^2(n)               the angle that counts is n, between shock and the normal of I-M
//   3  R_0^2                                the contact patch moves, not the ball joint
//   4  R^2                                  the ratio of the pose, not of ride
//   5  R^2 + (F_s/k_s) R'                   the ratio changes under a loaded spring
//
// A spring chosen by hand for a wheel rate is k_w/h, the right one k_w/exact: exact/h - 1 is how far off it is.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/corner.ts';
import type { Point } from '../linkage/drawing.ts';
import { DEGREES, GRAVITY } from '../units.ts';
import { type Corner, modelOf } from './corner.ts';
import { rateForFrequency } from './frequency.ts';
import { type CornerModel, carrierOf, pivotOf } from './model.ts';
import { sweep } from './sweep.ts';

/** How the hand figure is taken, and what the exact one is made of; all optional. */
export interface HandMethodOptions {
  /** Factor for the inclination; default the cosine of the inclination from vertical as drawn. */
  readonly factor?: number;
  /** Sprung mass of the corner, kg. With a spring rate or a frequency it gives the geometric part. */
  readonly sprungMass?: number;
  /** N/mm. */
  readonly springRate?: number;
  /** Target frequency at the design ride height, without the tyre, Hz: the spring rate follows from it. */
  readonly frequency?: number;
  /** Travel to look at, mm, both positive; default 80 each, as far as the linkage goes. */
  readonly travel?: { readonly bump: number; readonly droop: number };
}

/** The five approximations of the hand method, in the order in which they are removed. */
export const HAND_METHOD_APPROXIMATIONS = [
  'cosineOnce',
  'angleFromVertical',
  'ballJoint',
  'onePose',
  'noGeometricPart',
] as const;
/** One of the five, by name; `approximationLabel` says it in words. */
export type HandMethodApproximation = (typeof HAND_METHOD_APPROXIMATIONS)[number];

/** The hand estimate compared with the exact value at a travel. */
export interface HandPoint {
  /** mm, bump +. */
  readonly travel: number;
  /** Wheel rate ÷ spring rate, exact. */
  readonly exact: number;
  /** Error of a spring chosen by the hand method: -0.23 is 23 % too soft, 0.1 is 10 % too stiff. */
  readonly error: number;
  /** The factor of each approximation removed; their product is exact ÷ estimate. */
  readonly factors: Readonly<Record<HandMethodApproximation, number>>;
}

/** A corner without a hand estimate, and why. */
export interface NoHandMethod {
  readonly defined: false;
  readonly reason: Diagnostic;
}

/** The hand estimate of a corner. */
export interface HandMethod {
  readonly defined: true;
  /** Along the arm from its pivot to the point square to the mount, mm. */
  readonly d1: number;
  /** Along the arm from its pivot to the ball joint, mm. */
  readonly d2: number;
  /** Inclination of the shock from vertical as drawn, degrees, without sign. */
  readonly inclination: number;
  /** Factor taken for the inclination, 0 to 1. */
  readonly factor: number;
  /** Wheel rate ÷ spring rate by the hand method: (d1 ÷ d2)² × factor. */
  readonly estimate: number;
  /** Whether the exact figure includes the geometric part, and if not, what is missing for it. */
  readonly geometricPart: 'included' | 'noSprungMass' | 'noSpringRate' | 'noPositiveSpringRate';
  /** Spring rate behind the geometric part, N/mm. */
  readonly springRate?: number;
  /** At any travel in the range; throws InputError outside it. */
  at(travel: number): HandPoint;
  readonly ride: HandPoint;
  /** The point of the range with the largest error. */
  readonly worst: HandPoint;
  /** The same over the travel, one entry a row. */
  readonly columns: Readonly<Record<'travel' | 'exact' | 'error', Float64Array>>;
  /** Results as diagnostics. */
  readonly diagnostics: readonly Diagnostic[];
}

const COLUMNS = ['shockLength', 'installationRatio', 'installationRatioSlope'] as const;
const STEP = 1;

/**
 * The single-angle hand figure of a corner, its error, and the factor of each of its approximations.
 *
 * Not defined for a coilover through a rocker, on the upright, or between two moving parts: the hand figure knows one arm
 * only.
 *
 * @throws InputError for options out of range.
 */
export function handMethod(corner: Corner, options: HandMethodOptions = {}): HandMethod | NoHandMethod {
  checkOptions(options);
  const hardpoints = armOf(modelOf(corner));
  if ('code' in hardpoints) return { defined: false, reason: hardpoints };
  const { inner, outer, mount, chassisMount } = hardpoints;
  const curves = sweep(corner, { ...options.travel, step: STEP, columns: COLUMNS });
  const arm = between(inner, outer);
  const reach = between(inner, mount);
  const shock = between(mount, chassisMount);
  const d2 = length(arm);
  const d1 = dot(reach, arm) / d2;
  const inclination = Math.atan2(Math.abs(shock[0]), Math.abs(shock[1]));
  const factor = options.factor ?? Math.cos(inclination);
  const estimate = (d1 / d2) ** 2 * factor;
  const drawn = curves.at(0);
  const ratio0 = drawn.installationRatio;
  if (!(estimate > 0) || ratio0 === null || ratio0 === 0) {
    return { defined: false, reason: note('handMethodWithoutMotion') };
  }
  // Shock length in space: its part in the plane does the work.
  const inPlane = length(shock) / drawn.shockLength;
  const normal = (cross(reach, shock) / (length(reach) * length(shock))) * inPlane;
  const fixed = {
    twice: (d1 / d2) ** 2 * Math.cos(inclination) ** 2,
    fromNormal: (length(reach) / d2) ** 2 * normal ** 2,
    ride: ratio0 ** 2,
  };
  const spring = springOf(options, drawn.installationRatio ?? 0, drawn.installationRatioSlope ?? 0);

  const at = (travel: number): HandPoint => {
    const row = curves.at(travel);
    const ratio = row.installationRatio ?? 0;
    const square = ratio * ratio;
    const stretch =
      spring.compression === null ? null : spring.compression + drawn.shockLength - row.shockLength;
    const exact = square + (stretch ?? 0) * (row.installationRatioSlope ?? 0);
    return {
      travel,
      exact,
      error: exact / estimate - 1,
      factors: {
        cosineOnce: fixed.twice / estimate,
        angleFromVertical: fixed.fromNormal / fixed.twice,
        ballJoint: fixed.ride / fixed.fromNormal,
        onePose: square / fixed.ride,
        noGeometricPart: exact / square,
      },
    };
  };
  const points = Array.from(curves.columns.travel, at);
  const worst = points.reduce((most, point) => (Math.abs(point.error) > Math.abs(most.error) ? point : most));
  const ride = at(0);
  const column = (name: 'travel' | 'exact' | 'error') => Float64Array.from(points, (point) => point[name]);
  return {
    defined: true,
    d1,
    d2,
    inclination: inclination * DEGREES,
    factor,
    estimate,
    geometricPart: spring.geometricPart,
    ...(spring.rate === null ? {} : { springRate: spring.rate }),
    at,
    ride,
    worst,
    columns: { travel: column('travel'), exact: column('exact'), error: column('error') },
    diagnostics: diagnosticsOn(estimate, ride, worst, spring.geometricPart),
  };
}

/** The one arm that the hand figure is about, with the coilover's two ends; or why there is none. */
function armOf(
  model: CornerModel,
): Readonly<Record<'inner' | 'outer' | 'mount' | 'chassisMount', Point>> | Diagnostic {
  const { points, ground, bodies } = model.drawing;
  const { shock, upright } = model;
  if (model.rocker !== null) return note('handMethodThroughRocker');
  if (!ground.includes(shock.inner)) return note('handMethodBetweenMovingParts');
  const arm = carrierOf(model, shock.outer);
  if (arm === upright) return note('handMethodOnUpright');
  const inner = arm === null ? undefined : pivotOf(bodies[arm], ground);
  const outer = arm === null ? undefined : bodies[arm].find((point) => bodies[upright].includes(point));
  if (inner === undefined || outer === undefined) return note('handMethodOffArms');
  return {
    inner: points[inner],
    outer: points[outer],
    mount: points[shock.outer],
    chassisMount: points[shock.inner],
  };
}

interface Spring {
  readonly geometricPart: HandMethod['geometricPart'];
  readonly rate: number | null;
  /** F_0 / k_s: how far the spring is compressed at ride, mm. */
  readonly compression: number | null;
}

/** k_w = m (2 pi f)^2 = k_s R^2 + F_0 R', solved for k_s. */
function springOf(
  { sprungMass, springRate, frequency }: HandMethodOptions,
  ratio: number,
  slope: number,
): Spring {
  const without = (geometricPart: Spring['geometricPart']): Spring => {
    return { geometricPart, rate: null, compression: null };
  };
  if (sprungMass === undefined) return without('noSprungMass');
  if (springRate === undefined && frequency === undefined) return without('noSpringRate');
  const load = (sprungMass * GRAVITY) / ratio;
  const wheelRate = rateForFrequency(sprungMass, frequency ?? 0);
  const rate = springRate ?? (wheelRate - load * slope) / (ratio * ratio);
  if (!(rate > 0)) return without('noPositiveSpringRate');
  return { geometricPart: 'included', rate, compression: load / rate };
}

function note(code: string, values: Diagnostic['values'] = {}): Diagnostic {
  return { code, severity: 'note', path: '', values };
}

function diagnosticsOn(
  estimate: number,
  ride: HandPoint,
  worst: HandPoint,
  geometricPart: HandMethod['geometricPart'],
): Diagnostic[] {
  // At the drawn ride height one pose is right.
  const approximations = HAND_METHOD_APPROXIMATIONS.filter((one) => one !== 'onePose');
  return [
    note('handMethodEstimate', { estimate, exact: ride.exact }),
    note('handMethodError', { ride: ride.error, worst: worst.error, worstTravel: worst.travel }),
    ...approximations.map((approximation) => {
      return note('approximationError', { approximation, error: ride.factors[approximation] - 1 });
    }),
    geometricPart === 'included'
      ? note('geometricPartIncluded')
      : note('geometricPartLeftOut', { because: geometricPart }),
  ];
}

function checkOptions(options: HandMethodOptions): void {
  const faults = unknownOptions(options, OPTIONS);
  const { springRate, frequency } = options ?? {};
  for (const name of POSITIVE) {
    const value = options?.[name];
    if (value === undefined || (typeof value === 'number' && Number.isFinite(value) && value > 0)) continue;
    faults.push(fault('outOfRange', name, { above: 0, got: show(value) }));
  }
  if (springRate !== undefined && frequency !== undefined) {
    faults.push(fault('rateBesideFrequency', 'frequency'));
  }
  refuse('hand method options', faults);
}

const POSITIVE = ['factor', 'sprungMass', 'springRate', 'frequency'] as const;
const OPTIONS = [...POSITIVE, 'travel'];

function between([ay, az]: Point, [by, bz]: Point): Point {
  return [by - ay, bz - az];
}

function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1];
}

function cross(a: Point, b: Point): number {
  return a[0] * b[1] - a[1] * b[0];
}

function length([y, z]: Point): number {
  return Math.hypot(y, z);
}
