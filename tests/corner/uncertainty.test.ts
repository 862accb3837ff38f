/** Bands to first order, many draws, and what a millimetre costs. */

import * as fc from 'fast-check';
import {
  type DoubleWishboneInput,
  doubleWishbone,
  InputError,
  type LimitOptions,
  limits,
  type MonteCarloOptions,
  monteCarlo,
  type PlusMinus,
  sensitivities,
  sensitivityRanking,
  sweep,
  uncertaintyBands,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin, tolerance } from '../support/tolerance.ts';

const input: DoubleWishboneInput = deepFreeze({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});
const corner = doubleWishbone(input);

function errorOf(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  expect.fail('nothing was thrown');
}

describe('bands', () => {
  it('are sensitivities times half-widths, added as squares', () => {
    const options = { bump: 40, droop: 40, step: 20 };
    fc.assert(
      fc.property(wildCorners, fc.integer({ min: 0, max: 30 }), (given, width) => {
        const one = doubleWishbone(given);
        const { by, info } = sensitivities(one, options);
        const plusMinus = { lowerInnerY: width / 10, shockMountZ: 2 };
        const found = uncertaintyBands(one, plusMinus, options);
        expect(found.plusMinus).toEqual({
          ...Object.fromEntries(Object.keys(by).map((name) => [name, 0])),
          ...plusMinus,
        });
        for (const { name } of info) {
          found.columns[name].forEach((band, i) => {
            const parts = Object.entries(plusMinus).map(([coordinate, w]) => [by[coordinate][name][i], w]);
            if (parts.some(([rate]) => rate === null)) return expect(band).toBeNull();
            const wanted = Math.hypot(...parts.map(([rate, w]) => Number(rate) * Number(w)));
            expectWithin(band, wanted, tolerance({ times: 8, scale: wanted }));
          });
        }
      }),
      { numRuns: 20 },
    );
  });

  it('take what the corner itself says by default, and grow in proportion', () => {
    const uncertain = doubleWishbone({
      ...input,
      lowerArm: { inner: [{ value: 255, plusMinus: 1.5 }, 165], outer: input.lowerArm.outer },
    });
    const own = uncertaintyBands(uncertain);
    expect(own).toEqual(uncertaintyBands(corner, { lowerInnerY: 1.5 }));
    const twice = uncertaintyBands(corner, { lowerInnerY: 3 });
    own.columns.camber.forEach((band, i) => {
      expectWithin(twice.columns.camber[i], 2 * Number(band), tolerance({ times: 4, scale: 1 }));
    });
    expect(uncertaintyBands(uncertain, 0).columns.shockLength.every((band) => band === 0)).toBe(true);
  });

  it('take errors that hang together by their covariance', () => {
    const options = { bump: 40, droop: 40, step: 40 };
    const { by, info } = sensitivities(corner, options);
    const tenths = fc.integer({ min: -20, max: 20 }).map((n) => n / 10);
    const names = fc.shuffledSubarray(Object.keys(by), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(fc.array(tenths, { minLength: 9, maxLength: 9 }), names, (f, coordinates) => {
        // F F' + I/4 is a covariance whatever F.
        const row = (i: number) => f.slice(3 * i, 3 * i + 3);
        const matrix = coordinates.map((_, i) =>
          coordinates.map((_, j) => {
            const product = row(i).reduce((sum, x, k) => sum + x * row(j)[k], 0);
            return product + (i === j ? 0.25 : 0);
          }),
        );
        const found = uncertaintyBands(corner, deepFreeze({ coordinates, matrix }), options);
        coordinates.forEach((name, k) => {
          expectClose(found.plusMinus[name], 1.96 * Math.sqrt(matrix[k][k]), { times: 4, scale: 10 });
        });
        expect(Object.values(found.plusMinus).filter((width) => width !== 0)).toHaveLength(3);
        for (const { name } of info) {
          found.columns[name].forEach((band, i) => {
            const rates = coordinates.map((coordinate) => by[coordinate][name][i]);
            if (rates.some((rate) => rate === null)) return expect(band).toBeNull();
            const g = rates.map(Number);
            const parts = g.flatMap((x, a) => g.map((y, b) => x * matrix[a][b] * y));
            const variance = parts.reduce((sum, part) => sum + part, 0);
            const scale = Math.max(...parts.map(Math.abs));
            expectClose(Number(band) ** 2, 1.96 ** 2 * variance, { times: 256, scale });
          });
        }
      }),
      { numRuns: 20 },
    );
  });

  it('are nothing where all points are off alike: to the drawing moved as a whole nothing changes', () => {
    const coordinates = Object.keys(sensitivities(corner, { step: 80 }).by).filter((name) =>
      name.endsWith('Y'),
    );
    const matrix = coordinates.map(() => coordinates.map(() => 0.25));
    const columns = ['shockLength', 'installationRatio', 'camber'];
    const found = monteCarlo(corner, { coordinates, matrix }, { draws: 100, sweep: { step: 40, columns } });
    for (const [name, scale] of [
      ['shockLength', 1000],
      ['installationRatio', 1],
      ['camber', 90],
    ] as const) {
      // To first order, and as drawn anew with coordinates that are rounded where they have gone to.
      for (const half of [...found.firstOrder[name], ...found.columns[name]]) {
        expectClose(half, 0, { times: 1024, scale });
      }
    }
    expect(Object.values(found.firstOrder)).toHaveLength(3);
  });

  it('are the same of a covariance without connections as of its half-widths', () => {
    const plusMinus = { lowerInnerY: 1.5, shockMountZ: 0.8 };
    const coordinates = Object.keys(plusMinus);
    const matrix = Object.values(plusMinus).map((width, i) =>
      coordinates.map((_, j) => (i === j ? (width / 1.96) ** 2 : 0)),
    );
    const [one, other] = [
      uncertaintyBands(corner, { coordinates, matrix }),
      uncertaintyBands(corner, plusMinus),
    ];
    for (const { name } of one.info) {
      one.columns[name].forEach((band, i) => {
        const wanted = Number(other.columns[name][i]);
        expectClose(band, wanted, { times: 16, scale: wanted });
      });
    }
  });

  it('refuse a covariance that is none, each fault by its place', () => {
    const of = (matrix: unknown, coordinates: unknown = ['lowerInnerY', 'lowerInnerZ']) =>
      errorOf(() => uncertaintyBands(corner, { coordinates, matrix } as PlusMinus)).issues.map(
        ({ path, problem }) => `${path}: ${problem}`,
      );
    for (const coordinates of ['lowerInnerY', [1], null]) {
      expect(of([[1]], coordinates)).toEqual(['coordinates: not a list of coordinates']);
    }
    expect(of([[1]], ['lowerInerY'])).toEqual(['coordinates[0]: unknown coordinate']);
    const [up, right] = [
      [1, 0],
      [0, 1],
    ];
    expect(of([up, right], ['lowerInnerY', 'lowerInnerY'])).toEqual(['coordinates[1]: named twice']);
    for (const matrix of [
      undefined,
      1,
      [[1]],
      [[1], [1]],
      [up],
      [up, 1],
      [
        [...up, 0],
        [...right, 0],
      ],
      [up, [0, Number.NaN]],
    ]) {
      expect(of(matrix)).toEqual(['matrix: not a square matrix']);
    }
    expect(of([[-1, 0], right])).toEqual(['matrix[0][0]: a negative variance']);
    expect(() => uncertaintyBands(corner, { coordinates: ['lowerInnerY'], matrix: [[-1]] })).toThrow(
      'matrix[0][0]: a negative variance, got -1',
    );
    // One that is certain has none.
    expect(
      uncertaintyBands(corner, { coordinates: ['lowerInnerY'], matrix: [[0]] }).plusMinus.lowerInnerY,
    ).toBe(0);
    expect(
      of([
        [1, 0.5],
        [0.4, 1],
      ]),
    ).toEqual(['matrix[0][1]: not the same as matrix[1][0]']);
    // By a billionth of sqrt(4 * 9) two entries may differ, whatever their own size and sign.
    const between = (other: number) => [
      [4, -1],
      [other, 9],
    ];
    expect(of(between(-1 - 7e-9))).toEqual(['matrix[0][1]: not the same as matrix[1][0]']);
    uncertaintyBands(corner, { coordinates: ['lowerInnerY', 'lowerInnerZ'], matrix: between(-1 - 5e-9) });
    // Of any two |c_ij| <= sqrt(c_ii c_jj).
    expect(
      of([
        [1, 2],
        [2, 1],
      ]),
    ).toEqual(['matrix: not a covariance: a sum of coordinates would have a negative variance']);
  });

  it('refuse what is no half-width, and names that are no coordinates', () => {
    const message = (plusMinus: unknown) =>
      errorOf(() => uncertaintyBands(corner, plusMinus as PlusMinus)).message;
    expect(message(undefined)).toBe(
      [
        'invalid plusMinus',
        '  not given, nor in the corner (allowed: mm for all coordinates, or { lowerInnerY: mm, ... }); give it, or write coordinates of the corner as { value, plusMinus }',
      ].join('\n'),
    );
    expect(message(-1)).toContain('not a half-width, got -1 (allowed: mm, 0 or more, or {');
    for (const wrong of [Number.NaN, '1', null, [1]]) expect(message(wrong)).toContain('not a half-width');
    expect(message({ lowerInnerZ: -2 })).toContain(
      'lowerInnerZ: not a half-width, got -2 (allowed: mm, 0 or more)',
    );
    const { issues } = errorOf(() =>
      uncertaintyBands(corner, { lowerInerY: 1, lowerInnerZ: -2, contactPatchY: 1, shockMountY: 1 }),
    );
    expect(issues.map(({ path, problem, advice }) => [path, problem, advice])).toEqual([
      ['lowerInerY', 'unknown coordinate', 'did you mean lowerInnerY?'],
      ['lowerInnerZ', 'not a half-width', undefined],
      [
        'contactPatchY',
        'unknown coordinate',
        'the contact patch follows from the camber that was given: take it out',
      ],
    ]);
  });
});

describe('many draws', () => {
  const rows = { bump: 60, droop: 60, step: 30 };

  it('have the half-widths that the first order says, within the error of sampling', () => {
    const draws = 1500;
    // Half the distance of two quantiles of n normal numbers has the standard error 0.952 / sqrt(n) of itself.
    const share = (5 * 0.952) / Math.sqrt(draws);
    for (const wheel of [input.wheel, { centre: input.wheel.centre, contactPatch: [708, 0] as const }]) {
      const found = monteCarlo(doubleWishbone({ ...input, wheel }), 0.3, { draws, sweep: rows });
      expect(found.failedDraws).toBe(0);
      expect(found.drawsPerRow).toEqual(found.drawsPerRow.map(() => draws));
      let moved = 0;
      for (const { name } of found.info) {
        found.columns[name].forEach((half, i) => {
          const wanted = Number(found.firstOrder[name][i]);
          expectWithin(half, wanted, share * wanted + 1e-11);
          if (wanted > 0) moved++;
        });
      }
      expect(moved).toBeGreaterThan(100);
    }
  });

  it('are the same for the same seed, and others for another', () => {
    const options: MonteCarloOptions = { draws: 100, sweep: { ...rows, columns: ['installationRatio'] } };
    const first = monteCarlo(corner, 1, { ...options, seed: 3 });
    expect(monteCarlo(corner, 1, { ...options, seed: 3 })).toEqual(first);
    expect(monteCarlo(corner, 1, { ...options, seed: 4 }).columns).not.toEqual(first.columns);
    expect(monteCarlo(corner, 0, options).columns.installationRatio).toEqual([0, 0, 0, 0, 0]);
  });

  it('give each row to the draws that reach it, where the linkage comes to its end', () => {
    const free = sweep(corner, { droop: 400, bump: 0 }).end.droop.travel;
    const sweepOptions = { droop: -free + 0.2, bump: 0, step: -free - 0.1, columns: ['camber'] };
    const { drawsPerRow, draws, failedDraws } = monteCarlo(corner, 0.5, { sweep: sweepOptions });
    expect(failedDraws).toBe(0);
    // The first row stands a tenth of a mm before the dead point as drawn.
    expect(drawsPerRow[0]).toBeGreaterThan(0.3 * draws);
    expect(drawsPerRow[0]).toBeLessThan(0.9 * draws);
    expect(drawsPerRow[1]).toBe(draws);
  });

  it('count a draw that is no linkage, and leave it out', () => {
    const found = monteCarlo(corner, { shockMountY: 0, lowerInnerY: 1e13 }, { draws: 100, sweep: rows });
    // Longer than 1e12 is not computed with: |error| > 1e12 in some 84 of 100 draws.
    expect(found.failedDraws).toBeGreaterThan(60);
    expect(found.failedDraws).toBeLessThan(100);
    expect(found.drawsPerRow[2]).toBe(100 - found.failedDraws);
    expect(found.columns.shockLength[2]).toBeNull();
  });

  it('refuse options that are none', () => {
    const pathsOf = (options: unknown) =>
      errorOf(() => monteCarlo(corner, 1, options as MonteCarloOptions)).issues.map(({ path }) => path);
    expect(pathsOf({ draws: 99, seed: 0.5, draw: 3 })).toEqual(['draw', 'draws', 'seed']);
    expect(pathsOf({ draws: 10_001 })).toEqual(['draws']);
    expect(pathsOf(null)).toEqual(['']);
    expect(pathsOf({ sweep: { bump: -1 } })).toEqual(['bump']);
    expect(pathsOf({ limits: { damper: { extendedLength: 300, compressedLength: 385 } } })).toEqual([
      'damper.compressedLength',
    ]);
  });
});

describe('the probability of a cause', () => {
  const plusMinus = 1;
  const compressedLength = 310;
  const drawn = limits(corner, { damper: { extendedLength: 385, compressedLength } });
  const travel = Number(drawn.bump?.travel);
  const at = sweep(corner, { bump: travel, droop: 0 });
  const { shockLength } = uncertaintyBands(corner, plusMinus, { bump: travel, droop: 0 }).columns;
  // At one length the travel changes by that of the length at one travel over the ratio.
  const halfWidth = Number(shockLength.at(-1)) / Number(at.columns.installationRatio.at(-1));
  const draws = 300;
  const run = (options: LimitOptions) => {
    const found = monteCarlo(corner, plusMinus, {
      draws,
      limits: options,
      sweep: { bump: 0, droop: 0, columns: [] },
    });
    if (found.limits === undefined) expect.fail('no limits');
    return found.limits;
  };

  it('is that of the normal distribution, for a damper that closes and a chassis that comes down', () => {
    // Normal distribution function at half a standard deviation (0.6915 read in tables; one digit more from memory).
    const wanted = 0.69146;
    const clearance = travel + (0.5 * halfWidth) / 1.96;
    const { bump } = run({
      damper: { extendedLength: 385, compressedLength },
      chassisLowPoints: [[0, clearance]],
    });
    expect(bump.causes.map(({ cause, part }) => [cause, part])).toEqual([
      ['damperCompressed', ''],
      ['groundContact', 'chassisLowPoints[0]'],
    ]);
    const [first, second] = bump.causes.map(({ probability }) => probability);
    expectWithin(first, wanted, 4 * Math.sqrt((wanted * (1 - wanted)) / draws));
    expectWithin(first + second, 1, tolerance({ times: 2, scale: 1 }));
    // All travel to the ground is the same.
    expectWithin(bump.travel?.p97_5 ?? null, clearance, 1e-9);
  });

  it('goes with the travel to be counted on', () => {
    const { bump } = run({ damper: { extendedLength: 385, compressedLength } });
    expect(bump.causes).toEqual([{ cause: 'damperCompressed', part: '', probability: 1 }]);
    const { p2_5, median, p97_5 } = bump.travel ?? { p2_5: 0, median: 0, p97_5: 0 };
    // Standard errors of a median and of half the distance of two quantiles, in half-widths.
    expectWithin(median, travel, (5 * 0.64 * halfWidth) / Math.sqrt(draws));
    expectWithin((p97_5 - p2_5) / 2, halfWidth, (5 * 0.952 * halfWidth) / Math.sqrt(draws));
  });
});

describe('what a millimetre costs', () => {
  it('is told of every coordinate, the dearest first', () => {
    const rows = sensitivityRanking(corner);
    const { by, travel } = sensitivities(corner);
    const ride = travel.indexOf(0);
    expect(rows.map(({ coordinate }) => coordinate).sort()).toEqual(Object.keys(by).sort());
    const sizes = rows.map(({ atDesign }) => Math.abs(Number(atDesign)));
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    for (const { coordinate, atDesign: atRide, largest, atTravel } of rows) {
      const rates = by[coordinate].installationRatio.map(Number);
      expect(atRide).toBe(rates[ride]);
      expect(largest).toBe(rates[travel.indexOf(Number(atTravel))]);
      expect(Math.abs(Number(largest))).toBe(Math.max(...rates.map(Math.abs)));
    }
    expect(JSON.parse(JSON.stringify(rows))).toEqual(rows);
  });

  it('is asked of any column, and where that does not change at ride goes by the largest', () => {
    const rows = sensitivityRanking(corner, { column: 'halfTrackChange', bump: 50, droop: 50 });
    expect(rows.every(({ atDesign }) => atDesign === 0)).toBe(true);
    const sizes = rows.map(({ largest }) => Math.abs(Number(largest)));
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    expect(sizes[0]).toBeGreaterThan(0);
    expect(rows[0].atTravel).toBeOneOf([-50, 50]);
  });

  it('has null where the column has no value at all', () => {
    const level = doubleWishbone({
      ...input,
      lowerArm: { inner: [240, 150], outer: [640, 150] },
      upperArm: { inner: [200, 375], outer: [600, 375] },
    });
    for (const { atDesign, largest, atTravel } of sensitivityRanking(level, { column: 'instantCentreY' })) {
      expect([atDesign, largest, atTravel]).toEqual([null, null, null]);
    }
  });

  it('refuses columns and options that are none', () => {
    const errorsOf = (options: unknown) =>
      errorOf(() => sensitivityRanking(corner, options as object)).issues.map(({ path }) => path);
    expect(errorsOf({ column: 'chamber' })).toEqual(['column']);
    expect(errorsOf({ columns: ['camber'] })).toEqual(['columns']);
    expect(errorsOf({ bump: -1 })).toEqual(['bump']);
    expect(errorsOf(3)).toEqual(['']);
  });
});
