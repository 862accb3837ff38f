import { defineConfig } from 'vitest/config';
import config from '../vitest.config.ts';
import { judgeFiles } from './judges.mjs';

/** Only the tests that are to judge the mutants: `start.mjs` names them. */
export default defineConfig({
  ...config,
  test: {
    ...config.test,
    include: judgeFiles(),
    setupFiles: [config.test?.setupFiles ?? [], 'tests/mutation/setup.ts'].flat(),
  },
});
