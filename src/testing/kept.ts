// What a drawing fixes, as lengths that every pose must keep. A new kind of part needs one more function here.

import type { Drawing, Point } from '../linkage/index.ts';
import { baseOf, distance, offset, type Places, pairs } from './measures.ts';

/** A length that every pose keeps. */
export interface Kept {
  /** In words. */
  readonly what: string;
  of(places: Places): number;
}

/** All lengths inside the bodies of a drawing, the sides on which their points lie, and coordinates that are held. */
export function keptBy(drawing: Drawing): Kept[] {
  return [...Object.keys(drawing.bodies).flatMap((body) => keptInBody(drawing, body)), ...heldOf(drawing)];
}

function keptInBody(drawing: Drawing, body: string): Kept[] {
  const names = drawing.bodies[body];
  const [a, b] = baseOf(drawing, body);
  // Distances alone would let a body of three points turn over.
  const aside = names.filter((name) => name !== a && name !== b);
  return [
    ...pairs(names).map(([p, q]) => ({
      what: `${p}-${q} of body ${body}`,
      of: (places: Places) => distance(places[p], places[q]),
    })),
    ...aside.map((p) => ({
      what: `side of ${p} on ${a}-${b} of body ${body}`,
      of: (places: Places) => offset(places[p], places[a], places[b]),
    })),
  ];
}

function heldOf({ held = [] }: Drawing): Kept[] {
  return held.map((one) => {
    const [axis, name, k] = 'x' in one ? (['x', one.x, 0] as const) : (['y', one.y, 1] as const);
    return { what: `held ${axis} of ${name}`, of: (places: Places): number => (places[name] as Point)[k] };
  });
}
