// The picture of a corner, apart from its text: drawing is loaded only where a picture is written.

import {
  type DocumentCorner,
  drawSweep,
  type HandMethod,
  type Limits,
  type NoHandMethod,
  sweep,
  type Units,
} from '../index.ts';

/** Travel shown beyond a limit, mm. */
const BEYOND = 25;

/** What is shown beside the corner. */
export interface PictureLooks {
  readonly title: string;
  readonly units: Units;
  readonly limits: Limits;
  readonly travel: { readonly bump: number; readonly droop: number };
  readonly hand: HandMethod | NoHandMethod;
}

/** The corner at its limits and at ride height, with its curves, as an SVG document. */
export function cornerPicture(
  { corner, limits: ends }: DocumentCorner,
  { title, units, limits, travel, hand }: PictureLooks,
): string {
  const wide = sweep(corner, { bump: travel.bump + BEYOND, droop: travel.droop + BEYOND });
  const tyre = ends.tyre === undefined ? {} : { tyre: ends.tyre };
  return drawSweep(corner, wide, { title, limits, hand, units, ...tyre });
}
