import type { LimitOptions } from '../../document/inputs.ts';
import { limitFindings } from '../../document/limit-findings.ts';
import { limitOptionsSchema } from '../../document/limits-schema.ts';
import { parse, valueAt } from '../../document/parse.ts';
import { farAway } from '../../document/read-document.ts';
import { refuse } from '../../errors/file.ts';
import type { CornerModel } from '../model.ts';
import { type Tyre, tyreFindings, tyreOf } from '../tyre.ts';
import { partFindings } from './part-findings.ts';

/** Options that have been checked, with the tyre as numbers. */
export interface CheckedOptions extends Omit<LimitOptions, 'tyre' | 'notes'> {
  readonly tyre?: Tyre | undefined;
}

/**
 * Checks the options for a corner.
 *
 * @throws InputError with every issue.
 */
export function checkOptions(options: LimitOptions, model: CornerModel): CheckedOptions {
  const check = (value: unknown) => [
    ...farAway(value, []),
    ...limitFindings(value, 'metric'),
    ...tyreFindings(value, ['tyre']),
    ...partFindings(value, model),
  ];
  const given = parse(limitOptionsSchema, withoutEmpty(options), 'limit options', check, refuse);
  const { tyre, notes: _, ...others } = given;
  return { ...others, ...(tyre === undefined ? {} : { tyre: tyreOf(tyre) }) };
}

/** An empty list, in a file a slip, is here no list. */
function withoutEmpty(options: unknown): unknown {
  if (!LISTS.some((name) => isEmptyList(valueAt(options, [name]))) || Array.isArray(options)) return options;
  return Object.fromEntries(
    Object.entries(options as object).filter(
      ([name, value]) => !(LISTS.includes(name) && isEmptyList(value)),
    ),
  );
}

function isEmptyList(value: unknown): boolean {
  return Array.isArray(value) && value.length === 0;
}

const LISTS = ['arch', 'chassisLowPoints'];
