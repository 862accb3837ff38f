import { contactLength } from '../../corner/axial-force.ts';
import { travelOf } from '../../corner/spring-stack.ts';
import { type ShockCurve, travelAtLength } from '../wheel.ts';
import { solidLength } from './damper.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import { requiredBy, type TravelRequirement } from './required-travel.ts';
import type { AxleState } from './state.ts';
import type { Extreme } from './uncertainty.ts';

export const LENGTH_FIGURES = {
  designLength: {
    label: 'length at ride height',
    quantity: 'length',
    group: 'order',
    definition: 'eye to eye, centre to centre of the bolts, at design ride height',
  },
  installationRatio: {
    label: 'installation ratio at design ride height',
    quantity: 'ratio',
    group: 'car',
    definition: 'how far the coilover shortens, divided by the bump travel of the contact patch',
  },
  extendedLength: {
    label: 'extended length',
    quantity: 'length',
    group: 'order',
    definition: 'eye to eye, topped out',
  },
  compressedLength: {
    label: 'compressed length',
    quantity: 'length',
    group: 'order',
    definition: 'eye to eye, bottomed out, with no bump stop in the way',
  },
  stroke: {
    label: 'stroke',
    quantity: 'length',
    group: 'order',
    definition: 'extended length − compressed length',
  },
  deadLength: {
    label: 'dead length',
    quantity: 'length',
    group: 'order',
    definition: 'compressed length − stroke',
  },
  compressionStroke: {
    label: 'stroke from ride height to compressed length',
    quantity: 'length',
    group: 'order',
    definition: 'length at ride height − compressed length; the bump stop takes a part of it',
  },
  extensionStroke: {
    label: 'stroke from ride height to extended length',
    quantity: 'length',
    group: 'order',
    definition: 'extended length − length at ride height',
  },
  bumpTravelAvailable: {
    label: 'bump travel available',
    quantity: 'length',
    group: 'order',
    definition:
      'wheel travel from design ride height to the first limit: bump stop, damper, spring or any other',
  },
  droopTravelAvailable: {
    label: 'droop travel available',
    quantity: 'length',
    group: 'order',
    definition: 'wheel travel from design ride height to the first limit, as a positive number',
  },
  bumpTravelRequired: {
    label: 'bump travel required',
    quantity: 'length',
    group: 'car',
    definition: 'the largest of the travel cases',
  },
  droopTravelRequired: {
    label: 'droop travel required',
    quantity: 'length',
    group: 'car',
    definition: 'the largest of the travel cases, as a positive number',
  },
  outerWheelTravel: {
    label: 'outer wheel in the steady corner',
    quantity: 'length',
    group: 'car',
    definition: 'bump +, with downforce, without bump stop and damper ends',
  },
  innerWheelTravel: {
    label: 'inner wheel in the steady corner',
    quantity: 'length',
    group: 'car',
    definition: 'bump +, without downforce, bump stop and damper ends',
  },
  bumpTravelMargin: {
    label: 'bump travel margin',
    quantity: 'length',
    group: 'order',
    definition: 'bump travel available − required',
  },
  droopTravelMargin: {
    label: 'droop travel margin',
    quantity: 'length',
    group: 'order',
    definition: 'droop travel available − required',
  },
} as const satisfies FigureInfos;

/**
 * The travel at which a damper that fits is solid, or it is closed: in bump. One that is too long for design ride height is so beyond
 * it, in droop. Null where the linkage does not go so far.
 */
export function solidTravel({ settings, given, shock }: AxleState): number | null {
  const { damper } = settings;
  if (damper === null) return null;
  const solid = solidLength(given, damper);
  const beyond = () => (shock.at(0).length < solid ? travelAtLength(shock, solid, shock.droop) : null);
  return travelAtLength(shock, solid, shock.bump) ?? beyond();
}

/** The travel at which a damper's bump stop is first touched; null where there is none. */
export function contactTravel({ settings, given, shock }: AxleState): number | null {
  const contact = contactLength(given.limits.bumpStop, settings.damper);
  return contact === null ? null : travelAtLength(shock, contact, shock.bump);
}

/** The travel at which a damper that fits is open: in droop. One that is too short for design ride height is so in bump. */
function openTravel(shock: ShockCurve, open: number): number | null {
  const beyond = () => (shock.at(0).length > open ? travelAtLength(shock, open, shock.bump) : null);
  return travelAtLength(shock, open, shock.droop) ?? beyond();
}

/**
 * Where something ends the travel that is neither damper, stop nor spring, mm, droop negative; null where nothing does. It stays, whatever
 * the guesses come to.
 */
export interface OtherEnds {
  readonly bump: number | null;
  readonly droop: number | null;
}

/** The travel at which the spring is at its minimum length; null where that is not known or out of reach. */
function springTravel({ coilover, stack, shock }: AxleState): number | null {
  const travel = stack === null ? Number.POSITIVE_INFINITY : travelOf(stack);
  return coilover === null || !Number.isFinite(travel)
    ? null
    : travelAtLength(shock, coilover.loose - travel, shock.bump);
}

/** Ends of the bump travel: stop or damper, spring, anything else. */
function bumpEnds(state: AxleState, { bump }: OtherEnds): (number | null)[] {
  return [solidTravel(state), springTravel(state), bump];
}

/** Ends of the droop travel, mm outward: damper, anything else. */
function droopEnds({ settings, shock }: AxleState, { droop }: OtherEnds): (number | null)[] {
  const opened = settings.damper === null ? null : openTravel(shock, settings.damper.extendedLength);
  return [opened === null ? null : -opened, droop === null ? null : -droop];
}

/** Where the spring must still have travel: the first end of bump that is not its own, as far as the linkage was laid. */
export function bindTravel(state: AxleState, { bump }: OtherEnds): number {
  const ends = [solidTravel(state), bump].filter((end) => end !== null);
  return Math.min(state.shock.bump, ...(ends.length === 0 ? [state.ends.bump] : ends));
}

/** Figures that are the extreme of several values: each case of the required travel against each end of the available one. */
export function travelExtremes(
  state: AxleState,
  needed: TravelRequirement,
  others: OtherEnds,
): Readonly<
  Record<
    | 'bumpTravelAvailable'
    | 'droopTravelAvailable'
    | 'bumpTravelRequired'
    | 'droopTravelRequired'
    | 'bumpTravelMargin'
    | 'droopTravelMargin',
    Extreme
  >
> {
  const margins = (ends: readonly (number | null)[], required: readonly number[]): Extreme => ({
    of: 'min',
    values: ends.flatMap((end) => required.map((travel) => (end === null ? null : end - travel))),
  });
  const [bump, droop] = [bumpEnds(state, others), droopEnds(state, others)];
  const [forBump, forDroop] = [requiredBy(needed, 'bump'), requiredBy(needed, 'droop')];
  return {
    bumpTravelAvailable: { of: 'min', values: bump },
    droopTravelAvailable: { of: 'min', values: droop },
    bumpTravelRequired: { of: 'max', values: forBump },
    droopTravelRequired: { of: 'max', values: forDroop },
    bumpTravelMargin: margins(bump, forBump),
    droopTravelMargin: margins(droop, forDroop),
  };
}

/** The value of an extreme; null where there is none. */
export function extremeValue({ of, values }: Extreme): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : Math[of](...known);
}

export function lengthNumbers(
  { shock, settings }: AxleState,
  { cornerTravel }: TravelRequirement,
  extremes: ReturnType<typeof travelExtremes>,
): Numbers<typeof LENGTH_FIGURES> {
  const { length, ratio } = shock.at(0);
  const { damper } = settings;
  const stroke = damper === null ? null : damper.extendedLength - damper.compressedLength;
  return {
    designLength: length,
    installationRatio: ratio,
    extendedLength: damper?.extendedLength ?? null,
    compressedLength: damper?.compressedLength ?? null,
    stroke,
    deadLength: damper === null || stroke === null ? null : damper.compressedLength - stroke,
    compressionStroke: damper === null ? null : length - damper.compressedLength,
    extensionStroke: damper === null ? null : damper.extendedLength - length,
    bumpTravelAvailable: extremeValue(extremes.bumpTravelAvailable),
    droopTravelAvailable: extremeValue(extremes.droopTravelAvailable),
    bumpTravelRequired: extremeValue(extremes.bumpTravelRequired),
    droopTravelRequired: extremeValue(extremes.droopTravelRequired),
    outerWheelTravel: cornerTravel?.outer ?? null,
    innerWheelTravel: cornerTravel?.inner ?? null,
    bumpTravelMargin: extremeValue(extremes.bumpTravelMargin),
    droopTravelMargin: extremeValue(extremes.droopTravelMargin),
  };
}
