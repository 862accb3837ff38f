import type { Block, FigureRow } from './blocks.ts';
import type { OrderSheet } from './order-sheet.ts';

/** An order sheet as one HTML file that needs nothing else: pictures inside, no script, made to be printed on A4 or Letter. */
export function sheetHtml(sheet: OrderSheet): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${escaped(sheet.title)}</title>
<style>
${PAGE}${pageMark(sheet)}
${RULES}
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
.jounce-sheet.jounce-sheet { max-width: 180mm;
${RULES}
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
    : `\n@page { @top-center { content: ${JSON.stringify(stamp.text)}; font: bold 12pt "DejaVu Serif", Georgia, serif; } }`;
}

function content({ title, blocks }: OrderSheet): string {
  return [`<h1>${escaped(title)}</h1>`, ...blocks.map(written)].join('\n');
}

const PAGE = `@page { margin: 16mm 15mm 18mm; @bottom-right { content: counter(page) ' / ' counter(pages); font: 8.5pt "DejaVu Serif", Georgia, serif; } }
body { font: 10.5pt/1.4 "DejaVu Serif", Georgia, serif; color: #111; max-width: 180mm; margin: 8mm auto; padding: 0 4mm; }
@media print { body { margin: 0; padding: 0; max-width: none; } }`;

const RULES = `h1 { font-size: 19pt; font-weight: normal; margin: 0 0 2mm; }
h2 { font-size: 14pt; font-weight: normal; border-bottom: 0.6pt solid #111; margin: 9mm 0 3mm; padding-bottom: 1mm; break-after: avoid; }
h3 { font-size: 11.5pt; margin: 6mm 0 2mm; break-after: avoid; }
p { margin: 0 0 2.5mm; }
p.stamp { border: 1.5pt solid #111; padding: 3mm 4mm; margin: 3mm 0 5mm; }
p.stamp strong { display: block; font-size: 16pt; }
ul { margin: 0 0 3mm; padding-left: 5mm; }
li { margin-bottom: 0.8mm; }
table { border-collapse: collapse; width: 100%; margin: 0 0 4mm; font-size: 9.5pt; }
th, td { text-align: left; vertical-align: top; padding: 1mm 4mm 1mm 0; border-bottom: 0.3pt solid #bbb; }
th { font-weight: normal; font-style: italic; border-bottom: 0.6pt solid #111; }
td.n, th.n { text-align: right; padding: 1mm 0 1mm 3mm; font-variant-numeric: tabular-nums; }
td.n { white-space: nowrap; }
td.n + td:not(.n), th.n + th:not(.n) { padding-left: 5mm; }
td:first-child { min-width: 30mm; }
tr { break-inside: avoid; }
small { display: block; color: #555; font-size: 8pt; line-height: 1.25; }
figure { margin: 4mm 0; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; max-height: 165mm; margin: 0 auto; }`;

function written(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h${block.level}>${escaped(block.text)}</h${block.level}>`;
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
      );
    case 'figures':
      return tableOf(
        ['figure', ...block.units, '95 % between'],
        block.rows.map(({ label, own, other, interval, definition }: FigureRow) => [
          `${escaped(label)}<small>${escaped(definition)}</small>`,
          escaped(own),
          escaped(other),
          interval
            .split('; ')
            .map((part) => escaped(part))
            .join('<br>'),
        ]),
        [1, 2, 3],
      );
    case 'picture':
      return `<figure>${block.svg.slice(block.svg.indexOf('<svg'))}</figure>`;
  }
}

/** A table of cells that are HTML already. */
function tableOf(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  figures: readonly number[],
): string {
  const cell = (name: string) => (content: string, k: number) =>
    `<${name}${figures.includes(k) ? ' class="n"' : ''}>${content}</${name}>`;
  const line = (cells: string) => `<tr>${cells}</tr>`;
  return `<table>
<thead>${line(head.map(escaped).map(cell('th')).join(''))}</thead>
<tbody>
${rows.map((row) => line(row.map(cell('td')).join(''))).join('\n')}
</tbody>
</table>`;
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => ENTITIES[sign]);
}
