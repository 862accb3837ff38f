// Columns and curves of the library, which counts in mm, N and N/mm, as they are shown in the units asked for. Columns carry the name of their
// unit; whatever has none there (degrees, Hz, ratios, percent) is shown as it stands.

import type { ColumnInfo } from '../corner/columns.ts';
import type { Limits } from '../corner/limits/limits.ts';
import type { SweepEnd } from '../corner/sweep.ts';
import type { UncertaintyBands } from '../corner/uncertainty-bands.ts';
import { fromMetric, type Quantity, quantityIn, toMetric, type Units, unitName } from '../units.ts';

/** A unit as it is shown, and its values. */
export interface ShownUnit {
  readonly name: string;
  of(value: number): number;
}

/** A column's unit in the units asked for. */
export function shownUnit(unit: string, units: Units): ShownUnit {
  const [, below = ''] = unit.match(/^1\/(.+)$/) ?? [];
  const quantity: Quantity | null = quantityIn(below === '' ? unit : below);
  if (quantity === null || units === 'metric') return { name: unit, of: (value) => value };
  const name = unitName(quantity, units);
  return below === ''
    ? { name, of: (value) => fromMetric(value, quantity, units) }
    : { name: `1/${name}`, of: (value) => toMetric(value, quantity, units) };
}

/** A column with its unit as it is shown. */
export function shownColumn(column: ColumnInfo, units: Units): ColumnInfo {
  return { ...column, unit: shownUnit(column.unit, units).name };
}

/** A travel or another length as it is shown. */
export function shownLength(mm: number, units: Units): number {
  return fromMetric(mm, 'length', units);
}

type Read = (travel: number) => Readonly<Record<string, number | null>>;

/** Curves whose columns, ends and travel are in the units asked for. */
export function shownCurves<
  C extends {
    readonly info: readonly ColumnInfo[];
    readonly end: { readonly droop: SweepEnd; readonly bump: SweepEnd };
    readonly at: Read;
  },
>(curves: C, units: Units): Pick<C, 'info' | 'end' | 'at'> {
  if (units === 'metric') return curves;
  const { info, end, at } = curves;
  const { droop, bump } = end;
  const row = shownRow(info, units);
  return {
    info: info.map((column) => shownColumn(column, units)),
    end: {
      droop: { ...droop, travel: shownLength(droop.travel, units) },
      bump: { ...bump, travel: shownLength(bump.travel, units) },
    },
    // There and back a rounding may lead out of the curves.
    at: (travel) => row(at(Math.min(bump.travel, Math.max(droop.travel, toMetric(travel, 'length', units))))),
  };
}

/** A function that shows rows of columns. */
export function shownRow(info: readonly ColumnInfo[], units: Units) {
  const shown = info.map(({ name, unit }) => ({ name, of: shownUnit(unit, units).of }));
  return (row: Readonly<Record<string, number | null>>): Readonly<Record<string, number | null>> => {
    const values = shown.map(({ name, of }) => {
      const value = row[name];
      return [name, value === null || value === undefined ? null : of(value)];
    });
    return Object.fromEntries(values);
  };
}

/** Limits with their travels as they are shown. */
export function shownLimits(limits: Limits, units: Units): Limits {
  if (units === 'metric') return limits;
  const shown = <L extends { readonly travel: number }>(limit: L): L => ({
    ...limit,
    travel: shownLength(limit.travel, units),
  });
  const { bump, droop, later, events } = limits;
  return {
    ...limits,
    bump: bump && shown(bump),
    droop: droop && shown(droop),
    later: later.map(shown),
    events: events.map(shown),
  };
}

/** Bands of columns as they are shown. */
export function shownBands(
  bands: Pick<UncertaintyBands, 'travel' | 'columns'>,
  info: readonly ColumnInfo[],
  units: Units,
): Pick<UncertaintyBands, 'travel' | 'columns'> {
  if (units === 'metric') return bands;
  const columns = Object.entries(bands.columns).map(([name, widths]) => {
    const { of } = shownUnit(info.find((column) => column.name === name)?.unit ?? '', units);
    return [name, Array.from(widths, (width) => (width === null ? null : of(width)))];
  });
  return {
    travel: Float64Array.from(bands.travel, (travel) => shownLength(travel, units)),
    columns: Object.fromEntries(columns),
  };
}
