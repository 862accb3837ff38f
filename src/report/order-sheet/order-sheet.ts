import { axleName } from '../../coilover/sizing/inputs.ts';
import { blocksOrder, type OrderStatus } from '../../coilover/sizing/order-status.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { isCheck } from '../../diagnostic.ts';
import { sentence } from '../../sentences/sentence.ts';
import type { Units } from '../../units.ts';
import { issueLine } from '../issue-line.ts';
import { afterWeighing } from './after-weighing.ts';
import { axlePart } from './axle-part.ts';
import { type Block, heading, list, paragraph } from './blocks.ts';
import { figureRows } from './figures.ts';
import { loadStatesPart } from './load-states.ts';
import { orderTable } from './order-table.ts';
import { sayIn } from './words.ts';

/** What goes to whoever makes the coilovers, as plain data: `sheetMarkdown`, `sheetHtml` and `sheetJson` write it down. */
export interface OrderSheet {
  readonly title: string;
  readonly blocks: readonly Block[];
}

/**
 * The sheet of a sizing: what is settled by the order apart from what can be changed later, travel, loads, how sure each figure is,
 * pictures, what is open and what was assumed; metric and imperial side by side.
 */
export function orderSheet(sizing: Sizing): OrderSheet {
  const { name, use, units, status, axles, figures, conflicts, checks, assumptions, openQuestions } = sizing;
  const { order, designState } = sizing;
  const title = TITLES[status];
  return {
    title: name === undefined ? title : `${title}: ${name}`,
    blocks: [
      ...stampOf(status, order),
      ...(order === null ? [] : [paragraph(`Revision ${order.revision} of ${order.date}.`)]),
      ...findingsPart(conflicts, units),
      ...(use === undefined ? [] : [paragraph(`Use: ${use}`)]),
      paragraph(
        'Lengths are eye to eye, centre to centre of the bolts. A figure with an interval is computed from uncertain inputs: the true value lies in it 95 times in 100.',
      ),
      ...checksPart([...conflicts.filter(isCheck), ...checks], units),
      heading(2, 'What to make'),
      ...(designState === null
        ? []
        : [paragraph(`All lengths and ride height mean the load state "${designState}".`)]),
      orderTable(axles, sayIn(units)),
      ...afterWeighing(axles, units),
      ...loadStatesPart(axles, designState, sayIn(units)),
      ...axles.flatMap((axle) => axlePart(axle, units)),
      ...matters(axles),
      heading(2, 'The car'),
      figureRows(figures, units),
      heading(2, 'Open questions'),
      list(openQuestions.map((one) => sentence(one, units))),
      heading(2, 'Assumptions'),
      list(assumptions.map((one) => sentence(one, units))),
      heading(2, 'Cautions'),
      list(CAUTIONS),
    ],
  };
}

const TITLES: Readonly<Record<OrderStatus, string>> = {
  order: 'Order for coilovers',
  enquiry: 'Enquiry for coilovers',
  notForOrder: 'Coilovers, not for order',
};

/** What stands in the way of sending a sheet: conflicts before a missing revision; nothing where neither does. */
function stampOf(status: OrderStatus, order: Sizing['order']): Block[] {
  if (status === 'notForOrder') return [NOT_FOR_ORDER];
  return order === null ? [DRAFT] : [];
}

const DRAFT: Block = {
  kind: 'stamp',
  text: 'DRAFT',
  advice: 'Not an order. Give order.revision and order.date in the car file before it is sent.',
};

const NOT_FOR_ORDER: Block = {
  kind: 'stamp',
  text: 'NOT FOR ORDER',
  advice: 'Do not send this to a maker. Resolve the conflicts below, then run it again.',
};

/** What can't be; nothing where all can. */
export function findingsPart(findings: Sizing['conflicts'], units: Units): Block[] {
  const conflicts = findings.filter((finding) => !isCheck(finding));
  if (conflicts.length === 0) return [];
  return [
    heading(2, 'Conflicts'),
    ...(conflicts.some(blocksOrder)
      ? []
      : [paragraph('The coilovers can be made and fit. Resolve these conflicts, or accept them.')]),
    list(conflicts.map((one) => issueLine(one, units))),
  ];
}

/** What looks wrong, or may not do; nothing where all looks right. */
function checksPart(checks: Sizing['checks'], units: Units): Block[] {
  if (checks.length === 0) return [];
  return [heading(2, 'Check these inputs'), list(checks.map((one) => issueLine(one, units)))];
}

export const CAUTIONS: readonly string[] = [
  'A compressed spring stores enough energy to kill. Compress and release it with proper tools, never with the spring perch as the only thing that holds it.',
  'Gas dampers are under pressure: nobody but their maker opens, drills or heats them.',
  'Brackets, welds and bolts are loaded as the tables of forces say, and more where a wheel hits something. Their strength is not checked here: that is for a qualified engineer.',
  'Whether the car may go on the road with these parts is a matter of local codes and of a licensed inspector.',
  'These figures are for planning. Check clearances through the whole travel on the car, with the springs out, before it moves.',
];

/** How many causes are named for a figure. */
const CAUSES = 3;
/** Figures for which it is told what makes them unsure. */
const TOLD = [
  'requiredSpringRate',
  'frequency',
  'bumpTravelRequired',
  'droopTravelRequired',
  'preload',
] as const;

/** What each of the figures that matter hangs on. */
function matters(axles: readonly AxleSizing[]): Block[] {
  const lines = axles.flatMap(({ axle, figure }) =>
    TOLD.flatMap((name): string[] => {
      const { label, contributions } = figure(name);
      if (contributions.length === 0) return [];
      const causes = contributions
        .slice(0, CAUSES)
        .map(({ input, fraction }) => `${input} ${(100 * fraction).toFixed(0)} %`);
      return [`${axleName(axle)}, ${label}: ${causes.join(', ')}.`];
    }),
  );
  if (lines.length === 0) return [];
  return [
    heading(2, 'Which guesses matter most'),
    paragraph(
      'Contribution of each number of the car file to the variance of a figure, named by its place in the file. Measure these first.',
    ),
    list(lines),
  ];
}
