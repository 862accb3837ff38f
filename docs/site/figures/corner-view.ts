// How the study of a corner is shown: the frame of its picture, its curves, its sentences.

import { type Diagnostic, sentence } from 'jounce';
import type { handStudy, Study } from './corner-study.ts';
import type { LengthUnit } from './in-units.ts';
import { type Frame, framed } from './plane.ts';

/** Room about a picture, mm. */
const MARGIN = 55;

/** The frame of a corner through its travel, mm. */
export function frameOf({ model, tyre, low, high }: Study): Frame {
  const { points } = model.drawing;
  const places = Object.values(points);
  const [y, z] = points[model.wheelCentre];
  const left = Math.min(y - 0.5 * tyre.width, ...places.map(([y]) => y)) - MARGIN;
  const right = Math.max(y + 0.5 * tyre.width, ...places.map(([y]) => y)) + MARGIN;
  const top = Math.max(z + tyre.radius + Math.max(high, 0), ...places.map(([, z]) => z)) + MARGIN;
  const bottom = points[model.contactPatch][1] + Math.min(low, 0) - 25;
  return framed(left, top, right, bottom);
}

/** A curve of a plot. */
export interface Curve {
  readonly name: string;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number | null>;
  readonly broken?: boolean;
  /** The same all along: it has its name on it. */
  readonly isLevel?: boolean;
}

const inUnit = (mm: ArrayLike<number>, { fromMm }: LengthUnit) => Float64Array.from(mm, fromMm);

export function ratioCurves({ curves }: Study, unit: LengthUnit): Curve[] {
  const { travel, installationRatio } = curves.columns;
  return [{ name: 'installation ratio', x: inUnit(travel, unit), y: installationRatio }];
}

/** The shock's length through the travel, and the lengths that end it. */
export function lengthCurves({ curves, damper, bumpStop }: Study, unit: LengthUnit): Curve[] {
  const { travel, shockLength } = curves.columns;
  const x = inUnit(travel, unit);
  const level = (name: string, mm: number): Curve => ({
    name,
    x,
    y: x.map(() => unit.fromMm(mm)),
    broken: true,
    isLevel: true,
  });
  const stop = bumpStop === null || damper === null ? null : { bumpStop, from: damper.compressedLength };
  return [
    { name: '', x, y: inUnit(shockLength, unit) },
    ...(damper === null
      ? []
      : [
          level('damper extended', damper.extendedLength),
          level('damper compressed', damper.compressedLength),
        ]),
    ...(stop === null
      ? []
      : [
          level('bump stop solid', stop.from + stop.bumpStop.solidHeight),
          level('bump stop contact', stop.from + stop.bumpStop.height),
        ]),
  ];
}

/** Wheel rate ÷ spring rate, exact and by hand; none where the hand method has no estimate. */
export function handCurves({ hand }: ReturnType<typeof handStudy>, unit: LengthUnit): Curve[] {
  if (!hand.defined) return [];
  const x = inUnit(hand.columns.travel, unit);
  return [
    { name: 'exact', x, y: hand.columns.exact },
    { name: 'by hand', x, y: x.map(() => hand.estimate), broken: true },
  ];
}

/** What stops the wheel on a side, in words. */
export function stopOf({ found, file }: Study, side: 'bump' | 'droop'): string {
  const first = found[side];
  return first === null ? `Nothing stops the wheel in ${side}.` : sentence(first.diagnostic, file.units);
}

/** What else is to be said of the limits: what does not fit, what is met on the way, the required travel, what would stop the wheel later. */
export function remarksOn({ found, file }: Study): {
  readonly misfits: string[];
  readonly others: string[];
  /** Whether a sizing may require more travel than the margins among them count. */
  readonly isLess: boolean;
} {
  const words = (diagnostics: readonly Diagnostic[]) => diagnostics.map((one) => sentence(one, file.units));
  const margins = Object.values(found.travelMargins ?? {}).map((margin) => margin.diagnostic);
  return {
    misfits: words(found.misfits),
    others: words([...found.events.map(({ diagnostic }) => diagnostic), ...margins]),
    isLess: margins.length > 0 && file.axle !== null,
  };
}

/** Travel beyond which a later limit is of no interest, mm. */
const NEAR = 120;

/** What would stop the wheel if nothing stopped it before. */
export function laterThan({ found, file }: Study): string[] {
  return found.later
    .filter(({ travel }) => Math.abs(travel) <= NEAR)
    .map(({ diagnostic }) => sentence(diagnostic, file.units));
}
