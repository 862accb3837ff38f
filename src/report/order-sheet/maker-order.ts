// The order: what whoever makes the coilovers must know, on one page an axle.

import { hardestCase } from '../../coilover/forces/corner-forces.ts';
import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import { blocksOrder, orderStatus } from '../../coilover/sizing/order-status.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { strutOf } from '../../corner/corner.ts';
import type { LimitCause } from '../../corner/limits/limits.ts';
import type { BearingUse } from '../../corner/limits/misalignment.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { certain } from '../../document/uncertain.ts';
import { line as lineOf } from '../../sentences/line.ts';
import { worded } from '../../sentences/worded.ts';
import type { Quantity, Units } from '../../units.ts';
import { capital, ended } from '../../words.ts';
import { printedMargin } from '../margins.ts';
import { printed } from '../text.ts';
import { type Block, type FormLine, heading, type OrderSheet, paragraph } from './blocks.ts';
import { limitWords } from './limit-words.ts';
import { type Cells, type OnPaper, onPaper } from './on-paper.ts';
import { orderData, ratiosOf } from './order-data.ts';
import { agreeLines, TO_AGREE, type ToAgree, toAgree } from './to-agree.ts';
import { drawUnit, endNames } from './unit-drawing.ts';
import { valvingCurve } from './valving-curve.ts';

/**
 * The order of a sizing for whoever makes the coilovers: one page an axle, with the unit to scale, lengths, mounts, body, spring, bump
 * stop, valving, what the maker must know of the car, and what is to be agreed. An axle with something essential to be agreed, or with a
 * conflict, is an enquiry. What else the sizing found stands in `reportSheet`.
 */
export function orderSheet(sizing: Sizing): OrderSheet {
  const { name, axles } = sizing;
  const pages = axles.map((sized, k) => pageOf(sizing, sized, `sheet ${k + 1} of ${axles.length}`));
  const title = pages.every(({ paper }) => paper === 'ORDER')
    ? 'Order for coilovers'
    : 'Enquiry for coilovers';
  return {
    title: name === undefined ? title : `${title}: ${name}`,
    data: orderData(
      sizing,
      pages.map(({ paper }) => paper),
    ),
    blocks: pages,
  };
}

/** Coilovers on an axle, where nothing else is said. */
const PAIR = 2;
/** Conflicts that a page names. */
const CONFLICTS = 3;

function pageOf(sizing: Sizing, sized: AxleSizing, sheet: string): Block & { readonly kind: 'page' } {
  const { name, use, order, units, conflicts } = sizing;
  const { axle } = sized;
  const paper = onPaper(units);
  const found = conflicts.filter(
    (one) => !one.path.startsWith('corners.') || one.path.startsWith(`corners.${axle}`),
  );
  const items = toAgree(sized);
  const isOrder = orderStatus(found, [sized]) === 'order';
  const unit = `${axleName(axle).toLowerCase()} coilover`;
  return {
    kind: 'page',
    title: name === undefined ? capital(unit) : `${name}: ${unit}`,
    paper: isOrder ? 'ORDER' : 'ENQUIRY',
    sheet,
    lines: [
      { label: 'No.', value: null },
      { label: 'Revision', value: order?.revision ?? null },
      { label: 'Date', value: order?.date ?? null },
      { label: 'From', value: null },
      { label: 'To', value: null },
      { label: 'Supersedes', value: null },
    ],
    blocks: [
      paragraph(
        [
          ...(use === undefined ? [] : [ended(use.trim())]),
          reference(sized),
          rideHeight(sizing),
          DIRECTIONS,
        ].join(' '),
      ),
      ...(isOrder ? [] : [standing(found.filter(blocksOrder), units)]),
      {
        kind: 'columns',
        columns: [
          [...drawn(sized, paper), ...lengths(sized, paper), ...mounts(sized, paper), ...agreed(items)],
          [...body(sized, paper), ...spring(sized, paper), ...valving(sized, paper)],
        ],
      },
      ...CAUTIONS.map(paragraph),
      { kind: 'form', label: 'Acknowledgement', lines: ACKNOWLEDGEMENT },
    ],
  };
}

const DIRECTIONS = 'Bump = wheel up; compression = damper shortens.';

const CAUTIONS = [
  'A compressed spring can kill: compress and release it with proper tools only. A gas damper is under pressure: nobody but its maker opens, drills or heats it.',
  'The strength of brackets, welds and bolts is not checked here. Clearances are checked on the car through the whole travel, springs out, before it moves.',
];

const ACKNOWLEDGEMENT: readonly FormLine[] = [
  { label: 'Will be made as above. Maker', value: null },
  { label: 'Date', value: null },
  { label: 'Except', value: null },
];

/** What lengths are taken between. */
function reference({ input: { corner, sizing } }: AxleSizing): string {
  if (strutOf(corner) !== null) return 'Lengths along the strut, from the top mount to its lower point.';
  const ends = sizing?.order?.mounts;
  const faces = [ends?.mount, ends?.chassis].flatMap((end) =>
    end?.type === 'stud' ? [end.referenceFace ?? `a face ${TO_AGREE}`] : [],
  );
  const [face] = faces;
  return `Lengths eye to eye, centre to centre of the bolts${face === undefined ? '' : `; at a stud to ${face}`}.`;
}

function rideHeight({ aboard }: Sizing): string {
  if (aboard === null) return 'Ride height as drawn.';
  return `Ride height: ${aboard.length === 0 ? 'nothing' : listed(aboard)} aboard.`;
}

/** Why it is an enquiry. */
function standing(conflicts: Sizing['conflicts'], units: Units): Block {
  if (conflicts.length === 0) {
    return {
      kind: 'stamp',
      text: 'Not to be made yet.',
      advice: 'Agree the items marked * first.',
    };
  }
  const shown = conflicts.slice(0, CONFLICTS).map((issue) => ended(capital(conflictWords(issue, units))));
  const more = conflicts.length - shown.length;
  return {
    kind: 'stamp',
    text: 'Not to be made as it stands.',
    advice: [...shown, ...(more > 0 ? [`And ${more} more, in the report.`] : [])].join(' '),
  };
}

/** A conflict as a maker reads it: without its place in the file and what to change there. */
function conflictWords(conflict: Diagnostic, units: Units): string {
  const { problem, got, allowed } = worded(conflict, units);
  return lineOf({
    problem,
    ...(got === undefined ? {} : { got }),
    ...(allowed === undefined ? {} : { allowed }),
  });
}

function drawn(sized: AxleSizing, paper: OnPaper): Block[] {
  const drawing = drawUnit(sized, paper);
  if (drawing === null) return [];
  const { order } = sized.input.sizing ?? {};
  const [own, other] = paper.units.map((units) => paper.unit('length', units));
  const isOpen = order?.bodyEnd === undefined && strutOf(sized.input.corner) === null;
  return [
    { kind: 'picture', title: drawing.title, svg: drawing.svg, width: drawing.width },
    paragraph(
      [
        `Scale 1:${drawing.scale} printed at 100 %, ${own} (${other}), seen from the front; ${drawing.ends}.`,
        ...(isOpen ? ['Body drawn up: to be agreed.'] : []),
        ...(sized.figure('perchSetting').value === null ? ['Spring and seats, dashed: to be agreed.'] : []),
        'Shapes of ends, seats and coils are the maker’s.',
      ].join(' '),
    ),
  ];
}

/** A row of a block: what it is, and its values in the units of the file and in the other ones. */
type Line = readonly [label: string, ...Cells];

/** A row whose value is not known is to be agreed. */
function line(label: string, cells: Cells | null): Line {
  return cells === null ? [label, TO_AGREE, ''] : [label, ...cells];
}

/** A line for what is known; none for what is not. */
function shown(label: string, cells: Cells | null): Line[] {
  return cells === null ? [] : [line(label, cells)];
}

/** A block of the order. */
function block(name: string, lines: readonly Line[], head: readonly string[] = ['', '', '']): Block[] {
  return [heading(2, name), { kind: 'table', head, rows: lines, figures: [], label: name, spans: true }];
}

const nullable = <T>(value: T | null | undefined, of: (value: T) => Cells) =>
  value === null || value === undefined ? null : of(value);

function lengths(sized: AxleSizing, paper: OnPaper): Block[] {
  const { input, figure, limits, damper } = sized;
  const { order = {} } = input.sizing ?? {};
  const { units, number } = paper;
  const { lengthTolerance: tolerance } = order;
  const inEach = (of: (units: Units) => string): Cells => [of(units[0]), of(units[1])];
  const plain = (name: AxleFigureName) =>
    nullable(figure(name).value, (mm) => inEach((of) => number(mm, 'length', of)));
  const toTolerance = (name: AxleFigureName) =>
    nullable(figure(name).value, (mm) =>
      inEach(
        (of) =>
          `${number(mm, 'length', of)} ± ${tolerance === undefined ? '____' : number(tolerance, 'length', of)}`,
      ),
    );
  // Differences of what stands printed beside them, so that the rows add up.
  const between = (longer: AxleFigureName, shorter: AxleFigureName, of: Units) => {
    const [a, b] = [figure(longer).value, figure(shorter).value];
    return a === null || b === null ? null : number(printedMargin(b, a, of), 'length', of);
  };
  const [extended, ride, compressed] = ['extendedLength', 'designLength', 'compressedLength'] as const;
  return block(
    '1 Lengths',
    [
      ['quantity', String(order.quantity ?? PAIR), ''],
      ['left and right', order.handed ?? `alike or handed: ${TO_AGREE}`, ''],
      line('extended', toTolerance(extended)),
      line('at ride height', plain(ride)),
      line('compressed, no bump stop', toTolerance(compressed)),
      line('stroke', damper === null ? null : inEach((of) => between(extended, compressed, of) ?? '–')),
      ...(damper === null
        ? []
        : [
            line(
              'stroke, compression / rebound',
              inEach(
                (of) => `${between(ride, compressed, of) ?? '–'} / ${between(extended, ride, of) ?? '–'}`,
              ),
            ),
          ]),
      ['limit in bump', limits.bump === null ? NO_STOP : limitWords(limits.bump), ''],
      ['limit in droop', stopWords(limits.droop), ''],
      ...(damper?.specified === false
        ? [['damper lengths', 'follow from the travel: maker confirms', ''] as const]
        : []),
    ],
    ['', ...units.map((of) => paper.unit('length', of))],
  );
}

const NO_STOP = 'none known';

function stopWords(limit: AxleSizing['limits']['droop']): string {
  if (limit === null) return NO_STOP;
  if (limit.cause === 'damperExtended') return 'damper extended: must take topping out';
  return `${limitWords(limit)}, before the damper`;
}

function mounts(sized: AxleSizing, paper: OnPaper): Block[] {
  const { input, bearings } = sized;
  const { mounts: ends = {} } = input.sizing?.order ?? {};
  const given = input.limits.bearings;
  const [chassis, moving] = endNames(sized);
  const of = (end: 'mount' | 'chassis') => ({
    shape: ends[end],
    bearing: end === 'mount' ? given?.mount : (given?.chassis ?? given?.otherEnd),
    use: end === 'mount' ? bearings.mount : (bearings.chassis ?? bearings.otherEnd),
    isStud: ends[end]?.type === 'stud',
  });
  const both = [of('mount'), of('chassis')] as const;
  type End = (typeof both)[number];
  const line = (label: string, words: (end: End) => string | null): Line => [
    label,
    words(both[0]) ?? TO_AGREE,
    words(both[1]) ?? TO_AGREE,
  ];
  const size = (value: number | undefined) => (value === undefined ? null : paper.given(value, 'length'));
  const isAny = (has: (end: End) => boolean) => both.some(has);
  return block(
    '2 Mounts',
    [
      line('type', ({ shape }) => (shape === undefined ? null : ENDS[shape.type])),
      line(isAny(({ isStud }) => isStud) ? 'bore, or thread' : 'bore', ({ shape }) => size(shape?.bore)),
      line('width', ({ shape, isStud }) => (isStud && shape?.width === undefined ? '–' : size(shape?.width))),
      ...(isAny(({ shape }) => shape?.spacers !== undefined)
        ? [line('spacers', ({ shape }) => shape?.spacers ?? 'none')]
        : []),
      line('bolt axis', ({ bearing }) => (bearing === undefined ? null : BOLTS[bearing.boltAxis])),
      line('misalignment used', ({ use }) => (use === undefined ? null : misalignment(use))),
      line('bearing rating', ({ bearing }) =>
        bearing === undefined ? null : `±${bearing.maxMisalignment} deg`,
      ),
    ],
    ['', `${moving} (moves)`, chassis],
  );
}

const ENDS: Readonly<Record<string, string>> = { eye: 'eye', clevis: 'clevis', fork: 'clevis', stud: 'stud' };
const BOLTS: Readonly<Record<string, string>> = {
  longitudinal: 'longitudinal',
  inPlane: 'in the transverse plane, square to the coilover',
};

function misalignment({ misalignment: { min, max } }: BearingUse): string {
  const [low, high] = [min, max].map(signed);
  return low === high ? `${low} deg` : `${low} to ${high} deg`;
}

function signed(angle: number): string {
  const text = angle.toFixed(1);
  if (Number(text) === 0) return '0.0';
  return angle > 0 ? `+${text}` : printed(text);
}

function body(sized: AxleSizing, paper: OnPaper): Block[] {
  const { input, figure } = sized;
  const { order = {}, perch = {} } = input.sizing ?? {};
  const size = (value: number | undefined) => nullable(value, (mm) => paper.givenCells(mm, 'length'));
  const words = (text: string | undefined): readonly [string, string] | null =>
    text === undefined ? null : [text, ''];
  const { min, max, threadPitch } = perch;
  const [low, high] = [min, max].map((mm) => (mm === undefined ? null : paper.givenCells(mm, 'length')));
  const position = { up: 'body up, shaft down', down: 'body down, shaft up' };
  const lines = [
    line(
      'position',
      strutOf(input.corner) !== null
        ? ['strut: body down', '']
        : words(order.bodyEnd && position[order.bodyEnd]),
    ),
    line('body diameter', size(order.bodyDiameter)),
    line('maximum spring outer diameter', size(order.maxSpringOuterDiameter)),
    ...(order.springClearance === undefined
      ? []
      : [line('clearance, spring to body', size(order.springClearance))]),
    line(
      'perch setting',
      nullable(figure('perchSetting').value, (mm) => paper.cells(mm, 'length')),
    ),
    line('perch setting, range', low == null || high == null ? null : ranged(low, high)),
    line('perch, per turn', size(threadPitch)),
    line(
      'length adjustment',
      order.lengthAdjustment === 0 ? ['none: the perch only', ''] : size(order.lengthAdjustment),
    ),
    line('adjusters', words(order.adjusters)),
    line('reservoir', words(order.reservoir)),
  ];
  return [...block('3 Body', lines), paragraph('Perch setting = eye to eye − spring length.')];
}

/** A value without its unit. */
function bare(cell: string): string {
  return cell.split(' ')[0];
}

function spring(sized: AxleSizing, paper: OnPaper): Block[] {
  return [
    ...block('4 Spring and bump stop', [...springLines(sized, paper), ...stopLines(sized, paper)]),
    ...stopTable(sized, paper),
  ];
}

function springLines(sized: AxleSizing, paper: OnPaper): Line[] {
  const { spring, input, figure } = sized;
  if (spring === null) return [line('spring', null)];
  const { order = {}, helper } = input.sizing ?? {};
  const { name, rate, freeLength, solidLength, innerDiameter, minLength, minLengthSource } = spring;
  const isListed = name !== '' && minLengthSource !== 'wire';
  const value = (of: number | null, quantity: Quantity) =>
    nullable(of, (known) => (isListed ? paper.givenCells(known, quantity) : paper.cells(known, quantity)));
  const figureCells = (of: AxleFigureName, quantity: Quantity) =>
    nullable(figure(of).value, (known) => paper.cells(known, quantity));
  const tolerance = order.rateTolerance;
  const preload = figure('preload').value;
  const isMinKnown = minLengthSource === 'given' || minLengthSource === 'wire';
  return [
    line(
      name === '' ? 'spring rate' : `spring "${name}": rate`,
      nullable(value(rate, 'rate'), ([own, other]) => [
        `${own} ± ${tolerance === undefined ? '__' : Number((100 * tolerance).toFixed(1))} %`,
        other,
      ]),
    ),
    line('free length', value(freeLength, 'length')),
    line('inner diameter', value(innerDiameter, 'length')),
    ...(solidLength === null ? [] : [line('solid length', value(solidLength, 'length'))]),
    line('minimum permissible length', isMinKnown ? value(minLength, 'length') : null),
    ...(helper === undefined
      ? []
      : [
          line('helper spring: rate', paper.givenCells(helper.rate, 'rate')),
          line(
            'helper: free / solid length',
            slashed(
              paper.givenCells(helper.freeLength, 'length'),
              paper.givenCells(helper.minLength, 'length'),
            ),
          ),
          ...(helper.separatorHeight === undefined
            ? []
            : [line('separator between the springs', paper.givenCells(helper.separatorHeight, 'length'))]),
        ]),
    preload !== null && preload < 0
      ? line('loose at full extension, by', paper.cells(-preload, 'length'))
      : line(
          'preload at full extension',
          joined(figureCells('preload', 'length'), figureCells('preloadForce', 'force')),
        ),
    line('spring length at ride height', figureCells('staticSpringLength', 'length')),
    line('spring travel at full bump', figureCells('springTravelRequired', 'length')),
  ];
}

function stopLines({ input }: AxleSizing, paper: OnPaper): Line[] {
  const stop = input.limits.bumpStop;
  if (stop === undefined) return [line('bump stop', null)];
  const [height, solid] = [stop.height, stop.solidHeight].map((mm) => paper.givenCells(mm, 'length'));
  const supplier = input.sizing?.order?.bumpStopSupplier;
  return [
    line('bump stop: free / solid height', slashed(height, solid)),
    ...(supplier === undefined ? [] : [['bump stop: supplied by', supplier, ''] as const]),
  ];
}

/** Two values of one unit, the unit once. */
function slashed(a: Cells, b: Cells): Cells {
  return [`${bare(a[0])} / ${b[0]}`, b[1] === '' ? '' : `${bare(a[1])} / ${b[1]}`];
}

/** From one value to another, in one cell for each system. */
function ranged(low: Cells, high: Cells): Cells {
  return [`${bare(low[0])} to ${high[0]}`, `${bare(low[1])} to ${high[1]}`];
}

/** Two values that belong together, in one cell for each system. */
function joined(a: Cells | null, b: Cells | null): Cells | null {
  return a === null || b === null ? (a ?? b) : [`${a[0]}, ${b[0]}`, `${a[1]}, ${b[1]}`];
}

function stopTable({ input }: AxleSizing, { units, unit, number, givenCells }: OnPaper): Block[] {
  const points = input.sizing?.bumpStopTable ?? [];
  if (input.limits.bumpStop === undefined || points.length === 0) return [];
  const [own, other] = units;
  const row = (name: string, quantity: Quantity, cells: readonly Cells[]) => [
    `${name}, ${unit(quantity, own)} (${unit(quantity, other)})`,
    ...cells.map(([given, converted]) => `${given} (${converted})`),
  ];
  const compressions = points.map(([mm]): Cells => {
    const [given, converted] = givenCells(mm, 'length').map(bare);
    return [given, converted];
  });
  const forces = points.map(
    ([, force]): Cells => [number(force, 'force', own), number(force, 'force', other)],
  );
  return [
    {
      kind: 'table',
      head: [],
      rows: [row('compression', 'length', compressions), row('force', 'force', forces)],
      figures: points.map((_, k) => k + 1),
      label: 'Bump stop: force at compression',
    },
  ];
}

/** Rows of the valving table at most; more are thinned evenly. */
const ROWS = 6;
/** The same of speeds that the file gives. */
const GIVEN_ROWS = 9;

function valving(sized: AxleSizing, paper: OnPaper): Block[] {
  const { input, figure, dampingTable } = sized;
  const { damping, gas }: CornerSizing = certain(input.sizing ?? {});
  const bought = input.ordered?.valving;
  const { units, unit, number } = paper;
  const knee = bought === undefined ? damping?.kneeSpeed : bought.kneeSpeed;
  const [own, other] = units;
  const pair = (value: number, quantity: Quantity) =>
    `${number(value, quantity, own)} (${number(value, quantity, other)})`;
  const head = (name: string, quantity: Quantity) =>
    `${name}, ${unit(quantity, own)} (${unit(quantity, other)})`;
  const figureCells = (of: AxleFigureName, quantity: Quantity) =>
    nullable(figure(of).value, (known) => paper.cells(known, quantity));
  const target =
    bought === undefined && damping !== undefined
      ? [`target damping ratio ${damping.ratio} at ride height`]
      : [];
  const isGiven = damping?.shaftSpeeds !== undefined || bought?.forceTable !== undefined;
  const title = `${axleName(sized.axle)}: damper force at each shaft speed`;
  const curve = dampingTable.length === 0 ? null : valvingCurve(dampingTable, title, paper);
  const [compression, rebound] = [
    figureCells('compressionDamping', 'damping'),
    figureCells('reboundDamping', 'damping'),
  ];
  const lines: Line[] = [
    line('low-speed compression', compression),
    line('low-speed rebound', rebound),
    ...(knee === undefined ? [] : [line('knee at', paper.givenCells(knee, 'shaftSpeed'))]),
    line(
      gas?.pressure === undefined ? 'gas force' : 'gas force, pressure',
      gas === undefined
        ? null
        : joined(
            figureCells('gasForce', 'force'),
            nullable(gas.pressure, (bar) => paper.givenCells(bar, 'pressure')),
          ),
    ),
    line(
      'shaft diameter',
      nullable(gas?.shaftDiameter, (mm) => paper.givenCells(mm, 'length')),
    ),
    ...carLines(sized, paper),
  ];
  return [
    heading(2, '5 Valving'),
    ...(curve === null
      ? [paragraph(`Forces: ${TO_AGREE}.`)]
      : [
          {
            kind: 'columns',
            columns: [
              [{ kind: 'picture', title, ...curve }],
              [
                {
                  kind: 'table',
                  head: [head('speed', 'shaftSpeed'), head('compression', 'force'), head('rebound', 'force')],
                  rows: thinned(dampingTable, isGiven ? GIVEN_ROWS : ROWS).map(
                    ({ speed, compression, rebound }) => [
                      pair(speed, 'shaftSpeed'),
                      pair(compression, 'force'),
                      pair(rebound, 'force'),
                    ],
                  ),
                  figures: [0, 1, 2],
                  label: title,
                },
              ],
            ],
          } as const,
          paragraph(`${['Forces without gas force and friction', ...target].join('; ')}.`),
        ]),
    { kind: 'table', head: [], rows: lines, figures: [], label: 'Valving', spans: true },
  ];
}

/** So many of some rows at most, the first and the last among them. */
function thinned<T>(rows: readonly T[], most: number): readonly T[] {
  if (rows.length <= most) return rows;
  return Array.from({ length: most }, (_, k) => rows[Math.round((k * (rows.length - 1)) / (most - 1))]);
}

/** What the maker must know of the car to valve for it. */
function carLines(sized: AxleSizing, paper: OnPaper): Line[] {
  const { figure, forces } = sized;
  const cells = (name: AxleFigureName, quantity: Quantity) =>
    nullable(figure(name).value, (known) => paper.cells(known, quantity));
  const [left, right] = [cells('leftWheelMass', 'mass'), cells('rightWheelMass', 'mass')];
  const [alone, withTyre] = [cells('frequency', 'frequency'), cells('frequencyWithTyre', 'frequency')];
  const { ride, droop, bump } = ratiosOf(sized);
  const [atRide, atDroop, atBump] = [ride, droop, bump].map((ratio) => ratio?.toFixed(3) ?? '–');
  const largest = forces === null ? null : hardestCase(forces.cases);
  const { lower, upper } = figure('sprungMass');
  const isKnown = lower !== null && upper !== null && lower !== upper;
  return [
    ['installation ratio (shock ÷ wheel)', atRide, ''],
    ...(droop === null && bump === null
      ? []
      : [['the same at full droop / bump', `${atDroop} / ${atBump}`, ''] as const]),
    line('mass on left / right wheel', left === null || right === null ? null : slashed(left, right)),
    line('sprung mass of a corner', cells('sprungMass', 'mass')),
    ...shown(
      '95 % interval of that',
      isKnown ? ranged(paper.cells(lower, 'mass'), paper.cells(upper, 'mass')) : null,
    ),
    line('wheel rate at ride height', cells('wheelRate', 'rate')),
    line('frequency alone / with the tyre', alone === null ? null : slashed(alone, withTyre ?? ['– Hz', ''])),
    ...travels(sized, paper),
    line('maximum axial force', largest === null ? null : paper.cells(largest.shock.total, 'force')),
    ...(largest === null ? [] : [['in the load case', largest.name, ''] as const]),
  ];
}

/** Wheel travel from ride height to what the damper and the bump stop meet. */
function travels({ limits }: AxleSizing, paper: OnPaper): Line[] {
  const { bump, droop, later, events } = limits;
  const to = (cause: LimitCause | 'bumpStopContact') => {
    const met = [bump, droop, ...later, ...events].find((one) =>
      one === null ? false : 'event' in one ? one.event === cause : one.cause === cause,
    );
    return nullable(met?.travel ?? null, (travel) => paper.cells(Math.abs(travel), 'length'));
  };
  const met = [
    ['bump stop contact', to('bumpStopContact')],
    ['solid', to('bumpStopSolid')],
    ['extended', to('damperExtended')],
  ] as const;
  const known = met.flatMap(([label, cells]) => (cells === null ? [] : [{ label, cells }]));
  if (known.length === 0) return [];
  const cells = known.map((one) => one.cells).reduceRight((rest, one) => slashed(one, rest));
  return [line(`travel to ${known.map(({ label }) => label).join(' / ')}`, cells)];
}

/** What is to be agreed, with who decides. */
function agreed(items: readonly ToAgree[]): Block[] {
  const lines = agreeLines(items);
  return [
    heading(2, 'To agree'),
    ...(lines.length === 0
      ? [paragraph('Nothing: the order is complete.')]
      : [{ kind: 'table', head: [], rows: lines, figures: [], label: 'To agree, by who decides' } as const]),
  ];
}

/** `a, b and c`. */
function listed(names: readonly string[]): string {
  const most = names.slice(0, -1).join(', ');
  return `${most}${most === '' ? '' : ' and '}${names.at(-1)}`;
}
