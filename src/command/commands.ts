// The jobs of the command, with the help of each. Nothing of the library is loaded before a job is called.

import type { ParseArgsConfig } from 'node:util';
import type { Job } from './job.ts';

export interface Command {
  /** In one line, for the list of all. */
  readonly summary: string;
  /** Operands and options, as they are typed. */
  readonly usage: string;
  /** What it does and what its options mean: with the rest no more than a screen. */
  readonly help: readonly string[];
  /** How many operands there are, at least and at most. */
  readonly operands: readonly [number, number];
  readonly options: NonNullable<ParseArgsConfig['options']>;
  readonly load: () => Promise<Job>;
}

const TEXT = { type: 'string' } as const;
const FLAG = { type: 'boolean' } as const;

export const COMMANDS: Readonly<Record<string, Command>> = {
  order: {
    summary: 'the order for the coilover maker, and the report for you',
    usage: 'CAR.json [--out FOLDER] [--json]',
    help: [
      'Sizes the coilovers of a car file, prints the result on one screen, and writes order, report,',
      'tables and pictures.',
      '',
      '  --out FOLDER  where the files are written; default: the current folder',
      '  --json        print the sizing as data, in mm, kg and N, and write nothing',
      '  --lines       read a car file on each line of the input, and print a line of data for each',
      '',
      'An order of a revision is never overwritten by another. Exit code 3: conflicts stand against the order.',
    ],
    operands: [0, 1],
    options: { out: TEXT, json: FLAG, lines: FLAG },
    load: () => import('./order.ts'),
  },
  corner: {
    summary: 'a corner through its travel: shock length, installation ratio, limits',
    usage: 'FILE.json [--axle front|rear] [--step N] [--units UNITS] [--out FOLDER] [--json]',
    help: [
      'Takes a car file or a file of one corner.',
      '',
      '  --axle AXLE   front or rear of a car file; default: both',
      '  --step N      travel between the rows, in the units of the output; default 10 mm or 0.5 in,',
      '                of data 1 mm',
      '  --units UNITS metric or imperial; default: those of the file',
      '  --out FOLDER  also write the curves (CSV), the picture (SVG) and the text',
      '  --json        print columns and limits as data, in mm and degrees',
      '  --lines       read a file of one corner on each line, and print a line of data for each',
    ],
    operands: [0, 1],
    options: { axle: TEXT, step: TEXT, units: TEXT, out: TEXT, json: FLAG, lines: FLAG },
    load: () => import('./corner.ts'),
  },
  axle: {
    summary: 'both wheels of an axle in heave and roll',
    usage: 'FILE.json [--axle front|rear] [--heave LIST] [--roll LIST] [--out FOLDER] [--json]',
    help: [
      'Takes a car file or a file of one corner; the other wheel is its mirror image.',
      '',
      '  --axle AXLE   front or rear of a car file; default: front',
      '  --heave LIST  heaves with commas between them, bump positive, in the units of the file; default 0',
      '  --roll LIST   rolls in degrees, left side up positive; default -3,-2,-1,0,1,2,3',
      '  --out FOLDER  also write the axle at its largest roll, and the map of its limits (SVG)',
      '  --json        print all columns as data, in mm and degrees',
    ],
    operands: [1, 1],
    options: { axle: TEXT, heave: TEXT, roll: TEXT, out: TEXT, json: FLAG },
    load: () => import('./axle.ts'),
  },
  survey: {
    summary: 'hardpoints from tape readings, and into a car file',
    usage: 'READINGS.json [--into FILE.json] [--corner front|rear] [--out FILE.json] [--json]',
    help: [
      'Finds the points that the readings agree on, with 95 % intervals, and likely misreadings.',
      '',
      '  --into FILE   a car file or a file of one corner that the points go into',
      '  --corner AXLE which corner of a car file: front or rear',
      '  --out FILE    where that file is written; default: standard output',
      '  --json        print the survey as data, in mm and degrees',
    ],
    operands: [1, 1],
    options: { into: TEXT, corner: TEXT, out: TEXT, json: FLAG },
    load: () => import('./survey.ts'),
  },
  compare: {
    summary: 'what a change of a car file changes, and whether the order changes',
    usage: 'BEFORE.json AFTER.json [--json]',
    help: [
      'Sizes both cars and lists what differs, in the units of the second.',
      '',
      '  --json        print the comparison as data, in mm, kg and N',
    ],
    operands: [2, 2],
    options: { json: FLAG },
    load: () => import('./compare.ts'),
  },
  design: {
    summary: 'mounts moved until the corner does what is wanted',
    usage: 'FILE.json GOALS.json [--axle front|rear] [--out FOLDER] [--json]',
    help: [
      'GOALS.json holds the options of the function design: mounts that may move and how far, objectives,',
      'clearances, in mm. docs/examples/goals.json is one.',
      '',
      '  --axle AXLE   which corner of a car file: front or rear; default front',
      '  --out FOLDER  also write the picture of the design (SVG)',
      '  --json        print the design as data, in mm and degrees',
    ],
    operands: [2, 2],
    options: { axle: TEXT, out: TEXT, json: FLAG },
    load: () => import('./design.ts'),
  },
  migrate: {
    summary: 'a file of an earlier version in the present format',
    usage: 'FILE.json [--out NEW.json]',
    help: [
      'Takes a car file, a file of one corner or a survey, and gives each field the name of today.',
      'All else stays as it is. Lists what was renamed.',
      '',
      '  --out FILE    where the new file is written; default: standard output',
    ],
    operands: [1, 1],
    options: { out: TEXT },
    load: () => import('./migrate.ts'),
  },
  schema: {
    summary: 'the JSON schema of a file, for an editor',
    usage: 'car|corner|survey',
    help: ['Prints the JSON schema by which an editor completes and checks such a file.'],
    operands: [1, 1],
    options: {},
    load: () => import('./schema.ts'),
  },
  start: {
    summary: 'a car file to fill in, or one of tape readings',
    usage: '[FILE.json] [--survey] [--units metric|imperial]',
    help: [
      'Prints a car file with a note on each part, or writes it under a name that is not taken.',
      '',
      '  --survey      a file of tape readings of a corner instead, for jounce survey',
      '  --units UNITS metric (default) or imperial',
    ],
    operands: [0, 1],
    options: { survey: FLAG, units: TEXT },
    load: () => import('./start.ts'),
  },
};
