import { blocksOrder, type OrderStatus } from '../../coilover/sizing/order-status.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { type Diagnostic, unknownOptions } from '../../diagnostic.ts';
import { refuse } from '../../errors/report.ts';
import { refuseOtherThan } from '../../errors/result.ts';
import { adviceHeading } from '../../sentences/after-advice.ts';
import { issueLines } from '../../sentences/sentence.ts';
import type { Units } from '../../units.ts';
import { axleStatus, axleStatusLine, SUMMARY_HEAD, summaryRows } from '../summary.ts';
import { afterWeighing } from './after-weighing.ts';
import { assumptionsPart } from './assumptions.ts';
import { axlePart } from './axle-part.ts';
import { type Block, heading, list, type OrderSheet, paragraph, table } from './blocks.ts';
import { contributionBars, contributionTable, NARROW_WIDTH } from './contribution-bars.ts';
import { sizingData } from './data.ts';
import { figuresPart } from './figures.ts';
import { loadStatesPart } from './load-states.ts';
import { type OnPaper, onPaper } from './on-paper.ts';
import { openQuestionsPart } from './open-questions-part.ts';
import { steadyCornerPart } from './steady-corner-part.ts';

/** What tells two prints of a report apart, as the caller has it: the library reads no file name and no clock. */
export interface ReportSheetOptions {
  /** Name of the car file. */
  readonly file?: string;
  /** Date of the print, as text: `2026-05-17`. */
  readonly date?: string;
}

const OPTIONS = ['file', 'date'];

/**
 * The builder's paper of a sizing: everything that the maker's pages leave out, with definitions, intervals, pictures, open questions and
 * assumptions; metric and imperial side by side.
 *
 * @throws InputError for an unknown option.
 */
export function reportSheet(sizing: Sizing, options: ReportSheetOptions = {}): OrderSheet {
  refuseOtherThan('sizing', sizing);
  refuse('report options', unknownOptions(options, OPTIONS));
  const { name, use, units, status, axles, conflicts, checks, designState } = sizing;
  const paper = onPaper(units);
  const title = 'Report on the coilovers';
  const parts: readonly Block[] = [
    ...findingsPart(sizing, paper),
    ...checksPart(checks, units),
    ...openQuestionsPart(sizing),
    ...afterWeighing(sizing, paper),
    ...loadStatesPart(axles, designState, paper),
    ...steadyCornerPart(sizing, paper),
    ...axles.flatMap((axle) => axlePart(axle, axleStatus(sizing, axle), paper)),
    ...matters(axles),
    heading(2, 'Figures'),
    ...figuresPart(sizing, paper),
    ...assumptionsPart(sizing, paper),
    heading(2, 'Cautions'),
    list(CAUTIONS),
  ];
  return {
    title: name === undefined ? title : `${title}: ${name}`,
    data: { ...reportData(sizing), ...options },
    blocks: [
      ...(status === 'notForOrder' ? [NOT_FOR_ORDER] : []),
      paragraph(`${issueOf(sizing, options)} ${axleStatusLine(sizing, SEE)}`),
      ...(use === undefined ? [] : [paragraph(`Use: ${use}`)]),
      paragraph(
        'For the builder: everything that the maker’s pages leave out. Lengths are eye to eye, centre to centre of the bolts. A 95 % interval holds the true value 95 times in 100.',
      ),
      ...summaryPart(axles, units),
      ...(conflicts.length === 0 ? [paragraph('Conflicts: none.')] : []),
      contentsOf(parts),
      ...parts,
    ],
  };
}

/** What a report says as data, without the work of its pictures. */
export function reportData(sizing: Sizing): Readonly<Record<string, unknown>> {
  return sizingData(sizing, CAUTIONS);
}

/** What was printed: the revision that the file stands for, the file, and when. */
function issueOf({ order, axles }: Sizing, { file, date }: ReportSheetOptions): string {
  const bought = axles.flatMap(({ afterOrder }) => (afterOrder === null ? [] : [afterOrder.revision]))[0];
  const what =
    order !== null
      ? `Revision ${order.revision} of ${order.date}`
      : bought == null
        ? 'Draft'
        : `After revision ${bought}`;
  const of = [
    what,
    ...(file === undefined ? [] : [`file ${file}`]),
    ...(date === undefined ? [] : [`printed on ${date}`]),
  ];
  return `${of.join(', ')}.`;
}

/** Where a report says why. */
const SEE: Readonly<Partial<Record<OrderStatus, string>>> = {
  enquiry: 'see Open questions',
  notForOrder: 'see Conflicts',
};

/** Target, chosen and margin of each axle, as the terminal has them. */
function summaryPart(axles: readonly AxleSizing[], units: Units): Block[] {
  const rows = axles.flatMap((sized) =>
    summaryRows(sized, units).map(([label, ...cells]) => [`${axleName(sized.axle)}: ${label}`, ...cells]),
  );
  const isBought = axles.some(({ afterOrder }) => afterOrder !== null);
  return rows.length === 0
    ? []
    : [
        table(
          isBought ? 'Summary, with spring and perch as they are fitted' : 'Summary',
          ['figure', ...SUMMARY_HEAD],
          rows,
        ),
      ];
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
export function findingsPart({ conflicts, axles }: Sizing, paper: OnPaper): Block[] {
  if (conflicts.length === 0) return [];
  const [units] = paper.units;
  return [
    heading(2, 'Conflicts'),
    ...(conflicts.some(blocksOrder)
      ? []
      : [paragraph('The coilovers can be made and fit. Resolve these conflicts, or accept them.')]),
    ...curedPart(conflicts, axles, paper),
    issueTable('Conflicts', 'required', conflicts, units),
  ];
}

/** How many conflicts the advice on what was bought cures, and how little is left then. */
function curedPart(conflicts: Sizing['conflicts'], axles: readonly AxleSizing[], paper: OnPaper): Block[] {
  const judged = conflicts.filter(({ values }) => 'afterAdvice' in values);
  if (judged.length === 0) return [];
  const remain = conflicts.length - judged.filter(({ values }) => values.afterAdvice === 'cured').length;
  const heading = adviceHeading(judged[0].values.weighed === true);
  return [
    paragraph(
      `First do what "${heading}" says. ${remain === 0 ? 'No conflict remains then.' : `Of these ${conflicts.length} conflicts, ${remain} ${remain === 1 ? 'remains' : 'remain'} then.`}${narrowMargins(axles, paper)}`,
    ),
  ];
}

/** The travel margins that are left after the advice and are less than half of their interval is wide; the smaller of the two wheels. */
function narrowMargins(axles: readonly AxleSizing[], paper: OnPaper): string {
  const found = axles.flatMap(({ axle, afterOrder, figure }) =>
    (['bump', 'droop'] as const).flatMap((side) => {
      const { lower, upper } = figure(`${side}TravelMargin`);
      const margins = (afterOrder?.wheels ?? []).flatMap(({ advised }) => advised?.[`${side}Margin`] ?? []);
      if (lower === null || upper === null || margins.length === 0) return [];
      const [margin, half] = [Math.min(...margins), (upper - lower) / 2];
      if (margin < 0 || margin >= half) return [];
      return [
        `${axle} ${side} margin ${paper.both(margin, 'length')}, interval about ±${paper.both(half, 'length')}`,
      ];
    }),
  );
  return found.length === 0
    ? ''
    : ` These margins are then less than their 95 % interval: ${found.join('; ')}. Check the stops on the car.`;
}

/** Problems, each with value and place, what is required, and what to do; columns with nothing in them are left out. */
function issueTable(
  label: string,
  due: 'required' | 'usual',
  issues: readonly Diagnostic[],
  units: Units,
): Block {
  const rows = issues.map((issue) => {
    const [problem, ...lines] = issueLines(issue, units);
    const of = (name: RegExp) => lines.find((line) => name.test(line))?.slice(LABEL) ?? '';
    return [problem, of(/^ {2}found/), of(/^ {2}(required|allowed|usual)/), of(/^ {2}fix/)];
  });
  const head = ['problem', 'found', due, 'fix'];
  const used = head.map((_, k) => rows.some((row) => row[k] !== ''));
  return table(
    label,
    head.filter((_, k) => used[k]),
    rows.map((row) => row.filter((_, k) => used[k])),
    [],
  );
}

/** Length of a label in `issueLines`. */
const LABEL = 12;

/** What looks wrong, or may not do; nothing where all looks right. */
function checksPart(checks: Sizing['checks'], units: Units): Block[] {
  if (checks.length === 0) return [];
  return [heading(2, 'Check these inputs'), issueTable('Check these inputs', 'usual', checks, units)];
}

export const CAUTIONS: readonly string[] = [
  'A compressed spring stores enough energy to kill. Compress and release it with proper tools, never held by the perch alone.',
  'Gas dampers are under pressure: nobody but their maker opens, drills or heats them.',
  'Brackets, welds and bolts are loaded as the tables of forces say, and more where a wheel hits something. Their strength is not checked here: that is for a qualified engineer.',
  'Whether the car may go on the road with these parts is a matter of local codes and of a licensed inspector.',
  'These figures are for planning. Check clearances through the whole travel on the car, with the springs out, before it moves.',
];

/** Figures whose uncertainty is broken down. */
const SHOWN = [
  'requiredSpringRate',
  'frequency',
  'bumpTravelRequired',
  'droopTravelRequired',
  'preload',
] as const;

/** What makes the figures that matter uncertain: a bar for each. */
function matters(axles: readonly AxleSizing[]): Block[] {
  const parts = axles.flatMap(({ axle, figure }): Block[] => {
    const title = `${axleName(axle)}: what makes each figure uncertain`;
    const figures = SHOWN.map(figure);
    const svg = contributionBars(figures, title);
    if (svg === null) return [];
    return [
      heading(3, axleName(axle)),
      {
        kind: 'picture',
        title,
        svg,
        narrow: contributionBars(figures, title, NARROW_WIDTH) ?? svg,
        inWords: [contributionTable(figures, title)],
      },
    ];
  });
  if (parts.length === 0) return [];
  return [
    heading(2, 'What matters most'),
    paragraph(
      'What each number of the car file contributes to the variance of a figure, the largest first, with the place in the file. Measure the largest that you can measure first. “As made” is a tolerance on the order: the perch takes it out.',
    ),
    ...parts,
  ];
}
