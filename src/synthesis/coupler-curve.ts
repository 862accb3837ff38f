import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/synthesis.ts';
import { checkMotion } from '../linkage/check-motion.ts';
import type { Point } from '../linkage/drawing.ts';
import { bindMeasure, type Measure } from '../linkage/measure.ts';
import type { Motion } from '../linkage/motion.ts';
import { reader } from '../linkage/reader.ts';
import { extremeValues } from './extreme-values.ts';
import { readMany, spread } from './places.ts';
import { bindOrFault } from './quantity.ts';

/** How a curve is sampled. */
export interface CouplerCurveOptions<B extends string = string> {
  /** Number of places, evenly spaced in the driver from end to end of the motion; default 181. */
  readonly samples?: number;
  /** The moving body on which the curve is drawn, in the axes of the drawn pose; default the ground. */
  readonly relativeTo?: B;
}

/** The path of a point. */
export interface CouplerCurve {
  /** The driver at each sample. */
  readonly at: readonly number[];
  /** The place at each sample, `[x, y]` in the unit of the drawing. */
  readonly points: readonly Point[];
  /** Smallest and largest coordinates of the whole curve, not of its samples alone. */
  readonly box: { readonly x: readonly [number, number]; readonly y: readonly [number, number] };
}

/** The samples of a curve, if nothing is asked for: every 2 degrees of a full turn. */
const SAMPLES = 181;
const MOST_SAMPLES = 1e6;

/**
 * The path of a point over a motion, sampled, with its bounding box.
 *
 * @throws InputError for what is no motion, for an unknown point or body, and for options that are none.
 */
export function couplerCurve<P extends string, B extends string>(
  motion: Motion<P, B>,
  point: NoInfer<P>,
  options?: CouplerCurveOptions<NoInfer<B>>,
): CouplerCurve;
export function couplerCurve(motion: Motion, point: string, options: CouplerCurveOptions = {}): CouplerCurve {
  checkMotion(motion);
  const faults: Diagnostic[] = unknownOptions(options, ['samples', 'relativeTo']);
  const { samples = SAMPLES, relativeTo } = options ?? {};
  if (!(Number.isInteger(samples) && samples >= 2 && samples <= MOST_SAMPLES)) {
    faults.push(fault('notWhole', 'samples', { got: show(samples), min: 2, max: MOST_SAMPLES }));
  }
  const { path } = motion;
  const frame = relativeTo === undefined ? {} : { relativeTo };
  const measures: readonly Measure[] = [
    { x: point, ...frame },
    { y: point, ...frame },
  ];
  bindOrFault(path.system, measures[0], 'point', faults);
  refuse('coupler curve', faults);
  const bound = measures.map((measure) => bindMeasure(path.system, measure, 'point'));
  const at = spread(path, samples);
  const points: Point[] = [];
  readMany(reader(path, bound, [false, false]), at, (_, reading) => {
    points.push([reading(0)[0], reading(1)[0]]);
  });
  const [xs, ys] = measures.map((measure): [number, number] => {
    const { minimum, maximum } = extremeValues(motion, measure);
    return [minimum?.value ?? Number.NaN, maximum?.value ?? Number.NaN];
  });
  return { at: [...at], points, box: { x: xs, y: ys } };
}
