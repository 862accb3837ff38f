// The order: what whoever makes the coilovers must know, on one page an axle.

import { blocksOrder, conflictsOn, orderStatus } from '../../coilover/sizing/order-status.ts';
import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { ENDS, holdOf, isBought } from '../../coilover/sizing/unsettled.ts';
import { axleName } from '../../corner/axles.ts';
import { strutOf } from '../../corner/corner.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { refuseOtherThan } from '../../errors/result.ts';
import { worded } from '../../sentences/worded.ts';
import type { Units } from '../../units.ts';
import { capital, ended } from '../../words.ts';
import { type Block, type FormLine, heading, type OrderSheet, paragraph } from './blocks.ts';
import { endNames } from './end-names.ts';
import { onPaper } from './on-paper.ts';
import { body } from './order-body.ts';
import { car, staticOffset } from './order-car.ts';
import { orderData } from './order-data.ts';
import { lengths } from './order-lengths.ts';
import { mounts } from './order-mounts.ts';
import { moreDecimals, type OrderPage, orderRounding } from './order-rows.ts';
import { spring } from './order-spring.ts';
import { valving } from './order-valving.ts';
import { agreeLines, MARK, type ToAgree, toAgree } from './to-agree.ts';
import { drawUnit } from './unit-drawing.ts';
import { belowMinimum } from './unit-shape.ts';
import { isLying, standOf } from './unit-stand.ts';

/** What a page is. */
type Paper = 'ORDER' | 'ENQUIRY' | 'AS BOUGHT';

/** The title of pages that are all the same; of those that are not it is an enquiry. */
const TITLES: Readonly<Record<Paper, string>> = {
  ORDER: 'Order for coilovers',
  ENQUIRY: 'Enquiry for coilovers',
  'AS BOUGHT': 'Coilovers as bought',
};

/**
 * The order of a sizing for whoever makes the coilovers: one page per axle, with the unit to scale, lengths, mounts, body, spring, bump
 * stop, valving, what the maker must know of the car, and what is to be agreed. An axle with something to be agreed that decides what is
 * made, or with a conflict, is an enquiry; one whose damper is bought says what was bought. What else the sizing found stands in `reportSheet`.
 */
export function orderSheet(sizing: Sizing): OrderSheet {
  refuseOtherThan('sizing', sizing);
  const { name, axles, conflicts } = sizing;
  const papers = axles.map((sized) => paperOf(conflictsOn(sized.axle, conflicts), sized));
  const title = TITLES[papers.every((paper) => paper === papers[0]) ? papers[0] : 'ENQUIRY'];
  return {
    title: name === undefined ? title : `${title}: ${name}`,
    data: orderData(sizing, papers),
    blocks: axles.map((_, k) => pageOf(sizing, papers, k)),
  };
}

/** Conflicts that a page names. */
const CONFLICTS = 3;

function pageOf(
  sizing: Sizing,
  papers: readonly Paper[],
  k: number,
): Block & { readonly kind: 'page'; readonly paper: Paper } {
  const { name, use, units, conflicts, checks } = sizing;
  const [sized, paper] = [sizing.axles[k], papers[k]];
  const { axle, input } = sized;
  const found = conflictsOn(axle, conflicts);
  const uncertain = conflictsOn(axle, checks).flatMap((one) => uncertainWords(one, units));
  const items = toAgree(sized);
  const unit = `${axleName(axle).toLowerCase()} coilover`;
  const unknown = isBought(input) ? 'not given' : 'to be agreed';
  const page: OrderPage = {
    sized,
    paper: onPaper(units, orderRounding),
    unknown,
    open: paper === 'ENQUIRY' ? `${unknown} *` : unknown,
    isBought: isBought(input),
    massesFrom: sizing.massesFrom,
  };
  return {
    kind: 'page',
    title: name === undefined ? capital(unit) : `${name}: ${unit}`,
    paper,
    sheet: `sheet ${k + 1} of ${papers.length}`,
    lines: headOf(sizing, sized, paper),
    blocks: [
      paragraph(
        [
          ...(use === undefined ? [] : [ended(use.trim())]),
          reference(page),
          rideHeight(sizing, page),
          GOVERNING[units],
          DIRECTIONS,
        ].join(' '),
      ),
      ...standing(paper, found.filter(blocksOrder), uncertain, units),
      {
        kind: 'columns',
        columns: [
          [...drawn(page), ...lengths(page), ...mounts(page)],
          [...body(page), ...spring(page), ...valving(page)],
        ],
      },
      ...car(page),
      ...agreed(items, papers, k, headOf(sizing, sized, paper), page),
      ...CAUTIONS.map(paragraph),
      ...(paper === 'AS BOUGHT' ? [] : [{ kind: 'form', ...ANSWERS[paper] } as const]),
    ],
  };
}

/** What a page is, by what was found about its axle and what is settled. */
function paperOf(found: readonly Diagnostic[], sized: AxleSizing): Paper {
  switch (orderStatus(found, [sized])) {
    case 'bought':
      return 'AS BOUGHT';
    case 'order':
      return 'ORDER';
    default:
      return 'ENQUIRY';
  }
}

/** Revision and date are those of the order that the file stands for, else those that were bought by. */
function headOf({ order }: Sizing, { input: { ordered } }: AxleSizing, paper: Paper): FormLine[] {
  const { revision = null, date = null } = order ?? ordered ?? {};
  const known = [
    { label: 'Revision', value: revision },
    { label: 'Date', value: date },
  ];
  // Nothing is left to be written on what was bought.
  if (paper === 'AS BOUGHT') return known.filter(({ value }) => value !== null);
  return [
    { label: 'No.', value: null },
    ...known,
    { label: 'From', value: null },
    { label: 'To', value: null },
    { label: 'Supersedes', value: null },
  ];
}

/** Which of two values holds where their roundings differ. */
const GOVERNING: Readonly<Record<Units, string>> = {
  imperial: 'Inches govern.',
  metric: 'Millimetres govern.',
};

const DIRECTIONS = 'Bump = wheel up; compression = damper shortens.';

const CAUTIONS = [
  'A compressed spring can kill: compress and release it with proper tools only. A gas damper is under pressure: nobody but its maker opens, drills or heats it.',
  'The strength of brackets, welds and bolts is not checked here. Clearances are checked on the car through the whole travel, springs out, before it moves.',
];

/** What the maker fills in: an order is acknowledged, an enquiry answered. */
const ANSWERS: Readonly<Record<'ORDER' | 'ENQUIRY', { label: string; lines: readonly FormLine[] }>> = {
  ORDER: { label: 'Acknowledgement', lines: blank('Accepted as above, except', 'Maker', 'Date') },
  ENQUIRY: { label: 'Answer', lines: blank('Answer to this enquiry', 'Maker', 'Date') },
};

function blank(...labels: readonly string[]): FormLine[] {
  return labels.map((label) => ({ label, value: null }));
}

/** What lengths are taken between. */
function reference({ sized: { input }, unknown }: OrderPage): string {
  if (strutOf(input.corner) !== null)
    return 'Lengths along the strut, from the top mount to its lower point.';
  const faces = ENDS.filter((end) => holdOf(input, end) === 'nut').map(
    (end) => input.sizing?.order?.mounts?.[end]?.referenceFace ?? `a face ${unknown}`,
  );
  const [face] = faces;
  return `Lengths eye to eye, centre to centre of the bolts${face === undefined ? '' : `; at a stud to ${face}`}.`;
}

/** What all lengths and the drawing belong to, and where the car stands if that is elsewhere. */
function rideHeight({ aboard }: Sizing, { sized, paper }: OrderPage): string {
  const loads = aboard === null ? null : aboard.length === 0 ? 'nothing' : listed(aboard);
  const stands = staticOffset(sized, paper);
  if (stands !== null) {
    const { off, way, length } = stands;
    return `Ride height: as designed. With ${loads} aboard this axle stands ${off} ${way}, ${length} eye to eye.`;
  }
  if (loads === null) return 'Ride height as drawn.';
  return loads === 'nothing' ? 'Ride height: with the masses as given.' : `Ride height: ${loads} aboard.`;
}

/** Why it is no order. */
function standing(
  paper: Paper,
  conflicts: Sizing['conflicts'],
  uncertain: readonly string[],
  units: Units,
): Block[] {
  const shown = conflicts.slice(0, CONFLICTS).map((issue) => conflictWords(issue, units));
  const more = conflicts.length - shown.length;
  const found = [...shown, ...(more > 0 ? [`And ${more} more, in the report.`] : []), ...uncertain].join(' ');
  if (paper === 'ORDER') {
    return uncertain.length === 0
      ? []
      : [{ kind: 'stamp', text: 'Not certain.', advice: uncertain.join(' ') }];
  }
  if (paper === 'AS BOUGHT') {
    const advice = conflicts.length === 0 ? found : `${found} The report says what to change.`;
    return [{ kind: 'stamp', text: 'The damper is bought: this is a record, not an order.', advice }];
  }
  return [
    conflicts.length === 0
      ? {
          kind: 'stamp',
          text: 'Not to be made yet.',
          advice: ['Agree the items marked * first.', ...uncertain].join(' '),
        }
      : { kind: 'stamp', text: 'Not to be made as it stands.', advice: found },
  ];
}

/** A conflict as a maker reads it: without its place in the file and what to change there. */
function conflictWords(conflict: Diagnostic, units: Units): string {
  const { problem, got, allowed } = worded(conflict, units, moreDecimals(units));
  return [
    ended(capital(got === undefined ? problem : `${problem}: ${got}`)),
    ...(allowed === undefined ? [] : [ended(`Required: ${allowed}`)]),
  ].join(' ');
}

/** Margins that may be none, by code. */
const MARGINS: Readonly<Record<string, string>> = {
  bumpTravelUncertain: 'Bump travel',
  droopTravelUncertain: 'Droop travel',
  springTravelUncertain: 'Spring travel to the minimum permissible length',
};

/** A margin that is none at the lower end of its interval, as a maker reads it. */
function uncertainWords({ code, values }: Diagnostic, units: Units): string[] {
  const { margin, lowest } = values;
  if (!(code in MARGINS) || typeof margin !== 'number' || typeof lowest !== 'number') return [];
  const [nominal, least] = [margin, lowest].map((mm) => onPaper(units, orderRounding).both(mm, 'length'));
  return [
    `${MARGINS[code]} may be short: its margin is ${nominal}, ${least} at the lower end of the 95 % interval.`,
  ];
}

function drawn(page: OrderPage): Block[] {
  const { sized, paper, unknown } = page;
  const drawing = drawUnit(sized, paper);
  if (drawing === null) return [];
  const { order } = sized.input.sizing ?? {};
  const [own, other] = paper.units.map((units) => paper.unit('length', units));
  const isOpen = order?.bodyEnd === undefined && strutOf(sized.input.corner) === null;
  const { chassisUp, angle } = standOf(sized);
  const [chassis, moving] = endNames(sized);
  const upper = chassisUp ? chassis : moving;
  const stands = isLying(sized)
    ? `Drawn upright, ${upper} on top; in the car it lies at ${angle.toFixed(0)} deg to the vertical.`
    : `${capital(upper)} on top; in the car at ${angle.toFixed(0)} deg to the vertical.`;
  const under = belowMinimum(sized);
  return [
    { kind: 'picture', title: drawing.title, svg: drawing.svg, width: drawing.width },
    paragraph(
      [
        `Scale 1:${drawing.scale} printed at 100 %, ${own} (${other}), seen from the front. ${stands}`,
        ...(isOpen ? [`Body drawn up: ${unknown}.`] : []),
        ...(sized.figure('perchSetting').value === null ? [`Spring and perch, dashed: ${unknown}.`] : []),
        ...(under === null
          ? []
          : [
              `Compressed, the spring would be ${paper.both(under.length, 'length')} long, below its ${under.limit}: ${under.isDrawn ? 'dashed' : 'not drawn'}.`,
            ]),
        'Shapes, and diameters that no table has, are the maker’s.',
      ].join(' '),
    ),
  ];
}

/** What is to be agreed, with who decides; of what is bought, what the file does not say. */
function agreed(
  items: readonly ToAgree[],
  papers: readonly Paper[],
  k: number,
  head: readonly FormLine[],
  { massesFrom }: OrderPage,
): Block[] {
  const paper = papers[k];
  if (paper === 'AS BOUGHT') return [];
  const lines = agreeLines(items, paper === 'ENQUIRY');
  return [
    heading(2, agreeHeading(paper, lines.length === 0)),
    ...(lines.length === 0
      ? []
      : [{ kind: 'table', head: [], rows: lines, figures: [], label: 'To agree, by who decides' } as const]),
    ...(paper === 'ORDER'
      ? [
          paragraph(
            `${toFillIn(head, lines.length === 0)}${massesFrom === 'estimate' ? ' The masses are estimated: the builder orders on them.' : ''}${besides(papers)}`,
          ),
        ]
      : []),
  ];
}

/** The heading of what is to be agreed, with what the mark means. */
function agreeHeading(paper: Paper, isAllAgreed: boolean): string {
  if (paper === 'ENQUIRY') return `7 To agree: ${MARK}`;
  return isAllAgreed ? '7 To agree' : '7 To agree before delivery';
}

/** What is written on an order by hand before it goes out. */
function toFillIn(head: readonly FormLine[], isAllAgreed: boolean): string {
  const blanks = head.flatMap(({ label, value }) =>
    value !== null || label === 'Supersedes' ? [] : [label === 'No.' ? 'number' : label.toLowerCase()],
  );
  return [
    ...(isAllAgreed ? ['Nothing technical.'] : []),
    ...(blanks.length === 0 ? [] : [`The builder fills in ${listed(blanks)}.`]),
  ].join(' ');
}

/** That the sheets of the other axles order nothing, where they are enquiries. */
function besides(papers: readonly Paper[]): string {
  const enquiry = papers.indexOf('ENQUIRY');
  return enquiry < 0 ? '' : ` Sheet ${enquiry + 1} is an enquiry: it orders nothing.`;
}

/** `a, b and c`. */
function listed(names: readonly string[]): string {
  const most = names.slice(0, -1).join(', ');
  return `${most}${most === '' ? '' : ' and '}${names.at(-1)}`;
}
