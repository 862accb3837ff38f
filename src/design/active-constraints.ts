import { fromMetric, type Units, unitName } from '../units.ts';
import { figure, spaced } from '../words.ts';
import { edgeOf } from './box.ts';
import type { Margin } from './clearances.ts';
import type { CheckedDesign } from './options.ts';

/** What limits a design: a coordinate at the edge of its box, or a clearance that is used up. */
export type ActiveConstraint = {
  /** `shockMountY`, or `spring to upper arm`. */
  readonly name: string;
  readonly sentence: string;
} & (
  | { readonly kind: 'box'; readonly side: 'least' | 'most'; readonly at: number }
  | { readonly kind: 'distance'; readonly distance: number; readonly travel: number }
);

/** mm up to which a clearance is used up. */
const USED_UP = 0.01;

/** A length in figures, without its unit: tenths of a mm, hundredths of an inch. */
export function lengthFigure(mm: number, units: Units): string {
  return figure(fromMetric(mm, 'length', units), units === 'metric' ? 1 : 2);
}

/** What limits the design at x. */
export function activeConstraints(
  { plan, boxes, units }: CheckedDesign,
  x: readonly number[],
  margins: readonly Margin[],
): ActiveConstraint[] {
  const length = (mm: number) => `${lengthFigure(mm, units)} ${unitName('length', units)}`;
  const edges = boxes.flatMap((box, i): ActiveConstraint[] => {
    const side = edgeOf(box, x[i]);
    if (side === null) return [];
    const { name } = plan.coordinates[i];
    const at = box[side];
    const sentence = `${spaced(name)} is at its ${side}, ${length(at)}`;
    return [{ kind: 'box', name, side, at, sentence }];
  });
  const worst = new Map<string, Margin>();
  for (const margin of margins) {
    const before = worst.get(margin.name);
    if (before === undefined || margin.clearance.value < before.clearance.value)
      worst.set(margin.name, margin);
  }
  const distances = [...worst.values()].flatMap(
    ({ name, clearance: room, distance, travel }): ActiveConstraint[] => {
      if (room.value > USED_UP) return [];
      const where = `at a travel of ${length(travel)}`;
      const sentence =
        room.value < 0
          ? `${name} is ${length(-room.value)} short of its clearance of ${length(distance)} ${where}`
          : `${name} is down to its clearance of ${length(distance)} ${where}`;
      return [{ kind: 'distance', name, distance, travel, sentence }];
    },
  );
  return [...edges, ...distances];
}
