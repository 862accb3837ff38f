/** Linkages found by synthesis, against those that theory gives, and what holds of every synthesis. */
import * as fc from 'fast-check';
import { type Drawing, InputError, type Point, trace } from 'jounce/linkage';
import { extremeValues, type SynthesisObjective, type SynthesisOptions, synthesise } from 'jounce/synthesis';
import { fourBars } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { fourBarAngles } from '../judges/four-bar.ts';
import { distance } from '../support/motions.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';

const DEGREE = Math.PI / 180;
const TURN = 2 * Math.PI;
/** A search ends where the sum of squared deviations, in tolerances, is 1e-12 at most: a millionth of a tolerance of 0.001. */
const FOUND = 1e-8;

const drawn = (B: Point, C: Point) =>
  ({
    points: { A: [0, 0], B, C, D: [1, 0] },
    ground: ['A', 'D'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
  }) as const satisfies Drawing;
const box = ([x, y]: Point, by: number) => ({ x: [x - by, x + by], y: [y - by, y + by] }) as const;

/**
 * Freudenstein's equation of a four-bar with ground d, crank a at the angle phi, coupler b, rocker c at psi:
 *
 *     K1 cos psi - K2 cos phi + K3 = cos(phi - psi),   K1 = d/a,  K2 = d/c,  K3 = (a² - b² + c² + d²)/(2 a c).
 *
 * F. Freudenstein, "Approximate synthesis of four-bar linkages", Trans. ASME 77, 1955 (its equation read in A. Ghosal, Resonance, August 2010, and in notes of a course, ME 314).
 */
const freudenstein = (a: number, b: number, c: number, d: number, phi: number, psi: number) =>
  (d / a) * Math.cos(psi) -
  (d / c) * Math.cos(phi) +
  (a * a - b * b + c * c + d * d) / (2 * a * c) -
  Math.cos(phi - psi);

/** Its bars for three pairs of angles and d = 1, by Cramer's rule. */
function threePoints(phi: readonly number[], psi: readonly number[]) {
  const rows = phi.map((p, k) => [Math.cos(psi[k]), -Math.cos(p), 1]);
  const right = phi.map((p, k) => Math.cos(p - psi[k]));
  const det = (m: readonly (readonly number[])[]) =>
    m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
    m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
    m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  const [K1, K2, K3] = [0, 1, 2].map(
    (j) => det(rows.map((row, i) => row.map((one, k) => (k === j ? right[i] : one)))) / det(rows),
  );
  const [a, c] = [1 / K1, 1 / K2];
  return { a, b: Math.sqrt(a * a + c * c + 1 - 2 * a * c * K3), c };
}

/** log x from 1 to 2 by a crank that turns 60 degrees and a rocker that turns 90, from these angles; Chebyshev's spacing. */
function logarithm(count: number, crank: number, rocker: number) {
  const xs = Array.from(
    { length: count },
    (_, k) => 1.5 - 0.5 * Math.cos((Math.PI * (2 * k + 1)) / (2 * count)),
  );
  return {
    phi: xs.map((x) => (crank + 60 * (x - 1)) * DEGREE),
    psi: xs.map((x) => (rocker + (90 * Math.log(x)) / Math.log(2)) * DEGREE),
    options: {
      driver: { angle: ['A', 'B'] },
      from: (crank - 2) * DEGREE,
      to: (crank + 62) * DEGREE,
      move: { B: { x: [-3, 3], y: [-3, 3] }, C: { x: [-3, 3], y: [-3, 3] } },
    } as const,
    start: drawn(
      [0.6 * Math.cos((crank + 30) * DEGREE), 0.6 * Math.sin((crank + 30) * DEGREE)],
      [1 + 1.1 * Math.cos((rocker + 45) * DEGREE), 1.1 * Math.sin((rocker + 45) * DEGREE)],
    ),
  };
}

const barsOf = ({ A, B, C, D }: Readonly<Record<'A' | 'B' | 'C' | 'D', Point>>) =>
  [distance(A, B), distance(B, C), distance(C, D), distance(D, A)] as const;

describe('function generation', () => {
  it.each([
    [60, 0],
    [45, 0],
    [90, 0],
    [90, 30],
  ])('has the bars of Freudenstein for three precision points, from %s and %s degrees', (crank, rocker) => {
    const { phi, psi, options, start } = logarithm(3, crank, rocker);
    const made = synthesise(start, {
      ...options,
      objectives: [{ quantity: { angle: ['D', 'C'] }, at: phi, values: psi }],
    });
    expectSame(made.status, 'targetsMet');
    const [a, b, c] = barsOf(made.drawing.points);
    const bars = threePoints(phi, psi);
    for (const [found, expected] of [
      [a, bars.a],
      [b, bars.b],
      [c, bars.c],
    ]) {
      expectWithin(found, expected, FOUND);
    }
  });

  it('satisfies the equation of Freudenstein at four precision points, the angle of the rocker free', () => {
    const { phi, psi, options, start } = logarithm(4, 90, 30);
    const made = synthesise(start, {
      ...options,
      objectives: [{ quantity: { angle: ['D', 'C'] }, at: phi, values: psi, offset: 'free' }],
    });
    expectSame(made.status, 'targetsMet');
    const found = made.objectives[0].points.map(({ value }) => value as number);
    const [a, b, c, d] = barsOf(made.drawing.points);
    found.forEach((value, k) => {
      expectWithin(freudenstein(a, b, c, d, phi[k], value), 0, FOUND);
      expectWithin(value - found[0], psi[k] - psi[0], FOUND);
    });
  });
});

describe('a straight line', () => {
  it('is that of Chebyshev: coupler, cranks and ground as 2 : 5 : 4', () => {
    // P. L. Chebyshev, 1854 (from memory). Two places of the middle of its coupler, in closed form.
    const bars = { crank: 5, coupler: 2, rocker: 5, ground: 4 };
    const middle = (crank: number): Point => {
      const { coupler } = fourBarAngles(bars, crank, 'crossed') ?? expect.fail('does not close');
      return [5 * Math.cos(crank) + Math.cos(coupler), 5 * Math.sin(crank) + Math.sin(coupler)];
    };
    expectWithin(middle(Math.atan2(4, 3))[1], 4, 1e-12);
    const [from, to] = [44 * DEGREE, 82 * DEGREE];
    const made = synthesise(
      {
        points: { A: [0, 0], D: [4, 0], B: [2.8, 4], C: [1.25, 4], P: [2, 4] },
        ground: ['A', 'D'],
        bodies: { crank: ['A', 'B'], coupler: ['B', 'C', 'P'], rocker: ['D', 'C'] },
      },
      {
        driver: { angle: ['A', 'B'] },
        from,
        to,
        move: { B: { x: [2.4, 3.8] }, C: { x: [0.2, 1.6] } },
        objectives: [{ path: 'P', through: [middle(from), middle(to)] }],
      },
    );
    expectSame(made.status, 'targetsMet');
    const [crank, coupler, rocker] = barsOf(made.drawing.points);
    expectWithin(crank, 5, 1e-6);
    expectWithin(coupler, 2, 1e-6);
    expectWithin(rocker, 5, 1e-6);
  });

  it('is that of Watt: the point divides the coupler in the inverse ratio of the rockers', () => {
    // J. Watt, 1784 (from memory), to the order of the small motion.
    const made = synthesise(
      {
        points: { A: [0, 0], B: [2, 0], C: [2, -1], D: [5, -1], P: [2, -0.5] },
        ground: ['A', 'D'],
        bodies: { one: ['A', 'B'], coupler: ['B', 'C', 'P'], two: ['D', 'C'] },
      },
      {
        driver: { turn: 'one' },
        from: -0.1,
        to: 0.1,
        move: { P: { y: [-0.95, -0.05] } },
        objectives: [{ quantity: { x: 'P' }, extreme: 'range', target: 0, tolerance: 1e-5 }],
        starts: 1,
      },
    );
    const { P, B, C } = made.drawing.points;
    expectWithin(distance(B, P) / distance(P, C), 3 / 2, 1e-3);
    expectSame(made.status, 'targetUnreachable');
    expectSame(
      made.diagnostics.map(({ code }) => code),
      ['noProof'],
    );
  });
});

describe('path generation', () => {
  const start = {
    points: { A: [0, 0], B: [0.35, 0.05], C: [1.4, 1], D: [1, 0], P: [0.8, 1.25] },
    ground: ['A', 'D'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C', 'P'], rocker: ['D', 'C'] },
  } as const satisfies Drawing;
  const hidden = { B: [0.4, 0], C: [1.3, 0.9], P: [0.9, 1.2] } as const;
  const motion = trace(
    { ...start, points: { ...start.points, ...hidden } },
    { driver: { turn: 'crank' }, from: 0, to: TURN },
  );
  const at = Array.from({ length: 8 }, (_, k) => (k * TURN) / 8);
  const options = {
    driver: { turn: 'crank' },
    from: 0,
    to: TURN,
    move: { B: box([0.35, 0.05], 0.5), C: box([1.4, 1], 0.5), P: box([0.8, 1.25], 0.5) },
  } as const;
  const through = at.map((t) => motion.at(t).P);

  it('finds the linkage whose point is at given places at given turns of its crank', () => {
    const made = synthesise(start, { ...options, objectives: [{ path: 'P', through, at }] });
    expectSame(made.status, 'targetsMet');
    for (const name of ['B', 'C', 'P'] as const) {
      expectWithin(distance(made.drawing.points[name], hidden[name]), 0, 1e-7);
    }
  });

  it('finds one whose point passes through them somewhere', () => {
    const made = synthesise(start, { ...options, objectives: [{ path: 'P', through }] });
    expectSame(made.status, 'targetsMet');
    const found = trace(made.drawing, { driver: { turn: 'crank' }, from: 0, to: TURN });
    made.objectives[0].points.forEach(({ at: t, value, deviation }, k) => {
      const place = found.at(t as number).P;
      expectWithin(distance(place, value as Point), 0, 1e-9);
      expectWithin(distance(place, through[k]), deviation, 1e-9);
      expectWithin(deviation, 0, 1e-7);
    });
  });
});

describe('bounds', () => {
  const LINES = { coupler: ['B', 'C'], output: ['C', 'D'] } as const;
  const options = (
    swing: number,
    least: number,
  ): SynthesisOptions<'A' | 'B' | 'C' | 'D', 'crank' | 'coupler' | 'rocker'> => ({
    driver: { turn: 'crank' },
    from: 0,
    to: TURN,
    move: { B: { x: [0.1, 0.9] }, C: { x: [0.2, 2], y: [0.2, 2] } },
    objectives: [{ quantity: { turn: 'rocker' }, extreme: 'range', target: swing * DEGREE }],
    bounds: [
      { quantity: { transmissionAngle: LINES }, min: least * DEGREE, max: (180 - least) * DEGREE },
      { quantity: { length: ['C', 'D'] }, min: 0.5, max: 1 },
    ],
    starts: 1,
  });
  const start = drawn([0.3, 0], [1.2, 0.8]);

  it('hold over the whole motion, where the goal can be met and where it cannot', () => {
    for (const [swing, least, status] of [
      [50, 40, 'targetsMet'],
      [110, 45, 'targetUnreachable'],
    ] as const) {
      const made = synthesise(start, options(swing, least));
      expectSame(made.status, status);
      const motion = trace(made.drawing, { driver: { turn: 'crank' }, from: 0, to: TURN });
      const { minimum: low, maximum: high } = extremeValues(motion, { transmissionAngle: LINES });
      expect(low?.value).toBeGreaterThanOrEqual(least * DEGREE - 1e-9);
      expect(high?.value).toBeLessThanOrEqual((180 - least) * DEGREE + 1e-9);
      const rocker = distance(made.drawing.points.C, made.drawing.points.D);
      expect(rocker >= 0.5 - 1e-9 && rocker <= 1 + 1e-9).toBe(true);
      const turn = extremeValues(motion, { turn: 'rocker' });
      const range = (turn.maximum?.value ?? Number.NaN) - (turn.minimum?.value ?? Number.NaN);
      expectWithin(made.objectives[0].error, Math.abs(range - swing * DEGREE), 1e-9);
      const limits = made.diagnostics.filter(({ code }) => /^(bound|point)/.test(code));
      if (status === 'targetUnreachable') expect(limits.length).toBeGreaterThan(0);
    }
  });

  it('that no linkage in the boxes can keep are said', () => {
    const made = synthesise(start, options(50, 88));
    expectSame(made.status, 'boundUnreachable');
    expect(made.diagnostics.map(({ code }) => code)).toContain('boundExceeded');
  });
});

describe('every synthesis', () => {
  const wishes = fc.record({
    places: fc.array(fc.tuple(fc.integer({ min: -80, max: 80 }), fc.integer({ min: -80, max: 80 })), {
      minLength: 2,
      maxLength: 4,
    }),
    turn: fc.integer({ min: -40, max: 40 }).map((percent) => percent / 100),
    timed: fc.boolean(),
  });

  it('stays in its boxes, is what trace says, and has equal bits', () => {
    fc.assert(
      fc.property(fourBars(fc, { grashof: true }), wishes, (drawing, { places, turn, timed }) => {
        const driver = { turn: 'crank' } as const;
        const motion = trace(drawing, { driver, from: -0.3, to: 0.3 });
        fc.pre(motion.low.status === 'reached' && motion.high.status === 'reached');
        const at = places.map((_, k) => -0.3 + (0.6 * k) / (places.length - 1));
        const through = places.map(([dx, dy], k): Point => {
          const [x, y] = motion.at(at[k]).P;
          return [x + dx, y + dy];
        });
        const objectives: SynthesisObjective[] = [
          { path: 'P', through, ...(timed ? { at } : {}) },
          { quantity: { turn: 'rocker' }, at: [0.3], values: [turn], weight: 2 },
        ];
        const options: SynthesisOptions = {
          driver,
          from: -0.3,
          to: 0.3,
          move: { B: box(drawing.points.B, 60), P: box(drawing.points.P, 60) },
          objectives,
          starts: 2,
        };
        const made = synthesise<string, string>(drawing, options);
        for (const [name, { from, to }] of Object.entries(
          made.moved as Record<string, { from: Point; to: Point }>,
        )) {
          expectSame(from, drawing.points[name as 'B']);
          expect(Math.max(Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1]))).toBeLessThanOrEqual(
            60 + 1e-9,
          );
        }
        const found = trace(made.drawing, { driver, from: -0.3, to: 0.3 });
        const [path, rocker] = made.objectives;
        expectWithin(rocker.error, Math.abs(found.read({ turn: 'rocker' })(0.3).value - turn), 1e-10);
        path.points.forEach(({ at: t, deviation }, k) => {
          expectWithin(distance(found.at(t as number).P, through[k]), deviation, 1e-8);
        });
        expect(made.status === 'targetsMet').toBe(made.objectives.every(({ met }) => met));
        expect(synthesise<string, string>(drawing, options)).toEqual(made);
        expect(JSON.parse(JSON.stringify(made))).toEqual(made);
        expect(Object.isFrozen(made.drawing.points)).toBe(true);
      }),
      { numRuns: 6 },
    );
  });

  it('ends when it is told to, with the drawing', () => {
    const { phi, psi, options, start } = logarithm(3, 60, 0);
    const made = synthesise(start, {
      ...options,
      objectives: [{ quantity: { angle: ['D', 'C'] }, at: phi, values: psi }],
      signal: { aborted: true },
    });
    expectSame(made.status, 'cancelled');
    expectSame(made.drawing, start);
  });
});

describe('what is wrong with a synthesis', () => {
  const start = drawn([0.3, 0], [1.2, 0.8]);
  const codes = (options: unknown): string[] => {
    try {
      synthesise(start, options as never);
    } catch (error) {
      if (error instanceof InputError) return error.issues.map(({ code, path }) => `${code} ${path}`.trim());
      throw error;
    }
    return [];
  };
  const good = {
    driver: { turn: 'crank' },
    from: 0,
    to: 1,
    move: { B: { x: [0, 1] } },
    objectives: [{ quantity: { turn: 'rocker' }, at: [1], values: [0.2] }],
  };

  it('is said by its place, all at once', () => {
    expectSame(codes(3), ['notOptions']);
    expectSame(
      codes({
        driver: 'crank',
        from: Number.NaN,
        move: { B: { x: [1, 2], z: [0, 1] }, Q: {}, C: {}, A: { y: [1, 0] } },
        hold: 1,
        objectives: [
          { quantity: { turn: 'rocker' } },
          { path: 'B', through: [[1, 2], 'x'], at: [0], tolerance: 0, weight: -1 },
          { quantity: { turn: 'rocker' }, at: ['0'], values: [Number.NaN], offset: 'none' },
          { quantity: { turn: 'rocker' }, extreme: 'most', target: '1' },
        ],
        bounds: [{ quantity: { x: 'B' } }, { quantity: { x: 'B' }, min: 1, max: 1, tolerance: -1 }, 7],
        starts: 0,
        seed: 0.5,
        signal: 1,
        progress: 1,
        more: 1,
      }),
      [
        'unknownOption more',
        'unknownMeasure driver',
        'notFinite from',
        'notFinite to',
        'notAListOfMeasures hold',
        'unknownOption move.B.z',
        'boxWithoutDrawnPoint move.B.x',
        'unknownName move.Q',
        'emptyMove move.C',
        'notAnInterval move.A.y',
        'notWhole starts',
        'notASeed seed',
        'notASignal signal',
        'notAFunction progress',
        'notASynthesisObjective objectives[0]',
        'notAPoint objectives[1].through[1]',
        'notPrecisionPoints objectives[1].at',
        'outOfRange objectives[1].tolerance',
        'outOfRange objectives[1].weight',
        'notFinite objectives[2].values[0]',
        'notPrecisionPoints objectives[2].at',
        'unknownChoice objectives[2].offset',
        'unknownChoice objectives[3].extreme',
        'notFinite objectives[3].target',
        'notQuantityBounds bounds[0]',
        'boundsNotApart bounds[1]',
        'outOfRange bounds[1].tolerance',
        'notQuantityBounds bounds[2]',
      ],
    );
    expectSame(codes({ ...good, move: {}, objectives: [], bounds: [], from: 2 }), [
      'rangeReversed from',
      'nothingMoves move',
      'noSynthesisObjectives objectives',
      'noQuantityBounds bounds',
    ]);
    expectSame(
      codes({
        ...good,
        objectives: [
          { path: 'Q', through: [[0, 1]] },
          { path: 'B', through: [] },
        ],
      }),
      ['noPlaces objectives[1].through'],
    );
    expectSame(codes({ ...good, objectives: [{ quantity: { turn: 'rocker' }, at: [1.1], values: [0] }] }), [
      'notPrecisionPoints objectives[0].at',
    ]);
    expectSame(codes({ ...good, objectives: [{ quantity: { turn: 'rocker' }, at: [], values: [] }] }), [
      'noValues objectives[0].values',
    ]);
    expectSame(
      codes({
        ...good,
        driver: { turn: 'crnk' },
        objectives: [
          { path: 'Q', through: [[0, 1]] },
          { quantity: { velocityRatio: { x: 'R' } }, extreme: 'minimum', target: 1 },
        ],
        bounds: [{ quantity: { transmissionAngle: { coupler: ['B', 'C'], output: 'rocker' } }, min: 1 }],
      }),
      [
        'unknownName driver.turn',
        'unknownName objectives[0].x',
        'unknownName objectives[1].quantity.velocityRatio.x',
        'notALine bounds[0].quantity.transmissionAngle.output',
      ],
    );
  });

  it('is a drawing that does not make the motion', () => {
    expectSame(
      (() => {
        try {
          synthesise(drawn([1.5, 0.2], [1.2, 0.8]), {
            ...good,
            move: { B: { x: [0, 2] } },
            from: -3,
            to: 3,
          } as never);
        } catch (error) {
          return (error as InputError).issues.map(({ code }) => code);
        }
        return [];
      })(),
      ['rangeNotReached'],
    );
  });
});
