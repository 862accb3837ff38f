import { type Issue, show, throwIfAny } from '../errors.ts';
import type { Corner } from './corner.ts';
import { type Covariance, isCovariance, type Spread, spreadOfCovariance } from './covariance.ts';
import { unknownCoordinate } from './hardpoint-coordinates.ts';

/**
 * How far coordinates may be off, mm: one number for all, or by name (`{ lowerInnerY: 1.5 }`), those left out being
 * exact. Each is the half-width of a 95 % interval, 1.96 standard deviations of a normal error; errors are independent.
 * Or the covariance of errors that are not.
 */
export type PlusMinus = number | Readonly<Record<string, number>> | Covariance;

/** The errors of a corner's coordinates, from what was given or else from the corner itself. */
export function spreadOf(corner: Corner, given: PlusMinus | undefined, names: readonly string[]): Spread {
  const own = 'plusMinus' in corner ? corner.plusMinus : undefined;
  const plusMinus: unknown = given === undefined ? own : given;
  if (isCovariance(plusMinus)) return spreadOfCovariance(plusMinus, names);
  throwIfAny('plusMinus', faults(plusMinus, names));
  const widths = plusMinus as number | Readonly<Record<string, number>>;
  const entries = names.map(
    (name) => [name, typeof widths === 'number' ? widths : (widths[name] ?? 0)] as const,
  );
  return {
    widths: Object.fromEntries(entries),
    directions: entries.map(([name, width]) => ({ [name]: width })),
  };
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
    return [unknownCoordinate(name, name, names)];
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
