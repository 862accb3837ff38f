// continuous: no point and no body jumps as the driver moves. In each part of the way what something covers beyond its mean rate in the parts
// beside it is followed into the half that has more of it, again and again: of a continuous motion that becomes ever less, at a dead point by
// the root of 2 a halving; a jump stays what it is.

import { partsOf } from './joints.ts';
import { lawOf, type Setting, spread, type TracedMotion, traced, tracedRound, where } from './setting.ts';
import { LawViolation } from './violation.ts';

/** Parts of the way from end to end, and how often each is halved. */
const PARTS = 64;
const HALVINGS = 40;
/** Shares of the size, or parts of a radian, below which nothing counts as a jump. */
const LEAST = 1e-5;
/** What has fallen by less than this factor in so many halvings does not fall. */
const FALL = 2;
const LAST = 12;

export const continuous = lawOf('continuous', (setting) => {
  expectContinuous(setting, traced(setting, setting.drawing), true);
  if (!setting.ranged) expectContinuous(setting, tracedRound(setting), false);
});

/** What moves: where it is at a value of the driver. */
interface Moving {
  readonly name: string;
  readonly unit: number;
  at(driver: number): readonly number[];
}

function expectContinuous(setting: Setting, motion: TracedMotion, isDriven: boolean): void {
  const { drawing, law, size } = setting;
  const places = spread(motion, PARTS + 1);
  for (const moving of movingIn(drawing, motion, size)) {
    const rates = places.slice(1).map((to, k) => rateBetween(moving, places[k], to));
    for (let k = 0; k < PARTS; k++) {
      const beside = [rates[k - 1] ?? rates[k + 1], rates[k + 1] ?? rates[k - 1]];
      const rate = rates[k].map((_, i) => 0.5 * (beside[0][i] + beside[1][i]));
      const [from, to] = [places[k], places[k + 1]];
      const jump = jumpOf(moving, from, to, rate);
      if (jump === null) continue;
      const text = `jumps by ${figure(jump.by)} between ${figure(from)} and ${figure(to)}`;
      const place = isDriven ? where(setting, jump.at) : { at: jump.at, driver: null };
      throw new LawViolation(law, moving.name, place, text, {
        error: jump.by,
        tolerance: LEAST * moving.unit,
      });
    }
  }
}

function movingIn(drawing: Setting['drawing'], motion: TracedMotion, size: number): Moving[] {
  const seen = new Map<number, ReturnType<TracedMotion['at']>>();
  const placesAt = (driver: number) => {
    const places = seen.get(driver) ?? motion.at(driver);
    seen.set(driver, places);
    return places;
  };
  return [
    ...Object.keys(drawing.points).map((name) => ({
      name,
      unit: size,
      at: (driver: number) => placesAt(driver)[name],
    })),
    ...partsOf(drawing).map((turn) => {
      const read = motion.read({ turn });
      return { name: `turn of ${turn}`, unit: 1, at: (driver: number) => [read(driver).value] };
    }),
  ];
}

/** Mean rate between two places of the driver, 0 where they are one. */
function rateBetween({ at }: Moving, from: number, to: number): number[] {
  const [start, end] = [at(from), at(to)];
  return start.map((value, i) => (to === from ? 0 : (end[i] - value) / (to - from)));
}

/** The jump between two places of the driver; null if there is none. */
function jumpOf(
  { unit, at }: Moving,
  start: number,
  end: number,
  rate: readonly number[],
): { readonly at: number; readonly by: number } | null {
  const way = (from: number, to: number, times: number) => {
    const [a, b] = [at(from), at(to)];
    return Math.hypot(...a.map((value, i) => b[i] - value - times * rate[i] * (to - from)));
  };
  let [from, to] = [start, end];
  const excess = [way(from, to, 1)];
  for (let halving = 1; halving <= HALVINGS; halving++) {
    if (!(excess[halving - 1] > LEAST * unit)) return null;
    const middle = 0.5 * (from + to);
    if (middle === from || middle === to) break;
    const [first, second] = [way(from, middle, 1), way(middle, to, 1)];
    if (first > second) to = middle;
    else from = middle;
    excess.push(Math.max(first, second));
  }
  const last = excess[excess.length - 1];
  const falls = last * FALL < excess[Math.max(0, excess.length - 1 - LAST)];
  const by = way(from, to, 0);
  return falls || !(by > LEAST * unit) ? null : { at: from, by };
}

function figure(value: number): string {
  return String(Number(value.toPrecision(6)));
}
