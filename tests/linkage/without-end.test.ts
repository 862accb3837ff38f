/** What slides can go on without end: it is followed for twenty extents of the drawing, no farther unless asked. */
import * as fc from 'fast-check';
import { type Drawing, type Point, range, trace } from 'jounce/linkage';
import { checkLaws } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose } from '../support/tolerance.ts';

/** Extents that are followed. */
const FARTHEST = 20;
/** Pieces are as long as the size of what slides, about: so many are laid at once, twenty thousand are not. */
const FEW = 400;

/** A plate that keeps x of both its points, and so slides along y; G is ground and the first point. */
const lifts = fc
  .record({ x: fc.integer({ min: 20, max: 90 }), y: fc.integer({ min: 60, max: 200 }) })
  .map(({ x, y }) =>
    deepFreeze({
      points: { G: [0, 0], P: [x, y], Q: [x + 50, y + 30] },
      ground: ['G'],
      bodies: { plate: ['P', 'Q'] },
      held: [{ x: 'P' }, { x: 'Q' }],
    } satisfies Drawing),
  );

describe('a plate that slides', () => {
  it('goes twenty times as far as the drawing extends, the same either way, in few pieces', () => {
    fc.assert(
      fc.property(lifts, (lift) => {
        const { P, Q } = lift.points;
        const most = FARTHEST * Math.hypot(Q[0], Q[1]);
        const { low, high } = range(lift, { driver: { y: 'P' } });
        expect([low.how, high.how]).toEqual(['gaveUp', 'gaveUp']);
        expectClose(low.at, P[1] - most, { times: 64, scale: most });
        expectClose(high.at, P[1] + most, { times: 64, scale: most });
        expect(trace(lift).path.pieces.length).toBeLessThan(FEW);
      }),
      { numRuns: 20 },
    );
  });

  it('goes as far as asked, however far, and without end only where nothing was asked', () => {
    fc.assert(
      fc.property(lifts, (lift) => {
        const far = 2 * FARTHEST * Math.hypot(...lift.points.Q);
        const { low, high } = trace(lift, { driver: { y: 'P' }, to: far });
        expect(high).toEqual({ at: far, how: 'reached' });
        expect(low.how).toBe('gaveUp');
      }),
      { numRuns: 20 },
    );
  });

  it('keeps all laws without a range: where it ends turns, moves and scales with the drawing', () => {
    fc.assert(
      fc.property(lifts, (lift) => checkLaws((drawing: Drawing) => drawing, lift)),
      { numRuns: 3 },
    );
  });
});

it('what ends the way far off in a drawing ends it, however small what slides is', () => {
  // A block of `block` on a long rail; its distance from G, `aside` of the rail, is least where it passes G.
  fc.assert(
    fc.property(fc.integer({ min: 4, max: 40 }), fc.integer({ min: 20, max: 90 }), (block, aside) => {
      const at: Point = [300, 0];
      const rail: Drawing = deepFreeze({
        points: { A: [0, 0], B: [2000, 0], P: at, Q: [at[0] + block, 0], G: [1800, aside] },
        ground: ['A', 'B', 'G'],
        bodies: { block: ['P', 'Q'] },
        sliders: { back: { point: 'P', on: ['A', 'B'] }, front: { point: 'Q', on: ['A', 'B'] } },
      });
      const { low } = trace(rail, { driver: { length: ['P', 'G'] }, to: 1600 });
      expect(low.how).toBe('deadPoint');
      expectClose(low.at, aside, { times: 4096, scale: 2000 });
    }),
    { numRuns: 5 },
  );
});
