// Block 1 of the order: how many, how long, with how much stroke, and where stops and damper end the wheel travel.

import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { unsettledOn } from '../../coilover/sizing/unsettled.ts';
import type { LimitCause } from '../../corner/limits/limits.ts';
import type { Units } from '../../units.ts';
import { printedFigure } from '../margins.ts';
import { type Block, paragraph } from './blocks.ts';
import { limitWords } from './limit-words.ts';
import type { Cells } from './on-paper.ts';
import { staticOffset } from './order-car.ts';
import { toppingOutLoad, toppingOutParts } from './order-loads.ts';
import { known, type OrderPage, orderBlock, row, rowsOf, slashed, sumWords, wordRow } from './order-rows.ts';

export function lengths(page: OrderPage): Block[] {
  const { sized, paper, isBought } = page;
  const { input, figure, limits, damper } = sized;
  const { order = {} } = input.sizing ?? {};
  const { units, number } = paper;
  const { lengthTolerance: tolerance } = order;
  const inEach = (of: (units: Units) => string): Cells => [of(units[0]), of(units[1])];
  const printed = (name: AxleFigureName, of: Units) => {
    const mm = printedFigure(sized, name, of, paper.rounding);
    return mm === null ? '–' : number(mm, 'length', of);
  };
  const plain = (name: AxleFigureName) => known(figure(name).value, () => inEach((of) => printed(name, of)));
  // Lengths that follow from the travel are bounds: what is off them goes outward.
  const blank = (outward: Outward) =>
    damper?.specified !== false ? '± ____' : outward === 'longer' ? '+ ____ / − 0' : '+ 0 / − ____';
  const within = (of: Units, outward: Outward) => {
    if (tolerance === undefined) return isBought ? '' : ` ${blank(outward)} *`;
    return ` ± ${number(tolerance, 'length', of)}`;
  };
  const toTolerance = (name: AxleFigureName, outward: Outward) =>
    known(figure(name).value, () => inEach((of) => `${printed(name, of)}${within(of, outward)}`));
  const isStrokeOpen = !isBought && unsettledOn(sized).some(({ item }) => item === 'strokeFits');
  const stroke = known(
    plain('stroke'),
    ([own, other]): Cells => (isStrokeOpen ? [`${own} *`, `${other} *`] : [own, other]),
  );
  const rows = [
    wordRow('quantity', known(order.quantity, String)),
    wordRow('left and right, alike or handed', order.handed),
    row('extended', toTolerance('extendedLength', 'longer')),
    row('at ride height', plain('designLength')),
    row('compressed, no bump stop', toTolerance('compressedLength', 'shorter')),
    row('stroke', damper === null ? null : stroke),
    ...(damper === null
      ? []
      : [
          row(
            'stroke, compression / rebound',
            inEach((of) => `${printed('compressionStroke', of)} / ${printed('extensionStroke', of)}`),
          ),
        ]),
    wordRow('limit in bump', limits.bump === null ? NO_STOP : limitWords(limits.bump)),
    wordRow('limit in droop', stopWords(limits.droop)),
    ...rowsOf(toppingOutLoad(sized), (load) => row('topping-out load, static', paper.cells(load, 'force'))),
    ...rowsOf(toppingOutParts(sized), (parts) =>
      wordRow(`made up of, ${paper.unit('force', units[0])}`, sumWords(paper, parts)),
    ),
  ];
  const head = ['', ...units.map((of) => paper.unit('length', of))];
  return [...orderBlock(page, '1 Lengths', rows, head), ...travels(page)];
}

/** Which way a length may be off. */
type Outward = 'longer' | 'shorter';

/** What damper lengths that follow from the travel allow for, and which way they may be changed. */
function allowed({ limits: { bumpStop }, sizing }: AxleSizing['input']): string {
  const solid = bumpStop === undefined ? 'compressed' : 'stop solid';
  const isCounted = sizing?.order?.lengthTolerance !== undefined;
  const [within, also] = isCounted ? [' but for the tolerance', 'it and for '] : [', tolerance included', ''];
  return `Extended no shorter, ${solid} no longer than here${within}: the lengths allow for ${also}the upper end of the 95 % interval of the required travel whichever spring is fitted. Damper lengths are rounded outward to whole mm.`;
}

const NO_STOP = 'none known';

function stopWords(limit: AxleSizing['limits']['droop']): string {
  if (limit === null) return NO_STOP;
  if (limit.cause === 'damperExtended') return 'damper extended: must take topping out';
  return `${limitWords(limit)}, before the damper`;
}

/** What the wheel's travel meets, in the order of the table. */
const MET: readonly (readonly [cause: LimitCause | 'bumpStopContact', words: string])[] = [
  ['bumpStopContact', 'bump: stop in contact'],
  ['bumpStopSolid', 'bump: stop solid'],
  ['damperCompressed', 'bump: damper compressed'],
  ['damperExtended', 'droop: damper extended'],
];

/** Wheel travel from ride height to what damper and bump stop meet, with the coilover's length there. */
function travels({ sized, paper }: OrderPage): Block[] {
  const { limits, input, figure, damper } = sized;
  const { bump, droop, later, events } = limits;
  const [most, least] = [figure('bumpTravelRequired').value, figure('droopTravelRequired').value];
  const required =
    most === null || least === null
      ? []
      : [
          [
            'required, bump / droop',
            paper.inOne(slashed(paper.cells(most, 'length'), paper.cells(least, 'length'))),
            '',
          ],
        ];
  const met = MET.filter(
    ([cause]) => cause !== 'damperCompressed' || input.limits.bumpStop === undefined,
  ).flatMap(([cause, words]) => {
    const found = [bump, droop, ...later, ...events].find((one) =>
      one === null ? false : 'event' in one ? one.event === cause : one.cause === cause,
    );
    const length = found?.diagnostic.values.length;
    return found == null || typeof length !== 'number'
      ? []
      : [[words, paper.both(Math.abs(found.travel), 'length'), paper.both(length, 'length')]];
  });
  const rows = [...required, ...met];
  const ride = staticOffset(sized, paper) === null ? 'ride height' : 'design ride height';
  return rows.length === 0
    ? []
    : [
        {
          kind: 'table',
          head: [`wheel, from ${ride}`, 'wheel travel', 'eye to eye'],
          rows,
          figures: [],
          label: 'Wheel travel from ride height, with the length of the coilover',
          spans: true,
        },
        ...(damper?.specified === false ? [paragraph(allowed(input))] : []),
      ];
}
