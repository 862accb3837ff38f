import type { LimitOptions } from '../../corner/limits/options.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { type Issue, show } from '../../errors.ts';
import { worded } from '../../sentences/worded.ts';
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

/** What is wrong with options. */
export function forceFaults(options: ForceOptions): Issue[] {
  if (typeof options !== 'object' || options === null) {
    return [
      {
        path: '',
        problem: 'no options',
        got: show(options),
        allowed: '{ sprungMass, unsprungMass, springRate }',
      },
    ];
  }
  const issues: Issue[] = [];
  const more = (path: string, value: unknown, least: string, good: (x: number) => boolean) => {
    if (typeof value === 'number' && Number.isFinite(value) && good(value)) return;
    issues.push({
      path,
      problem: value === undefined ? 'missing' : 'out of range',
      ...(value === undefined ? {} : { got: show(value) }),
      allowed: `a number ${least}`,
    });
  };
  more('sprungMass', options.sprungMass, 'greater than 0 (kg)', (x) => x > 0);
  more('unsprungMass', options.unsprungMass, 'of 0 or more (kg)', (x) => x >= 0);
  more('springRate', options.springRate, 'greater than 0 (N/mm)', (x) => x > 0);
  if (options.gasForce !== undefined) more('gasForce', options.gasForce, 'of 0 or more (N)', (x) => x >= 0);
  for (const [name, value] of Object.entries(options.factors ?? {})) {
    more(`factors.${name}`, value, 'of 0 or more', (x) => x >= 0);
  }
  issues.push(
    ...bumpStopTableFaults('bumpStopTable', options.bumpStopTable ?? []).map((one) => worded(one, 'metric')),
  );
  options.cases?.forEach(({ tyre, travel }, k) => {
    if (tyre !== null && !(Array.isArray(tyre) && tyre.length === 2 && tyre.every(Number.isFinite))) {
      issues.push({
        path: `cases[${k}].tyre`,
        problem: 'not a force',
        got: show(tyre),
        allowed: '[y, z] in N, or null',
      });
    }
    if (!(Number.isFinite(travel) || ['bumpLimit', 'droopLimit', 'equilibrium'].includes(travel as string))) {
      issues.push({
        path: `cases[${k}].travel`,
        problem: 'not a travel',
        got: show(travel),
        allowed: 'mm, bumpLimit, droopLimit, balance',
      });
    }
  });
  return issues;
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
