import { defineConfig } from 'vitest/config';
import config from '../vitest.config.ts';

const folders = process.env.JUDGES?.split(',') ?? [];

/** Only the tests that are to judge the mutants: `start.mjs` names their folders. */
export default defineConfig({
  ...config,
  test: { ...config.test, include: folders.map((folder) => `tests/${folder}/**/*.test.ts`) },
});
