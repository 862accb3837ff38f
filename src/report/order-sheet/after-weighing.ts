import type { AfterOrder, WheelAfterOrder } from '../../coilover/ordered/after-order.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { refuse } from '../../errors/report.ts';
import { refuseOtherThan } from '../../errors/result.ts';
import { adviceHeading } from '../../sentences/after-advice.ts';
import type { Quantity, Units } from '../../units.ts';
import { sentence } from '../in-words.ts';
import { issueLine } from '../issue-line.ts';
import { unitsFaults } from '../looks.ts';
import { type Block, heading, list, paragraph, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** What a car that stands asks of what was bought: what to do, where each wheel stands, what the valving gives, what can't be cured. */
export function afterWeighing({ axles, crossWeight }: Sizing, paper: OnPaper): Block[] {
  const bought = axles.flatMap((sized) =>
    sized.afterOrder === null ? [] : [{ ...sized, after: sized.afterOrder }],
  );
  if (bought.length === 0) return [];
  const weighed = bought.some(({ after }) => after.weighed);
  return [
    heading(2, adviceHeading(weighed)),
    paragraph(
      `What was ordered stays as it is; ${weighed ? 'the masses are those of the scales' : 'the masses are still estimated'}. Each wheel has its own load, the anti-roll bar disconnected. A turn at one wheel moves some load to the others: weigh again after the last one. Perch setting: eye-to-eye length minus spring length.`,
    ),
    ...bought.flatMap(({ axle, after, advice }) => [
      heading(3, `${axleName(axle)}${boughtAs(after)}`),
      list(adviceLines(advice, paper.units[0])),
      wheels(after.wheels, paper),
      ...damping(after, paper),
    ]),
    ...allPerches(crossWeight, paper),
  ];
}

/** Advice that a table of the perches does not have. */
const isOfCrossWeight = ({ code }: Diagnostic) => code.startsWith('crossWeight');

/** All four perches at once, for half of the weight on each diagonal. */
function allPerches(crossWeight: Sizing['crossWeight'], { units, orDash, both }: OnPaper): Block[] {
  if (crossWeight === null) return [];
  const { wheels, weighed, after, advice } = crossWeight;
  const percent = (fraction: number) => `${(100 * fraction).toFixed(1)} %`;
  const turnsOf = (turns: number | null | undefined) =>
    turns == null ? '–' : `${turns > 0 ? '+' : ''}${turns.toFixed(1)}`;
  return [
    heading(3, `All four perches at once, for a cross weight of ${percent(after)}`),
    list(adviceLines(advice.filter(isOfCrossWeight), units[0])),
    ...(wheels.length === 0
      ? []
      : [
          table(
            `Cross weight (front right and rear left): ${percent(weighed)} on the scales, ${percent(after)} after; level at design ride height, anti-roll bars disconnected`,
            ['wheel', 'load, weighed', 'load, after', 'perch setting', 'turns, towards the spring +'],
            wheels.map(({ axle, side, load, perch }) => [
              `${axleName(axle)}, ${side}`,
              both(load.weighed, 'force'),
              both(load.after, 'force'),
              orDash(perch?.requiredSetting ?? null, 'length'),
              turnsOf(perch?.turns),
            ]),
          ),
        ]),
  ];
}

/**
 * Advice on an axle as lines: what to do first, then what can't be cured.
 *
 * @throws InputError for what is no advice, and for other units.
 */
export function adviceLines(advice: AxleSizing['advice'], units: Units = 'metric'): string[] {
  refuseOtherThan('advice', advice);
  for (const one of advice) refuseOtherThan('diagnostic', one);
  refuse('units', unitsFaults(units));
  const isConflict = ({ severity }: Diagnostic) => severity === 'conflict';
  return [
    ...advice.filter((one) => !isConflict(one)).map((one) => sentence(one, units)),
    ...advice.filter(isConflict).map((one) => `Not cured: ${issueLine({ ...one, path: '' }, units)}`),
  ];
}

function boughtAs({ revision, date }: AfterOrder): string {
  const parts = [revision === null ? null : `revision ${revision}`, date].filter((part) => part !== null);
  return parts.length === 0 ? '' : `, ordered as ${parts.join(' of ')}`;
}

function wheels(found: readonly WheelAfterOrder[], { orDash }: OnPaper): Block {
  const row = (label: string, of: (wheel: WheelAfterOrder) => number | null, quantity: Quantity) => [
    label,
    ...found.map((wheel) => orDash(of(wheel), quantity)),
  ];
  return table(
    'Each wheel, as fitted and as advised',
    ['', ...found.map(({ side }) => side)],
    [
      row('sprung mass', ({ sprungMass }) => sprungMass, 'mass'),
      row(
        'as fitted: travel from design ride height (bump +, low)',
        ({ asFitted }) => asFitted?.staticTravel ?? null,
        'length',
      ),
      row('as fitted: bump travel margin', ({ asFitted }) => asFitted?.bumpMargin ?? null, 'length'),
      row('as fitted: droop travel margin', ({ asFitted }) => asFitted?.droopMargin ?? null, 'length'),
      row('as fitted: spring travel margin', ({ asFitted }) => asFitted?.springMargin ?? null, 'length'),
      row('as fitted: perch setting', ({ asFitted }) => asFitted?.setting ?? null, 'length'),
      row('as advised: perch setting', ({ advised }) => advised?.setting ?? null, 'length'),
      row(
        'as advised: travel from design ride height',
        ({ advised }) => advised?.staticTravel ?? null,
        'length',
      ),
      row('as advised: bump travel margin', ({ advised }) => advised?.bumpMargin ?? null, 'length'),
      row('as advised: droop travel margin', ({ advised }) => advised?.droopMargin ?? null, 'length'),
      row('as advised: spring travel margin', ({ advised }) => advised?.springMargin ?? null, 'length'),
      row('as advised: frequency, without tyre', ({ advised }) => advised?.frequency ?? null, 'frequency'),
    ],
  );
}

function damping({ damping: found, change }: AfterOrder, paper: OnPaper): Block[] {
  if (found === null) return [];
  const ratio = (value: number | null, loose = '–') => (value === null ? loose : value.toFixed(2));
  const row = (label: string, { droop, design, bump }: typeof found.mean) => [
    label,
    ratio(droop, 'spring loose'),
    ratio(design),
    ratio(bump),
  ];
  const spring = change === null ? '' : ` and the new ${paper.both(change.spring.rate, 'rate')} spring`;
  return [
    table(
      `Low-speed damping ratio with the valving as bought${spring}, the perches set as advised${found.target === null ? '' : `; target ${found.target.toFixed(2)} at ride height`}`,
      ['', 'at the droop limit', 'at ride height', 'at bump stop contact or bump limit'],
      [
        row('compression', found.compression),
        row('rebound', found.rebound),
        row('mean of the two', found.mean),
      ],
    ),
  ];
}
