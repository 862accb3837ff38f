import { type Jobs, POSES } from './jobs.ts';
import type { Clock, Task } from './measure.ts';
import type { Rivals } from './rivals.ts';

/** A line of the table: two tasks, and the ratio that says how they compare. */
export interface Line {
  readonly mark: string;
  /** What is divided by what. */
  readonly text: string;
  readonly ours: Task;
  readonly rival: Task;
  /** From the times of a round. */
  readonly ratio: (ours: number, rival: number) => number;
  /** What the ratio is to be, if anything is asked of it. */
  readonly bar?: { readonly atLeast: number } | { readonly atMost: number };
  /** Ideal passes in the place of the two tasks, where the ratio has a floor (floor.ts). */
  readonly floor?: { readonly ours: Task; readonly rival: Task };
  /** What keeps it from the bar, where it is missed. */
  readonly limit?: string;
  /** Of how many parts the task is made, where times are given a part; else times are those of the task. */
  readonly poses?: number;
  readonly clock?: Clock;
}

/** What limits a sweep from its input; the shares are those of line g in a profile. */
export const FIXED =
  'no single part. From a checked main corner to ratio and slope takes some 15 µs on the machine of this page: 5 for laying the path, 4 for reading 201 rows of three columns, 2 for building the system, the rest for options, arrays and what the collector takes for them; checking the input comes on top. Path and rows alone are 8 to 9 µs: with nothing but them the ratios would be some twice what they are';

/** What limits a sweep for every column. */
const EVERY =
  'twice as many columns, one evaluation of a series each, three for what is wanted with derivatives; positions alone have become cheaper than the columns beside them';

/** How many times as long the rival takes. */
export const timesFaster = (ours: number, rival: number): number => rival / ours;

export function linesOf(jobs: Jobs, rivals: Rivals): Line[] {
  const { planegcs, textbook, tuned, newton } = rivals;
  const solvers = [
    ['every point, start extrapolated', planegcs.every2, 130],
    ['every point, start from the pose before', planegcs.every0, 150],
    ['only the points needed, start extrapolated', planegcs.needed2, 100],
    ['only the points needed, start from the pose before', planegcs.needed0, 120],
  ] as const;
  const positions = { ours: jobs.positions, ratio: timesFaster, poses: POSES };
  return [
    ...solvers.map(([way, { run }, atLeast], i) => ({
      mark: `a${i + 1}`,
      text: `planegcs, positions alone, ${way} ÷ from document to shock length, ratio and slope`,
      ours: jobs.fromDocument,
      rival: run,
      ratio: timesFaster,
      bar: { atLeast },
      floor: { ours: jobs.ideal.fromDocument, rival: run },
      limit: FIXED,
    })),
    {
      mark: 'b1',
      text: 'circle intersection from the textbook ÷ sweep for positions and shock length',
      ...positions,
      rival: textbook.run,
      bar: { atLeast: 1.2 },
      floor: { ours: jobs.ideal.positions, rival: textbook.run },
      limit:
        'of some 20 µs about 6 are the evaluation of eleven columns (3 the series, 3 the places made of them), 5 the path (one series, checked at both ends), 2 the system; what is left is curves, options, and arrays with their collection. An ideal pass of the same arithmetic measured 11 to 13 µs, so that 1.6 to 1.9 is the floor of this method',
    },
    {
      mark: 'b2',
      text: 'circle intersection tuned by hand ÷ sweep for positions and shock length',
      ...positions,
      rival: tuned.run,
    },
    {
      mark: 'c',
      text: 'sweep for every column ÷ sweep for positions and shock length',
      ours: jobs.everything,
      rival: jobs.positions,
      ratio: (ours, rival) => ours / rival,
      bar: { atMost: 2 },
      floor: { ours: jobs.ideal.everything, rival: jobs.ideal.positions },
      limit: EVERY,
      poses: POSES,
    },
    {
      mark: 'ct',
      text: 'sweep for every column ÷ circle intersection from the textbook, for positions and shock length alone',
      ours: jobs.everything,
      rival: textbook.run,
      ratio: (ours, rival) => ours / rival,
      bar: { atMost: 2.5 },
      floor: { ours: jobs.ideal.everything, rival: textbook.run },
      limit: EVERY,
      poses: POSES,
    },
    {
      mark: 'd',
      text: "Newton's method from pose to pose ÷ sweep for positions and shock length",
      ...positions,
      rival: newton.run,
    },
    {
      mark: 'e',
      text: 'building the system ÷ the rest of a sweep for shock length, ratio and slope (times: building, whole sweep)',
      ours: jobs.build,
      rival: jobs.ratios,
      ratio: (build, whole) => build / (whole - build),
      bar: { atMost: 1 },
    },
  ];
}

/** Lines n: corners that could be slow - several pieces, or by arc length to a dead point - against the main one. */
export function hardCornerLines(main: Jobs, hard: Readonly<Record<string, Jobs>>): Line[] {
  return Object.entries(hard).map(([what, jobs], k) => ({
    mark: `n${k + 1}`,
    text: `from document to shock length, ratio and slope: a corner ${what} ÷ the main corner`,
    ours: jobs.fromDocument,
    rival: main.fromDocument,
    ratio: (ours, rival) => ours / rival,
    bar: { atMost: 2 },
    floor: { ours: jobs.ideal.fromDocument, rival: main.ideal.fromDocument },
    limit:
      'a path by arc length is laid in several pieces after one by the driver was tried in vain. That to a dead point is laid in 7 pieces of order 27, some 60 µs in all (8 of them for the try in vain), and read in some 35: in each piece the places are found by Newton from the driver, and measures are series in halves of a piece. One piece by the driver and its reading take 18 µs from the document, so that 7 pieces cannot come to twice that',
  }));
}
