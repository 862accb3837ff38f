// What a drawing fixes, as lengths that every pose must keep.

import type { CheckedDrawing } from '../linkage/index.ts';
import { baseOf, type Kept, keptByJoints } from './joints.ts';
import { distance, offset, type Places, pairs } from './plane.ts';

/** All lengths inside the bodies of a drawing, the sides on which their points lie, and what its joints keep. */
export function keptBy(drawing: CheckedDrawing): Kept[] {
  return [
    ...Object.keys(drawing.bodies).flatMap((body) => keptInBody(drawing, body)),
    ...keptByJoints(drawing),
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
