import type { Diagnostic } from '../../diagnostic.ts';
import type { Side } from './first-crossing.ts';
import type { CheckedOptions } from './options.ts';

/** Travel required on one side against what is available, mm. */
export interface TravelMargin {
  readonly required: number;
  /** To the first limit; null where there is none, and where something does not fit at the design ride height. */
  readonly available: number | null;
  /** Available - required, below 0 where it is short; null where there is no limit; where something does not fit, -required. */
  readonly margin: number | null;
  readonly diagnostic: Diagnostic;
}

/** The same for the sides on which a travel is required. */
export type TravelMargins = { readonly [side in Side]?: TravelMargin };

/** Margins of the required travel to the first limits. */
export function travelMarginsOf(
  required: CheckedOptions['required'],
  first: Readonly<Record<Side, { readonly travel: number } | null>>,
  fits: boolean,
): TravelMargins | undefined {
  if (required === undefined) return undefined;
  const compared: { [side in Side]?: TravelMargin } = {};
  for (const side of ['bump', 'droop'] as const) {
    const travel = required[side];
    if (travel === undefined) continue;
    const limit = first[side];
    const available = limit === null || !fits ? null : Math.abs(limit.travel);
    const margin = !fits ? -travel : available === null ? null : available - travel;
    const found = available === null ? 'travelWithoutLimit' : 'travelMargin';
    const diagnostic: Diagnostic = {
      code: fits ? found : 'travelNotKnown',
      severity: margin !== null && margin < 0 ? 'conflict' : 'note',
      path: `required.${side}`,
      values: { side, required: travel, available },
    };
    compared[side] = { required: travel, available, margin, diagnostic };
  }
  return compared;
}
