// A point P at the lengths a from A and b from B, which are d apart; a <= b, else A and B change places. With u from A to B and n
// to the left of it
//
//   P = A + x u +- h n,   x = (d + (a + b)(a - b)/d)/2,   h = sqrt((a - x)(a + x))
//
// so that an error of x leaves |P - A| as it is, and changes |P - B| by d/b <= 2 times as much.
// A point at the length c from C on a line at the distance h from C: sqrt((c - h)(c + h)) from the foot of C.

import { type Diagnostic, fault, show, unknownName, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/placements.ts';
import { between, cross, distance, dot } from '../numerics/plane.ts';
import { isPoint, type Point } from './drawing.ts';
import { isRecord } from './joints.ts';

/**
 * Where a point is; lengths in the drawing's unit, angles in radians, counter-clockwise positive:
 *
 * - `[x, y]`: coordinates;
 * - `{ from: ['A', 'B'], lengths: [a, b], side }`: a from A and b from B, to the left or right of the way from A to B;
 * - `{ from: 'A', length, angle, towards? }`: in the direction `angle`, counted from +x, or from the direction of A to `towards`;
 * - `{ on: ['A', 'B'], at, offset? }`: on the line through A and B, `at` from A towards B, and `offset` to the left of it;
 * - `{ on: ['A', 'B'], from: 'C', length, side }`: on that line at a length from C; of the two such points the one `ahead`
 *   of the foot of C on the way from A to B, or the one `behind` it.
 */
export type Placement<P extends string = string> =
  | readonly number[]
  | {
      readonly from: readonly [P, P];
      readonly lengths: readonly [number, number];
      readonly side: 'left' | 'right';
    }
  | { readonly from: P; readonly length: number; readonly angle: number; readonly towards?: P }
  | { readonly on: readonly [P, P]; readonly at: number; readonly offset?: number }
  | {
      readonly on: readonly [P, P];
      readonly from: P;
      readonly length: number;
      readonly side: 'ahead' | 'behind';
    };

/**
 * Points of a drawing from their lengths. Each may be placed from any others, in any order; it is where its lengths put it, to
 * rounding.
 *
 * @throws InputError with every issue: unknown names, numbers out of range, points placed by themselves, and lengths that do
 * not meet, with `shortfall` among the values: how much too short or too long they are, in the drawing's unit.
 */
export function placePoints<const P extends string>(
  placements: {
    readonly [Name in P]: Placement<NoInfer<P>>;
  },
): Record<P, Point>;
export function placePoints(placements: Readonly<Record<string, Placement>>): Record<string, Point> {
  if (!isRecord(placements)) refuse('placements', [fault('notPlacements', '', { got: show(placements) })]);
  const names = Object.keys(placements);
  const plans = new Map(names.map((name) => [name, planOf(placements[name], name, names)]));
  const faults = new Map([...plans].map(([name, plan]) => [name, 'make' in plan ? [] : plan]));
  const places = new Map<string, Point | null>();
  const place = (name: string, { from, make }: Plan): Point | null => {
    const known = from.map((other) => places.get(other) ?? null);
    if (!known.every((one) => one !== null)) return null;
    const made = make(known);
    if (isPoint(made)) return made;
    faults.get(name)?.push('code' in made ? made : fault('notFinite', name, { got: show(made) }));
    return null;
  };
  for (const start of names) {
    const chain = places.has(start) ? [] : [start];
    while (chain.length > 0) {
      const name = chain[chain.length - 1];
      const plan = plans.get(name) as Plan | Diagnostic[];
      const next = 'make' in plan ? plan.from.find((other) => !places.has(other)) : undefined;
      const again = next === undefined ? -1 : chain.indexOf(next);
      if (again >= 0) {
        const loop = chain.splice(again);
        for (const one of loop) places.set(one, null);
        faults.get(loop[0])?.push(fault('placedByItself', loop[0], { chain: [...loop, loop[0]] }));
      } else if (next !== undefined) chain.push(next);
      else {
        places.set(name, 'make' in plan ? place(name, plan) : null);
        chain.pop();
      }
    }
  }
  refuse('placements', [...faults.values()].flat());
  return Object.fromEntries(names.map((name) => [name, places.get(name) as Point]));
}

/** From which points one is placed, and how. */
interface Plan {
  readonly from: readonly string[];
  readonly make: (from: readonly Point[]) => Point | Diagnostic;
}

function planOf(placement: unknown, path: string, names: readonly string[]): Plan | Diagnostic[] {
  if (isPoint(placement)) return { from: [], make: () => placement };
  if (!isRecord(placement)) return [fault('notAPlacement', path, { got: show(placement) })];
  const faults: Diagnostic[] = [];
  const keys = (...known: string[]) => faults.push(...unknownOptions(placement, known, path));
  const name = (at: string, value: unknown): string => {
    if (typeof value !== 'string' || !names.includes(value)) {
      faults.push(unknownName(`${path}.${at}`, 'point', value, names));
    }
    return value as string;
  };
  const pair = (at: string): [string, string] => {
    const value = placement[at];
    if (!Array.isArray(value) || value.length !== 2 || value[0] === value[1]) {
      faults.push(fault('notTwoPoints', `${path}.${at}`, { got: show(value) }));
      return ['', ''];
    }
    return [name(`${at}[0]`, value[0]), name(`${at}[1]`, value[1])];
  };
  const number = (at: string, value = placement[at]): number => {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', `${path}.${at}`, { got: show(value) }));
    return value as number;
  };
  const length = (at: string, value = placement[at]): number => {
    if (!(Number.isFinite(value) && (value as number) > 0)) {
      faults.push(fault('outOfRange', `${path}.${at}`, { got: show(value), above: 0 }));
    }
    return value as number;
  };
  const isFirst = (first: string, second: string): boolean => {
    const { side } = placement;
    if (side !== first && side !== second) {
      faults.push(
        fault('unknownChoice', `${path}.side`, { got: show(side), allowed: [first, second], meant: null }),
      );
    }
    return side === first;
  };
  let plan: Plan;
  if ('lengths' in placement) {
    keys('from', 'lengths', 'side');
    const from = pair('from');
    const both = Array.isArray(placement.lengths) ? placement.lengths : [];
    const lengths = [length('lengths[0]', both[0] ?? null), length('lengths[1]', both[1] ?? null)] as const;
    const isLeft = isFirst('left', 'right');
    plan = { from, make: ([A, B]) => byTwoLengths(path, from, [A, B], lengths, isLeft) };
  } else if ('on' in placement) {
    const on = pair('on');
    if ('at' in placement) {
      keys('on', 'at', 'offset');
      const [at, offset] = [number('at'), number('offset', placement.offset ?? 0)];
      plan = { from: on, make: ([A, B]) => along(path, on, A, B, (u) => off(A, u, at, offset)) };
    } else {
      keys('on', 'from', 'length', 'side');
      const from = name('from', placement.from);
      const reach = length('length');
      const isAhead = isFirst('ahead', 'behind');
      plan = {
        from: [...on, from],
        make: ([A, B, C]) => along(path, on, A, B, (u) => onLine(path, from, A, u, C, reach, isAhead)),
      };
    }
  } else if ('length' in placement) {
    keys('from', 'length', 'angle', 'towards');
    const from = name('from', placement.from);
    const [reach, angle] = [length('length'), number('angle')];
    const turned = (A: Point, u: Point) => off(A, u, reach * Math.cos(angle), reach * Math.sin(angle));
    if (placement.towards === undefined) plan = { from: [from], make: ([A]) => turned(A, [1, 0]) };
    else {
      const ends = [from, name('towards', placement.towards)];
      plan = { from: ends, make: ([A, B]) => along(path, ends, A, B, (u) => turned(A, u)) };
    }
  } else return [fault('notAPlacement', path, { got: show(placement) })];
  return faults.length === 0 ? plan : faults;
}

/** What is made of the direction from A to B. */
function along(
  path: string,
  points: readonly string[],
  A: Point,
  B: Point,
  make: (u: Point) => Point | Diagnostic,
): Point | Diagnostic {
  const [dx, dy] = between(A, B);
  const d = distance(A, B);
  return d === 0 ? fault('basePointsCoincide', path, { points }) : make([dx / d, dy / d]);
}

/** x along u and y to the left of it, from A. */
function off(A: Point, [ux, uy]: Point, x: number, y: number): Point {
  return [A[0] + (x * ux - y * uy), A[1] + (x * uy + y * ux)];
}

/** Lengths that miss by so many roundings of the largest number that went in just meet. */
const ROUNDINGS = 8;

function rounding(...numbers: readonly number[]): number {
  return ROUNDINGS * Number.EPSILON * Math.max(...numbers.map(Math.abs));
}

function byTwoLengths(
  path: string,
  points: readonly [string, string],
  [A, B]: readonly [Point, Point],
  lengths: readonly [number, number],
  isLeft: boolean,
): Point | Diagnostic {
  const isSwapped = lengths[0] > lengths[1];
  const [a, b] = isSwapped ? [lengths[1], lengths[0]] : lengths;
  const [first, second] = isSwapped ? [B, A] : [A, B];
  return along(path, points, first, second, (u) => {
    const d = distance(first, second);
    const shortfall = Math.max(d - a - b, b - a - d);
    if (shortfall > rounding(b, d, ...A, ...B)) {
      return fault('lengthsDoNotMeet', path, { points, lengths, distance: d, shortfall });
    }
    const x = Math.max(-a, Math.min(a, (d + ((a - b) / d) * (a + b)) / 2));
    const h = Math.sqrt(a - x) * Math.sqrt(a + x);
    return off(first, u, x, isLeft === isSwapped ? -h : h);
  });
}

function onLine(
  path: string,
  from: string,
  A: Point,
  u: Point,
  C: Point,
  length: number,
  isAhead: boolean,
): Point | Diagnostic {
  const way = between(A, C);
  const foot = dot(way, u);
  const gap = Math.abs(cross(u, way));
  const shortfall = gap - length;
  if (shortfall > rounding(length, ...A, ...C, ...way)) {
    return fault('lengthOffTheLine', path, { from, length, distance: gap, shortfall });
  }
  const h = Math.min(gap, length);
  const half = Math.sqrt(length - h) * Math.sqrt(length + h);
  return off(A, u, isAhead ? foot + half : foot - half, 0);
}
