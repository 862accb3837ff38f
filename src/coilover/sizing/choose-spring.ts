// The spring as it can be bought: of the user's list the one that fits and whose rate is nearest, as a ratio, to the required one;
// without a list the required rate rounded to the steps in which rates are made.

import type { Diagnostic } from '../../diagnostic.ts';
import type { AxleInputs, CornerSizing } from './inputs.ts';
import { bareSpring, listedSprings, type Spring } from './listed-springs.ts';
import type { Carried, RequiredRates } from './rates.ts';
import { diameterFindings, targetFindings, travelFindings } from './spring-findings.ts';
import { isNear, springFit } from './spring-fit.ts';
import type { AxleState } from './state.ts';

/** A spring of the list, with what it would come to. */
export interface SpringOption {
  readonly spring: Spring;
  /** Its rate ÷ the required one. */
  readonly rateRatio: number;
  /** Hz at the drawn ride height, suspension alone; null where that is not known. */
  readonly frequency: number | null;
  /** Compression at the bump limit, mm; null where that is not known. */
  readonly travelRequired: number | null;
  /** Compression that it has, mm; null where that is not known. */
  readonly travelAvailable: number | null;
  /** What speaks against it; empty where it fits. */
  readonly conflicts: readonly Diagnostic[];
}

/** The available rates just below and above a required one, N/mm. */
export function adjacentRates(
  required: number,
  step: number,
): { readonly below: number; readonly above: number } {
  const k = Math.floor(required / step + 1e-9);
  return { below: k * step, above: (k + 1) * step };
}

/**
 * Springs that may come to be fitted whatever the damper turns out to be, softest first: those of the list that give about the required
 * frequency, else the nearest one; without a list the required rate in steps. Lengths that follow from the travel hold for all of them.
 */
export function candidateSprings(
  { sizing, rateStep }: AxleInputs,
  carried: Carried | null,
  required: RequiredRates,
): Spring[] {
  const rate = required.springRate;
  if (rate === null) return [];
  const listed = listedSprings(sizing);
  if (listed.length === 0) return [bareSpring(ownRate(sizing, rate, rateStep))];
  const near = listed.filter((spring) => {
    const fit = springFit(spring.rate, sizing, carried, required);
    return fit === null || isNear(fit);
  });
  const springs =
    near.length > 0 ? near : [listed.reduce((a, b) => (awayFrom(rate, b) < awayFrom(rate, a) ? b : a))];
  return springs.sort((a, b) => a.rate - b.rate);
}

/** A target rate as it is, another one in steps (N/mm). */
function ownRate({ target }: CornerSizing, rate: number, step: number): number {
  return target?.springRate !== undefined ? rate : Math.max(step, Math.round(rate / step) * step);
}

/** How far a spring's rate is from another, as a ratio. */
const awayFrom = (rate: number, spring: Spring) => Math.abs(Math.log(spring.rate / rate));

/**
 * The springs of the list, the nearest rate that fits first. `state` is the corner with a spring fitted, `shortest` the length between the
 * eyes (mm) at which bump ends but for the spring, as the findings take it.
 */
export function chooseSpring(
  { axle, sizing }: AxleInputs,
  { carried, required: rates }: Pick<AxleState, 'carried' | 'required'>,
  state: (spring: Spring) => AxleState,
  shortest: (state: AxleState) => number,
): SpringOption[] {
  const { helper, order } = sizing;
  const required = rates.springRate;
  if (required === null) return [];
  const path = `corners.${axle}.sizing.springs`;
  const helperTravel = helper === undefined ? 0 : helper.freeLength - helper.solidLength;
  return listedSprings(sizing)
    .map((spring): SpringOption => {
      const fitted = state(spring);
      const { rate, freeLength, minLength } = spring;
      const fit = springFit(rate, sizing, carried, rates);
      const travelRequired =
        fitted.coilover === null
          ? null
          : Math.max(0, fitted.coilover.loose - shortest(fitted) - helperTravel);
      const travelAvailable = freeLength === null || minLength === null ? null : freeLength - minLength;
      return {
        spring,
        rateRatio: rate / required,
        frequency: fit?.frequency ?? null,
        travelRequired,
        travelAvailable,
        conflicts: [
          ...targetFindings(path, spring, fit, required),
          ...(travelRequired === null || travelAvailable === null
            ? []
            : travelFindings(path, spring, travelRequired, travelAvailable - travelRequired, null)),
          ...diameterFindings(path, spring, order),
        ],
      };
    })
    .sort(
      (a, b) =>
        Math.sign(a.conflicts.length) - Math.sign(b.conflicts.length) ||
        awayFrom(required, a.spring) - awayFrom(required, b.spring),
    );
}
