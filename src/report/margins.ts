// Values that are sums or differences of others are printed as those of what stands printed beside them, so that rows add up.

import type { AxleFigureName } from '../coilover/sizing/numbers.ts';
import type { AxleSizing, Figure } from '../coilover/sizing/result.ts';
import { numberIn, type Rounding, toMetric, type Units } from '../units.ts';

/** Figures that are a difference, and of what: null stands for what is no figure itself, the value plus what is taken from it. */
const DIFFERENCES: Readonly<
  Record<string, readonly [minuend: AxleFigureName | null, subtrahend: AxleFigureName]>
> = {
  stroke: ['extendedLength', 'compressedLength'],
  compressionStroke: ['designLength', 'compressedLength'],
  extensionStroke: ['extendedLength', 'designLength'],
  deadLength: ['compressedLength', 'stroke'],
  staticSpringLength: [null, 'perchSetting'],
  bumpTravelMargin: ['bumpTravelAvailable', 'bumpTravelRequired'],
  droopTravelMargin: ['droopTravelAvailable', 'droopTravelRequired'],
  springTravelMargin: [null, 'springTravelRequired'],
};

type Figures = Pick<AxleSizing, 'figure'>;

/** The margin between two lengths, mm, as they are printed in units; mm. */
export function printedMargin(
  required: number,
  available: number,
  units: Units,
  rounding: Rounding = numberIn,
): number {
  const [a, b] = [available, required].map((mm) =>
    toMetric(Number(rounding(mm, 'length', units)), 'length', units),
  );
  return a - b;
}

/** The value of an axle's figure to print in units: a difference is that of what stands beside it. */
export function printedValue(
  sized: Figures,
  { name, value }: Pick<Figure, 'name' | 'value'>,
  units: Units,
  rounding: Rounding = numberIn,
): number | null {
  const of = DIFFERENCES[name];
  if (value === null || of === undefined) return value;
  const [longer, shorter] = of;
  const subtrahend = printedFigure(sized, shorter, units, rounding);
  if (subtrahend === null) return value;
  const minuend =
    longer === null
      ? value + Number(sized.figure(shorter).value)
      : printedFigure(sized, longer, units, rounding);
  return minuend === null ? value : printedMargin(subtrahend, minuend, units, rounding);
}

/** The same by the figure's name. */
export function printedFigure(
  sized: Figures,
  name: AxleFigureName,
  units: Units,
  rounding: Rounding,
): number | null {
  return printedValue(sized, sized.figure(name), units, rounding);
}

/** Length of the spring at design ride height as it is printed in units, mm: eye to eye less perch setting; null where either is not known. */
export function printedSpringLength({ figure }: Figures, units: Units, rounding: Rounding): number | null {
  const [length, setting] = [figure('designLength').value, figure('perchSetting').value];
  return length === null || setting === null ? null : printedMargin(setting, length, units, rounding);
}
