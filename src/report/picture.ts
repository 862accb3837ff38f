import type { Corner } from '../corner/corner.ts';
import type { HandMethod, NoHandMethod } from '../corner/hand-method.ts';
import type { Sweep } from '../corner/sweep.ts';
import { type CurveOptions, curvesPicture } from './curves.ts';
import { cornerPicture, type DrawingOptions } from './drawing.ts';
import { withHandFigure } from './hand-method.ts';
import { stacked, svgDocument } from './svg.ts';

/** How corner and curves are shown; all optional. `title` is the heading of the whole. */
export interface PictureOptions<Name extends string = string>
  extends DrawingOptions,
    Pick<CurveOptions<Name>, 'panels' | 'limits'> {
  /** The hand figure, for a panel of its own beside the exact one. */
  readonly hand?: HandMethod | NoHandMethod;
}

/**
 * A corner at droop, ride and bump with its curves below, as one self-contained SVG document: `drawCorner` over
 * `plotCurves`.
 *
 * @throws InputError as these two.
 */
export function drawSweep<Name extends string>(
  corner: Corner,
  sweep: Sweep<Name>,
  options?: PictureOptions<NoInfer<Name>>,
): string;
export function drawSweep(corner: Corner, sweep: Sweep, options: PictureOptions = {}): string {
  const { panels, limits, hand, units } = options;
  const corners = cornerPicture(corner, sweep, options);
  const shown = hand?.defined === true ? withHandFigure(sweep, hand) : { curves: sweep, options: {} };
  const curves = curvesPicture(shown.curves, {
    ...shown.options,
    ...(panels === undefined ? {} : { panels }),
    ...(limits === undefined ? {} : { limits }),
    ...(units === undefined ? {} : { units }),
  });
  return svgDocument(stacked(corners.title, [corners, curves]));
}
