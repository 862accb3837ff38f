import { readFileSync } from 'node:fs';
import { monteCarloSizing, orderSheet, readCar, sheetHtml, sizeCoilovers } from 'jounce';
import { carOf } from '../src/coilover/sizing/car.ts';
import { chooseParts } from '../src/coilover/sizing/choose-parts.ts';
import { carNumbers, estimatedNumbers } from '../src/coilover/sizing/numbers.ts';
import { perturbationsOf } from '../src/coilover/sizing/uncertainty.ts';
import { sweepModel } from '../src/corner/sweep.ts';
import { quartiles } from './measure.ts';

const TIMES = 100;
const DRAWS = 10_000;
/** What is asked of a corner that an input has moved: how its shock goes with the wheel. */
const SWEPT = { bump: 220, droop: 220, columns: ['shockLength', 'installationRatio'] };
/** What a whole car may take, ms, and all draws, s. */
const BAR = 30;
const DRAWS_BAR = 5;
/** Sizing of the example car, uncertain hardpoints and all; and many draws of it. */
export function cars(): string {
  const example = JSON.parse(readFileSync('docs/examples/car.json', 'utf8'));
  for (const corner of Object.values<{ lowerArm: { inner: unknown[] } }>(example.corners)) {
    corner.lowerArm.inner = corner.lowerArm.inner.map((value) => ({ value, plusMinus: 0.06 }));
  }
  const text = JSON.stringify(example);
  const times: Record<string, number[]> = { all: [], sizing: [], sheet: [] };
  for (let k = 0; k < 2 * TIMES; k++) {
    const start = performance.now();
    const sizing = sizeCoilovers(readCar(text));
    const sized = performance.now();
    sheetHtml(orderSheet(sizing));
    const end = performance.now();
    if (k < TIMES) continue;
    times.all.push(end - start);
    times.sizing.push(sized - start);
    times.sheet.push(end - sized);
  }
  const [all, sizing, sheet] = [times.all, times.sizing, times.sheet].map(quartiles);
  const { floor, parts } = partsOf(text, all.median);
  const start = performance.now();
  monteCarloSizing(readCar(text), { draws: DRAWS });
  const seconds = (performance.now() - start) / 1000;
  const ms = ({ median, low, high }: ReturnType<typeof quartiles>) =>
    `${median.toFixed(1)} ms (${low.toFixed(1)} to ${high.toFixed(1)})`;
  return `j: the example car, both axles, from the text of the file to the sheet as HTML with pictures: **${ms(all)}**, with ${ms(sizing)} for sizing with curves and intervals, ${ms(sheet)} for the sheet; target: at most ${BAR} ms, ${all.median <= BAR ? 'met' : 'missed'}; floor ${floor}. Its parts, each timed alone, in ms: ${parts}

k: ${DRAWS.toLocaleString('en')} draws of that car, with its hardpoints: **${seconds.toFixed(1)} s**; target: at most ${DRAWS_BAR} s, ${seconds <= DRAWS_BAR ? 'met' : 'missed'}.`;
}

/** What the time of a whole car is made of, and the floor: it with each car that has an input moved at the cost of that corner's sweep alone. */
function partsOf(text: string, whole: number): { floor: string; parts: string } {
  const times: Record<'reading' | 'choosing' | 'moving' | 'sweep', number[]> = {
    reading: [],
    choosing: [],
    moving: [],
    sweep: [],
  };
  const timed = <T>(part: keyof typeof times, task: () => T): T => {
    const start = performance.now();
    const result = task();
    times[part].push(performance.now() - start);
    return result;
  };
  let inputs = 0;
  for (let k = 0; k < 2 * TIMES; k++) {
    const file = timed('reading', () => readCar(text));
    const { car, uncertain } = carOf(file);
    const perturbations = perturbationsOf(car, uncertain);
    inputs = perturbations.length;
    const chosen = timed('choosing', () => chooseParts(car, perturbations));
    const nominal = carNumbers(car, chosen);
    timed('moving', () => estimatedNumbers(nominal, perturbations, (moved) => carNumbers(moved, chosen)));
    timed('sweep', () => sweepModel(car.axles[0].model, SWEPT));
  }
  const ms = (part: keyof typeof times) => quartiles(times[part].slice(TIMES)).median;
  const moved = 2 * inputs;
  const rest = whole - ms('reading') - ms('choosing') - ms('moving');
  const floor = whole - ms('moving') + moved * ms('sweep');
  return {
    floor: `${floor.toFixed(1)} ms`,
    parts: `${ms('reading').toFixed(1)} reading; ${ms('choosing').toFixed(1)} choosing springs and damper, mostly for limits along the motion; ${ms('moving').toFixed(1)} for ${moved} cars with one input moved (sweeps of the corner alone: ${(moved * ms('sweep')).toFixed(1)}); ${rest.toFixed(1)} joint forces, load states, curves and the sheet with its pictures.`,
  };
}
