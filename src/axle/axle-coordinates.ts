// The hardpoint coordinates of an axle, and the axle with some of them moved. A corner that stands on both sides has each of its coordinates
// once: what is measured on one side is what the other one is built to, and an error of it moves both.

import type { Corner } from '../corner/corner.ts';
import { modelOf } from '../corner/corner.ts';
import type { Spread } from '../corner/covariance.ts';
import type { CustomCorner } from '../corner/custom.ts';
import { hardpointsOf, moveHardpoints } from '../corner/hardpoint-coordinates.ts';
import { ownPlusMinus, type PlusMinus, spreadOf } from '../corner/uncertainty.ts';
import type { Point } from '../linkage/drawing.ts';
import type { AxleLinkage } from './axle.ts';
import { type AntiRollBar, oppositeEnd } from './bar.ts';
import type { CrossSpring } from './cross-spring.ts';

/** So many mm by which coordinates are moved, by name. */
export type Moves = Readonly<Record<string, number>>;

/** A part of an axle by its coordinates, with some of them moved. */
interface Moving<Part> {
  readonly names: readonly string[];
  readonly moved: (by: Moves) => Part;
}

/** Names of the coordinates of an axle, and what moves them. */
export interface AxleCoordinates {
  readonly names: readonly string[];
  readonly moved: (by: Moves) => AxleLinkage;
}

/** The coordinates of an axle: those of its corners, then of what is between them. */
export function coordinatesOf(axle: AxleLinkage): AxleCoordinates {
  const left = cornerOf(axle.left, isMirrored(axle) ? '' : 'left');
  const right = isMirrored(axle) ? null : cornerOf(axle.right, 'right');
  const bar = axle.bar === null ? null : barOf(axle.bar);
  const thirdSpring = axle.thirdSpring === null ? null : springOf(axle.thirdSpring, 'thirdSpring');
  const rollSpring = axle.rollSpring === null ? null : springOf(axle.rollSpring, 'rollSpring');
  return {
    names: [left, right, bar, thirdSpring, rollSpring].flatMap((part) => part?.names ?? []),
    moved: (by) => {
      const corner = left.moved(by);
      return {
        ...axle,
        left: corner,
        right: right?.moved(by) ?? corner,
        bar: bar?.moved(by) ?? null,
        thirdSpring: thirdSpring?.moved(by) ?? null,
        rollSpring: rollSpring?.moved(by) ?? null,
      };
    },
  };
}

/** The errors of the coordinates of an axle: as given, or else as its corners have them, those of unlike corners independent of each other. */
export function spreadOfAxle(
  axle: AxleLinkage,
  given: PlusMinus | undefined,
  names: readonly string[],
): Spread {
  const [left, right] = [ownPlusMinus(axle.left), ownPlusMinus(axle.right)];
  if (given !== undefined || isMirrored(axle) || (left === undefined && right === undefined))
    return spreadOf(left, given, names);
  const sides = (['left', 'right'] as const).map((side) => {
    const own = hardpointsOf(modelOf(axle[side])).map(({ name }) => name);
    const { widths, directions } = spreadOf((side === 'left' ? left : right) ?? 0, undefined, own);
    const named = (values: Moves) =>
      Object.fromEntries(Object.entries(values).map(([name, value]) => [under(side, name), value]));
    return { widths: named(widths), directions: directions.map(named) };
  });
  const widths = Object.fromEntries(names.map((name) => [name, 0]));
  return {
    widths: Object.assign(widths, ...sides.map((side) => side.widths)),
    directions: sides.flatMap(({ directions }) => directions),
  };
}

function isMirrored({ left, right }: AxleLinkage): boolean {
  return right === left;
}

/** A name under another: `leftLowerInnerY`. */
function under(prefix: string, name: string): string {
  return prefix === '' ? name : prefix + name[0].toUpperCase() + name.slice(1);
}

function cornerOf(corner: Corner, prefix: string): Moving<Corner> {
  const model = modelOf(corner);
  const own = hardpointsOf(model).map(({ name }) => name);
  return {
    names: own.map((name) => under(prefix, name)),
    moved: (by) => {
      if (!own.some((name) => by[under(prefix, name)])) return corner;
      const moves = Object.fromEntries(own.map((name) => [name, by[under(prefix, name)] ?? 0]));
      return { ...moveHardpoints(model, moves), kind: 'custom', mirrored: false } satisfies CustomCorner;
    },
  };
}

const AXES = ['Y', 'Z'] as const;
const pointNames = (point: string) => AXES.map((axis) => point + axis);

function movedPoint(point: string, [y, z]: Point, by: Moves): Point {
  return [y + (by[`${point}Y`] ?? 0), z + (by[`${point}Z`] ?? 0)];
}

/** A bar: its ends, or the left one where the right one is its mirror image, and its axis or the length of its levers. */
function barOf(bar: AntiRollBar): Moving<AntiRollBar> {
  const opposite = oppositeEnd(bar.left, bar.axis);
  const isAlike =
    bar.axis === null ||
    (['linkMount', 'leverEnd'] as const).every((point) =>
      [0, 1].every((k) => bar.right[point][k] === opposite[point][k]),
    );
  const ends = isAlike ? ['bar'] : ['barLeft', 'barRight'];
  const along = bar.axis === null ? ['barLeverLength'] : pointNames('barAxis');
  const end = (of: AntiRollBar['left'], name: string, by: Moves) => ({
    ...of,
    linkMount: movedPoint(`${name}LinkMount`, of.linkMount, by),
    leverEnd: movedPoint(`${name}LeverEnd`, of.leverEnd, by),
  });
  return {
    names: [
      ...ends.flatMap((name) => ['LinkMount', 'LeverEnd'].flatMap((point) => pointNames(name + point))),
      ...along,
    ],
    moved: (by) => {
      const axis = bar.axis === null ? null : movedPoint('barAxis', bar.axis, by);
      const left = end(bar.left, ends[0], by);
      const right = isAlike
        ? { ...bar.right, ...oppositeEnd(left, axis), on: bar.right.on }
        : end(bar.right, ends[1], by);
      const leverLength =
        axis === null
          ? bar.leverLength + (by.barLeverLength ?? 0)
          : Math.hypot(left.leverEnd[0] - axis[0], left.leverEnd[1] - axis[1]);
      return { ...bar, left, right, axis, leverLength };
    },
  };
}

/** A spring between both wheels: its ends, or one of them where the other is its mirror image. */
function springOf(spring: CrossSpring, name: string): Moving<CrossSpring> {
  const { left, right } = spring;
  const isAlike = [0, 1].every((k) => left.mount[k] === right.mount[k]);
  const [onLeft, onRight] = isAlike
    ? [`${name}Mount`, `${name}Mount`]
    : [`${name}LeftMount`, `${name}RightMount`];
  return {
    names: [...new Set([onLeft, onRight])].flatMap(pointNames),
    moved: (by) => ({
      ...spring,
      left: { ...left, mount: movedPoint(onLeft, left.mount, by) },
      right: { ...right, mount: movedPoint(onRight, right.mount, by) },
    }),
  };
}
