import type { Side } from './first-crossing.ts';
import type { CheckedOptions } from './options.ts';
import type { Words } from './words.ts';

/** Travel required on one side against what is available, mm. */
export interface TravelMargin {
  readonly required: number;
  /** To the first limit; null where there is none, and where something does not fit at the design ride height. */
  readonly available: number | null;
  /** Available - required, below 0 where it is short; null where there is no limit; where something does not fit, -required. */
  readonly margin: number | null;
  readonly sentence: string;
}

/** The same for the sides on which a travel is required. */
export type TravelMargins = { readonly [side in Side]?: TravelMargin };

/** Margins of the required travel to the first limits. */
export function travelMarginsOf(
  required: CheckedOptions['required'],
  first: Readonly<Record<Side, { readonly travel: number } | null>>,
  fits: boolean,
  words: Words,
): TravelMargins | undefined {
  if (required === undefined) return undefined;
  const compared: { [side in Side]?: TravelMargin } = {};
  for (const side of ['bump', 'droop'] as const) {
    const travel = required[side];
    if (travel === undefined) continue;
    const limit = first[side];
    const available = limit === null || !fits ? null : Math.abs(limit.travel);
    const margin = available === null ? null : available - travel;
    const name = `${side[0].toUpperCase()}${side.slice(1)}`;
    if (!fits) {
      const sentence = `${name}: ${words.length(travel)} required; available travel is not known before all fits at the drawn ride height.`;
      compared[side] = { required: travel, available, margin: -travel, sentence };
      continue;
    }
    const there = available === null ? 'no limit found' : `${words.length(available)} available`;
    const verdict = margin === null ? 'enough' : `margin ${words.length(margin)}`;
    compared[side] = {
      required: travel,
      available,
      margin,
      sentence: `${name}: ${words.length(travel)} required, ${there}: ${verdict}.`,
    };
  }
  return compared;
}
