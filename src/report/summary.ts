import type { AxleFigureName } from '../coilover/sizing/numbers.ts';
import { conflictsOn, type OrderStatus, orderStatus } from '../coilover/sizing/order-status.ts';
import type { AxleSizing, Figure, Sizing } from '../coilover/sizing/result.ts';
import { axleName } from '../corner/axles.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { refuseOtherThan } from '../errors/result.ts';
import { issueLines } from '../sentences/sentence.ts';
import { numberIn, textIn, type Units } from '../units.ts';
import { printedMargin } from './margins.ts';
import { fold } from './text.ts';

/** Columns of a terminal. */
const WIDTH = 100;
const LABEL = 26;
const CELL = 24;

/**
 * A sizing on one screen, as plain text in the units of its document, at most 100 columns wide: for each axle target, chosen and
 * margin, then every conflict and every check.
 */
export function sizingSummary(sizing: Sizing): string {
  refuseOtherThan('sizing', sizing);
  const { name, units, axles, conflicts, checks } = sizing;
  const lines = [
    [...(name === undefined ? [] : [name]), statusLine(sizing)].join('. '),
    row(['', ...SUMMARY_HEAD]),
    ...axles.flatMap((sized) => [
      axleName(sized.axle),
      ...summaryRows(sized, units).map(([label, ...cells]) => row([`  ${label}`, ...cells])),
    ]),
    ...numbered('Conflicts', 'No conflicts.', conflicts, units),
    ...numbered('Check these inputs', null, checks, units),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

/** Heads of the columns of a summary but the first. */
export const SUMMARY_HEAD = ['target or required', 'chosen or available', 'margin (95 % interval)'] as const;

/** What an order of an axle stands or falls by: label, target, chosen, margin. */
export function summaryRows(sized: AxleSizing, units: Units): Cells[] {
  return ROWS.map((cells) => cells(sized, units)).filter((cells) => cells !== null);
}

/** Findings under a heading with their number; where there are none, what to say. */
function numbered(
  heading: string,
  none: string | null,
  findings: readonly Diagnostic[],
  units: Units,
): string[] {
  if (findings.length === 0) return none === null ? [] : [none];
  return [
    `${heading}: ${findings.length}`,
    ...findings
      .flatMap((issue) => issueLines(issue, units).flatMap((one) => wrapped(one, WIDTH - 2)))
      .map((one) => `  ${one}`),
  ];
}

const STATUS: Readonly<Record<OrderStatus, string>> = {
  order: 'ready to order',
  enquiry: 'enquiry only',
  notForOrder: 'NOT FOR ORDER',
  bought: 'bought, nothing to order',
};

/** The status of an axle by itself. */
export function axleStatus({ conflicts }: Sizing, sized: AxleSizing): OrderStatus {
  return orderStatus(conflictsOn(sized.axle, conflicts), [sized]);
}

/** What may be done about each axle: `Front: ready to order. Rear: enquiry only, see Open questions.`; `see` says where to look. */
export function axleStatusLine(sizing: Sizing, see: Readonly<Partial<Record<OrderStatus, string>>>): string {
  return sizing.axles
    .map((sized) => {
      const status = axleStatus(sizing, sized);
      return `${axleName(sized.axle)}: ${[STATUS[status], see[status] ?? []].flat().join(', ')}.`;
    })
    .join(' ');
}

/** The status of each axle; with it, how many conflicts there are that do not stand against an order. */
function statusLine(sizing: Sizing): string {
  const { status, conflicts } = sizing;
  const accepted = status === 'notForOrder' ? 0 : conflicts.length;
  const line = axleStatusLine(sizing, { notForOrder: 'see the conflicts below' });
  return accepted === 0
    ? line
    : `${line} ${accepted} conflict${accepted === 1 ? '' : 's'} to resolve or accept.`;
}

function row([label, ...cells]: readonly string[]): string {
  return label.padEnd(LABEL) + cells.map((cell) => cell.padEnd(CELL)).join(' ');
}

type Cells = readonly [label: string, target: string, chosen: string, margin: string];
/** A row of an axle; null where there is nothing to say. */
type Row = (axle: AxleSizing, units: Units) => Cells | null;

/** A figure as text; a dash where it has no value. */
function shown({ figure }: AxleSizing, name: AxleFigureName, units: Units): string {
  const { value, quantity } = figure(name);
  return value === null ? '–' : textIn(value, quantity, units);
}

/** A signed length, mm, as it is printed: `+12.3`. */
function signed(mm: number, units: Units): string {
  return `${mm > 0 ? '+' : ''}${numberIn(mm, 'length', units)}`;
}

/** A row of lengths whose margin is the difference of the two as printed, with its interval: `+12.3 (+4.1 to +20.5)`. */
function withMargin(
  label: string,
  {
    required,
    available,
    lower,
    upper,
  }: Record<'required' | 'available', number> & Pick<Figure, 'lower' | 'upper'>,
  units: Units,
): Cells {
  const margin = signed(printedMargin(required, available, units), units);
  const interval =
    lower === null || upper === null || lower === upper
      ? ''
      : ` (${signed(lower, units)} to ${signed(upper, units)})`;
  return [
    label,
    textIn(required, 'length', units),
    textIn(available, 'length', units),
    `${margin}${interval}`,
  ];
}

/** A line, after whose first word or label the rest is indented, in lines of at most `width` characters. */
function wrapped(line: string, width: number): string[] {
  const [label] = /^ *\w+: +/.exec(line) ?? [''];
  return fold(line.slice(label.length), width - label.length).map(
    (part, k) => `${k === 0 ? label : ' '.repeat(label.length)}${part}`,
  );
}

/** A number that may be written with its half-width. */
function given(value: number | { readonly value: number } | undefined): number | undefined {
  return typeof value === 'object' ? value.value : value;
}

const chosen =
  (label: string, name: AxleFigureName, required?: AxleFigureName): Row =>
  (axle, units) =>
    axle.figure(name).value === null
      ? null
      : [label, required === undefined ? '' : shown(axle, required, units), shown(axle, name, units), ''];

/** Travel on one side: required, available, margin. */
const travel =
  (side: 'bump' | 'droop'): Row =>
  ({ figure }, units) => {
    const [required, available] = [
      figure(`${side}TravelRequired`).value,
      figure(`${side}TravelAvailable`).value,
    ];
    if (required === null) return null;
    const label = `${side} travel`;
    return available === null
      ? [label, textIn(required, 'length', units), 'nothing ends it', '']
      : withMargin(label, { ...figure(`${side}TravelMargin`), required, available }, units);
  };

/** What an order stands or falls by. */
const ROWS: readonly Row[] = [
  (axle, units) => {
    const { frequency, withTyre } = axle.input.sizing?.target ?? {};
    const name = withTyre === true ? 'frequencyWithTyre' : 'frequency';
    if (axle.figure(name).value === null) return null;
    const target = given(frequency);
    return [
      withTyre === true ? 'frequency with tyre' : 'frequency',
      target === undefined ? '' : textIn(target, 'frequency', units),
      shown(axle, name, units),
      '',
    ];
  },
  (axle, units) => {
    if (axle.spring === null) return null;
    const name = axle.spring.name === '' ? '' : ` "${axle.spring.name}"`;
    return [
      'spring rate',
      shown(axle, 'requiredSpringRate', units),
      `${textIn(axle.spring.rate, 'rate', units)}${name}`,
      '',
    ];
  },
  chosen('length at ride height', 'designLength'),
  chosen('extended length', 'extendedLength'),
  chosen('compressed length', 'compressedLength'),
  travel('bump'),
  travel('droop'),
  ({ figure }, units) => {
    const [required, margin] = [figure('springTravelRequired').value, figure('springTravelMargin')];
    if (required === null) return null;
    if (margin.value === null) {
      const least = figure('springTravelRequired').upper ?? required;
      return ['spring travel', `at least ${textIn(least, 'length', units)}`, '–', ''];
    }
    return withMargin('spring travel', { ...margin, required, available: required + margin.value }, units);
  },
  (axle) => {
    const target = given(axle.input.sizing?.damping?.ratio);
    const ratio = axle.figure('staticDampingRatio').value;
    return target === undefined || ratio === null
      ? null
      : ['damping ratio', target.toFixed(2), ratio.toFixed(2), ''];
  },
];
