import type { Block, FigureRow } from './blocks.ts';
import type { OrderSheet } from './order-sheet.ts';

/** An order sheet as Markdown, without its pictures. */
export function sheetMarkdown({ title, blocks }: OrderSheet): string {
  const parts = [`# ${escaped(title)}`, ...blocks.flatMap(written)];
  return `${parts.join('\n\n')}\n`;
}

function written(block: Block): string[] {
  switch (block.kind) {
    case 'heading':
      return [`${'#'.repeat(block.level)} ${escaped(block.text)}`];
    case 'text':
      return [escaped(block.text)];
    case 'stamp':
      return [`**${escaped(block.text)}.** ${escaped(block.advice)}`];
    case 'list':
      return block.items.length === 0 ? [] : [block.items.map((item) => `- ${escaped(item)}`).join('\n')];
    case 'table':
      return [tableOf(block.head, block.rows, block.figures)];
    case 'figures':
      return [
        tableOf(
          ['figure', ...block.units, '95 % between', 'definition'],
          block.rows.map(({ label, own, other, interval, definition }: FigureRow) => [
            label,
            own,
            other,
            interval,
            definition,
          ]),
          [1, 2, 3],
        ),
      ];
    case 'picture':
      return [];
  }
}

function tableOf(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  figures: readonly number[],
): string {
  const line = (cells: readonly string[]) => `| ${cells.map(escaped).join(' | ')} |`;
  const rule = `| ${head.map((_, k) => (figures.includes(k) ? '---:' : '---')).join(' | ')} |`;
  return [line(head), rule, ...rows.map(line)].join('\n');
}

/** Text whose signs mean nothing to Markdown. */
function escaped(text: string): string {
  return text.replace(/[\\`*_[\]<>|#]/g, (sign) => `\\${sign}`).replace(/\s*\n\s*/g, ' ');
}
