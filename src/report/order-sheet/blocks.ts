/** A paper as plain data: `sheetHtml`, `sheetMarkdown` and `sheetJson` write it down. */
export interface OrderSheet {
  readonly title: string;
  readonly blocks: readonly Block[];
  /** The same for programs. */
  readonly data: Readonly<Record<string, unknown>>;
}

/** A line of a form: what stands in it, or null where it is filled in by hand. */
export interface FormLine {
  readonly label: string;
  readonly value: string | null;
}

/** A piece of a sheet, as plain data: what it says, not how it looks. */
export type Block =
  /** One printed page, with a head of its own: what kind of paper it is, its lines, and what it says. */
  | {
      readonly kind: 'page';
      readonly title: string;
      readonly paper: string;
      /** Which of how many. */
      readonly sheet: string;
      readonly lines: readonly FormLine[];
      readonly blocks: readonly Block[];
    }
  /** Blocks side by side; one below the other on a narrow screen. */
  | { readonly kind: 'columns'; readonly columns: readonly (readonly Block[])[] }
  | { readonly kind: 'form'; readonly label: string; readonly lines: readonly FormLine[] }
  | {
      readonly kind: 'heading';
      readonly level: 2 | 3;
      readonly text: string;
    }
  /** The headings that follow, each with those under it. */
  | {
      readonly kind: 'contents';
      readonly items: readonly { readonly text: string; readonly parts: readonly string[] }[];
    }
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
      /** What the table is of: its caption in a report, unless the heading above says it. */
      readonly label: string;
      /** The last cell of a row reaches over the empty ones behind it. */
      readonly spans?: boolean;
    }
  | {
      readonly kind: 'figures';
      /** Head of each column of values, such as the axle. */
      readonly heads: readonly string[];
      readonly rows: readonly FigureRow[];
    }
  | {
      readonly kind: 'picture';
      readonly title: string;
      readonly svg: string;
      /** The same for a narrow screen, where the other would be too small to read. */
      readonly narrow?: string;
      /** What stands below that one in place of a legend inside it. */
      readonly narrowLegend?: readonly Block[];
      /** Width on paper, mm, for a picture that is to scale; as wide as there is room without one. */
      readonly width?: number;
      /** The same in words and figures, for a form without pictures. */
      readonly inWords?: readonly Block[];
    };

/** A figure as a sheet shows it, with its definition and a value for each column; null where it has none there. */
export interface FigureRow {
  readonly label: string;
  readonly definition: string;
  readonly values: readonly (FigureValue | null)[];
}

/** A value of a figure in both units, those of the file first. */
export interface FigureValue {
  readonly value: string;
  /** The interval that holds it 95 times in 100, in the units of the file; empty where nothing makes it uncertain. */
  readonly interval: string;
  /** Ends of the interval as fractions of the value, less 1; null where there is none. */
  readonly whisker: readonly [number, number] | null;
}

export const heading = (level: 2 | 3, text: string): Block => ({ kind: 'heading', level, text });
export const paragraph = (text: string): Block => ({ kind: 'text', text });
export const list = (items: readonly string[]): Block => ({ kind: 'list', items });

/** A picture by its title, where there is one. */
export function pictureOf(
  title: string,
  draw: (title: string) => string | null,
  drawNarrow: (title: string) => string | null = () => null,
): Block[] {
  const svg = draw(title);
  if (svg === null) return [];
  const narrow = drawNarrow(title);
  return [{ kind: 'picture', title, svg, ...(narrow === null ? {} : { narrow }) }];
}

/** A table, with what it is of; its columns but the first hold figures unless said otherwise. */
export function table(
  label: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
  figures: readonly number[] = head.map((_, k) => k).slice(1),
): Block {
  return { kind: 'table', label, head, rows, figures };
}

/** The text of the last heading above a block; empty where there is none. A table that says no more needs no caption. */
export function headingAbove(blocks: readonly Block[], k: number): string {
  const above = blocks.slice(0, k).flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
  return above.at(-1) ?? '';
}
