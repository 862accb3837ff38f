/** The order: what its pages say is what the sizing found, in words that a maker knows. */
import { readFileSync } from 'node:fs';
import {
  type AxleFigureName,
  type AxleSizing,
  orderSheet,
  type Quantity,
  readCar,
  reportSheet,
  type Sizing,
  sheetData,
  sheetHtml,
  sheetJson,
  sheetMarkdown,
  sizeCoilovers,
  sizingSummary,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { numberIn } from '../../src/units.ts';
import { givenUp } from '../support/words.ts';
import { readPaper } from './paper.ts';
import { flat, type Json, pagesIn, rowsIn, sized } from './papers.ts';
import { elementsIn, parseXml } from './xml.ts';

const example = sized();
/** A car that does not stand where it was designed to. */
const weighed = sizeCoilovers(readCar(readFileSync('docs/examples/car-weighed.json', 'utf8')));

/** Rows of the page of an axle, by label. */
function factsOf(sizing: Sizing, k: number): Record<string, string[]> {
  return Object.fromEntries(
    rowsIn([pagesIn(orderSheet(sizing).blocks)[k]]).map(([label, ...cells]) => [label, cells]),
  );
}

/** All text of an order but its pictures. */
const textOf = (sizing: Sizing) => sheetMarkdown(orderSheet(sizing));

const CARS: readonly (readonly [string, Sizing])[] = [
  ['in inches', example],
  ['in mm', { ...example, units: 'metric' }],
  ['of one axle', sized((car) => delete car.corners.rear)],
  ['without masses', sized((car) => delete car.masses)],
  [
    'of which only the linkage is known',
    sized((car) => {
      for (const corner of Object.values<Json>(car.corners)) {
        delete corner.sizing;
        delete corner.limits;
      }
    }),
  ],
  [
    'with a helper spring and studs',
    sized((car) => {
      const { sizing } = car.corners.front;
      sizing.helper = { rate: 40, freeLength: 3, solidLength: 0.6, separatorHeight: 0.25 };
      sizing.order.mounts.chassis = { type: 'stud', bore: 0.5 };
      sizing.order.mounts.mount = { type: 'clevis', bore: 0.5, width: 1.25 };
    }),
  ],
  ['with a conflict', sized((car) => (car.corners.front.sizing.unsprungMass = 500))],
];

/** Rows that print a figure: its name and quantity. */
const FIGURES: Readonly<Record<string, readonly [name: AxleFigureName, quantity: Quantity]>> = {
  extended: ['extendedLength', 'length'],
  'at ride height': ['designLength', 'length'],
  'compressed, no bump stop': ['compressedLength', 'length'],
  'perch setting': ['perchSetting', 'length'],
  'spring travel, free to full bump': ['springTravelRequired', 'length'],
  'low-speed slope, comp. / reb.': ['compressionDamping', 'damping'],
  'gas force at ride height': ['gasForce', 'force'],
  'mass on left / right wheel': ['leftWheelMass', 'mass'],
  'sprung mass, mean of both sides': ['sprungMass', 'mass'],
  'wheel rate at ride height': ['wheelRate', 'rate'],
  'frequency, suspension alone': ['frequency', 'frequency'],
};
/** The same of what stands behind a slash or a comma. */
const SECOND: typeof FIGURES = {
  'preload at full extension': ['preloadForce', 'force'],
  'low-speed slope, comp. / reb.': ['reboundDamping', 'damping'],
  'mass on left / right wheel': ['rightWheelMass', 'mass'],
  'frequency, suspension alone': ['frequencyWithTyre', 'frequency'],
};

/** A figure as the order prints it: lengths in inches to a thousandth, so that they convert to tenths of a mm. */
const printedIn = (value: number, quantity: Quantity, units: 'metric' | 'imperial') =>
  quantity === 'length' && units === 'imperial'
    ? (value / 25.4).toFixed(3)
    : numberIn(value, quantity, units);

/** Matters of the builder. */
const NOT_ON_ORDER = /hand method|\bguess|\bsaved?\b|masses\.|corners\.|\bopen\b|\bforce term/i;

const numbersOf = (cell: string) =>
  (cell.match(/[−-]?\d+(?:\.\d+)?/g) ?? []).map((digits) => digits.replace('−', '-'));

describe('an order', () => {
  it.each(CARS)('of a car %s prints the figures of its sizing, in both units', (_, sizing) => {
    const [own, other] =
      sizing.units === 'metric' ? (['metric', 'imperial'] as const) : (['imperial', 'metric'] as const);
    let seen = 0;
    sizing.axles.forEach((axle: AxleSizing, k) => {
      const facts = factsOf(sizing, k);
      for (const [rows, at] of [
        [FIGURES, 0],
        [SECOND, 1],
      ] as const) {
        for (const [label, [name, quantity]] of Object.entries(rows)) {
          const { value } = axle.figure(name);
          const cells = facts[label];
          if (cells === undefined || value === null || cells[0].startsWith('to be agreed')) continue;
          [own, other].forEach((units, n) => {
            // A frequency has one unit.
            if (cells[n] === undefined || cells[n] === '') return;
            expect(numbersOf(cells[n])[at], `${label}: ${cells.join(' | ')}`).toBe(
              printedIn(value, quantity, units),
            );
            seen++;
          });
        }
      }
    });
    if (sizing === example) expect(seen).toBeGreaterThan(45);
  });

  it.each(CARS)('of a car %s has rows that add up as printed', (_, sizing) => {
    sizing.axles.forEach((axle: AxleSizing, k) => {
      const facts = factsOf(sizing, k);
      if (axle.damper === null) {
        expect(facts.stroke[0]).toBe('to be agreed *');
        return;
      }
      facts.stroke.forEach((cell, n) => {
        const stroke = Number(numbersOf(cell)[0]);
        const [compression, rebound] = numbersOf(facts['stroke, compression / rebound'][n]).map(Number);
        expect(compression + rebound).toBeCloseTo(stroke, 6);
        const [extended, compressed] = ['extended', 'compressed, no bump stop'].map((label) =>
          Number(numbersOf(facts[label][n])[0]),
        );
        expect(extended - compressed).toBeCloseTo(stroke, 6);
      });
    });
  });

  it('has every length at design ride height, also of a car that stands lower: picture, perch and spring agree', () => {
    for (const units of ['imperial', 'metric'] as const) {
      weighed.axles.forEach((axle: AxleSizing, k) => {
        expect(Math.abs(axle.figure('staticTravel').value ?? 0)).toBeGreaterThan(1);
        const facts = factsOf({ ...weighed, units }, k);
        const first = (label: string, n: number) => Number(numbersOf(facts[label][n])[0]);
        const picture = flat([pagesIn(orderSheet({ ...weighed, units }).blocks)[k]]).find(
          (block) => block.kind === 'picture' && block.title.includes('eye to eye'),
        );
        if (picture?.kind !== 'picture') expect.fail('no drawing');
        const dimensions = readPaper(picture.svg).words.flatMap(({ text }) => {
          const [own, other] = numbersOf(text).map(Number);
          return other === undefined ? [] : [[own, other]];
        });
        [0, 1].forEach((n) => {
          const spring = first('spring length at ride height', n);
          expect(first('at ride height', n) - first('perch setting', n)).toBeCloseTo(spring, 6);
          expect(dimensions.map((values) => values[n])).toContain(spring);
          expect(dimensions.map((values) => values[n])).toContain(first('at ride height', n));
        });
      });
    }
  });

  it('prints forces, travels and ratios as the sizing has them', () => {
    example.axles.forEach((axle: AxleSizing, k) => {
      const facts = factsOf(example, k);
      const { cases } = axle.forces ?? expect.fail('no forces');
      const { shock } = cases.reduce((a, b) => (b.shock.total > a.shock.total ? b : a));
      facts['maximum axial force, static'].forEach((cell, n) => {
        expect(numbersOf(cell)[0]).toBe(numberIn(shock.total, 'force', n === 0 ? 'imperial' : 'metric'));
      });
      // A load with its parts, which add up as printed, with one digit more where it takes that.
      const sumOf = (label: string) =>
        Math.round(numbersOf(facts[label][0]).reduce((sum, part) => sum + Number(part), 0) + 1e-9);
      expect(sumOf('made up of, lbf')).toBe(Number(numbersOf(facts['topping-out load, static'][0])[0]));
      const length = printedIn(
        Number(axle.figure('compressedLength').value) + (axle.input.limits.bumpStop?.solidHeight ?? 0),
        'length',
        'imperial',
      );
      expect(sumOf(`made up of at ${length} in, lbf`)).toBe(
        Number(numbersOf(facts['maximum axial force, static'][0])[0]),
      );
      const { bump, droop } = axle.limits;
      expect(facts['limit in bump'][0]).toBe('bump stop solid');
      expect(facts['limit in droop'][0]).toBe('damper extended: must take topping out');
      const travelTo = (cause: string) =>
        [bump, droop, ...axle.limits.later].find((one) => one?.cause === cause)?.travel ?? Number.NaN;
      for (const [label, travel] of [
        ['bump: stop in contact', axle.limits.events[0].travel],
        ['bump: stop solid', travelTo('bumpStopSolid')],
        ['droop: damper extended', travelTo('damperExtended')],
      ] as const) {
        const [wheel, length] = facts[label].map((cell) => Number(numbersOf(cell)[1]));
        expect(wheel).toBe(Number(Math.abs(travel).toFixed(1)));
        expect(Math.abs(length - (axle.curves?.at(travel).shockLength ?? 0))).toBeLessThan(0.0501);
      }
      const ratio = (travel: number) => Number(axle.curves?.at(travel).installationRatio).toFixed(3);
      const [atDroop, atBump] = [droop, bump].map((limit) => ratio(limit?.travel ?? Number.NaN));
      expect(facts['installation ratio (shock ÷ wheel)'][0]).toBe(
        `${ratio(0)}; full droop / full bump ${atDroop} / ${atBump}`,
      );
      const table = flat([pagesIn(orderSheet(example).blocks)[k]]).find(
        (block) => block.kind === 'table' && block.label?.includes('damper force'),
      );
      if (table?.kind !== 'table') expect.fail('no valving');
      for (const [speed, compression, rebound] of table.rows) {
        const mm = Number(/\((\d+)\)/.exec(speed)?.[1]);
        const row = axle.dampingTable.find((one) => Math.round(one.speed) === mm) ?? expect.fail('no speed');
        for (const [cell, newtons] of [
          [compression, row.compression],
          [rebound, row.rebound],
        ] as const) {
          expect(cell).toContain(`(${newtons.toFixed(0)})`);
          // Rounding takes no more than 1 in 40 of a force: a tolerance of a tenth outweighs it.
          const pounds = Number(numbersOf(cell)[0]);
          expect(Math.abs(pounds * 4.4482216152605 - newtons)).toBeLessThan(newtons / 40);
        }
      }
    });
  });

  it('asks of the end bearings what they use, and gives what they allow apart from that', () => {
    const facts = factsOf(example, 0);
    expect(facts['misalignment used, either way']).toEqual(['0.0 deg', '3.2 / 3.0 deg']);
    expect(facts['bearing rating, each side']).toEqual(['±14 deg', '±14 deg']);
    expect(facts['bolt axis'][1]).toBe('transverse plane, square to coilover');
  });

  it('is an order where it can be made, else an enquiry that says why', () => {
    const pages = (change?: (car: Json) => void) => pagesIn(orderSheet(sized(change)).blocks);
    expect(pages().map(({ paper }) => paper)).toEqual(['ORDER', 'ENQUIRY']);
    const [, rear] = pages();
    expect(flat([rear]).find(({ kind }) => kind === 'stamp')).toMatchObject({ text: 'Not to be made yet.' });
    const [front] = pages((car) => (car.corners.front.sizing.unsprungMass = 500));
    expect(front.paper).toBe('ENQUIRY');
    expect(flat([front]).find(({ kind }) => kind === 'stamp')).toMatchObject({
      text: 'Not to be made as it stands.',
      advice: expect.stringContaining('lb on the wheel'),
    });
  });

  it.each<[string, RegExp, (sizing: Json) => void]>([
    [
      'both mounts',
      /^\* type and size at the wheel end; .*\* type and size at the chassis end/,
      ({ order }) => delete order.mounts,
    ],
    ['a mount', /^\* type and size at the chassis end/, ({ order }) => delete order.mounts.chassis],
    ['body up or down', /^\* body up or down/, ({ order }) => delete order.bodyEnd],
    ['the spring', /^\* free length/, (sizing) => delete sizing.springs],
    ['the knee', /^\* forces at high speed$/, (sizing) => delete sizing.damping.kneeSpeed],
    ['the dead length', /^\* whether this stroke fits/, (sizing) => delete sizing.deadLength],
    ['the perch', /^\* range of the perch; \* thread pitch of the perch$/, (sizing) => delete sizing.perch],
  ])('is an enquiry while %s is to be agreed, and marks that', (_, mark, change) => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      change(car.corners.front.sizing);
    });
    const [page] = pagesIn(orderSheet(sizing).blocks);
    expect([page.paper, sizing.status]).toEqual(['ENQUIRY', 'enquiry']);
    const items = rowsIn([page]).flatMap(([who, what]) => (/builder|maker/.test(who) ? [what] : []));
    expect(items.filter((item) => mark.test(item))).toHaveLength(1);
  });

  it.each<[string, (order: Json) => void]>([
    ['left and right', (order) => delete order.handed],
    ['the reservoir', (order) => delete order.reservoir],
    ['the tolerance of lengths', (order) => delete order.lengthTolerance],
    ['the tolerance of forces', (order) => delete order.forceTolerance],
    ['the body diameter', (order) => delete order.bodyDiameter],
    ['a bore', (order) => delete order.mounts.mount.bore],
    ['the shaft’s adjusters', (order) => delete order.adjusters],
    ['the quantity', (order) => delete order.quantity],
    ['the room for the spring', (order) => delete order.maxSpringOuterDiameter],
    ['spacers', (order) => delete order.mounts.mount.spacers],
  ])('is no order while %s, which decides what is made, is not settled', (_, change) => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      change(car.corners.front.sizing.order);
    });
    const [page] = pagesIn(orderSheet(sizing).blocks);
    expect([page.paper, sizing.status]).toEqual(['ENQUIRY', 'enquiry']);
    expect(textOf(sizing)).toMatch(/\\\* /);
    expect(sizingSummary(sizing)).toContain('Front: enquiry only');
  });

  it('is an order while only what can be agreed until delivery is not settled, and says so', () => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      delete car.corners.front.sizing.order.bumpStopSupplier;
    });
    expect([pagesIn(orderSheet(sizing).blocks)[0].paper, sizing.status]).toEqual(['ORDER', 'order']);
    expect(textOf(sizing)).toContain('To agree before delivery');
    expect(rowsIn(orderSheet(sizing).blocks)).toContainEqual(['maker', 'who supplies the bump stop']);
  });

  it('of what is bought is a record, neither an order nor an enquiry', () => {
    const pages = pagesIn(orderSheet(weighed).blocks);
    expect(pages.map(({ paper }) => paper)).toEqual(['AS BOUGHT', 'AS BOUGHT']);
    expect(weighed.status).toBe('bought');
    expect(pages[0].lines).toContainEqual({ label: 'Revision', value: 'A' });
    const text = textOf(weighed);
    expect(text).toContain('Bump travel is 0.039 in short: 3.378 in available');
    expect(text).not.toMatch(/to be agreed|Accepted as above|Answer to/);
    // A sentence has one colon.
    expect(text).toContain(
      'where the bump stop is solid. Required: 3.417 in or more, in the load state "driver, full tank", cornering over a bump.',
    );
  });

  it('is acknowledged, an enquiry answered', () => {
    const forms = pagesIn(orderSheet(example).blocks).map((page) =>
      flat([page]).flatMap((block) => (block.kind === 'form' ? block.lines.map(({ label }) => label) : [])),
    );
    expect(forms).toEqual([
      ['Accepted as above, except', 'Maker', 'Date'],
      ['Answer to this enquiry', 'Maker', 'Date'],
    ]);
  });

  it('marks in its rows what decides what is made, and nothing else', () => {
    const marked = (sizing: Sizing, k: number) =>
      Object.entries(factsOf(sizing, k)).flatMap(([label, cells]) =>
        cells.some((cell) => cell.endsWith(' *')) ? [label] : [],
      );
    expect(marked(example, 0)).toEqual([]);
    const rear = marked(example, 1);
    expect(rear).toContain('body diameter inside the spring');
    expect(rear).toContain('extended');
    expect(rear).toContain('gas force at ride height');
    expect(factsOf(example, 1)['spring, bump stop: supplied by']).toEqual(['to be agreed', '']);
    expect(rear).not.toContain('spring, bump stop: supplied by');
    // An estimate of the minimum permissible length keeps nobody from making the damper.
    const later = sized((car) => {
      delete car.corners.front.sizing.springs[1].solidLength;
      delete car.corners.front.sizing.order.quantity;
    });
    expect(factsOf(later, 0)['solid length']).toEqual(['to be agreed', '']);
    expect(marked(later, 0)).toEqual(['quantity']);
  });

  it('says on an order that the sheet of an enquiry orders nothing', () => {
    expect(textOf(example)).toContain('Sheet 2 is an enquiry: it orders nothing.');
    expect(textOf(sized((car) => delete car.corners.rear))).not.toContain('orders nothing');
  });

  it('says what is to be filled in, and whether its masses were weighed', () => {
    expect(textOf(example)).toContain(
      'Nothing technical. The builder fills in number, revision, date, from and to.',
    );
    const issued = sized((car) => (car.order = { revision: 'B', date: '2026-08-03' }));
    expect(textOf(issued)).toContain('Nothing technical. The builder fills in number, from and to.');
    expect(textOf(example)).toContain('6 Car: masses estimated, not weighed');
    expect(textOf(weighed)).toContain('6 Car: masses weighed');
    const listed = sized((car) => {
      car.masses.parts = [{ name: 'all', mass: 1420, frontFraction: 0.46 }];
      delete car.masses.estimate;
    });
    expect(textOf(listed)).toContain('6 Car: masses summed from parts');
    expect(textOf(sized((car) => delete car.masses))).toMatch(/## 6 Car\n/);
  });

  it.each<[string, string, (front: Json) => void]>([
    [
      'a perch that does not reach ride height',
      'The perch setting for ride height is outside the range of the perch: a setting of 7.175 in. Required: 7.250 in to 8.200 in.',
      ({ sizing }) => (sizing.perch.min = 7.25),
    ],
    [
      'a spring too near to the body',
      '0.125 in at the radius',
      ({ sizing }) => (sizing.order.springClearance = 0.15),
    ],
    [
      'a stroke longer than the compressed length',
      'no damper can be built so',
      (front) => {
        front.limits.damper = { extendedLength: 22, compressedLength: 10.7 };
        delete front.sizing.deadLength;
      },
    ],
    [
      'a table that goes beyond the solid height',
      'continues beyond its solid height',
      ({ sizing }) => sizing.bumpStopTable.push([1, 1200]),
    ],
  ])('is none with %s', (_, words, change) => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      change(car.corners.front);
    });
    const [page] = pagesIn(orderSheet(sizing).blocks);
    expect([page.paper, sizing.status]).toEqual(['ENQUIRY', 'notForOrder']);
    expect(textOf(sizing)).toContain(words);
  });

  it('says of a margin that may be none how far it reaches', () => {
    const sizing = sized((car) => {
      car.travelCases = { ...car.travelCases, roadBump: 1.2 };
    });
    const { value, lower } = sizing.axles[0].figure('bumpTravelMargin');
    if (value === null || lower === null || value < 0 || lower >= 0) expect.fail('no such margin');
    const [page] = pagesIn(orderSheet(sizing).blocks);
    expect(page.paper).toBe('ORDER');
    expect(flat([page]).find(({ kind }) => kind === 'stamp')).toMatchObject({
      text: 'Not certain.',
      advice: expect.stringContaining(
        `Bump travel may be short: its margin is ${printedIn(value, 'length', 'imperial')} in`,
      ),
    });
    expect(textOf(example)).not.toContain('may be short');
  });

  it('says of damper lengths that follow from the travel what they allow for, and which way they may change', () => {
    const [front, rear] = [0, 1].map((k) => factsOf(example, k));
    expect(Object.keys(front).filter((label) => /required/.test(label))).toEqual(['required, bump / droop']);
    const { damper, travelRequirement, curves } = example.axles[1];
    if (damper === null || travelRequirement.bump === null || travelRequirement.droop === null)
      expect.fail('no travel is required');
    expect(textOf(example).match(/Extended no shorter, stop solid no longer than here/g)).toHaveLength(1);
    const extended = Number(rear.extended[1].split(' ')[0]);
    const solid = Number(numbersOf(rear['bump: stop solid'][1])[1]);
    expect(extended).toBe(damper.extendedLength);
    // The bump stop of 0.625 in.
    expect(solid).toBe(Number((damper.compressedLength + 0.625 * 25.4).toFixed(1)));
    expect(extended).toBeGreaterThan(curves?.at(travelRequirement.droop).shockLength ?? Number.NaN);
    expect(solid).toBeLessThan(curves?.at(travelRequirement.bump).shockLength ?? Number.NaN);
    expect(rear['required, bump / droop'][0]).toBe(
      `${['imperial', 'metric']
        .map((units) =>
          [travelRequirement.bump, -Number(travelRequirement.droop)]
            .map((mm) => printedIn(Number(mm), 'length', units as 'metric' | 'imperial'))
            .join(' / '),
        )
        .map((cell, k) => (k === 0 ? `${cell} in` : `(${cell} mm)`))
        .join(' ')}`,
    );
  });

  it('says of a gas pressure that is an estimate between what it lies, and gives one that is known alone', () => {
    const row = 'gauge pressure there, cold';
    expect(factsOf(example, 0)[row]).toEqual(['150 psi (120 to 180)', '10.3 bar (8.3 to 12.4)']);
    const known = sized((car) => (car.corners.front.sizing.gas.pressure = 150));
    expect(factsOf(known, 0)[row]).toEqual(['150 psi', '10.3 bar']);
  });

  it('says that the gas force is counted in the spring loads, with its range, and who chooses it', () => {
    const gas = 'gas force at ride height';
    expect(factsOf(example, 0)[gas]).toEqual(['29 lbf (24 to 35)', '131 N (105 to 157)']);
    expect(factsOf(example, 1)[gas]).toEqual(['30 lbf, assumed *', '133 N, assumed *']);
    const [front, rear] = pagesIn(orderSheet(example).blocks).map((page) =>
      flat([page])
        .flatMap((block) => (block.kind === 'text' ? [block.text] : []))
        .join(' '),
    );
    expect(front).toContain(
      'taken as constant through the stroke: the maker chooses the charge within its range.',
    );
    expect(rear).toContain('taken as constant through the stroke: an assumption, to be agreed.');
    const items = (k: number) => rowsIn([pagesIn(orderSheet(example).blocks)[k]]).map((cells) => cells[1]);
    expect(items(1).join()).toContain('* gas force at ride height');
    expect(items(0).join()).not.toContain('* ');
    const known = sized((car) => (car.corners.front.sizing.gas.pressure = 150));
    expect(textOf(known)).toContain('taken as constant through the stroke: charge to its pressure.');
  });

  it('marks a split of the damper forces that is assumed', () => {
    const assumed = sized((car) => {
      delete car.corners.rear;
      delete car.corners.front.sizing.damping.compressionFraction;
    });
    expect(textOf(assumed)).toContain('compression to rebound 40 : 60, assumed');
    expect(assumed.status).toBe('enquiry');
    expect(rowsIn(orderSheet(assumed).blocks)).toContainEqual([
      'builder and maker',
      '* split of forces between compression and rebound',
    ]);
    expect(textOf(sized((car) => delete car.corners.rear))).not.toContain('assumed');
  });

  it('says whose perch setting it is where left and right wheel differ, and gives the anti-roll bar', () => {
    const mean = 'For the mean of left and right; the builder levels the car with the perches.';
    expect(textOf(example)).toContain(mean);
    const even = sized((car) => {
      for (const load of car.masses.added) delete load.leftFraction;
    });
    expect(textOf(even)).not.toContain(mean);
    expect([0, 1].map((k) => factsOf(example, k)['anti-roll bar'][0])).toEqual([
      '140 lbf·ft/deg',
      'none given',
    ]);
  });

  it('keeps a number and its unit on one line', () => {
    const html = sheetHtml(orderSheet(example));
    expect(html).toContain('8.50\u00a0in<');
    expect(html).toContain('0.675\u00a0in, 135\u00a0lbf');
    expect(html.replace(/<svg[\s\S]*?<\/svg>|<style>[\s\S]*?<\/style>/g, '')).not.toMatch(
      /\d (in|mm|lbf|N|lb|kg|psi|deg)[\s<,)]/,
    );
  });

  it('asks for a quantity that is not given', () => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      delete car.corners.front.sizing.order.quantity;
    });
    expect(factsOf(sizing, 0).quantity[0]).toBe('to be agreed *');
    expect(rowsIn(orderSheet(sizing).blocks)).toContainEqual(['builder', '* quantity']);
    expect(sizing.status).toBe('enquiry');
  });

  it('gives the force at the knee, the slope above it, and forces of the file with their own digits', () => {
    const rows = (sizing: Sizing, k: number) => {
      const table = flat([pagesIn(orderSheet(sizing).blocks)[k]]).find(
        (block) => block.kind === 'table' && block.label.includes('damper force'),
      );
      return table?.kind === 'table' ? table.rows : expect.fail('no table');
    };
    const bends = sized((car) => (car.corners.front.sizing.damping.kneeSpeed = 5));
    const low = bends.axles[0].figure('compressionDamping').value ?? Number.NaN;
    // 5 in/s of N s/m, in lbf.
    const atKnee = (low * 5 * 0.0254) / 4.4482216152605;
    const knee = rows(bends, 0).find(([speed]) => speed === 'knee 5 (127)') ?? expect.fail('no knee');
    expect(numbersOf(knee[1])[0]).toBe(atKnee.toFixed(1));
    const above = factsOf(bends, 0)['high-speed slope, comp. / reb.'];
    expect(Number(numbersOf(above[0])[0])).toBeCloseTo((0.4 * atKnee) / 5, 1);
    expect(rows(example, 0).map(([speed]) => speed)[0]).toBe('1 (25)');
    expect(factsOf(example, 1).knee).toEqual(['none given *; linear to 20 in/s (508 mm/s)', '']);
    // Bought by a force table: 9.5 lbf are 42.3 N.
    expect(rows(weighed, 1)[0]).toEqual(['1 (25)', '9.5 (42)', '14 (62)']);
    expect(Object.keys(factsOf(weighed, 1))).not.toContain('knee');
  });

  it('gives the static load that the damper holds at full droop: preload, gas and the wheel that hangs', () => {
    const [front] = example.axles;
    const force = (name: AxleFigureName) => front.figure(name).value ?? Number.NaN;
    const ratio = front.curves?.at(front.limits.droop?.travel ?? Number.NaN).installationRatio ?? Number.NaN;
    const hanging = (force('unsprungMass') * 9.80665) / ratio;
    const [, newtons] = factsOf(example, 0)['topping-out load, static'].map((cell) => numbersOf(cell)[0]);
    const load = force('preloadForce') + force('gasForce') + hanging;
    // The wheel's centre and its contact patch do not rise quite alike.
    expect(Math.abs(Number(newtons) / load - 1)).toBeLessThan(0.005);
  });

  it('gives the load of the spring at ride height, and without a free length what follows from it', () => {
    const [length, load] = numbersOf(factsOf(example, 0)['spring length at ride height'][0]).map(Number);
    expect(Math.abs(200 * (8.5 - length) - load)).toBeLessThan(200 * 0.005 + 0.5);
    const facts = factsOf(example, 1);
    expect(facts['perch setting'][0]).toBe('follows from the free length');
    const { value, upper } = example.axles[1].figure('springTravelRequired');
    expect(upper).toBeGreaterThan(value ?? Number.NaN);
    const [travel, most] = ['spring travel, free to full bump', 'spring travel, at most (95 %)'].map(
      (label) => numbersOf(facts[label][0])[0],
    );
    expect([travel, most]).toEqual(
      [value, upper].map((mm) => printedIn(mm ?? Number.NaN, 'length', 'imperial')),
    );
    const compression = example.axles[1].figure('staticSpringCompression').value ?? Number.NaN;
    expect(facts['spring length at ride height'][0]).toContain(
      `free length − ${printedIn(compression, 'length', 'imperial')} in`,
    );
  });

  it('prints a minimum permissible length that is no more than an estimate as one', () => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      for (const spring of car.corners.front.sizing.springs) delete spring.minLength;
    });
    expect(factsOf(sizing, 0)['minimum permissible length'][0]).toMatch(
      /^taken as 3\.\d{3} in \(\d+\.\d mm\); spring maker confirms$/,
    );
    expect(sizing.status).toBe('order');
  });

  it('is no order while neither solid nor minimum length of the spring is known: coil bind was not looked for', () => {
    const sizing = sized((car) => {
      delete car.corners.rear;
      car.corners.front.ordered = { spring: { rate: 200, freeLength: 8.5, innerDiameter: 2.5 } };
    });
    expect(sizing.status).toBe('enquiry');
    expect(rowsIn(orderSheet(sizing).blocks)).toContainEqual([
      'spring maker',
      '* solid length of the spring; * minimum permissible length of the spring',
    ]);
  });

  it('says where the force of the bump stop goes beyond its table', () => {
    const facts = (table: Json) =>
      factsOf(
        sized((car) => {
          car.corners.front.sizing.bumpStopTable = table;
        }),
        0,
      );
    const short = [
      [0.25, 60],
      [0.75, 450],
    ];
    expect(facts(short)['load case, no damping forces'][0]).toMatch(/; bump stop force extrapolated$/);
    expect(facts(short).maker[0]).toBe('force of the bump stop at solid');
    expect(facts([...short, [0.875, 800]])['load case, no damping forces'][0]).toMatch(
      /^bump stop solid; wheel load \d\.\d × static$/,
    );
  });

  it('asks of a stud what a stud has, and of an eye what an eye has', () => {
    const withStud = (more: Json) =>
      sized((car) => {
        delete car.corners.rear;
        car.corners.front.sizing.order.mounts.chassis = { type: 'stud', bore: 0.5, ...more };
      });
    const rows = (more: Json) => factsOf(withStud(more), 0);
    const given = { threadPitch: 0.05, fixing: 'lock nut, two bushes', referenceFace: 'its shoulder' };
    const facts = rows(given);
    expect(facts['bore for the bolt']).toEqual(['0.50 in (12.7 mm)', '–']);
    expect(facts.thread).toEqual(['–', '0.50 in (12.7 mm)']);
    expect(facts['thread pitch']).toEqual(['–', '20 threads per inch (1.27 mm)']);
    expect(facts['nut and bushes']).toEqual(['–', 'lock nut, two bushes']);
    expect([facts['bolt axis'][1], facts['bearing rating, each side'][1]]).toEqual(['–', '–']);
    // A stud turns with the coilover, as an eye whose bolt lies in the plane.
    expect(facts['misalignment used, either way'][1]).toBe('3.2 / 3.0 deg');
    expect(withStud(given).status).toBe('order');
    expect(withStud({}).status).toBe('enquiry');
    expect(textOf(withStud({}))).toMatch(/thread pitch at the chassis end.*face that lengths are taken to/);
  });

  it('invents no spacers, and says that a width is over them', () => {
    const facts = factsOf(
      sized((car) => delete car.corners.front.sizing.order.mounts.chassis.spacers),
      0,
    );
    expect(facts.spacers).toEqual(['two, 0.3125 thick', 'to be agreed *']);
    expect(facts['width in bracket, with spacers'][0]).toBe('1.25 in (31.8 mm)');
  });

  it('of a strut that is the coilover asks what a strut has', () => {
    const { kind, lowerArm, strut, wheel, limits } = JSON.parse(
      readFileSync('docs/examples/strut-corner.json', 'utf8'),
    );
    const strutWith = (mounts: Json) =>
      sized((car) => {
        delete car.corners.rear;
        delete car.downforce;
        delete car.travelCases;
        const { bumpStop, gas, order, damping } = {
          ...car.corners.front.limits,
          ...car.corners.front.sizing,
        };
        delete order.bodyEnd;
        car.corners.front = {
          ...{ kind, lowerArm, strut, wheel, limits: { ...limits, bumpStop } },
          sizing: {
            unsprungMass: 60,
            deadLength: 5,
            target: { springRate: 130 },
            springs: [{ name: 'a', rate: 130, freeLength: 12, solidLength: 3.5, innerDiameter: 2.5 }],
            bumpStopTable: [
              [0.25, 60],
              [0.875, 800],
            ],
            ...{ gas, damping },
            perch: { min: 0.5, max: 20, threadPitch: 0.0625 },
            order: { ...order, mounts },
          },
        };
      });
    const settled = strutWith({
      mount: { type: 'clamp', clampDiameter: 2 },
      chassis: { type: 'stud', bore: 0.5, threadPitch: 0.05, bearing: 'ball bearing, 2 in' },
    });
    const [page] = pagesIn(orderSheet(settled).blocks);
    const facts = factsOf(settled, 0);
    expect(facts.position[0]).toBe('strut: body down');
    expect(facts.type).toEqual(['clamped by the upright', 'stud']);
    expect(facts['diameter at the clamp']).toEqual(['2.00 in (50.8 mm)', '–']);
    expect(facts['top bearing']).toEqual(['–', 'ball bearing, 2 in']);
    expect(Object.keys(facts)).not.toContain('bolt axis');
    expect(textOf(settled)).toContain('Perch setting = length − spring length');
    expect([page.paper, settled.status]).toEqual(['ORDER', 'order']);
    expect(strutWith({}).status).toBe('enquiry');
  });

  it('names the ends of a coilover that lies, which has no upper end to speak of', () => {
    const { kind, lowerArm, upperArm, wheel, rod, rocker, coilover, limits } = JSON.parse(
      readFileSync('docs/examples/pushrod-corner.json', 'utf8'),
    );
    const sizing = sizeCoilovers(
      readCar({
        units: 'metric',
        corners: {
          front: {
            ...{ kind, lowerArm, upperArm, wheel, rod, rocker, coilover, limits },
            sizing: { unsprungMass: 30, order: { bodyEnd: 'up' } },
          },
        },
      }),
    );
    // The rocker's end stands at 498 mm, that on the chassis at 472 mm, 220 mm further in.
    expect(factsOf(sizing, 0).position[0]).toBe('body at the rocker end, shaft at the chassis end');
    expect(textOf(sizing)).toContain('in the car it lies at 83 deg to the vertical');
  });

  it('says where the drawing shows a spring shorter than it may be', () => {
    expect(textOf(example)).toContain('Spring and perch, dashed: to be agreed.');
    expect(textOf(example)).toContain('Chassis end on top; in the car at 26 deg to the vertical.');
    // 10.700 in compressed less the perch setting of 7.175 in; 3.625 in is permissible.
    expect(textOf(example)).toContain('Compressed, the spring would be 3.525 in');
  });

  it('has revision and date from the file, else lines to write on', () => {
    const lines = (change?: (car: Json) => void) => pagesIn(orderSheet(sized(change)).blocks)[0].lines;
    expect(lines().every(({ value }) => value === null)).toBe(true);
    const issued = lines((car) => (car.order = { revision: 'B', date: '2026-08-03' }));
    expect(issued.filter(({ value }) => value !== null)).toEqual([
      { label: 'Revision', value: 'B' },
      { label: 'Date', value: '2026-08-03' },
    ]);
  });

  it('says what is to be agreed, each thing once, with who decides', () => {
    const rows = (k: number) =>
      rowsIn([pagesIn(orderSheet(example).blocks)[k]]).filter(([who]) =>
        /^(builder|builder and maker|maker|spring maker)$/.test(who),
      );
    expect(rows(0)).toEqual([]);
    const items = rows(1).flatMap(([, what]) => what.split('; '));
    expect(new Set(items).size).toBe(items.length);
    expect(items).toContain('* free length of the spring');
    expect(rows(1).find(([who]) => who === 'spring maker')?.[1]).toBe(
      '* solid length of the spring; * minimum permissible length of the spring',
    );
    expect(rows(1).find(([who]) => who === 'maker')?.[1]).toContain('* inner diameter of the spring');
  });

  it('names the loads that are aboard at ride height', () => {
    expect(textOf(example)).toContain('Ride height: driver and half a tank of fuel aboard.');
    expect(
      textOf(
        sized((car) => {
          car.masses.states = [{ name: 'driver', loads: ['driver'] }];
          car.masses.designState = 'driver';
        }),
      ),
    ).toContain('Ride height: driver aboard.');
  });

  it.each(CARS)('of a car %s has no figure that is none, and none of the builder’s matters', (_, sizing) => {
    for (const text of [textOf(sizing), sheetHtml(orderSheet(sizing)), sheetJson(orderSheet(sizing))]) {
      expect(text).not.toMatch(/\bNaN|undefined|Infinity|\[object/);
    }
    const pictures = flat(orderSheet(sizing).blocks).flatMap((block) =>
      block.kind === 'picture' ? [block.title, block.svg.replace(/<[^>]*>/g, ' ')] : [],
    );
    const words = [textOf(sizing), ...pictures].join('\n');
    expect(words).not.toMatch(NOT_ON_ORDER);
    expect(givenUp(words)).toEqual([]);
  });

  it('keeps what was written as text, in HTML and in Markdown', () => {
    const mark = '<script>alert(1)</script>|`x`\r| a | b |\u2028# c';
    const odd = sized((car) => {
      car.name = mark;
      car.use = mark;
      car.masses.added[0].name = mark;
      const { order, springs } = car.corners.front.sizing;
      Object.assign(order, { handed: mark, adjusters: mark, reservoir: mark });
      order.mounts.mount.spacers = mark;
      springs[1].name = mark;
    });
    for (const sheet of [orderSheet(odd), reportSheet(odd)]) {
      const html = sheetHtml(sheet);
      expect(html).not.toContain('<script>');
      const body = /<body>([\s\S]*)<\/body>/.exec(html)?.[1] ?? expect.fail('no body');
      expect(() => parseXml(`<?xml version="1.0" encoding="UTF-8"?><body>${body}</body>`)).not.toThrow();
      const markdown = sheetMarkdown(sheet);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: what ends a line somewhere
      expect(markdown).not.toMatch(/[\r\u2028\u2029\u0085\u000b\u000c]|(?<!\\)<script/);
      for (const table of markdown.split('\n\n').filter((part) => part.startsWith('|'))) {
        const cells = table
          .trim()
          .split('\n')
          .map((row) => row.split(/(?<!\\)\|/).length);
        expect(new Set(cells).size, table.slice(0, 200)).toBe(1);
      }
    }
  });

  it('names every table, row, column and picture for those who listen to it', () => {
    const html = sheetHtml(orderSheet(example));
    const all = elementsIn(html);
    const named = (name: string) => all.filter((node) => node.name === name);
    expect(html).toContain('<html lang="en">');
    expect(named('section').map(({ attributes }) => attributes['aria-label'])).toEqual([
      'ORDER, One-off light roadster: front coilover',
      'ENQUIRY, One-off light roadster: rear coilover',
    ]);
    expect(named('h1')).toHaveLength(2);
    for (const { attributes } of named('table')) expect(attributes['aria-label']).toMatch(/\w/);
    for (const { attributes, children } of named('th')) {
      expect(attributes.scope).toMatch(/^(row|col)$/);
      expect(children.join('')).toMatch(/\w/);
    }
    for (const { attributes, children } of named('svg')) {
      expect(attributes.role).toBe('img');
      const [title] = children;
      expect(typeof title === 'string' ? '' : `${title.name}: ${title.children}`).toMatch(/^title: \w/);
    }
    expect(named('svg')).toHaveLength(4);
  });

  it('as data holds its figures in the library’s units', () => {
    const data = JSON.parse(sheetJson(orderSheet(example)));
    expect(data).toEqual(JSON.parse(JSON.stringify(sheetData(orderSheet(example)))));
    expect(data.axles.map(({ paper }: Json) => paper)).toEqual(['ORDER', 'ENQUIRY']);
    for (const [k, { figures }] of data.axles.entries()) {
      expect(figures.length).toBeGreaterThan(15);
      for (const { name, value } of figures) expect(value).toBe(example.axles[k].figure(name).value);
    }
  });
});
