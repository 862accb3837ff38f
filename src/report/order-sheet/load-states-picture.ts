// Where each axle stands in its travel in every load state: a bar from droop limit to bump limit, a dot where the wheel stands.

import type { LoadState } from '../../coilover/sizing/load-states.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { type Element, element, line, svgDocument, text } from '../svg.ts';
import { fold, textWidth } from '../text.ts';
import type { OnPaper } from './on-paper.ts';
import { FONT, THIN, travelAxis, WIDTH } from './travel-axis.ts';

const BAR = 10;
const ROW = 18;
/** Above the first bar of an axle, for its name. */
const HEAD = 18;
const AXIS = 34;
/** Room for the longest name of a state, and for the unit at the right end. */
const MOST_LEFT = 220;
const RIGHT = 96;
/** The same on a narrow screen, where a name stands above its bar; room left of the bars, and height of the name. */
const NARROW_RIGHT = 110;
const EDGE = 12;
const NAME_LINE = 15;
/** Height of a line of the legend. */
const LEGEND_LINE = 15;
/** Characters of a name at most. */
const NAME = 32;

/** A state that stands somewhere within known limits. */
interface Standing {
  readonly name: string;
  readonly at: number;
  readonly droop: number;
  readonly bump: number;
  readonly contact: number | null;
}

/** How a picture is laid out: its width, and whether a name stands above its bar or to the left of it. */
interface Layout {
  readonly width: number;
  readonly names: 'above' | 'left';
  readonly legend: readonly string[];
}

const LEGEND = 'dot: where the wheel stands; dark: on the bump stop; dashed: design ride height';
const WIDE: Layout = { width: WIDTH, names: 'left', legend: [LEGEND] };
/** For a narrow screen. */
const NARROW: Layout = {
  width: 360,
  names: 'above',
  legend: ['dot: where the wheel stands; dark: on the bump stop;', 'dashed: design ride height'],
};

/** The picture; null where no state of any axle stands between limits that are known. */
export function loadStatesPicture(
  axles: readonly AxleSizing[],
  title: string,
  paper: OnPaper,
): string | null {
  return pictureIn(WIDE, axles, title, paper);
}

/** The same for a narrow screen: each name above its bar. */
export function narrowLoadStates(axles: readonly AxleSizing[], title: string, paper: OnPaper): string | null {
  return pictureIn(NARROW, axles, title, paper);
}

function pictureIn(
  { width, names, legend }: Layout,
  axles: readonly AxleSizing[],
  title: string,
  paper: OnPaper,
): string | null {
  const groups = axles.map(({ axle, loadStates }) => ({
    name: axleName(axle),
    states: loadStates.flatMap(standing),
  }));
  const all = groups.flatMap(({ states }) => states);
  if (all.length === 0) return null;
  const [units] = paper.units;
  const [from, to] = [Math.min(...all.map(({ droop }) => droop)), Math.max(...all.map(({ bump }) => bump))];
  const isLeft = names === 'left';
  const left = isLeft
    ? Math.min(MOST_LEFT, 10 + Math.max(...all.map(({ name }) => textWidth(name, FONT))))
    : EDGE;
  const [row, lead] = isLeft ? [ROW, 0] : [ROW + NAME_LINE, NAME_LINE];
  const x = (mm: number) =>
    left + ((width - left - (isLeft ? RIGHT : NARROW_RIGHT)) * (mm - from)) / (to - from);
  const bar = ({ name, at, droop, bump, contact }: Standing, y: number): Element[] => [
    isLeft
      ? text(name, [left - 8, y + BAR], { 'font-size': FONT, 'text-anchor': 'end' })
      : text(name, [left, y - 4], { 'font-size': FONT }),
    element('rect', { x: x(droop), y, width: x(bump) - x(droop), height: BAR, fill: '#ddd', ...THIN }),
    ...(contact === null
      ? []
      : [
          element('rect', {
            x: x(contact),
            y,
            width: Math.max(0, x(bump) - x(contact)),
            height: BAR,
            fill: '#999',
            ...THIN,
          }),
        ]),
    // Where names stand between bars, it is drawn on each bar alone.
    ...(isLeft ? [] : [ride(x(0), y - 2, y + BAR + 2)]),
    element('circle', { cx: x(at), cy: y + BAR / 2, r: 4, fill: '#000' }),
  ];
  let y = 0;
  const content = groups.flatMap(({ name, states }): Element[] => {
    if (states.length === 0) return [];
    const top = y + HEAD;
    y = top + states.length * row;
    return [
      text(name, [0, top - 6], { 'font-size': FONT, 'font-weight': 'bold' }),
      ...states.flatMap((state, k) => bar(state, top + lead + k * row)),
    ];
  });
  const axis = y + 2;
  return svgDocument({
    width,
    height: axis + AXIS + (legend.length - 1) * LEGEND_LINE,
    title,
    content: [
      ...(isLeft ? [ride(x(0), HEAD - 4, axis)] : []),
      ...content,
      ...travelAxis(x, [from, to], axis, units, 14),
      ...legend.map((words, k) => text(words, [0, axis + 30 + k * LEGEND_LINE], { 'font-size': FONT })),
    ],
  });
}

/** Design ride height. */
function ride(x: number, from: number, to: number): Element {
  return line([x, from], [x, to], { ...THIN, stroke: '#555', 'stroke-dasharray': '2 2' });
}

function standing({
  name,
  staticTravel: at,
  droopTravelLeft,
  bumpTravelLeft,
  travelToContact,
}: LoadState): Standing[] {
  if (at === null || droopTravelLeft === null || bumpTravelLeft === null) return [];
  const [short] = fold(name, NAME);
  return [
    {
      name: short === name ? name : `${short} …`,
      at,
      droop: at - droopTravelLeft,
      bump: at + bumpTravelLeft,
      contact: travelToContact === null ? null : at + travelToContact,
    },
  ];
}
