/** Places and ways in the plane: turning, carrying and mirroring keep what they must keep. */
import { assert, integer, property, tuple } from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  between,
  carried,
  cross,
  distance,
  dot,
  mirrored,
  type Turn,
  turnBetween,
  type Vector,
} from '../../src/numerics/plane.ts';
import { expectClose } from '../support/tolerance.ts';

const place = tuple(integer({ min: -1000, max: 1000 }), integer({ min: -1000, max: 1000 }));
const away = place.filter(([x, y]) => x !== 0 || y !== 0);
const angle = integer({ min: -314, max: 314 }).map((k) => k / 100);
const near = (actual: Vector, expected: Vector) => {
  expectClose(actual[0], expected[0], { times: 16, scale: 4000 });
  expectClose(actual[1], expected[1], { times: 16, scale: 4000 });
};

describe('in the plane', () => {
  it('dot, cross, distance and the way between two places are those of a hand calculation', () => {
    expect(between([1, 2], [4, 6])).toEqual([3, 4]);
    expect(distance([1, 2], [4, 6])).toBe(5);
    expect(dot([1, 2], [3, 5])).toBe(13);
    // A quarter turn to the left is positive.
    expect(cross([2, 0], [0, 3])).toBe(6);
    expect(cross([1, 2], [3, 5])).toBe(-1);
  });

  it('the turn between two ways is by the angle that one was turned, counter-clockwise positive', () => {
    assert(
      property(away, angle, ([x, y], phi) => {
        const [c, s] = [Math.cos(phi), Math.sin(phi)];
        const turned = turnBetween([x, y], [c * x - s * y, s * x + c * y]);
        expectClose(turned[0], c, { times: 8, scale: 1 });
        expectClose(turned[1], s, { times: 8, scale: 1 });
      }),
    );
    expect(turnBetween([2, 0], [0, 2])).toEqual([0, 1]);
  });

  it('what is carried keeps its distance from the pivot, and is turned about it', () => {
    expect(carried([3, 1], [1, 1], [10, 20], [0, 1])).toEqual([10, 22]);
    assert(
      property(place, place, place, angle, (at, pivot, to, phi) => {
        const turn: Turn = [Math.cos(phi), Math.sin(phi)];
        const there = carried(at, pivot, to, turn);
        expectClose(distance(there, to), distance(at, pivot), { times: 16, scale: 4000 });
        near(carried(pivot, pivot, to, turn), to);
        near(carried(there, to, pivot, [turn[0], -turn[1]]), at);
      }),
    );
  });

  it('a mirrored place lies as far off on the other side, and comes back', () => {
    expect(mirrored([3, 4], [0, 0], [5, 0])).toEqual([3, -4]);
    expect(mirrored([3, 4], [1, 0], [1, 7])).toEqual([-1, 4]);
    assert(
      property(place, place, away, (at, a, [dx, dy]) => {
        const b: Vector = [a[0] + dx, a[1] + dy];
        const image = mirrored(at, a, b);
        const scale = 1e4;
        for (const end of [a, b]) {
          expectClose(distance(image, end), distance(at, end), { times: 64, scale });
        }
        const side = (one: Vector) => cross(between(a, one), between(a, b)) / distance(a, b);
        expectClose(side(image), -side(at), { times: 64, scale });
      }),
    );
  });
});
