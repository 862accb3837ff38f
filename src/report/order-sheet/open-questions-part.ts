// What is still to be found out, and what the order leaves to be agreed: the same list as on the order; of a bought coilover only what is new.

import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { isBought } from '../../coilover/sizing/unsettled.ts';
import { axleName } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { sentence } from '../../sentences/sentence.ts';
import { type Block, heading, list, table } from './blocks.ts';
import { agreeLines, MARK, toAgree } from './to-agree.ts';

/** Inputs of an axle that the order does not ask for. */
const NOT_ON_ORDER = ['sizing', 'target', 'tyreRate'];
/** Questions that the order asks in its own words. */
const ON_ORDER = ['springLengthsOpen', 'minLengthOpen'];

/** Nothing where nothing is open. */
export function openQuestionsPart({ openQuestions, axles, units }: Sizing): Block[] {
  const own = openQuestions.flatMap(besidesOrder).map((one) => sentence(one, units));
  const rows = axles.flatMap((sized) =>
    (isBought(sized.input) ? newSpring(sized) : agreeLines(toAgree(sized), true)).map(([who, what]) => [
      axleName(sized.axle),
      who,
      what,
    ]),
  );
  if (own.length === 0 && rows.length === 0) return [];
  const isMarked = rows.some(([, , what]) => what.includes('* '));
  const title = `To agree${isMarked ? `: ${MARK}` : ''}`;
  return [
    heading(2, 'Open questions'),
    ...(own.length === 0 ? [] : [list(own)]),
    ...(rows.length === 0 ? [] : [table(title, ['axle', 'who decides', 'to agree'], rows, [])]),
  ];
}

/** What a new spring leaves to be agreed, where the advice on a bought coilover asks for one that no list has. */
function newSpring({ afterOrder }: AxleSizing): [who: string, what: string][] {
  const { change } = afterOrder ?? {};
  if (change == null || change.listed) return [];
  return [['spring maker', 'free length, minimum permissible length and inner diameter of the new spring']];
}

/** A question without what the order asks. */
function besidesOrder(one: Diagnostic): Diagnostic[] {
  if (ON_ORDER.includes(one.code)) return [];
  if (one.code !== 'inputsMissing') return [one];
  const { missing } = one.values;
  const left = Array.isArray(missing) ? missing.filter((name) => NOT_ON_ORDER.includes(String(name))) : [];
  return left.length === 0 ? [] : [{ ...one, values: { ...one.values, missing: left } }];
}
