import { DAMPING_RANGES, FREQUENCY_RANGES, type UseRange } from '../../coilover/sizing/advice.ts';
import type { SpringOption } from '../../coilover/sizing/choose-spring.ts';
import type { SpeedRow } from '../../coilover/sizing/downforce.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { OrderStatus } from '../../coilover/sizing/order-status.ts';
import type { PerchLimitCause } from '../../coilover/sizing/perch.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { isBought } from '../../coilover/sizing/unsettled.ts';
import { axleName } from '../../corner/axles.ts';
import { sentence } from '../../sentences/sentence.ts';
import { worded } from '../../sentences/worded.ts';
import { uncapital } from '../../words.ts';
import { type Block, heading, paragraph, pictureOf, table } from './blocks.ts';
import { loadsPart } from './loads-part.ts';
import type { OnPaper } from './on-paper.ts';
import { partsOnPaper } from './parts-on-paper.ts';
import { cornerPart } from './pictures.ts';
import { rateCurve } from './rate-curve.ts';
import { springsBetweenWords } from './springs-between.ts';
import { travelPart } from './travel-part.ts';

/** All of one axle but its figures: its corner to be checked first, travel, spring, damping, speeds, loads. */
export function axlePart(sized: AxleSizing, status: OrderStatus, paper: OnPaper): Block[] {
  return [
    heading(2, axleName(sized.axle)),
    ...cornerPart(sized, paper),
    ...travelPart(sized, paper),
    ...springs(sized, paper),
    ...damping(sized, status, paper),
    ...speeds(sized, paper),
    ...loadsPart(sized, paper),
  ];
}

function springs(sized: AxleSizing, paper: OnPaper): Block[] {
  const { springOptions, rateTable, handMethodRate, adjacentRates, figure } = sized;
  const { both, orDash } = paper;
  const [units] = paper.units;
  const required = figure('requiredSpringRate').value;
  const words: string[] = [];
  if (required !== null && adjacentRates !== null) {
    words.push(
      `Required: ${both(required, 'rate')}. Next rates available: ${both(adjacentRates.below, 'rate')} and ${both(adjacentRates.above, 'rate')}.`,
      typeof handMethodRate === 'number'
        ? `The hand method, from two lengths and the inclination, gives ${both(handMethodRate, 'rate')}: ${Math.abs(100 * (handMethodRate / required - 1)).toFixed(0)} % ${handMethodRate < required ? 'low' : 'high'}.`
        : `The hand method gives no figure, because ${uncapital(sentence(handMethodRate))}`,
    );
  }
  words.push(...springsBetweenWords(sized, paper));
  const parts = [
    ...(words.length === 0 ? [] : [paragraph(words.join(' '))]),
    ...(springOptions.length === 0
      ? []
      : [
          table(
            'Springs available, with the perch set for design ride height',
            [
              'spring, best fit first',
              'rate',
              'fraction of required rate',
              'frequency',
              'spring travel required',
              'spring travel available',
              'remark',
            ],
            springOptions.map(
              ({ spring, rateRatio, frequency, travelRequired, travelAvailable, conflicts }) => [
                spring.name,
                both(spring.rate, 'rate'),
                `${(100 * rateRatio).toFixed(0)} %`,
                orDash(frequency, 'frequency'),
                orDash(travelRequired, 'length'),
                `${orDash(travelAvailable, 'length')}${isTaken(spring) ? TAKEN : ''}`,
                conflicts.length === 0
                  ? 'fits'
                  : conflicts.map((one) => worded(one, units).problem).join('; '),
              ],
            ),
            [1, 2, 3, 4, 5],
          ),
          ...(springOptions.some(({ spring }) => isTaken(spring))
            ? [paragraph(`${TAKEN.trim()} The minimum permissible length L_n is estimated: see Assumptions.`)]
            : []),
        ]),
    ...(rateTable.length === 0
      ? []
      : [
          ...pictureOf(
            `${axleName(sized.axle)}: frequency at each spring rate`,
            (title) => rateCurve(sized, title, units),
            (title) => rateCurve(sized, title, units, true),
          ),
          table(
            'Frequency at each spring rate, with the perch set for design ride height',
            [
              'spring rate',
              'wheel rate',
              'frequency',
              'with the tyre',
              'preload at full extension (negative: loose)',
              'remark',
            ],
            rateTable.map((row) => [
              both(row.springRate, 'rate'),
              both(row.wheelRate, 'rate'),
              orDash(row.frequency, 'frequency'),
              orDash(row.frequencyWithTyre, 'frequency'),
              orDash(row.preload, 'length'),
              [
                ...(row.fitted ? [isBought(sized.input) ? 'fitted' : 'chosen'] : []),
                ...(row.preload !== null && row.preload < 0 ? ['loose at full droop'] : []),
              ].join('; '),
            ]),
            [0, 1, 2, 3, 4],
          ),
        ]),
    ...perch(sized, paper),
  ];
  return [
    ...(sized.input.sizing?.target === undefined ? frequencyAdvice() : []),
    ...(parts.length === 0 ? [] : [heading(3, 'Spring'), ...parts]),
  ];
}

/** After a travel to a minimum length that nobody has given. */
const TAKEN = ' *';

/** Whether the minimum permissible length of a spring is not the one that its maker gives. */
function isTaken({ minLengthSource }: SpringOption['spring']): boolean {
  return minLengthSource === 'estimated' || minLengthSource === 'assumed';
}

/** The rear against the front, for a body that pitches little after a bump. */
const FLAT_RIDE =
  'For a flat ride the rear frequency is 10 to 20 % above the front on road cars (M. Olley, from memory); cars with much downforce are often the other way round (common practice, no source).';

/** What others choose, where no target is given. */
function frequencyAdvice(): Block[] {
  return [
    heading(3, 'Choose a target frequency'),
    rangeTable('frequency, suspension alone', FREQUENCY_RANGES, (value) => `${value} Hz`),
    paragraph(FLAT_RIDE),
  ];
}

/** Ranges by use, with their sources. */
function rangeTable(what: string, ranges: readonly UseRange[], write: (value: number) => string): Block {
  return table(
    `Usual values: ${what}`,
    ['use', what, 'source'],
    ranges.map(({ use, min, max, source }) => [
      use,
      max === null ? `${write(min)} and more` : `${min} to ${write(max)}`,
      source,
    ]),
    [1],
  );
}

/** What ends the usable range of a perch, or lies beyond its end. */
const PERCH_LIMITS: Readonly<Record<PerchLimitCause, string>> = {
  thread: 'the perch is at the end of its range',
  droopTravel: 'the droop travel is less than required',
  springMinLength: 'the spring passes its minimum permissible length at full bump',
  springSolid: 'the spring is solid at full bump',
  bumpTravel: 'the bump travel is less than required',
  springLoose: 'the spring is loose at full droop',
};

/** Between which settings the perch can be used, and what ends that on either side. */
function perch({ perch }: AxleSizing, { both }: OnPaper): Block[] {
  if (perch === null) return [];
  const { usable, limits, reachesDesign } = perch;
  const stands = (travel: number) =>
    `${both(Math.abs(travel), 'length')} ${travel > 0 ? 'below' : 'above'} design`;
  const words = [
    usable === null
      ? 'At no perch setting are the required travel and the spring both right.'
      : `Usable range of the perch setting: ${both(usable.min, 'length')} to ${both(usable.max, 'length')}, without tolerances. Do not set the perch beyond it.`,
    ...(reachesDesign ? [] : ['Design ride height is out of reach.']),
    'Raising the car with the perch reduces droop travel, increases bump travel and compresses the spring more at full bump.',
  ];
  return [
    table(
      'Range of the perch, with the weight on the wheel',
      ['from there on', 'way', 'perch setting', 'static ride height', 'effect'],
      limits.map(({ cause, end, setting, travel }) => [
        PERCH_LIMITS[cause],
        end === 'min' ? 'lowered' : 'raised',
        both(setting, 'length'),
        stands(travel),
        setting === usable?.[end] ? 'ends the usable range' : '',
      ]),
      [2, 3],
    ),
    paragraph(words.join(' ')),
  ];
}

/** What the forces of a damper stand on, as the maker's page is headed. */
const FORCES_ON: Readonly<Record<OrderStatus, string>> = {
  order: 'The forces on the order',
  enquiry: 'The forces on the enquiry',
  notForOrder: 'The forces on the enquiry',
  bought: 'The valving as bought',
};

function damping(
  { dampingTable, input, figure }: AxleSizing,
  status: OrderStatus,
  { given }: OnPaper,
): Block[] {
  if (dampingTable.length === 0) {
    return input.sizing?.damping === undefined
      ? [
          heading(3, 'Choose a damping ratio'),
          rangeTable('damping ratio', DAMPING_RANGES, (value) => String(value)),
        ]
      : [];
  }
  const valving = input.ordered?.valving;
  const knee = valving === undefined ? input.sizing?.damping?.kneeSpeed : valving.kneeSpeed;
  const ratio = (name: AxleFigureName) => figure(name).value?.toFixed(2) ?? '–';
  const bump = input.limits.bumpStop === undefined ? 'the bump limit' : 'bump stop contact';
  const atDroop =
    figure('dampingRatioAtDroop').value === null
      ? 'not defined at the droop limit (the spring is loose there, or the wheel rate not positive)'
      : `${ratio('dampingRatioAtDroop')} at the droop limit`;
  return [
    heading(3, 'Damping'),
    paragraph(
      `${FORCES_ON[status]}${knee === undefined ? '' : `, with a knee at ${given(knee, 'shaftSpeed')},`} ${status === 'bought' ? 'gives' : 'give'} a damping ratio of ${ratio('staticDampingRatio')} at ride height, ${atDroop} and ${ratio('dampingRatioAtBump')} at ${bump}.`,
    ),
  ];
}

function speeds(sized: AxleSizing, paper: OnPaper): Block[] {
  const { speedRows } = sized;
  // Without a state the axle has nothing but the downforce itself, which stands among its figures.
  if (speedRows.every(({ state }) => state === null)) return [];
  const { both, orDash } = paper;
  return [
    heading(3, 'Under downforce'),
    table(
      'Ride height and travel under downforce',
      [
        'speed',
        'on this corner',
        'suspension travel',
        'tyre deflection',
        'ride height lost',
        'travel to bump stop contact',
        'travel to the limit',
        'frequency',
      ],
      speedRows.map((row) => [
        both(row.speed, 'speed'),
        both(row.downforce, 'force'),
        ...lost(row, sized, paper),
        orDash(row.travelToContact, 'length'),
        orDash(row.travelToLimit, 'length'),
        orDash(row.frequency, 'frequency'),
      ]),
      [0, 1, 2, 3, 4, 5, 6, 7],
    ),
  ];
}

/** What the suspension and the tyre give under downforce, and the ride height that is lost: their sum. */
function lost({ state, travel, rideHeightLoss }: SpeedRow, { figure }: AxleSizing, paper: OnPaper): string[] {
  const rest = figure('staticTravel').value;
  if (state === 'bumpLimit') return ['–', '–', 'on the stops'];
  if (rideHeightLoss === null || travel === null || rest === null) return ['–', '–', '–'];
  const parts = [travel - rest, rideHeightLoss - (travel - rest)];
  return [...partsOnPaper(parts, 1, 'length', paper), paper.both(rideHeightLoss, 'length')];
}
