import type { Diagnostic } from '../../diagnostic.ts';
import type { Bound } from './bound.ts';
import type { Side } from './first-crossing.ts';
import type { Pose } from './travel-path.ts';

/** A limit met, named by its cause. */
export function metAt(
  { cause, path }: { readonly cause: string; readonly path: string },
  side: Side,
  travel: number,
  values: Diagnostic['values'],
): Diagnostic {
  return { code: cause, severity: 'note', path, values: { side, travel, ...values } };
}

/** A drawn pose beyond a limit. */
export function misfitOf({ path, misfit }: Bound<string>, drawn: Pose): Diagnostic {
  return { severity: 'conflict', path, ...misfit(drawn) };
}
