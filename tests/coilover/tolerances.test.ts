/** Required travel as the largest of its cases, tolerances of the order in the margins, and what wider doubts do. */
import * as fc from 'fast-check';
import { type AxleFigureName, monteCarloSizing, readCar, type Sizing, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { exampleText, type Json } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { car, carDocuments, front, valueIn } from './cars.ts';

const copy = (document: Json): Json => JSON.parse(JSON.stringify(document));
const AXLES = ['front', 'rear'] as const;

/** A document whose dampers follow from the travel, with all that asks for travel written down. */
function derived(document: Json): Json {
  const whole = copy(document);
  whole.travelCases = { lateralAcceleration: 0.8, deceleration: 0.8, roadBump: 25, roadDip: 25, margin: 4 };
  for (const axle of AXLES) {
    const corner = whole.corners[axle];
    if (corner === undefined) continue;
    corner.limits = { ...corner.limits, required: { bump: 45, droop: 45 } };
    delete corner.limits.damper;
  }
  return whole;
}

/** Extended and compressed lengths of every damper. */
function lengthsOf(document: Json): (readonly [extended: number, compressed: number])[] {
  return sizeCoilovers(readCar(document)).axles.map(({ damper }) =>
    damper === null
      ? [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
      : [damper.extendedLength, damper.compressedLength],
  );
}

describe('more required travel', () => {
  it('never gives a shorter unit, nor a longer compressed one, whatever asks for it', () => {
    const more = fc.tuple(
      fc.constantFrom(
        'lateralAcceleration',
        'deceleration',
        'roadBump',
        'roadDip',
        'margin',
        'bump',
        'droop',
      ),
      fc.double({ min: 0.02, max: 1, noNaN: true }),
    );
    let compared = 0;
    fc.assert(
      fc.property(carDocuments, more, (document, [what, share]) => {
        const less = derived(document);
        const asks = copy(less);
        if (what === 'bump' || what === 'droop') {
          for (const axle of AXLES) {
            if (asks.corners[axle] !== undefined) asks.corners[axle].limits.required[what] *= 1 + share;
          }
        } else asks.travelCases[what] *= 1 + share;
        const before = lengthsOf(less);
        for (const [k, [extended, compressed]] of lengthsOf(asks).entries()) {
          expect(extended).toBeGreaterThanOrEqual(before[k][0]);
          expect(compressed).toBeLessThanOrEqual(before[k][1]);
          compared++;
        }
      }),
      { numRuns: 15 },
    );
    expect(compared).toBeGreaterThan(15);
  });

  it('takes the largest upper end of all cases, not that of the case that leads', () => {
    // The case that is asked for has no doubt and leads; the one behind it ends higher.
    const of = (droop: number) => {
      const document = JSON.parse(exampleText('car.json'));
      document.corners.rear.limits.required.droop = droop;
      return sizeCoilovers(readCar(document)).axles[1];
    };
    const [less, more] = [of(2.25), of(2.6)];
    expect(more.damper?.extendedLength).toBeGreaterThanOrEqual(less.damper?.extendedLength ?? Number.NaN);
    for (const axle of [less, more]) {
      const { value, lower, upper } = axle.figure('droopTravelRequired');
      expect(lower).toBeLessThanOrEqual(value ?? Number.NaN);
      expect(upper).toBeGreaterThan(value ?? Number.NaN);
      expect(axle.figure('droopTravelMargin').lower).toBeGreaterThanOrEqual(0);
      expect(axle.figure('bumpTravelMargin').lower).toBeGreaterThanOrEqual(0);
    }
  });
});

describe('tolerances of the order', () => {
  const [t, q] = [0.8, 0.03];
  const made = (order: object) =>
    front((corner) => {
      corner.sizing.springs = [{ name: 'S', rate: 40, freeLength: 260, solidLength: 90 }];
      corner.sizing.order = order;
    });
  const half = (axle: ReturnType<typeof front>, name: AxleFigureName) => {
    const { lower, upper } = axle.figure(name);
    return ((upper ?? Number.NaN) - (lower ?? Number.NaN)) / 2;
  };
  const at = (axle: ReturnType<typeof front>, travel: number, name: string) =>
    axle.curves?.at(travel)[name] ?? Number.NaN;

  it('of lengths move an end by t / R, and the ride height by t k_c R / k_w', () => {
    const axle = made({ lengthTolerance: t });
    const v = (name: string) => valueIn(axle, name);
    const ratio = (travel: number) => at(axle, travel, 'installationRatio');
    expectWithin(half(axle, 'extendedLength'), t, 1e-9);
    expectWithin(half(axle, 'droopTravelAvailable'), t / ratio(-v('droopTravelAvailable')), 2e-3 * t);
    expectWithin(half(axle, 'bumpTravelAvailable'), t / ratio(v('bumpTravelAvailable')), 2e-3 * t);
    const rest = (t * v('springRate') * v('installationRatio')) / v('wheelRate');
    expectWithin(half(axle, 'staticTravel'), rest, 2e-3 * rest);
    const { contributions } = axle.figure('staticTravel');
    expect(contributions).toHaveLength(1);
    expect(contributions[0].input).toBe('corners.front.sizing.order.lengthTolerance');
    expectWithin(contributions[0].fraction, 1, 1e-9);
    for (const name of ['bumpTravelMargin', 'droopTravelMargin', 'springTravelMargin'] as const) {
      expect(half(axle, name), name).toBeGreaterThan(0);
    }
  });

  it('of rates move the ride height by q F_c R / k_w, and the frequency by half their share of the wheel rate', () => {
    const axle = made({ rateTolerance: q });
    const v = (name: string) => valueIn(axle, name);
    const rest = (q * v('staticSpringForce') * v('installationRatio')) / v('wheelRate');
    expectWithin(half(axle, 'staticTravel'), rest, 2e-3 * rest);
    expectWithin(half(axle, 'springRate'), q * 40, 1e-9);
    // k_w = k R^2 + (W / R) R' where the car comes to stand, the load W kept.
    const ratio = (z: number) => at(axle, z, 'installationRatio');
    const h = 0.1;
    const slope = (z: number) => (ratio(z + h) - ratio(z - h)) / (2 * h);
    const load = v('staticAxialForce') * v('installationRatio');
    const rate = (k: number, z: number) => k * ratio(z) ** 2 + (load / ratio(z)) * slope(z);
    expectWithin(rate(40, 0), v('wheelRate'), 1e-4 * v('wheelRate'));
    const frequencies = [q, -q].map((one) => Math.sqrt(rate(40 * (1 + one), -Math.sign(one) * rest)));
    const change = ((frequencies[0] - frequencies[1]) / 2 / Math.sqrt(rate(40, 0))) * v('frequency');
    expectWithin(half(axle, 'frequency'), change, 0.01 * change);
    // But for the pose it is q / 2 times the coil's share of the wheel rate.
    const share = (40 * ratio(0) ** 2) / v('wheelRate');
    const still = Math.sqrt(rate(40 * (1 + q), 0) / rate(40, 0)) - 1;
    expectWithin(still, (q / 2) * share, 0.02 * q);
    expect(axle.figure('frequency').contributions[0].input).toBe('corners.front.sizing.order.rateTolerance');
  });

  it('leave a car without them as it is', () => {
    const [without, with_] = [made({}), made({ lengthTolerance: t, rateTolerance: q })];
    for (const { name, value } of without.figures) expect(with_.figure(name).value, name).toBe(value);
  });

  it('are counted where a damper follows from the travel', () => {
    const of = (lengthTolerance: number) =>
      front((corner) => {
        delete corner.limits.damper;
        corner.sizing.order = { lengthTolerance };
      });
    const [fine, coarse] = [of(0.01), of(3)];
    expect(coarse.damper?.extendedLength).toBeGreaterThan(fine.damper?.extendedLength ?? Number.NaN);
    expect(coarse.damper?.compressedLength).toBeLessThan(fine.damper?.compressedLength ?? Number.NaN);
    for (const name of ['bumpTravelMargin', 'droopTravelMargin'] as const) {
      expect(coarse.figure(name).lower).toBeGreaterThanOrEqual(0);
    }
  });
});

/** Every half-width of a document so many times as wide. */
function widened(value: Json, times: number): Json {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((one) => widened(one, times));
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [
      key,
      key === 'plusMinus' || key === 'lengthTolerance' || key === 'rateTolerance'
        ? (inner as number) * times
        : widened(inner, times),
    ]),
  );
}

function figuresOf({ axles, figures }: Sizing) {
  return [
    ...figures.map((one) => ({ ...one, name: `car.${one.name}` })),
    ...axles.flatMap((axle) => axle.figures.map((one) => ({ ...one, name: `${axle.axle}.${one.name}` }))),
  ];
}

/** A quiet car with doubts of every kind, dampers given. */
const doubtful = fc
  .tuple(...Array.from({ length: 8 }, () => fc.double({ min: 0.1, max: 1, noNaN: true })))
  .map((share) =>
    car((document) => {
      document.masses.estimate.total = { value: 700, plusMinus: 30 * share[0] };
      document.masses.estimate.frontFraction = { value: 0.48, plusMinus: 0.02 * share[1] };
      document.masses.sprungCentreOfGravityHeight = { value: 450, plusMinus: 20 * share[2] };
      document.travelCases.roadBump = { value: 15, plusMinus: 3 * share[3] };
      document.downforce.force = { value: 600, plusMinus: 100 * share[4] };
      for (const axle of AXLES) {
        const { sizing } = document.corners[axle];
        sizing.unsprungMass = { value: 30, plusMinus: 3 * share[5] };
        sizing.springs = [{ name: 'S', rate: 40, freeLength: 260, solidLength: 90 }];
        sizing.order = { lengthTolerance: 1.5 * share[6], rateTolerance: 0.05 * share[7] };
      }
    }),
  );

/** Figures of travel, and what is left of it. */
const TRAVELS = /Travel(Available|Required|Margin)$/;

/** A random car whose orders have tolerances, and whose dampers are those that it would get. */
function tolerated(document: Json): Json {
  const whole = copy(document);
  for (const axle of AXLES) {
    const corner = whole.corners[axle];
    if (corner !== undefined) corner.sizing.order = { lengthTolerance: 0.8, rateTolerance: 0.03 };
  }
  for (const { axle, damper } of sizeCoilovers(readCar(whole)).axles) {
    if (damper !== null)
      whole.corners[axle].limits.damper = {
        extendedLength: damper.extendedLength,
        compressedLength: damper.compressedLength,
      };
  }
  return whole;
}

describe('wider doubts', () => {
  /** What a figure that turns back within the wider doubt may take from its interval, as a share of it. */
  const CURVED = 0.01;

  /** Travel over which corners are laid, mm: a case that asks for more is cut there, and with it its interval. */
  const LAID = 220;

  it('never narrow an interval', () => {
    let seen = 0;
    fc.assert(
      fc.property(doubtful, fc.double({ min: 1.1, max: 3, noNaN: true }), (document, times) => {
        const wide = new Map(
          figuresOf(sizeCoilovers(readCar(widened(document, times)))).map((one) => [one.name, one]),
        );
        for (const { name, lower, upper } of figuresOf(sizeCoilovers(readCar(document)))) {
          const there = wide.get(name);
          if (lower === null || upper === null || there?.lower == null || there.upper === null) continue;
          seen += upper > lower ? 1 : 0;
          const curved = CURVED * (upper - lower) + 1e-9 * (1 + Math.abs(lower) + Math.abs(upper));
          expect(there.lower, name).toBeLessThanOrEqual(lower + curved);
          expect(there.upper, name).toBeGreaterThanOrEqual(upper - curved);
        }
      }),
      { numRuns: 6 },
    );
    expect(seen).toBeGreaterThan(300);
  });

  it('never narrow a travel or a margin of random cars', () => {
    let seen = 0;
    fc.assert(
      fc.property(carDocuments, fc.double({ min: 1.1, max: 3, noNaN: true }), (document, times) => {
        const unsure = tolerated(document);
        const wide = new Map(
          figuresOf(sizeCoilovers(readCar(widened(unsure, times)))).map((one) => [one.name, one]),
        );
        const sized = sizeCoilovers(readCar(unsure));
        const beyond = sized.axles.filter(({ figure }) =>
          (['bumpTravelRequired', 'droopTravelRequired'] as const).some(
            (name) => (figure(name).value ?? 0) > LAID,
          ),
        );
        for (const { name, lower, upper } of figuresOf(sized)) {
          if (!TRAVELS.test(name) || beyond.some(({ axle }) => name.startsWith(axle))) continue;
          const there = wide.get(name);
          if (lower === null || upper === null || there?.lower == null || there.upper === null) continue;
          seen += upper > lower ? 1 : 0;
          const curved = CURVED * (upper - lower) + 1e-9 * (1 + Math.abs(lower) + Math.abs(upper));
          expect(there.lower, name).toBeLessThanOrEqual(lower + curved);
          expect(there.upper, name).toBeGreaterThanOrEqual(upper - curved);
        }
      }),
      { numRuns: 12, endOnFailure: true },
    );
    expect(seen).toBeGreaterThan(30);
  });
});

describe('verdicts', () => {
  // Of n independent equal cases the largest ends higher than each by 14 % (2), 22 % (3), 31 % (5) of a half-width: quantiles of the largest
  // of n normal values, F^n = 0.975.
  const CASES = 0.31;
  /** 1000 draws know a 2.5th percentile to about 5 % of the half-width, one standard error; three of them. */
  const DRAWN = 0.15;

  it('agree with draws at their 95 % ends', () => {
    let seen = 0;
    fc.assert(
      fc.property(doubtful, fc.integer({ min: 1, max: 1000 }), (document, seed) => {
        const read = readCar(document);
        const drawn = monteCarloSizing(read, { draws: 1000, seed }).figures;
        for (const { name, lower, upper, value } of figuresOf(sizeCoilovers(read))) {
          if (!/Travel(Margin|Required)$/.test(name)) continue;
          const many = drawn[name];
          if (lower === null || upper === null || value === null || many === null || !(upper > lower))
            continue;
          seen++;
          const width = (upper - lower) / 2;
          expectWithin(many.p2_5, lower, (CASES + DRAWN) * width);
          expectWithin(many.p97_5, upper, (CASES + DRAWN) * width);
        }
      }),
      { numRuns: 2 },
    );
    expect(seen).toBeGreaterThan(16);
  });

  it('of random cars say enough where draws do, and short where draws do', () => {
    let seen = 0;
    fc.assert(
      fc.property(carDocuments, fc.integer({ min: 1, max: 1000 }), (document, seed) => {
        const read = readCar(tolerated(document));
        const drawn = monteCarloSizing(read, { draws: 400, seed }).figures;
        for (const { name, lower, value } of figuresOf(sizeCoilovers(read))) {
          const many = drawn[name];
          if (!/TravelMargin$/.test(name) || lower === null || value === null || !many) continue;
          // Too near to call: the interval ends at 0 but for what cases and draws leave open.
          const near = (CASES + 2 * DRAWN) * (value - lower) + 0.1;
          if (Math.abs(lower) < near) continue;
          seen++;
          expect(many.p2_5 < 0, name).toBe(lower < 0);
        }
      }),
      { numRuns: 12 },
    );
    expect(seen).toBeGreaterThan(20);
  });

  it('of required travel are above each case by what the largest of independent ones is', () => {
    for (const [n, d] of [
      [2, 0.144],
      [3, 0.222],
      [5, 0.31],
    ]) {
      const z = 1.959964 * (1 + d);
      expectWithin(normal(z) ** n, 0.975, 1e-3);
    }
  });
});

/** The normal integral, by Simpson's rule from 0. */
function normal(z: number): number {
  const steps = 400;
  let sum = 0;
  for (let k = 0; k <= steps; k++) {
    const x = (z * k) / steps;
    sum += (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2) * Math.exp((-x * x) / 2);
  }
  return 0.5 + (sum * z) / steps / 3 / Math.sqrt(2 * Math.PI);
}
