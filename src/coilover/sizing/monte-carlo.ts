// The car with every uncertain input off by a normal error of its own, sized anew each time; what is settled stays. The 2.5th and the
// 97.5th percentile of what comes out make no use of derivatives.

import { modelOf } from '../../corner/corner.ts';
import { HALF_WIDTH } from '../../corner/covariance.ts';
import { drawIssues } from '../../corner/draws.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { throwIfAny } from '../../errors.ts';
import { normal, quantile, uniform } from '../../numerics/random.ts';
import { shockCurve } from '../wheel.ts';
import { inputsOf, inputsWith, shocksWith } from './doubts.ts';
import { carNumbers, eachAxle, ofAxle } from './numbers.ts';
import { settleCar } from './settle.ts';
import { flat, REACH } from './size.ts';
import { usable } from './usable.ts';

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
export function monteCarloCar(document: CarDocument, options: CarMonteCarloOptions = {}): CarMonteCarlo {
  throwIfAny(OPTIONS, drawIssues(OPTIONS, options, ['draws', 'seed'], MOST_DRAWS));
  const { draws = 1000, seed = 1 } = options;
  const written = inputsOf(document);
  const { inputs, uncertain } = usable(written.inputs, written.uncertain);
  const shocks = eachAxle(inputs, (axle) =>
    shockCurve(modelOf(ofAxle(document.corners, axle).corner), REACH, REACH),
  );
  const { settings } = settleCar(document, inputs, shocks, uncertain);
  const samples: Record<string, Float64Array> = {};
  const lost = new Set<string>();
  const next = normal(uniform(seed));
  for (let n = 0; n < draws; n++) {
    const errors = uncertain.map((input) => ({ input, by: (next() * input.plusMinus) / HALF_WIDTH }));
    const drawn = carNumbers(
      inputsWith(inputs, errors),
      shocksWith(document.corners, shocks, errors),
      settings,
    );
    for (const [name, value] of Object.entries(flat(drawn))) {
      samples[name] ??= new Float64Array(draws);
      if (value === null) lost.add(name);
      else samples[name][n] = value;
    }
  }
  const figures = Object.entries(samples).map(([name, values]) => {
    if (lost.has(name)) return [name, null] as const;
    values.sort();
    const at = (share: number) => quantile(values, share);
    return [name, { low: at(TAIL), middle: at(0.5), high: at(1 - TAIL) }] as const;
  });
  return { figures: Object.fromEntries(figures), draws };
}
