// What a drawing fixes, as lengths that every pose must keep. A new kind of part needs one more function here.

import type { CheckedDrawing, Point } from '../linkage/index.ts';
import {
  baseOf,
  direction,
  distance,
  lineThrough,
  offset,
  type Places,
  pairs,
  turnsAside,
} from './measures.ts';

/** A length that every pose keeps. */
export interface Kept {
  /** In words. */
  readonly what: string;
  of(places: Places): number;
}

/** All lengths inside the bodies of a drawing, the sides on which their points lie, and what its joints keep. */
export function keptBy(drawing: CheckedDrawing): Kept[] {
  return [
    ...Object.keys(drawing.bodies).flatMap((body) => keptInBody(drawing, body)),
    ...coordinatesOf(drawing),
    ...slidOf(drawing),
    ...anglesOf(drawing),
  ];
}

function keptInBody(drawing: CheckedDrawing, body: string): Kept[] {
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

function coordinatesOf({ fixedCoordinates = [] }: CheckedDrawing): Kept[] {
  return fixedCoordinates.map((one) => {
    const [axis, name, k] = 'x' in one ? (['x', one.x, 0] as const) : (['y', one.y, 1] as const);
    return { what: `fixed ${axis} of ${name}`, of: (places: Places): number => (places[name] as Point)[k] };
  });
}

/** How far sliding points have left their lines: the less, the shorter the line is beside their way along it. */
function slidOf({ points, sliders = {} }: CheckedDrawing): Kept[] {
  return Object.entries(sliders).map(
    ([
      name,
      {
        point,
        on: [a, b],
      },
    ]) => {
      const drawn = offset(points[point], points[a], points[b]);
      return {
        what: `way of ${point} off the line ${a}-${b} of slider ${name}`,
        of: (places: Places) => {
          const [P, A, B] = [places[point], places[a], places[b]];
          return (offset(P, A, B) - drawn) / Math.max(1, distance(A, P) / distance(A, B));
        },
      };
    },
  );
}

/** By how much fixed angles have changed, as what that is worth at the end of the shorter of their two lines. */
function anglesOf(drawing: CheckedDrawing): Kept[] {
  const { points, fixedAngles = {}, telescopes = {} } = drawing;
  return Object.entries(fixedAngles).map(([name, directions]) => {
    const lines = directions.map((one) => (typeof one === 'string' ? lineThrough(drawing, one) : one));
    const between = (places: Places) => {
      const [first, second = 0] = lines.map((line) => direction(places, line));
      return first - second;
    };
    const drawn = between(points);
    // A telescope that has passed through nothing keeps its direction, though its ends have changed places.
    const reversible = directions.some((one) => typeof one === 'string' && one in telescopes);
    return {
      what: `fixed angle ${name} (${lines.map((line) => line.join('-')).join(' to ')})`,
      of: (places: Places) => {
        const change = turnsAside(between(places) - drawn, reversible ? Math.PI : 2 * Math.PI);
        return change * Math.min(...lines.map(([a, b]) => distance(places[a], places[b])));
      },
    };
  });
}
