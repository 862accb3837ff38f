/** Derivatives by the driver against central differences and by the product rule, over random linkages and drivers. */
import { assert, constantFrom, oneof, property } from 'fast-check';
import { type Drawing, type Measure, type Motion, trace } from 'jounce/linkage';
import { laws } from 'jounce/testing';
import { describe, it } from 'vitest';
import { bindMeasure } from '../../src/linkage/measure.ts';
import { FIRST, READING, reader, readRows, SECOND } from '../../src/linkage/reader.ts';
import { deepFreeze } from '../support/freeze.ts';
import { fourBars, linkages, sizeOf } from '../support/linkages.ts';
import { drivers, placeAt, share, spread } from '../support/motions.ts';
import { EPS, expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

/** Drivers of every kind as relative to a moving body of a grown linkage. */
const seen = constantFrom<Measure[]>(
  deepFreeze({ turn: 'second0', relativeTo: 'first0' }),
  deepFreeze({ angle: ['O', 'P0'], relativeTo: 'second0' }),
  deepFreeze({ x: 'O', relativeTo: 'first0' }),
  deepFreeze({ y: 'Y0', relativeTo: 'crank' }),
);

/** A measure with its derivatives by the driver, none of them at a dead point. */
type Jet = readonly [value: number, first: number, second: number];

describe('derivatives by the driver', () => {
  /** Roundings in a value from which a quotient is made. */
  const NOISE = 128;
  /** What extrapolation leaves of a quotient's own uncertainty. */
  const LEFT = 0.1;

  /** Central differences with one extrapolation, and the tolerance that they deserve. */
  function slope(of: (t: number) => number, t: number, h: number, scale: number): [number, number] {
    const quotient = (step: number) => (of(t + step) - of(t - step)) / (2 * step);
    const [coarse, fine] = [quotient(h), quotient(h / 2)];
    const trust = LEFT * Math.abs(coarse - fine) + (NOISE * EPS * scale) / h;
    return [(4 * fine - coarse) / 3, trust];
  }

  it('by a driver of any kind are difference quotients of what is below them', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) =>
        laws.derivativesAgree((drawn) => drawn, drawing, {
          driver,
          ...('turn' in driver && { range: [-7, 7] as const }),
        }),
      ),
    );
  });

  it('agree with central differences by arc length, across the joints of pieces too', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        const read = motion.read({ x: 'P0' });
        for (const at of spread(motion, 12).slice(1, -1)) {
          const [byValue, trust] = slope((t) => read(t).value, at, 1e-3, 1000);
          expectWithin(read(at).first, byValue, trust);
        }
        const joints = motion.path.pieces.slice(1).map(({ origin }) => origin);
        for (const at of joints.slice(0, 4)) {
          expectWithin(read(at + 1e-9).first, read(at - 1e-9).first ?? Number.NaN, 1e-6);
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('what drives, read back', () => {
  it('has the value asked for, the rate one and no bend, whatever kind it is of and wherever it is seen from', () => {
    assert(
      property(linkages, oneof(drivers, seen), share, ({ drawing }, driver, part) => {
        const motion = trace(drawing, { driver });
        const at = placeAt(motion, part);
        const { value, first, second } = motion.read(driver)(at);
        const scale = 'turn' in driver || 'angle' in driver ? 1 : sizeOf(drawing);
        expectClose(value, at, { times: 2 ** 12, scale: scale + Math.abs(at) });
        if (motion.high.at === motion.low.at) return;
        // How fast the motion's own rates change, close to a dead point most of all.
        const own = Object.keys(drawing.points).map((x) => motion.read({ x })(at));
        const most = (rates: (number | null)[]) => Math.max(...rates.map((rate) => Math.abs(rate ?? 0)));
        const bend = most(own.map((x) => x.second)) / most(own.map((x) => x.first));
        expectClose(first, 1, { times: 2 ** 20, scale: 1 });
        expectClose(second, 0, { times: 2 ** 22, scale: 1 / scale + bend });
      }),
      { numRuns: 20 },
    );
  });
});

describe('measures made of others', () => {
  /** Times EPS of the largest term: what a piece's series is good for in a second derivative (the head of series.ts). */
  const TIMES = { value: 2 ** 12, first: 2 ** 16, second: 2 ** 22 };

  it('have the derivatives that product and chain rule say: relative to a body, lengths, directions', () => {
    assert(
      property(linkages, drivers, share, ({ drawing }, driver, part) => {
        const motion = trace(drawing, { driver });
        const at = placeAt(motion, part);
        const of = (measure: Measure): Jet => jet(motion, measure, at);
        const [x, y, ax, ay, turn] = [
          of({ x: 'Y0' }),
          of({ y: 'Y0' }),
          of({ x: 'A' }),
          of({ y: 'A' }),
          of({ turn: 'first0' }),
        ];
        const [dx, dy] = [minus(x, ax), minus(y, ay)];
        const [[u, u1, u2], [v, v1, v2], [phi, w, e]] = [dx, dy, turn];
        const [c, s] = [Math.cos(phi), Math.sin(phi)];
        const [A] = [drawing.points.A];
        const far = Math.abs(A[0]) + Math.abs(A[1]) + Math.abs(u) + Math.abs(v);
        const [fast, bent] = [Math.abs(u1) + Math.abs(v1), Math.abs(u2) + Math.abs(v2)];
        // The line from A, turned back by phi, and with it the turn's own rate, square to it.
        const back = (a: number, b: number) => [c * a + s * b, c * b - s * a];
        const [p, p1, p2] = [back(u, v), back(u1, v1), back(u2, v2)];
        const scales = {
          value: far,
          first: fast + Math.abs(w) * far,
          second: bent + 2 * Math.abs(w) * fast + (Math.abs(e) + w * w) * far,
        };
        expectJet(
          of({ x: 'Y0', relativeTo: 'first0' }),
          [A[0] + p[0], p1[0] + w * p[1], p2[0] + 2 * w * p1[1] + e * p[1] - w * w * p[0]],
          scales,
        );
        expectJet(
          of({ y: 'Y0', relativeTo: 'first0' }),
          [A[1] + p[1], p1[1] - w * p[0], p2[1] - 2 * w * p1[0] - e * p[0] - w * w * p[1]],
          scales,
        );
        // Polar coordinates of the line from A: r r' = (d, d'), r^2 theta' = d x d'.
        const length = of({ length: ['A', 'Y0'], offset: 40 });
        const r = Math.sqrt(u * u + v * v + 1600);
        const r1 = (u * u1 + v * v1) / r;
        const wide = {
          value: far,
          first: (far * fast) / r,
          second: (far * bent + fast * fast + r1 * r1) / r,
        };
        expectJet(length, [r, r1, (u * u2 + v * v2 + u1 * u1 + v1 * v1 - r1 * r1) / r], wide);
        const direction = of({ angle: ['A', 'Y0'] });
        const square = u * u + v * v;
        const rate = (u * v1 - v * u1) / square;
        const bend = (u * v2 - v * u2 - 2 * rate * (u * u1 + v * v1)) / square;
        const near = {
          value: 1 + Math.abs(direction[0]),
          first: (far * fast) / square,
          second: (far * bent + (2 * far * fast * far * fast) / square) / square,
        };
        const whole = direction[0] - Math.atan2(v, u);
        expectWithin(whole, 2 * Math.PI * Math.round(whole / (2 * Math.PI)), TIMES.value * EPS * near.value);
        expectJet(direction, [direction[0], rate, bend], near);
        const apart = minus(direction, turn);
        expectJet(of({ angle: ['A', 'Y0'], relativeTo: 'first0' }), apart, {
          value: near.value + Math.abs(phi),
          first: near.first + Math.abs(w),
          second: near.second + Math.abs(e),
        });
      }),
      { numRuns: 20 },
    );
  });

  function jet(motion: Motion, measure: Measure, at: number): Jet {
    const { value, first, second } = motion.read(measure)(at);
    return [value, first ?? Number.NaN, second ?? Number.NaN];
  }

  function minus(a: Jet, b: Jet): Jet {
    return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  }

  function expectJet(found: Jet, wanted: Jet, scales: Record<keyof typeof TIMES, number>): void {
    (['value', 'first', 'second'] as const).forEach((key, k) => {
      expectClose(found[k], wanted[k], { times: TIMES[key], scale: scales[key] });
    });
  }
});

describe('many places read at once', () => {
  it('turn on and on at the rate of what drives them: an arm in its third turn', () => {
    const drawing = deepFreeze<Drawing>({
      points: { O: [0, 0], A: [3, 4] },
      ground: ['O'],
      bodies: { arm: ['O', 'A'] },
    });
    const { path } = trace(drawing, { driver: { turn: 'arm' }, from: 0, to: 20 });
    const many = reader(path, [bindMeasure(path.system, { turn: 'arm' }, 'measure')]);
    const t = Float64Array.from({ length: 1000 }, (_, k) => 15 + k / 1000);
    for (let from = 0; from < t.length; ) {
      const rows = readRows(many, t, from);
      for (let j = 0; j < rows; j++) {
        expectClose(many.m[j], t[from + j], { times: 16, scale: 20 });
        expectClose(many.m[FIRST + j], 1, { times: 2 ** 8, scale: 1 });
        expectClose(many.m[SECOND + j], 0, { times: 2 ** 16, scale: 1 });
      }
      from += rows;
    }
  });

  it('are, to the bit, what each is alone: measures of every kind, with and without derivatives', () => {
    const kinds = deepFreeze<Measure[]>([
      { angle: ['O', 'P0'] },
      { turn: 'first0' },
      { x: 'X0' },
      { y: 'P0' },
      { length: ['O', 'Y0'], offset: 30 },
      { x: 'Y0', relativeTo: 'crank' },
      { y: 'O', relativeTo: 'first0' },
      { turn: 'second0', relativeTo: 'crank' },
      { angle: ['G0', 'A'], relativeTo: 'first0' },
    ]);
    assert(
      property(fourBars, ({ drawing }) => {
        const motion = trace(drawing);
        const { path } = motion;
        const bound = kinds.map((measure) => bindMeasure(path.system, measure, 'measure'));
        const alone = kinds.map((measure) => motion.read(measure));
        // The first piece in more rows than a block has, and the whole way round in pieces of fewer.
        const [first, second] = path.pieces;
        const inFirst = spread(
          { ...motion, low: { ...motion.low, at: first.start }, high: { ...motion.high, at: second.start } },
          300,
        );
        const t = Float64Array.from([...inFirst, ...spread(motion, 100)]);
        for (const derived of [kinds.map(() => true), kinds.map((_, i) => i % 2 === 0)]) {
          const many = reader(path, bound, derived);
          const [together, singly]: (number | null)[][] = [[], []];
          for (let from = 0; from < t.length; ) {
            const rows = readRows(many, t, from);
            const found = many.m.slice();
            for (const j of [0, rows >> 1, rows - 1]) {
              kinds.forEach((_, i) => {
                const at = i * READING + j;
                const { value, first, second } = alone[i](t[from + j]);
                together.push(found[at], ...(derived[i] ? [found[at + FIRST], found[at + SECOND]] : []));
                singly.push(value, ...(derived[i] ? [first, second] : []));
              });
            }
            from += rows;
          }
          expectSame(together, singly);
        }
      }),
      { numRuns: 3 },
    );
  });
});
