import { type Diagnostic, fault, show, unknownOptions } from '../../diagnostic.ts';
import type { LimitOptions } from '../../document/inputs.ts';
import type { BumpStopTable } from './axial-force.ts';
import type { LoadCase, LoadFactors } from './load-cases.ts';

/** What a corner carries, and with what. */
export interface ForceOptions {
  /** What the spring of this corner carries, kg. */
  readonly sprungMass: number;
  /** The rest of the wheel's load, kg. */
  readonly unsprungMass: number;
  /** N/mm of the spring itself; it carries the sprung mass at the drawn ride height. */
  readonly springRate: number;
  /** N that the damper's gas pushes with; default 0. */
  readonly gasForce?: number;
  /** How far the bump stop is pressed in (mm) and its force (N); without it what the stop bears is in the rest. */
  readonly bumpStopTable?: BumpStopTable;
  /** Damper, stop, ball joints and all else that ends the travel, as for `limits`. */
  readonly limits?: LimitOptions;
  readonly factors?: Partial<LoadFactors>;
  /** Cases of your own, after the usual ones. */
  readonly cases?: readonly LoadCase[];
}

const OPTIONS = [
  'sprungMass',
  'unsprungMass',
  'springRate',
  'gasForce',
  'bumpStopTable',
  'limits',
  'factors',
  'cases',
];

/** What is wrong with options. */
export function forceFaults(options: ForceOptions): Diagnostic[] {
  if (typeof options !== 'object' || options === null) {
    return [fault('noForceOptions', '', { got: show(options) })];
  }
  const faults: Diagnostic[] = unknownOptions(options, OPTIONS);
  const check = (path: string, value: unknown, bound: 'above' | 'min', unit: string | null) => {
    if (typeof value === 'number' && Number.isFinite(value) && (bound === 'min' ? value >= 0 : value > 0))
      return;
    faults.push(
      value === undefined
        ? fault('missingNumber', path, { [bound]: 0, unit })
        : fault('outOfRange', path, { [bound]: 0, unit, got: show(value) }),
    );
  };
  check('sprungMass', options.sprungMass, 'above', 'kg');
  check('unsprungMass', options.unsprungMass, 'min', 'kg');
  check('springRate', options.springRate, 'above', 'N/mm');
  if (options.gasForce !== undefined) check('gasForce', options.gasForce, 'min', 'N');
  for (const [name, value] of Object.entries(options.factors ?? {}))
    check(`factors.${name}`, value, 'min', null);
  const { bumpStopTable = [], cases = [] } = options;
  if (!isTable(bumpStopTable))
    faults.push(fault('notABumpStopTable', 'bumpStopTable', { got: show(bumpStopTable) }));
  else faults.push(...bumpStopTableFaults('bumpStopTable', bumpStopTable));
  if (!Array.isArray(cases)) return [...faults, fault('notACaseList', 'cases', { got: show(cases) })];
  cases.forEach(({ tyre, travel }, k) => {
    if (tyre !== null && !(Array.isArray(tyre) && tyre.length === 2 && tyre.every(Number.isFinite))) {
      faults.push(fault('notATyreForce', `cases[${k}].tyre`, { got: show(tyre) }));
    }
    if (!(Number.isFinite(travel) || TRAVELS.includes(travel as string))) {
      faults.push(
        fault('notACaseTravel', `cases[${k}].travel`, { got: show(travel), allowed: ['mm', ...TRAVELS] }),
      );
    }
  });
  return faults;
}

const TRAVELS = ['bumpLimit', 'droopLimit', 'equilibrium'];

function isTable(table: unknown): table is BumpStopTable {
  return (
    Array.isArray(table) &&
    table.every((row) => Array.isArray(row) && row.length === 2 && row.every(Number.isFinite))
  );
}

/** Where a table of a bump stop does not rise from [0, 0], which it may begin with or leave out. */
export function bumpStopTableFaults(path: string, table: BumpStopTable): Diagnostic[] {
  return table.flatMap(([compression, force], k): Diagnostic[] => {
    const [compressionBefore, forceBefore] = table[k - 1] ?? [0, 0];
    const begins = k === 0 && compression === 0 && force === 0;
    if (begins || (compression > compressionBefore && force >= forceBefore)) return [];
    return [
      {
        code: 'bumpStopTableFalls',
        severity: 'error',
        path: `${path}[${k}]`,
        values: { compression, force, compressionBefore, forceBefore },
      },
    ];
  });
}
