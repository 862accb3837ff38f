import { mkdtemp, rm } from 'node:fs/promises';
import { createServer, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const FLAGS = [
  ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  ...['--disable-component-update', '--disable-sync'],
];

/** A headless browser beside a server that answers it, for as long as `body` takes. */
export async function withBrowser<T>(
  answer: RequestListener,
  body: (browser: BrowserContext, origin: string) => Promise<T>,
): Promise<T> {
  const server = createServer(answer);
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const profile = await mkdtemp(join(tmpdir(), 'jounce-browser-'));
  const opened = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    headless: true,
    args: FLAGS,
  });
  try {
    const { port } = server.address() as AddressInfo;
    return await body(opened, `http://127.0.0.1:${port}`);
  } finally {
    await opened.close();
    server.close();
    await rm(profile, { recursive: true, force: true });
  }
}
