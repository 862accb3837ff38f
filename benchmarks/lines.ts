import { type Jobs, POSES } from './jobs.ts';
import type { Task } from './measure.ts';
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
  /** What keeps it from the bar, where it is missed. */
  readonly limit?: string;
  /** Of how many parts the task is made, where times are given a part; else times are those of the task. */
  readonly poses?: number;
}

/** What limits a sweep from its input; the shares are those of line g in a profile. */
export const FIXED =
  'no single part. Of line g a quarter is checking the input, a quarter laying the path, a fifth reading its 201 rows; the rest is spread over options, building and binding. With path and rows alone the ratio would be some twice what it is';

/** How many times as long the rival takes. */
export const timesFaster = (ours: number, rival: number): number => rival / ours;

export function linesOf(jobs: Jobs, rivals: Rivals): Line[] {
  const { planegcs, textbook, tuned, newton } = rivals;
  const solvers = [
    ['every point, start extrapolated', planegcs.every2],
    ['every point, start from the pose before', planegcs.every0],
    ['only the points needed, start extrapolated', planegcs.needed2],
    ['only the points needed, start from the pose before', planegcs.needed0],
  ] as const;
  const positions = { ours: jobs.positions, ratio: timesFaster, poses: POSES };
  return [
    ...solvers.map(([way, { run }], i) => ({
      mark: `a${i + 1}`,
      text: `planegcs, positions alone, ${way} ÷ from document to shock length, ratio and slope`,
      ours: jobs.fromDocument,
      rival: run,
      ratio: timesFaster,
      bar: { atLeast: 100 },
      limit: FIXED,
    })),
    {
      mark: 'b1',
      text: 'circle intersection from the textbook ÷ sweep for positions and shock length',
      ...positions,
      rival: textbook.run,
      bar: { atLeast: 1 },
      limit:
        'the series that carry the motion are general: they are laid and searched for dead points and second branches before a pose is read, none of which the rival does',
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
      bar: { atMost: 3 },
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
