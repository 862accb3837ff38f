/** Fixed angles, telescopes, measures relative to a body, held measures, several drivers, the other assembly mode. */
import { assert, double, property } from 'fast-check';
import { type Drawing, drive, InputError, otherAssemblyMode, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { compile } from '../../src/linkage/system.ts';
import { deepFreeze } from '../support/freeze.ts';
import { fourBars } from '../support/linkages.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const angle = double({ min: -1, max: 1, noNaN: true });

/** Two arms on ground pivots whose ends carry a table; nothing but `fixedAngles` keeps the table's direction. */
const table = (second: readonly string[]): Drawing =>
  deepFreeze({
    points: { A: [0, 0], B: [1, 2], C: [3, 2.5], D: [4, 2] },
    ground: ['A'],
    bodies: { arm: ['A', 'B'], plate: ['B', 'C', 'D'] },
    fixedAngles: { level: second as [string] },
  });

describe('fixed angles', () => {
  it('keep the direction of one body, which then moves on without a turn', () => {
    assert(
      property(angle, (turn) => {
        const motion = trace(table(['plate']), { driver: { turn: 'arm' }, from: -1, to: 1 });
        const { B, C, D } = motion.at(turn);
        expectClose(C[0] - B[0], 2, { times: 64, scale: 4 });
        expectClose(D[1] - B[1], 0, { times: 64, scale: 4 });
        expectClose(motion.read({ turn: 'plate' })(turn).value, 0, { times: 64, scale: 1 });
      }),
    );
  });

  it('keep two bodies at the angle drawn between them', () => {
    assert(
      property(angle, (turn) => {
        const motion = trace(table(['plate', 'arm']), { driver: { turn: 'arm' }, from: -1, to: 1 });
        expectClose(motion.read({ turn: 'plate' })(turn).value, turn, { times: 64, scale: 1 });
        expectClose(motion.read({ turn: 'plate', relativeTo: 'arm' })(turn).value, 0, {
          times: 64,
          scale: 1,
        });
      }),
    );
  });

  it('miss by a length, as all constraints do: that of the shorter direction turned by what the angle misses', () => {
    const off = (angles: NonNullable<Drawing['fixedAngles']>, unit: number) => {
      const at = (x: number, y: number) => [unit * x, unit * y] as const;
      const { structure, scale } = compile({
        points: { A: at(0, 0), B: at(3, 4), C: at(6, 16) },
        ground: ['A'],
        bodies: { arm: ['A', 'B'], plate: ['B', 'C'] },
        fixedAngles: angles,
      });
      return scale[structure.rows.findIndex(({ isAngle }) => isAngle === true)] / unit;
    };
    for (const unit of [1e-3, 1, 1e3]) {
      const roundings = { times: 4, scale: 13 };
      expectClose(off({ kept: ['plate'] }, unit), Math.hypot(3, 12), roundings);
      expectClose(off({ kept: ['plate', 'arm'] }, unit), 5, roundings);
      expectClose(off({ kept: ['arm', 'plate'] }, unit), 5, roundings);
    }
  });

  it('hold a right angle as well as any: a cross on two guides', () => {
    const drawing = deepFreeze({
      points: { P: [1, 0], Q: [1, 1] },
      ground: [],
      bodies: { post: ['P', 'Q'] },
      fixedCoordinates: [{ y: 'P' }],
      fixedAngles: { upright: ['post'] },
    } as const);
    const { Q } = trace(drawing, { driver: { x: 'P' }, to: 5 }).at(5);
    expect(Q).toEqual([5, 1]);
  });
});

describe('a telescope', () => {
  const drawing = deepFreeze({
    points: { O: [0, 0], B: [3, 0] },
    ground: ['O'],
    bodies: {},
    fixedAngles: { guide: ['ram'] },
    telescopes: { ram: ['O', 'B'] },
  } as const);

  it('with its direction held goes on where its length passes through nothing', () => {
    const motion = trace(drawing, { driver: { x: 'B' }, from: -3, to: 3 });
    expect(motion.low.status).toBe('reached');
    expectClose(motion.read({ turn: 'ram' })(-2).value, 0, { times: 64, scale: 1 });
    expectClose(motion.read({ x: 'B', relativeTo: 'ram' })(-2).value, -2, { times: 64, scale: 3 });
  });

  it('points along the line of its ends', () => {
    assert(
      property(angle, (turn) => {
        const swing = deepFreeze({
          points: { O: [0, 0], C: [3, 0], A: [3, 1] },
          ground: ['O', 'C'],
          bodies: { arm: ['C', 'A'] },
          telescopes: { ram: ['O', 'A'] },
        } as const);
        const motion = trace(swing, { driver: { turn: 'arm' }, from: -1, to: 1 });
        const { A } = motion.at(turn);
        const drawn = Math.atan2(1, 3);
        expectClose(motion.read({ turn: 'ram' })(turn).value, Math.atan2(A[1], A[0]) - drawn, {
          times: 2 ** 8,
          scale: 1,
        });
      }),
    );
  });
});

describe('measures relative to a moving body', () => {
  it('is what its own places, turned back, say; and so are its derivatives', () => {
    assert(
      property(fourBars, ({ drawing }) => {
        const motion = trace(drawing, { driver: { turn: 'crank' }, from: -0.2, to: 0.2 });
        const turn = motion.read({ turn: 'first0' });
        const seen = {
          x: motion.read({ x: 'G0', relativeTo: 'first0' }),
          y: motion.read({ y: 'G0', relativeTo: 'first0' }),
        };
        const at = 0.7 * motion.high.at;
        const { A, G0 } = motion.at(at);
        const [c, s] = [Math.cos(turn(at).value), Math.sin(turn(at).value)];
        const [dx, dy] = [G0[0] - A[0], G0[1] - A[1]];
        const [ax, ay] = drawing.points.A;
        const roundings = {
          times: 2 ** 14,
          scale: Math.max(...Object.values(drawing.points).flat().map(Math.abs)),
        };
        expectClose(seen.x(at).value, ax + c * dx + s * dy, roundings);
        expectClose(seen.y(at).value, ay - s * dx + c * dy, roundings);
        // d/dt of a turned-back line: the turn's rate acts on it, square to it.
        const rocker = motion.read({ turn: 'second0', relativeTo: 'first0' });
        const [own, other] = [motion.read({ turn: 'second0' })(at), turn(at)];
        const scale = 1 + Math.abs(own.second ?? 0) + Math.abs(other.second ?? 0);
        expectClose(rocker(at).first, (own.first ?? 0) - (other.first ?? 0), { times: 2 ** 16, scale });
        expectClose(rocker(at).second, (own.second ?? 0) - (other.second ?? 0), { times: 2 ** 18, scale });
      }),
    );
  });

  it('can drive', () => {
    const drawing = deepFreeze({
      points: { A: [0, 0], B: [0, 2], C: [3, 3], D: [4, 0] },
      ground: ['A', 'D'],
      bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
    } as const);
    const motion = trace(drawing, { driver: { turn: 'coupler', relativeTo: 'crank' }, from: -0.3, to: 0.3 });
    expectClose(
      motion.read({ turn: 'coupler' })(0.2).value - motion.read({ turn: 'crank' })(0.2).value,
      0.2,
      { times: 2 ** 10, scale: 1 },
    );
    const place = trace(drawing, { driver: { y: 'D', relativeTo: 'crank' }, to: 0.5 });
    expectClose(place.read({ y: 'D', relativeTo: 'crank' })(0.25).value, 0.25, { times: 2 ** 8, scale: 4 });
  });
});

/** Two cranks on ground pivots, joined by two bars: two degrees of freedom. */
const fiveBar = deepFreeze({
  points: { A: [0, 0], B: [-1, 3], C: [2, 6], D: [5, 3], E: [4, 0] },
  ground: ['A', 'E'],
  bodies: { left: ['A', 'B'], first: ['B', 'C'], second: ['C', 'D'], right: ['E', 'D'] },
} as const);

describe('a linkage of two degrees of freedom', () => {
  it('moves by one driver while the other is held', () => {
    const motion = trace(fiveBar, { driver: { turn: 'left' }, hold: [{ turn: 'right' }], to: 0.3 });
    expectClose(motion.at(0.3).D[0], 5, { times: 64, scale: 6 });
    expectClose(motion.read({ turn: 'left' })(0.2).value, 0.2, { times: 64, scale: 1 });
  });

  it('goes where its drivers say: the closed form of two circles', () => {
    assert(
      property(angle, angle, (left, right) => {
        const { drawing, shortfall } = drive(fiveBar, [
          { driver: { turn: 'left' }, to: 0.4 * left },
          { driver: { turn: 'right' }, to: 0.4 * right },
        ]);
        expect(shortfall).toEqual([0, 0]);
        const { B, C, D } = drawing.points;
        const crank = (pivot: number, x: number, turn: number) => {
          const start = Math.atan2(3, x);
          return [
            pivot + Math.hypot(x, 3) * Math.cos(start + turn),
            Math.hypot(x, 3) * Math.sin(start + turn),
          ];
        };
        const [wantedB, wantedD] = [crank(0, -1, 0.4 * left), crank(4, 1, 0.4 * right)];
        for (const k of [0, 1]) {
          expectClose(B[k], wantedB[k], { times: 2 ** 10, scale: 6 });
          expectClose(D[k], wantedD[k], { times: 2 ** 10, scale: 6 });
        }
        // C is the upper meeting of two circles of radius sqrt 18.
        const [mx, my] = [(B[0] + D[0]) / 2, (B[1] + D[1]) / 2];
        const half = Math.hypot(D[0] - B[0], D[1] - B[1]) / 2;
        const rise = Math.sqrt(18 - half * half) / half / 2;
        expectClose(C[0], mx - rise * (D[1] - B[1]), { times: 2 ** 12, scale: 6 });
        expectClose(C[1], my + rise * (D[0] - B[0]), { times: 2 ** 12, scale: 6 });
      }),
    );
  });

  it('finds a way along which neither driver could go alone, and says what is missing where there is none', () => {
    const drivers = (left: number, right: number) => [
      { driver: { turn: 'left' }, to: left } as const,
      { driver: { turn: 'right' }, to: right } as const,
    ];
    // Both cranks over to one side: the first alone would tear the bars apart.
    const stretched = { driver: { turn: 'left' }, hold: [{ turn: 'right' }] } as const;
    expect(trace(fiveBar, stretched).high.at).toBeLessThan(1.2);
    expect(drive(fiveBar, drivers(1.2, 1.2)).shortfall).toEqual([0, 0]);
    const { shortfall, drawing } = drive(fiveBar, drivers(1.2, -1.2));
    expect(shortfall[0]).toBeGreaterThan(0.1);
    const { B, C, D } = drawing.points;
    // Left where the bars are all but in line.
    expectWithin(Math.hypot(D[0] - B[0], D[1] - B[1]), Math.hypot(C[0] - B[0], C[1] - B[1]) * 2, 1e-6);
  });

  it('refuses what no joint can hold, and values that are none', () => {
    expect(() =>
      trace(fiveBar, { driver: { turn: 'left' }, hold: [{ x: 'C', relativeTo: 'right' }] }),
    ).toThrow(/hold\[0\]: a place relative to a moving body, which no joint holds/);
    expect(() => drive(fiveBar, [{ driver: { turn: 'left' }, to: Number.NaN }])).toThrow(
      /\[0\]\.to: not a finite number, got NaN/,
    );
    expect(() => drive(fiveBar, [])).toThrow(InputError);
  });
});

describe('the other assembly', () => {
  // R. L. Norton, "Design of Machinery", Example 4-1 (from memory): crank at 40 degrees; open 57.32, crossed -98.00.
  it('of a four-bar is the crossed one, with what its coupler carries', () => {
    const degree = Math.PI / 180;
    const A = [40 * Math.cos(40 * degree), 40 * Math.sin(40 * degree)] as const;
    const rocker = 57.32488 * degree;
    const B = [100 + 80 * Math.cos(rocker), 80 * Math.sin(rocker)] as const;
    const open = deepFreeze({
      points: { O: [0, 0], C: [100, 0], A, B, T: [70, 110] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B', 'T'], rocker: ['C', 'B'] },
    } as const);
    const crossed = otherAssemblyMode(open, 'B');
    const at = crossed.points.B;
    expectWithin(Math.atan2(at[1], at[0] - 100) / degree, -98.004964, 1e-5);
    const length = (d: Drawing, p: string, q: string) =>
      Math.hypot(d.points[p][0] - d.points[q][0], d.points[p][1] - d.points[q][1]);
    for (const [p, q] of [
      ['A', 'B'],
      ['C', 'B'],
      ['A', 'T'],
      ['B', 'T'],
    ] as const) {
      expectClose(length(crossed, p, q), length(open, p, q), { times: 64, scale: 200 });
    }
    // What the two bodies turn about stays to the bit.
    for (const name of ['O', 'A', 'C'] as const) expect(crossed.points[name]).toEqual(open.points[name]);
    const back = otherAssemblyMode(crossed, 'B');
    for (const name of ['B', 'T'] as const) {
      expectClose(back.points[name][0], open.points[name][0], { times: 64, scale: 200 });
      expectClose(back.points[name][1], open.points[name][1], { times: 64, scale: 200 });
    }
  });

  it('of a point that slides is on the other side of the foot of its other joint, as far from the line', () => {
    // Crank pin (30, 40), rod sqrt(110² + 30²), slide y = 10, on a slider or a fixed coordinate: x = 30 ± 110.
    const drawn = {
      points: { O: [0, 0], A: [30, 40], P: [140, 10], T: [85, 60], L: [0, 0], R: [7, 0] },
      ground: ['O', 'L', 'R'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P', 'T'] },
    } as const;
    for (const joint of [
      { sliders: { piston: { point: 'P', on: ['L', 'R'] } } },
      { fixedCoordinates: [{ y: 'P' }] },
    ] as const) {
      const other = otherAssemblyMode(deepFreeze({ ...drawn, ...joint }), 'P');
      expectClose(other.points.P[0], -80, { times: 16, scale: 140 });
      expectClose(other.points.P[1], 10, { times: 16, scale: 140 });
      expect(other.points.A).toEqual([30, 40]);
      const length = (d: Drawing, p: string, q: string) =>
        Math.hypot(d.points[p][0] - d.points[q][0], d.points[p][1] - d.points[q][1]);
      for (const [p, q] of ['AP', 'AT', 'PT']) {
        expectClose(length(other, p, q), length({ ...drawn, ...joint }, p, q), { times: 32, scale: 140 });
      }
      expect(trace(other, { driver: { turn: 'crank' } }).low.status).toBe('closed');
    }
  });

  it('can be asked for only at a pin of two bodies held once more each', () => {
    // @ts-expect-error: no such point
    expect(() => otherAssemblyMode(fiveBar, 'F')).toThrow(
      /unknown point, got "F" \(allowed: A, B, C, D, E\)/,
    );
    expect(() => otherAssemblyMode(fiveBar, 'A')).toThrow(
      /A: not a pin between two bodies and nothing else, nor a point of one body on one slide, got on left/,
    );
  });
});

describe('faulty joints', () => {
  it('are told all at once, by the names of the drawing', () => {
    const faulty = {
      points: { A: [0, 0], B: [0, 2], C: [3, 3], D: [3, 3] },
      ground: ['A'],
      bodies: { bar: ['A', 'B'], plate: ['B', 'C', 'D'] },
      sliders: {
        s: { point: 'X', on: ['A', 'B'] },
        t: { point: 'A', on: ['B', 'A'] },
        u: { point: 'A', on: ['C', 'D'] },
      },
      fixedAngles: { a: ['bra'], b: [['C', 'D']] },
      telescopes: { bar: ['A', 'C'] },
    } as unknown as Drawing;
    expect(() => trace(faulty)).toThrow(
      [
        'invalid drawing',
        '  sliders.s.point: unknown point, got "X" (allowed: A, B, C, D); correct the name or add the point to the drawing',
        '  sliders.t.point: a point of the body on which it should slide, got "A"; take it out of the body, or the slider out of the drawing',
        '  sliders.u.on: a line through two points in one place, got ["C","D"]; name two points that lie apart',
        '  telescopes.bar: named as a body, got "bar"; give it a name of its own',
        '  fixedAngles.a[0]: unknown body, got "bra" (allowed: bar, plate); correct the name or add the body to the drawing',
        '  fixedAngles.b[0]: a direction between two points in one place, got ["C","D"]; name two points that lie apart',
      ].join('\n'),
    );
    expect(() => trace({ ...faulty, sliders: 3, fixedAngles: { a: [] } } as unknown as Drawing)).toThrow(
      /sliders: wrong kind of value, got 3 \(allowed: \{ name: \{ point: 'P', on: \['A', 'B'\] \}, \.\.\. \}\)\n {2}fixedAngles\.a: wrong kind of value/,
    );
  });
});
