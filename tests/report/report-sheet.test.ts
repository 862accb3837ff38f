/** The report: every figure with its definition, what does not fit, and nothing that no reader may see. */
import {
  plotDampingForce,
  reportSheet,
  sheetData,
  sheetHtml,
  sheetJson,
  sheetMarkdown,
  vegaCurves,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { givenUp } from '../support/words.ts';
import { drawnByVega } from './drawn-by-vega.ts';
import { faults, readPaper } from './paper.ts';
import { type Json, sized } from './papers.ts';
import { elementsIn } from './xml.ts';

const example = sized();
const sheet = reportSheet(example);

/** What no reader must ever see. */
const NO_FIGURE = /\b(NaN|undefined|Infinity|null|\[object)/;

describe('a report', () => {
  const forms = { html: sheetHtml(sheet), markdown: sheetMarkdown(sheet) };

  it.each(Object.entries(forms))(
    'as %s shows each figure with its definition, in both units',
    (_, written) => {
      for (const { figures } of example.axles) {
        const shown = figures.filter(({ value }) => value !== null);
        expect(shown.length).toBeGreaterThan(40);
        for (const { label, definition } of shown) {
          expect(written).toContain(label.replaceAll('&', '&amp;'));
          expect(written).toContain(definition.replaceAll('&', '&amp;'));
        }
      }
      expect(written).toContain('338.0 mm');
      expect(written).toContain('13.31 in');
      expect(written).not.toMatch(NO_FIGURE);
    },
  );

  it('as HTML is one file: well-formed tags, pictures inside, nothing fetched, no script', () => {
    const { html } = forms;
    expect(html).not.toMatch(/<script|<link|<img|@import|url\(|src=/);
    expect([...html.matchAll(/https?:[^"]*/g)].map(String)).toEqual(
      example.axles.flatMap(() => Array(5).fill('http://www.w3.org/2000/svg')),
    );
    expect(html.match(/<svg (?!class)/g)?.length).toBe(10);
    const open: string[] = [];
    for (const [, close, name, self] of html.matchAll(/<(\/?)([a-zA-Z0-9]+)[^>]*?(\/?)>/g)) {
      if (['meta', 'br'].includes(name) || self === '/') continue;
      if (close === '/') expect(open.pop(), 'closing').toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });

  it('as Markdown has tables whose rows are as long as their heads', () => {
    const tables = forms.markdown.split('\n\n').filter((part) => part.startsWith('|'));
    expect(tables.length).toBeGreaterThan(12);
    for (const table of tables) {
      const cells = table.split('\n').map((row) => row.split(/(?<!\\)\|/).length);
      expect(new Set(cells).size, table.slice(0, 80)).toBe(1);
    }
  });

  it('as JSON holds every figure as it was reckoned, and the curves', () => {
    const data = JSON.parse(sheetJson(sheet));
    expect(data).toEqual(JSON.parse(JSON.stringify(sheetData(sheet))));
    const spring = data.axles[0].figures.find(({ name }: Json) => name === 'requiredSpringRate');
    expect(spring).toMatchObject({
      unit: 'N/mm',
      value: example.axles[0].figure('requiredSpringRate').value,
    });
    expect(data.axles[1].curves.rows.length).toBe(29);
    expect(sheetJson(sheet)).not.toMatch(/NaN|Infinity/);
  });

  it('tells what the order settles apart from what can be changed later', () => {
    const settled = Object.fromEntries(example.axles[0].figures.map((figure) => [figure.name, figure.group]));
    expect(settled).toMatchObject({
      extendedLength: 'order',
      stroke: 'order',
      springRate: 'adjustable',
      meanDamping: 'adjustable',
    });
    const headings = sheet.blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
    expect(headings).toContain('Fixed by the order');
    expect(headings).toContain('Cautions');
  });

  it('prints margins that are the difference of available and required as printed, in both units', () => {
    let seen = 0;
    for (const total of [1380, 1400, 1420, 1440, 1460, 1480]) {
      const text = sheetMarkdown(
        reportSheet(
          sized(({ masses }) => {
            masses.estimate.total.value = total;
          }),
        ),
      );
      const of = (axle: string, label: string) => {
        const [cells] = text.match(new RegExp(`^\\| ${label} \\|.*$`, 'm')) ?? [''];
        const [, front, , rear] = cells.split(' | ');
        const both = /^(−?[\d.]+) in \((−?[\d.]+) mm\)$/.exec(axle === 'Front' ? front : rear);
        return [both?.[1], both?.[2]].map((digits) => Number(digits?.replace('−', '-')));
      };
      for (const axle of ['Front', 'Rear']) {
        for (const side of ['bump', 'droop']) {
          const [required, available, margin] = ['required', 'available', 'margin'].map((what) =>
            of(axle, `${side} travel ${what}`),
          );
          expect((available[0] - required[0]).toFixed(2)).toBe(margin[0].toFixed(2));
          expect((available[1] - required[1]).toFixed(1)).toBe(margin[1].toFixed(1));
          const list = text.slice(text.indexOf(`\n## ${axle}`));
          const name = side === 'bump' ? 'Bump' : 'Droop';
          expect(list.match(`${name} travel: margin (−?[\\d.]+) in`)?.[1].replace('−', '-')).toBe(
            margin[0].toFixed(2),
          );
          seen++;
        }
      }
    }
    expect(seen).toBe(24);
  });

  it('gives the load of every ball joint in every case, pulled out or pushed in', () => {
    const tables = sheet.blocks.flatMap((block) =>
      block.kind === 'table' && block.label === 'Loads of the joints at the upright' ? [block] : [],
    );
    expect(tables).toHaveLength(example.axles.length);
    example.axles.forEach(({ forces }, k) => {
      const { cases } = forces ?? expect.fail('no forces');
      expect(tables[k].rows.map(([name]) => name)).toEqual(cases.map(({ name }) => name));
      cases.forEach(({ ballJoints, alongKingpin }, row) => {
        const cells = tables[k].rows[row];
        tables[k].head.slice(1).forEach((head, column) => {
          const joint = `${/^(lower|upper)/.exec(head)?.[0]}Outer`;
          expect(head.includes('stud taken along the kingpin'), head).toBe(!(joint in ballJoints));
          const { axial } = ballJoints[joint] ?? alongKingpin[joint];
          expect(cells[column + 1]).toMatch(
            new RegExp(
              `^${axial > 0 ? 'pulled out' : 'pushed in'} .*\\(${Math.abs(axial).toFixed(0)} N\\), radial `,
            ),
          );
        });
      });
    });
  });

  it('says of each assumption what it changes', () => {
    const table = sheet.blocks.find((block) => block.kind === 'table' && block.label === 'Assumptions');
    if (table?.kind !== 'table') expect.fail('no table');
    expect(table.rows).toHaveLength(example.assumptions.length);
    for (const [assumption, change] of table.rows) expect(change, assumption).toMatch(/\w/);
  });

  it('shows load states where they stand between the limits', () => {
    const states = sized((car) => {
      car.masses.states = [
        { name: 'driver', loads: ['driver', 'half a tank of fuel'] },
        { name: 'empty', loads: [] },
      ];
      car.masses.designState = 'driver';
    });
    const { blocks } = reportSheet(states);
    const picture = blocks.find((block) => block.kind === 'picture' && block.title.startsWith('Load states'));
    if (picture?.kind !== 'picture') expect.fail('no picture');
    const paper = readPaper(picture.svg);
    expect(faults(paper)).toEqual([]);
    expect(paper.words.filter(({ text }) => ['driver', 'empty'].includes(text))).toHaveLength(4);
  });

  it('names every table, column and picture for those who listen to it', () => {
    const all = elementsIn(forms.html);
    const named = (name: string) => all.filter((node) => node.name === name);
    expect(named('h1')).toHaveLength(1);
    expect(named('table').length).toBeGreaterThan(12);
    for (const { attributes } of named('table')) expect(attributes['aria-label']).toMatch(/\w/);
    for (const { attributes } of named('th')) expect(attributes.scope).toMatch(/^(row|col)$/);
    for (const { attributes } of named('svg')) {
      expect(attributes.role === 'img' || attributes['aria-hidden'] === 'true').toBe(true);
    }
  });

  it('is stamped NOT FOR ORDER while there are conflicts', () => {
    const stamps = (change?: (car: Json) => void) =>
      reportSheet(sized(change)).blocks.flatMap((block) => (block.kind === 'stamp' ? [block.text] : []));
    expect(stamps()).toEqual([]);
    expect(stamps((car) => (car.corners.front.sizing.unsprungMass = 500))).toEqual(['NOT FOR ORDER']);
  });

  it('names what does not fit, and shows all the rest', () => {
    const faulty = sized((car) => {
      car.corners.front.sizing.unsprungMass = 500;
    });
    const html = sheetHtml(reportSheet(faulty));
    expect(html).toContain('<h2 id="conflicts">Conflicts</h2>');
    expect(html).toContain('NOT FOR ORDER');
    expect(sheetMarkdown(reportSheet(faulty))).toContain('**NOT FOR ORDER.**');
    expect(faulty.status).toBe('notForOrder');
    expect(html).toContain('corners.front.sizing.unsprungMass');
    expect(html).toContain('338.0 mm');
    expect(html).not.toMatch(NO_FIGURE);
  });

  it('keeps to what was written, whatever signs are in it', () => {
    const odd = sized((car) => {
      car.name = 'A <b>"bold"</b> & | `odd` *name*';
      car.openQuestions = ['<script>alert(1)</script>', 'a | b'];
    });
    const html = sheetHtml(reportSheet(odd));
    expect(html).not.toContain('<script>');
    expect(html).toContain('A &lt;b&gt;&quot;bold&quot;&lt;/b&gt; &amp; | `odd` *name*');
    expect(sheetMarkdown(reportSheet(odd))).toContain('\\<script\\>alert(1)\\</script\\>');
  });

  it.each(['bare corners', 'one axle', 'no masses', 'metric'])('is written for a car with %s', (what) => {
    const some = sized((car) => {
      if (what === 'one axle') delete car.corners.rear;
      if (what === 'no masses') delete car.masses;
      if (what === 'metric') car.units = 'metric';
      if (what !== 'bare corners') return;
      for (const corner of Object.values<Json>(car.corners)) {
        delete corner.sizing;
        delete corner.limits;
      }
    });
    const written = reportSheet(some);
    const pictures = written.blocks.flatMap((block) =>
      block.kind === 'picture' ? [block.title, block.svg.replace(/<[^>]*>/g, ' ')] : [],
    );
    expect(givenUp([sheetMarkdown(written), ...pictures].join('\n'))).toEqual([]);
    for (const form of [sheetHtml(written), sheetMarkdown(written)]) expect(form).not.toMatch(NO_FIGURE);
    expect(sheetJson(written)).not.toMatch(/NaN|Infinity/);
  });
});

describe('the curves of a sizing', () => {
  it('are drawn by a Vega-Lite compiler', async () => {
    const { curves } = example.axles[0];
    if (curves === null) expect.fail('no curves');
    const svg = await drawnByVega(vegaCurves(curves, { panels: ['wheelRate', 'frequency'] }));
    expect(svg).toContain('wheel rate, without the tyre [N/mm]');
  });

  it('of the damper go through the points of its table', () => {
    const svg = plotDampingForce([
      { speed: 100, compression: 200, rebound: 300 },
      { speed: 200, compression: 300, rebound: 450 },
    ]);
    const paths = [...svg.matchAll(/ d="(M[^"]*)"/g)].map(([, d]) => d.match(/[\d.]+ [\d.]+/g) ?? []);
    expect(paths.map(({ length }) => length)).toEqual([3, 3]);
    const [bump, rebound] = paths.map((places) => places.map((place) => place.split(' ').map(Number)));
    const rise = (places: number[][], k: number) => places[0][1] - places[k][1];
    expect(rise(bump, 2) / rise(rebound, 2)).toBeCloseTo(300 / 450, 3);
    expect(rise(bump, 1) / rise(bump, 2)).toBeCloseTo(200 / 300, 3);
  });
});
