// What a drawing fixes, as lengths that every pose must keep. A new kind of part needs one more function here.

import type { Direction, Drawing, Point } from '../linkage/index.ts';
import { baseOf, distance, offset, type Places, pairs, sizeOf } from './measures.ts';

/** A length that every pose keeps. */
export interface Kept {
  /** In words. */
  readonly what: string;
  of(places: Places): number;
}

/** All lengths inside the bodies of a drawing, the sides on which their points lie, and what its joints keep. */
export function keptBy(drawing: Drawing): Kept[] {
  return [
    ...Object.keys(drawing.bodies).flatMap((body) => keptInBody(drawing, body)),
    ...heldOf(drawing),
    ...slidOf(drawing),
    ...anglesOf(drawing),
  ];
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

/** How far sliding points are off their lines. */
function slidOf({ sliders = {} }: Drawing): Kept[] {
  return Object.entries(sliders).map(([name, { point, on }]) => ({
    what: `distance of ${point} from ${on.join('-')} of slider ${name}`,
    of: (places: Places) => offset(places[point], places[on[0]], places[on[1]]),
  }));
}

/** By how much kept angles have changed, as what that is worth at the end of the longest body. */
function anglesOf(drawing: Drawing): Kept[] {
  const size = sizeOf(drawing);
  const along = (direction: Direction | undefined, places: Places): number => {
    if (direction === undefined) return 0;
    const [a, b] = typeof direction === 'string' ? lineOfBody(drawing, direction) : direction;
    return Math.atan2(places[b][1] - places[a][1], places[b][0] - places[a][0]);
  };
  return Object.entries(drawing.angles ?? {}).map(([name, [first, second]]) => {
    const between = (places: Places) => along(first, places) - along(second, places);
    const drawn = between(drawing.points);
    return { what: `angle ${name}`, of: (places: Places) => size * Math.sin(between(places) - drawn) };
  });
}

/** A line that turns with a body or a telescope. */
function lineOfBody(drawing: Drawing, name: string): readonly [string, string] {
  return drawing.telescopes?.[name] ?? baseOf(drawing, name);
}
