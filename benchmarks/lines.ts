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

/** What limits a sweep from its input. */
export const FIXED =
  'no single part. The ideal pass omits the check of both ends of the path, options, the look-up of earlier results, arrays and their collection';

/** What limits a sweep for every column. */
const EVERY = 'about three times as many series as for positions alone, and one pass for each column';

/** How many times as long the rival takes. */
export const timesFaster = (ours: number, rival: number): number => rival / ours;

export function linesOf(jobs: Jobs, rivals: Rivals): Line[] {
  const { planegcs, textbook, tuned, newton } = rivals;
  const solvers = [
    ['every point, start extrapolated', planegcs.every2, 130],
    ['every point, start from the pose before', planegcs.every0, 150],
    ['only the points required, start extrapolated', planegcs.needed2, 100],
    ['only the points required, start from the pose before', planegcs.needed0, 120],
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
        'the ideal pass omits the binding of eleven measures, the check of both ends of the path, options, arrays and their collection',
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
      'the path to a dead point takes seven series of order 27, and the main corner takes one of 24. Positions in the seven series are found from the driver first',
  }));
}
