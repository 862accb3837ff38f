import { frequencyOn } from '../../corner/frequency.ts';
import { wheelAt } from '../wheel.ts';
import { FREQUENCIES_TO_SHOW } from './advice.ts';
import { bareSpring } from './listed-springs.ts';
import { requiredRates, withTyre } from './rates.ts';
import { type AxleState, axleState } from './state.ts';

/** What a spring rate comes to with the perch set for the drawn ride height. */
export interface RateRow {
  /** N/mm. */
  readonly springRate: number;
  /** N/mm of contact-patch travel; 0 or less where the corner does not stand on it. */
  readonly wheelRate: number;
  /** Hz, of the suspension alone; null where there is none. */
  readonly frequency: number | null;
  /** Hz, on the tyre; null where there is none. */
  readonly frequencyWithTyre: number | null;
  /** Compression at full extension, mm; below 0 a gap; null without a damper. */
  readonly preload: number | null;
  readonly fitted: boolean;
}

/** Steps shown to either side of the rate that is fitted. */
const AROUND = 4;

/**
 * Rates around the one that is fitted, in the steps in which they are available, to discuss with the maker. Without a
 * target, the rates for frequencies from a soft road car's to a stiff track car's.
 */
export function rateTable(state: AxleState): RateRow[] {
  const { given, mass, shock, settings, spring } = state;
  if (mass === null) return [];
  const { perch: _, ...sizing } = given.sizing;
  return ratesToShow(state).flatMap((rate): RateRow[] => {
    const tried = axleState({ ...given, sizing, sprungMass: mass.sprung }, null, shock, {
      ...settings,
      spring: bareSpring(rate),
    });
    const { coilover } = tried;
    if (coilover === null) return [];
    // A rate with which the corner does not stand has its row: the wheel rate says it.
    const wheelRate = (tried.atRest ?? wheelAt(shock, coilover, 0)).rate;
    return [
      {
        springRate: rate,
        wheelRate,
        frequency: frequencyOn(mass.sprung, wheelRate),
        frequencyWithTyre: frequencyOn(mass.sprung, withTyre(wheelRate, sizing.tyreRate)),
        preload: settings.damper === null ? null : coilover.loose - settings.damper.extendedLength,
        fitted: rate === spring?.rate,
      },
    ];
  });
}

/** Spring rates of the table, N/mm, softest first. */
function ratesToShow({ given, spring, carried }: AxleState): number[] {
  const { sizing, rateStep } = given;
  const inSteps = (rate: number) => Math.round(rate / rateStep) * rateStep;
  if (spring === null) {
    if (carried === null || sizing.target !== undefined) return [];
    const rates = FREQUENCIES_TO_SHOW.flatMap((frequency) => {
      const { springRate } = requiredRates({ ...sizing, target: { frequency } }, carried);
      return springRate === null ? [] : [inSteps(springRate)];
    });
    return [...new Set(rates)].filter((rate) => rate > 0).sort((a, b) => a - b);
  }
  const around = Array.from(
    { length: 2 * AROUND + 1 },
    (_, k) => inSteps(spring.rate) + (k - AROUND) * rateStep,
  ).filter((rate) => rate > rateStep * ROUNDING && Math.abs(rate - spring.rate) > rateStep * ROUNDING);
  return [...around, spring.rate].sort((a, b) => a - b);
}

/** Share of a step that the conversion of units may make. */
const ROUNDING = 1e-6;
