import type { Diagnostic } from '../../diagnostic.ts';
import type { LimitOptions } from '../../document/inputs.ts';
import { type Corner, modelOf } from '../corner.ts';
import type { CornerModel } from '../model.ts';
import { articulationBounds } from './articulation.ts';
import { misalignmentBounds } from './bearing-misalignment.ts';
import { type Bound, marginOf, TOUCH } from './bound.ts';
import { askEyes, damperBounds } from './damper.ts';
import { compareDonor, type DonorComparison } from './donor.ts';
import { type Crossing, firstCrossing, type Side } from './first-crossing.ts';
import { groundBounds } from './ground-clearance.ts';
import { metAt, misfitOf } from './limit-diagnostics.ts';
import { notesOn } from './notes.ts';
import { type CheckedOptions, checkOptions } from './options.ts';
import { askReason, ratioBound } from './ratio.ts';
import { springBounds } from './spring.ts';
import { type TravelMargins, travelMarginsOf } from './travel-margins.ts';
import { layTravelPath, type TravelPath } from './travel-path.ts';
import { askDeadPart, endOf } from './travel-path-end.ts';
import { tyreBounds } from './tyre-clearance.ts';

/**
 * What can end the travel: damper fully extended or compressed, bump stop solid, the spring at its minimum permissible length, a ball joint or an
 * end bearing at its largest angle, tyre against the arch, chassis on the ground, a dead point of the linkage, the installation ratio at zero, a
 * linkage that locks, or a bifurcation, beyond which its motion is not determined.
 */
export type LimitCause =
  | 'damperExtended'
  | 'damperCompressed'
  | 'bumpStopSolid'
  | 'springMinLength'
  | 'ballJointArticulation'
  | 'bearingMisalignment'
  | 'tyreContact'
  | 'groundContact'
  | 'deadPoint'
  | 'ratioZero'
  | 'locked'
  | 'bifurcation';

/** One end that the travel can come to. */
export interface Limit {
  readonly side: Side;
  /** Travel of the contact patch there, mm: bump positive, droop negative. */
  readonly travel: number;
  readonly cause: LimitCause;
  /**
   * Which of several: `lowerOuter`, `mount`, `arch[2]`, `chassisLowPoints[0]`, with a rocker `arms` or `rodAndRocker` for a dead point;
   * empty where there is but one.
   */
  readonly part: string;
  /** The same as a diagnostic; its `path`, as all of limits, is a place in the options. */
  readonly diagnostic: Diagnostic;
}

/** A contact on the way that does not end the travel. */
export interface LimitEvent {
  readonly side: Side;
  /** mm, bump +. */
  readonly travel: number;
  /** First contact with the bump stop. */
  readonly event: 'bumpStopContact';
  readonly diagnostic: Diagnostic;
}

/** Where the travel of a corner ends. */
export interface Limits {
  /** The first limit on each side of design ride height; null if there is none. */
  readonly bump: Limit | null;
  readonly droop: Limit | null;
  /** All limits beyond the first, on both sides, nearest to ride height first. */
  readonly later: readonly Limit[];
  readonly events: readonly LimitEvent[];
  /** Parts already past a limit at design ride height, with the overlap; empty if all fit. */
  readonly misfits: readonly Diagnostic[];
  /** Margins of the required travel, for the sides where it was given. */
  readonly travelMargins?: TravelMargins;
  /** The new damper compared with the donor damper, and the donor by itself. */
  readonly donor?: DonorComparison;
  /** What looks wrong, or was not counted. */
  readonly notes: readonly Diagnostic[];
}

/**
 * Where the travel of a corner ends, why, and what would end it later.
 *
 * The search runs from the drawn pose to the ends of the linkage's motion. Each limit is located to 1e-9 mm (degrees, for an angle). A
 * limit that is reached and not crossed counts. Each cause and part is given once per side, where it is first reached. A part that is past
 * its limit as drawn leaves no travel to the side on which the overlap grows.
 *
 * @throws InputError for invalid options, with every issue, and for a corner without exactly one degree of freedom.
 */
export function limits(corner: Corner, options: LimitOptions = {}): Limits {
  const model = modelOf(corner);
  return limitsOf(model, checkOptions(options, model));
}

/** Where the travel of a corner's model ends, as `limits`. */
export function limitsOf(model: CornerModel, given: CheckedOptions): Limits {
  const { course: travelPath, planned } = layTravelPath(model, (ask) => {
    const eyes = askEyes(model, ask);
    const damper = damperBounds(given, eyes);
    const bounds: Bound<LimitCause>[] = [
      ...damper.limits,
      ...springBounds(given, eyes),
      ...articulationBounds(given, model, ask),
      ...misalignmentBounds(given, model, eyes, ask),
      ...tyreBounds(given, model, ask),
      ...groundBounds(given, model),
    ];
    const reason = askReason(model, eyes, ask);
    return { eyes, bounds, reason, contact: damper.contact, deadPart: askDeadPart(model, ask) };
  });
  const { eyes, contact, deadPart } = planned;
  const bounds: Bound<LimitCause>[] = [...planned.bounds, ratioBound(eyes, travelPath, planned.reason)];

  const meetings = <Cause extends string>(bound: Bound<Cause>) =>
    SIDES.flatMap((side) => {
      const meeting = nearest(travelPath, bound, side);
      if (meeting === null) return [];
      const { travel, pose, misfit } = meeting;
      const diagnostic = misfit ? misfitOf(bound, pose) : metAt(bound, side, travel, bound.met(pose));
      return [{ side, travel, diagnostic }];
    });

  const found = bounds.flatMap((bound): Limit[] =>
    meetings(bound).map(({ side, travel, diagnostic }) => {
      return { side, travel, cause: bound.cause, part: bound.part, diagnostic };
    }),
  );
  for (const side of SIDES) {
    const end = endOf(travelPath, side, deadPart);
    if (end !== null) found.push({ side, ...end });
  }
  // Stable: what is met together stays in the order in which it was looked for.
  found.sort((a, b) => Math.abs(a.travel) - Math.abs(b.travel));
  const first = (side: Side) => found.find((limit) => limit.side === side) ?? null;
  const [bump, droop] = [first('bump'), first('droop')];

  const misfits = bounds
    .filter((bound) => isMisfit(bound, travelPath))
    .map((bound) => misfitOf(bound, travelPath.drawn));
  const travelMargins = travelMarginsOf(given.required, { bump, droop }, misfits.length === 0);
  const donor = compareDonor(given, model, travelPath, eyes);
  return {
    bump,
    droop,
    later: found.filter((limit) => limit !== bump && limit !== droop),
    events: contact.flatMap((bound) => meetings(bound).map((met) => ({ ...met, event: bound.cause }))),
    misfits,
    ...(travelMargins === undefined ? {} : { travelMargins }),
    ...(donor === undefined ? {} : { donor }),
    notes: notesOn(given, model, travelPath, eyes),
  };
}

const SIDES = ['bump', 'droop'] as const;

/** The nearest meeting with a bound, in any of its ways. */
function nearest<Cause>(travelPath: TravelPath, { ways }: Bound<Cause>, side: Side): Crossing | null {
  let best: Crossing | null = null;
  for (const way of ways) {
    const meeting = firstCrossing(travelPath, way, side);
    if (meeting !== null && (best === null || Math.abs(meeting.travel) < Math.abs(best.travel)))
      best = meeting;
  }
  return best;
}

function isMisfit({ ways }: Bound<LimitCause>, { drawn }: TravelPath): boolean {
  return ways.some((way) => marginOf(way, drawn) < -TOUCH);
}
