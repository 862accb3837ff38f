// Where the installed package is run. Each runtime runs a program of the project folder and gives what it printed.

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import { chromium } from 'playwright-core';

/** A program that hangs is ended, on the slowest machine too. */
const LONGEST = 120_000;

/**
 * Runs a command and gives what it printed.
 *
 * @throws Error with all that it printed when it does not end with 0.
 */
export function run(command: string, args: readonly string[], cwd: string): Promise<string> {
  return new Promise((done, failed) => {
    const child = spawn(command, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'], timeout: LONGEST });
    let printed = '';
    let errors = '';
    child.stdout.on('data', (text) => (printed += text));
    child.stderr.on('data', (text) => (errors += text));
    child.on('error', failed);
    child.on('close', (code) => {
      if (code === 0) done(printed);
      else failed(new Error(`${command} ${args.join(' ')} ended with ${code}\n${printed}${errors}`));
    });
  });
}

/** A program and all that it imports, the package's dependencies too, as one file. */
export async function bundle(folder: string, program: string): Promise<string> {
  const { outputFiles, warnings } = await build({
    absWorkingDir: folder,
    entryPoints: [program],
    bundle: true,
    format: 'esm',
    minify: true,
    write: false,
    logLevel: 'silent',
  });
  if (warnings.length > 0) throw new Error(`esbuild warns: ${warnings.map(({ text }) => text).join('; ')}`);
  return outputFiles[0].text;
}

/** Deno as docs/notebooks pins it. */
export async function deno(folder: string, program: string): Promise<string> {
  const home = resolve('docs/notebooks');
  const executable = join(home, 'node_modules/.bin/deno');
  if (!existsSync(executable)) await run('npm', ['ci', '--prefer-offline', '--no-audit', '--no-fund'], home);
  return run(executable, ['run', '--quiet', '--no-prompt', '--node-modules-dir=manual', program], folder);
}

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const FLAGS = [
  ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  ...['--disable-component-update', '--disable-sync'],
];

/** A page with a bundled program in it, in a headless browser: what it writes to the console. */
export async function browser(folder: string, bundled: string): Promise<string> {
  const script = await readFile(join(folder, bundled));
  const server = createServer(({ url }, response) => {
    const wanted = url === `/${bundled}`;
    response.setHeader('content-type', wanted ? 'text/javascript' : 'text/html');
    response.end(wanted ? script : `<!doctype html><script type="module" src="/${bundled}"></script>`);
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const profile = await mkdtemp(join(tmpdir(), 'jounce-browser-'));
  const opened = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    headless: true,
    args: FLAGS,
  });
  try {
    const page = await opened.newPage();
    const printed = new Promise<string>((done, failed) => {
      page.on('pageerror', failed);
      page.on('console', (message) => done(message.text()));
      setTimeout(() => failed(new Error('the page printed nothing')), LONGEST).unref();
    });
    const { port } = server.address() as AddressInfo;
    const [text] = await Promise.all([printed, page.goto(`http://127.0.0.1:${port}/`)]);
    return text;
  } finally {
    await opened.close();
    server.close();
    await rm(profile, { recursive: true, force: true });
  }
}
