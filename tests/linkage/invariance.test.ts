/** Moving, turning, mirroring or scaling a drawing changes nothing intrinsic: random linkages, each drawn twice. */
import { assert, constantFrom, double, property } from 'fast-check';
import { type Drawing, type Measure, type Motion, type Point, type Reading, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { intrinsic, linkages, sizeOf } from '../support/linkages.ts';
import { placeAt, redrawn, share } from '../support/motions.ts';
import { expectClose } from '../support/tolerance.ts';

/** The crank turns as far as it can, up to this. */
const within = deepFreeze({ driver: { turn: 'crank' } satisfies Measure, from: -3, to: 3 });

describe('where and how a drawing lies changes nothing intrinsic', () => {
  /** Share of the size by which points are displaced to learn how much a reading depends on the drawing. */
  const NUDGE = 1e-7;

  /**
   * Compares readings, in sizes or radians, of two drawings at the same turn of the crank. The tolerance is `times`
   * roundings of the coordinates (of the given magnitude), times the most that any reading changes with the drawing,
   * which is learnt from a nudged one, or with the driver.
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
      times: Record<keyof Reading, number>;
      coordinates?: number;
    },
  ): void {
    const size = sizeOf(drawing);
    const nudged = redrawn(drawing, ([x, y], k) => [
      x + NUDGE * size * Math.sin(12.9898 * k + 1),
      y + NUDGE * size * Math.sin(78.233 * k + 2),
    ]);
    const [a, b, n] = [trace(drawing, within), trace(other, within), trace(nudged, within)];
    const rounded = coordinates / size;
    const ends = turns > 0 ? [b.low, b.high] : [b.high, b.low];
    for (const [one, two, three] of [
      [a.low, ends[0], n.low],
      [a.high, ends[1], n.high],
    ]) {
      expect(two.status).toBe(one.status);
      const depends = Math.abs(three.at - one.at) / NUDGE;
      expectClose(turns * two.at, one.at, { times: times.first, scale: (4 + depends) * rounded });
    }
    const at = placeAt(a, part);
    // Close to a dead point the nudged linkage may not reach as far.
    if (at <= n.low.at || at >= n.high.at) return;
    const measures = intrinsic(drawing);
    const readings = (motion: Motion, driver: number, unit: number) =>
      measures.map((measure) => {
        const scale = 'length' in measure ? unit : 1;
        const { value, first, second } = motion.read(measure)(driver);
        return {
          value: value / scale,
          first: (first ?? Number.NaN) / scale,
          second: (second ?? Number.NaN) / scale,
        };
      });
    const [one, two, three] = [
      readings(a, at, size),
      readings(b, turns * at, size * lengths),
      readings(n, at, size),
    ];
    for (const key of ['value', 'first', 'second'] as const) {
      const most = (of: (k: number) => number) => Math.max(...measures.map((_, k) => Math.abs(of(k))));
      const wild = most((k) => one[k][key]);
      const depends = most((k) => three[k][key] - one[k][key]) / NUDGE;
      const scale = (1 + wild + depends) * rounded;
      measures.forEach((measure, k) => {
        const sign = ('turn' in measure ? turns : 1) * (key === 'first' ? turns : 1);
        expectClose(sign * two[k][key], one[k][key], { times: times[key], scale });
      });
    }
  }

  // In a second derivative the truncation of the series shows, not rounding alone.
  const times = { value: 128, first: 512, second: 2 ** 20 };
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
    const factor = constantFrom(1e-6, 1e-3, 0.0254, 1 / 3, 25.4, 1e3, 1e5);
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
