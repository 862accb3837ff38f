// The site of the documentation, built for a folder of a server and read in a headless browser.
//
//   npm run test:site
//   npm run test:site -- --built            the site as it was built last
//   npm run test:site -- --built search     those of its tests that have this word in their names
//
// Its packages are its own (npm ci --prefix docs/site); the library in its pages is dist (npm run build).

import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { CONTENTS } from '../../docs/site/contents.mjs';
import { withBrowser } from '../support/browser.ts';
import { run } from '../support/run.ts';
import { count, expectNone, test } from '../support/steps.ts';
import { testFigures } from './figures.ts';
import { brokenLinks, pagesOf, served } from './files.ts';

const FOLDER = resolve('out/site');
/** Not the root of a server, so that an address that ignores the folder is found. */
const BASE = '/a/folder/';
/** Width of A4 less the margins that a browser takes, 10 mm each, in px of 1/96 inch. */
const PAPER = 718;
const PHONE = 390;

if (!process.argv.includes('--built'))
  await test('builds', async () => {
    const home = resolve('docs/site');
    if (!existsSync(`${home}/node_modules`))
      await run('npm', ['ci', '--no-audit', '--no-fund'], home, 300_000);
    await run('npm', ['run', 'site', '--', '--base', BASE], '.', 600_000);
    return `${pagesOf(FOLDER).length} pages`;
  });

await test('links hold', async () => {
  const { links, broken } = brokenLinks(FOLDER, BASE);
  expectNone(broken);
  if (links < 1000) throw new Error(`only ${links} links`);
  return `${links} links`;
});

const listed = CONTENTS.flatMap(({ pages }) => pages.map(([page]) => page));
await test('every guide is in the contents', async () => {
  const guides = pagesOf(FOLDER)
    .filter((page) => !page.includes('/') && !['404.html', 'index.html'].includes(page))
    .map((page) => page.slice(0, -5));
  expectNone(guides.filter((page) => !listed.includes(page)).map((page) => `${page} is missing`));
  return `${guides.length} guides`;
});

/** Pages of every sort: all that are listed, and one of the API. */
const addresses = [
  '',
  ...listed.map((page) => (page.endsWith('/') ? page : `${page}.html`)),
  'api/index/functions/sweep.html',
];

/** Pages that have between them all that has a colour: contrast is slow to find. */
const COLOURED = [
  '',
  'hand-method.html',
  'command.html',
  'contributors.html',
  'definitions.html',
  'api/index/functions/sweep.html',
];

const axe = await readFile('docs/site/node_modules/axe-core/axe.min.js', 'utf8');
/** Faults of accessibility that axe calls serious or critical, with the contrast of colours or without. */
async function faultsOf(page: Page, contrast: boolean): Promise<string[]> {
  await page.evaluate(axe);
  const options = {
    preload: false,
    resultTypes: ['violations'],
    rules: { 'color-contrast': { enabled: contrast } },
  };
  const { violations } = (await page.evaluate(`axe.run(document, ${JSON.stringify(options)})`)) as {
    violations: { id: string; impact: string; nodes: { target: string[] }[] }[];
  };
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .slice(0, 3)
          .map(({ target }) => target.join(' '))
          .join(', ')}`,
    );
}

/** What lies to the right of the window, outside of what scrolls by itself. */
const OVERFLOWING = `[...document.querySelectorAll('.VPContent *')].filter((element) => {
  for (let e = element.parentElement; e; e = e.parentElement)
    if (['auto', 'scroll', 'hidden', 'clip'].includes(getComputedStyle(e).overflowX)) return false;
  return element.getBoundingClientRect().right > innerWidth + 1;
}).slice(0, 2).map((e) => e.outerHTML.slice(0, 120))`;

await withBrowser(served(FOLDER, BASE), async (browser, origin) => {
  const page = await browser.newPage();
  /** What the pages did that they must not: since the last look at it. */
  let wrong: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning')
      wrong.push(`${page.url()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => wrong.push(`${page.url()}: ${error.message}`));
  page.on('request', (request) => {
    if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(origin + BASE))
      wrong.push(`${page.url()} asks for ${request.url()}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) wrong.push(`${page.url()}: ${response.status()} for ${response.url()}`);
  });
  const clean = () => {
    const told = wrong;
    wrong = [];
    expectNone(told);
  };
  const open = async (address: string) => {
    await page.goto(origin + BASE + address);
    await page.waitForFunction("document.querySelector('#app').__vue_app__");
  };
  /** Whatever is wrong with each page, looked at by `look`. */
  const each = async (look: (address: string) => Promise<readonly string[]>) => {
    const found: string[] = [];
    for (const address of addresses) {
      await open(address);
      found.push(...(await look(address)).map((words) => `${address}: ${words}`));
    }
    expectNone(found);
    return `${addresses.length} pages`;
  };

  await test('pages have no serious fault of accessibility, in light and in dark, and fit a telephone', async () => {
    return each(async (address) => {
      await page.setViewportSize({ width: 1280, height: 900 });
      await page.emulateMedia({ colorScheme: 'light', media: 'screen' });
      const light = await faultsOf(page, COLOURED.includes(address));
      await page.emulateMedia({ colorScheme: 'dark', media: 'screen' });
      // A change of colours takes a while on screen.
      await page.addStyleTag({ content: '* { transition: none !important }' });
      const dark = COLOURED.includes(address) ? await faultsOf(page, true) : [];
      await page.setViewportSize({ width: PHONE, height: 800 });
      const wide = (await page.evaluate(OVERFLOWING)) as string[];
      return [
        ...light,
        ...dark.map((words) => `dark, ${words}`),
        ...wide.map((words) => `too wide: ${words}`),
      ];
    });
  });

  await test('no request leaves the site, and no page writes an error', async () => {
    clean();
    return undefined;
  });

  await test('printed pages are whole, black on white', async () => {
    await page.setViewportSize({ width: PAPER, height: 1000 });
    return each(async () => {
      await page.emulateMedia({ colorScheme: 'dark', media: 'print' });
      const cut = (await page.evaluate(`[...document.querySelectorAll('.vp-doc *')].filter((e) =>
        e.getBoundingClientRect().right > innerWidth + 1).slice(0, 2).map((e) => e.outerHTML.slice(0, 120))`)) as string[];
      const [ink, ground] = (await page.evaluate(`[getComputedStyle(document.querySelector('.vp-doc')).color,
        getComputedStyle(document.body).backgroundColor]`)) as string[];
      const light = (colour: string) =>
        (colour.match(/\d+/g) ?? []).slice(0, 3).every((part) => Number(part) > 200);
      if (light(ink) || !light(ground)) cut.push(`${ink} on ${ground}`);
      return cut;
    });
  });
  await page.emulateMedia({ colorScheme: null, media: 'screen' });
  await page.setViewportSize({ width: 1280, height: 900 });

  await test('a search by keyboard leads to a page', async () => {
    await open('command.html');
    // The page answers keys once its script runs, and the search is fetched when it is first asked for.
    const box = page.locator('.search-input');
    for (let press = 0; press < 10 && !(await box.isVisible()); press++) {
      await page.keyboard.press('Control+k');
      await box.waitFor({ timeout: 2000 }).catch(() => {});
    }
    await page.waitForFunction(`document.activeElement?.matches('.search-input')`);
    await page.keyboard.type('axial and radial load');
    await page.waitForSelector('#localsearch-list li');
    await page.keyboard.press('Enter');
    await page.waitForURL(/forces\.html/, { waitUntil: 'commit' });
    clean();
    return page.url().slice(origin.length);
  });

  await testFigures({ browser, page, open, clean });
});

count();
