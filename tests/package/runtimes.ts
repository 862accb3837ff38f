// Where the installed package is run. Each runtime runs a program of the project folder and gives what it printed.

import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { RequestListener } from 'node:http';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import { withBrowser } from '../support/browser.ts';
import { LONGEST, run } from '../support/run.ts';

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

/** A page with a bundled program in it, in a headless browser: what it writes to the console. */
export async function browser(folder: string, bundled: string): Promise<string> {
  const script = await readFile(join(folder, bundled));
  const answer: RequestListener = ({ url }, response) => {
    const wanted = url === `/${bundled}`;
    response.setHeader('content-type', wanted ? 'text/javascript' : 'text/html');
    response.end(wanted ? script : `<!doctype html><script type="module" src="/${bundled}"></script>`);
  };
  return withBrowser(answer, async (opened, origin) => {
    const page = await opened.newPage();
    const printed = new Promise<string>((done, failed) => {
      page.on('pageerror', failed);
      page.on('console', (message) => done(message.text()));
      setTimeout(() => failed(new Error('the page printed nothing')), LONGEST).unref();
    });
    const [text] = await Promise.all([printed, page.goto(origin)]);
    return text;
  });
}
