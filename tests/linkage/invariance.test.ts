/** Moving, turning, mirroring or scaling a drawing changes nothing intrinsic: random linkages, each drawn twice. */
import { assert, constantFrom, double, property } from 'fast-check';
import { type Drawing, type Measure, type Point, type Reading, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { intrinsic, linkages, sizeOf } from '../support/linkages.ts';
import { placeAt, redrawn, share } from '../support/motions.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

/** The crank turns as far as it can, up to this. */
const within = deepFreeze({ driver: { turn: 'crank' } satisfies Measure, from: -3, to: 3 });

describe('where and how a drawing lies changes nothing intrinsic', () => {
  /** Share of the size by which points are displaced to learn how much a reading depends on the drawing. */
  const NUDGE = 1e-7;

  type Part = keyof Reading;
  const parts: Part[] = ['value', 'first', 'second'];

  /**
   * Compares two drawings at the same turn of the crank. The tolerance is `times` roundings of a reading's scale, plus
   * what so many roundings of the coordinates (of the given magnitude) do to it, learnt from a nudged drawing.
   */
  function expectSame(
    drawing: Drawing,
    other: Drawing,
    part: number,
    {
      lengths = 1,
      turns = 1,
      times,
      coordinates = sizeOf(drawing),
    }: {
      lengths?: number;
      turns?: 1 | -1;
      times: Record<Part, number>;
      coordinates?: number;
    },
  ): void {
    const size = sizeOf(drawing);
    const nudged = redrawn(drawing, ([x, y], k) => [
      x + NUDGE * size * Math.sin(12.9898 * k + 1),
      y + NUDGE * size * Math.sin(78.233 * k + 2),
    ]);
    const [a, b, n] = [trace(drawing, within), trace(other, within), trace(nudged, within)];
    const ends: [number, number] = turns > 0 ? [b.low.at, b.high.at] : [-b.high.at, -b.low.at];
    expectWithin(ends[0], a.low.at, 1e-9 + 1e4 * EPS * (coordinates / size));
    expectWithin(ends[1], a.high.at, 1e-9 + 1e4 * EPS * (coordinates / size));
    const at = placeAt(a, part);
    // Close to a dead point the nudged linkage may not reach as far.
    if (at <= n.low.at || at >= n.high.at) return;
    for (const measure of intrinsic(drawing)) {
      const [unit, factor] = 'length' in measure ? [size, lengths] : [1, turns];
      const [one, two, three] = [a.read(measure)(at), b.read(measure)(turns * at), n.read(measure)(at)];
      const sign = { value: 1, first: turns, second: 1 };
      for (const key of parts) {
        const [u, v, w] = [one[key], two[key], three[key]].map((value) => value ?? Number.NaN);
        const depends = Math.abs(w - u) / NUDGE;
        const scale = Math.abs(u) + (unit + depends) * (coordinates / size);
        expectClose((sign[key] * v) / factor, u, { times: times[key], scale });
      }
    }
  }

  const times = { value: 64, first: 256, second: 2 ** 14 };
  const anyAngle = double({ min: -3, max: 3, noNaN: true });
  const turned = ([x, y]: Point, by: number): Point => [
    Math.cos(by) * x - Math.sin(by) * y,
    Math.sin(by) * x + Math.cos(by) * y,
  ];

  it('turned', () => {
    assert(
      property(linkages, anyAngle, share, ({ drawing }, by, part) => {
        expectSame(
          drawing,
          redrawn(drawing, (at) => turned(at, by)),
          part,
          { times },
        );
      }),
    );
  });

  it('mirrored: turns change their sign', () => {
    assert(
      property(linkages, anyAngle, share, ({ drawing }, by, part) => {
        const mirrored = redrawn(drawing, ([x, y]) => turned([-x, y], by));
        expectSame(drawing, mirrored, part, { turns: -1, times });
      }),
    );
  });

  it('scaled: lengths scale, angles do not', () => {
    const factor = constantFrom(1e-3, 0.0254, 1 / 3, 25.4, 1e3, 1e6);
    assert(
      property(linkages, factor, share, ({ drawing }, lengths, part) => {
        const scaled = redrawn(drawing, ([x, y]) => [lengths * x, lengths * y]);
        expectSame(drawing, scaled, part, { lengths, times });
      }),
    );
  });

  it('moved by whole powers of two, where no coordinate is rounded: the same bits', () => {
    assert(
      property(linkages, share, ({ drawing }, part) => {
        const moved = redrawn(drawing, ([x, y]) => [x + 2 ** 20, y - 2 ** 21]);
        const [a, b] = [trace(drawing, within), trace(moved, within)];
        expect([b.low, b.high]).toEqual([a.low, a.high]);
        for (const measure of intrinsic(drawing)) {
          expect(b.read(measure)(placeAt(a, part))).toEqual(a.read(measure)(placeAt(a, part)));
        }
      }),
    );
  });

  it('moved a million from the origin: it costs the rounding of its coordinates, no more', () => {
    assert(
      property(linkages, anyAngle, share, ({ drawing }, by, part) => {
        const moved = redrawn(drawing, (at) => {
          const [x, y] = turned(at, by);
          return [x + 1e6, y - 1e6 / 3];
        });
        expectSame(drawing, moved, part, { times, coordinates: 1e6 });
      }),
    );
  });
});
