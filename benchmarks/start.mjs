// Runs a program of ours that works the library hard: bundles it with the library's sources into out/, then starts it
// in a Node process of its own, with the garbage collector at hand. Packages stay imports, but for fmin, whose sources
// only a bundler can read.
//
//   node benchmarks/start.mjs                                        the benchmarks
//   node benchmarks/start.mjs tests/campaigns/survey-coverage.ts      another program; further arguments are passed on
import { spawnSync } from 'node:child_process';
import { basename } from 'node:path';
import { build } from 'tsdown';

const given = process.argv.slice(2);
const entry = given[0]?.endsWith('.ts') ? String(given.shift()) : 'benchmarks/run.ts';
const name = basename(entry, '.ts');

await build({
  config: false,
  entry: { [name]: entry },
  outDir: `out/bundled/${name}`,
  tsconfig: 'tsconfig.json',
  platform: 'node',
  target: 'node20',
  fixedExtension: false,
  dts: false,
  deps: { neverBundle: /^(?!(jounce|fmin)(\/|$))[^./]/ },
  logLevel: 'warn',
});
const { status } = spawnSync(process.execPath, ['--expose-gc', `out/bundled/${name}/${name}.js`, ...given], {
  stdio: 'inherit',
});
process.exitCode = status ?? 1;
