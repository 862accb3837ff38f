import { type Corner, modelOf } from '../corner/corner.ts';
import { fault, show, unknownName, unknownOptions } from '../diagnostic.ts';
import { isOverCentre } from '../document/axle-findings.ts';
import type { AntiRollBarInput } from '../document/inputs.ts';
import { refusal, refuse } from '../errors/axle.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import { type AntiRollBar, checkedBar } from './bar.ts';

/** Two corners on one body, and the bar between them. */
export interface AxleInput {
  /** Left-hand corner. A corner has its y outboard from the centreline, whichever side it is on. */
  readonly left: Corner;
  /** Right-hand corner; the mirror image of the left one if left out. */
  readonly right?: Corner;
  readonly bar?: AntiRollBarInput | undefined;
}

/** An axle as plain, frozen data; made by `axle`. */
export interface AxleLinkage {
  readonly kind: 'axle';
  readonly left: Corner;
  readonly right: Corner;
  /** null without one. */
  readonly bar: AntiRollBar | null;
}

/**
 * An axle from its two corners: both wheels stand on one ground as drawn.
 *
 * @throws InputError for what is no corner, a bar on a body that a corner has not, and one that locks the axle as drawn.
 */
export function axle(input: AxleInput): AxleLinkage {
  refuse('axle', unknownOptions(input, ['left', 'right', 'bar']));
  const { left, right = left, bar } = input;
  const models = { left: modelOf(left), right: modelOf(right) };
  const checked = bar === undefined ? null : checkedBar(bar);
  if (checked !== null) {
    for (const [side, { drawing }] of Object.entries(models)) {
      const bodies = Object.keys(drawing.bodies);
      if (!bodies.includes(checked.on)) {
        throw refusal('axle', [unknownName('bar.on', `body of the ${side} corner`, checked.on, bodies)]);
      }
    }
    if (isOverCentre(checked.linkMount, checked.leverEnd)) {
      throw refusal('axle', [fault('leverOverCentre', 'bar.linkMount', { got: show(checked.linkMount) })]);
    }
  }
  const kept = frozenCopy(left);
  // One corner for both wheels stays one: its curve is laid once.
  return Object.freeze({
    kind: 'axle',
    left: kept,
    right: right === left ? kept : frozenCopy(right),
    bar: frozenCopy(checked),
  });
}
