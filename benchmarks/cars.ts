import { readFileSync } from 'node:fs';
import { monteCarloSizing, orderSheet, readCar, sheetHtml, sizeCoilovers } from 'jounce';
import { quartiles } from './measure.ts';

const TIMES = 100;
const DRAWS = 10_000;
/** What a whole car may take, ms, and all draws, s. */
const BAR = 30;
const DRAWS_BAR = 5;
/** What limits the time of a whole car, from its profile. */
const LIMITS =
  'What limits it: intervals, some 10 ms (each of some 20 uncertain inputs moved to both its ends, on the axle that it belongs to); limits, 6 (each of some 15 sampled along the course of the motion); joint forces in six load cases, 4; pictures, 5.';

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
  const start = performance.now();
  monteCarloSizing(readCar(text), { draws: DRAWS });
  const seconds = (performance.now() - start) / 1000;
  const ms = ({ median, low, high }: ReturnType<typeof quartiles>) =>
    `${median.toFixed(1)} ms (${low.toFixed(1)} to ${high.toFixed(1)})`;
  return `j: the example car, both axles, from its text to the sheet as HTML with its pictures: **${ms(all)}**, of it ${ms(sizing)} for sizing with curves and intervals, ${ms(sheet)} for the sheet; asked: at most ${BAR} ms, ${all.median <= BAR ? 'met.' : `missed. ${LIMITS}`}

k: ${DRAWS.toLocaleString('en')} draws of that car, hardpoints and all: **${seconds.toFixed(1)} s**; asked: at most ${DRAWS_BAR} s, ${seconds <= DRAWS_BAR ? 'met' : 'missed'}.`;
}
