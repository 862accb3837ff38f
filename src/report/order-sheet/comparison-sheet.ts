import {
  type ChoiceChange,
  type ChoiceValue,
  type FigureChange,
  type LimitChange,
  type SizingComparison,
  specifiedIn,
} from '../../coilover/compare.ts';
import type { FigureGroup } from '../../coilover/sizing/figure.ts';
import { axleName } from '../../corner/axles.ts';
import { refuseOtherThan } from '../../errors/result.ts';
import { numberIn, textIn, type Units } from '../../units.ts';
import { spaced } from '../../words.ts';
import { issueLine } from '../issue-line.ts';
import { type Block, heading, list, type OrderSheet, paragraph, table } from './blocks.ts';

const CONSEQUENCES: Readonly<Record<SizingComparison['consequence'], string>> = {
  order: 'The order changes: a coilover is not the same. What differs in the order:',
  adjustable: 'The coilovers stay. Spring, valving or perch change:',
  car: 'The order stays: coilovers, springs, valving and perches are the same.',
  nothing: 'Nothing has changed.',
};

const GROUPS: readonly (readonly [FigureGroup, string])[] = [
  ['order', 'Fixed by the order'],
  ['adjustable', 'Can be changed later: spring, valving, perch'],
  ['car', 'The car'],
];

/** A comparison as a sheet, in the units of the second document: what it means for the order first. */
export function comparisonSheet(comparison: SizingComparison): OrderSheet {
  refuseOtherThan('comparison', comparison);
  const { names, units, figures, choices, limits, conflicts, checks, consequence } = comparison;
  const { before, after } = names;
  const whose = before === after ? before : `${before ?? 'before'} and ${after ?? 'after'}`;
  const issues = (title: string, found: typeof conflicts.gone): Block[] =>
    found.length === 0 ? [] : [heading(3, title), list(found.map((one) => issueLine(one, units)))];
  const changed = (title: string, { added, gone }: typeof conflicts): Block[] =>
    added.length + gone.length === 0
      ? []
      : [heading(2, title), ...issues('New', added), ...issues('Gone', gone)];
  return {
    title: whose === null ? 'Two sizings compared' : `Two sizings compared: ${whose}`,
    data: { ...comparison },
    blocks: [
      heading(2, 'What it means for the order'),
      paragraph(CONSEQUENCES[consequence]),
      ...specifiedPart(comparison),
      ...(conflicts.added.length > 0
        ? [paragraph('The second car has new conflicts: resolve them before you order.')]
        : []),
      ...changed('Conflicts', conflicts),
      ...changed('Check these inputs', checks),
      ...choicesPart(choices, units),
      ...limitsPart(limits, units),
      ...GROUPS.flatMap(([group, title]) =>
        figuresPart(
          title,
          figures.filter((one) => one.group === group),
          units,
        ),
      ),
    ],
  };
}

/** Each change of the order, or of what can be changed later, in one line. */
function specifiedPart(comparison: SizingComparison): Block[] {
  const lines = specifiedIn(comparison)
    .filter(({ group }) => group === comparison.consequence)
    .map((one) => {
      const name = 'what' in one ? one.what.split('.').map(spaced).join(': ') : one.label;
      const [before, after] = [one.before, one.after].map((value) =>
        choiceText(value, one.quantity, comparison.units),
      );
      return `${owner(one.whose)}, ${name}: ${before} before, ${after} after.`;
    });
  return lines.length === 0 ? [] : [list(lines)];
}

/** A choice in words, or a figure. */
function choiceText(value: ChoiceValue, quantity: ChoiceChange['quantity'], units: Units): string {
  if (value === null) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value === '' ? 'no name' : value;
  return quantity === null ? String(value) : textIn(value, quantity, units);
}

const owner = (whose: FigureChange['whose']) => (whose === 'car' ? 'Car' : axleName(whose));

function choicesPart(choices: readonly ChoiceChange[], units: Units): Block[] {
  if (choices.length === 0) return [];
  return [
    heading(2, 'What is chosen'),
    table(
      'What is chosen',
      ['', 'what', 'before', 'after'],
      choices.map(({ whose, what, quantity, before, after }) => [
        owner(whose),
        what.split('.').map(spaced).join(': '),
        choiceText(before, quantity, units),
        choiceText(after, quantity, units),
      ]),
      [],
    ),
  ];
}

function limitsPart(limits: readonly LimitChange[], units: Units): Block[] {
  if (limits.length === 0) return [];
  const say = (end: LimitChange['before']) =>
    end === null ? 'nothing' : `${spaced(end.cause)} at ${textIn(Math.abs(end.travel), 'length', units)}`;
  return [
    heading(2, 'What ends the travel'),
    table(
      'What ends the travel',
      ['', 'side', 'before', 'after'],
      limits.map(({ axle, side, before, after }) => [axleName(axle), side, say(before), say(after)]),
      [],
    ),
  ];
}

function figuresPart(title: string, figures: readonly FigureChange[], units: Units): Block[] {
  if (figures.length === 0) return [];
  const orDash = (value: number | null, quantity: FigureChange['quantity']) =>
    value === null ? '–' : textIn(value, quantity, units);
  return [
    heading(2, title),
    table(
      title,
      ['', 'figure', 'before', 'after', 'change', '95 % interval, half', 'change ÷ half'],
      figures.map(({ whose, label, quantity, before, after, change, halfWidth, againstInterval }) => [
        owner(whose),
        label,
        orDash(before, quantity),
        orDash(after, quantity),
        change === null ? '–' : `${change > 0 ? '+' : ''}${numberIn(change, quantity, units)}`,
        halfWidth === null || halfWidth === 0 ? '' : `± ${textIn(halfWidth, quantity, units)}`,
        againstInterval === null ? '' : againstInterval.toFixed(1),
      ]),
      [2, 3, 4, 5, 6],
    ),
  ];
}
