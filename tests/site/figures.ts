// The live figures of the site, by pointer, finger, keys and numbers: what they show is what the library finds.

import { readFile } from 'node:fs/promises';
import {
  axle,
  axleLimits,
  doubleWishbone,
  handMethod,
  limits,
  orderSheet,
  readCar,
  sheetHtml,
  sizeCoilovers,
  sizingSummary,
  survey,
  sweep,
  sweepAxle,
  writeSurveyedCorner,
} from 'jounce';
import type { BrowserContext, Page } from 'playwright-core';
import { test } from '../support/steps.ts';

/** A text without its spaces: a page and a terminal fold it otherwise. */
const tight = (text: string | null) => (text ?? '').replace(/\s+/g, '');

/** A page of the site in a browser. */
export interface Reader {
  readonly browser: BrowserContext;
  readonly page: Page;
  /** Opens a page of the site, and waits until it is alive. */
  readonly open: (address: string) => Promise<void>;
  /** Throws what the pages did since the last look that they must not. */
  readonly clean: () => void;
}

/** Half of the last digit that a figure shows, and a little for rounding. */
const HALF = 0.51;

function expectShown(shown: string | null, exact: number, decimals: number, what: string): void {
  const value = Number((shown ?? '').replace('−', '-').replace('+', ''));
  if (!(Math.abs(value - exact) <= HALF * 10 ** -decimals))
    throw new Error(`${what}: ${shown} is shown, and ${exact} is right`);
}

/** What a figure is asked and told by its parts. */
function partsOf(page: Page) {
  const figure = page.locator('figure.live');
  const handle = (name: string) => figure.locator(`[data-handle="${name}"]`);
  const centre = async (name: string) => {
    const box = await handle(name).locator('.knob, .arrows').first().boundingBox();
    if (box === null) throw new Error(`no handle ${name}`);
    return [box.x + box.width / 2, box.y + box.height / 2] as const;
  };
  return {
    figure,
    handle,
    centre,
    value: (name: string) => figure.locator(`[data-value=${name}]`).textContent(),
    /** All numbers in the sentences, in their order. */
    numbers: async () =>
      (await page.evaluate(
        `[...document.querySelectorAll('figure.live input')].map((input) => input.valueAsNumber)`,
      )) as number[],
    type: async (k: number, value: number) => {
      const input = figure.locator('input').nth(k);
      await input.fill(String(value));
      await input.press('Enter');
    },
    drag: async (name: string, dx: number, dy: number) => {
      await handle(name).scrollIntoViewIfNeeded();
      const [x, y] = await centre(name);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + dx / 2, y + dy / 2);
      await page.mouse.move(x + dx, y + dy);
      await page.mouse.up();
    },
  };
}

function expectMoved(before: readonly number[], after: readonly number[], places: readonly number[]): void {
  const changed = after.flatMap((value, k) => (value === before[k] ? [] : [k]));
  if (String(changed) !== String(places)) throw new Error(`${before} became ${after}`);
}

/** The corner of the guides with the ends of its coilover at [y, z], and more of its parts. */
const CORNER = {
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
} as const;
const DAMPER = { extendedLength: 385, compressedLength: 300 };
const BUMP_STOP = { height: 35, solidHeight: 12 };

/** A car as the address of a page has it. */
async function addressed(page: Page, text: string): Promise<string> {
  return (await page.evaluate(async (text) => {
    const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
    const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
    const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
    return `#car=${btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')}`;
  }, text)) as string;
}

export async function testFigures({ browser, page, open, clean }: Reader): Promise<void> {
  const parts = partsOf(page);
  const { figure, handle, value, numbers, type, drag } = parts;
  const car = await readFile('docs/examples/car.json', 'utf8');

  await test('the corner follows pointer, keys and numbers, and agrees with the library', async () => {
    await open('first-corner.html');
    /** Mount, chassis mount and travel as the sentence has them; the ratio that it shows must be that of the library. */
    const read = async () => {
      const values = (await numbers()).slice(0, 5);
      const [y, z, cy, cz, travel] = values;
      const corner = doubleWishbone({
        ...CORNER,
        coilover: { on: 'lowerArm', mount: [y, z], chassisMount: [cy, cz] },
      });
      const shown = await value('ratio');
      expectShown(shown, sweep(corner).at(travel).installationRatio ?? Number.NaN, 3, 'ratio');
      return { values, shown: Number(shown) };
    };
    const drawn = await read();
    await drag('coilover.mount', 20, 0);
    const outboard = await read();
    if (!(outboard.values[0] > drawn.values[0] + 10 && outboard.shown > drawn.shown))
      throw new Error(`${outboard.values}`);
    await handle('coilover.chassisMount').focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowLeft');
    const keyed = await read();
    expectMoved(outboard.values, keyed.values, [2, 3]);
    await type(4, 20);
    const up = await read();
    expectMoved(keyed.values, up.values, [4]);
    await drag('coilover.mount', -15, 5);
    await drag('wheel', 0, 300);
    const low = await read();
    if (!(low.values[4] < -10)) throw new Error(`the wheel is at ${low.values[4]} mm`);
    const words = (await value('droop')) ?? '';
    if (!words.includes(Math.abs(low.values[4]).toFixed(1)))
      throw new Error(`${words}, and the wheel is at ${low.values[4]} mm`);
    await type(5, 360);
    await page.waitForFunction(
      `document.querySelector('[data-value=droop]').textContent.includes('360.0 mm')`,
    );
    await type(5, 200);
    await page.waitForSelector('.refused');
    await figure.locator('[data-action=again]').click();
    const again = await read();
    expectMoved(low.values, again.values, [0, 1, 2, 3]);
    clean();
    return undefined;
  });

  await test('the limits follow a mount: which one comes first, and why', async () => {
    await open('limits.html');
    await type(0, 540);
    await type(1, 175);
    const corner = doubleWishbone({
      ...CORNER,
      coilover: { on: 'lowerArm', mount: [540, 175], chassisMount: [345, 480] },
    });
    const found = limits(corner, { damper: DAMPER, bumpStop: BUMP_STOP });
    for (const side of ['bump', 'droop'] as const) {
      const words = (await value(side)) ?? '';
      const travel = Math.abs(found[side]?.travel ?? Number.NaN).toFixed(1);
      if (!words.includes(`${travel} mm of ${side}`))
        throw new Error(`${words} is shown, and ${travel} is right`);
    }
    clean();
    return undefined;
  });

  await test('the hand figure stands beside the exact one', async () => {
    await open('hand-method.html');
    await type(4, 30);
    const corner = doubleWishbone({
      ...CORNER,
      coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
    });
    const hand = handMethod(corner, { sprungMass: 180, frequency: 1.5 });
    if (!hand.defined) throw new Error('no hand method');
    expectShown(await value('exact'), hand.at(30).exact, 3, 'exact');
    expectShown(await value('estimate'), hand.estimate, 3, 'estimate');
    clean();
    return undefined;
  });

  await test('the axle follows pointer, keys and numbers, and agrees with the library', async () => {
    await open('axle.html');
    /** Heave, roll, three points and the lever as the sentences have them; what they show must be what the library finds. */
    const read = async () => {
      const values = await numbers();
      const [heave, roll, iy, iz, cy, cz, ly, lz, leverLength] = values;
      const left = doubleWishbone({
        ...CORNER,
        upperArm: { ...CORNER.upperArm, inner: [iy, iz] },
        coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [cy, cz] },
      });
      const roundBar = { diameter: 16, length: 800 };
      const bar = {
        on: 'lowerArm',
        linkMount: [ly, lz],
        leverEnd: [470, 330],
        leverLength,
        roundBar,
      } as const;
      const linkage = axle({ left, bar });
      const [row] = sweepAxle(linkage, { heave: [heave], roll: [roll] }).rows();
      // Heave and roll are shown rounded: half a tenth of a mm, and of a hundredth of a degree at the half-track.
      const travel = 0.05 + (0.005 / 180) * Math.PI * 720;
      for (const [name, exact, tolerance] of [
        ['leftTravel', row.leftTravel, travel],
        ['rightTravel', row.rightTravel, travel],
        ['leftCamber', row.leftCamber, 0.01],
        ['rightCamber', row.rightCamber, 0.01],
        ['barTwist', row.barTwist ?? Number.NaN, 0.03],
        ['rollCentre', row.rollCentreHeight ?? Number.NaN, 0.3],
      ] as const) {
        const shown = Number((await value(name))?.replace('−', '-').replace('+', ''));
        if (!(Math.abs(shown - exact) <= tolerance + 0.051))
          throw new Error(`${name}: ${shown} is shown, and ${exact} is right at ${values}`);
      }
      const found = limits(left, { damper: DAMPER, bumpStop: BUMP_STOP });
      return { values, row, range: axleLimits(linkage, { left: found, roll: [roll] }).ranges[0] };
    };
    const drawn = await read();
    await type(0, 10);
    await type(1, 2);
    const rolled = await read();
    // As the guide has it: 34.80 and -8.921.
    expectShown(await value('rightTravel'), 34.8, 1, 'right wheel');
    expectShown(await value('barTwist'), -8.921, 2, 'twist');
    const words = (await value('limits')) ?? '';
    for (const limit of [rolled.range.bump, rolled.range.droop]) {
      const heave = Math.abs(limit?.heave ?? Number.NaN).toFixed(1);
      if (!words.includes(`${heave} mm (${limit?.side} wheel`)) throw new Error(`${words}, not ${heave} mm`);
    }

    // Down goes the body into bump, and to the side on which it leans.
    await drag('body', -8, 6);
    const dragged = await read();
    if (!(dragged.values[0] > 15 && dragged.values[1] > 2.5)) throw new Error(`${dragged.values}`);
    await drag('map', -160, 15);
    const mapped = await read();
    if (!(mapped.values[0] < dragged.values[0] && mapped.values[1] < 0)) throw new Error(`${mapped.values}`);
    await handle('body').focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowDown');
    const pushed = await read();
    expectShown(String(pushed.values[0] - mapped.values[0]), 1, 1, 'heave of a key');
    expectShown(String(pushed.values[1] - mapped.values[1]), 0.1, 2, 'roll of a key');
    await handle('map').focus();
    await page.keyboard.press('Shift+ArrowRight');
    const stepped = await read();
    expectShown(String(stepped.values[1] - pushed.values[1]), 1, 2, 'roll of ten keys');

    // A mount where the leaning body has it, and one on the arm.
    await drag('upperArm.inner', 0, -12);
    const higher = await read();
    if (!(higher.values[3] > stepped.values[3] + 15 && Math.abs(higher.values[2] - stepped.values[2]) < 8))
      throw new Error(`${higher.values}`);
    await drag('bar.linkMount', -20, 0);
    const inboard = await read();
    if (!(inboard.values[6] < higher.values[6] - 30)) throw new Error(`${inboard.values}`);
    await type(8, 150);
    const shorter = await read();
    expectMoved(inboard.values, shorter.values, [8]);

    // Farther than the wheels go.
    await type(1, 25);
    const farthest = await read();
    const most = axleLimits(
      axle({
        left: doubleWishbone({
          ...CORNER,
          coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
        }),
      }),
      {
        left: limits(
          doubleWishbone({
            ...CORNER,
            coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
          }),
          { damper: DAMPER, bumpStop: BUMP_STOP },
        ),
      },
    ).leftUp;
    if (!(Math.abs(farthest.values[1] - (most?.roll ?? 0)) < 0.3)) throw new Error(`${farthest.values}`);
    await figure.locator('[data-action=again]').click();
    expectMoved(drawn.values, (await read()).values, []);
    clean();
    return undefined;
  });

  await test('the car of the address is in every figure, is changed there and keeps its order', async () => {
    await open('command.html');
    const hash = await addressed(page, car);
    const { corners } = readCar(car);
    const shows = () => page.waitForFunction(`document.querySelector('[data-value=shown]') !== null`);

    await open(`first-corner.html${hash}`);
    await shows();
    const front = sweep(corners.front.corner);
    expectShown(await value('ratio'), front.at(0).installationRatio ?? Number.NaN, 3, 'ratio of the front');
    await figure.locator('select').selectOption('rear');
    if (corners.rear === undefined) throw new Error('no rear');
    const rear = sweep(corners.rear.corner);
    expectShown(await value('ratio'), rear.at(0).installationRatio ?? Number.NaN, 3, 'ratio of the rear');
    // Its damper is that of the sizing, once that is there.
    await page.waitForFunction(
      `document.querySelector('figcaption').textContent.includes('chosen by the sizing')`,
    );

    await figure.locator('select').selectOption('front');
    await drag('coilover.chassisMount', 15, 0);
    const moved = await numbers();
    await page.waitForURL((url) => url.hash !== hash && url.hash.startsWith('#car='));
    const address = page.url();
    await page.goto('about:blank');
    await page.goto(address);
    await shows();
    expectMoved(moved, await numbers(), []);
    if (!(moved[2] > 14)) throw new Error(`the mount is at ${moved[2]} in`);
    // Its order is that of the moved mount.
    const text = await page.locator('textarea').inputValue();
    if (readCar(text).corners.front.corner.kind !== 'doubleWishbone') throw new Error(text);
    const order = page.locator('[data-value=order]');
    await order.waitFor();
    const printed = await page.evaluate(
      `fetch(document.querySelector('[data-value=order]').href).then((order) => order.text())`,
    );
    if (printed !== sheetHtml(orderSheet(sizeCoilovers(readCar(text))))) throw new Error('another order');

    // On to the other figures by the links below the file.
    await page.locator('.elsewhere a', { hasText: 'limits' }).click();
    await page.waitForURL(/limits\.html#car=/);
    await shows();
    if (!((await value('bump')) ?? '').includes(' in of bump')) throw new Error(`${await value('bump')}`);
    await page.locator('.elsewhere a', { hasText: 'hand' }).click();
    await page.waitForURL(/hand-method\.html#car=/);
    await shows();
    await page.waitForFunction(
      `document.querySelector('figcaption').textContent.includes(' lb on the wheel')`,
    );
    await page.locator('.elsewhere a', { hasText: 'roll' }).click();
    await page.waitForURL(/axle\.html#car=/);
    await shows();
    await type(1, 1);
    const linkage = axle({ left: readCar(text).corners.front.corner });
    const [row] = sweepAxle(linkage, { heave: [0], roll: [1] }).rows();
    expectShown(await value('rightTravel'), row.rightTravel / 25.4, 2, 'right wheel');

    // A file that is none is refused, and the one before stays.
    const ratio = await value('rightTravel');
    await page.locator('textarea').fill(text.replace('"lowerArm"', '"loweArm"'));
    await page.waitForSelector('.refused');
    if ((await value('rightTravel')) !== ratio) throw new Error('the figure is gone');
    clean();
    return `${address.length} characters`;
  });

  await test('a pushrod and a strut are shown too', async () => {
    for (const [file, ends] of [
      ['pushrod-corner', ['coilover.rockerMount', 'coilover.chassisMount']],
      ['strut-corner', ['strut.lowerMount', 'strut.topMount']],
    ] as const) {
      const text = await readFile(`docs/examples/${file}.json`, 'utf8');
      await open('first-corner.html');
      await page.locator('textarea').fill(text);
      for (const end of ends) await handle(end).waitFor();
      const before = await numbers();
      await drag(ends[1], 10, -5);
      const after = await numbers();
      expectMoved(before.slice(0, 4), after.slice(0, 4), [2, 3]);
    }
    clean();
    return undefined;
  });

  await test('the linkage follows pointer and numbers, as the README has it', async () => {
    await open('custom-linkages.html');
    const rocker = () => value('rocker');
    await type(1, 180 / Math.PI);
    const degrees = ((0.5262 * 180) / Math.PI).toFixed(2);
    if ((await rocker()) !== degrees) throw new Error(`${await rocker()}, not ${degrees}`);
    await drag('A', 60, 60);
    if ((await rocker()) === degrees) throw new Error('the crank does not follow the pointer');
    // Grashof: 60 and the coupler of about 120 are more than 100 and 76.5 together.
    await type(0, 60);
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
    const text = car.replace('One-off light roadster', 'A car by link');
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
    if (tight(shown) !== tight(summary)) throw new Error(`${shown}\nis not\n${summary}`);
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

  await test('readings become points, points a car, and the car an order', async () => {
    await open('tape-to-order.html');
    const words = (part: string) =>
      page.waitForFunction(
        `[...document.querySelectorAll('[data-value=words]')].some((one) => one.textContent.includes(${JSON.stringify(part)}))`,
      );
    await words('distances[8]');
    const readings = page.locator('[data-value=readings]');
    const right = (await readings.inputValue()).replace('"value": 145', '"value": 136.5');
    await readings.fill(right);
    await words('The readings agree');
    const file = page.locator('[aria-label="car file"]');
    const before = await file.inputValue();
    await figure.locator('[data-action=into]').click();
    await page.waitForURL(/#car=/);
    const measured = await file.inputValue();
    const expected = writeSurveyedCorner(before, survey(right), { corner: 'front' });
    // The browser's last bits are other ones: eight decimals of a file are not.
    if (measured.replaceAll(/\s/g, '') !== JSON.stringify(expected).replaceAll(/\s/g, ''))
      throw new Error(`${measured}\nis not\n${JSON.stringify(expected, null, 2)}`);
    const summary = sizingSummary(sizeCoilovers(readCar(measured)));
    await page.waitForFunction(
      `document.querySelector('[data-value=summary]').textContent.replace(/\\s+/g, '') === ${JSON.stringify(tight(summary))}`,
    );
    await page.locator('[data-value=order]').waitFor();
    await readings.fill(right.replace('"distances"', '"distance"'));
    await words('Unknown field');
    clean();
    return undefined;
  });

  await test('a finger takes a mount, and scrolls the page beside it', async () => {
    await page.setViewportSize({ width: 390, height: 800 });
    const session = await page.context().newCDPSession(page);
    await session.send('Emulation.setTouchEmulationEnabled', { enabled: true });
    const swipe = async (x: number, y: number, dx: number, dy: number) => {
      const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', share: number) =>
        session.send('Input.dispatchTouchEvent', {
          type,
          touchPoints: type === 'touchEnd' ? [] : [{ x: x + share * dx, y: y + share * dy }],
        });
      await touch('touchStart', 0);
      for (let k = 1; k <= 8; k++) await touch('touchMove', k / 8);
      await touch('touchEnd', 1);
      await page.waitForTimeout(200);
    };
    const scrolled = () => page.evaluate('scrollY') as Promise<number>;
    const told: string[] = [];
    for (const [address, names] of [
      ['first-corner.html', ['coilover.mount', 'coilover.chassisMount', 'wheel']],
      ['axle.html', ['map', 'body', 'upperArm.inner', 'bar.linkMount']],
      ['custom-linkages.html', ['A', 'B']],
    ] as const) {
      await open(address);
      await page.waitForTimeout(300);
      for (const name of names) {
        await page.evaluate(
          `document.querySelector('[data-handle="${name}"]').scrollIntoView({ block: 'center' })`,
        );
        const [x, y] = await parts.centre(name);
        const [values, top] = [await numbers(), await scrolled()];
        await swipe(x, y, 6, 25);
        if (String(await numbers()) === String(values))
          throw new Error(`${address}: ${name} does not follow a finger`);
        if ((await scrolled()) !== top)
          throw new Error(`${address}: the page scrolls with ${name} from ${top} to ${await scrolled()}`);
        told.push(name);
      }
      // On the sentence above it the same finger scrolls.
      const box = await figure.locator('p').first().boundingBox();
      if (box === null) throw new Error('no sentence');
      const top = await scrolled();
      await page.evaluate(`scrollBy(0, ${box.y - 400})`);
      const before = await scrolled();
      const at = await figure.locator('p').first().boundingBox();
      await swipe(200, (at?.y ?? 0) + 6, 0, -150);
      if ((await scrolled()) === before)
        throw new Error(`${address}: the page does not scroll (${top}, ${before})`);
    }
    await session.send('Emulation.setTouchEmulationEnabled', { enabled: false });
    await session.detach();
    await page.setViewportSize({ width: 1280, height: 900 });
    clean();
    return told.join(', ');
  });

  /** Moves a handle by pointer 120 times. From the event to the picture laid out, in the same task and its microtasks; ms. */
  const timesOf = async (address: string, name: string) => {
    await open(address);
    await page.waitForTimeout(2000);
    await handle(name).scrollIntoViewIfNeeded();
    const [x, y] = await parts.centre(name);
    await page.mouse.move(x, y);
    await page.mouse.down();
    const times = (await page.evaluate(
      `(async () => {
        const handle = document.querySelector('[data-handle="${name}"]');
        const times = [];
        for (let k = 0; k < 140; k++) {
          await new Promise(requestAnimationFrame);
          const at = { pointerId: 1, bubbles: true, clientX: ${x} + 12 * Math.sin(k / 9), clientY: ${y} + 5 * Math.cos(k / 7) };
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
    return `${address} ${name}: median ${median.toFixed(1)} ms, 95 % within ${high.toFixed(1)} ms, the first ten ${first.join(', ')} ms`;
  };
  await test('what a move of the pointer costs', async () => {
    const told: string[] = [];
    for (const [address, name] of [
      ['first-corner.html', 'coilover.mount'],
      ['limits.html', 'coilover.mount'],
      ['hand-method.html', 'coilover.mount'],
      ['axle.html', 'body'],
      ['axle.html', 'map'],
      ['axle.html', 'upperArm.inner'],
      ['custom-linkages.html', 'B'],
    ])
      told.push(await timesOf(address, name));
    return `\n  ${told.join('\n  ')}\n `;
  });
}
