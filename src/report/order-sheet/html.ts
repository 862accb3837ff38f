import { refuseOtherThan } from '../../errors/result.ts';
import { UNIT_NAMES } from '../../units.ts';
import { uncapital } from '../../words.ts';
import { printed } from '../text.ts';
import {
  type Block,
  type FigureRow,
  type FigureValue,
  type FormLine,
  headingAbove,
  type OrderSheet,
} from './blocks.ts';
import { PAGE_HEAD, PAGE_MEDIA, PAGE_RULES } from './page-style.ts';

/** An order or a report as one HTML file that needs nothing else: pictures inside, no script, made to be printed on A4 or Letter. */
export function sheetHtml(sheet: OrderSheet): string {
  refuseOtherThan('sheet', sheet);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${escaped(sheet.title)}</title>
<style>
${isPaged(sheet) ? `${PAGE_HEAD}\n${PAGE_RULES}\n${PAGE_MEDIA}` : `${PAGE}${pageMark(sheet)}\nbody { ${RULES}\n${NARROW_SCREEN} }`}
</style>
</head>
<body>
${content(sheet)}
</body>
</html>
`;
}

/**
 * A sheet as a part of somebody else's page, as a notebook is: its style holds for nothing else there. The class is named twice so
 * that it outweighs that page's own rules for tables.
 */
export function sheetPart(sheet: OrderSheet): string {
  return `<div class="jounce-sheet">
<style>
.jounce-sheet.jounce-sheet { max-width: ${isPaged(sheet) ? '197mm' : '186mm'};
${isPaged(sheet) ? PAGE_RULES : RULES}
}
</style>
${content(sheet)}
</div>`;
}

/** The stamp of a sheet on top of each printed page. */
function pageMark({ blocks }: OrderSheet): string {
  const stamp = blocks.find((block) => block.kind === 'stamp');
  return stamp === undefined
    ? ''
    : `\n@page { @top-center { content: ${JSON.stringify(stamp.text)}; font: bold 11pt ${FONT}; } }`;
}

function content(sheet: OrderSheet): string {
  const { title, blocks } = sheet;
  const parts = blocks.map((block, k) => written(block, isPaged(sheet) ? null : headingAbove(blocks, k)));
  return [...(isPaged(sheet) ? [] : [`<h1>${escaped(title)}</h1>`]), ...parts].join('\n');
}

/** Whether a sheet is made of pages, each with its own heading. */
function isPaged({ blocks }: OrderSheet): boolean {
  return blocks.some(({ kind }) => kind === 'page');
}

const FONT = 'Arial, "Liberation Sans", Helvetica, sans-serif';
const PAGE = `@page { margin: 10mm 12mm 13mm; @bottom-right { content: counter(page) ' / ' counter(pages); font: 8pt ${FONT}; } }
body { font: 9.5pt/1.35 ${FONT}; color: #111; background: #fff; max-width: 186mm; margin: 8mm auto; padding: 0 4mm; }
@media print { body { margin: 0; padding: 0; max-width: none; } }`;

const RULES = `overflow-wrap: break-word;
h1 { font-size: 17pt; line-height: 1.2; margin: 0 0 2mm; }
h2 { font-size: 13pt; border-bottom: 0.8pt solid #111; margin: 6mm 0 2mm; padding-bottom: 0.8mm; break-after: avoid; }
h3 { font-size: 10.5pt; margin: 3.5mm 0 1mm; break-after: avoid; }
p { margin: 0 0 1.5mm; orphans: 3; widows: 3; }
p:has(+ table), p:has(+ figure), p:has(+ ul), p:has(+ h3) { break-after: avoid; }
p.stamp { border: 1.5pt solid #111; padding: 2mm 3mm; margin: 3mm 0 4mm; }
p.stamp strong { display: block; font-size: 14pt; }
ul { margin: 0 0 3mm; padding-left: 5mm; }
li { margin-bottom: 0.6mm; orphans: 2; widows: 2; }
nav a { color: inherit; }
table { border-collapse: collapse; width: 100%; margin: 0 0 2.5mm; font-size: 8pt; line-height: 1.2; }
caption { text-align: left; font-weight: bold; font-size: 8pt; padding: 0.6mm 0; break-after: avoid; }
table.short { break-inside: avoid; }
th, td { text-align: left; vertical-align: top; padding: 0.5mm 3mm 0.5mm 0; border-bottom: 0.3pt solid #bbb; }
th, thead td { font-weight: normal; font-style: italic; border-bottom: 0.6pt solid #111; vertical-align: bottom; }
th[scope=row] { font-style: normal; border-bottom: 0.3pt solid #bbb; vertical-align: top; min-width: 26mm; }
td.n, th.n { text-align: right; padding: 0.5mm 0 0.5mm 2.5mm; font-variant-numeric: tabular-nums; }
td span { white-space: nowrap; }
td.n + td:not(.n), th.n + th:not(.n) { padding-left: 4mm; }
tr { break-inside: avoid; }
thead { break-inside: avoid; break-after: avoid; }
table:not(.short) tbody tr:nth-child(-n+4) { break-after: avoid; }
td.n small { white-space: nowrap; }
small { display: block; color: #444; font-size: 7.2pt; line-height: 1.2; font-weight: normal; }
figure { margin: 1.5mm 0 2.5mm; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; max-height: 235mm; margin: 0 auto; }
figure .narrow { display: none; }
svg.whisker { width: 14mm; height: 2.2mm; vertical-align: -0.2mm; }`;

/** Of a page of its own, inside its body, so that each rule outweighs the one above: on a narrow screen the cells of a wide table stand below one another, each with the name of its column. */
const NARROW_SCREEN = `@media screen and (max-width: 640px) { font-size: 10pt; table, caption { font-size: 9.5pt; } small { font-size: 9pt; }
table.wide thead { display: none; } table.wide tr, table.wide th, table.wide td { display: block; text-align: left; padding: 0.3mm 0; border: 0; }
table.wide tr { padding: 1mm 0; border-bottom: 0.3pt solid #bbb; } table.wide th[scope=row] { font-weight: bold; }
table.wide td[data-label]::before { content: attr(data-label) ': '; color: #444; } table.wide td.n + td:not(.n) { padding-left: 0; } table.wide td:empty { display: none; }
figure { overflow-x: auto; } figure svg { min-width: 760px; } figure svg.wide { display: none; } figure svg.narrow { display: block; min-width: 0; } figure div.narrow { display: block; } }`;

/** A block as HTML; in a report with the heading above it, by which a table has a caption or not. */
function written(block: Block, heading: string | null = null): string {
  switch (block.kind) {
    case 'page':
      return `<section class="page" aria-label="${escaped(`${block.paper}, ${block.title}`)}">
<header>
<h1><b>${escaped(block.paper)} <small>${escaped(block.sheet)}</small></b> ${escaped(block.title)}</h1>
${form(block.lines)}
</header>
${held(block.blocks.map((one) => written(one)).join('\n'))}
</section>`;
    case 'columns':
      return `<div class="columns">
${block.columns.map((column) => `<div>\n${column.map((one) => written(one)).join('\n')}\n</div>`).join('\n')}
</div>`;
    case 'form':
      return form(block.lines, ` class="row" aria-label="${escaped(block.label)}"`);
    case 'heading':
      return `<h${block.level}${block.level === 2 ? ` id="${slug(block.text)}"` : ''}>${escaped(block.text)}</h${block.level}>`;
    case 'contents':
      return `<nav aria-label="Contents"><ul>
${block.items
  .map(
    ({ text, parts }) =>
      `<li><a href="#${slug(text)}">${escaped(text)}</a>${parts.length === 0 ? '' : `: ${escaped(parts.map(uncapital).join('; '))}`}</li>`,
  )
  .join('\n')}
</ul></nav>`;
    case 'text':
      return `<p>${escaped(block.text)}</p>`;
    case 'stamp':
      return `<p class="stamp" role="alert"><strong>${escaped(block.text)}</strong> ${escaped(block.advice)}</p>`;
    case 'list':
      return block.items.length === 0
        ? ''
        : `<ul>\n${block.items.map((item) => `<li>${escaped(item)}</li>`).join('\n')}\n</ul>`;
    case 'table':
      return tableOf(
        block.head,
        block.rows.map((row) => row.map(escaped)),
        block.figures,
        block.label,
        { spans: block.spans, hasCaption: heading !== null && block.label !== heading },
      );
    case 'figures':
      return tableOf(
        [FIGURE_HEAD, ...block.heads],
        block.rows.map(({ label, definition, values }: FigureRow) => [
          `${escaped(label)}<small>${escaped(definition)}</small>`,
          ...values.map(figureValue),
        ]),
        block.heads.map((_, k) => k + 1),
        'Figures, each with its definition',
        { isWide: true },
      );
    case 'picture':
      return `<figure${block.width === undefined ? '' : ` style="max-width: ${block.width}mm"`}>${picture(block.svg, block.narrow === undefined ? '' : 'wide')}${block.narrow === undefined ? '' : picture(block.narrow, 'narrow')}${(block.narrowLegend ?? []).length === 0 ? '' : `<div class="narrow">${block.narrowLegend?.map((one) => written(one, '')).join('\n')}</div>`}</figure>`;
  }
}

/** Between a number and its unit, in the text of HTML. */
const BEFORE_UNIT = new RegExp(
  `(?<=\\d) (?=(?:${[...UNIT_NAMES, '%'].join('|')})(?![^\\s<),;:.]))(?![^<]*>)`,
  'g',
);

/** HTML whose lines do not break between a number and its unit. */
function held(html: string): string {
  return html.replace(BEFORE_UNIT, '\u00a0');
}

/** A picture inside a page, with a class where it is one of two. */
function picture(svg: string, name: '' | 'wide' | 'narrow'): string {
  const inside = svg.slice(svg.indexOf('<svg')).trim();
  return name === '' ? inside : inside.replace('<svg', `<svg class="${name}"`);
}

/** Labels with what stands in them; a line to write on where nothing does. */
function form(lines: readonly FormLine[], attributes = ''): string {
  if (lines.length === 0) return '';
  const items = lines.map(
    ({ label, value }) => `<div><dt>${escaped(label)}</dt> <dd>${escaped(value ?? '')}</dd></div>`,
  );
  return `<dl${attributes}>\n${items.join('\n')}\n</dl>`;
}

/** Columns up to which a table fits a narrow screen, and rows up to which it stays on one page. */
const NARROW = 3;
const SHORT = 8;

/** A value in two units, which breaks between them only. */
function unbroken(content: string): string {
  const values = /^(\S+ [^\s(]+) (\([^()]*\)(?: \*)?)$/.exec(content);
  return values === null ? content : `<span>${values[1]}</span> <span>${values[2]}</span>`;
}

/** A table of cells that are HTML already; the first of a row names it, unless it is a figure. */
function tableOf(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  figures: readonly number[],
  label: string,
  { spans = false, hasCaption: isShown = false, isWide = head.length > NARROW } = {},
): string {
  const cell = (name: string, attributes: string, content: string, k: number) =>
    `<${name}${attributes}${figures.includes(k) ? ' class="n"' : ''}>${content}</${name}>`;
  const column = (content: string, k: number) =>
    content === '' ? '<td></td>' : cell('th', ' scope="col"', escaped(content), k);
  const part = (content: string, k: number) =>
    k === 0 && !figures.includes(0)
      ? cell('th', ' scope="row"', content, k)
      : cell('td', isWide && head[k] !== '' ? ` data-label="${escaped(head[k])}"` : '', unbroken(content), k);
  const line = (cells: string) => `<tr>${cells}</tr>`;
  const classes = [
    ...(spans ? ['spans'] : []),
    ...(isWide ? ['wide'] : []),
    ...(rows.length > SHORT ? [] : ['short']),
  ];
  return `<table${classes.length === 0 ? '' : ` class="${classes.join(' ')}"`}${isShown ? '' : ` aria-label="${escaped(label)}"`}>
${isShown ? `<caption>${escaped(label)}</caption>\n` : ''}${head.every((name) => name === '') ? '' : `<thead>${line(head.map(column).join(''))}</thead>\n`}<tbody>
${rows.map((row) => line(spans ? spanning(row, part) : row.map(part).join(''))).join('\n')}
</tbody>
</table>`;
}

/** The cells of a row, of which the last that says something reaches to the end. */
function spanning(row: readonly string[], part: (content: string, k: number) => string): string {
  const last = row.length - 1 - [...row].reverse().findIndex((content) => content !== '');
  const cells = row.slice(0, last + 1).map(part);
  const over = row.length - last;
  if (over > 1 && last > 0) cells[last] = cells[last].replace('<td', `<td colspan="${over}"`);
  return cells.join('');
}

/** Above the names of figures: what their whiskers are. */
const FIGURE_HEAD = 'below each value its 95 % interval; the line spans ±10 % of the value, an arrow: wider';

function figureValue(value: FigureValue | null): string {
  if (value === null) return '–';
  const { interval, whisker } = value;
  const shown =
    interval === ''
      ? ''
      : `<small>${whisker === null ? '' : whiskerOf(whisker)} ${escaped(interval)}</small>`;
  return `<span>${escaped(value.value)}</span>${shown}`;
}

/** How far a whisker reaches at most, as a fraction of the value. */
const WHISKER = 0.1;
const HALF = 30;

/** An interval around its value, which stands in the middle; an end that reaches farther is an arrow. */
function whiskerOf(ends: readonly [number, number]): string {
  const [low, high] = ends.map((end) => HALF + (HALF - 2) * Math.max(-1, Math.min(1, end / WHISKER)));
  const marks = ends.map((end, k) => {
    const x = [low, high][k];
    const inward = k === 0 ? 3 : -3;
    return Math.abs(end) > WHISKER
      ? `M${(x + inward).toFixed(1)} 2L${x.toFixed(1)} 5L${(x + inward).toFixed(1)} 8`
      : `M${x.toFixed(1)} 2V8`;
  });
  return `<svg class="whisker" viewBox="0 0 ${2 * HALF} 10" aria-hidden="true"><path d="M${low.toFixed(1)} 5H${high.toFixed(1)}${marks.join('')}" fill="none" stroke="currentColor"/><circle cx="${HALF}" cy="5" r="2.2" fill="currentColor"/></svg>`;
}

/** A heading as the end of an address within its page. */
function slug(text: string): string {
  return text.toLowerCase().replace(/[^a-z0-9]+/g, '-');
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

function escaped(text: string): string {
  return printed(text).replace(/[&<>"]/g, (sign) => ENTITIES[sign]);
}
