import type { Corner } from '../corner/corner.ts';
import type { HandMethod, NoHandMethod } from '../corner/hand-method.ts';
import type { Sweep } from '../corner/sweep.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import { curvesPicture, type PlotCurvesOptions } from './curves.ts';
import { cornerPicture, type DrawCornerOptions } from './drawing.ts';
import { withHandFigure } from './hand-method.ts';
import { CORNER_LOOKS, lookFaults } from './looks.ts';
import { stacked, svgDocument } from './svg.ts';

/** How corner and curves are shown; all optional. `title` is the heading of the whole. */
export interface DrawSweepOptions<Name extends string = string>
  extends DrawCornerOptions,
    Pick<PlotCurvesOptions<Name>, 'panels' | 'limits'> {
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
  options?: DrawSweepOptions<NoInfer<Name>>,
): string;
export function drawSweep(corner: Corner, sweep: Sweep, options: DrawSweepOptions = {}): string {
  refuseOtherThan('sweep', sweep);
  refuse('options of drawSweep', lookFaults(options, [...CORNER_LOOKS, 'panels', 'hand']));
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
