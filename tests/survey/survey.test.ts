/** Surveys of a corner that is known: what comes back, and what is said when readings are wrong or missing. */

import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import {
  InputError,
  type Survey,
  type SurveyInput,
  sentence,
  survey,
  surveyedCorner,
  uncertaintyBands,
} from 'jounce';
import { beforeAll, describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';
import { coverage, expectedCoverage, surveyWithErrors } from './coverage.ts';
import { errors, HARDPOINTS, planeSurvey, surveyWith } from './synthetic.ts';

const exact = () => 0;
const wordsOf = ({ diagnostics }: Survey) => diagnostics.map((one) => sentence(one)).join('\n');

/** The example, one reading of which is wrong. */
const exampleSurvey = (): SurveyInput =>
  JSON.parse(readFileSync(new URL('../../docs/examples/survey.json', import.meta.url), 'utf8'));

/** Two known points and one that is sought by distances from them. */
const triangle = (more: Partial<SurveyInput> = {}): SurveyInput => ({
  points: { A: { known: [0, 0] }, B: { known: [400, 0] }, P: { estimate: [200, 50] } },
  distances: [
    { between: ['A', 'P'], value: 300 },
    { between: ['P', 'B'], value: 250 },
  ],
  ...more,
});
/** Two circles: y = (a^2 - b^2 + c^2) / 2c. */
const TOP_Y = (300 ** 2 - 250 ** 2 + 400 ** 2) / 800;
const TOP_Z = Math.sqrt(300 ** 2 - TOP_Y ** 2);

describe('a survey without errors', () => {
  it('recovers the corner, its arms by the axes of their pivots', () => {
    const found = survey(deepFreeze(surveyWith(exact)));
    expect(found.status).toBe('converged');
    for (const [name, [y, z]] of Object.entries(HARDPOINTS)) {
      const { at, status, plusMinus } = found.points[name];
      expect(status).toBe('determined');
      expectWithin(at[0], y, 1e-6);
      expectWithin(at[1], z, 1e-6);
      for (const width of plusMinus) expect(Number(width)).toBeGreaterThan(0.5);
    }
    expect(found.degreesOfFreedom).toBe(33 - 20);
    expect(Number(found.chiSquare)).toBeLessThan(1e-12);
    expect([found.suspects, found.undetermined, found.mirrorSolutions]).toEqual([[], [], []]);
    expect(Object.isFrozen(found.points.lowerInner.at)).toBe(true);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
  });

  it('takes a diagonal for what it is', () => {
    const arm = (x: number): SurveyInput => ({
      points: { inner: { known: [250, 160], x }, outer: { estimate: [600, 160] } },
      distances: [{ between: ['inner', 'outer'], value: Math.hypot(385, 60) }],
      heights: [{ of: 'outer', above: 'inner', value: 0 }],
    });
    expectWithin(survey(arm(60)).points.outer.at[0], 250 + 385, 1e-6);
    // Taken as if in one plane it comes out 4.65 mm too long.
    expectWithin(survey(arm(0)).points.outer.at[0], 250 + 385 + 4.65, 0.005);
  });

  it('is the same from a text in inches', () => {
    const metric = surveyWith(errors(5));
    const inch = (value: number) => value / 25.4;
    const turn = ({
      points,
      distances,
      heights,
      laterals,
      inclinations,
      slopes,
    }: typeof metric): SurveyInput => {
      const lengths = <T extends { value: number; plusMinus: number }>(list: T[]) =>
        list.map((one) => ({ ...one, value: inch(one.value), plusMinus: inch(one.plusMinus) }));
      return {
        units: 'imperial',
        points: Object.fromEntries(
          Object.entries<SurveyInput['points'][string]>(points).map(([name, point]) => {
            const { estimate, x = 0 } = point;
            return [
              name,
              estimate === undefined
                ? point
                : { estimate: [inch(estimate[0]), inch(estimate[1])], x: inch(x) },
            ];
          }),
        ),
        distances: lengths(distances),
        heights: lengths(heights),
        laterals: lengths(laterals),
        inclinations: inclinations as NonNullable<SurveyInput['inclinations']>,
        slopes: slopes as NonNullable<SurveyInput['slopes']>,
      };
    };
    const [one, other] = [survey(metric), survey(JSON.stringify(turn(metric)))];
    for (const [name, { at, plusMinus }] of Object.entries(one.points)) {
      at.forEach((value, k) => {
        expectWithin(other.points[name].at[k], value, 1e-6);
        expectWithin(other.points[name].plusMinus[k], Number(plusMinus[k]), 1e-6);
      });
    }
    expectWithin(other.chiSquare, Number(one.chiSquare), 1e-6);
  });

  it('reads in-line points, slopes, and heights and laterals between points', () => {
    const found = survey({
      points: {
        A: { known: [100, 100] },
        B: { estimate: [480, 210] },
        P: { estimate: [310, 140] },
      },
      slopes: [{ line: ['B', 'A'], value: Math.atan(0.25) * (180 / Math.PI) }],
      laterals: [{ of: 'B', from: 'A', value: 400 }],
      heights: [{ of: 'P', above: 'A', value: 50 }],
      collinear: [{ point: 'P', line: ['B', 'A'] }],
    });
    [500, 200].forEach((value, k) => {
      expectWithin(found.points.B.at[k], value, 1e-6);
    });
    [300, 150].forEach((value, k) => {
      expectWithin(found.points.P.at[k], value, 1e-6);
    });
  });
});

describe('1000 surveys with errors as large as they say', () => {
  const DRAWS = 1000;
  const inside: Record<string, number> = {};
  const chiSquares: number[] = [];
  const errorsOf: Record<string, number[]> = {};
  let unlikely = 0;
  let suspected = 0;
  let model: Survey;
  beforeAll(() => {
    const errorOf = errors(2);
    model = survey(planeSurvey(exact));
    for (let n = 0; n < DRAWS; n++) {
      const found = survey(planeSurvey(errorOf));
      chiSquares.push(Number(found.chiSquare));
      if (Number(found.pValue) < 0.05) unlikely++;
      if (found.suspects.length > 0) suspected++;
      for (const [name, { at, plusMinus }] of Object.entries(found.points)) {
        at.forEach((value, k) => {
          const off = value - HARDPOINTS[name][k];
          const key = `${name}${k === 0 ? 'Y' : 'Z'}`;
          inside[key] = (inside[key] ?? 0) + (Math.abs(off) <= Number(plusMinus[k]) ? 1 : 0);
          errorsOf[key] ??= [];
          errorsOf[key].push(off);
        });
      }
    }
  }, 60_000);

  it('have each coordinate in its interval as often as is expected, a little more than 95 times in 100', () => {
    expect(Object.keys(inside)).toHaveLength(14);
    // Some scatter more than they say by chance, and are widened.
    const expected = expectedCoverage(9, 1, STUDENT[9]);
    expectWithin(expected, 0.965, 0.01);
    for (const count of Object.values(inside)) {
      // Binomial: four standard deviations.
      expectWithin(count / DRAWS, expected, 4 * Math.sqrt((expected * (1 - expected)) / DRAWS));
    }
  });

  it('have a chi-square as its degrees of freedom say', () => {
    const { degreesOfFreedom } = model;
    expect(degreesOfFreedom).toBe(12 + 7 + 3 + 1 - 14);
    const mean = chiSquares.reduce((sum, value) => sum + value, 0) / DRAWS;
    // Mean k, variance 2k; of the mean of n draws five standard deviations.
    expectWithin(mean, degreesOfFreedom, 5 * Math.sqrt((2 * degreesOfFreedom) / DRAWS));
    // Five in a hundred below 0.05; binomial, four standard deviations.
    expectWithin(unlikely, 0.05 * DRAWS, 4 * Math.sqrt(DRAWS * 0.05 * 0.95));
    // Less than two surveys in a hundred name a reading that is none.
    expect(suspected).toBeLessThan(0.02 * DRAWS);
  });

  it('scatter and hang together as the covariance says', () => {
    const { coordinates, matrix } = model.covariance;
    coordinates.forEach((a, i) => {
      coordinates.forEach((b, j) => {
        const sample = errorsOf[a].reduce((sum, value, n) => sum + value * errorsOf[b][n], 0) / DRAWS;
        const scale = Math.sqrt(matrix[i][i] * matrix[j][j]);
        // A sample covariance of n draws has a standard error of at most sqrt(2 / n) of the scale: five of them.
        expectWithin(sample, matrix[i][j], 5 * Math.sqrt(2 / DRAWS) * scale);
      });
    });
    const largest = coordinates.flatMap((_, i) =>
      coordinates.slice(0, i).map((__, j) => Math.abs(matrix[i][j]) / Math.sqrt(matrix[i][i] * matrix[j][j])),
    );
    expect(Math.max(...largest)).toBeGreaterThan(0.5);
  });
});

/** Student's t, 97.5 %: the table of NIST/SEMATECH, read in a copy. */
const STUDENT = { 1: 12.706, 4: 2.776, 9: 2.262 } as const;

describe('surveys whose stated errors are too small', () => {
  const DRAWS = 200;
  it.each<[redundant: 4 | 9, factor: number]>([
    [4, 2],
    [9, 3],
  ])('with %i redundant readings, %i times: intervals hold the truth 93 to 98 times in 100', (n, factor) => {
    const expected = expectedCoverage(n, factor, STUDENT[n]);
    const shares = Object.values(coverage(n, factor, DRAWS, 7 * n + factor));
    expect(shares).toHaveLength(14);
    // Binomial: four standard deviations; their mean scatters less.
    for (const share of shares) {
      expectWithin(share, expected, 4 * Math.sqrt((expected * (1 - expected)) / DRAWS));
    }
    expectWithin(
      shares.reduce((sum, share) => sum + share / shares.length, 0),
      0.955,
      0.025,
    );
    expectWithin(expected, 0.955, 0.025);
  });

  it('have covariances times the square of the Birge ratio, half-widths times Student beside', () => {
    const once = errors(8);
    const readings = surveyWithErrors(4, (plusMinus) => 3 * once(plusMinus));
    const less = <T extends { plusMinus: number }>(list: T[]): T[] =>
      list.map((one) => ({ ...one, plusMinus: 10 * one.plusMinus }));
    const { distances, heights, laterals, inclinations } = readings;
    // The same readings, said to be ten times less sure: they fit as they say, and the places are the same.
    const stated = survey({
      points: readings.points,
      distances: less(distances),
      heights: less(heights),
      laterals: less(laterals),
      inclinations: less(inclinations),
    });
    const wild = survey(readings);
    expect(stated.scale.applied).toBe(false);
    expect(wild.scale.applied).toBe(true);
    const ratio = Math.sqrt(Number(wild.chiSquare) / 4);
    expectWithin(wild.scale.birgeRatio, ratio, 1e-12 * ratio);
    expectWithin(wild.scale.studentFactor, STUDENT[4] / 1.96, 0.0005);
    const { coordinates, matrix } = wild.covariance;
    coordinates.forEach((name, k) => {
      const { plusMinus } = wild.points[name.slice(0, -1)];
      const width = Number(plusMinus[name.endsWith('Y') ? 0 : 1]);
      expectWithin(width, STUDENT[4] * Math.sqrt(matrix[k][k]), 0.0003 * width);
      const deviation = Math.sqrt(stated.covariance.matrix[k][k]) / 10;
      expectWithin(Math.sqrt(matrix[k][k]), ratio * deviation, 1e-6);
    });
    expect(wordsOf(wild)).toMatch(
      /the intervals of its points are \d+\.\d times as wide for it, which covers half-widths/,
    );
    expect(wordsOf(stated)).not.toContain('times as wide');
  });

  it('have wide intervals with one redundant reading, and none to compare without', () => {
    const one = survey(triangle({ heights: [{ of: 'P', value: TOP_Z + 10 }] }));
    expectWithin(one.scale.studentFactor, STUDENT[1] / 1.96, 0.0005);
    expectWithin(one.scale.birgeRatio, Math.sqrt(Number(one.chiSquare)), 1e-9);
    expect(survey(triangle()).scale).toEqual({ applied: false, birgeRatio: null, studentFactor: null });
  });

  it('give a corner with the same intervals', () => {
    const found = survey(exampleSurvey());
    expect(found.scale.applied).toBe(true);
    const { plusMinus } = uncertaintyBands(surveyedCorner(found, { coilover: 'lowerArm' }), undefined, {
      bump: 0,
      droop: 0,
    });
    for (const [name, width] of Object.entries(plusMinus)) {
      const wanted = found.points[name.slice(0, -1)].plusMinus[name.endsWith('Y') ? 0 : 1];
      expectWithin(width, Number(wanted), 1e-9);
    }
  });
});

describe('a misreading', () => {
  it('is named with its size, and so is a second one', () => {
    const wrong = planeSurvey(errors(3));
    wrong.heights[0].value += 25;
    const one = survey(wrong);
    expect(one.suspects.map(({ candidates }) => candidates.map(({ path }) => path))).toEqual([
      ['heights[0]'],
    ]);
    expectWithin(one.suspects[0].candidates[0].error, 25, 4);
    expect(wordsOf(one)).toMatch(
      /A reading of the survey is likely wrong, by \+2\d\.\d mm: height of lower inner above the ground \(heights\[0\]\); read it again/,
    );
    wrong.heights[3].value -= 100;
    const two = survey(wrong);
    expect(two.suspects.flatMap(({ candidates }) => candidates.map(({ path }) => path))).toEqual([
      'heights[3]',
      'heights[0]',
    ]);
    expectWithin(two.suspects[0].candidates[0].error, -100, 4);
    expect(Number(two.pValue)).toBeLessThan(1e-6);
  });

  it('can be pinned on no reading where one alone is redundant', () => {
    const found = survey(triangle({ heights: [{ of: 'P', value: TOP_Z + 10 }] }));
    expect(found.degreesOfFreedom).toBe(1);
    const [{ candidates }] = found.suspects;
    expect(candidates.map(({ path }) => path).sort()).toEqual(['distances[0]', 'distances[1]', 'heights[0]']);
    const height = candidates.find(({ path }) => path === 'heights[0]');
    expectWithin(Number(height?.error), 10, 1e-6);
    // All standardised residuals are the root of chi-square.
    for (const { standardised } of found.readings) {
      expectWithin(Math.abs(Number(standardised)), Math.sqrt(Number(found.chiSquare)), 0.05);
    }
    expect(found.diagnostics[0]).toMatchObject({ code: 'lengthSuspect', path: candidates[0].path });
    expect(found.diagnostics[0].values.or).toEqual(candidates.slice(1).map(({ path }) => path));
    // The best estimate is there, between the two.
    expect(found.points.P.at[1]).toBeGreaterThan(TOP_Z);
    expect(found.points.P.at[1]).toBeLessThan(TOP_Z + 10);
  });

  it('goes unseen where nothing checks it, and that is said', () => {
    const found = survey({ ...triangle(), heights: [] });
    expect(found.readings.map(({ standardised }) => standardised)).toEqual([null, null]);
    expect(found.pValue).toBeNull();
    expect(found.diagnostics.map(({ code }) => code)).toContain('surveyUnchecked');
    const more = surveyWith(exact);
    more.points = { ...more.points, floor: { estimate: [0, 0], x: 0 } } as typeof more.points;
    const half = survey({ ...more, laterals: [...more.laterals, { of: 'floor', value: 20 }] });
    expect(sentence(half.diagnostics.at(-1)!)).toMatch(
      /^Nothing checks this reading: lateral distance of floor from the centreline \(laterals\[\d+\]\)\.$/,
    );
  });
});

describe('a slip of a fore-aft place', () => {
  const names = Object.keys(surveyWith(exact).points).filter((name) => !name.endsWith('Inner'));
  it.each(names)('of %s by a metre comes to an end, with suspects', (name) => {
    const slipped = surveyWith(exact);
    const points: Record<string, unknown> = { ...slipped.points };
    const { estimate, x } = points[name] as { estimate: [number, number]; x: number };
    points[name] = { estimate, x: x + 1000 };
    const found = survey({ ...slipped, points } as SurveyInput);
    expect(found.status).toBe('converged');
    expect(found.suspects.length).toBeGreaterThan(0);
    expect(Number(found.pValue)).toBeLessThan(1e-6);
  });

  it.each(['lowerOuter', 'upperOuter', 'shockMount', 'lowerRear', 'wheelCentre'])(
    'of %s by 100 mm is named',
    (name) => {
      const slipped = surveyWith(errors(6));
      const points: Record<string, unknown> = { ...slipped.points };
      const { estimate, x } = points[name] as { estimate: [number, number]; x: number };
      points[name] = { estimate, x: x + 100 };
      const found = survey({ ...slipped, points } as SurveyInput);
      expect(found.foreAftSuspects).toEqual([name]);
      expect(wordsOf(found)).toMatch(/^The fore-aft place \(x\) of /m);
    },
  );
});

describe('too few readings', () => {
  it('name the points that are not determined, and the readings that would determine them', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 33, maxLength: 33 }), (kept) => {
        const all = surveyWith(exact);
        let k = 0;
        const thin = <T>(list: readonly T[]): T[] => list.filter(() => kept[k++]);
        const few = {
          points: all.points,
          distances: thin(all.distances),
          heights: thin(all.heights),
          laterals: thin(all.laterals),
          inclinations: thin(all.inclinations) as NonNullable<SurveyInput['inclinations']>,
          slopes: thin(all.slopes) as NonNullable<SurveyInput['slopes']>,
        };
        const found = survey(few);
        const open = Object.entries(found.points).flatMap(([name, { status }]) =>
          status === 'undetermined' ? [name] : [],
        );
        expect([...new Set(found.undetermined.flatMap(({ points }) => points))].sort()).toEqual(open.sort());
        for (const [name, { at, status: how }] of Object.entries(found.points)) {
          expect(at.every(Number.isFinite)).toBe(true);
          expect(found.points[name].covariance === null).toBe(how === 'undetermined');
        }
        const of = (list: 'height' | 'lateral', axis: 0 | 1) =>
          found.undetermined
            .filter(({ read }) => read === list)
            .map(({ of: name }) => ({ of: name, value: found.points[name].at[axis] }));
        const mended = survey({
          ...few,
          heights: [...few.heights, ...of('height', 1)],
          laterals: [...few.laterals, ...of('lateral', 0)],
        });
        expect(mended.undetermined).toEqual([]);
        // None of them is there to spare.
        expect(mended.degreesOfFreedom).toBe(found.degreesOfFreedom);
      }),
      { numRuns: 12 },
    );
  });

  it('give the best so far, from where the sketch has it', () => {
    const found = survey({
      points: { A: { known: [0, 0] }, P: { estimate: [300, 400] }, Q: { estimate: [7, 8] } },
      distances: [{ between: ['A', 'P'], value: 400 }],
    });
    expectWithin(Math.hypot(...found.points.P.at), 400, 1e-6);
    expect(found.points.Q.at).toEqual([7, 8]);
    expect(found.points.P.status).toBe('undetermined');
    expect(wordsOf(found).split('\n')).toEqual([
      'Q is not determined; read the lateral distance of Q from the centreline and the height of Q above the ground.',
      'P is not determined; read the lateral distance of P from the centreline.',
      'No reading of the survey checks another: a misreading would go unseen; add readings.',
    ]);
    expect(survey({ points: { P: { estimate: [1, 2] } } }).points.P.at).toEqual([1, 2]);
    expect(survey({ points: {} })).toMatchObject({
      status: 'converged',
      degreesOfFreedom: 0,
      undetermined: [],
    });
  });
});

describe('a mirrored solution', () => {
  it('is told where the readings leave the choice', () => {
    const found = survey(triangle());
    [TOP_Y, TOP_Z].forEach((value, k) => {
      expectWithin(found.points.P.at[k], value, 1e-6);
    });
    expect(found.mirrorSolutions).toHaveLength(1);
    const [{ points, other, isDetermined, read, of }] = found.mirrorSolutions;
    expect({ points, isDetermined, read, of }).toEqual({
      points: ['P'],
      isDetermined: false,
      read: 'height',
      of: 'P',
    });
    expectWithin(other.P[1], -TOP_Z, 1e-6);
    expect(sentence(found.diagnostics[0])).toBe(
      'The survey fits as well with P mirrored, the height of P then being -187.3 mm in place of 187.3 mm: the first estimate decided; read the height of P.',
    );
  });

  it('is left for the right one where a reading tells', () => {
    const points = { A: { known: [0, 0] }, B: { known: [400, 0] }, P: { estimate: [TOP_Y, TOP_Z] } } as const;
    const found = survey(triangle({ points, heights: [{ of: 'P', value: -TOP_Z, plusMinus: 20 }] }));
    expectWithin(found.points.P.at[1], -TOP_Z, 1e-5);
    expect(found.mirrorSolutions.map(({ isDetermined }) => isDetermined)).toEqual([true]);
    expect(sentence(found.diagnostics[0])).toBe(
      'The first estimate had P on the wrong side: the readings put the height of P at -187.3 mm, not 185.0 mm.',
    );
    expect(found.suspects).toEqual([]);
    const right = survey(triangle({ heights: [{ of: 'P', value: TOP_Z, plusMinus: 20 }] }));
    expect(right.mirrorSolutions).toEqual([]);
  });

  it('may be of several points that hang together', () => {
    const found = survey({
      points: {
        A: { known: [0, 0] },
        B: { known: [400, 0] },
        P: { estimate: [150, 190] },
        Q: { estimate: [260, 210] },
      },
      distances: [
        { between: ['A', 'P'], value: 250 },
        { between: ['B', 'P'], value: 320 },
        { between: ['B', 'Q'], value: 250 },
        { between: ['P', 'Q'], value: 120 },
        { between: ['A', 'Q'], value: 334 },
      ],
    });
    const both = found.mirrorSolutions.filter(({ points }) => points.length === 2);
    expect(both).toHaveLength(1);
    expectWithin(both[0].other.Q[1], -found.points.Q.at[1], 1e-5);
    expectWithin(Number(both[0].chiSquare), Number(found.chiSquare), 1e-6);
  });
});

describe('wrong input', () => {
  const messageOf = (input: unknown): string => {
    try {
      survey(input as SurveyInput);
    } catch (error) {
      if (error instanceof InputError) return error.message;
      throw error;
    }
    expect.fail('nothing was thrown');
  };

  it('is told all at once, each by its place', () => {
    expect(
      messageOf({
        points: {
          lowerInner: { estimate: [255, 165] },
          lower_inner: { estimate: [255, 165] },
          lowerOuter: {},
          front: { known: [1, 2], x: 10 },
          rear: { known: [1, 2], x: 10 },
          hinge: { pivotAxis: ['front', 'rear'] },
        },
        plusMinus: { tape: 0 },
        distances: [
          { between: ['lowerInner', 'lowerOutr'], value: 385, plusMinus: -1 },
          { between: ['lowerInner', 'lowerInner'], value: 15 },
        ],
        heights: [{ of: 'lowerInner', value: '15 in' }],
        inclinations: [{ line: ['front', 'rear'], value: 400 }],
        slopes: { line: ['front', 'rear'], value: 4 },
        guesses: [],
      }),
    ).toBe(
      [
        'invalid survey',
        '  points.lower_inner: the same name as lowerInner; give one of the two another name, or take it out',
        '  points.lowerOuter: give one of estimate [y, z], known [y, z] and pivotAxis [two points], got {}',
        '  points.hinge.pivotAxis: an axis that does not run fore and aft: both its points have the same x, got 10; give x of front and rear: how far they lie forward of the wheel centre',
        '  plusMinus.tape: out of range, got 0 mm (allowed: more than 0 mm); check the number, its sign and its unit',
        '  distances[0].between[1]: unknown point, got lowerOutr (allowed: lowerInner, lower_inner, lowerOuter, front, rear, hinge); did you mean lowerOuter?',
        '  distances[0].plusMinus: out of range, got -1 mm (allowed: more than 0 mm); check the number, its sign and its unit',
        '  distances[1].between[1]: the same point twice in one reading, got lowerInner',
        '  heights[0].value: wrong kind of value, got "15 in" (allowed: a finite number, in mm); write the bare number, in mm, without quotes',
        '  inclinations[0].value: out of range, got 400 deg (allowed: at most 180 deg); check the number, its sign and its unit',
        '  slopes: wrong kind of value, got {"line":["front","rear"],"value":4} (allowed: a list of readings [{ line, value, plusMinus }, ...])',
        '  guesses: unknown field (allowed: $schema, formatVersion, units, name, notes, points, plusMinus, distances, heights, laterals, inclinations, slopes, collinear); correct the spelling, or take it out',
      ].join('\n'),
    );
  });

  it('includes a name twice in a text, numbers beyond any car, and what is no survey', () => {
    expect(messageOf('{ "points": { "P": { "at": [1, 2] }, "P": { "at": [1, 3] } } }')).toContain('points.P');
    expect(messageOf({ points: { P: { estimate: [1e9, 2] } } })).toContain('out of range');
    expect(messageOf({ points: [] })).toContain('points: wrong kind of value');
    expect(messageOf(7)).toContain('wrong kind of value');
    expect(messageOf({})).toContain('points: missing');
  });
});

describe('whatever is read', () => {
  it('comes back in finite numbers, with words', () => {
    const name = fc.constantFrom('A', 'B', 'C', 'D');
    const pair = fc
      .tuple(name, name)
      .filter(([a, b]) => a !== b)
      .map(([a, b]): [string, string] => [a, b]);
    const place = fc.tuple(fc.integer({ min: -3, max: 3 }), fc.integer({ min: -3, max: 3 }));
    const length = fc.integer({ min: 1, max: 600 });
    const many = <T>(one: fc.Arbitrary<T>) => fc.array(one, { maxLength: 4 });
    const anything = fc.record({
      points: fc.record({
        A: place.map((known) => ({ known })),
        B: place.map((estimate) => ({ estimate })),
        C: place.map((estimate) => ({ estimate, x: 100 })),
        D: fc.constantFrom(
          { pivotAxis: ['A', 'C'] as [string, string] },
          { estimate: [0, 0] as [number, number] },
        ),
      }),
      distances: many(fc.record({ between: pair, value: length })),
      heights: many(fc.record({ of: name, value: length })),
      inclinations: many(fc.record({ line: pair, value: fc.integer({ min: -180, max: 180 }) })),
      slopes: many(fc.record({ line: pair, value: fc.integer({ min: -180, max: 180 }) })),
      collinear: many(fc.constant({ point: 'B', line: ['A', 'C'] as [string, string] })),
    });
    fc.assert(
      fc.property(anything, (input) => {
        const found = survey(input);
        const check = (value: unknown): void => {
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
          else if (typeof value === 'object' && value !== null) Object.values(value).forEach(check);
        };
        check(found);
        expect(found.diagnostics.length).toBeGreaterThan(0);
        expect(wordsOf(found)).not.toMatch(/NaN|undefined|Infinity|null/);
      }),
      { numRuns: 25 },
    );
  });
});
