import { unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/testing.ts';
import type { CheckedDrawing, Point } from '../linkage/index.ts';
import { type Arbitrary, checkFastCheck, type FastCheck } from './fast-check.ts';
import { areApart, BEND, bend } from './linkages.ts';
import { place, rounding } from './numbers.ts';
import { distance } from './plane.ts';

/** Shortest and longest bar together, and the two others together, differ by this share of all: the bars never lie flat. */
const APART = 0.01;

/**
 * Random four-bars in a square of 1000: bodies `crank` A-B, `coupler` B-C with a further point P, `rocker` D-C; A and D
 * are ground. By Grashof's rule one bar can turn all the way round if the shortest and the longest together are shorter than
 * the two others together (F. Grashof, Theoretische Maschinenlehre 2, 1883, from memory): `grashof` says whether, default
 * is both alike. They shrink to whole tens.
 */
export function fourBars(
  fc: FastCheck,
  options: { readonly grashof?: boolean } = {},
): Arbitrary<CheckedDrawing> {
  checkFastCheck(fc);
  refuse('random four-bars', unknownOptions(options, ['grashof']));
  const { grashof } = options;
  const all = fc
    .tuple(rounding(fc), fc.tuple(place(fc), place(fc), place(fc), place(fc), place(fc)))
    .map(([rounded, points]) => points.map(rounded))
    .filter(([A, B, C, D, P]) => areApart([A, B, C, D, P]) && bend(B, C, D) >= BEND);
  const ofKind = (kind: boolean) =>
    all.filter(([A, B, C, D]) => APART < (kind ? 1 : -1) * surplus(A, B, C, D));
  const places = grashof === undefined ? fc.oneof(ofKind(true), ofKind(false)) : ofKind(grashof);
  return places.map(([A, B, C, D, P]) => ({
    points: { A, B, C, D, P },
    ground: ['A', 'D'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C', 'P'], rocker: ['D', 'C'] },
  }));
}

/** By how much the shortest and the longest bar together are shorter than the two others, as a share of all. */
function surplus(A: Point, B: Point, C: Point, D: Point): number {
  const [p, q, r, s] = [distance(A, B), distance(B, C), distance(C, D), distance(D, A)].sort((u, v) => u - v);
  return (q + r - p - s) / (p + q + r + s);
}
