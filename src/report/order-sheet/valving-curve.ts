// The force of a damper at its shaft speeds, small enough for the order.

import type { DampingRow } from '../../coilover/sizing/damping.ts';
import { dampingPlot } from '../damping-picture.ts';
import type { PlotLayout } from '../plot.ts';
import { svgDocument } from '../svg.ts';
import type { OnPaper } from './on-paper.ts';

const MM = 96 / 25.4;
/** Width on paper, mm. */
const WIDTH = 43;
/** Words of 7.1 pt. */
const LAYOUT: PlotLayout = {
  left: 30,
  right: WIDTH * MM - 10,
  words: 0,
  top: 0,
  height: 68,
  between: 0,
  size: 9.5,
  small: 9.5,
  names: 'above',
};

/** Both curves of a valving, in the units of the file; its width on paper in mm. */
export function valvingCurve(
  rows: readonly DampingRow[],
  title: string,
  { units: [own] }: OnPaper,
): { readonly svg: string; readonly width: number } {
  const { content, bottom } = dampingPlot(rows, own, LAYOUT);
  return { width: WIDTH, svg: svgDocument({ width: WIDTH * MM, height: bottom + 1, title, content }) };
}
