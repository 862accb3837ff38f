import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const source = (path: string) => fileURLToPath(new URL(`../src/${path}`, import.meta.url));

export default defineConfig({
  resolve: {
    alias: [
      { find: /^jounce$/, replacement: source('index.ts') },
      { find: /^jounce\/linkage$/, replacement: source('linkage/index.ts') },
      { find: /^jounce\/statics$/, replacement: source('statics/index.ts') },
      { find: /^jounce\/synthesis$/, replacement: source('synthesis/index.ts') },
      { find: /^jounce\/testing$/, replacement: source('testing/index.ts') },
    ],
  },
  test: {
    include: ['tests/**/*.test.ts'],
    // fmin's sources import each other without extensions, which Node does not read.
    server: { deps: { inline: ['fmin'] } },
    setupFiles: ['tests/setup.ts'],
    // No test is about time: this only ends what hangs, on the slowest machine too.
    testTimeout: 120_000,
    // Files share what they import, which takes a third of the time off: no test hangs on what another left behind.
    isolate: false,
    maxWorkers: '100%',
  },
});
