// Curves of a coilover at work over the travel that there is.

import type { ColumnInfo } from '../../corner/columns.ts';
import { frequencyOn } from '../../corner/frequency.ts';
import type { SweepEnd } from '../../corner/sweep.ts';
import { GRAVITY } from '../../units.ts';
import { wheelAt } from '../wheel.ts';
import { dampingRatioAt } from './damping.ts';
import { freeLengthOf } from './listed-springs.ts';
import type { AxleState } from './state.ts';

/** What the wheel sees over travel, as the curves of a sweep: `plotCurves` and `vegaCurves` draw them. */
export interface WheelCurves {
  readonly info: readonly ColumnInfo[];
  readonly end: { readonly droop: SweepEnd; readonly bump: SweepEnd };
  /** All columns at a travel, mm; null where there is no value. */
  readonly at: (travel: number) => Readonly<Record<string, number | null>>;
  /** So many rows from end to end, evenly. */
  rows(count?: number): Readonly<Record<string, number | null>>[];
}

const column = (name: string, unit: string, label: string, gaps = false): ColumnInfo => ({
  name,
  unit,
  label,
  gaps,
});

const COLUMNS: readonly ColumnInfo[] = [
  column('travel', 'mm', 'travel, bump +'),
  column('shockLength', 'mm', 'shock length'),
  column('installationRatio', '', 'installation ratio'),
  column('wheelLoad', 'N', 'wheel load'),
  column('wheelRate', 'N/mm', 'wheel rate, without the tyre'),
  column('frequency', 'Hz', 'ride frequency, suspension alone', true),
  column('wheelRateOnSpring', 'N/mm', 'wheel rate, without bump stop and tyre'),
];

/** Curves of an axle's corner; null where there is no coilover to compute. `damping` is in N·s/m at the shaft. */
export function wheelCurves(state: AxleState, damping: number | null): WheelCurves | null {
  const { shock, coilover, mass, ends, spring, given } = state;
  if (coilover === null || mass?.unsprung == null || spring === null) return null;
  const unsprungWeight = mass.unsprung * GRAVITY;
  const free = spring.freeLength === null ? null : freeLengthOf(spring.freeLength, given.sizing.helper);
  const info = [
    ...COLUMNS,
    ...(free === null ? [] : [column('springLength', 'mm', 'spring length between the seats')]),
    ...(damping === null ? [] : [column('dampingRatio', '', 'damping ratio, low-speed', true)]),
  ];
  const withoutStop = { ...coilover, bumpStop: null };
  const { droop, bump } = ends;
  const at = (asked: number) => {
    const travel = Math.min(bump, Math.max(droop, asked));
    const { length, ratio, load, rate } = wheelAt(shock, coilover, travel);
    return {
      travel,
      shockLength: length,
      installationRatio: ratio,
      wheelLoad: load + unsprungWeight,
      wheelRate: rate,
      frequency: frequencyOn(mass.sprung, rate),
      wheelRateOnSpring: wheelAt(shock, withoutStop, travel).rate,
      ...(free === null ? {} : { springLength: Math.min(free, free - (coilover.loose - length)) }),
      ...(damping === null ? {} : { dampingRatio: dampingRatioAt(state, damping, travel) }),
    };
  };
  return {
    info,
    end: { droop: { travel: droop, status: 'reached' }, bump: { travel: bump, status: 'reached' } },
    at,
    rows: (count = 29) =>
      Array.from({ length: count }, (_, k) => at(droop + ((bump - droop) * k) / (count - 1))),
  };
}
