/** Sensitivities of random linkages, with drivers of every kind, against linkages drawn and traced anew. */
import { assert, integer, pre, property } from 'fast-check';
import { type Drawing, type Measure, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import type { Shift } from '../../src/linkage/form-rates.ts';
import { bindMeasure } from '../../src/linkage/measure.ts';
import { FIRST, READING, reader, SECOND } from '../../src/linkage/reader.ts';
import { readPoses, readRates, sensor } from '../../src/linkage/sensitivity.ts';
import { STEPS, slopeOf } from '../support/differences.ts';
import { deepFreeze } from '../support/freeze.ts';
import { intrinsic, linkages } from '../support/linkages.ts';
import { drivers, placeAt, redrawn, share } from '../support/motions.ts';
import { EPS, expectWithin } from '../support/tolerance.ts';

/** Value, first and second derivative of measures, differentiated by each shift, so far from the drawn driver. */
function ratesOf(
  drawing: Drawing,
  driver: Measure,
  measures: readonly Measure[],
  shifts: readonly Shift[],
  travel: number,
) {
  const { path, drawn } = trace(drawing, { driver, ...rangeOf(driver) });
  const { system } = path;
  const r = reader(
    path,
    measures.map((measure) => bindMeasure(system, measure, 'measure')),
  );
  const s = sensor(r, bindMeasure(system, driver, 'driver'), shifts);
  readPoses(s, Float64Array.of(drawn + travel), 0);
  return shifts.map((_, k) => {
    readRates(s, k, 1);
    return measures.map((_, i) => [0, FIRST, SECOND].map((order) => s.rates[i * READING + order]));
  });
}

const rangeOf = (driver: Measure) => ('turn' in driver ? { from: -7, to: 7 } : {});

function readingsOf(drawing: Drawing, driver: Measure, measures: readonly Measure[], travel: number) {
  const motion = trace(drawing, { driver, ...rangeOf(driver) });
  const at = motion.drawn + travel;
  if (!(at > motion.low.at && at < motion.high.at)) return null;
  return measures.map((measure) => {
    const { value, first, second } = motion.read(measure)(at);
    return [value, first, second] as number[];
  });
}

const moved = (drawing: Drawing, name: string, by: Point) => {
  const k = Object.keys(drawing.points).indexOf(name);
  return redrawn(drawing, ([x, y], i): Point => (i === k ? [x + by[0], y + by[1]] : [x, y]));
};

describe('sensitivities of a linkage', () => {
  /** Steps, in the square of 1000 in which linkages are drawn. */
  const STEP = 0.05;
  /** How many times its own trust a quotient is off: where second derivatives are some 1e10 it feels the rounding of the place, 13 times. */
  const UNSURE = 20;
  /** Roundings in a reading from which a quotient is made. */
  const NOISE = 512;

  it('are central differences of linkages drawn anew, of value, first and second derivative', () => {
    let [sharp, all] = [0, 0];
    assert(
      property(
        linkages,
        drivers,
        share,
        integer({ min: 0, max: 99 }),
        integer({ min: 0, max: 1 }),
        ({ drawing }, driver, part, n, axis) => {
          const names = Object.keys(drawing.points);
          const name = names[n % names.length];
          const unit: Point = axis === 0 ? [1, 0] : [0, 1];
          const measures: Measure[] = [
            ...intrinsic(drawing),
            { x: 'Y0' },
            { y: 'X0' },
            { angle: ['O', 'X0'] },
          ];
          const motion = trace(drawing, { driver, ...rangeOf(driver) });
          const travel = placeAt(motion, part) - motion.drawn;
          const [exact] = ratesOf(drawing, driver, measures, [{ [name]: unit }], travel);
          const near = STEPS.map((k) =>
            readingsOf(
              moved(drawing, name, [k * STEP * unit[0], k * STEP * unit[1]]),
              driver,
              measures,
              travel,
            ),
          );
          pre(near.every((one) => one !== null));
          measures.forEach((measure, i) => {
            const size = 'turn' in measure || 'angle' in measure ? 2 * Math.PI : 1000;
            [0, 1, 2].forEach((order) => {
              const values = near.map((one) => (one as number[][])[i][order]);
              const most = Math.max(...[0, 1, 2].map((k) => Math.abs(exact[i][k])));
              const rounding = NOISE * EPS * (size + Math.abs(values[0]) + most);
              const { slope, trust } = slopeOf(values, STEP, rounding);
              all++;
              // Near a dead point quotients say nothing.
              if (trust > 1e-5 * (1 + Math.abs(slope))) return;
              sharp++;
              expectWithin(exact[i][order], slope, UNSURE * trust + 1e-8 * (1 + Math.abs(slope)));
            });
          });
        },
      ),
      { numRuns: 60 },
    );
    expect(sharp / all).toBeGreaterThan(0.8);
  });
});

describe('a parallelogram with a third bar', () => {
  // The third bar is redundant: with it moved as the others are, it stays so.
  const drawing = deepFreeze({
    points: { A: [0, 0], B: [40, 90], C: [200, 0], D: [240, 90], E: [130, 20], F: [170, 110], P: [90, 150] },
    ground: ['A', 'C', 'E'],
    bodies: { left: ['A', 'B'], right: ['C', 'D'], middle: ['E', 'F'], table: ['B', 'D', 'F', 'P'] },
  } satisfies Drawing);
  const plain = deepFreeze({
    points: { A: [0, 0], B: [40, 90], C: [200, 0], D: [240, 90], P: [90, 150] },
    ground: ['A', 'C'],
    bodies: { left: ['A', 'B'], right: ['C', 'D'], table: ['B', 'D', 'P'] },
  } satisfies Drawing);

  it('has the sensitivities that it has without', () => {
    const measures: Measure[] = [{ x: 'P' }, { y: 'P' }, { turn: 'table' }, { length: ['A', 'P'] }];
    const shift: Shift = { B: [1, 0.5], D: [1, 0.5], F: [1, 0.5], P: [0.2, -0.3] };
    for (const travel of [-0.5, 0, 0.3]) {
      const [with3] = ratesOf(drawing, { turn: 'left' }, measures, [shift], travel);
      const [with2] = ratesOf(plain, { turn: 'left' }, measures, [shift], travel);
      with3.flat().forEach((rate, i) => {
        expectWithin(rate, with2.flat()[i], 1e-12 * 200);
      });
    }
  });
});

describe('sensitivities of joints and relative to a body', () => {
  const slotted = deepFreeze({
    points: { O: [0, 0], C: [20, 100], P: [80, 110], T: [160, 190], Q: [60, 30], R: [220, 150] },
    ground: ['O', 'C', 'R'],
    bodies: { crank: ['C', 'P'], arm: ['O', 'T', 'Q'], plate: ['T', 'S'] },
    sliders: { block: { point: 'P', on: ['O', 'T'] } },
    fixedAngles: { level: ['plate', ['O', 'C']] },
    telescopes: { ram: ['R', 'S'] },
  } as const);
  const drawing: Drawing = { ...slotted, points: { ...slotted.points, S: [190, 170] } };
  const measures: Measure[] = [
    { turn: 'arm' },
    { turn: 'ram' },
    { turn: 'ram', relativeTo: 'arm' },
    { x: 'P', relativeTo: 'arm' },
    { y: 'C', relativeTo: 'crank' },
    { x: 'R', relativeTo: 'arm' },
    { angle: ['Q', 'S'], relativeTo: 'crank' },
    { length: ['R', 'S'] },
  ];

  it.each([[{ turn: 'crank' }], [{ turn: 'crank', relativeTo: 'arm' }], [{ x: 'R', relativeTo: 'arm' }]] as [
    Measure,
  ][])('are central differences, driven by %j', (driver) => {
    for (const travel of 'x' in driver ? [-3, 4] : [-0.15, 0.1])
      expectDifferences(drawing, driver, measures, travel);
  });
});

describe('sensitivities of couplings', () => {
  const linkages: [what: string, drawing: Drawing, driver: Measure, measures: Measure[]][] = [
    [
      'a geared five-bar',
      {
        points: { O: [0, 0], A: [14, 37], B: [62, 95], D: [94, 24], C: [100, 0] },
        ground: ['O', 'C'],
        bodies: { left: ['O', 'A'], right: ['C', 'D'], up: ['A', 'B'], down: ['D', 'B'] },
        ratios: { gears: { of: [{ turn: 'right' }, { turn: 'left' }], ratio: -1.5 } },
      },
      { turn: 'left' },
      [{ x: 'B' }, { y: 'B' }, { turn: 'right' }, { length: ['O', 'B'] }],
    ],
    [
      'a planet that drives a rack on its carrier',
      {
        points: { O: [0, 0], S: [24, 3], P: [48, 0], Q: [48, 24], R: [60, 5], T: [10, -8] },
        ground: ['O'],
        bodies: { sun: ['O', 'S'], carrier: ['O', 'P', 'T'], planet: ['P', 'Q'] },
        sliders: { guide: { point: 'R', on: ['T', 'P'] } },
        ratios: {
          inner: {
            of: [
              { turn: 'planet', relativeTo: 'carrier' },
              { turn: 'sun', relativeTo: 'carrier' },
            ],
            ratio: -0.8,
          },
          held: { of: [{ turn: 'planet' }, { turn: 'sun' }], ratio: 0.3 },
          rack: { of: [{ travel: 'R', along: ['T', 'P'] }, { turn: 'planet' }], ratio: 9 },
        },
      },
      { turn: 'sun' },
      [{ x: 'R' }, { y: 'Q' }, { turn: 'carrier' }, { length: ['O', 'R'] }],
    ],
    [
      'a rope over two pulleys',
      {
        points: { A: [0, 100], B: [20, 40], C: [60, 100], H: [100, 20], O: [70, 0], P: [40, -20] },
        ground: ['A', 'C', 'O', 'P'],
        bodies: { boom: ['O', 'H'], link: ['P', 'B'] },
        ropes: {
          fall: [
            'A',
            { about: 'B', radius: 10, side: 'left' },
            { about: 'C', radius: 15, side: 'right' },
            'H',
          ],
        },
      },
      { turn: 'boom' },
      [{ x: 'B' }, { turn: 'link' }, { length: ['B', 'H'] }],
    ],
    [
      'a winch and a coordinate',
      {
        points: { O: [0, 0], A: [8, 1], H: [30, -90], P: [70, -60], K: [90, -20], L: [60, 40], M: [75, 50] },
        ground: ['O', 'P', 'L'],
        bodies: { drum: ['O', 'A'], boom: ['P', 'H', 'K'], flap: ['L', 'M'] },
        ratios: {
          winch: { of: [{ length: ['O', 'H'] }, { turn: 'drum' }], ratio: -8 },
          feed: { of: [{ y: 'K' }, { turn: 'flap' }], ratio: 20 },
        },
      },
      { turn: 'drum' },
      [{ x: 'K' }, { turn: 'boom' }, { turn: 'flap' }],
    ],
  ];

  it.each(linkages)('are central differences: %s', (_, drawing, driver, measures) => {
    for (const travel of [-0.05, 0, 0.1]) expectDifferences(drawing, driver, measures, travel);
  });
});

/** Expects the sensitivities by both coordinates of every point to be central differences of the linkage drawn anew. */
function expectDifferences(
  drawing: Drawing,
  driver: Measure,
  measures: readonly Measure[],
  travel: number,
): void {
  const units: Point[] = [
    [1, 0],
    [0, 1],
  ];
  for (const name of Object.keys(drawing.points)) {
    const exact = ratesOf(
      drawing,
      driver,
      measures,
      units.map((unit) => ({ [name]: unit })),
      travel,
    );
    units.forEach((unit, axis) => {
      const near = STEPS.map((k) =>
        readingsOf(moved(drawing, name, [0.2 * k * unit[0], 0.2 * k * unit[1]]), driver, measures, travel),
      ) as number[][][];
      measures.forEach((_, i) => {
        [0, 1, 2].forEach((order) => {
          const values = near.map((one) => one[i][order]);
          const { slope, trust } = slopeOf(values, 0.2, 512 * EPS * (1000 + Math.abs(values[0])));
          expectWithin(exact[axis][i][order], slope, 10 * trust + 1e-8 * (1 + Math.abs(slope)));
        });
      });
    });
  }
}
