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

/** The picture; null where no state of any axle stands between limits that are known. */
export function loadStatesPicture(
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
  const left = Math.min(MOST_LEFT, 10 + Math.max(...all.map(({ name }) => textWidth(name, FONT))));
  const x = (mm: number) => left + ((WIDTH - left - RIGHT) * (mm - from)) / (to - from);
  const bar = ({ name, at, droop, bump, contact }: Standing, y: number): Element[] => [
    text(name, [left - 8, y + BAR], { 'font-size': FONT, 'text-anchor': 'end' }),
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
    element('circle', { cx: x(at), cy: y + BAR / 2, r: 4, fill: '#000' }),
  ];
  let y = 0;
  const content = groups.flatMap(({ name, states }): Element[] => {
    if (states.length === 0) return [];
    const top = y + HEAD;
    y = top + states.length * ROW;
    return [
      text(name, [0, top - 6], { 'font-size': FONT, 'font-weight': 'bold' }),
      ...states.flatMap((state, k) => bar(state, top + k * ROW)),
    ];
  });
  const axis = y + 2;
  return svgDocument({
    width: WIDTH,
    height: axis + AXIS,
    title,
    content: [
      line([x(0), HEAD - 4], [x(0), axis], { ...THIN, stroke: '#555', 'stroke-dasharray': '2 2' }),
      ...content,
      ...travelAxis(x, [from, to], axis, units, 14),
      text(
        'dot: where the wheel stands; dark: on the bump stop; dashed: design ride height',
        [0, axis + 30],
        {
          'font-size': FONT,
        },
      ),
    ],
  });
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
