/** Laws of the whole sheet over random documents with corners of every kind. */
import * as fc from 'fast-check';
import { type CarDocument, InputError, monteCarloSizing, readCar, type Sizing, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { worded } from '../../src/sentences/worded.ts';
import { exampleText, type Json } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { carDocuments, GRAVITY, sized } from './cars.ts';

const RUNS = { numRuns: 20 };

/** Places of a result at which a number is not finite; functions are called where they take nothing. */
function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} ${value}`];
  if (typeof value === 'string') return /NaN|undefined|Infinity/.test(value) ? [`${path} ${value}`] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}

/** All figures by axle and name. */
function figuresOf({ axles, figures }: Sizing) {
  return [
    ...figures,
    ...axles.flatMap((axle) => axle.figures.map((one) => ({ ...one, name: `${axle.axle}.${one.name}` }))),
  ];
}

/** The same figures but for rounding, as lengths are that are rounded outward to whole mm. */
function expectAlike(one: Sizing, other: Sizing, share: number): void {
  const others = new Map(figuresOf(other).map((figure) => [figure.name, figure.value]));
  for (const { name, value } of figuresOf(one)) {
    const there = others.get(name) ?? null;
    if (value === null || there === null) expect([name, there]).toEqual([name, value]);
    else expectWithin(there, value, share * (1 + Math.abs(value)));
  }
}

describe('sized random cars', () => {
  it('hold no number that is none, in curves and words neither', () => {
    let sizes = 0;
    fc.assert(
      fc.property(carDocuments, (document) => {
        const sizing = sizeCoilovers(readCar(document));
        expect(notFinite({ ...sizing, axles: sizing.axles.map(({ input: _, ...axle }) => axle) })).toEqual(
          [],
        );
        for (const { curves, axle } of sizing.axles)
          expect(notFinite(curves?.rows(9), `${axle}.curves`)).toEqual([]);
        sizes += sizing.axles.filter(({ spring }) => spring !== null).length;
      }),
      RUNS,
    );
    expect(sizes).toBeGreaterThan(RUNS.numRuns / 4);
  });

  it('have figures within their intervals, with shares of doubt that sum to 1 at most', () => {
    fc.assert(
      fc.property(carDocuments, (document) => {
        for (const { name, value, lower, upper, contributions } of figuresOf(
          sizeCoilovers(readCar(document)),
        )) {
          if (value === null) expect([name, lower, upper]).toEqual([name, null, null]);
          if (value === null || lower === null || upper === null) continue;
          expect(lower <= value && value <= upper, name).toBe(true);
          const sum = contributions.reduce((all, { fraction }) => all + fraction, 0);
          expect(sum <= 1 + 1e-9 && contributions.every(({ fraction }) => fraction >= 0), name).toBe(true);
          if (lower === upper) expect(contributions).toEqual([]);
        }
      }),
      { numRuns: 12 },
    );
  });

  it('are the same, bit by bit, from the same document, and from its text', () => {
    fc.assert(
      fc.property(carDocuments, (document) => {
        const of = (read: CarDocument) => JSON.stringify(sizeCoilovers(read));
        const once = of(readCar(document));
        expect(of(readCar(document))).toBe(once);
        expect(of(readCar(JSON.stringify(document, null, 2)))).toBe(once);
      }),
      { numRuns: 6 },
    );
  });

  it('are the same drawn as right-hand corners', () => {
    fc.assert(
      fc.property(carDocuments, (document) => {
        const mirrored = { ...document, corners: mirror(document.corners) };
        expectAlike(sizeCoilovers(readCar(document)), sizeCoilovers(readCar(mirrored)), 1e-7);
      }),
      { numRuns: 8 },
    );
  });

  it('are the same with the axles told apart: the front alone has the figures that need no rear', () => {
    const whole = sized();
    const alone = sized((document) => {
      delete document.corners.rear;
    });
    for (const name of [
      'designLength',
      'springRate',
      'wheelRate',
      'frequency',
      'preload',
      'staticDampingRatio',
    ] as const) {
      expect(alone.axles[0].figure(name).value, name).toBe(whole.axles[0].figure(name).value);
    }
    expect(alone.figures.find(({ name }) => name === 'frequencyRatio')?.value).toBeNull();
  });
});

/** Conflicts that say that a corner does not stand. */
const DOES_NOT_STAND = ['wheelRateNotPositive', 'noRest', 'springSolidAtRide'];

describe('random cars', () => {
  it('stand on a positive wheel rate under their weight, or it is said that they do not', () => {
    let [stands, falls, collapses] = [0, 0, 0];
    fc.assert(
      fc.property(carDocuments, (document) => {
        const sizing = sizeCoilovers(readCar(document));
        for (const { axle, figure, curves, travelRequirement } of sizing.axles) {
          const of = (codes: readonly string[]) =>
            sizing.conflicts.some(
              ({ code = '', path }) => path.startsWith(`corners.${axle}.`) && codes.includes(code),
            );
          const [rest, mass] = [figure('staticTravel').value, figure('sprungMass').value];
          if (curves === null || mass === null) continue;
          if (of(DOES_NOT_STAND)) {
            falls++;
            expect([rest, figure('wheelRate').value, figure('rollStiffness').value]).toEqual([
              null,
              null,
              null,
            ]);
            expect([travelRequirement.bump, travelRequirement.droop]).toEqual([null, null]);
            continue;
          }
          stands++;
          expect(figure('wheelRate').value).toBeGreaterThan(0);
          const load =
            (figure('staticAxialForce').value ?? Number.NaN) * (curves.at(rest ?? 0).installationRatio ?? 0);
          // Within the travel that the curves cover, the ratio is that of where it rests.
          const ends = curves.end;
          if (rest !== null && rest >= ends.droop.travel && rest <= ends.bump.travel) {
            expectWithin(load / (mass * GRAVITY), 1, 1e-9);
          }
          if (of(['wheelRateReachesZero'])) collapses++;
          else {
            // From rest to the bump limit the rate stays above 0; at the limit itself the coils may be shut.
            const end = curves.end.bump.travel - 1e-6;
            const rates = curves
              .rows(60)
              .filter(({ travel }) => travel !== null && travel > (rest ?? 0) && travel < end)
              .map((row) => row.wheelRate ?? Number.NaN);
            expect(Math.min(1, ...rates)).toBeGreaterThan(0);
          }
        }
      }),
      { numRuns: 60 },
    );
    expect(stands).toBeGreaterThan(15);
    expect(falls).toBeGreaterThan(2);
    expect(collapses).toBeGreaterThan(0);
  });

  it('have findings with code, severity, path and values, which no units of the words change', () => {
    let seen = 0;
    fc.assert(
      fc.property(carDocuments, (document) => {
        const { conflicts, checks } = sizeCoilovers(readCar(document));
        for (const one of [...conflicts, ...checks]) {
          seen++;
          expect(one.path).toMatch(/^(corners\.(front|rear)|masses|downforce)\b/);
          const before = JSON.stringify(one);
          const [metric, imperial] = (['metric', 'imperial'] as const).map((units) => worded(one, units));
          expect(JSON.stringify(one)).toBe(before);
          expect(metric.values).toBe(imperial.values);
          expect(notFinite([metric, imperial])).toEqual([]);
          expect(metric.problem.length).toBeGreaterThan(10);
        }
      }),
      { numRuns: 40 },
    );
    expect(seen).toBeGreaterThan(5);
  });
});

/** Points with y of the other sign. */
function mirror(value: Json): Json {
  if (Array.isArray(value)) {
    return value.length === 2 && value.every((one) => typeof one === 'number')
      ? [-value[0], value[1]]
      : value;
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [
      key,
      key === 'sizing' || key === 'limits' ? inner : mirror(inner),
    ]),
  );
}

describe('units', () => {
  // Factors by the international agreement of 1959 and the 3rd CGPM, 1901 (NIST SP 811, from memory).
  const LBF = 4.4482216152605;
  const FACTORS: Record<string, number> = {
    force: LBF,
    rate: LBF / 25.4,
    tyreRate: LBF / 25.4,
    rateStep: LBF / 25.4,
    antiRollBarStiffness: LBF * 0.3048,
  };
  it('in inches and pounds, or in mm and kg, a car is the same', () => {
    const imperial = sized((document) => {
      const inches = (value: Json, key = ''): Json => {
        if (typeof value === 'number')
          return (
            value /
            (key === 'mass' || key === 'total' || key === 'unsprungMass'
              ? 0.45359237
              : (FACTORS[key] ?? 25.4))
          );
        if (Array.isArray(value))
          return key === 'bumpStopTable'
            ? value.map(([x, F]) => [x / 25.4, F / LBF])
            : value.map((one) => inches(one, key));
        if (typeof value !== 'object' || value === null) return value;
        return Object.fromEntries(
          Object.entries(value).map(([name, inner]) => [
            name,
            ['camber', 'frontFraction', 'damping', 'target', 'on'].includes(name)
              ? inner
              : inches(inner, name),
          ]),
        );
      };
      document.units = 'imperial';
      document.corners = inches(document.corners);
      document.masses = inches(document.masses);
      for (const case_ of ['roadBump', 'roadDip', 'margin']) document.travelCases[case_] /= 25.4;
      document.downforce = {
        speed: 160 / 1.609344,
        force: 600 / LBF,
        frontFraction: 0.4,
        speedsToCheck: [80, 200].map((v) => v / 1.609344),
      };
      for (const axle of ['front', 'rear']) document.corners[axle].sizing.rateStep = (5 * 25.4) / LBF;
    });
    expectAlike(sized(), imperial, 1e-9);
  });
});

describe('how sure a figure is', () => {
  it('agrees with many draws within a few percent where doubts are small', () => {
    const document = JSON.parse(exampleText('car.json'));
    const small = (value: Json): Json => {
      if (typeof value !== 'object' || value === null) return value;
      if (Array.isArray(value)) return value.map(small);
      if (typeof value.plusMinus === 'number') return { ...value, plusMinus: value.plusMinus / 5 };
      return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, small(inner)]));
    };
    const read = readCar(small(document));
    const drawn = monteCarloSizing(read, { draws: 1000, seed: 7 }).figures;
    let seen = 0;
    const sizing = sizeCoilovers(read);
    for (const { name, value, lower, upper } of figuresOf(sizing)) {
      const many = drawn[name.includes('.') ? name : `car.${name}`];
      if (value === null || lower === null || upper === null || many === null || upper === lower) continue;
      seen++;
      // 1000 draws know a 2.5th percentile to about 5 % of the half-width, one standard error.
      expectWithin((many.p97_5 - many.p2_5) / (upper - lower), 1, 0.13);
      expectWithin((many.median - value) / (upper - lower), 0, 0.06);
    }
    expect(seen).toBeGreaterThan(30);
  });

  it('is the closed form for a frequency on a spring: half the share of the mass', () => {
    const axle = sized((document) => {
      document.masses.estimate.total = { value: 700, plusMinus: 7 };
      document.corners.front.sizing.unsprungMass = 0;
      document.corners.rear.sizing.unsprungMass = 0;
    }).axles[0];
    const { value, lower, upper } = axle.figure('sprungMass');
    expectWithin(((upper ?? 0) - (lower ?? 0)) / 2 / (value ?? 1), 0.01, 1e-9);
    const { contributions } = axle.figure('frequency');
    expect(contributions).toEqual([{ input: 'masses.estimate.total', fraction: 1 }]);
  });

  it('many draws refuse a number of draws or a seed that is none', () => {
    const read = readCar(exampleText('car.json'));
    expect(() => monteCarloSizing(read, { draws: 3 })).toThrow(InputError);
    expect(() => monteCarloSizing(read, { seed: 0.5 })).toThrow(InputError);
  });
});
