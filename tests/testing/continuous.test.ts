/** The law `continuous` finds where a point or a body jumps, and nothing where one only moves fast. */
import { type CheckedDrawing, type Drawing, type Point, trace } from 'jounce/linkage';
import { type LawOptions, LawViolation, laws, type TraceFunction } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';

const fourBar: CheckedDrawing = deepFreeze({
  points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
});
const options: LawOptions<CheckedDrawing> = { driver: { turn: 'crank' }, range: [0, 1] };

/** What the law says of a drawing moved by something else. */
function said(by: TraceFunction, drawing = fourBar, given = options): LawViolation | null {
  try {
    laws.continuous((one: Drawing) => one, drawing, { ...given, trace: by });
    return null;
  } catch (error) {
    if (error instanceof LawViolation) return error;
    throw error;
  }
}

/** A solver that puts a point elsewhere from some value of the driver on. */
const jumping =
  (point: string, from: number, by: Point): TraceFunction =>
  (drawing, asked) => {
    const motion = trace(drawing, asked);
    return {
      ...motion,
      at(driver) {
        const places = motion.at(driver);
        const [x, y] = places[point];
        return driver < from ? places : { ...places, [point]: [x + by[0], y + by[1]] };
      },
    };
  };

describe('the law `continuous`', () => {
  it('says which point jumps, by how much and where', () => {
    const broken = said(jumping('B', 0.995, [24, 32]));
    expect(broken?.message).toBe(
      'continuous: B jumps by 40 between 0.984375 and 1 at driver value 0.995 (turn of crank)',
    );
    expectWithin(broken?.error ?? null, 40, 1e-6);
    expectWithin(broken?.where.at ?? null, 0.995, 1e-9);
  });

  it.each([1e-2, 1, 100])('finds a jump of %d anywhere', (by) => {
    for (const from of [1e-6, 0.1, Math.PI / 7, 0.999_999]) {
      const broken = said(jumping('A', from, [0, by]));
      expect(broken?.what).toBe('A');
      expectWithin(broken?.error ?? null, by, 1e-4 * by);
      expectWithin(broken?.where.at ?? null, from, 1e-9);
    }
  });

  it('finds the whole turn that a body makes where an angle is not continued', () => {
    const cut: TraceFunction = (drawing, asked) => {
      const motion = trace(drawing, asked);
      return {
        ...motion,
        read: (measure) => (driver) => {
          const reading = motion.read(measure)(driver);
          return { ...reading, value: Math.atan2(Math.sin(reading.value), Math.cos(reading.value)) };
        },
      };
    };
    const broken = said(cut, fourBar, { driver: { turn: 'crank' }, range: [0, 6] });
    expect(broken?.what).toBe('turn of crank');
    expectWithin(broken?.error ?? null, 2 * Math.PI, 1e-6);
    expectWithin(broken?.where.at ?? null, Math.PI, 1e-9);
  });

  it('finds a solver that takes the other assembly on the way', () => {
    // The rocker's pin mirrored in the line from crank pin to rocker pivot.
    const otherFrom =
      (from: number): TraceFunction =>
      (drawing, asked) => {
        const motion = trace(drawing, asked);
        const at = (driver: number) => {
          const places = motion.at(driver);
          if (driver < from) return places;
          const { A, B, C } = places;
          const [u, v] = [C[0] - A[0], C[1] - A[1]];
          const off = ((B[0] - A[0]) * v - (B[1] - A[1]) * u) / (u * u + v * v);
          return { ...places, B: [B[0] - 2 * off * v, B[1] + 2 * off * u] as const };
        };
        return { ...motion, at };
      };
    expect(said(otherFrom(0.4))?.message).toMatch(/^continuous: B jumps by \d+/);
  });

  it('takes no dead point, change point or near miss for a jump', () => {
    // Drawn at a dead point of the crank; then the law drives something else.
    const dead: CheckedDrawing = deepFreeze({
      points: { A: [0, 0], B: [0, 100], C: [100, 100], D: [200, 100] },
      ground: ['A', 'D'],
      bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
    });
    // 40 + 70 = 50 + 60, drawn where the crank stands up.
    const [c, s] = [60 / Math.hypot(60, 40), -40 / Math.hypot(60, 40)];
    const cosine = (50 ** 2 + 60 ** 2 + 40 ** 2 - 70 ** 2) / (2 * 50 * Math.hypot(60, 40));
    const sine = Math.sqrt(1 - cosine ** 2);
    const changing: CheckedDrawing = deepFreeze({
      points: {
        A: [0, 0],
        B: [0, 40],
        C: [50 * (cosine * c - sine * s), 40 + 50 * (cosine * s + sine * c)],
        D: [60, 0],
      },
      ground: ['A', 'D'],
      bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
    });
    const straight: TraceFunction = (drawing, asked) => trace(drawing, { ...asked, branch: 'straight' });
    const passing: CheckedDrawing = deepFreeze({
      points: { O: [0, 0], A: [0, 10], F: [10.001, 0] },
      ground: ['O', 'F'],
      bodies: { crank: ['O', 'A'] },
      telescopes: { leg: ['F', 'A'] },
    });
    for (const [drawing, by] of [
      [dead, trace],
      [fourBar, trace],
      [changing, trace],
      [changing, straight],
      [passing, trace],
    ] as const) {
      for (const driver of [{}, { driver: { turn: 'crank' } }] as const)
        expect(said(by, drawing, driver)?.message ?? null).toBeNull();
    }
  });
});
