import { spawn } from 'node:child_process';

/** A program that hangs is ended, on the slowest machine too. */
export const LONGEST = 120_000;

/**
 * Runs a command and gives what it printed.
 *
 * @throws Error with all that it printed when it does not end with 0.
 */
export function run(
  command: string,
  args: readonly string[],
  cwd: string,
  longest = LONGEST,
): Promise<string> {
  return new Promise((done, failed) => {
    const child = spawn(command, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'], timeout: longest });
    let printed = '';
    let errors = '';
    child.stdout.on('data', (text) => (printed += text));
    child.stderr.on('data', (text) => (errors += text));
    child.on('error', failed);
    child.on('close', (code) => {
      if (code === 0) done(printed);
      else failed(new Error(`${command} ${args.join(' ')} ended with ${code}\n${printed}${errors}`));
    });
  });
}
