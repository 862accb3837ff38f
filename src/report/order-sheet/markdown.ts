import { refuseOtherThan } from '../../errors/result.ts';
import { uncapital } from '../../words.ts';
import { printed } from '../text.ts';
import { type Block, type FigureRow, type FormLine, headingAbove, type OrderSheet } from './blocks.ts';

/** An order or a report as Markdown: in place of its pictures what they say in words. */
export function sheetMarkdown(sheet: OrderSheet): string {
  refuseOtherThan('sheet', sheet);
  const { title, blocks } = sheet;
  const isPaged = blocks.some(({ kind }) => kind === 'page');
  const parts = [
    ...(isPaged ? [] : [`# ${escaped(title)}`]),
    ...blocks.flatMap((block, k) => [
      ...(isPaged ? [] : caption(block, headingAbove(blocks, k))),
      ...written(block),
    ]),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** What a table is of, where the heading above does not say it. */
function caption(block: Block, heading: string): string[] {
  if (block.kind !== 'table' || block.label === heading) return [];
  return [`${escaped(block.label)}:`];
}

function written(block: Block): string[] {
  switch (block.kind) {
    case 'page':
      return [
        `# ${escaped(block.paper)}: ${escaped(block.title)}`,
        form([...block.lines, { label: 'This is', value: block.sheet }]),
        ...block.blocks.flatMap(written),
      ];
    case 'columns':
      return block.columns.flat().flatMap(written);
    case 'form':
      return [form(block.lines)];
    case 'heading':
      return [`${'#'.repeat(block.level)} ${escaped(block.text)}`];
    case 'text':
      return [escaped(block.text)];
    case 'stamp':
      return [`**${escaped(block.text.replace(/\.$/, ''))}.** ${escaped(block.advice)}`];
    case 'contents':
      return [
        block.items
          .map(
            ({ text, parts }) =>
              `- ${escaped([text, parts.map(uncapital).join('; ')].filter((part) => part !== '').join(': '))}`,
          )
          .join('\n'),
      ];
    case 'list':
      return block.items.length === 0 ? [] : [block.items.map((item) => `- ${escaped(item)}`).join('\n')];
    case 'table':
      return [tableOf(block.head, block.rows, block.figures)];
    case 'figures':
      return [
        tableOf(
          ['figure', ...block.heads.flatMap((name) => [name, '95 % interval']), 'definition'],
          block.rows.map(({ label, values, definition }: FigureRow) => [
            label,
            ...values.flatMap((one) => [one?.value ?? '–', one?.interval ?? '']),
            definition,
          ]),
          block.heads.flatMap((_, k) => [2 * k + 1, 2 * k + 2]),
        ),
      ];
    case 'picture':
      return block.inWords === undefined
        ? []
        : [`${escaped(block.title)}:`, ...block.inWords.flatMap(written)];
  }
}

/** Labels with what stands in them; a line to write on where nothing does. */
function form(lines: readonly FormLine[]): string {
  return lines
    .map(({ label, value }) => `${escaped(label)}: ${value === null ? '\\_\\_\\_\\_' : escaped(value)}`)
    .join('  \n');
}

function tableOf(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  figures: readonly number[],
): string {
  const line = (cells: readonly string[]) => `| ${cells.map(escaped).join(' | ')} |`;
  const columns = head.length > 0 ? head : (rows[0] ?? []).map(() => '');
  const rule = `| ${columns.map((_, k) => (figures.includes(k) ? '---:' : '---')).join(' | ')} |`;
  return [line(columns), rule, ...rows.map(line)].join('\n');
}

/** Text whose signs mean nothing to Markdown; whatever ends a line in it becomes a space. */
function escaped(text: string): string {
  return printed(text)
    .replace(/[\\`*_[\]<>|#]/g, (sign) => `\\${sign}`)
    .replace(/\s*[\n\r\u2028\u2029\u0085\v\f]\s*/g, ' ');
}
