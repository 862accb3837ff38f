// The package as its users get it: packed, looked over, installed into an empty project and run by name in every runtime
// that it is made for.
//
//   npm run test:package
//
// Deno comes with docs/notebooks; the browser is Debian's (apt-get install chromium), or what CHROMIUM names.

import { cpSync, existsSync, mkdirSync, mkdtempSync } from 'node:fs';
import { readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { readCar, sizeCoilovers, sweep } from 'jounce';
import { codeBlocks } from '../support/code-blocks.ts';
import { run } from '../support/run.ts';
import { count, expectNone, test } from '../support/steps.ts';
import { differences, differencesBySize, numbersIn } from './compare.ts';
import { found } from './program.mjs';
import { provenance } from './provenance.ts';
import { browser, bundle, deno } from './runtimes.ts';
import { CEILINGS, sizeOf } from './size.ts';
import { nodeOf, printBits, VERSIONS, written } from './versions.ts';

const bin = (tool: string) => resolve('node_modules/.bin', tool);
const npm = (args: readonly string[], cwd: string) =>
  run('npm', [...args, '--prefer-offline', '--no-audit', '--no-fund', '--loglevel=error'], cwd);

// What the sources find, bundled with this script, is what the package must find. As JSON, as it comes from the runtimes.
const wanted = JSON.parse(JSON.stringify(found()));
const same = (printed: string) => {
  expectNone(differences(JSON.parse(printed), wanted));
  return `${numbersIn(wanted)} numbers agree with the sources`;
};

const packed = resolve('out/package');
await rm(packed, { recursive: true, force: true });
mkdirSync(packed, { recursive: true });
await run('npm', ['run', 'build'], '.');
const [{ filename, files, size, unpackedSize }] = JSON.parse(
  await run('npm', ['pack', '--json', '--pack-destination', packed], '.'),
) as [{ filename: string; files: { path: string }[]; size: number; unpackedSize: number }];
const tarball = join(packed, filename);
const paths = files.map(({ path }) => path);
console.log(`${filename}: ${paths.length} files, ${kB(size)} packed, ${kB(unpackedSize)} unpacked`);

function kB(bytes: number): string {
  return `${(bytes / 1000).toFixed(1)} kB`;
}

/** Of the whole package, command included, as it is fetched: kB of 1000 bytes. */
const MOST_PACKED = 700;
await test('weight of the package', async () => {
  if (!(size / 1000 < MOST_PACKED)) throw new Error(`${kB(size)}, at most ${MOST_PACKED}`);
  return kB(size);
});

await test('publint', async () => void (await run(bin('publint'), ['run', tarball, '--strict'], '.')));
await test('attw', async () => void (await run(bin('attw'), [tarball, '--profile', 'esm-only'], '.')));

/** Pages on the work on the project itself, which need a clone. */
const IN_THE_REPOSITORY = ['DEVELOPERS.md', 'docs/benchmarks.md', 'docs/mutation.md', 'docs/validation.md'];
await test('what is packed', async () => {
  expectNone(
    ['LICENSE', 'README.md', 'docs/changelog.md', 'schemas/car.schema.json', 'schemas/corner.schema.json']
      .filter((path) => !paths.includes(path))
      .map((path) => `${path} is missing`),
  );
  expectNone(
    paths.filter(
      (path) =>
        !/^(dist|schemas|docs|README\.md|THIRD-PARTY\.md|LICENSE|package\.json)(\/|$)/.test(path) ||
        IN_THE_REPOSITORY.includes(path),
    ),
  );
  const dist = paths.filter((path) => path.startsWith('dist/'));
  expectNone(dist.filter((path) => !/\.(js|d\.ts)$/.test(path)));
});

await test('all code is of the sources, or of a package that THIRD-PARTY.md names', async () => {
  const { packages, files: modules, missing } = provenance();
  expectNone(missing);
  if (packages.length === 0) throw new Error('no bundled package was noted');
  return `${modules} files; ${packages.join(', ')}`;
});

await test('declarations name no package but the one that users bring; those of the kinds of corners name zod', async () => {
  const declarations = paths.filter((path) => path.endsWith('.d.ts'));
  const named = await Promise.all(
    declarations.map(async (path) =>
      [...(await readFile(path, 'utf8')).matchAll(/from ["']([^."'][^"']*)["']/g)].map(
        ([, name]) => `${path} imports ${name}`,
      ),
    ),
  );
  const allowed =
    / imports fast-check$|^dist\/(corner\/kinds|document\/corner-kind)\.d\.ts imports zod(\/v4\/core)?$/;
  expectNone(named.flat().filter((words) => !allowed.test(words)));
  return `${declarations.length} declarations`;
});

/** A page without its code blocks. */
function prose(page: string): string {
  return page.replaceAll(/^```[\s\S]*?^```/gm, '');
}

await test('links of what is packed', async () => {
  const pages = paths.filter((path) => path.endsWith('.md'));
  const broken: string[] = [];
  for (const page of pages) {
    for (const [, to] of prose(await readFile(page, 'utf8')).matchAll(/\]\((?!https?:|#)([^)#\s]+)/g)) {
      if (![...paths, ...IN_THE_REPOSITORY].includes(join(dirname(page), to)))
        broken.push(`${page} -> ${to}`);
    }
  }
  expectNone(broken);
  return `${pages.length} pages`;
});

const project = mkdtempSync(join(tmpdir(), 'jounce-project-'));
try {
  await writeFile(join(project, 'package.json'), '{ "type": "module", "private": true }');
  cpSync('tests/package/program.mjs', join(project, 'program.mjs'));
  await writeFile(
    join(project, 'print.mjs'),
    "import { found } from './program.mjs';\nconsole.log(JSON.stringify(found()));\n",
  );

  await test('installs into an empty project', async () => {
    await npm(['install', tarball], project);
    const installed = await readdir(join(project, 'node_modules'));
    if (installed.includes('fast-check')) throw new Error('fast-check came along');
    return installed.filter((name) => !name.startsWith('.')).join(', ');
  });

  await test('Node', async () => same(await run(process.execPath, ['print.mjs'], project)));
  await test('bundled with esbuild, in Node', async () => {
    const code = await bundle(project, 'print.mjs');
    await writeFile(join(project, 'bundled.mjs'), code);
    return same(await run(process.execPath, ['bundled.mjs'], project));
  });
  await test('bundled with esbuild, in a headless browser', async () =>
    same(await browser(project, 'bundled.mjs')));
  await test('Deno', async () => same(await deno(project, 'print.mjs')));

  await test('what no entry names can not be imported', async () => {
    const script = "import('jounce/dist/index.js').catch(({ code }) => console.log(code))";
    const code = await run(process.execPath, ['-e', script], project);
    if (code.trim() !== 'ERR_PACKAGE_PATH_NOT_EXPORTED') throw new Error(code);
  });
  await test('the JSON Schemas can be imported by name', async () => {
    const script = `
      import car from 'jounce/schemas/car.schema.json' with { type: 'json' };
      import { carJsonSchema } from 'jounce';
      console.log(JSON.stringify(car) === JSON.stringify(carJsonSchema()));`;
    await writeFile(join(project, 'schemas.mjs'), script);
    const printed = await run(process.execPath, ['--no-warnings', 'schemas.mjs'], project);
    if (printed.trim() !== 'true') throw new Error(printed);
  });

  cpSync('docs/examples/car.json', join(project, 'my-car.json'));
  const command = join(project, 'node_modules/.bin/jounce');
  await test('the command, in an empty folder', async () => {
    await run(command, ['order', 'my-car.json', '--out', 'papers'], project);
    const written = await readdir(join(project, 'papers'));
    if (!written.includes('my-car-order.html')) throw new Error(written.join(', '));
    const started = await run(command, ['start', '--units', 'imperial'], project);
    await writeFile(join(project, 'started.json'), started);
    await run(command, ['order', 'started.json', '--out', 'papers'], project);
    return `${written.length} files`;
  });
  const byVersion: Record<string, string>[] = [];
  for (const version of VERSIONS) {
    await test(`every job of the command in an empty folder, Node ${version}`, async () => {
      const node = await nodeOf(version, project);
      byVersion.push(await written(node, project));
      return `${(await run(node, ['--version'], project)).trim()}, ${Object.keys(byVersion[0]).length} outputs`;
    });
  }
  await test('the same bytes on every version of Node', async () => {
    if (byVersion.length < VERSIONS.length) throw new Error(`${byVersion.length} versions ran`);
    const [first, ...others] = byVersion;
    expectNone(
      others.flatMap((one, k) =>
        Object.keys({ ...first, ...one })
          .filter((name) => one[name] !== first[name])
          .map((name) => `Node ${VERSIONS[k + 1]}: ${name}`),
      ),
    );
    return `${Object.values(first).join('').length} characters`;
  });
  await test('sweep, limits, sizing, order and draws in a headless browser, to 1e-9', async () => {
    cpSync('tests/package/bits.mjs', join(project, 'bits.mjs'));
    await writeFile(join(project, 'print-bits.mjs'), printBits());
    await writeFile(join(project, 'bundled-bits.mjs'), await bundle(project, 'print-bits.mjs'));
    const inBrowser = JSON.parse(await browser(project, 'bundled-bits.mjs'));
    const onNode = JSON.parse(byVersion[0].bits);
    const { lines, largest } = differencesBySize(inBrowser, onNode);
    expectNone(lines);
    return `${numbersIn(onNode)} numbers, largest difference ${largest.toExponential(1)} of a quantity's size`;
  });
  await test('the Python example of docs/command.md', async () => {
    const [, code] = /```python\n([\s\S]*?)```/.exec(await readFile('docs/command.md', 'utf8')) ?? [];
    const path = `${dirname(command)}:${process.env.PATH}`;
    const printed = await run('/usr/bin/env', [`PATH=${path}`, 'python3', '-c', `${code}`], project);
    const { corner } = readCar(await readFile('docs/examples/car.json', 'utf8')).corners.front;
    const curves = sweep(corner, { bump: 40, droop: 40 });
    const lines = printed.trim().split('\n');
    if (lines.length < 3) throw new Error(printed);
    expectNone(
      lines.filter((line) => {
        const [, travel, ratio] = /^ *([+-]?\d+) mm {2}([\d.]+)$/.exec(line) ?? [];
        return (
          Math.abs(Number(travel)) <= 40 && curves.at(Number(travel)).installationRatio?.toFixed(4) !== ratio
        );
      }),
    );
    return `${lines.length} lines`;
  });
  await test('the Python examples of an order and of many corners', async () => {
    const blocks = (await readFile('docs/command.md', 'utf8')).matchAll(/```python\n([\s\S]*?)```/g);
    const path = `${dirname(command)}:${process.env.PATH}`;
    const code = [...blocks].map(([, block]) => block).join('\n');
    const printed = await run('/usr/bin/env', [`PATH=${path}`, 'python3', '-c', code], project);
    const sized = sizeCoilovers(readCar(await readFile('docs/examples/car.json', 'utf8')));
    for (const [split, car] of Object.entries(sized.steadyCorner?.bySplit ?? {})) {
      if (car.status !== 'rests') throw new Error(`${split}: ${car.cause}`);
      const outer = car.axles.front?.right.travel ?? 0;
      const line = `${split}: ${car.roll.toFixed(2)} degrees of roll, outer front wheel +${outer.toFixed(1)} mm\n`;
      if (!printed.includes(line)) throw new Error(`${printed}\nwithout: ${line}`);
    }
    const many = printed.split('\n').filter((line) => /^\d+ 0\.\d+$/.test(line));
    if (many.length !== 50) throw new Error(`${many.length} variants`);
    return `${many.length} variants`;
  });
  await test('many corners at once, under GNU parallel, one process killed', async () => {
    const one = JSON.parse(await readFile('docs/examples/front-corner.json', 'utf8'));
    const jobs = Array.from({ length: 40 }, (_, k) => {
      const [y, z] = one.coilover.mount;
      return { id: `job ${k}`, document: { ...one, coilover: { ...one.coilover, mount: [y - k / 10, z] } } };
    });
    const text = jobs.map((job) => JSON.stringify(job)).join('\n');
    await writeFile(join(project, 'jobs.jsonl'), `${text}\n`);
    const whole = await run(command, ['corner', 'jobs.jsonl', '--lines'], project);
    // The first process to come is killed; its lines are answered by another.
    await writeFile(
      join(project, 'once.sh'),
      `mkdir killed 2>/dev/null && kill -9 $$\nexec '${command}' corner --lines\n`,
    );
    const spread = await run(
      '/bin/sh',
      ['-c', 'parallel --pipe -N 5 -k -j 2 --retries 3 sh once.sh < jobs.jsonl'],
      project,
    );
    if (!existsSync(join(project, 'killed'))) throw new Error('no process was killed');
    if (spread !== whole) throw new Error('not the same bytes as one process');
    return `${jobs.length} answers`;
  });
  await test('how soon the command answers', async () => {
    const timed = async (words: readonly string[]) => {
      const start = performance.now();
      await run(words[0], words.slice(1), project);
      return performance.now() - start;
    };
    const median = (times: number[]) => times.sort((a, b) => a - b)[(times.length - 1) / 2];
    const calls = {
      node: [process.execPath, '-e', '0'],
      help: [command, '--help'],
      corner: [command, 'corner', 'my-car.json', '--axle', 'front'],
    };
    const times: Record<string, number[]> = { node: [], help: [], corner: [] };
    for (let k = 0; k < 9; k++) {
      for (const [name, words] of Object.entries(calls)) times[name].push(await timed(words));
    }
    const [node, help, corner] = Object.values(times).map(median);
    return `beyond node -e 0: --help ${(help - node).toFixed(0)} ms, corner ${(corner - node).toFixed(0)} ms`;
  });

  for (const { name, imported, most } of CEILINGS) {
    await test(`size of ${name}`, async () => {
      const { gzipped } = await sizeOf(imported, { folder: project });
      const words = `${gzipped.toFixed(1)} kB gzipped, at most ${most}`;
      if (!(gzipped <= most)) throw new Error(words);
      return words;
    });
  }

  const { devDependencies } = JSON.parse(await readFile('package.json', 'utf8'));
  await npm(['install', `fast-check@${devDependencies['fast-check']}`], project);
  await test('the example of laws over random drawings', async () => {
    cpSync('docs/examples/own-linkage.mjs', join(project, 'own-linkage.mjs'));
    await run(process.execPath, ['own-linkage.mjs'], project);
    return undefined;
  });

  // Types, as strict as they get, the declarations of the package checked as well.
  cpSync('tests/types', join(project, 'types'), { recursive: true });
  const older = 'typescript@5.9.3';
  await npm(['install', older], project);
  for (const [compiler, module, tsc] of [
    ['the TypeScript of the sources', 'nodenext', bin('tsc')],
    ['the TypeScript of the sources', 'bundler', bin('tsc')],
    [older, 'nodenext', join(project, 'node_modules/.bin/tsc')],
  ]) {
    await test(`types under moduleResolution ${module}, ${compiler}`, async () => {
      const options = {
        ...{ strict: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true },
        ...{ target: 'es2022', lib: ['es2022', 'dom'], types: [], noEmit: true, skipLibCheck: false },
        ...{ module: module === 'nodenext' ? module : 'esnext', moduleResolution: module },
      };
      await writeFile(
        join(project, 'tsconfig.json'),
        JSON.stringify({ compilerOptions: options, include: ['types'] }),
      );
      await run(tsc, ['-p', project], project);
      return undefined;
    });
  }

  await npm(['install', `@types/node@${devDependencies['@types/node']}`], project);
  await test('the code that users read compiles under strict', async () => {
    const blocks = codeBlocks();
    mkdirSync(join(project, 'blocks'));
    for (const { file, code } of blocks) await writeFile(join(project, 'blocks', file), code);
    const options = {
      ...{ strict: true, target: 'es2022', lib: ['es2022'], types: ['node'], noEmit: true },
      ...{ module: 'nodenext', moduleDetection: 'force' },
    };
    await writeFile(
      join(project, 'tsconfig.json'),
      JSON.stringify({ compilerOptions: options, include: ['blocks'] }),
    );
    await run(bin('tsc'), ['-p', project], project);
    return `${blocks.length} blocks`;
  });
} finally {
  if (existsSync(project)) await rm(project, { recursive: true, force: true });
}

count();
