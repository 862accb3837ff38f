// The car with every uncertain input off by a normal error of its own, sized anew each time; what is settled stays. The 2.5th and the
// 97.5th percentile of what comes out make no use of derivatives. Required travel is the largest of its cases in each draw, so that its 97.5th
// percentile is that of the maximum.

import { HALF_WIDTH } from '../../corner/covariance.ts';
import { drawFaults } from '../../corner/draws.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { refuse } from '../../errors/corner.ts';
import { normal, quantile, uniform } from '../../numerics/random.ts';
import { carOf, slipped } from './car.ts';
import { chooseParts } from './choose-parts.ts';
import { carNumbers, figuresIn } from './numbers.ts';
import { perturbationsOf } from './uncertainty.ts';

/** How many draws, and of what; all optional. */
export interface SizingMonteCarloOptions {
  /** 100 to 100,000; default 1000. */
  readonly draws?: number;
  /** A whole number; default 1. Equal seeds give equal results. */
  readonly seed?: number;
}

/** What comes of many draws of a car: by figure (`front.springRate`, `car.rollGradient`), 2.5th, 50th and 97.5th percentile. */
export interface SizingMonteCarlo {
  readonly figures: Readonly<Record<string, { p2_5: number; median: number; p97_5: number } | null>>;
  /** How many cars were drawn. */
  readonly draws: number;
}

const OPTIONS = 'options of monteCarloSizing';
const MOST_DRAWS = 100_000;
const TAIL = 0.025;

/**
 * Draws a car many times with its inputs as uncertain as its document says; null where some draw has no value for a figure.
 *
 * @throws InputError for draws or a seed that are none.
 */
export function monteCarloSizing(
  given: CarDocument,
  options: SizingMonteCarloOptions = {},
): SizingMonteCarlo {
  refuse(OPTIONS, drawFaults(options, ['draws', 'seed'], MOST_DRAWS));
  const { draws = 1000, seed = 1 } = options;
  const { car, uncertain } = carOf(given);
  const chosen = chooseParts(car, perturbationsOf(car, uncertain));
  const listed = figuresIn(carNumbers(car, chosen));
  const samples = listed.map(() => new Float64Array(draws));
  const lost = new Set<number>();
  const next = normal(uniform(seed));
  for (let n = 0; n < draws; n++) {
    const drawn = slipped(
      car,
      uncertain.map((input) => ({ input, by: (next() * input.plusMinus) / HALF_WIDTH })),
    );
    figuresIn(carNumbers(drawn, chosen)).forEach(({ value }, k) => {
      if (value === null) lost.add(k);
      else samples[k][n] = value;
    });
  }
  const figures = listed.map(({ owner, name }, k) => {
    const values = samples[k].sort();
    const at = (share: number) => quantile(values, share);
    const found = lost.has(k) ? null : { p2_5: at(TAIL), median: at(0.5), p97_5: at(1 - TAIL) };
    return [`${owner}.${name}`, found] as const;
  });
  return { figures: Object.fromEntries(figures), draws };
}
