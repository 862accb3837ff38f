import { meantName } from '../document/spelling.ts';
import { type Issue, show, throwIfAny } from '../errors.ts';
import type { Corner } from './corner.ts';

/**
 * How far coordinates may be off, mm: one number for all, or by name (`{ lowerInnerY: 1.5 }`), those left out being
 * exact. Each is the half-width of a 95 % interval, 1.96 standard deviations of a normal error; errors are independent.
 */
export type PlusMinus = number | Readonly<Record<string, number>>;

/** Half-width of a 95 % interval of a normal quantity, in standard deviations. */
export const HALF_WIDTH = 1.96;

/** Half-width of each coordinate, in their order, from what was given or else from the corner itself. */
export function halfWidths(
  corner: Corner,
  given: PlusMinus | undefined,
  names: readonly string[],
): Record<string, number> {
  const own = 'plusMinus' in corner ? corner.plusMinus : undefined;
  const plusMinus: unknown = given === undefined ? own : given;
  throwIfAny('plusMinus', faults(plusMinus, names));
  const widths = plusMinus as PlusMinus;
  return Object.fromEntries(
    names.map((name) => [name, typeof widths === 'number' ? widths : (widths[name] ?? 0)]),
  );
}

function adviceFor(name: string, names: readonly string[]): string {
  if (name.startsWith('contactPatch')) {
    return 'the contact patch follows from the camber that was given: take it out';
  }
  const meant = meantName(name, names);
  return meant === undefined ? 'correct the name, or take it out' : `did you mean ${meant}?`;
}

const WIDTH = 'mm, 0 or more';

function faults(plusMinus: unknown, names: readonly string[]): Issue[] {
  if (plusMinus === undefined) {
    return [
      {
        path: '',
        problem: 'not given, nor in the corner',
        allowed: 'mm for all coordinates, or { lowerInnerY: mm, ... }',
        advice: 'give it, or write coordinates of the corner as { value, plusMinus }',
      },
    ];
  }
  if (typeof plusMinus === 'number') return isWidth(plusMinus) ? [] : [noWidth('', plusMinus)];
  if (typeof plusMinus !== 'object' || plusMinus === null || Array.isArray(plusMinus)) {
    return [noWidth('', plusMinus)];
  }
  return Object.entries(plusMinus).flatMap(([name, width]): Issue[] => {
    if (names.includes(name)) return isWidth(width) ? [] : [noWidth(name, width)];
    return [
      {
        path: name,
        problem: 'unknown coordinate',
        allowed: names.join(', '),
        advice: adviceFor(name, names),
      },
    ];
  });
}

function isWidth(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function noWidth(path: string, value: unknown): Issue {
  return {
    path,
    problem: 'not a half-width',
    got: show(value),
    allowed: path === '' ? `${WIDTH}, or { lowerInnerY: mm, ... }` : WIDTH,
  };
}
