import type { BumpStopTable } from '../../corner/axial-force.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../../diagnostic.ts';
import type { LimitOptions } from '../../document/inputs.ts';
import { factorFaults, type LoadCase, type LoadFactors } from './load-cases.ts';

/** What a corner carries, and with what. */
export interface ForceOptions {
  /** Sprung mass that this corner carries, kg. */
  readonly sprungMass: number;
  /** Unsprung mass of this corner, kg. */
  readonly unsprungMass: number;
  /** Rate of the spring itself, N/mm; its preload carries the sprung mass at design ride height. */
  readonly springRate: number;
  /** Gas force of the damper, N; default 0. */
  readonly gasForce?: number;
  /** Compression (mm) and force (N) of the bump stop; without it the force of the stop counts as metal contact. */
  readonly bumpStopTable?: BumpStopTable;
  /** Damper, bump stop, ball joints and all else that ends the travel, as for `limits`. */
  readonly limits?: LimitOptions;
  readonly factors?: Partial<LoadFactors>;
  /** Load cases of your own, after the standard ones. */
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
  if (options.factors !== undefined) faults.push(...factorFaults(options.factors, 'factors'));
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
