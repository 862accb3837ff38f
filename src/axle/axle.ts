import { type Corner, modelOf } from '../corner/corner.ts';
import { unknownName, unknownOptions } from '../diagnostic.ts';
import type { AntiRollBarInput, RollSpringInput, ThirdSpringInput } from '../document/inputs.ts';
import { refusal, refuse } from '../errors/axle.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import { type AntiRollBar, checkedBar } from './bar.ts';
import { type CrossSpring, checkedRollSpring, checkedThirdSpring } from './cross-spring.ts';

/** Two corners on one body, and what is between them. */
export interface AxleInput {
  /** Left-hand corner. A corner has its y outboard from the centreline, whichever side it is on. */
  readonly left: Corner;
  /** Right-hand corner; the mirror image of the left one if left out. */
  readonly right?: Corner;
  readonly bar?: AntiRollBarInput | undefined;
  /** Shortened by heave. */
  readonly thirdSpring?: ThirdSpringInput | undefined;
  /** Stretched and shortened by roll. */
  readonly rollSpring?: RollSpringInput | undefined;
}

/** An axle as plain, frozen data; made by `axle`. */
export interface AxleLinkage {
  readonly kind: 'axle';
  readonly left: Corner;
  readonly right: Corner;
  /** null without one, and so the springs. */
  readonly bar: AntiRollBar | null;
  readonly thirdSpring: CrossSpring | null;
  readonly rollSpring: CrossSpring | null;
}

/**
 * An axle from its two corners: both wheels stand on one ground as drawn.
 *
 * @throws InputError for what is no corner, a bar or spring on a body that a corner has not, a bar that locks the axle as drawn, and a spring
 * that does not fit there.
 */
export function axle(input: AxleInput): AxleLinkage {
  refuse('axle', unknownOptions(input, ['left', 'right', 'bar', 'thirdSpring', 'rollSpring']));
  const { left, right = left, bar, thirdSpring, rollSpring } = input;
  const models = { left: modelOf(left), right: modelOf(right) };
  const checked = {
    bar: bar === undefined ? null : checkedBar(bar),
    thirdSpring: thirdSpring === undefined ? null : checkedThirdSpring(thirdSpring),
    rollSpring: rollSpring === undefined ? null : checkedRollSpring(rollSpring),
  };
  for (const side of ['left', 'right'] as const) {
    const bodies = Object.keys(models[side].drawing.bodies);
    for (const { path, end } of endsOn(checked, side)) {
      if (!bodies.includes(end.on))
        throw refusal('axle', [unknownName(path, `body of the ${side} corner`, end.on, bodies)]);
    }
  }
  const kept = frozenCopy(left);
  // One corner for both wheels stays one: its curve is laid once.
  return Object.freeze({
    kind: 'axle',
    left: kept,
    right: right === left ? kept : frozenCopy(right),
    bar: frozenCopy(checked.bar),
    thirdSpring: frozenCopy(checked.thirdSpring),
    rollSpring: frozenCopy(checked.rollSpring),
  });
}

/** What is between both wheels of an axle. */
export type Between = Pick<AxleLinkage, 'bar' | 'thirdSpring' | 'rollSpring'>;

/** Ends on a corner of what is between both wheels: what each is of, where its body is named, and the point. */
export function endsOn({ bar, thirdSpring, rollSpring }: Between, side: 'left' | 'right') {
  const of = (name: 'thirdSpring' | 'rollSpring', spring: CrossSpring | null) =>
    spring === null
      ? []
      : [{ name, path: side === 'left' ? `${name}.on` : `${name}.right.on`, end: spring[side] }];
  return [
    ...(bar === null
      ? []
      : [
          {
            name: 'bar' as const,
            path: side === 'left' || bar.axis === null ? 'bar.on' : 'bar.right.on',
            end: { on: bar[side].on, mount: bar[side].linkMount },
          },
        ]),
    ...of('thirdSpring', thirdSpring),
    ...of('rollSpring', rollSpring),
  ];
}
