// keepsLengths: what the drawing fixes stays as drawn in every pose: distances inside a body and the sides on which its points lie,
// fixed coordinates, sliders on their lines, fixed angles, ratios, ropes.

import { keptBy } from './kept.ts';
import { direction } from './plane.ts';
import { lawOf, poses, traced } from './setting.ts';
import { expectWithin } from './violation.ts';

export const keepsLengths = lawOf('keepsLengths', (setting) => {
  const { law, drawing, allowed, size } = setting;
  const asDrawn = {
    turn: () => 0,
    angle: (line: readonly [string, string]) => direction(drawing.points, line),
  };
  const drawn = keptBy(drawing).map((kept) => ({ ...kept, length: kept.of(drawing.points, asDrawn) }));
  for (const { where, places, ...whole } of poses(setting, traced(setting, drawing))) {
    for (const { what, of, length } of drawn)
      expectWithin(law, what, where, of(places, whole), length, allowed * size);
  }
});
