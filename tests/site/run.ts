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
import { doubleWishbone, readCar, sizeCoilovers, sizingSummary, sweep } from 'jounce';
import type { Page } from 'playwright-core';
import { CONTENTS } from '../../docs/site/contents.mjs';
import { withBrowser } from '../support/browser.ts';
import { run } from '../support/run.ts';
import { count, expectNone, test } from '../support/steps.ts';
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

  await test('the corner follows pointer, keys and numbers, and agrees with the library', async () => {
    await open('first-corner.html');
    const figure = page.locator('figure.live');
    const numbers = figure.locator('input');
    const ratio = figure.locator('[data-value=ratio]');
    /** Mount, chassis mount and travel as the sentence has them; the ratio that it shows must be that of the library. */
    const read = async () => {
      const values = (await page.evaluate(
        `[...document.querySelectorAll('figure.live input')].slice(0, 5).map((input) => input.valueAsNumber)`,
      )) as number[];
      const [y, z, cy, cz, travel] = values;
      const corner = doubleWishbone({
        lowerArm: { inner: [255, 165], outer: [640, 150] },
        upperArm: { inner: [310, 355], outer: [600, 375] },
        wheel: { centre: [705, 312], camber: -0.5 },
        coilover: { on: 'lowerArm', mount: [y, z], chassisMount: [cy, cz] },
      });
      const shown = Number(await ratio.textContent());
      const exact = sweep(corner).at(travel).installationRatio ?? Number.NaN;
      if (!(Math.abs(shown - exact) < 0.00051)) throw new Error(`${shown} is shown, and ${exact} is right`);
      return { values, shown };
    };
    const centre = async (handle: string) => {
      const box = await figure.locator(`[data-handle=${handle}]`).boundingBox();
      if (box === null) throw new Error(`no handle ${handle}`);
      return [box.x + box.width / 2, box.y + box.height / 2] as const;
    };
    const drag = async (handle: string, dx: number, dy: number) => {
      await figure.locator(`[data-handle=${handle}]`).scrollIntoViewIfNeeded();
      const [x, y] = await centre(handle);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + dx / 2, y + dy / 2);
      await page.mouse.move(x + dx, y + dy);
      await page.mouse.up();
    };
    const moved = (before: readonly number[], after: readonly number[], places: readonly number[]) => {
      const changed = after.flatMap((value, k) => (value === before[k] ? [] : [k]));
      if (String(changed) !== String(places)) throw new Error(`${before} became ${after}`);
    };

    const drawn = await read();
    await drag('mount', 20, 0);
    const outboard = await read();
    if (!(outboard.values[0] > drawn.values[0] + 10 && outboard.shown > drawn.shown))
      throw new Error(`${outboard.values}`);
    await figure.locator('[data-handle=chassisMount]').focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowLeft');
    const keyed = await read();
    moved(outboard.values, keyed.values, [2, 3]);
    await numbers.nth(4).fill('20');
    await numbers.nth(4).press('Enter');
    const up = await read();
    moved(keyed.values, up.values, [4]);
    await drag('mount', -15, 5);
    await drag('wheel', 0, 300);
    const low = await read();
    if (!(low.values[4] < -10)) throw new Error(`the wheel is at ${low.values[4]} mm`);
    const words = (await figure.locator('[data-value=droop]').textContent()) ?? '';
    if (!words.includes(Math.abs(low.values[4]).toFixed(1)))
      throw new Error(`${words}, and the wheel is at ${low.values[4]} mm`);
    await numbers.nth(5).fill('360');
    await numbers.nth(5).press('Enter');
    await page.waitForFunction(
      `document.querySelector('[data-value=droop]').textContent.includes('360.0 mm')`,
    );
    await numbers.nth(5).fill('200');
    await numbers.nth(5).press('Enter');
    await page.waitForSelector('.refused');
    await figure.locator('button').click();
    const again = await read();
    moved(drawn.values, again.values, []);
    clean();
    return undefined;
  });

  await test('the linkage follows pointer and numbers, as the README has it', async () => {
    await open('custom-linkages.html');
    const figure = page.locator('figure.live');
    const [length, turn] = [figure.locator('input').nth(0), figure.locator('input').nth(1)];
    const rocker = figure.locator('[data-value=rocker]');
    await turn.fill(String(180 / Math.PI));
    await turn.press('Enter');
    const degrees = ((0.5262 * 180) / Math.PI).toFixed(2);
    if ((await rocker.textContent()) !== degrees)
      throw new Error(`${await rocker.textContent()}, not ${degrees}`);
    const box = await figure.locator('[data-handle=A] .knob').boundingBox();
    if (box === null) throw new Error('no crank');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + 60, box.y + 60);
    await page.mouse.up();
    if ((await rocker.textContent()) === degrees) throw new Error('the crank does not follow the pointer');
    // Grashof: 60 and the coupler of about 120 are more than 100 and 76.5 together.
    await length.fill('60');
    await length.press('Enter');
    await page.waitForFunction(
      `document.querySelector('[data-value=reach]').textContent.includes('dead points')`,
    );
    clean();
    return undefined;
  });

  await test('the order of the car in the address', async () => {
    const order = page.locator('[data-value=order]');
    await open('quick-start.html');
    await order.waitFor();
    const text = (await readFile('docs/examples/car.json', 'utf8')).replace(
      'One-off light roadster',
      'A car by link',
    );
    await page.locator('textarea').fill(text);
    await page.waitForURL(/#car=/);
    const address = page.url();
    await page.goto('about:blank');
    await page.goto(address);
    const summary = sizingSummary(sizeCoilovers(readCar(text)));
    await page.waitForFunction(
      `document.querySelector('[data-value=summary]').textContent.startsWith('A car by link')`,
    );
    await order.waitFor();
    const shown = await page.locator('[data-value=summary]').textContent();
    if (shown !== summary) throw new Error(`${shown}\nis not\n${summary}`);
    const [opened] = await Promise.all([browser.waitForEvent('page'), order.click()]);
    await opened.waitForSelector('h1');
    const heading = await opened.locator('h1').first().textContent();
    await opened.close();
    if (!heading?.includes('A car by link')) throw new Error(`${heading}`);
    await page.locator('textarea').fill(text.replace('"lowerArm"', '"loweArm"'));
    await page.waitForFunction(
      `document.querySelector('[data-value=summary]').textContent.includes('loweArm')`,
    );
    clean();
    return `${address.length} characters`;
  });

  await test('what a move of the pointer costs', async () => {
    await open('first-corner.html');
    await page.waitForTimeout(2000);
    const handle = page.locator('[data-handle=mount]');
    await handle.scrollIntoViewIfNeeded();
    const box = await handle.boundingBox();
    if (box === null) throw new Error('no handle');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    // From the event to the picture laid out, in the same task and its microtasks.
    const times = (await page.evaluate(
      `(async () => {
        const handle = document.querySelector('[data-handle=mount]');
        const times = [];
        for (let k = 0; k < 120; k++) {
          await new Promise(requestAnimationFrame);
          const at = { pointerId: 1, bubbles: true, clientX: ${x} + 20 * Math.sin(k / 9), clientY: ${y} + 5 * Math.cos(k / 7) };
          const start = performance.now();
          handle.dispatchEvent(new PointerEvent('pointermove', at));
          await null;
          await null;
          document.querySelector('figure.live').getBoundingClientRect();
          times.push(performance.now() - start);
        }
        return times;
      })()`,
    )) as number[];
    await page.mouse.up();
    const rest = times.slice(20).sort((a, b) => a - b);
    const [median, high] = [0.5, 0.95].map((share) => rest[Math.floor(share * rest.length)]);
    const first = times.slice(0, 10).map((ms) => ms.toFixed(1));
    return `median ${median.toFixed(1)} ms, 95 % within ${high.toFixed(1)} ms, the first ten ${first.join(', ')} ms`;
  });
});

count();
