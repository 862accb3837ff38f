/** The report: every figure with its definition, what does not fit, and nothing that no reader may see. */
import {
  type OrderSheet,
  plotDampingForce,
  readCar,
  reportSheet,
  sheetData,
  sheetHtml,
  sheetJson,
  sheetMarkdown,
  sizeCoilovers,
  vegaCurves,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { axleName } from '../../src/corner/axles.ts';
import { limitWords } from '../../src/report/order-sheet/limit-words.ts';
import { MARK, toAgree } from '../../src/report/order-sheet/to-agree.ts';
import { numberIn } from '../../src/units.ts';
import { car } from '../coilover/cars.ts';
import { exampleText } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { givenUp } from '../support/words.ts';
import { drawnByVega } from './drawn-by-vega.ts';
import { faults, readPaper, struck } from './paper.ts';
import { type Json, sized } from './papers.ts';
import { elementsIn } from './xml.ts';

const example = sized();
const sheet = reportSheet(example);

/** What no reader must ever see. */
const NO_FIGURE = /\b(NaN|undefined|Infinity|null|\[object)/;

/** By how much a sum may miss four parts that are rounded each by itself. */
const ROUNDED_APART = 2;

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
      example.axles.flatMap(() => Array(12).fill('http://www.w3.org/2000/svg')),
    );
    // Each picture of an axle has another for a narrow screen.
    for (const name of ['wide', 'narrow']) expect(html.split(`<svg class="${name}"`)).toHaveLength(13);
    const open: string[] = [];
    for (const [, close, name, self] of html.matchAll(/<(\/?)([a-zA-Z0-9]+)[^>]*?(\/?)>/g)) {
      if (['meta', 'br'].includes(name) || self === '/') continue;
      if (close === '/') expect(open.pop(), 'closing').toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });

  it('as Markdown has tables whose rows are as long as their heads', () => {
    const tables = forms.markdown
      .trim()
      .split('\n\n')
      .filter((part) => part.startsWith('|'));
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
    expect(headings).toContain('Fixed once ordered');
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
        const figures = text.slice(text.indexOf('\n## Figures'));
        const [cells] = figures.match(new RegExp(`^\\| ${label} \\|.*$`, 'm')) ?? [''];
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

  /** Tables of a label in a sheet, one for each axle. */
  const tablesOf = (of: OrderSheet, label: string) =>
    of.blocks.flatMap((block) => (block.kind === 'table' && block.label === label ? [block] : []));
  /** `0.16 in (4.2 mm)` as its two numbers. */
  const bothOf = (cell: string) => [...cell.replaceAll('−', '-').matchAll(/-?[\d.]+(?= )/g)].map(Number);

  describe.each([
    ['car.json', 'imperial'],
    ['car.json', 'metric'],
    ['car-weighed.json', 'imperial'],
  ] as const)('of %s in %s units', (file, units) => {
    const sizing = { ...sizeCoilovers(readCar(exampleText(file))), units };
    const printed = reportSheet(sizing);

    it('has cases of travel whose parts add up to what they require, the largest of them the required travel', () => {
      tablesOf(printed, 'Required travel in each case').forEach(({ rows }, k) => {
        const { figure } = sizing.axles[k];
        for (const side of ['bump', 'droop'] as const) {
          const cases = rows.filter((row) => row[1] === side);
          for (const [name, , parts, required] of cases) {
            const sum = parts
              .replaceAll('−', '-')
              .split(' + ')
              .reduce((all, part) => all + Number(part.split(' ').at(-1)), 0);
            expect(sum.toFixed(2), `${name}: ${parts}`).toBe(bothOf(required)[0].toFixed(2));
          }
          const most = Math.max(...cases.map(([, , , required]) => bothOf(required)[0]));
          const required = figure(`${side}TravelRequired`).value ?? Number.NaN;
          expect(most.toFixed(2)).toBe(Number(numberIn(required, 'length', sizing.units)).toFixed(2));
          const { [side]: specified } = sizing.axles[k].input.limits.required ?? {};
          expect(cases.find(([name]) => name === 'specified')?.[2]).toBe(
            `specified ${numberIn(specified ?? Number.NaN, 'length', sizing.units)}`,
          );
        }
      });
    });

    it('has axial forces whose parts add up but for rounding in both units, the static one that of the figures', () => {
      tablesOf(printed, 'Axial force of the coilover in each load case, compression +').forEach(
        ({ rows }, k) => {
          for (const [name, total, ...parts] of rows) {
            [0, 1].forEach((unit) => {
              const sum = parts.reduce((all, part) => all + (part === '–' ? 0 : bothOf(part)[unit]), 0);
              expect(Math.abs(sum - bothOf(total)[unit]), `${name}: ${parts}`).toBeLessThanOrEqual(
                ROUNDED_APART,
              );
            });
            // The wheel is where its coilover balances it, but on the extended damper.
            expect(parts.at(-1) === '–', name).toBe(name !== 'full droop');
          }
          const { value } = sizing.axles[k].figure('staticAxialForce');
          expect(bothOf(rows[0][1])[sizing.units === 'metric' ? 0 : 1]).toBe(Math.round(value ?? Number.NaN));
        },
      );
    });

    it('has ride height lost under downforce as the sum of suspension and tyre', () => {
      for (const { rows } of tablesOf(printed, 'Ride height and travel under downforce')) {
        for (const [speed, , suspension, tyre, lost] of rows) {
          [0, 1].forEach((unit) => {
            const sum = bothOf(suspension)[unit] + bothOf(tyre)[unit];
            expect(sum.toFixed(2), speed).toBe(bothOf(lost)[unit].toFixed(2));
          });
        }
      }
    });
  });

  describe.each(['car.json', 'car-weighed.json'])('of %s', (file) => {
    const sizing = sizeCoilovers(readCar(exampleText(file)));
    const printed = reportSheet(sizing);

    it('lists every part in its contents, and says so where there is no conflict', () => {
      const contents = printed.blocks.flatMap((block) => (block.kind === 'contents' ? block.items : []));
      const headings = printed.blocks.flatMap((block) => (block.kind === 'heading' ? [block] : []));
      expect(contents.map(({ text }) => text)).toEqual(
        headings.filter(({ level }) => level === 2).map(({ text }) => text),
      );
      expect(contents.flatMap(({ parts }) => parts)).toEqual(
        headings.filter(({ level }) => level === 3).map(({ text }) => text),
      );
      const none = printed.blocks.some((block) => block.kind === 'text' && block.text === 'Conflicts: none.');
      expect(headings.some(({ text }) => text === 'Conflicts')).toBe(!none);
      expect(none).toBe(sizing.conflicts.length === 0);
      // A revision keeps its letter.
      for (const written of [sheetHtml(printed), sheetMarkdown(printed)])
        expect(written).not.toContain('revision a ');
    });

    it('has no part without anything in it, as Markdown too', () => {
      const lines = sheetMarkdown(printed)
        .split('\n')
        .filter((line) => line !== '');
      lines.forEach((line, k) => {
        const depth = /^#+/.exec(line)?.[0].length ?? 9;
        const next = /^#+/.exec(lines[k + 1] ?? '#')?.[0].length ?? 9;
        if (depth < 9) expect(next, line).toBeGreaterThan(depth);
      });
    });

    it('asks what the order asks, in its words; of what is bought only what is new', () => {
      const tables = ['To agree', `To agree: ${MARK}`].flatMap((title) => tablesOf(printed, title));
      for (const axle of sizing.axles) {
        const rows = tables.flatMap(({ rows }) => rows).filter(([name]) => name === axleName(axle.axle));
        const asked = rows.map(([, , what]) => what).join('; ');
        if (axle.input.ordered === undefined)
          for (const { what } of toAgree(axle)) expect(asked).toContain(what);
        else expect(rows.length).toBe(axle.afterOrder?.change?.listed === false ? 1 : 0);
      }
    });

    it('has on the ruler every limit and event of the table', () => {
      tablesOf(printed, 'Limits and events, from ride height outward').forEach(({ rows }, k) => {
        const title = `${k === 0 ? 'Front' : 'Rear'}: wheel travel required and available, with its limits`;
        const ruler = printed.blocks.find((block) => block.kind === 'picture' && block.title === title);
        if (ruler?.kind !== 'picture') expect.fail('no ruler');
        const { words } = readPaper(ruler.svg);
        for (const [name] of rows) expect(words.some(({ text }) => text.startsWith(name))).toBe(true);
        const { bump, droop, later } = sizing.axles[k].limits;
        for (const { travel, side, cause } of later) {
          const first = (side === 'bump' ? bump : droop)?.travel ?? Number.NaN;
          if (Math.abs(travel - first) > 50) continue;
          expect(rows.map(([name]) => name)).toContain(limitWords({ cause, part: partOf(later, travel) }));
        }
      });
    });

    it('draws tyre and rim by the size in the file', () => {
      for (const block of printed.blocks) {
        if (block.kind !== 'picture' || !block.title.startsWith('Front corner at')) continue;
        expect(block.svg).not.toContain('assumed');
      }
    });
  });
  const partOf = (later: readonly { travel: number; part: string }[], at: number) =>
    later.find(({ travel }) => travel === at)?.part ?? '';

  it('names the end of the travel by what there is: a bump stop, or the bump limit', () => {
    const without = sheetMarkdown(
      reportSheet(
        sized(({ corners }) => {
          delete corners.rear.limits.bumpStop;
          delete corners.rear.sizing.bumpStopTable;
        }),
      ),
    );
    const [front, rear] = without
      .split('\n')
      .filter((line) => /^The forces on the (order|enquiry)/.test(line));
    expect(front).toMatch(/at bump stop contact\.$/);
    expect(rear).toMatch(/at the bump limit\.$/);
  });

  it('gives what rod, rocker and mounts bear, which add up to what the ground gives less the unsprung weight', () => {
    const { kind, lowerArm, upperArm, wheel, rod, rocker, coilover, limits } = JSON.parse(
      exampleText('pushrod-corner.json'),
    );
    const sizing = sizeCoilovers(
      readCar(
        car(({ corners }) => {
          corners.rear = {
            ...{ kind, lowerArm, upperArm, wheel, rod, rocker, coilover },
            limits: { damper: limits.damper },
            sizing: { unsprungMass: 30, target: { frequency: 1.6 } },
          };
        }),
      ),
    );
    const printed = reportSheet(sizing);
    const { cases } = sizing.axles[1].forces ?? expect.fail('no forces');
    const [, links] = tablesOf(printed, 'Forces in arms and rods in each load case');
    expect(links.head.filter((name) => !/bending|distance/.test(name))).toEqual(
      ['load case', 'lower arm', 'upper arm', 'rod'].map(along),
    );
    // A pushrod under load is in compression.
    expect(links.rows[0][links.head.indexOf('rod, along it')]).toMatch(/^compression \d+ N /);
    const [, mounts] = tablesOf(printed, 'Forces on the chassis in each load case: y outboard, z up (N)');
    expect(mounts.head.join()).toContain('rocker pivot');
    mounts.rows.forEach((row, k) => {
      const sum = [/: y (-?\d+)/, /, z (-?\d+)/].map((part) =>
        row
          .slice(1)
          .reduce((all, cell) => all + Number(part.exec(cell.replaceAll('−', '-'))?.[1] ?? Number.NaN), 0),
      );
      const [y, z] = cases[k].tyre ?? [0, 0];
      expectWithin(sum[0], y, 3);
      expectWithin(sum[1], z - 30 * 9.80665, 3);
    });
  });
  const along = (name: string, k: number) => (k === 0 ? name : `${name}, along it`);

  it('gives the load of every ball joint in every case, pulled out or pushed in', () => {
    const tables = sheet.blocks.flatMap((block) =>
      block.kind === 'table' && block.label === 'Loads of the ball joints' ? [block] : [],
    );
    expect(tables).toHaveLength(example.axles.length);
    example.axles.forEach(({ forces }, k) => {
      const { cases } = forces ?? expect.fail('no forces');
      expect(tables[k].rows.map(([name]) => name)).toEqual(cases.map(({ name }) => name));
      cases.forEach(({ ballJoints, alongKingpin }, row) => {
        const cells = tables[k].rows[row];
        tables[k].head.slice(1).forEach((head, column) => {
          const joint = /^(lower|upper)/.exec(head)?.[0];
          const load = ballJoints[`${joint}Outer`] ?? alongKingpin[`${joint}Outer`];
          expect(cells[column + 1]).toMatch(
            new RegExp(
              `^${load.axial > 0 ? 'pulled out' : 'pushed in'} .*\\(${Math.abs(load.axial).toFixed(0)} N\\), radial `,
            ),
          );
        });
      });
    });
  });

  it('names bending, wheel loads, steady states and the status of each axle; fractions add up to 100', () => {
    const text = sheetMarkdown(sheet);
    expect(text).toContain('Front: ready to order. Rear: enquiry only, see Open questions.');
    const [front] = tablesOf(sheet, 'Forces in arms and rods in each load case');
    const { cases } = example.axles[0].forces ?? expect.fail('no forces');
    const column = front.head.indexOf('lower arm, largest bending moment');
    cases.forEach(({ bending, name }, k) => {
      const size = Math.abs(bending[0].moment) / 1000;
      expect(bothOf(front.rows[k][column])[1], name).toBe(Math.round(size));
    });
    const [steady] = tablesOf(sheet, 'Steady states against contact with the bump stop, without road bumps');
    expect(steady.rows.map(([state]) => state)).toEqual([
      'at rest',
      'at top speed, 120 mph (193 km/h)',
      'steady corner, 0.95 g, with downforce at 120 mph (193 km/h)',
      'steady braking, 0.90 g, with downforce at 120 mph (193 km/h)',
    ]);
    for (const [, travel, contact, margin] of steady.rows)
      expect((bothOf(contact)[0] - bothOf(travel)[0]).toFixed(2)).toBe(bothOf(margin)[0].toFixed(2));
    for (const block of sheet.blocks) {
      if (block.kind !== 'picture' || !block.title.endsWith('uncertain')) continue;
      const [table] = block.inWords ?? [];
      if (table?.kind !== 'table') expect.fail('no table');
      let sum = 0;
      const sums: number[] = [];
      for (const [figure, , , percent] of table.rows) {
        if (figure !== '' && sum > 0) sums.push(sum);
        sum = (figure === '' ? sum : 0) + Number.parseInt(percent.replace('under 1', '0'), 10);
      }
      expect([...sums, sum]).toEqual(Array(sums.length + 1).fill(100));
    }
  });

  it('says of a weighed car which conflicts its advice cures, and tells two prints apart', () => {
    const weighed = sizeCoilovers(readCar(exampleText('car-weighed.json')));
    const judged = weighed.conflicts.filter(({ values }) => 'afterAdvice' in values);
    expect(judged.length).toBe(weighed.conflicts.length);
    const printed = sheetMarkdown(reportSheet(weighed, { file: 'car-weighed.json', date: '2026-05-17' }));
    expect(printed).toContain('file car-weighed.json, printed on 2026-05-17.');
    expect(printed).toContain('that cures it');
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
    for (const svg of [picture.svg, picture.narrow ?? expect.fail('no narrow picture')]) {
      const paper = readPaper(svg);
      expect(faults(paper)).toEqual([]);
      expect(struck(paper)).toEqual([]);
      expect(paper.words.filter(({ text }) => ['driver', 'empty'].includes(text))).toHaveLength(4);
    }
  });

  it('names every table, column and picture for those who listen to it', () => {
    const all = elementsIn(forms.html);
    const named = (name: string) => all.filter((node) => node.name === name);
    expect(named('h1')).toHaveLength(1);
    expect(named('table').length).toBeGreaterThan(12);
    // By its caption, or where the heading above says the same, for those who listen only.
    const isNamed = named('table').filter(({ attributes }) => /\w/.test(attributes['aria-label'] ?? ''));
    expect(isNamed.length + named('caption').length).toBe(named('table').length);
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
