// Files as a job reads and writes them. One that can't be used is named: it is the reader's to put right, as a wrong input is.

import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, extname, join, resolve } from 'node:path';
import { type CarDocument, type DocumentCorner, readCar, readCorner, type Units } from '../index.ts';
import { UsageFault } from './job.ts';
import { FileFault, folded } from './terminal.ts';

/** Standard input in place of a file. */
const STANDARD_INPUT = '-';

/** The text of a file, whatever an editor has made of it; the name may lack its `.json`. */
export function textOf(name: string): string {
  const bytes = onFile(name, 'a file that can be read', () =>
    readFileSync(name === STANDARD_INPUT ? 0 : found(name)),
  );
  return new TextDecoder(bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : 'utf-8').decode(bytes);
}

function found(name: string): string {
  const file = [name, `${name}.json`].find((one) => existsSync(one));
  if (file !== undefined) return file;
  const there = readdirSync('.').filter((one) => one.endsWith('.json') && !/^(package|tsconfig)/.test(one));
  throw new FileFault(
    folded([
      `There is no file "${name}".`,
      `  found:    ${there.length === 0 ? 'no .json file' : there.join(', ')} in ${resolve('.')}`,
      '  required: a file with that name, with .json or without',
      '  fix:      check the name, or give the whole path',
    ]),
  );
}

/** What the files of a job on a file are called. */
export function stemOf(name: string): string {
  return name === STANDARD_INPUT ? 'car' : basename(name, extname(name));
}

/** A car file, or a file of one corner as a car of one corner without a name. */
export function readFile(text: string): Omit<CarDocument, 'corners' | 'sizing'> & {
  readonly corners: Readonly<Record<string, DocumentCorner>>;
  /** The same as `readCar` has it; null for a file of one corner. */
  readonly car: CarDocument | null;
} {
  if (/"corner\w*"\s*:/.test(text)) {
    const car = readCar(text);
    return { ...car, car };
  }
  const { name, units, notes, ...corner } = readCorner(text);
  return { ...(name === undefined ? {} : { name }), units, notes, corners: { '': corner }, car: null };
}

/** A folder, made where there is none. */
export function folderOf(name: string): string {
  onFile(name, 'a folder that can be made', () => mkdirSync(name, { recursive: true }));
  return name;
}

/** Writes a file into a folder; returns its name with that of the folder. */
export function write(folder: string, name: string, text: string): string {
  const path = folder === '.' ? name : join(folder, name);
  onFile(path, 'a file that can be written', () => writeFileSync(path, text));
  return path;
}

/** The units asked for, or those of a file. */
export function unitsOf(asked: string | boolean | undefined, otherwise: Units): Units {
  if (asked === undefined) return otherwise;
  if (asked === 'metric' || asked === 'imperial') return asked;
  throw new UsageFault(`--units is metric or imperial, not "${asked}".`);
}

/** Numbers with commas between them. */
export function numbersOf(option: string, words: string | boolean | undefined): number[] | undefined {
  if (words === undefined) return undefined;
  const numbers = String(words)
    .split(',')
    .map((word) => (word.trim() === '' ? Number.NaN : Number(word)));
  if (numbers.every(Number.isFinite)) return numbers;
  throw new UsageFault(`--${option} takes numbers with commas between them, not "${words}".`);
}

/** One of the corners of a file. */
export function cornerOf(
  corners: Readonly<Record<string, DocumentCorner>>,
  asked: string | boolean | undefined,
): DocumentCorner {
  const names = Object.keys(corners);
  const name = asked === undefined || names.includes('') ? names[0] : String(asked);
  if (names.includes(name)) return corners[name];
  throw new UsageFault(`There is no corner "${name}" in the file: it has ${names.join(' and ')}.`);
}

function onFile<T>(path: string, what: string, use: () => T): T {
  try {
    return use();
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error;
    const [, reason] = /^\w+: ([^,]*)/.exec(error.message) ?? ['', error.message];
    throw new FileFault(
      folded([
        `This is not ${what}.`,
        `  found:    ${path} (${error.code}, ${reason})`,
        `  required: ${what}`,
        '  fix:      check the path and the right to use it',
      ]),
    );
  }
}
