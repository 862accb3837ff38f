import { axleName } from '../../coilover/sizing/inputs.ts';
import { blocksOrder } from '../../coilover/sizing/order-status.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { isCheck } from '../../diagnostic.ts';
import { sentence } from '../../sentences/sentence.ts';
import type { Units } from '../../units.ts';
import { issueLine } from '../issue-line.ts';
import { afterWeighing } from './after-weighing.ts';
import { axlePart } from './axle-part.ts';
import { type Block, heading, list, type OrderSheet, paragraph } from './blocks.ts';
import { contributionBars } from './contribution-bars.ts';
import { sizingData } from './data.ts';
import { figureRows } from './figures.ts';
import { loadStatesPart } from './load-states.ts';
import { sayIn } from './words.ts';

/**
 * The builder's paper of a sizing: everything that the order leaves out, with definitions, intervals, pictures, open questions and
 * assumptions; metric and imperial side by side.
 */
export function reportSheet(sizing: Sizing): OrderSheet {
  const { name, use, units, status, axles, figures, conflicts, checks, assumptions, openQuestions } = sizing;
  const { order, designState } = sizing;
  const title = 'Report on the coilovers';
  const parts: readonly Block[] = [
    ...afterWeighing(axles, units),
    heading(2, 'The car'),
    figureRows(figures, units),
    heading(2, 'Open questions'),
    list(openQuestions.map((one) => sentence(one, units))),
    ...loadStatesPart(axles, designState, sayIn(units)),
    ...axles.flatMap((axle) => axlePart(axle, units)),
    ...matters(axles),
    heading(2, 'Assumptions'),
    list(assumptions.map((one) => sentence(one, units))),
    heading(2, 'Cautions'),
    list(CAUTIONS),
  ];
  return {
    title: name === undefined ? title : `${title}: ${name}`,
    data: sizingData(sizing, CAUTIONS),
    blocks: [
      ...(status === 'notForOrder' ? [NOT_FOR_ORDER] : []),
      ...(order === null ? [] : [paragraph(`Revision ${order.revision} of ${order.date}.`)]),
      ...findingsPart(conflicts, units),
      ...(use === undefined ? [] : [paragraph(`Use: ${use}`)]),
      paragraph(
        'For the builder: everything that the order leaves out. Lengths are eye to eye, centre to centre of the bolts. A figure with an interval is computed from uncertain inputs: the true value lies in it 95 times in 100.',
      ),
      ...checksPart([...conflicts.filter(isCheck), ...checks], units),
      contentsOf(parts),
      ...parts,
    ],
  };
}

/** The headings of blocks. */
function contentsOf(blocks: readonly Block[]): Block {
  const items: { text: string; parts: string[] }[] = [];
  for (const block of blocks) {
    if (block.kind !== 'heading') continue;
    if (block.level === 2) items.push({ text: block.text, parts: [] });
    else items.at(-1)?.parts.push(block.text);
  }
  return { kind: 'contents', items };
}

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
    list(conflicts.map((issue) => issueLine(issue, units))),
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

/** Figures for which it is told what makes them uncertain. */
const TOLD = [
  'requiredSpringRate',
  'frequency',
  'bumpTravelRequired',
  'droopTravelRequired',
  'preload',
] as const;
/** Contributions that are named. */
const CAUSES = 3;

/** What makes the figures that matter uncertain: a bar for each, and the same in words. */
function matters(axles: readonly AxleSizing[]): Block[] {
  const parts = axles.flatMap(({ axle, figure }): Block[] => {
    const figures = TOLD.map(figure).filter(({ contributions }) => contributions.length > 0);
    const title = `${axleName(axle)}: what makes each figure uncertain`;
    const svg = contributionBars(figures, title);
    if (svg === null) return [];
    const lines = figures.map(({ label, contributions }) => {
      const causes = contributions
        .slice(0, CAUSES)
        .map(({ input, fraction }) => `${input} ${(100 * fraction).toFixed(0)} %`);
      return `${axleName(axle)}, ${label}: ${causes.join(', ')}.`;
    });
    return [heading(3, axleName(axle)), { kind: 'picture', title, svg }, list(lines)];
  });
  if (parts.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: 'What matters most', startsPage: true },
    paragraph(
      'Contribution of each number of the car file to the variance of a figure, the largest first; below, the same by its place in the file. Measure these first.',
    ),
    ...parts,
  ];
}
