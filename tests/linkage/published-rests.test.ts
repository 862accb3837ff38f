/** Rests of spring-loaded linkages in textbooks: their equations were read, and are solved here by bisection. */
import { linkage, type Motion, trace } from 'jounce/linkage';
import { equilibria, followEquilibrium, type MotionLoad } from 'jounce/statics';
import { describe, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';

const DEGREE = Math.PI / 180;

/** Zero of a function with unlike signs at both ends. */
function zero(f: (x: number) => number, low: number, high: number): number {
  const sign = Math.sign(f(low));
  let [a, b] = [low, high];
  for (let n = 0; n < 60; n++) {
    const middle = (a + b) / 2;
    if (Math.sign(f(middle)) === sign) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** The only stable rest of a motion drawn at its driver's 0. */
function stable(motion: Motion, loads: readonly MotionLoad[]): number {
  const found = equilibria(motion, loads).equilibria.filter(({ status }) => status === 'stable');
  expectSame(found.length, 1);
  return found[0].at;
}

describe('a published rest', () => {
  it('of a lever of 30 in held by a spring of 40 lbf/in against 150 lbf', () => {
    // F. P. Beer, E. R. Johnston and others, "Vector Mechanics for Engineers: Statics", Problem 10.35 (data and equation read at
    // coursehero.com, file 6320158): lever ABC on B, spring CD with D 30 in under B, at its free length when the lever is level.
    const l = 30;
    const drawing = linkage({
      points: { A: [-l, 0], B: [0, 0], C: [l, 0], D: [0, -l] },
      ground: ['B', 'D'],
      bodies: { lever: ['A', 'B', 'C'] },
    });
    const motion = trace(drawing, { driver: { turn: 'lever' }, from: 0, to: 1.2 });
    const at = stable(motion, [
      { at: 'A', force: [0, -150] },
      { along: { length: ['C', 'D'] }, rate: 40, freeAt: l * Math.SQRT2 },
    ]);
    const wanted = zero(
      (t) =>
        2 * (Math.sin(45 * DEGREE + t / 2) - Math.sin(45 * DEGREE)) * Math.cos(45 * DEGREE + t / 2) -
        (150 / (40 * l)) * Math.cos(t),
      0,
      1.2,
    );
    expectWithin(at, wanted, 1e-9);
  });

  it('of two bars of 8 in on a roller, with a spring of 16 lbf/in between their middles, under 10 lbf', () => {
    // J. M. Gere, B. J. Goodno, "Mechanics of Materials", Problem 2.2-13 (statement read at coursehero.com, file 5584057; its answers,
    // 35.1 degrees and 1.78 in, from memory). Bars drawn at 45 degrees, the spring free there: P = k b (cos t - cos 45) tan t.
    const [b, t0] = [8, 45 * DEGREE];
    const [x, y] = [b * Math.cos(t0), b * Math.sin(t0)];
    const drawing = linkage({
      points: {
        A: [0, 0],
        B: [x, y],
        C: [2 * x, 0],
        M: [x / 2, y / 2],
        N: [1.5 * x, y / 2],
        near: [1, 0],
        far: [30, 0],
      },
      ground: ['A', 'near', 'far'],
      bodies: { first: ['A', 'B', 'M'], second: ['B', 'C', 'N'] },
      sliders: { roller: { point: 'C', on: ['near', 'far'] } },
    });
    const motion = trace(drawing, { driver: { turn: 'first' }, from: -0.7, to: 0.2 });
    const at = stable(motion, [
      { at: 'B', force: [0, -10] },
      { along: { length: ['M', 'N'] }, rate: 16, freeAt: x },
    ]);
    const wanted = zero((t) => 16 * b * (Math.cos(t) - Math.cos(t0)) * Math.tan(t) - 10, t0, 0.3);
    expectWithin(t0 + at, wanted, 1e-9);
    expectWithin((t0 + at) / DEGREE, 35.1, 0.05);
    expectWithin(2 * b * (Math.cos(t0 + at) - Math.cos(t0)), 1.78, 5e-3);
  });

  it('of a truss of von Mises with elastic bars ends at the published load and drop', () => {
    // Span 2 x 5 m, rise 1 m, E A = 1280 MN; it snaps at a drop of 426.4 mm (Z. P. Bazant, L. Cedolin, "Stability of Structures", equation 4.4.5)
    // and 3790 kN (a finite element program; both read at pont.ist/von-mises-truss). Half of it: one bar, half the load.
    const [span, rise] = [5, 1];
    const drawn = Math.hypot(span, rise);
    const drawing = linkage({
      points: { O: [0, 0], A: [span, rise], low: [span, -3], high: [span, 3] },
      ground: ['O', 'low', 'high'],
      bodies: {},
      sliders: { apex: { point: 'A', on: ['low', 'high'] } },
    });
    const motion = trace(drawing, { driver: { y: 'A' }, from: -2.5, to: 1.5 });
    const bar = { along: { length: ['O', 'A'] }, rate: 1280e3 / drawn, freeAt: drawn } as const;
    const { snaps } = followEquilibrium(motion, [bar], [{ at: 'A', force: [0, -0.5] }], { to: 4200 });
    expectSame(snaps.length, 1);
    expectWithin(snaps[0].factor, 3790, 1);
    const height = snaps[0].from;
    expectWithin((rise - height) * 1000, 426.4, 0.05);
    // cos q = (cos alpha)^(1/3) at the snap.
    const cos = (span / drawn) ** (1 / 3);
    expectWithin(height, (span * Math.sqrt(1 - cos * cos)) / cos, 1e-6);
  });
});
