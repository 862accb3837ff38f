// Rows of the order's blocks: what each says in the units of the file and in the other ones, or that it is not settled.

import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { finerNumberIn, fromMetric, type Rounding, type Units } from '../../units.ts';
import { printed } from '../text.ts';
import { type Block, heading } from './blocks.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import type { LoadParts } from './order-loads.ts';

/** What a page of the order is made from. */
export interface OrderPage {
  readonly sized: AxleSizing;
  readonly paper: OnPaper;
  /** What stands where something is not known: to be agreed, or not given for what is bought already. */
  readonly unknown: string;
  /** The same in a cell, marked where it decides what is made. */
  readonly open: string;
  readonly isBought: boolean;
  readonly massesFrom: Sizing['massesFrom'];
}

/** Lengths of the order have a digit more in inches: they convert to those in mm beside them. */
export const orderRounding: Rounding = (value, quantity, units) =>
  finerNumberIn(value, quantity, units, quantity === 'length' ? moreDecimals(units) : 0);

/** Decimals that lengths of the order have more than elsewhere. */
export function moreDecimals(units: Units): number {
  return units === 'imperial' ? 1 : 0;
}

/** A row of a block: what it is, and what is known of it; null where nothing is. */
export type Row = readonly [label: string, ...cells: (string | null)[]];

/** A row of a value in both units. */
export function row(label: string, cells: Cells | null): Row {
  return cells === null ? [label, null] : [label, ...cells];
}

/** A row of words. */
export function wordRow(label: string, words: string | null | undefined): Row {
  return [label, words ?? null];
}

/** Rows for what is known; none for what is not. */
export function rowsOf<T>(value: T | null | undefined, of: (value: T) => Row): Row[] {
  return value === null || value === undefined ? [] : [of(value)];
}

/** A table of rows. */
export function rowTable(
  { open }: OrderPage,
  label: string,
  rows: readonly Row[],
  head: readonly string[] = ['', '', ''],
): Block {
  const filled = rows.map((cells) => {
    const known = cells.map((cell) => cell ?? open);
    return [...known, ...head.slice(known.length).map(() => '')];
  });
  return { kind: 'table', head, rows: filled, figures: [], label, spans: true };
}

/** A block of the order: its heading and its table. */
export function orderBlock(
  page: OrderPage,
  name: string,
  rows: readonly Row[],
  head?: readonly string[],
): Block[] {
  return [heading(2, name), rowTable(page, name, rows, head)];
}

export function known<T, U>(value: T | null | undefined, of: (value: T) => U): U | null {
  return value === null || value === undefined ? null : of(value);
}

/** A value without its unit. */
export function bare(cell: string): string {
  return cell.split(' ')[0];
}

/** Two values of one unit, the unit once. */
export function slashed(a: Cells, b: Cells): Cells {
  return [`${bare(a[0])} / ${b[0]}`, b[1] === '' ? '' : `${bare(a[1])} / ${b[1]}`];
}

/** From one value to another, in one cell for each system. */
export function ranged(low: Cells, high: Cells): Cells {
  return [`${bare(low[0])} to ${high[0]}`, `${bare(low[1])} to ${high[1]}`];
}

/** Parts of a load in the units of the file, as `spring 135 + gas 29`: with a digit more where rounded ones do not add up to it. */
export function sumWords({ units }: OnPaper, parts: LoadParts): string {
  const shown = Object.values(parts).map((part) => fromMetric(part, 'force', units[0]));
  const sum = (values: readonly number[]) => values.reduce((all, part) => all + part, 0);
  const addUp = sum(shown.map(Math.round)) === Math.round(sum(shown));
  return Object.keys(parts)
    .map((name, k) => `${name} ${printed(shown[k].toFixed(addUp ? 0 : 1))}`)
    .join(' + ');
}

/** Two values that belong together, in one cell for each system. */
export function joined(a: Cells | null, b: Cells | null): Cells | null {
  return a === null || b === null ? (a ?? b) : [`${a[0]}, ${b[0]}`, `${a[1]}, ${b[1]}`];
}

/** A fraction as a tolerance: `± 3 %`; a gap to write it in where it is not known. */
export function percentage(fraction: number | undefined): string {
  return fraction === undefined ? '± __ % *' : `± ${Number((100 * fraction).toFixed(1))} %`;
}
