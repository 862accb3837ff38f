import { frequencyOn } from '../../corner/frequency.ts';
import { wheelAt } from '../wheel.ts';
import { bareSpring, RATE_STEP } from './choose-spring.ts';
import { onTyre } from './rates.ts';
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
  readonly frequencyOnTyre: number | null;
  /** Compression at full extension, mm; below 0 a gap; null without a damper. */
  readonly preload: number | null;
  readonly fitted: boolean;
}

/** Steps shown to either side of the rate that is fitted. */
const AROUND = 4;

/** Rates around the one that is fitted, in the steps in which they can be had: for the talk with whoever makes the coilover. */
export function rateTable(state: AxleState): RateRow[] {
  const { given, mass, shock, settings, spring } = state;
  if (spring === null || mass === null) return [];
  const { perch: _, rateStep: step = RATE_STEP, ...sizing } = given.sizing;
  const middle = Math.round(spring.rate / step);
  const rates = Array.from({ length: 2 * AROUND + 1 }, (_, k) => (middle + k - AROUND) * step).filter(
    (rate) => rate > 0,
  );
  if (!rates.includes(spring.rate)) rates.push(spring.rate);
  return rates
    .sort((a, b) => a - b)
    .flatMap((rate): RateRow[] => {
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
          frequencyOnTyre: frequencyOn(mass.sprung, onTyre(wheelRate, sizing.tyreRate)),
          preload: settings.damper === null ? null : coilover.loose - settings.damper.open,
          fitted: rate === spring.rate,
        },
      ];
    });
}
