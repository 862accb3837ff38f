// Values outside what is usual, and the unit in which they would be usual: that of another scale or tape.

import { type Quantity, toMetric, type Units } from '../../units.ts';
import type { CheckRule, Found } from './check.ts';

/** A value at its path, in the library's unit; nothing where it was not given. */
export type Looked = readonly [path: string, value: number | undefined];

/** What is usual of some values: an entry of a table. Bounds in the library's unit. */
export interface Range<Subject> {
  /** What the number is, as `wheelbase`. */
  readonly what: string;
  readonly least: number;
  readonly most: number;
  readonly of: (subject: Subject) => readonly Looked[];
}

interface Other {
  readonly name: string;
  /** One of it in the library's unit. */
  readonly metric: number;
}

/** Units that something may have been measured in. */
const OTHERS: Partial<Record<Quantity, readonly Other[]>> = {
  length: [
    { name: 'mm', metric: 1 },
    { name: 'inches', metric: 25.4 },
    { name: 'cm', metric: 10 },
    { name: 'metres', metric: 1000 },
    { name: 'feet', metric: 304.8 },
  ],
  mass: [
    { name: 'kg', metric: 1 },
    { name: 'lb', metric: 0.45359237 },
  ],
  rate: [
    { name: 'N/mm', metric: 1 },
    { name: 'lbf/in', metric: toMetric(1, 'rate', 'imperial') },
    { name: 'kgf/mm', metric: 9.80665 },
  ],
};

/** The other unit in which all values would be usual. */
export function unitMeant(
  odd: readonly { readonly value: number; readonly least: number; readonly most: number }[],
  quantity: Quantity,
  units: Units,
): string | null {
  const own = toMetric(1, quantity, units);
  const meant = OTHERS[quantity]?.find(
    ({ metric }) =>
      Math.abs(metric / own - 1) > 1e-9 &&
      odd.every(({ value, least, most }) => isWithin((value / own) * metric, least, most)),
  );
  return odd.length === 0 ? null : (meant?.name ?? null);
}

export function isWithin(value: number, least: number, most: number): boolean {
  return value >= least && value <= most;
}

/** A check of ranges of one quantity. */
export function outside<Subject extends { readonly units: Units }>(
  quantity: Quantity,
  { code, severity, unless, unlessHere }: Omit<CheckRule<Subject>, 'find'>,
  ranges: readonly Range<Subject>[] | ((subject: Subject) => readonly Range<Subject>[]),
): CheckRule<Subject> {
  const find = (subject: Subject) =>
    (typeof ranges === 'function' ? ranges(subject) : ranges).flatMap(({ what, least, most, of }) =>
      of(subject).flatMap(([path, value]): Found[] => {
        if (value === undefined || isWithin(value, least, most)) return [];
        const unit = unitMeant([{ value, least, most }], quantity, subject.units);
        return [{ path, values: { what, value, least, most, unit } }];
      }),
    );
  return { code, severity, find, ...(unless && { unless }), ...(unlessHere && { unlessHere }) };
}
