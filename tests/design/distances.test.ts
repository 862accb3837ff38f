/** Gaps of convex shapes against the judge's, which goes through all their sides. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gapOf } from '../../src/design/clearances.ts';
import { dual } from '../../src/numerics/dual.ts';
import { ofSegments, toPolygon, toSegment } from '../judges/distance.ts';
import { type Point, plus } from '../judges/plane.ts';
import { expectWithin, tolerance } from '../support/tolerance.ts';

const whole = fc.integer({ min: -50, max: 50 });
const point = fc.tuple(whole, whole);
const segment = fc.tuple(point, point).filter(([[ay, az], [by, bz]]) => ay !== by || az !== bz);
const rectangle = fc
  .record({
    at: point,
    width: fc.integer({ min: 1, max: 40 }),
    height: fc.integer({ min: 1, max: 40 }),
    turn: whole,
  })
  .map(({ at, width, height, turn }): Point[] => {
    const [c, s] = [Math.cos(turn / 10), Math.sin(turn / 10)];
    const corners: Point[] = [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ];
    return corners.map(([y, z]) => plus(at, [c * y - s * z, s * y + c * z]));
  });

const gap = (P: readonly Point[], Q: readonly Point[]) => {
  const still = ([y, z]: Point) => [dual(y, () => []), dual(z, () => [])] as const;
  return gapOf(P.map(still), Q.map(still)).value;
};
const within = tolerance({ times: 64, scale: 100 });

describe('the gap between two shapes', () => {
  it('is their distance, from point to line, of two lines, from line to rectangle, either way round', () => {
    fc.assert(
      fc.property(point, segment, segment, rectangle, (p, one, other, box) => {
        for (const [P, Q, distance] of [
          [[p], one, toSegment(p, ...one)],
          [one, other, ofSegments(one, other)],
          [one, box, toPolygon(one, box)],
        ] as const) {
          const [found, back] = [gap(P, Q), gap(Q, P)];
          expectWithin(back, found, within);
          if (distance > within) expectWithin(found, distance, within);
          else expect(found).toBeLessThanOrEqual(within);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('is minus the way out where they overlap', () => {
    const square: Point[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    // 3 mm into the square from its left side; a line across it must go 5 mm to be clear of it.
    expectWithin(
      gap(
        [
          [-5, 5],
          [3, 5],
        ] as Point[],
        square,
      ),
      -3,
      within,
    );
    expectWithin(
      gap(
        [
          [-5, 5],
          [20, 5],
        ] as Point[],
        square,
      ),
      -5,
      within,
    );
    // Two lines that cross 2 mm from an end.
    expectWithin(
      gap(
        [
          [0, -2],
          [0, 9],
        ] as Point[],
        [
          [-5, 0],
          [5, 0],
        ] as Point[],
      ),
      -2,
      within,
    );
  });
});
