import { defineConfig } from 'vitest/config';
import config from '../vitest.config.ts';

/** The laws of a campaign, in a process with the garbage collector at hand: `run.ts` names files and laws. */
export default defineConfig({
  ...config,
  test: {
    ...config.test,
    setupFiles: [config.test?.setupFiles ?? [], 'tests/campaigns/setup.ts'].flat(),
    testTimeout: 0,
    pool: 'forks',
    execArgv: ['--expose-gc'],
    isolate: true,
  },
});
