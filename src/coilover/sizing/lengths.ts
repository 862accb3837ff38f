import { contactLength } from '../forces/eye-force.ts';
import { type ShockCurve, travelAtLength } from '../wheel.ts';
import { solidLength } from './damper.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import type { AxleState } from './state.ts';
import type { TravelNeeded } from './travel-needed.ts';

export const LENGTH_FIGURES = {
  installedLength: {
    label: 'installed length',
    quantity: 'length',
    settled: 'order',
    definition: 'between the middles of the bolts at the drawn ride height',
  },
  installationRatio: {
    label: 'installation ratio at the drawn ride height',
    quantity: 'ratio',
    settled: 'car',
    definition: 'how far the coilover shortens, divided by the bump travel of the contact patch',
  },
  openLength: {
    label: 'open length',
    quantity: 'length',
    settled: 'order',
    definition: 'between the middles of the bolts, fully extended',
  },
  closedLength: {
    label: 'closed length',
    quantity: 'length',
    settled: 'order',
    definition: 'between the middles of the bolts, fully compressed, with no stop in the way',
  },
  stroke: {
    label: 'stroke',
    quantity: 'length',
    settled: 'order',
    definition: 'open length less closed length',
  },
  deadLength: {
    label: 'dead length',
    quantity: 'length',
    settled: 'order',
    definition: 'closed length less stroke: what of the length is not stroke',
  },
  bumpStroke: {
    label: 'stroke from the installed length to closed',
    quantity: 'length',
    settled: 'order',
    definition: 'installed length less closed length; the bump stop takes its share of it',
  },
  droopStroke: {
    label: 'stroke from the installed length to open',
    quantity: 'length',
    settled: 'order',
    definition: 'open length less installed length',
  },
  bumpTravel: {
    label: 'bump travel there is',
    quantity: 'length',
    settled: 'order',
    definition:
      'wheel travel from the drawn ride height to what ends it first: stop, damper, spring or anything else',
  },
  droopTravel: {
    label: 'droop travel there is',
    quantity: 'length',
    settled: 'order',
    definition: 'wheel travel from the drawn ride height to what ends it first, as a positive number',
  },
  bumpNeeded: {
    label: 'bump travel needed',
    quantity: 'length',
    settled: 'car',
    definition: 'the most of the cases below',
  },
  droopNeeded: {
    label: 'droop travel needed',
    quantity: 'length',
    settled: 'car',
    definition: 'the most of the cases below, as a positive number',
  },
  bumpSpare: {
    label: 'bump travel to spare',
    quantity: 'length',
    settled: 'order',
    definition: 'bump travel there is less what is needed',
  },
  droopSpare: {
    label: 'droop travel to spare',
    quantity: 'length',
    settled: 'order',
    definition: 'droop travel there is less what is needed',
  },
} as const satisfies FigureInfos;

/** The travel at which a damper's bump stop is solid, or it is closed; null where the linkage does not go so far. */
export function solidTravel({ settings, given, shock }: AxleState): number | null {
  const { damper } = settings;
  return damper === null ? null : travelAtLength(shock, solidLength(given, damper), shock.bump);
}

/** The travel at which a damper's bump stop is first touched; null where there is none. */
export function contactTravel({ settings, given, shock }: AxleState): number | null {
  const contact = contactLength(given.limits.bumpStop, settings.damper);
  return contact === null ? null : travelAtLength(shock, contact, shock.bump);
}

function openTravel(shock: ShockCurve, open: number): number | null {
  return travelAtLength(shock, open, shock.droop);
}

/** What ends the travel on either side: the damper with its stop, which hangs on the geometry, or something that stays. */
export interface EndedBy {
  readonly bump: 'damper' | 'other';
  readonly droop: 'damper' | 'other';
}

export function lengthNumbers(
  state: AxleState,
  needed: TravelNeeded,
  endedBy: EndedBy | null,
): Numbers<typeof LENGTH_FIGURES> {
  const { shock, settings, ends } = state;
  const { length, ratio } = shock.at(0);
  const { damper } = settings;
  const bump = endedBy?.bump === 'other' ? ends.bump : solidTravel(state);
  const opened = damper === null ? null : openTravel(shock, damper.open);
  const opens = endedBy?.droop === 'other' ? ends.droop : opened;
  const stroke = damper === null ? null : damper.open - damper.closed;
  return {
    installedLength: length,
    installationRatio: ratio,
    openLength: damper?.open ?? null,
    closedLength: damper?.closed ?? null,
    stroke,
    deadLength: damper === null || stroke === null ? null : damper.closed - stroke,
    bumpStroke: damper === null ? null : length - damper.closed,
    droopStroke: damper === null ? null : damper.open - length,
    bumpTravel: bump,
    droopTravel: opens === null ? null : -opens,
    bumpNeeded: needed.bump,
    droopNeeded: -needed.droop,
    bumpSpare: bump === null ? null : bump - needed.bump,
    droopSpare: opens === null ? null : needed.droop - opens,
  };
}
