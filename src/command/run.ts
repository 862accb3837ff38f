// Which job is called, and with what.

import { createRequire } from 'node:module';
import { parseArgs } from 'node:util';
import { COMMANDS, type Command } from './commands.ts';
import { MISTYPED, REFUSED, UsageFault } from './job.ts';

/** Runs the command with the words after its name; returns the exit code. */
export async function run(words: readonly string[]): Promise<number> {
  const [name, ...rest] = words;
  try {
    if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
      say(process.stdout, rest[0] === undefined ? overview() : helpOn(rest[0], commandOf(rest[0])));
      return 0;
    }
    if (name === '--version') {
      const { version } = createRequire(import.meta.url)('jounce/package.json') as { version: string };
      say(process.stdout, version);
      return 0;
    }
    const command = commandOf(name);
    if (rest.includes('--help') || rest.includes('-h')) {
      say(process.stdout, helpOn(name, command));
      return 0;
    }
    const { values, positionals } = parsed(name, command, rest);
    const job = await command.load();
    return await job.run({ operands: positionals, options: values as Record<string, string | boolean> });
  } catch (error) {
    if (error instanceof UsageFault) {
      say(process.stderr, error.message);
      return MISTYPED;
    }
    const { refusal } = await import('./terminal.ts');
    const text = refusal(error);
    if (text === null) throw error;
    say(process.stderr, text);
    return REFUSED;
  }
}

function say(stream: NodeJS.WritableStream, text: string): void {
  stream.write(`${text}\n`);
}

function commandOf(name: string): Command {
  if (Object.hasOwn(COMMANDS, name)) return COMMANDS[name];
  throw new UsageFault(`There is no command "${name}". Commands: ${Object.keys(COMMANDS).join(', ')}.`);
}

function parsed(name: string, { options, operands: [least, most], usage }: Command, words: string[]) {
  const hint = `Usage: jounce ${name} ${usage}`;
  try {
    const found = parseArgs({ args: words, options, allowPositionals: true });
    const count = found.positionals.length;
    if (count >= least && count <= most) return found;
    const wanted = least === most ? `${least}` : `${least} to ${most}`;
    throw new UsageFault(`${name} takes ${wanted} file${most === 1 ? '' : 's'}, not ${count}.\n${hint}`);
  } catch (error) {
    if (error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS'))
      throw new UsageFault(`${error.message}\n${hint}`);
    throw error;
  }
}

function overview(): string {
  const width = Math.max(...Object.keys(COMMANDS).map(({ length }) => length));
  return [
    'Usage: jounce COMMAND ...',
    '',
    ...Object.entries(COMMANDS).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`),
    '',
    '`jounce COMMAND --help` tells more, `jounce --version` the version. A dash for a file name is standard input.',
    'Exit codes: 0 done, 1 refused input, 2 mistyped command, 3 conflicts against the order.',
  ].join('\n');
}

function helpOn(name: string, { usage, help }: Command): string {
  return [`Usage: jounce ${name} ${usage}`, '', ...help].join('\n');
}
