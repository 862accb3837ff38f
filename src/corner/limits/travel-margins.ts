import type { Side } from './first-crossing.ts';
import type { CheckedOptions } from './options.ts';
import type { Words } from './words.ts';

/** Travel wanted on one side against what there is: mm, all positive. */
export interface Requirement {
  readonly needed: number;
  /** Up to the first limit; null when there is none, and when something does not fit as drawn. */
  readonly available: number | null;
  /** What is wanting: 0 when there is enough, all of it when something does not fit as drawn. */
  readonly missing: number;
  readonly sentence: string;
}

/** The same for the sides on which a travel is wanted. */
export type RequiredTravel = { readonly [side in Side]?: Requirement };

/** Sets the travel wanted against the first limits. */
export function compareTravel(
  required: CheckedOptions['required'],
  first: Readonly<Record<Side, { readonly travel: number } | null>>,
  fits: boolean,
  words: Words,
): RequiredTravel | undefined {
  if (required === undefined) return undefined;
  const compared: { [side in Side]?: Requirement } = {};
  for (const side of ['bump', 'droop'] as const) {
    const needed = required[side];
    if (needed === undefined) continue;
    const limit = first[side];
    const available = limit === null || !fits ? null : Math.abs(limit.travel);
    const missing = available === null ? 0 : Math.max(0, needed - available);
    const name = `${side[0].toUpperCase()}${side.slice(1)}`;
    if (!fits) {
      const sentence = `${name}: ${words.length(needed)} required; available travel is not known before all fits at the drawn ride height.`;
      compared[side] = { needed, available, missing: needed, sentence };
      continue;
    }
    const there = available === null ? 'no limit found' : `${words.length(available)} available`;
    const verdict =
      missing > 0
        ? `margin -${words.length(missing)}`
        : available === null
          ? 'enough'
          : `margin ${words.length(available - needed)}`;
    compared[side] = {
      needed,
      available,
      missing,
      sentence: `${name}: ${words.length(needed)} required, ${there}: ${verdict}.`,
    };
  }
  return compared;
}
