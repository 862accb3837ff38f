/** The two manners of laying a path - by the driver, and by arc length - against each other, and both in any unit of length. */
import { assert, constantFrom, double, oneof, pre, property } from 'fast-check';
import { type Drawing, type Measure, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { layByArcLength } from '../../src/linkage/arc-path.ts';
import { layByDriver } from '../../src/linkage/driver-path.ts';
import { layPath } from '../../src/linkage/lay-path.ts';
import { bindMeasure } from '../../src/linkage/measure.ts';
import { drawnValue } from '../../src/linkage/measure-series.ts';
import { tracePath } from '../../src/linkage/motion.ts';
import type { Path } from '../../src/linkage/path.ts';
import { FIRST, READING, reader, readRows, SECOND } from '../../src/linkage/reader.ts';
import { compile } from '../../src/linkage/system.ts';
import { intrinsic, linkages, sizeOf } from '../support/linkages.ts';
import { drivers, redrawn, share } from '../support/motions.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

/** How far the driver is to go either way: a small part of its way, or well past most ends. */
const ways = oneof(double({ min: 0.02, max: 0.5, noNaN: true }), double({ min: 0.5, max: 4, noNaN: true }));

const isTurn = (driver: Measure) => 'turn' in driver || 'angle' in driver;

/** The path of a drawing by a driver, so many sizes or radians either way, laid in a given manner. */
function pathOf(drawing: Drawing, driver: Measure, way: number, lay: typeof layPath): Path {
  const system = compile(drawing);
  const measure = bindMeasure(system, driver, 'driver');
  const drawn = drawnValue(measure);
  const far = way * (isTurn(driver) ? 1 : sizeOf(drawing) / 4);
  return tracePath(system, measure, drawn - far, drawn + far, undefined, lay);
}

/** Readings of measures at a value of the driver, lengths in sizes: value, first and second derivative. */
function readingsAt(path: Path, measures: readonly Measure[], at: number): Float64Array[] {
  const bound = measures.map((measure) => bindMeasure(path.system, measure, 'measure'));
  const r = reader(path, bound);
  readRows(r, Float64Array.of(at), 0);
  return bound.map((_, i) => Float64Array.of(...[0, FIRST, SECOND].map((order) => r.m[i * READING + order])));
}

describe('a path by the driver and one by arc length', () => {
  /** Roundings in a value, and in its derivatives where truncation shows. */
  const TIMES = [2 ** 10, 2 ** 16, 2 ** 24];

  it('have the same ends, for the same causes, and the same readings between them', () => {
    let direct = 0;
    assert(
      property(linkages, drivers, ways, share, ({ drawing }, driver, way, part) => {
        const one = pathOf(drawing, driver, way, layPath);
        const other = pathOf(drawing, driver, way, layByArcLength);
        const scale = isTurn(driver) ? 1 : sizeOf(drawing);
        for (const end of ['low', 'high'] as const) {
          expect(one[end].status).toBe(other[end].status);
          expectClose(one[end].at, other[end].at, { times: 256, scale: scale + Math.abs(other[end].at) });
        }
        if (one.pieces.every(({ inverse }) => inverse === null)) direct++;
        else expect(one.pieces.every(({ inverse }) => inverse !== null)).toBe(true);
        const middle = 0.5 * (one.low.at + one.high.at);
        const at = middle + 0.5 * part * (one.high.at - one.low.at);
        const measures: Measure[] = [...intrinsic(drawing), { x: 'X0' }, { y: 'P0', relativeTo: 'crank' }];
        const [here, there] = [one, other].map((path) => readingsAt(path, measures, at));
        // At a dead point of the driver there are no derivatives, and no path by the driver.
        if (![...here, ...there].flatMap((jet) => [...jet]).every(Number.isFinite)) {
          expect(one.pieces.every(({ inverse }) => inverse !== null)).toBe(true);
          return;
        }
        // A value differs by as much as the driver is rounded, times its own rate; and so on.
        const steep = (order: number) => Math.max(...there.map((jet) => Math.abs(jet[order])));
        for (const [i, jet] of here.entries()) {
          for (const order of [0, 1, 2]) {
            const grows =
              order < 2
                ? steep(order + 1) * scale
                : steep(2) * (1 + steep(1) + (scale * steep(2)) / (1 + steep(1)));
            const size = sizeOf(drawing) + steep(order) + grows;
            expectWithin(jet[order], there[i][order], TIMES[order] * EPS * size);
          }
        }
      }),
      { numRuns: 200 },
    );
    // Both manners have been compared, not one with itself.
    expect(direct).toBeGreaterThan(20);
  });

  it('are never both in one motion: where the driver does not go all the way, all is by arc length', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const path = pathOf(drawing, driver, 50, layPath);
        pre(path.low.status !== 'reached' || path.high.status !== 'reached');
        for (const { inverse } of path.pieces) expect(inverse).not.toBeNull();
      }),
      { numRuns: 30 },
    );
  });

  it('of a driver that is the drawn value alone, or relative to a moving body, is by arc length', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const system = compile(drawing);
        const turn = bindMeasure(system, { turn: 'crank' }, 'driver');
        expect(tracePath(system, turn, 0, 0).pieces[0].inverse).not.toBeNull();
        const seen = bindMeasure(system, { turn: 'second0', relativeTo: 'crank' }, 'driver');
        expect(tracePath(system, seen, -0.01, 0.01).pieces[0].inverse).not.toBeNull();
      }),
      { numRuns: 10 },
    );
  });
});

describe('a linkage in any unit of length', () => {
  const units = constantFrom(1e-8, 1e-5, 1e-3, 1, 1e3, 1e5, 1e8);
  const scaled = (drawing: Drawing, unit: number) =>
    redrawn(drawing, ([x, y]): Point => [x * unit, y * unit]);

  /** An offset out of the plane is a length as well. */
  const measured = (driver: Measure, unit: number): Measure =>
    'length' in driver ? { ...driver, offset: (driver.offset ?? 0) * unit } : driver;

  it.each([
    ['the driver', layByDriver],
    ['arc length', layByArcLength],
  ] as const)('moves alike, laid by %s', (_, lay) => {
    assert(
      property(linkages, drivers, ways, share, units, ({ drawing }, driver, way, part, unit) => {
        const manner: typeof layPath = (e, task) => lay(e, task) ?? layByArcLength(e, task);
        const size = sizeOf(drawing);
        const [one, other] = [1, unit].map((u) =>
          pathOf(scaled(drawing, u), measured(driver, u), way, manner),
        );
        // Powers of ten are rounded: the drawings differ by that, and near a dead point ends by its root.
        const long = isTurn(driver) ? 1 : unit;
        for (const end of ['low', 'high'] as const) {
          expect(other[end].status).toBe(one[end].status);
          expectWithin(other[end].at / long, one[end].at, 1e-9 * (size + Math.abs(one[end].at)));
        }
        const at = one.low.at + 0.5 * (1 + 0.9 * part) * (one.high.at - one.low.at);
        const measures: Measure[] = [{ turn: 'first0' }, { length: ['O', 'X0'] }, { x: 'Y0' }];
        const [here, there] = [readingsAt(one, measures, at), readingsAt(other, measures, at * long)];
        here.forEach(([value, first], i) => {
          // In a dead point of the driver: the other unit's may lie beside it by a rounding.
          if (!Number.isFinite(first)) return;
          const length = i === 0 ? 1 : unit;
          const within = 1e-10 * (size + Math.abs(first) * (isTurn(driver) ? 1 : size));
          expectWithin(there[i][0] / length, value, within);
        });
      }),
      { numRuns: 60 },
    );
  });

  it.each([1e-8, 1e8])('has its dead points and its whole loop: %d', (unit) => {
    assert(
      property(linkages, ({ drawing }) => {
        const [one, other] = [drawing, scaled(drawing, unit)].map((of) =>
          trace(of, { driver: { turn: 'crank' } }),
        );
        expect([other.low.status, other.high.status]).toEqual([one.low.status, one.high.status]);
        expectWithin(other.high.at, one.high.at, 1e-7);
        const [loop, same] = [1, unit].map((u) => trace(scaled(drawing, u)));
        expect(same.high.status).toBe(loop.high.status);
        expectWithin(same.high.at / unit, loop.high.at, 1e-7 * loop.high.at);
      }),
      { numRuns: 20 },
    );
  });
});
