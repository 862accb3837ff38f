import { readFileSync } from 'node:fs';
import {
  orderSheet,
  plotDampingForce,
  readCar,
  sheetData,
  sheetHtml,
  sheetJson,
  sheetMarkdown,
  sizeCoilovers,
  vegaCurves,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { drawnByVega } from './drawn-by-vega.ts';

// biome-ignore lint/suspicious/noExplicitAny: documents are changed here, at any place
type Json = any;

const text = readFileSync(new URL('../../docs/examples/car.json', import.meta.url), 'utf8');

/** The example car, changed. */
function sized(change: (car: Json) => void = () => {}) {
  const car = JSON.parse(text);
  change(car);
  return sizeCoilovers(readCar(car));
}

const example = sized();
const sheet = orderSheet(example);

/** The table of what to make: by its label, a fact for each axle. */
function factsOf(sizing: ReturnType<typeof sized>): Record<string, string[]> {
  const table = orderSheet(sizing).blocks.find(({ kind }) => kind === 'table');
  if (table?.kind !== 'table') expect.fail('no table');
  return Object.fromEntries(table.rows.map(([label, ...facts]) => [label, facts]));
}

/** What no reader must ever see. */
const NO_FIGURE = /\b(NaN|undefined|Infinity|null|\[object)/;

describe('an order sheet', () => {
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
      expect(written).toContain('13.31 inch');
      expect(written).not.toMatch(NO_FIGURE);
    },
  );

  it('as HTML is one file: well-formed tags, pictures inside, nothing fetched, no script', () => {
    const { html } = forms;
    expect(html).not.toMatch(/<script|<link|<img|@import|url\(|src=/);
    expect([...html.matchAll(/https?:[^"]*/g)].map(String)).toEqual(
      example.axles.flatMap(() => Array(3).fill('http://www.w3.org/2000/svg')),
    );
    expect(html.match(/<svg/g)?.length).toBe(6);
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
    const data = JSON.parse(sheetJson(example));
    expect(data).toEqual(JSON.parse(JSON.stringify(sheetData(example))));
    const spring = data.axles[0].figures.find(({ name }: Json) => name === 'requiredSpringRate');
    expect(spring).toMatchObject({
      unit: 'N/mm',
      value: example.axles[0].figure('requiredSpringRate').value,
    });
    expect(data.axles[1].curves.rows.length).toBe(29);
    expect(sheetJson(example)).not.toMatch(/NaN|Infinity/);
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
    expect(headings).toContain('Settled by the order');
    expect(headings).toContain('Cautions');
  });

  it('prints margins that are the difference of available and required as printed, in both units', () => {
    let seen = 0;
    for (const total of [1380, 1400, 1420, 1440, 1460, 1480]) {
      const text = sheetMarkdown(
        orderSheet(
          sized(({ masses }) => {
            masses.estimate.total.value = total;
          }),
        ),
      );
      const of = (axle: string, label: string) => {
        const part = text.slice(text.indexOf(`\n## ${axle}`));
        const cells = part.match(new RegExp(`\\| ${label} \\| (-?[\\d.]+) inch \\| (-?[\\d.]+) mm`));
        return [Number(cells?.[1]), Number(cells?.[2])];
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
          expect(list.match(`${name} travel: margin (-?[\\d.]+) inch`)?.[1]).toBe(margin[0].toFixed(2));
          seen++;
        }
      }
    }
    expect(seen).toBe(24);
  });

  it('asks of the end bearings what they use, and gives what they allow apart from that', () => {
    const facts = factsOf(example);
    expect(facts['chassis end'][0]).toMatch(
      /square to the coilover, misalignment used -3\.2 to \+3\.0 deg from ride height; bearing rating ±14 deg each side$/,
    );
    expect(facts['moving end'][0]).toMatch(
      /longitudinal, misalignment used 0\.0 deg over the travel; bearing/,
    );
  });

  it('prints as maximum axial force that of the cases whose joint loads it gives', () => {
    const facts = factsOf(example);
    example.axles.forEach(({ forces }, k) => {
      const { cases, largest } = forces ?? expect.fail('no forces');
      const most = Math.max(...cases.map(({ shock }) => shock.total));
      expect(facts['maximum axial force'][k]).toContain(
        `(${most.toFixed(0)} N), load case "stop driven solid"`,
      );
      if (k === 0) expect(largest.lowerOuter.case).toBe('stop driven solid');
    });
  });

  it('gives the joint loads of every case in a table', () => {
    const tables = sheet.blocks.flatMap((block) => (block.kind === 'table' ? [block] : []));
    const joints = tables.find(({ head }) => head[1] === 'ball joint') ?? expect.fail('no table');
    const { cases } = example.axles[0].forces ?? expect.fail('no forces');
    expect(joints.rows.length).toBe(cases.flatMap(({ ballJoints }) => Object.keys(ballJoints)).length);
    const solid = joints.rows.find(
      ([name, joint]) => name === 'stop driven solid' && joint === 'lower outer',
    );
    const axial =
      cases.find(({ name }) => name === 'stop driven solid')?.ballJoints.lowerOuter.axial ?? Number.NaN;
    expect(solid?.[2]).toContain(`(${axial.toFixed(0)} N)`);
  });

  it('says "to be agreed" of what nobody has settled', () => {
    const facts = factsOf(example);
    expect(facts.handing).toEqual(['to be agreed', 'to be agreed']);
    expect(
      Object.values(facts)
        .flat()
        .filter((fact) => /\bopen\b/.test(fact)),
    ).toEqual([]);
  });

  it('has one stamp: NOT FOR ORDER while there are conflicts, else DRAFT until it has a revision', () => {
    const stamps = (change: (car: Json) => void) => {
      const { blocks } = orderSheet(sized(change));
      return blocks.flatMap((block) => (block.kind === 'stamp' ? [block.text] : []));
    };
    const issue = (car: Json) => (car.order = { revision: 'A', date: '2026-08-03' });
    const spoil = (car: Json) => (car.corners.front.sizing.unsprungMass = 500);
    expect(stamps(() => {})).toEqual(['DRAFT']);
    expect(stamps(issue)).toEqual([]);
    expect(stamps(spoil)).toEqual(['NOT FOR ORDER']);
    expect(
      stamps((car) => {
        issue(car);
        spoil(car);
      }),
    ).toEqual(['NOT FOR ORDER']);
  });

  it('names what does not fit, and shows all the rest', () => {
    const faulty = sized((car) => {
      car.corners.front.sizing.unsprungMass = 500;
    });
    const html = sheetHtml(orderSheet(faulty));
    expect(html).toContain('<h2>Conflicts</h2>');
    expect(html).toContain('NOT FOR ORDER');
    expect(sheetMarkdown(orderSheet(faulty))).toContain('**NOT FOR ORDER.**');
    expect(faulty.status).toBe('notForOrder');
    expect(html).toContain('corners.front.sizing.unsprungMass: ');
    expect(html).toContain('338.0 mm');
    expect(html).not.toMatch(NO_FIGURE);
  });

  it('keeps to what was written, whatever signs are in it', () => {
    const odd = sized((car) => {
      car.name = 'A <b>"bold"</b> & | `odd` *name*';
      car.openQuestions = ['<script>alert(1)</script>', 'a | b'];
    });
    const html = sheetHtml(orderSheet(odd));
    expect(html).not.toContain('<script>');
    expect(html).toContain('A &lt;b&gt;&quot;bold&quot;&lt;/b&gt; &amp; | `odd` *name*');
    expect(sheetMarkdown(orderSheet(odd))).toContain('\\<script\\>alert(1)\\</script\\>');
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
    const written = orderSheet(some);
    for (const form of [sheetHtml(written), sheetMarkdown(written)]) expect(form).not.toMatch(NO_FIGURE);
    expect(sheetJson(some)).not.toMatch(/NaN|Infinity/);
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
