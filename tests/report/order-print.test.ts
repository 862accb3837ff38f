/** Papers as Chromium prints and shows them: pages, size of text, width. */
import { existsSync, readFileSync } from 'node:fs';
import { type OrderSheet, orderSheet, readCar, reportSheet, sheetHtml, sizeCoilovers } from 'jounce';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Json, sized } from './papers.ts';
import { type PdfPage, readPdf } from './pdf.ts';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const FLAGS = [
  ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  ...['--disable-component-update', '--disable-sync'],
];
/** Points. */
const PAPER = { A4: [595.3, 841.9], Letter: [612, 792] } as const;
const SMALLEST = 7;
/** Rounding of the browser, points. */
const ROUNDING = 0.02;

const LONG = 'Road and hill climbs, two or three a year, dry, on road tyres, with a passenger now and then. ';

const CARS: readonly (readonly [string, OrderSheet])[] = [
  ['the example', orderSheet(sized())],
  ['the example in mm', orderSheet({ ...sized(), units: 'metric' })],
  [
    'with much to say',
    orderSheet(
      sized((car) => {
        car.use = LONG + LONG;
        for (const { sizing } of Object.values<Json>(car.corners)) {
          sizing.order.adjusters = 'rebound by knob, 20 clicks, reachable with the wheel on';
          sizing.order.reservoir = 'on a hose of 16 in, to the front of the car';
          sizing.bumpStopTable = [0.2, 0.4, 0.6, 0.7, 0.8, 0.85].map((at) => [at, 1000 * at ** 2]);
          sizing.damping.shaftSpeeds = [1, 2, 3, 4, 6, 8, 10, 12, 16];
        }
        car.corners.front.sizing.helper = {
          rate: 40,
          freeLength: 3,
          solidLength: 0.6,
          separatorHeight: 0.25,
        };
      }),
    ),
  ],
  [
    'of which only the linkage is known',
    orderSheet(
      sized((car) => {
        for (const corner of Object.values<Json>(car.corners)) {
          delete corner.sizing;
          delete corner.limits;
        }
      }),
    ),
  ],
  ['with a conflict', orderSheet(sized((car) => (car.corners.front.sizing.unsprungMass = 500)))],
];

/** The cars that are shipped as examples. */
const EXAMPLES = ['car', 'car-weighed'].map((name) =>
  sizeCoilovers(readCar(readFileSync(`docs/examples/${name}.json`, 'utf8'))),
);

/** Height of the number at the foot of a page of a report, points from the edge. */
const FOOT = 36;
/** Pieces of a line have their base line within so much, points. */
const LINE = 1;

/** The last line of a page, above its number. */
function lastLine({ texts }: PdfPage): PdfPage['texts'] {
  const above = texts.filter(({ y, size }) => y > FOOT || size < 8 - ROUNDING);
  const lowest = Math.min(...above.map(({ y }) => y));
  return above.filter(({ y }) => y < lowest + LINE);
}

/** Whether a line is a heading or a table head: all of it bold or italic, as nothing else is. */
const heads = (line: PdfPage['texts']) => line.every(({ font }) => /Bold|Italic|Oblique/.test(font));

/** In the browser: what reaches beyond the right edge of the screen; a picture may, if its figure scrolls. */
const TOO_WIDE = `[...document.querySelectorAll('body *')]
  .filter((element) => {
    const figure = element.parentElement.closest('figure');
    return figure === null || getComputedStyle(figure).overflowX !== 'auto';
  })
  .filter((element) => element.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
  .map((element) => element.tagName + ' ' + element.textContent.slice(0, 60))`;

/** In the browser: the size of the smallest text in pictures, px. */
const SMALLEST_IN_PICTURES = `Math.min(...[...document.querySelectorAll('figure svg text')].filter((text) => text.ownerSVGElement.getBoundingClientRect().width > 0).map((text) => {
  const svg = text.ownerSVGElement;
  return (Number(text.getAttribute('font-size')) * svg.getBoundingClientRect().width) / svg.viewBox.baseVal.width;
}))`;

/** In the browser: which pictures of each pair show. */
const SHOWN_OF_PAIRS = `[...document.querySelectorAll('figure:has(> svg.narrow)')].map((figure) =>
  [...figure.querySelectorAll(':scope > svg')]
    .filter((svg) => getComputedStyle(svg).display !== 'none')
    .map((svg) => svg.getAttribute('class'))
    .join(' '))`;

describe.skipIf(!existsSync(CHROMIUM))('on paper and on a screen', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: FLAGS });
  });
  afterAll(() => browser.close());

  /** A sheet opened at a width, px. */
  async function opened<T>(
    sheet: OrderSheet,
    width: number,
    use: (page: Awaited<ReturnType<Browser['newPage']>>) => Promise<T>,
  ): Promise<T> {
    const page = await browser.newPage({ viewport: { width, height: 800 } });
    try {
      await page.setContent(sheetHtml(sheet));
      return await use(page);
    } finally {
      await page.close();
    }
  }
  const printed = (sheet: OrderSheet, format: keyof typeof PAPER) =>
    opened(sheet, 1280, async (page) => readPdf(await page.pdf({ format })));

  describe.each(Object.keys(PAPER) as (keyof typeof PAPER)[])('%s', (format) => {
    it.each(CARS)('an order of two axles is two pages in full size: %s', async (_, sheet) => {
      const pages = await printed(sheet, format);
      expect(pages).toHaveLength(2);
      for (const { width, height, texts } of pages) {
        expect(Math.abs(width - PAPER[format][0])).toBeLessThan(1);
        expect(Math.abs(height - PAPER[format][1])).toBeLessThan(1.5);
        expect(texts.length).toBeGreaterThan(80);
        expect(Math.min(...texts.map(({ size }) => size))).toBeGreaterThanOrEqual(SMALLEST - ROUNDING);
        // The heading is 14 pt: nothing has scaled the page.
        expect(Math.abs(Math.max(...texts.map(({ size }) => size)) - 14)).toBeLessThan(0.05);
      }
    });

    it('a report is 15 pages at most, at 100 %, with text of 7 pt and more, and no page of one line', async () => {
      const pages = await printed(reportSheet(sized()), format);
      expect(pages.length).toBeLessThanOrEqual(15);
      for (const { texts } of pages) {
        expect(Math.min(...texts.map(({ size }) => size))).toBeGreaterThanOrEqual(SMALLEST - ROUNDING);
        expect(new Set(texts.map(({ y }) => Math.round(y / 4))).size).toBeGreaterThan(6);
      }
      expect(Math.abs(Math.max(...pages[0].texts.map(({ size }) => size)) - 17)).toBeLessThan(0.05);
      // No page is half empty before the last one.
      const lowest = pages.slice(0, -1).map(({ texts, height }) => {
        const [, ...above] = texts.map(({ y }) => y / height).sort((a, b) => a - b);
        return above.find((y) => y > 0.06) ?? 1;
      });
      expect(Math.max(...lowest)).toBeLessThan(0.5);
    });
  });

  it.each(Object.keys(PAPER) as (keyof typeof PAPER)[])(
    'no page of an example ends in a heading or a table head: %s',
    async (format) => {
      let found = 0;
      for (const sheet of EXAMPLES.flatMap((sizing) => [orderSheet(sizing), reportSheet(sizing)])) {
        for (const page of await printed(sheet, format)) {
          const line = lastLine(page);
          expect(line.length).toBeGreaterThan(0);
          expect(heads(line), `${sheet.title}: ${JSON.stringify(line)}`).toBe(false);
          found += page.texts.filter(({ font }) => heads([{ size: 0, x: 0, y: 0, font }])).length;
        }
      }
      // Headings are seen as such.
      expect(found).toBeGreaterThan(200);
    },
  );

  it('a heading at the end of a page is found', async () => {
    const page = await browser.newPage();
    try {
      const under = (html: string) =>
        page
          .setContent(`<style>@page { margin: 10mm } body { font-family: Arial }</style><p>Text</p>${html}`)
          .then(async () => heads(lastLine(readPdf(await page.pdf({ format: 'A4' }))[0])));
      expect(await under('<h2>Heading</h2>')).toBe(true);
      expect(await under('<table><thead><tr><th>a</th><th><i>b</i></th></tr></thead></table>')).toBe(true);
      expect(await under('<h2>Heading</h2><p>Text</p>')).toBe(false);
    } finally {
      await page.close();
    }
  });

  it.each([390, 641, 761, 1280])('nothing is wider than a screen of %i px', async (width) => {
    const papers = [...CARS.map(([, sheet]) => sheet), ...EXAMPLES.map((sizing) => reportSheet(sizing))];
    for (const sheet of papers) {
      const wide = await opened(sheet, width, (page) => page.evaluate<string[]>(TOO_WIDE));
      expect(wide).toEqual([]);
    }
  });

  it.each([390, 1280])('exactly one of each wide and narrow picture shows at %i px', async (width) => {
    const shown = await opened(reportSheet(EXAMPLES[1]), width, (page) =>
      page.evaluate<string[]>(SHOWN_OF_PAIRS),
    );
    expect(shown.length).toBeGreaterThan(6);
    expect(new Set(shown)).toEqual(new Set([width === 390 ? 'narrow' : 'wide']));
  });

  it('pictures of a report can be read on a telephone', async () => {
    for (const sizing of EXAMPLES) {
      const smallest = await opened(reportSheet(sizing), 390, (page) =>
        page.evaluate<number>(SMALLEST_IN_PICTURES),
      );
      expect(smallest).toBeGreaterThanOrEqual(9);
    }
  });
});
