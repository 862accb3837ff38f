// What of the inputs can be reckoned with. What can't is named and taken out, so that nothing hangs on it and all else is still
// reckoned: a share of downforce that is none, a spring or a helper without travel, a table of a bump stop that does not rise.

import type { Diagnostic } from '../../diagnostic.ts';
import type { Place } from '../../document/parse.ts';
import { bumpStopTableFaults } from '../forces/options.ts';
import { shareIssues } from '../masses.ts';
import { isPerchMeasured } from '../ordered/as-bought.ts';
import { coilFaults } from '../springs/coil-spring.ts';
import { springLengths } from '../springs/min-length.ts';
import type { AxleInputs, CarInputs, CornerSizing } from './inputs.ts';
import { isPlace, type UncertainInput } from './uncertain-inputs.ts';

/** Inputs without what can't be used, what of them is uncertain, and what was taken out. */
export function usable(
  written: CarInputs,
  uncertain: readonly UncertainInput[],
): {
  readonly inputs: CarInputs;
  readonly uncertain: readonly UncertainInput[];
  readonly issues: readonly Diagnostic[];
} {
  const { downforce, ...car } = written.car;
  const issues: Diagnostic[] = shareIssues('downforce.frontFraction', downforce?.frontFraction);
  const axles = written.axles.map((given): AxleInputs => {
    const left = usableSizing(given.sizing);
    const under = `corners.${given.axle}.sizing`;
    issues.push(...left.issues.map((issue) => ({ ...issue, path: `${under}.${issue.path}` })));
    const { perch, ...others } = left.sizing;
    const kept = isPerchMeasured(given.ordered) || written.car.masses?.scales?.perches !== 'reset';
    if (perch === undefined || kept) {
      return { ...given, sizing: left.sizing };
    }
    // Set for the drawn ride height: what was measured on the perch before counts no more.
    const { setting: _, ...unset } = perch;
    return { ...given, sizing: { ...others, perch: unset } };
  });
  const unshared = downforce === undefined || issues.some(({ path }) => path === 'downforce.frontFraction');
  const inputs: CarInputs = { car: unshared ? car : written.car, axles };
  return { inputs, uncertain: uncertain.filter(({ at }) => !isPlace(at) || has(inputs, at)), issues };
}

function usableSizing(sizing: CornerSizing): {
  readonly sizing: CornerSizing;
  readonly issues: readonly Diagnostic[];
} {
  const { springs, helper, bumpStopTable, ...rest } = sizing;
  const issues: Diagnostic[] = [];
  const good = (found: readonly Diagnostic[]) => {
    issues.push(...found);
    return found.length === 0;
  };
  const left = springs?.filter((spring, k) => good(springFaults(spring, `springs[${k}]`)));
  const works =
    helper !== undefined &&
    good(travelFaults('helper', helper.freeLength, { solidLength: helper.solidLength }));
  const rises = bumpStopTable !== undefined && good(bumpStopTableFaults('bumpStopTable', bumpStopTable));
  return {
    issues,
    sizing: {
      ...rest,
      ...(left === undefined || left.length === 0 ? {} : { springs: left }),
      ...(works ? { helper } : {}),
      ...(rises ? { bumpStopTable } : {}),
    },
  };
}

function springFaults(spring: NonNullable<CornerSizing['springs']>[number], path: string): Diagnostic[] {
  const { freeLength, solidLength, minLength, wire } = spring;
  const faults = wire === undefined ? [] : coilFaults(wire);
  if (faults.length > 0) return faults.map((issue) => ({ ...issue, path: `${path}.wire.${issue.path}` }));
  if (solidLength !== undefined && minLength !== undefined && minLength < solidLength) {
    return [
      {
        code: 'minLengthBelowSolid',
        severity: 'error',
        path: `${path}.minLength`,
        values: { minLength, solidLength },
      },
    ];
  }
  return travelFaults(path, freeLength, { minLength: springLengths(spring).minLength });
}

/** A spring that has no travel. */
function travelFaults(
  path: string,
  freeLength: number,
  shortest: { readonly minLength: number | null } | { readonly solidLength: number },
): Diagnostic[] {
  const [length] = Object.values(shortest);
  if (length === null || freeLength > length) return [];
  return [
    {
      code: 'springWithoutTravel',
      severity: 'error',
      path: `${path}.freeLength`,
      values: { freeLength, ...shortest },
    },
  ];
}

/** Whether there is something at a place of data. */
function has(data: unknown, [key, ...rest]: Place): boolean {
  if (key === undefined) return data !== undefined;
  return (
    typeof data === 'object' && data !== null && has((data as Record<string, unknown>)[String(key)], rest)
  );
}
