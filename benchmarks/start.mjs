// Runs the benchmarks: bundles benchmarks/run.ts with the library's sources into out/, then starts it in a
// Node process of its own, with the garbage collector at hand. Packages stay imports. Arguments are passed on.
import { spawnSync } from 'node:child_process';
import { build } from 'tsdown';

await build({
  config: false,
  entry: { run: 'benchmarks/run.ts' },
  outDir: 'out/benchmarks',
  tsconfig: 'tsconfig.json',
  platform: 'node',
  target: 'node20',
  fixedExtension: false,
  dts: false,
  deps: { neverBundle: /^(?!jounce(\/|$))[^./]/ },
  logLevel: 'warn',
});
const { status } = spawnSync(
  process.execPath,
  ['--expose-gc', 'out/benchmarks/run.js', ...process.argv.slice(2)],
  { stdio: 'inherit' },
);
process.exitCode = status ?? 1;
