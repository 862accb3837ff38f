// A weighed car once more, with the perches and springs that the advice asks for: which conflicts does that cure?

import type { Axle } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { Car } from '../sizing/car.ts';
import { type ChosenParts, perchFree } from '../sizing/choose-parts.ts';
import { type AxleNumbers, carNumbers } from '../sizing/numbers.ts';
import { stabilityDiagnostics } from '../sizing/static-stability.ts';
import type { AfterOrder } from './after-order.ts';

/** An axle with what the advice asks of it; null where nothing was bought. */
export interface AdvisedAxle {
  readonly axle: Axle;
  readonly afterOrder: AfterOrder | null;
}

/** Codes of the conflicts that a perch or a spring can cure, and the margin that then must be there. */
const CURABLE: Readonly<Record<string, 'bumpTravelMargin' | 'droopTravelMargin' | null>> = {
  ridesOnBumpStop: null,
  bumpTravelShort: 'bumpTravelMargin',
  droopTravelShort: 'droopTravelMargin',
};

/**
 * Conflicts of a car, those that a perch or a spring can cure with `afterAdvice` among their values: `cured` once the advice is followed, or
 * `remains`; with it whether the car was weighed and the axles that get another spring. All others stay as they are.
 */
export function judgedByAdvice(
  conflicts: readonly Diagnostic[],
  car: Car,
  chosen: readonly ChosenParts[],
  advised: readonly AdvisedAxle[],
): Diagnostic[] {
  if (!advised.some(({ afterOrder }) => afterOrder !== null && changesAny(afterOrder))) return [...conflicts];
  const { axles } = carNumbers(
    {
      ...car,
      axles: car.axles.map((axle, k) => (isFree(advised[k]) ? { ...axle, ...perchFree(axle) } : axle)),
    },
    chosen.map((parts, k) => {
      const change = advised[k].afterOrder?.change ?? null;
      return change === null ? parts : { ...parts, spring: change.spring };
    }),
  );
  const newSprings = advised.flatMap(({ axle, afterOrder }) => (afterOrder?.change ? [axle] : []));
  const weighed = advised.some(({ afterOrder }) => afterOrder?.weighed);
  return conflicts.map((one) => {
    const k = advised.findIndex(({ axle }) => one.path.startsWith(`corners.${axle}.`));
    const { afterOrder } = advised[k] ?? { afterOrder: null };
    if (afterOrder === null || !(one.code in CURABLE)) return one;
    // Where the spring itself ends the travel, the new one ends it elsewhere.
    if (afterOrder.change !== null && one.values.cause === 'springMinLength') return one;
    const afterAdvice = remains(one, axles[k], car) ? 'remains' : 'cured';
    return { ...one, values: { ...one.values, afterAdvice, weighed, newSprings } };
  });
}

/** Whether a conflict is still there on an axle as advised. */
function remains({ code, values }: Diagnostic, axle: AxleNumbers, { car }: Car): boolean {
  const margin = CURABLE[code];
  if (margin !== null) return (axle.numbers[margin] ?? 0) < 0;
  return stabilityDiagnostics(axle.state, axle.travelRequirement, car).some(
    (one) => one.code === code && one.values.state === values.state,
  );
}

/** Whether the advice changes a spring or moves a perch. */
function changesAny({ change, wheels }: AfterOrder): boolean {
  return change !== null || wheels.some(({ perch }) => perch?.move != null && perch.move !== 0);
}

/** Whether every perch of an axle reaches design ride height. */
function isFree({ afterOrder }: AdvisedAxle): boolean {
  return (
    afterOrder?.wheels.every(
      ({ perch, perchWithChange }) => (perchWithChange ?? perch)?.withinThread !== false,
    ) ?? false
  );
}
