#!/usr/bin/env node
import * as module from 'node:module';
import { run } from './run.ts';

// From Node 22 on what was compiled once is kept, so that the next call starts sooner.
(module as { readonly enableCompileCache?: () => void }).enableCompileCache?.();
// A reader that has read enough, such as head, closes the pipe.
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
  if (code === 'EPIPE') process.exit(0);
});
process.exitCode = await run(process.argv.slice(2));
