import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/corner.ts';
import type { Corner } from './corner.ts';
import { type Covariance, isCovariance, type Spread, spreadOfCovariance } from './covariance.ts';
import { unknownCoordinate } from './hardpoint-coordinates.ts';

/**
 * How far coordinates may be off, mm: one number for all, or by name (`{ lowerInnerY: 1.5 }`), those left out being
 * exact. Each is the half-width of a 95 % interval, 1.96 standard deviations of a normal error; errors are independent.
 * Or the covariance of errors that are not.
 */
export type PlusMinus = number | Readonly<Record<string, number>> | Covariance;

/** How far a corner itself says that its coordinates may be off. */
export function ownPlusMinus(corner: Corner): PlusMinus | undefined {
  return 'plusMinus' in corner ? corner.plusMinus : undefined;
}

/** The errors of coordinates, from what was given or else from what has them. */
export function spreadOf(
  own: PlusMinus | undefined,
  given: PlusMinus | undefined,
  names: readonly string[],
): Spread {
  const plusMinus: unknown = given === undefined ? own : given;
  if (isCovariance(plusMinus)) return spreadOfCovariance(plusMinus, names);
  refuse('plusMinus', faultsOf(plusMinus, names));
  const widths = plusMinus as number | Readonly<Record<string, number>>;
  const entries = names.map(
    (name) => [name, typeof widths === 'number' ? widths : (widths[name] ?? 0)] as const,
  );
  return {
    widths: Object.fromEntries(entries),
    directions: entries.map(([name, width]) => ({ [name]: width })),
  };
}

function faultsOf(plusMinus: unknown, names: readonly string[]): Diagnostic[] {
  if (plusMinus === undefined) return [fault('plusMinusMissing', '')];
  if (typeof plusMinus === 'number') return isWidth(plusMinus) ? [] : [notAHalfWidth('', plusMinus)];
  if (typeof plusMinus !== 'object' || plusMinus === null || Array.isArray(plusMinus)) {
    return [notAHalfWidth('', plusMinus)];
  }
  return Object.entries(plusMinus).flatMap(([name, width]): Diagnostic[] => {
    if (names.includes(name)) return isWidth(width) ? [] : [notAHalfWidth(name, width)];
    return [unknownCoordinate(name, name, names)];
  });
}

function isWidth(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function notAHalfWidth(path: string, value: unknown): Diagnostic {
  return fault('notAHalfWidth', path, { ofAll: path === '', got: show(value) });
}
