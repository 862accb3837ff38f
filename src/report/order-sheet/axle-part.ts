import { DAMPING_RANGES, FREQUENCY_RANGES, type UseRange } from '../../coilover/sizing/advice.ts';
import type { FigureGroup } from '../../coilover/sizing/figure.ts';
import { axleName } from '../../coilover/sizing/inputs.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing, Figure } from '../../coilover/sizing/result.ts';
import type { Limit, LimitEvent } from '../../corner/limits/limits.ts';
import { sentence } from '../../sentences/sentence.ts';
import { worded } from '../../sentences/worded.ts';
import { numberIn, type Quantity, textIn, type Units, unitName } from '../../units.ts';
import { spaced } from '../../words.ts';
import { printedValue } from '../margins.ts';
import { type Block, heading, list, paragraph, table } from './blocks.ts';
import { figureRows } from './figures.ts';
import { axlePictures } from './pictures.ts';
import { rateCurve } from './rate-curve.ts';
import { travelRuler } from './travel-ruler.ts';
import { type Say, sayIn } from './words.ts';

/** All of one axle: figures by group, springs, damping, travel, speeds, loads, pictures. */
export function axlePart(sized: AxleSizing, units: Units): Block[] {
  const { figures } = sized;
  const say = sayIn(units);
  const printed = (figure: Figure, units: Units) => printedValue(sized, figure, units);
  const figuresOf = (group: FigureGroup) => figures.filter((figure) => figure.group === group);
  return [
    { kind: 'heading', level: 2, text: axleName(sized.axle), startsPage: true },
    heading(3, 'Settled by the order'),
    figureRows(figuresOf('order'), units, printed),
    heading(3, 'Can be changed later: spring, valving, perch'),
    figureRows(figuresOf('adjustable'), units, printed),
    ...springs(sized, say, units),
    ...perch(sized, say),
    ...damping(sized, say, units),
    ...travel(sized, say, units),
    ...speeds(sized, say),
    ...loads(sized, say, units),
    heading(3, 'The corner itself'),
    ...axlePictures(sized, units),
    figureRows(figuresOf('car'), units),
  ];
}

/** A picture with its title, where there is one. */
function pictureOf(title: string, draw: (title: string) => string | null): Block[] {
  const svg = draw(title);
  return svg === null ? [] : [{ kind: 'picture', title, svg }];
}

/** A value in both units, or a dash. */
const orDash = (say: Say) => (value: number | null, quantity: Parameters<Say>[1]) =>
  value === null ? '–' : say(value, quantity);

function springs(sized: AxleSizing, say: Say, units: Units): Block[] {
  const { springOptions, rateTable, handMethodRate, adjacentRates, figure } = sized;
  const both = orDash(say);
  const wanted = figure('requiredSpringRate').value;
  const words: string[] = [];
  if (wanted !== null && adjacentRates !== null) {
    words.push(
      `Required: ${say(wanted, 'rate')}. Next rates available: ${say(adjacentRates.below, 'rate')} and ${say(adjacentRates.above, 'rate')}.`,
    );
    words.push(
      typeof handMethodRate === 'number'
        ? `The hand method, from two lengths and the inclination, gives ${say(handMethodRate, 'rate')}: ${Math.abs(100 * (handMethodRate / wanted - 1)).toFixed(0)} % too ${handMethodRate < wanted ? 'soft' : 'stiff'}.`
        : `The hand method gives no figure. ${sentence(handMethodRate)}`,
    );
  }
  return [
    ...(words.length === 0 ? [] : [heading(3, 'The spring'), ...words.map(paragraph)]),
    ...(sized.input.sizing?.target === undefined ? frequencyAdvice() : []),
    ...(springOptions.length === 0
      ? []
      : [
          paragraph(
            'Springs available, the best fit first, each with the perch set for the drawn ride height:',
          ),
          table(
            ['spring', 'rate', 'of the required', 'frequency', 'travel required', 'available', 'remark'],
            springOptions.map(
              ({ spring, rateRatio, frequency, travelRequired, travelAvailable, conflicts }) => [
                spring.name,
                say(spring.rate, 'rate'),
                `${(100 * rateRatio).toFixed(0)} %`,
                both(frequency, 'frequency'),
                both(travelRequired, 'length'),
                both(travelAvailable, 'length'),
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
          paragraph('Frequency at each spring rate, the perch set for the drawn ride height:'),
          ...pictureOf(`${axleName(sized.axle)}: frequency at each spring rate`, (title) =>
            rateCurve(sized, title, units),
          ),
          table(
            ['spring rate', 'wheel rate', 'frequency', 'with the tyre', 'preload, negative: loose', ''],
            rateTable.map((row) => [
              say(row.springRate, 'rate'),
              say(row.wheelRate, 'rate'),
              both(row.frequency, 'frequency'),
              both(row.frequencyWithTyre, 'frequency'),
              both(row.preload, 'length'),
              row.fitted ? 'fitted' : '',
            ]),
            [0, 1, 2, 3, 4],
          ),
        ]),
  ];
}

/** The rear against the front, for a body that pitches little after a bump. */
const FLAT_RIDE =
  'For a flat ride the rear is quicker than the front, by 10 to 20 % for road cars (M. Olley, from memory); cars with much downforce are often the other way round (common practice, no source).';

/** What others choose, where no target is given. */
function frequencyAdvice(): Block[] {
  return [
    heading(3, 'A target to choose'),
    rangeTable('frequency, suspension alone', FREQUENCY_RANGES, (value) => `${value} Hz`),
    paragraph(FLAT_RIDE),
  ];
}

/** Ranges by use, with their sources. */
function rangeTable(what: string, ranges: readonly UseRange[], write: (value: number) => string): Block {
  return table(
    ['use', what, 'source'],
    ranges.map(({ use, min, max, source }) => [
      use,
      max === null ? `${write(min)} and more` : `${min} to ${write(max)}`,
      source,
    ]),
    [1],
  );
}

function perch({ perch }: AxleSizing, say: Say): Block[] {
  if (perch === null) return [];
  const stands = (travel: number) => `${say(Math.abs(travel), 'length')} ${travel > 0 ? 'below' : 'above'}`;
  return [
    paragraph(
      `The perch takes the car from ${stands(perch.travelAtMin)} to ${stands(perch.travelAtMax)} the drawn ride height${perch.reachesDesign ? '.' : ': that height is out of its reach.'} Raising the car with the perch takes droop travel and gives bump travel; setting the length of the body moves both ends alike.`,
    ),
  ];
}

function damping({ dampingTable, input, figure }: AxleSizing, say: Say, units: Units): Block[] {
  if (dampingTable.length === 0) {
    return input.sizing?.damping === undefined
      ? [
          heading(3, 'A damping ratio to choose'),
          rangeTable('damping ratio', DAMPING_RANGES, (value) => String(value)),
        ]
      : [];
  }
  const valving = input.ordered?.valving;
  const knee = valving === undefined ? input.sizing?.damping?.kneeSpeed : valving.kneeSpeed;
  const both = (value: number, quantity: Quantity) => [
    textIn(value, quantity, units),
    textIn(value, quantity, units === 'metric' ? 'imperial' : 'metric'),
  ];
  const ratio = (name: AxleFigureName) => figure(name).value?.toFixed(2) ?? '–';
  const atDroop =
    figure('dampingRatioAtDroop').value === null
      ? 'not defined at the droop limit (the spring is loose there, or the wheel rate not positive)'
      : `${ratio('dampingRatioAtDroop')} at the droop limit`;
  return [
    heading(3, 'Damping'),
    paragraph(
      `Force at each shaft speed${knee === undefined ? '' : `, with a knee at ${say(knee, 'shaftSpeed')}`}. The damping ratio that it gives is ${atDroop}, ${ratio('staticDampingRatio')} at ride height and ${ratio('dampingRatioAtBump')} at bump stop contact.`,
    ),
    table(
      ['shaft speed', '', 'compression', '', 'rebound', ''],
      dampingTable.map(({ speed, compression, rebound }) => [
        ...both(speed, 'shaftSpeed'),
        ...both(compression, 'force'),
        ...both(rebound, 'force'),
      ]),
      [0, 1, 2, 3, 4, 5],
    ),
  ];
}

function travel(sized: AxleSizing, say: Say, units: Units): Block[] {
  const { travelRequirement, limits, figure } = sized;
  const cases = travelRequirement.cases.map(({ name, side, parts, travel }) => [
    name,
    side,
    Object.entries(parts)
      .map(([part, value]) => `${part} ${numberIn(value, 'length', units)}`)
      .join(' + '),
    say(travel, 'length'),
  ]);
  const spare = (name: AxleFigureName, side: string) => {
    const { value, lower } = figure(name);
    if (value === null) return [];
    const own = printedValue(sized, figure(name), units) ?? value;
    const second = units === 'metric' ? 'imperial' : 'metric';
    const other = printedValue(sized, figure(name), second) ?? value;
    const margin = `${side}: margin ${textIn(own, 'length', units)} (${textIn(other, 'length', second)})`;
    if (value < 0) return [`${margin}, less than is required.`];
    const omitted =
      travelRequirement.omitted.length === 0 ? '' : '; not every case could be counted, see above';
    if (lower === null) return [`${margin}; its 95 % interval is not known${omitted}.`];
    return [`${margin}, ${say(lower, 'length')} at the lower end of its 95 % interval${omitted}.`];
  };
  return [
    heading(3, 'Travel: required, and its limits'),
    ...pictureOf(`${axleName(sized.axle)}: wheel travel required and available, with its limits`, (title) =>
      travelRuler(sized, title, units),
    ),
    table(['case', 'side', `made up of, ${unitName('length', units)}`, 'travel'], cases, [3]),
    table(['limit', 'side', 'travel', ''], metOn(limits, say, units), [2]),
    list([
      ...spare('bumpTravelMargin', 'Bump travel'),
      ...spare('droopTravelMargin', 'Droop travel'),
      ...[...limits.misfits, ...(limits.donor?.diagnostics ?? []), ...limits.notes].map((one) =>
        sentence(one, units),
      ),
    ]),
  ];
}

/** How many later limits are told on either side, and how far after the first at most, mm. */
const LATER = 3;
const FAR = 50;

/** What the travel meets, on either side from ride height outward. */
function metOn({ bump, droop, later, events }: AxleSizing['limits'], say: Say, units: Units): string[][] {
  return ([bump, droop] as const).flatMap((first, k) => {
    const side = k === 0 ? 'bump' : 'droop';
    const row = ({ travel, diagnostic }: Limit | LimitEvent, ends: string) => ({
      travel: Math.abs(travel),
      cells: [sentence(diagnostic, units), side, say(Math.abs(travel), 'length'), ends],
    });
    const next = later
      .filter((limit) => limit.side === side && Math.abs(limit.travel - (first?.travel ?? 0)) < FAR)
      .slice(0, LATER);
    return [
      ...(first === null ? [] : [row(first, 'ends the travel')]),
      ...events.filter((event) => event.side === side).map((event) => row(event, '')),
      ...next.map((limit) => row(limit, 'next limit')),
    ]
      .sort((a, b) => a.travel - b.travel)
      .map(({ cells }) => cells);
  });
}

function speeds({ speedRows }: AxleSizing, say: Say): Block[] {
  const both = orDash(say);
  if (speedRows.length === 0) return [];
  return [
    heading(3, 'Under downforce'),
    table(
      [
        'speed',
        'on this corner',
        'ride height lost',
        'travel to bump stop contact',
        'travel to the limit',
        'frequency',
      ],
      speedRows.map((row) => [
        say(row.speed, 'speed'),
        say(row.downforce, 'force'),
        row.state === 'bumpLimit' ? 'on the stops' : both(row.rideHeightLoss, 'length'),
        both(row.travelToContact, 'length'),
        both(row.travelToLimit, 'length'),
        both(row.frequency, 'frequency'),
      ]),
      [0, 1, 2, 3, 4, 5],
    ),
  ];
}

/** Ball joints in each load case: positive pulls the stud out. */
function jointTable(cases: NonNullable<AxleSizing['forces']>['cases'], say: Say): Block[] {
  const rows = cases.flatMap(({ name, ballJoints }) =>
    Object.entries(ballJoints).map(([joint, { axial, radial, articulation }]) => [
      name,
      spaced(joint),
      `${axial > 0 ? 'pulled' : 'pushed'} ${say(Math.abs(axial), 'force')}`,
      say(radial, 'force'),
      say(articulation, 'angle'),
    ]),
  );
  if (rows.length === 0) return [];
  return [
    table(
      ['load case', 'ball joint', 'along the stud: pulled out or pushed in', 'radial', 'articulation angle'],
      rows,
      [2, 3, 4],
    ),
  ];
}

function loads({ forces }: AxleSizing, say: Say, units: Units): Block[] {
  if (forces === null) return [];
  return [
    heading(3, 'Forces for mounts and joints'),
    table(
      ['load case', 'travel', 'axial force', 'spring', 'gas', 'bump stop', 'rest'],
      forces.cases.map(({ name, travel, shock }) => [
        name,
        say(travel, 'length'),
        say(shock.total, 'force'),
        say(shock.spring, 'force'),
        say(shock.gas, 'force'),
        say(shock.bumpStop, 'force'),
        say(shock.metalContact, 'force'),
      ]),
    ),
    paragraph(
      'The rest: above zero, metal on metal with the stop solid. Below zero at full droop, what the extended damper holds back; below zero in full bump, spring and stop are harder there than the case asks for, so that the wheel does not get so far.',
    ),
    ...jointTable(forces.cases, say),
    list(
      forces.diagnostics.filter(({ code }) => code === 'largestJointLoad').map((one) => sentence(one, units)),
    ),
  ];
}
