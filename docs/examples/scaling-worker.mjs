// @ts-check
// What a worker of docs/scaling.md does. A job is JSON and so is its answer, and an answer depends on its job alone: nothing is kept
// from one job to the next.
import { InputError, monteCarloSizing, readCar, readCorner, sizeCoilovers, sweep } from 'jounce';

/**
 * @typedef {{ id: string } & (
 *   | { task: 'size', car: unknown }
 *   | { task: 'draw', car: unknown, draws: number, seed: number }
 *   | { task: 'sweep', corner: unknown, travel: Omit<import('jounce').SweepOptions, 'columns'> }
 * )} Job
 * @typedef {Record<string, number | null>} Figures
 * @typedef {{ figures: Figures, springs: (string | null)[], findings: string[] }} Sized
 * @typedef {import('jounce').SizingMonteCarlo} Drawn
 * @typedef {{ installationRatio: number[] }} Swept
 * @typedef {{ id: string, result: Sized | Drawn | Swept } | { id: string, issues: readonly import('jounce').Issue[] }} Answer
 */

/**
 * Answers to a part of the jobs, in their order.
 * @param {readonly Job[]} jobs
 */
export default function answers(jobs) {
  return jobs.map(answer);
}

/**
 * One answer. Wrong input is part of it, as data: thrown, it would end the other jobs of the part, and lose its issues on the way.
 * @param {Job} job
 * @returns {Answer}
 */
export function answer(job) {
  const { id } = job;
  try {
    return { id, result: resultOf(job) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { id, issues: error.issues };
  }
}

/** @param {Job} job */
function resultOf(job) {
  switch (job.task) {
    case 'size':
      return sized(sizeCoilovers(readCar(job.car)));
    case 'draw':
      return monteCarloSizing(readCar(job.car), { draws: job.draws, seed: job.seed });
    case 'sweep':
      return {
        installationRatio: [...sweep(readCorner(job.corner).corner, job.travel).columns.installationRatio],
      };
  }
}

/**
 * What crosses over: a sizing has functions, which can't.
 * @param {import('jounce').Sizing} sizing
 * @returns {Sized}
 */
function sized({ axles, conflicts }) {
  return {
    figures: Object.fromEntries(
      axles.flatMap(({ axle, figures }) => figures.map(({ name, value }) => [`${axle}.${name}`, value])),
    ),
    springs: axles.map(({ spring }) => spring?.name ?? null),
    findings: conflicts.map(({ path }) => path),
  };
}
