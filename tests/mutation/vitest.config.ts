import { defineConfig } from 'vitest/config';
import config from '../vitest.config.ts';

/** Names under tests/ from the environment: folders, or files that need not be named to the end. */
const named = (variable: string) => (process.env[variable] ?? '').split(',').filter((name) => name !== '');
const files = (name: string) => (name.endsWith('.ts') ? `tests/${name}` : `tests/${name}/**/*.test.ts`);

/** Only the tests that are to judge the mutants: `start.mjs` names them. */
export default defineConfig({
  ...config,
  test: {
    ...config.test,
    include: named('JUDGES').map(files),
    exclude: named('WITHOUT').map((name) => `tests/${name}.test.ts`),
  },
});
