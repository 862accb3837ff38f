// Residuals of a survey: a bar for each reading, in multiples of its plus-minus; those beyond it stand out.

import { fault } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import { readingLabel } from '../sentences/survey.ts';
import type { Survey } from '../survey/result.ts';
import { fromMetric, unitName } from '../units.ts';
import { titleFaults } from './looks.ts';
import { EDGE, GRID, heading, SIZE, SMALL, WIDTH } from './marks.ts';
import { type Attributes, type Element, element, line, svgDocument, text } from './svg.ts';
import { fittingSize, textWidth } from './text.ts';
import { ticks } from './ticks.ts';

const WORDS = 330;
const FIGURES = 110;
const TOP = 104;
const ROW = 21;
const BAR = 11;
/** The least that the axis shows on either side, in multiples of the plus-minus. */
const LEAST = 1.5;
const HALF_WIDTH: Attributes = { stroke: '#000', 'stroke-width': 1, 'stroke-dasharray': '5 4' };

/**
 * Residuals of a survey's readings (measured - computed) as bars in multiples of the plus-minus of each, as a self-contained SVG
 * document: bars beyond the dashed lines exceed it; an arrow marks a suspected misreading.
 *
 * @throws InputError for a survey without readings.
 */
export function drawResiduals(survey: Survey, title = 'Residuals of the readings'): string {
  refuseOtherThan('survey', survey);
  refuse('title', titleFaults(title));
  const { readings, suspects, units } = survey;
  if (readings.length === 0) {
    throw refusal('survey', [fault('noReadings', 'readings')]);
  }
  const suspected = new Set(suspects.flatMap(({ candidates }) => candidates.map(({ path }) => path)));
  const shares = readings.map(({ residual, plusMinus }) => residual / plusMinus);
  const most = Math.max(LEAST, ...shares.map(Math.abs)) * 1.05;
  const [left, right] = [EDGE + WORDS, WIDTH - EDGE - FIGURES];
  const at = (share: number) => left + ((right - left) * (share + most)) / (2 * most);
  const bottom = TOP + ROW * readings.length;
  const scale = ticks(-most, most, 9);
  const length = unitName('length', units);
  const rows = readings.flatMap(({ path, points, residual, unit }, k): Element[] => {
    const words = readingLabel(path, points);
    const middle = TOP + ROW * (k + 0.5);
    const [from, to] = [at(Math.min(0, shares[k])), at(Math.max(0, shares[k]))];
    const beyond = Math.abs(shares[k]) > 1;
    const shown = unit === 'deg' ? residual : fromMetric(residual, 'length', units);
    const rounded = shown.toFixed(unit === 'deg' || units === 'imperial' ? 2 : 1);
    const figure = Number(rounded) === 0 ? rounded.replace('-', '') : `${shown > 0 ? '+' : ''}${rounded}`;
    const label = suspected.has(path) ? `→ ${words}` : words;
    return [
      text(label, [EDGE, middle + 4], { 'font-size': fittingSize(label, SMALL, WORDS - 14) }),
      element('rect', {
        x: from,
        y: middle - BAR / 2,
        width: Math.max(0.5, to - from),
        height: BAR,
        fill: beyond ? '#000' : '#999',
      }),
      text(`${figure} ${unit === 'deg' ? 'deg' : length}`, [right + FIGURES, middle + 4], {
        'font-size': SMALL,
        'text-anchor': 'end',
      }),
    ];
  });
  const axis = 'residual (measured \u2212 computed) ÷ plus-minus of the reading';
  return svgDocument({
    width: WIDTH,
    height: bottom + 62,
    title,
    content: [
      heading(title),
      text(
        'Dashed lines: the plus-minus of each reading. Black bars exceed it; → marks a suspected misreading.',
        [EDGE, 62],
        {
          'font-size': SMALL,
        },
      ),
      text('residual', [right + FIGURES, TOP - 10], { 'font-size': SMALL, 'text-anchor': 'end' }),
      ...scale.at.map((share) => line([at(share), TOP], [at(share), bottom], GRID)),
      ...rows,
      line([at(0), TOP], [at(0), bottom], { stroke: '#000', 'stroke-width': 1 }),
      ...[-1, 1].map((share) => line([at(share), TOP], [at(share), bottom], HALF_WIDTH)),
      ...scale.at.map((share) =>
        text(share.toFixed(scale.decimals), [at(share), bottom + 18], {
          'font-size': SMALL,
          'text-anchor': 'middle',
        }),
      ),
      text(axis, [(left + right - textWidth(axis, SIZE)) / 2, bottom + 42], { 'font-size': SIZE }),
    ],
  });
}
