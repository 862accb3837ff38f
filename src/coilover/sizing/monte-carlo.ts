// The car with every uncertain input off by a normal error of its own, sized anew each time; what is settled stays. The 2.5th and the
// 97.5th percentile of what comes out make no use of derivatives. Required travel is the largest of its cases in each draw, so that its 97.5th
// percentile is that of the maximum.

import { HALF_WIDTH } from '../../corner/covariance.ts';
import { drawFaults } from '../../corner/draws.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { refuse } from '../../errors/corner.ts';
import { normal, quantile, uniform } from '../../numerics/random.ts';
import { carOf, slipped } from './car.ts';
import { doubtsOf } from './how-sure.ts';
import { carNumbers, figuresIn, valuesOf } from './numbers.ts';
import { settleCar } from './settle.ts';

/** How many draws, and of what; all optional. */
export interface CarMonteCarloOptions {
  /** 100 to 100,000; default 1000. */
  readonly draws?: number;
  /** A whole number; default 1. Equal seeds give equal results. */
  readonly seed?: number;
}

/** What comes of many draws of a car: by figure (`front.springRate`, `car.rollAngle`), 2.5th, 50th and 97.5th percentile. */
export interface CarMonteCarlo {
  readonly figures: Readonly<Record<string, { low: number; middle: number; high: number } | null>>;
  /** How many cars were drawn. */
  readonly draws: number;
}

const OPTIONS = 'options of monteCarloCar';
const MOST_DRAWS = 100_000;
const TAIL = 0.025;

/**
 * Draws a car many times with its inputs as uncertain as its document says; null where some draw has no value for a figure.
 *
 * @throws InputError for draws or a seed that are none.
 */
export function monteCarloCar(given: CarDocument, options: CarMonteCarloOptions = {}): CarMonteCarlo {
  refuse(OPTIONS, drawFaults(options, ['draws', 'seed'], MOST_DRAWS));
  const { draws = 1000, seed = 1 } = options;
  const { document, car, uncertain } = carOf(given);
  const { settings } = settleCar(document, car, doubtsOf(car, uncertain));
  const listed = figuresIn(car.inputs);
  const samples = listed.map(() => new Float64Array(draws));
  const lost = new Set<number>();
  const next = normal(uniform(seed));
  for (let n = 0; n < draws; n++) {
    const drawn = slipped(
      car,
      uncertain.map((input) => ({ input, by: (next() * input.plusMinus) / HALF_WIDTH })),
    );
    valuesOf(carNumbers(drawn, settings)).forEach((value, k) => {
      if (value === null) lost.add(k);
      else samples[k][n] = value;
    });
  }
  const figures = listed.map(({ owner, name }, k) => {
    const values = samples[k].sort();
    const at = (share: number) => quantile(values, share);
    const found = lost.has(k) ? null : { low: at(TAIL), middle: at(0.5), high: at(1 - TAIL) };
    return [`${owner}.${name}`, found] as const;
  });
  return { figures: Object.fromEntries(figures), draws };
}
