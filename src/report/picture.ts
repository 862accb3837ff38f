import type { Corner } from '../corner/corner.ts';
import type { Sweep } from '../corner/sweep.ts';
import { type CurveOptions, curvesPicture } from './curves.ts';
import { cornerPicture, type DrawingOptions } from './drawing.ts';
import { stacked, svgDocument } from './svg.ts';

/** How corner and curves are shown; all optional. `title` is the heading of the whole. */
export interface PictureOptions extends DrawingOptions, Pick<CurveOptions, 'panels' | 'limits'> {}

/**
 * A corner at droop, ride and bump with its curves below, as one self-contained SVG document: `drawCorner` over
 * `plotCurves`.
 *
 * @throws InputError as these two.
 */
export function drawSweep(corner: Corner, sweep: Sweep, options: PictureOptions = {}): string {
  const { panels, limits } = options;
  const corners = cornerPicture(corner, sweep, options);
  const curves = curvesPicture(sweep, {
    ...(panels === undefined ? {} : { panels }),
    ...(limits === undefined ? {} : { limits }),
  });
  return svgDocument(stacked(corners.title, [corners, curves]));
}
