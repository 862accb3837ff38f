// Damping. A shaft that moves with R z' and resists with c R z' damps the wheel's travel with c R^2:
//
//   ratio      zeta = (c R^2 + c_T) / (2 sqrt(k_w m_s)),  k_w without the tyre        c = (2 zeta sqrt(k_w m_s) - c_T) / R^2 at rest
//   bump, rebound    c_b = 2 b c, c_r = 2 (1 - b) c: their mean is c
//   force      c v up to the knee, beyond it so much less steep
//   wheel hop  zeta_u = (c R^2 + c_T) / (2 sqrt((k_w + k_t) m_u))
//
// c_T of the dampers between both wheels, both wheels alike (springs-across.ts)
// (T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992, ch. 5; from memory.)

import { axialForce } from '../../corner/axial-force.ts';
import type { CornerSizingFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import { boughtDamping, type LowSpeedDamping, type Valving } from '../ordered/valving.ts';
import { wheelAt } from '../wheel.ts';
import { type FigureInfos, type Numbers, none } from './figure.ts';
import type { AxleState } from './state.ts';

type Damping = NonNullable<Certain<CornerSizingFile>['damping']>;

/** Share of compression, and slope above the knee, where nothing is said; common practice, without a source. */
export const COMPRESSION_FRACTION = 0.4;
export const HIGH_SPEED_FRACTION = 0.5;

export const DAMPING_FIGURES = {
  meanDamping: {
    label: 'damping at the shaft, mean of compression and rebound',
    quantity: 'damping',
    group: 'adjustable',
    definition:
      '2 × target ratio × √(wheel rate × sprung mass) ÷ square of the installation ratio, at static ride height',
  },
  compressionDamping: {
    label: 'low-speed compression damping',
    quantity: 'damping',
    group: 'adjustable',
    definition: 'force ÷ shaft speed while the damper shortens',
  },
  reboundDamping: {
    label: 'low-speed rebound damping',
    quantity: 'damping',
    group: 'adjustable',
    definition: 'force ÷ shaft speed while the damper lengthens',
  },
  dampingRatioAtDroop: {
    label: 'damping ratio at the droop limit',
    quantity: 'ratio',
    group: 'adjustable',
    definition:
      'the same damping with ratio and wheel rate of that pose; none where the spring is loose there',
  },
  staticDampingRatio: {
    label: 'damping ratio at ride height',
    quantity: 'ratio',
    group: 'adjustable',
    definition:
      'damping at the wheel ÷ (2 √(wheel rate × sprung mass)); low-speed, mean of compression and rebound',
  },
  dampingRatioAtBump: {
    label: 'damping ratio at bump stop contact, or the bump limit',
    quantity: 'ratio',
    group: 'adjustable',
    definition: 'the same damping with ratio and wheel rate of that pose, the stop not yet compressed',
  },
  wheelHopDampingRatio: {
    label: 'damping ratio of wheel hop',
    quantity: 'ratio',
    group: 'adjustable',
    definition: 'damping at the wheel ÷ (2 √((wheel rate + tyre rate) × unsprung mass))',
  },
} as const satisfies FigureInfos;

/** N·s/m; null where it is not known, or the dampers between both wheels give all of it. */
function coefficient({ ratio }: Damping, state: AxleState): number | null {
  const { atRest, rest, mass } = state;
  if (atRest === null || rest === null || mass === null || !(atRest.rate > 0)) return null;
  const c =
    (2 * ratio * Math.sqrt(atRest.rate * 1000 * mass.sprung) - dampingAcross(state, rest.travel)) /
    atRest.ratio ** 2;
  return c > 0 ? c : null;
}

/** What the dampers between both wheels add at each wheel at a travel of both, N·s/m. */
export function dampingAcross({ shock }: AxleState, travel: number): number {
  return shock.across?.(travel).all.damping ?? 0;
}

/** Low-speed damping at the shaft: as it was bought, or as the ratio asks for. */
function lowSpeed(state: AxleState): LowSpeedDamping | null {
  const bought = boughtDamping(state.given.ordered?.valving);
  const { damping } = state.given.sizing;
  const c = bought !== null || damping === undefined ? null : coefficient(damping, state);
  if (c === null) return bought;
  const b = damping?.compressionFraction ?? COMPRESSION_FRACTION;
  return { compression: 2 * b * c, rebound: 2 * (1 - b) * c };
}

/** The damping ratio at a travel; null where the wheel rate is not positive, or nothing but the gas pushes: the spring is loose there. */
export function dampingRatioAt(state: AxleState, c: number, travel: number): number | null {
  const { coilover, mass, shock } = state;
  if (coilover === null || mass === null) return null;
  const { rate, ratio, length } = wheelAt(shock, coilover, travel);
  const { spring, bumpStop } = axialForce(coilover, length);
  const borne = spring + bumpStop + (shock.across?.(travel).all.load ?? 0);
  return rate > 0 && borne > 0
    ? (c * ratio ** 2 + dampingAcross(state, travel)) / (2 * Math.sqrt(rate * 1000 * mass.sprung))
    : null;
}

/** Without its bump stop: at the first touch the rate jumps, and the one before it is meant. */
function untouched(state: AxleState): AxleState {
  const { coilover } = state;
  return coilover === null ? state : { ...state, coilover: { ...coilover, bumpStop: null } };
}

const NOTHING = none(DAMPING_FIGURES);

export function dampingNumbers(state: AxleState, stopTravel: number | null): Numbers<typeof DAMPING_FIGURES> {
  const { tyreRate } = state.given.sizing;
  const low = lowSpeed(state);
  if (low === null) return NOTHING;
  const c = (low.compression + low.rebound) / 2;
  const { atRest, mass, ends, rest } = state;
  const atShaft = { meanDamping: c, compressionDamping: low.compression, reboundDamping: low.rebound };
  if (atRest === null || mass === null || rest === null) return { ...NOTHING, ...atShaft };
  return {
    ...atShaft,
    dampingRatioAtDroop: dampingRatioAt(state, c, ends.droop),
    staticDampingRatio: dampingRatioAt(state, c, rest.travel),
    dampingRatioAtBump:
      stopTravel === null
        ? dampingRatioAt(state, c, ends.bump)
        : dampingRatioAt(untouched(state), c, stopTravel),
    wheelHopDampingRatio:
      tyreRate === undefined || !mass.unsprung
        ? null
        : (c * atRest.ratio ** 2 + dampingAcross(state, rest.travel)) /
          (2 * Math.sqrt((atRest.rate + tyreRate) * 1000 * mass.unsprung)),
  };
}

/** A row of the force table: at a shaft speed (mm/s) what the damper resists with, N. */
export interface DampingRow {
  readonly speed: number;
  readonly compression: number;
  readonly rebound: number;
}

/** The force table of a valving that was bought: its own, or that of its low-speed damping and its knee. */
export function boughtTable(
  { forceTable, kneeSpeed, highSpeedFraction }: Valving,
  low: LowSpeedDamping,
  shaftSpeeds: readonly number[],
): DampingRow[] {
  if (forceTable !== undefined) {
    return forceTable.map(([speed, compression, rebound]) => ({ speed, compression, rebound }));
  }
  return dampingTable({ kneeSpeed, highSpeedFraction }, low, shaftSpeeds);
}

/** The force table, from the low-speed coefficients (N·s/m): a row for each shaft speed (mm/s), and one at the knee. */
export function dampingTable(
  { kneeSpeed, highSpeedFraction = HIGH_SPEED_FRACTION }: Pick<Damping, 'kneeSpeed' | 'highSpeedFraction'>,
  { compression, rebound }: LowSpeedDamping,
  shaftSpeeds: readonly number[],
): DampingRow[] {
  const knee = kneeSpeed ?? Number.POSITIVE_INFINITY;
  const force = (c: number, v: number) =>
    (c * (Math.min(v, knee) + highSpeedFraction * Math.max(0, v - knee))) / 1000;
  const speeds = new Set([...shaftSpeeds, ...(kneeSpeed === undefined ? [] : [kneeSpeed])]);
  return [...speeds]
    .sort((a, b) => a - b)
    .map((speed) => ({ speed, compression: force(compression, speed), rebound: force(rebound, speed) }));
}

/** Whether the compression fraction of a force table is that of common practice. */
export function isSplitAssumed({
  dampingTable,
  input: { sizing, ordered },
}: {
  readonly dampingTable: readonly DampingRow[];
  readonly input: Parameters<typeof kneeOf>[0];
}): boolean {
  return (
    dampingTable.length > 0 &&
    ordered?.valving === undefined &&
    sizing?.damping?.compressionFraction === undefined
  );
}

/** Speed of the knee (mm/s) and the slope above it, as a fraction of the one below; null where no knee is given. */
export function kneeOf({
  sizing,
  ordered,
}: {
  readonly sizing?: { readonly damping?: Omit<Damping, 'ratio'> | undefined } | undefined;
  readonly ordered?: { readonly valving?: Valving | undefined } | undefined;
}): { readonly speed: number; readonly highSpeedFraction: number } | null {
  const { kneeSpeed, highSpeedFraction = HIGH_SPEED_FRACTION } = ordered?.valving ?? sizing?.damping ?? {};
  return kneeSpeed === undefined ? null : { speed: kneeSpeed, highSpeedFraction };
}
