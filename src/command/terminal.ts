// What the command prints: lines at most as wide as a terminal, errors on four lines, data as JSON.

import { InputError, issueLines } from '../index.ts';

/** Columns of a terminal. */
const WIDTH = 100;

/** A file or folder that can't be used as it should. */
export class FileFault extends Error {}

/** A line of text. */
export function print(text: string): void {
  process.stdout.write(`${text}\n`);
}

/** Plain data as JSON; what is no number is null. */
export function printData(data: unknown): void {
  print(JSON.stringify(data, plain, 1));
}

/** The same in one line. */
export function dataLine(data: unknown): string {
  return JSON.stringify(data, plain);
}

/** Typed arrays are lists. */
function plain(_: string, value: unknown): unknown {
  return value instanceof Float64Array ? [...value] : value;
}

/** Says on a terminal that something takes a while; nothing where the errors go to a file or a pipe. */
export function saying<T>(what: string, work: () => T): T {
  const { stderr } = process;
  if (!stderr.isTTY) return work();
  stderr.write(`${what} ...`);
  try {
    return work();
  } finally {
    stderr.write('\r\u001b[K');
  }
}

/** What is wrong with an input or a file, each issue on four lines; null for any other error. */
export function refusal(error: unknown): string | null {
  if (error instanceof FileFault) return error.message;
  if (!(error instanceof InputError)) return null;
  const [head] = error.message.split('\n');
  const issues = error.issues.map((issue) => folded(issueLines(issue)));
  return [`${head[0].toUpperCase()}${head.slice(1)}.`, ...issues].join('\n\n');
}

/** Lines at most as wide as a terminal, the rest of each below its first word. */
export function folded(lines: readonly string[]): string {
  return lines
    .flatMap((line) => {
      const [label] = /^ *(?:\w+: +)?/.exec(line) ?? [''];
      const parts: string[] = [];
      for (const word of line.slice(label.length).split(' ')) {
        const last = parts.at(-1);
        if (last !== undefined && label.length + last.length + 1 + word.length <= WIDTH) {
          parts[parts.length - 1] = `${last} ${word}`;
        } else parts.push(word);
      }
      return parts.map((part, k) => `${k === 0 ? label : ' '.repeat(label.length)}${part}`);
    })
    .join('\n');
}
