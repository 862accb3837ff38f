import { DAMPING_RANGES, FREQUENCY_RANGES, type UseRange } from '../../coilover/sizing/advice.ts';
import { axleName } from '../../coilover/sizing/inputs.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import type { Limit, LimitEvent } from '../../corner/limits/limits.ts';
import { sentence } from '../../sentences/sentence.ts';
import { worded } from '../../sentences/worded.ts';
import { printedAxialForce, printedValue } from '../margins.ts';
import { type Block, heading, list, paragraph, table } from './blocks.ts';
import { jointLoads } from './joint-loads.ts';
import { limitWords } from './limit-words.ts';
import type { OnPaper } from './on-paper.ts';
import { rateCurve } from './rate-curve.ts';
import { travelRuler } from './travel-ruler.ts';

/** All of one axle but its figures: travel, spring, damping, speeds, loads. */
export function axlePart(sized: AxleSizing, paper: OnPaper): Block[] {
  return [
    heading(2, axleName(sized.axle)),
    ...travel(sized, paper),
    ...springs(sized, paper),
    ...damping(sized, paper),
    ...speeds(sized, paper),
    ...loads(sized, paper),
  ];
}

/** A picture with its title, where there is one. */
function pictureOf(title: string, draw: (title: string) => string | null): Block[] {
  const svg = draw(title);
  return svg === null ? [] : [{ kind: 'picture', title, svg }];
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
        ? `The hand method, from two lengths and the inclination, gives ${both(handMethodRate, 'rate')}: ${Math.abs(100 * (handMethodRate / required - 1)).toFixed(0)} % too ${handMethodRate < required ? 'soft' : 'stiff'}.`
        : `The hand method gives no figure. ${sentence(handMethodRate)}`,
    );
  }
  const parts = [
    ...(words.length === 0 ? [] : [paragraph(words.join(' '))]),
    ...(springOptions.length === 0
      ? []
      : [
          table(
            'Springs available, the best fit first, the perch set for design ride height',
            [
              'spring, best fit first',
              'rate',
              'of the required',
              'frequency',
              'travel required',
              'available',
              'remark',
            ],
            springOptions.map(
              ({ spring, rateRatio, frequency, travelRequired, travelAvailable, conflicts }) => [
                spring.name,
                both(spring.rate, 'rate'),
                `${(100 * rateRatio).toFixed(0)} %`,
                orDash(frequency, 'frequency'),
                orDash(travelRequired, 'length'),
                orDash(travelAvailable, 'length'),
                conflicts.length === 0
                  ? 'fits'
                  : conflicts.map((one) => worded(one, units).problem).join('; '),
              ],
            ),
            [1, 2, 3, 4, 5],
          ),
        ]),
    ...(rateTable.length === 0
      ? []
      : [
          ...pictureOf(`${axleName(sized.axle)}: frequency at each spring rate`, (title) =>
            rateCurve(sized, title, units),
          ),
          table(
            'Frequency at each spring rate, the perch set for design ride height',
            ['spring rate', 'wheel rate', 'frequency', 'with the tyre', 'preload, negative: loose', ''],
            rateTable.map((row) => [
              both(row.springRate, 'rate'),
              both(row.wheelRate, 'rate'),
              orDash(row.frequency, 'frequency'),
              orDash(row.frequencyWithTyre, 'frequency'),
              orDash(row.preload, 'length'),
              row.fitted ? 'fitted' : '',
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

function perch({ perch }: AxleSizing, { both }: OnPaper): Block[] {
  if (perch === null) return [];
  const stands = (travel: number) => `${both(Math.abs(travel), 'length')} ${travel > 0 ? 'below' : 'above'}`;
  return [
    paragraph(
      `The perch sets the car from ${stands(perch.travelAtMin)} to ${stands(perch.travelAtMax)} design ride height${perch.reachesDesign ? '.' : ': design ride height is out of reach.'} Raising the car with the perch takes droop travel and gives bump travel.`,
    ),
  ];
}

function damping({ dampingTable, input, figure }: AxleSizing, { given }: OnPaper): Block[] {
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
  const atDroop =
    figure('dampingRatioAtDroop').value === null
      ? 'not defined at the droop limit (the spring is loose there, or the wheel rate not positive)'
      : `${ratio('dampingRatioAtDroop')} at the droop limit`;
  return [
    heading(3, 'Damping'),
    paragraph(
      `The forces on the order${knee === undefined ? '' : `, with a knee at ${given(knee, 'shaftSpeed')},`} give a damping ratio of ${ratio('staticDampingRatio')} at ride height, ${atDroop} and ${ratio('dampingRatioAtBump')} at bump stop contact.`,
    ),
  ];
}

function travel(sized: AxleSizing, paper: OnPaper): Block[] {
  const { travelRequirement, limits, figure } = sized;
  const { both, number, cells } = paper;
  const [units] = paper.units;
  const cases = travelRequirement.cases.map(({ name, side, parts, travel }) => [
    name,
    side,
    Object.entries(parts)
      .map(([part, value]) => `${part} ${number(value, 'length', units)}`)
      .join(' + '),
    both(travel, 'length'),
  ]);
  const margin = (name: AxleFigureName, side: string) => {
    const { value, lower } = figure(name);
    if (value === null) return [];
    const [own, other] = paper.units.map(
      (of, k) => cells(printedValue(sized, figure(name), of) ?? value, 'length')[k],
    );
    const margin = `${side}: margin ${own} (${other})`;
    if (value < 0) return [`${margin}, less than is required.`];
    const omitted =
      travelRequirement.omitted.length === 0 ? '' : '; not every case could be counted, see above';
    if (lower === null) return [`${margin}; the 95 % interval is not known${omitted}.`];
    return [`${margin}, ${both(lower, 'length')} at the lower end of the 95 % interval${omitted}.`];
  };
  const found = limitRows(limits, paper);
  return [
    heading(3, 'Travel'),
    ...pictureOf(`${axleName(sized.axle)}: wheel travel required and available, with its limits`, (title) =>
      travelRuler(sized, title, units),
    ),
    ...(cases.length === 0
      ? []
      : [
          table(
            'Required travel in each case',
            ['case', 'side', `made up of, ${paper.unit('length', units)}`, 'travel'],
            cases,
            [3],
          ),
        ]),
    ...(found.length === 0
      ? []
      : [
          table(
            'Limits and events, from ride height outward',
            ['limit or event', 'side', 'travel at the wheel', 'eye to eye', ''],
            found,
            [2, 3],
          ),
        ]),
    list([
      ...margin('bumpTravelMargin', 'Bump travel'),
      ...margin('droopTravelMargin', 'Droop travel'),
      ...[...limits.misfits, ...(limits.donor?.diagnostics ?? []), ...limits.notes].map((one) =>
        sentence(one, units),
      ),
    ]),
  ];
}

/** How many later limits are shown on either side, and how far after the first at most, mm. */
const LATER = 3;
const FAR = 50;

/** What the travel meets, on either side from ride height outward. */
function limitRows({ bump, droop, later, events }: AxleSizing['limits'], { both }: OnPaper): string[][] {
  return ([bump, droop] as const).flatMap((first, k) => {
    const side = k === 0 ? 'bump' : 'droop';
    const row = ({ travel, diagnostic }: Limit | LimitEvent, what: string, ends: string) => {
      const { length } = diagnostic.values;
      return {
        travel: Math.abs(travel),
        cells: [
          what,
          side,
          both(Math.abs(travel), 'length'),
          typeof length === 'number' ? both(length, 'length') : '',
          ends,
        ],
      };
    };
    const next = later
      .filter((limit) => limit.side === side && Math.abs(limit.travel - (first?.travel ?? 0)) < FAR)
      .slice(0, LATER);
    return [
      ...(first === null ? [] : [row(first, limitWords(first), 'ends the travel')]),
      ...events.filter((event) => event.side === side).map((event) => row(event, 'bump stop contact', '')),
      ...next.map((limit) => row(limit, limitWords(limit), 'next limit')),
    ]
      .sort((a, b) => a.travel - b.travel)
      .map(({ cells }) => cells);
  });
}

function speeds({ speedRows }: AxleSizing, { both, orDash }: OnPaper): Block[] {
  // Without a state the axle has nothing but the downforce itself, which stands among its figures.
  if (speedRows.every(({ state }) => state === null)) return [];
  return [
    heading(3, 'Under downforce'),
    table(
      'Ride height and travel under downforce',
      [
        'speed',
        'on this corner',
        'ride height lost',
        'travel to bump stop contact',
        'travel to the limit',
        'frequency',
      ],
      speedRows.map((row) => [
        both(row.speed, 'speed'),
        both(row.downforce, 'force'),
        row.state === 'bumpLimit' ? 'on the stops' : orDash(row.rideHeightLoss, 'length'),
        orDash(row.travelToContact, 'length'),
        orDash(row.travelToLimit, 'length'),
        orDash(row.frequency, 'frequency'),
      ]),
      [0, 1, 2, 3, 4, 5],
    ),
  ];
}

function loads(sized: AxleSizing, paper: OnPaper): Block[] {
  const { forces } = sized;
  if (forces === null) return [];
  const { both } = paper;
  return [
    heading(3, 'Loads on mounts and joints'),
    table(
      'Axial force of the coilover in each load case',
      ['load case', 'travel', 'axial force', 'spring', 'gas', 'bump stop', 'remainder'],
      forces.cases.map(({ name, travel, shock }) => [
        name,
        both(travel, 'length'),
        paper.inOne(paper.cellsOf((of) => printedAxialForce(shock, of), 'force')),
        both(shock.spring, 'force'),
        both(shock.gas, 'force'),
        both(shock.bumpStop, 'force'),
        both(shock.metalContact, 'force'),
      ]),
    ),
    paragraph(
      'Remainder: what spring, gas and bump stop do not give. Above zero in bump: metal on metal, the stop solid. Below zero at full droop: held back by the extended damper. Below zero at full bump: spring and stop give more than the case asks for, and the wheel does not get there.',
    ),
    ...jointLoads(sized, paper),
  ];
}
