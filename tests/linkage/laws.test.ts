/** Laws that every motion of every linkage keeps, over random four-bars to ten-bars. */
import { assert, integer, pre, property } from 'fast-check';
import { InputError, type Measure, type Motion, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { intrinsic, linkages, sixBars, sizeOf } from '../support/linkages.ts';
import { distance, drivers, expectRigid, placeAt, share, spread } from '../support/motions.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

describe('rigid stays rigid', () => {
  it('along every loop, by arc length', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        for (const at of spread(motion, 24)) expectRigid(drawing, motion.at(at));
      }),
    );
  });

  it('from end to end of every driver', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        for (const at of spread(motion, 12)) expectRigid(drawing, motion.at(at));
      }),
    );
  });
});

describe('a motion by arc length', () => {
  it('comes home, once around', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
        expect(motion.low.at).toBe(0);
        const scale = sizeOf(drawing);
        const end = motion.at(motion.high.at);
        for (const [name, at] of Object.entries(drawing.points)) {
          expectClose(distance(end[name], at), 0, { times: 512, scale });
        }
        // Seen from half way the same loop is as long, and its far side is here.
        const half = trace(deepFreeze({ ...drawing, points: motion.at(motion.high.at / 2) }));
        expectWithin(half.high.at / motion.high.at, 1, 0.05);
      }),
      { numRuns: 50 },
    );
  });

  it('is measured in arc length: a lone point on a circle goes 2 pi r', () => {
    const motion = trace(
      deepFreeze({ points: { O: [0, 0], A: [3, 0] }, ground: ['O'], bodies: { crank: ['O', 'A'] } } as const),
    );
    expectClose(motion.high.at, 2 * Math.PI * 3, { times: 64, scale: 2 * Math.PI * 3 });
    const read = motion.read({ x: 'A' });
    for (const at of spread(motion, 41)) {
      expectWithin(read(at).value, 3 * Math.cos(at / 3), 1e-12);
      expectWithin(Math.abs(read(at).first ?? Number.NaN), Math.abs(Math.sin(at / 3)), 1e-12);
    }
  });

  it('has an extreme of a measure wherever its slope changes sign, and nowhere else', () => {
    /** Slopes below this, in sizes or radians a size, are taken for none. */
    const STILL = 1e-9;
    assert(
      property(linkages, drivers, ({ drawing }, measure) => {
        const motion = trace(drawing);
        const read = motion.read(measure);
        const unit = 'turn' in measure || 'angle' in measure ? 1 : sizeOf(drawing);
        const slope = (at: number) => ((read(at).first ?? Number.NaN) / unit) * sizeOf(drawing);
        const found = motion.extremes(measure).map(({ at }) => at);
        expect([...found].sort((u, v) => u - v)).toEqual(found);
        for (const at of found) expectWithin(slope(Math.min(at, motion.high.at)), 0, 1e-8);
        const places = spread(motion, 200);
        for (const [k, at] of places.slice(1).entries()) {
          const [before, after] = [slope(places[k]), slope(at)];
          if (before * after >= 0 || Math.min(Math.abs(before), Math.abs(after)) < STILL) continue;
          expect(found.some((place) => places[k] <= place && place <= at)).toBe(true);
        }
      }),
    );
  });

  it('shows each driver its dead points: the ends of its range are the nearest extremes', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const loop = trace(drawing);
        const extremes = loop.extremes(driver);
        const motion = trace(drawing, { driver });
        if (motion.low.status === 'closed') {
          expect(extremes).toEqual([]);
          return;
        }
        expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
        // Backwards from the drawn pose is the end of the loop, after all turns made on it.
        const around = loop.read(driver)(loop.high.at).value - loop.read(driver)(0).value;
        const ends = [extremes[0].value, extremes[extremes.length - 1].value - around].sort((u, v) => u - v);
        // An extreme is found to a rounding of the largest coordinate, its value so much the better.
        const scale = Math.max(sizeOf(drawing), 1);
        expectClose(motion.low.at, ends[0], { times: 256, scale });
        expectClose(motion.high.at, ends[1], { times: 256, scale });
      }),
    );
  });
});

describe('a motion is a function', () => {
  const readings = (motion: Motion, measure: Measure, places: readonly number[]) => {
    const read = motion.read(measure);
    return places.map((at) => read(at));
  };

  it('equal input gives equal bits', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const [a, b] = [
          trace(drawing, { driver }),
          trace(structuredClone(drawing), structuredClone({ driver })),
        ];
        expect([b.low, b.high]).toEqual([a.low, a.high]);
        const places = spread(a, 12);
        expect(places.map((at) => b.at(at))).toEqual(places.map((at) => a.at(at)));
        expect(readings(b, { turn: 'crank' }, places)).toEqual(readings(a, { turn: 'crank' }, places));
      }),
    );
  });

  it('whatever was read before: out and back gives equal bits', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        const out = spread(motion, 12);
        const back = [...out].reverse();
        expect(back.map((at) => motion.at(at)).reverse()).toEqual(out.map((at) => motion.at(at)));
        const measure: Measure = { length: ['O', 'Y0'] };
        expect(readings(motion, measure, back).reverse()).toEqual(readings(motion, measure, out));
      }),
    );
  });

  it('from any range that holds the place', () => {
    const some = integer({ min: 5, max: 90 }).map((percent) => percent / 100);
    assert(
      property(linkages, drivers, some, some, ({ drawing }, driver, down, up) => {
        const whole = trace(drawing, { driver });
        // Not where the drawn pose is all but a dead point: there a place is known to the root of a rounding.
        pre(Math.min(whole.high.at - whole.drawn, whole.drawn - whole.low.at) > 1e-3);
        const [from, to] = [placeAt(whole, -down), placeAt(whole, up)];
        const part = trace(drawing, { driver, from, to });
        expect([part.low, part.high]).toEqual([
          { at: from, status: 'reached' },
          { at: to, status: 'reached' },
        ]);
        const scale = sizeOf(drawing);
        for (const at of spread(part, 8)) {
          const [one, two] = [part.at(at), whole.at(at)];
          for (const name of Object.keys(one)) {
            expectClose(distance(one[name], two[name]), 0, { times: 1024, scale });
          }
        }
      }),
    );
  });

  it('that JSON has as its range', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        const { drawn, low, high } = motion;
        expect(JSON.parse(JSON.stringify({ motion }))).toEqual({ motion: { drawn, low, high } });
      }),
      { numRuns: 5 },
    );
  });

  it('and inputs are not changed', () => {
    // All drawings and measures of these tests are frozen; here by value.
    assert(
      property(sixBars, drivers, ({ drawing }, driver) => {
        const before = structuredClone({ drawing, driver });
        const motion = trace(drawing, { driver });
        motion.at(motion.high.at);
        motion.read({ x: 'P1' })(motion.drawn);
        motion.extremes({ y: 'P1' });
        expect({ drawing, driver }).toEqual(before);
      }),
      { numRuns: 20 },
    );
  });

  it('of one that starts as drawn', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        if ('turn' in driver) expect(motion.drawn).toBe(0);
        expect(motion.low.at).toBeLessThanOrEqual(motion.drawn);
        expect(motion.high.at).toBeGreaterThanOrEqual(motion.drawn);
        const scale = sizeOf(drawing);
        for (const [name, at] of Object.entries(motion.at(motion.drawn))) {
          expectClose(distance(at, drawing.points[name]), 0, { times: 64, scale });
        }
        expectClose(motion.read(driver)(motion.drawn).value, motion.drawn, { times: 16, scale });
      }),
    );
  });

  it('whose driver reads as what it was set to', () => {
    assert(
      property(linkages, drivers, share, ({ drawing }, driver, part) => {
        const motion = trace(drawing, { driver });
        const at = placeAt(motion, part);
        const { value, first, second } = motion.read(driver)(at);
        expectClose(value, at, { times: 64, scale: sizeOf(drawing) });
        if (at > motion.low.at && at < motion.high.at) {
          expectWithin(first, 1, 1e-9);
          // The share of a second derivative that its own largest term leaves: what cancels in m'' - m' t''/t'.
          expectWithin(second, 0, 1e-7 * (1 + 1 / Math.min(at - motion.low.at, motion.high.at - at)));
        }
      }),
    );
  });
});

describe('outside its range', () => {
  it('a motion throws, and names the range', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        const { low, high } = motion;
        const range = `(allowed: ${low.at} (${low.status}) to ${high.at} (${high.status}))`;
        for (const at of [low.at - 1e-9, high.at + 1e-9, Number.NaN, Number.POSITIVE_INFINITY]) {
          for (const look of [() => motion.at(at), () => motion.read({ turn: 'crank' })(at)]) {
            expect(look).toThrow(InputError);
            expect(look).toThrow(`invalid driver value\n  outside the motion, got ${at} ${range}`);
          }
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('at a dead point', () => {
  it('a value is finite and right, and there is no derivative by the driver', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        for (const { at, status } of [motion.low, motion.high]) {
          if (status !== 'deadPoint') continue;
          expectRigid(drawing, motion.at(at));
          for (const measure of intrinsic(drawing)) {
            const { value, first, second } = motion.read(measure)(at);
            expect(value).toSatisfy(Number.isFinite);
            expect([first, second]).toEqual([null, null]);
          }
          expectClose(motion.read(driver)(at).value, at, { times: 64, scale: sizeOf(drawing) });
        }
      }),
    );
  });
});
