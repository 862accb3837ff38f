import type { ColumnInfo } from '../corner/columns.ts';
import type { Sweep } from '../corner/sweep.ts';
import { fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import { fromMetric, type Units, unitName } from '../units.ts';
import { spaced } from '../words.ts';
import { shownUnit } from './in-units.ts';
import { unitsFaults } from './looks.ts';
import { figure, fold, signedTravel } from './text.ts';

/** Columns of the table without a choice: what the spring sees, then what the wheel does. */
const BLOCKS = [
  ['shockLength', 'installationRatio'],
  ['camber', 'halfTrackChange', 'rollCentreHeight'],
];

/** Titles are broken into lines of at most this many characters, notes into lines of that many. */
const TITLE = 12;
const NOTE = 78;

/** A column of text: its title's lines, its unit, its cells. */
interface Block {
  readonly title: readonly string[];
  readonly unit: string;
  readonly cells: readonly string[];
}

/**
 * A sweep as a fixed-width table to read: rounded, units below the titles, the rows of droop, ride and bump named.
 *
 * Each row begins with its travel, bump positive; lengths are in mm, or in inches for `imperial`. Without `columns` there follow shock length and installation
 * ratio, then, set apart, the wheel's attitude (as far as the sweep has these columns). Below stand the signs that need
 * saying.
 *
 * @throws InputError for a column that the sweep does not have.
 */
export function sweepTable<Name extends string>(
  sweep: Sweep<Name>,
  columns?: readonly NoInfer<Name | 'travel'>[],
  units?: Units,
): string;
export function sweepTable(sweep: Sweep, columns?: readonly string[], units: Units = 'metric'): string {
  refuseOtherThan('sweep', sweep);
  refuse('units', unitsFaults(units));
  const known = new Map(sweep.info.map((column) => [column.name, column]));
  if (columns !== undefined && !Array.isArray(columns)) {
    refuse('table columns', [fault('notAListOfColumns', 'columns', { got: show(columns) })]);
  }
  refuse(
    'table columns',
    (columns ?? []).flatMap((name, k) =>
      known.has(name)
        ? []
        : [fault('notInTheSweep', `columns[${k}]`, { got: show(name), allowed: [...known.keys()] })],
    ),
  );
  const groups = (columns === undefined ? BLOCKS : [columns])
    .map((names) => names.flatMap((name) => (name === 'travel' ? [] : (known.get(name) ?? []))))
    .filter((group) => group.length > 0);
  const [first = [], ...others] = groups.map((group) =>
    group.map((column) => quantity(sweep, column, units)),
  );
  const blocks = [[poseNames(sweep), travels(sweep, units), ...first], ...others];
  const height = Math.max(...blocks.flat().map(({ title }) => title.length));
  const set = blocks.map((block) =>
    beside(
      block.map((part) => lines(part, height)),
      '  ',
    ),
  );
  return [...beside(set, '  |  '), ...notes([sweep.info[0], ...groups.flat()])]
    .map((line) => `${line.trimEnd()}\n`)
    .join('');
}

function poseNames({ columns: { travel }, end }: Sweep): Block {
  const nameOf = (t: number) => {
    if (t === 0) return 'ride';
    if (t === end.bump.travel) return 'bump';
    return t === end.droop.travel ? 'droop' : '';
  };
  return { title: [], unit: '', cells: Array.from(travel, nameOf) };
}

function travels({ columns: { travel } }: Sweep, units: Units): Block {
  const unit = unitName('length', units);
  const cell = (mm: number) => signedTravel(fromMetric(mm, 'length', units), unit);
  return { title: ['travel'], unit, cells: Array.from(travel, cell) };
}

function quantity({ columns }: Sweep, { name, unit }: ColumnInfo, units: Units): Block {
  const shown = shownUnit(unit, units);
  return {
    title: fold(spaced(name), TITLE),
    unit: shown.name === '' ? '-' : shown.name,
    cells: Array.from(columns[name], (value) => figure(value === null ? null : shown.of(value), shown.name)),
  };
}

/** A block as lines of one width: title, unit, rule, cells. */
function lines({ title, unit, cells }: Block, height: number): string[] {
  const head = [...new Array<string>(height - title.length).fill(''), ...title, unit];
  const width = Math.max(...[...head, ...cells].map(({ length }) => length));
  return [...head, '-'.repeat(width), ...cells].map((text) => text.padStart(width));
}

function beside(parts: readonly string[][], gap: string): string[] {
  return parts[0].map((_, i) => parts.map((part) => part[i]).join(gap));
}

/** What the labels say beyond the titles. */
function notes(columns: readonly ColumnInfo[]): string[] {
  const letters = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
  const said = columns
    .filter(({ name, label }) => letters(spaced(name)) !== letters(label))
    .map(({ label }) => label);
  return ['', ...fold(`${said.join('; ')}.`, NOTE)];
}
