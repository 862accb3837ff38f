// The hand figure beside the exact one, over the travel, and the factors of its approximations.

import { HAND_METHOD_APPROXIMATIONS, type HandMethod, type HandPoint } from '../corner/hand-method.ts';
import type { Limits } from '../corner/limits/limits.ts';
import type { Sweep } from '../corner/sweep.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Units } from '../units.ts';
import { capital } from '../words.ts';
import { approximationLabel } from './approximation-label.ts';
import { type Curves, curvesPicture, type PlotCurvesOptions } from './curves.ts';
import { lookFaults } from './looks.ts';
import { EDGE, heading, SIZE, SMALL, THIN, WIDTH } from './marks.ts';
import { type Element, element, line, type Picture, stacked, svgDocument, text } from './svg.ts';
import { travelIn } from './text.ts';

/** How the hand method is shown; all optional. */
export interface HandMethodPlotOptions {
  readonly title?: string;
  readonly limits?: Limits;
  /** Units of the labels; default metric. */
  readonly units?: Units;
}

const FACTOR = 'wheelRateFactor';
const ERROR = 'springError';
const INFO = [
  { name: FACTOR, unit: '', label: 'wheel-rate factor', gaps: false },
  { name: ERROR, unit: '%', label: 'error of the spring chosen by hand, too stiff +', gaps: false },
];

/**
 * Wheel-rate factor (wheel rate ÷ spring rate) over travel, exact and by hand, the error of a spring chosen by hand, and the error
 * from each approximation at design ride height, as one self-contained SVG document.
 */
export function plotHandMethod(method: HandMethod, options: HandMethodPlotOptions = {}): string {
  refuseOtherThan('hand method', method);
  refuse('options of plotHandMethod', lookFaults(options, ['title', 'limits', 'units']));
  const { title = 'Hand method and exact wheel-rate factor', limits, units = 'metric' } = options;
  const { travel } = method.columns;
  const end = (at: number) => ({ travel: at, status: 'reached' as const });
  const curves: Curves = {
    info: [{ name: 'travel', unit: 'mm', label: 'travel, bump +', gaps: false }, ...INFO],
    end: { droop: end(travel[0]), bump: end(travel[travel.length - 1]) },
    at: (at) => handColumns(method, at),
  };
  const picture = curvesPicture(curves, {
    title,
    panels: [FACTOR, ERROR],
    units,
    beside: { [FACTOR]: { value: method.estimate, words: 'by hand' }, [ERROR]: { value: 0, words: 'exact' } },
    ...(limits === undefined ? {} : { limits }),
  });
  return svgDocument(stacked(title, [picture, sharesPicture(method.ride, units)]));
}

/** A sweep with the exact figure as a further column, and options that put the hand figure into its panel. */
export function withHandFigure(
  sweep: Sweep,
  method: HandMethod,
): { curves: Curves; options: PlotCurvesOptions } {
  const { travel } = method.columns;
  const [from, to] = [travel[0], travel[travel.length - 1]];
  return {
    curves: {
      info: [...sweep.info, INFO[0]],
      end: sweep.end,
      at: (at) => ({ ...sweep.at(at), [FACTOR]: at >= from && at <= to ? method.at(at).exact : null }),
    },
    options: {
      panels: ['installationRatio', 'shockLength', FACTOR],
      beside: { [FACTOR]: { value: method.estimate, words: 'by hand' } },
    },
  };
}

function handColumns(method: HandMethod, travel: number): Record<string, number> {
  const { exact, error } = method.at(travel);
  return { travel, [FACTOR]: exact, [ERROR]: 100 * error };
}

const TOP = 92;
const ROW = 30;
const BAR = 12;
/** Where the bars have their zero, and the length of the longest. */
const MIDDLE = 660;
const LONGEST = 130;

/** Error of the spring rate from each approximation: bars to either side. */
function sharesPicture({ travel, factors, error }: HandPoint, units: Units): Picture {
  const rows = [
    ...HAND_METHOD_APPROXIMATIONS.map((approximation) => ({
      words: approximationLabel(approximation),
      error: factors[approximation] - 1,
    })),
    { words: 'all together', error },
  ];
  const most = Math.max(...rows.map((row) => Math.abs(row.error)), 0.01);
  const title = `Error of the spring rate from each approximation, at ${travel === 0 ? 'design ride height' : travelIn(travel, units)}`;
  const bottom = TOP + rows.length * ROW;
  return {
    width: WIDTH,
    height: bottom + 24,
    title,
    content: [
      heading(title),
      text('too soft', [MIDDLE - 12, TOP - 14], { 'font-size': SMALL, 'text-anchor': 'end' }),
      text('too stiff', [MIDDLE + 12, TOP - 14], { 'font-size': SMALL }),
      line([MIDDLE, TOP - 8], [MIDDLE, bottom - 6], THIN),
      ...rows.flatMap((row, k) => bar(row.words, row.error, LONGEST / most, TOP + k * ROW + 10)),
    ],
  };
}

function bar(words: string, error: number, scale: number, y: number): Element[] {
  const width = Math.abs(error) * scale;
  const percent = `${(100 * error).toFixed(1)} %`;
  const soft = error < 0;
  return [
    text(capital(words), [EDGE, y + 4], { 'font-size': SIZE }),
    element('rect', {
      x: soft ? MIDDLE - width : MIDDLE,
      y: y - BAR / 2,
      width,
      height: BAR,
      fill: '#888',
      stroke: '#000',
      'stroke-width': 0.8,
    }),
    text(percent, [soft ? MIDDLE - width - 6 : MIDDLE + width + 6, y + 4], {
      'font-size': SMALL,
      'text-anchor': soft ? 'end' : 'start',
    }),
  ];
}
