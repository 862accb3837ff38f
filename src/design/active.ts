import { figure, spaced } from '../words.ts';
import { edgeOf } from './box.ts';
import type { Margin } from './keep-outs.ts';
import type { CheckedDesign } from './options.ts';

/** What holds a design: a coordinate at the edge of its box, or a distance that is used up. */
export type ActiveBound = {
  /** `shockMountY`, or `spring to upper arm`. */
  readonly name: string;
  readonly sentence: string;
} & (
  | { readonly kind: 'box'; readonly side: 'least' | 'most'; readonly at: number }
  | { readonly kind: 'distance'; readonly distance: number; readonly travel: number }
);

/** mm up to which a distance is used up. */
const USED_UP = 0.01;

/** What holds the design at x. */
export function activeBounds(
  { plan, boxes }: CheckedDesign,
  x: readonly number[],
  margins: readonly Margin[],
): ActiveBound[] {
  const edges = boxes.flatMap((box, i): ActiveBound[] => {
    const side = edgeOf(box, x[i]);
    if (side === null) return [];
    const { name } = plan.coordinates[i];
    const at = box[side];
    const sentence = `${spaced(name)} is at its ${side}, ${at} mm`;
    return [{ kind: 'box', name, side, at, sentence }];
  });
  const worst = new Map<string, Margin>();
  for (const margin of margins) {
    const before = worst.get(margin.name);
    if (before === undefined || margin.room.value < before.room.value) worst.set(margin.name, margin);
  }
  const distances = [...worst.values()].flatMap(({ name, room, distance, travel }): ActiveBound[] => {
    if (room.value > USED_UP) return [];
    const where = `at a travel of ${figure(travel, 1)} mm`;
    const sentence =
      room.value < 0
        ? `${name} lacks ${figure(-room.value, 1)} of the ${distance} mm to be kept ${where}`
        : `${name} is down to the ${distance} mm to be kept ${where}`;
    return [{ kind: 'distance', name, distance, travel, sentence }];
  });
  return [...edges, ...distances];
}
