import type { Units } from '../../units.ts';

/** A piece of a sheet, as plain data: what it says, not how it looks. */
export type Block =
  | { readonly kind: 'heading'; readonly level: 2 | 3; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  /** What must not be overlooked; in print it stands at the head of every page. */
  | { readonly kind: 'stamp'; readonly text: string; readonly advice: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
      /** Columns of figures stand to the right. */
      readonly figures: readonly number[];
    }
  | {
      readonly kind: 'figures';
      /** Heads of the two columns of values: the units of the file first. */
      readonly units: readonly [own: Units, other: Units];
      readonly rows: readonly FigureRow[];
    }
  | { readonly kind: 'picture'; readonly title: string; readonly svg: string };

/** A figure as a sheet shows it, with its definition beside it. */
export interface FigureRow {
  readonly label: string;
  readonly own: string;
  readonly other: string;
  /** The interval that holds it 95 times in 100, in both units, the own first; empty where nothing makes it unsure. */
  readonly interval: string;
  readonly definition: string;
}

export const heading = (level: 2 | 3, text: string): Block => ({ kind: 'heading', level, text });
export const paragraph = (text: string): Block => ({ kind: 'text', text });
export const list = (items: readonly string[]): Block => ({ kind: 'list', items });

/** A table; its columns but the first hold figures unless said otherwise. */
export function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  figures: readonly number[] = head.map((_, k) => k).slice(1),
): Block {
  return { kind: 'table', head, rows, figures };
}
