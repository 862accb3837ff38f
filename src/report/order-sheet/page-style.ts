// How the pages of an order look: one printed page each on A4 and Letter at 100 %, one column on a narrow screen.

/** Of the whole document. */
export const PAGE_HEAD = `@page { margin: 7mm 10mm; }
body { margin: 0; background: #fff; }`;

/** Of the pages, wherever they stand. No text is smaller than 7 pt. */
export const PAGE_RULES = `.page { font: 7.4pt/1.05 Arial, "Liberation Sans", Helvetica, sans-serif; color: #000; background: #fff; max-width: 197mm; margin: 6mm auto; padding: 0 3mm; box-sizing: border-box; overflow-wrap: break-word; }
.page * { min-width: 0; }
.page header { display: grid; grid-template-columns: 1fr 98mm; gap: 0 6mm; border-bottom: 1pt solid #000; padding-bottom: 1.2mm; margin-bottom: 1.2mm; }
.page h1 { font-size: 14pt; line-height: 1.15; font-weight: bold; margin: 0; }
.page h1 b { display: block; font-size: 11pt; letter-spacing: 0.12em; }
.page h2 { font-size: 8.6pt; font-weight: bold; border: 0; border-bottom: 0.6pt solid #000; margin: 0.9mm 0 0; padding: 0 0 0.1mm; break-after: avoid; }
.page p { margin: 0 0 0.6mm; }
.page p.stamp { border: 1pt solid #000; padding: 0.8mm 1.5mm; margin: 1mm 0; }
.page p.stamp strong { display: inline; font-size: inherit; }
.page .columns { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; }
.page h2 + :is(.columns, p, table) { margin-top: 0.4mm; }
.page h2 + .columns table { margin: 0; }
.page .columns + p { margin-top: 0.5mm; }
.page .columns .columns { grid-template-columns: 43mm 1fr; gap: 0 1mm; align-items: start; }
.page .columns .columns table { font-size: 7.2pt; }
.page .columns .columns figure { margin-bottom: 0; }
.page table.spans { table-layout: fixed; }
.page .spans :is(th, td):first-child { width: 42%; }
.page small { display: inline; font-size: 8pt; font-weight: normal; letter-spacing: 0; color: #000; }
.page .columns .columns :is(th, td) { padding-left: 1mm; padding-right: 0; }
.page .columns .columns td.n { white-space: nowrap; }
.page table { border-collapse: collapse; width: 100%; margin: 0 0 0.6mm; font-size: inherit; table-layout: auto; }
.page th, .page td { text-align: left; vertical-align: top; padding: 0.08mm 2mm 0.08mm 0; border: 0; border-bottom: 0.3pt solid #aaa; font-weight: normal; font-style: normal; background: none; white-space: normal; min-width: 0; }
.page thead th { color: #333; font-size: 7.2pt; }
.page tbody th { color: #333; }
.page table:not(.spans) tbody th { white-space: nowrap; }
.page td.n, .page th.n { text-align: right; padding: 0.08mm 0 0.08mm 1.5mm; white-space: normal; font-variant-numeric: tabular-nums; }
.page :is(th, td):last-child { padding-right: 0; }
.page tr { break-inside: avoid; background: none; }
.page figure { margin: 1mm 0; break-inside: avoid; }
.page figure svg { display: block; max-width: 100%; height: auto; max-height: none; margin: 0; }
.page dl { display: grid; grid-template-columns: 1fr 1fr 1fr; gap: 0.6mm 3mm; margin: 0; align-content: start; }
.page dl div { display: flex; gap: 1.5mm; align-items: end; line-height: 1.25; }
.page dt { color: #333; white-space: nowrap; }
.page dd { margin: 0; flex: 1; border-bottom: 0.4pt solid #000; min-height: 1.25em; }
.page dl.row { grid-template-columns: 3fr 2fr 1fr; margin-top: 1.2mm; }`;

/** Of the pages on paper and on a narrow screen, where the document is theirs. */
export const PAGE_MEDIA = `@media print { .page { margin: 0; padding: 0; max-width: none; break-after: page; } .page:last-child { break-after: auto; } }
@media screen and (max-width: 760px) { .page { font-size: 9.5pt; } .page .spans :is(th, td):first-child { width: 38%; } .page .columns .columns table { font-size: 8.5pt; } .page table:not(.spans) tbody th { white-space: normal; padding-right: 2mm; } .page header, .page .columns, .page .columns .columns, .page dl.row { grid-template-columns: minmax(0, 1fr); } .page header dl { margin-top: 2mm; } }`;
