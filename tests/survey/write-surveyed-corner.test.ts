/** From tape to car file: what is read from a file with surveyed points is the corner that the survey gives. */

import { readFileSync } from 'node:fs';
import {
  type Corner,
  type Diagnostic,
  doubleWishbone,
  InputError,
  monteCarlo,
  monteCarloSizing,
  readCar,
  readCorner,
  type Survey,
  type SurveyedCornerOptions,
  type SurveyInput,
  sentence,
  sizeCoilovers,
  survey,
  surveyedCorner,
  type UncertaintyBands,
  uncertaintyBands,
  writeSurveyedCorner,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { errorOf, exampleText, type Json } from '../document/support.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';
import { errors, surveyWith } from './synthetic.ts';

const example: Json = JSON.parse(
  readFileSync(new URL('../../docs/examples/survey.json', import.meta.url), 'utf8'),
);
const again: Json = {
  ...example,
  distances: example.distances.map((one: Json, k: number) => (k === 8 ? { ...one, value: 136.5 } : one)),
};
const found = survey(again);
/** One reading is wrong: wide intervals, and something to look at. */
const doubtful = survey(example);
const carFile = (): Json => JSON.parse(exampleText('car.json'));
const metricFile = (): Json => ({
  units: 'metric',
  notes: 'mine',
  corners: {
    front: {
      notes: ['kept', 'too'],
      sprungMass: 240,
      coilover: { on: 'lowerArm', mount: [1, 2], chassisMount: [3, 4] },
      lowerArm: { inner: [250, 160], outer: [640, 150] },
      upperArm: { inner: [{ value: 310, plusMinus: 9 }, 355], outer: [600, 375] },
      wheel: { centre: [705, 312], contactPatch: [700, 0] },
    },
  },
});
const travel = { bump: 50, droop: 50, step: 10 };

/** Expects the same bands but for the rounding of the file: 1e-8 of its unit. */
function expectSameBands(actual: UncertaintyBands, wanted: UncertaintyBands) {
  for (const [name, column] of Object.entries(wanted.columns)) {
    const most = Math.max(...column.map(Number));
    column.forEach((value, i) => {
      expectWithin(actual.columns[name][i], Number(value), 1e-6 * most + 1e-9);
    });
  }
}

/** Expects the same checks but for their places and the rounding of the file. */
function expectSameChecks(actual: readonly Diagnostic[] = [], wanted: readonly Diagnostic[] = []) {
  expect(actual.map(({ code, severity }) => [code, severity])).toEqual(
    wanted.map(({ code, severity }) => [code, severity]),
  );
  actual.forEach(({ path, values }, k) => {
    expect(path).toBe(`surveyChecks[${k}]`);
    const near = Object.entries(wanted[k].values).map(([name, value]) => [
      name,
      typeof value === 'number' ? expect.closeTo(value, 6) : value,
    ]);
    expect(values).toEqual(Object.fromEntries(near));
  });
}

describe('a survey written into a car file', () => {
  it.each<[string, Survey, () => Json, SurveyedCornerOptions]>([
    ['in mm', found, metricFile, {}],
    [
      'in inches',
      found,
      () => ({
        ...carFile(),
        corners: { front: { ...carFile().corners.front, wheel: { centre: [26, 10] } } },
      }),
      {},
    ],
    [
      'in inches, contradicting itself',
      doubtful,
      () => ({ units: 'imperial', corners: {} }),
      { coilover: 'lowerArm' },
    ],
  ])('%s gives the corner of the survey, its bands included', (_, from, file, options) => {
    const wanted = surveyedCorner(from, { coilover: 'lowerArm' });
    const written = writeSurveyedCorner(deepFreeze(file()), from, { corner: 'front', ...options });
    const { corner } = readCar(JSON.stringify(written)).corners.front;
    expectSameBands(uncertaintyBands(corner, undefined, travel), uncertaintyBands(wanted, undefined, travel));
    const draws = { draws: 100, sweep: travel };
    const [drawn, wantedDrawn] = [corner, wanted].map((one: Corner) => monteCarlo(one, undefined, draws));
    // The same draws of the same errors.
    expectWithin(
      Number(drawn.columns.installationRatio[0]),
      Number(wantedDrawn.columns.installationRatio[0]),
      1e-6,
    );
    expectSameChecks(corner.checks, wanted.checks);
  });

  it('keeps all else, in its order', () => {
    const before = carFile();
    const written: Json = writeSurveyedCorner(exampleText('car.json'), found, { corner: 'front' });
    expect(Object.keys(written)).toEqual(Object.keys(before));
    expect(Object.keys(written.corners.front)).toEqual([
      ...Object.keys(before.corners.front),
      'correlations',
    ]);
    const { lowerArm, upperArm, wheel, coilover, correlations, ...rest } = written.corners.front;
    const {
      lowerArm: _,
      upperArm: __,
      wheel: oldWheel,
      coilover: oldCoilover,
      ...restBefore
    } = before.corners.front;
    expect(rest).toEqual(restBefore);
    expect({ ...written, corners: { ...written.corners, front: 0 } }).toEqual({
      ...before,
      corners: { ...before.corners, front: 0 },
    });
    // The camber of the file stands beside the contact patch that was surveyed.
    expect(Object.keys(wheel)).toEqual([...Object.keys(oldWheel), 'contactPatch']);
    expect(Object.keys(coilover)).toEqual(Object.keys(oldCoilover));
    const inner = found.points.lowerInner;
    expectWithin(lowerArm.inner[0].value, inner.at[0] / 25.4, 1e-8);
    expectWithin(lowerArm.inner[0].plusMinus, Number(inner.plusMinus[0]) / 25.4, 1e-8);
    expect(correlations.lowerTriangle[0]).toEqual([]);
    // Again with another survey: what is left to look at comes, and goes.
    const third: Json = writeSurveyedCorner(written, doubtful, { corner: 'front' });
    expect(third.corners.front.surveyChecks).toHaveLength(2);
    expect(third.corners.front.surveyChecks[0]).toEqual({
      code: 'lengthSuspect',
      reading: 'distances[8]',
      points: ['shockMount', 'lowerOuter'],
      error: expect.closeTo(0.32, 2),
      or: [],
    });
    expect(writeSurveyedCorner(third, found, { corner: 'front' })).toEqual(written);
  });

  it('sizes as the corner itself does, to the interval and to the draws', () => {
    const written = readCar(writeSurveyedCorner(carFile(), doubtful, { corner: 'front' }));
    const corner = surveyedCorner(doubtful, { coilover: 'lowerArm', camber: -0.75 });
    const { corners } = written;
    const wanted = { ...written, corners: { ...corners, front: { ...corners.front, corner } } };
    const [one, other] = [written, wanted].map((car) => sizeCoilovers(car).axles[0]);
    for (const name of ['designLength', 'requiredSpringRate', 'bumpTravelAvailable'] as const) {
      const [a, b] = [one, other].map(({ figure }) => figure(name));
      expectWithin(a.value, Number(b.value), 1e-5);
      expectWithin(a.lower, Number(b.lower), 1e-5);
    }
    const checks = sizeCoilovers(written).checks.filter(({ path }) => path === 'corners.front');
    expect(checks.map(({ code }) => code)).toEqual(['lengthSuspect', 'readingsContradict']);
    const [drawn, wantedDrawn] = [written, wanted].map((car) => monteCarloSizing(car, { draws: 100 }));
    expectWithin(
      Number(drawn.figures['front.designLength']?.p2_5),
      Number(wantedDrawn.figures['front.designLength']?.p2_5),
      1e-5,
    );
  });

  it('takes a file of one corner, a right-hand one, and a corner that is not there yet', () => {
    const mirrored = surveyWith(errors(4));
    const points = Object.fromEntries(
      Object.entries<Json>(mirrored.points).map(([name, point]) => {
        const { estimate } = point;
        return [name, estimate === undefined ? point : { ...point, estimate: [-estimate[0], estimate[1]] }];
      }),
    );
    const turn = <T extends { value: number }>(list: T[]) =>
      list.map((one) => ({ ...one, value: -one.value }));
    const right = survey({
      ...mirrored,
      points,
      laterals: turn(mirrored.laterals),
      inclinations: turn(mirrored.inclinations as { value: number }[]),
      slopes: turn(mirrored.slopes as { value: number }[]),
    } as unknown as SurveyInput);
    const wanted = surveyedCorner(right, { coilover: 'lowerArm' });
    expect(wanted.mirrored).toBe(true);
    const written: Json = writeSurveyedCorner({ units: 'imperial' }, right, { coilover: 'lowerArm' });
    expect(written.lowerArm.outer[0].value).toBeLessThan(-20);
    expectWithin(written.coilover.foreAftOffset, -25 / 25.4, 1e-8);
    const { corner } = readCorner(written);
    expect(corner.mirrored).toBe(true);
    expectSameBands(uncertaintyBands(corner, undefined, travel), uncertaintyBands(wanted, undefined, travel));
    const rear: Json = writeSurveyedCorner(metricFile(), right, { corner: 'rear', coilover: 'upright' });
    expect(Object.keys(rear.corners)).toEqual(['front', 'rear']);
    expect(rear.corners.rear.coilover.on).toBe('upright');
  });

  it('takes known points as they are, and a corner with a rocker', () => {
    const places: Record<string, [number, number]> = {
      lowerInner: [250, 160],
      lowerOuter: [630, 150],
      upperInner: [300, 340],
      upperOuter: [590, 360],
      wheelCentre: [700, 315],
      rodMount: [560, 180],
      rodRockerMount: [330, 420],
      rockerPivot: [270, 400],
      shockRockerMount: [260, 470],
      shockChassisMount: [30, 480],
    };
    const known = survey({
      points: {
        ...Object.fromEntries(Object.entries(places).map(([name, known]) => [name, { known }])),
        rodMount: { estimate: places.rodMount },
      },
      heights: [{ of: 'rodMount', value: places.rodMount[1] }],
      laterals: [{ of: 'rodMount', value: places.rodMount[0] }],
    } as SurveyInput);
    const written: Json = writeSurveyedCorner({}, known, { kind: 'pushrod', rod: 'lowerArm', camber: -1 });
    expect(written.kind).toBe('pushrod');
    expect(written.lowerArm.inner).toEqual(places.lowerInner);
    expect(written.correlations).toEqual({
      coordinates: ['rodMountY', 'rodMountZ'],
      lowerTriangle: [[], [0]],
    });
    const { corner } = readCorner(written);
    const wanted = surveyedCorner(known, { kind: 'pushrod', rod: 'lowerArm', camber: -1 });
    expectSameBands(uncertaintyBands(corner, undefined, travel), uncertaintyBands(wanted, undefined, travel));
  });

  it('refuses what is no such file, and says which name a point has in a survey', () => {
    const messageOf = (file: unknown, from = found, options: Json = { corner: 'front' }) =>
      errorOf(() => writeSurveyedCorner(file, from, options)).message;
    expect(messageOf(7)).toContain('not a file, got 7');
    expect(messageOf('{ "units": ')).toContain('invalid');
    expect(messageOf('{ "corners": {}, "corners": {} }')).toContain('corners');
    expect(messageOf(carFile(), found, {})).toContain('corner: missing (allowed: front, rear)');
    expect(messageOf(carFile(), found, { corner: 'left' })).toContain('corner: unknown choice, got "left"');
    expect(messageOf(JSON.parse(exampleText('front-corner.json')))).toContain('leave corner out');
    expect(messageOf(carFile(), found, { corner: 'front', kind: 'strut' })).toContain(
      'kind: not the kind of the corner in the file, got strut (allowed: doubleWishbone)',
    );
    expect(messageOf(carFile(), found, { corner: 'front', colour: 1 })).toContain('colour: unknown option');
    expect(messageOf({})).toContain('coilover.on: missing');
    const renamed: Json = JSON.parse(JSON.stringify(again).replaceAll('shockChassisMount', 'chassisMount'));
    expect(errorOf(() => surveyedCorner(survey(renamed), { coilover: 'lowerArm' })).message).toContain(
      'points.shockChassisMount: missing',
    );
    expect(messageOf(carFile(), survey(renamed))).toContain(
      'name chassisMount so in the survey: chassisMount is its name inside a part of a car file',
    );
  });
});

describe('checks of a survey in a file', () => {
  const withChecks = (...surveyChecks: unknown[]) => {
    const file = metricFile();
    file.corners.front.surveyChecks = surveyChecks;
    return file;
  };

  it('are kept whatever was found', () => {
    const found = [
      { code: 'surveyNotConverged', status: 'stalled' },
      {
        code: 'angleSuspect',
        reading: 'slopes[0]',
        points: ['A', 'B'],
        or: ['heights[0]'],
        angleError: 3,
        fitsAsComplement: false,
      },
      { code: 'foreAftSuspect', point: 'A' },
      { code: 'pointsMirrored', points: ['A'], read: 'height', of: 'A', taken: 12, other: -12 },
      { code: 'surveyUnchecked' },
    ];
    const { checks = [] } = readCar(withChecks(...found)).corners.front.corner;
    expect(checks.map(({ code, values }) => ({ code, ...values }))).toEqual(found);
    for (const one of checks) expect(sentence(one)).toMatch(/^[A-Z].*\.$/);
    const inches = { ...withChecks(found[3]), units: 'imperial' };
    expect(readCar(inches).corners.front.corner.checks?.[0].values).toMatchObject({
      taken: expect.closeTo(12 * 25.4, 9),
    });
  });

  it.each<[string, unknown, string]>([
    [
      'a sentence',
      'read it again',
      'surveyChecks[0]: wrong kind of value, got "read it again" (allowed: a check as',
    ],
    [
      'another code',
      { code: 'wrong' },
      'surveyChecks[0].code: unknown choice, got "wrong" (allowed: surveyNotConverged, lengthSuspect,',
    ],
    ['a value missing', { code: 'foreAftSuspect' }, 'surveyChecks[0].point: missing'],
    [
      'a value of another kind',
      { code: 'foreAftSuspect', point: 1 },
      'surveyChecks[0].point: wrong kind of value',
    ],
    [
      'a value of another check',
      { code: 'surveyUnchecked', point: 'A' },
      'surveyChecks[0].point: unknown field',
    ],
  ])('are refused with %s', (_, check, message) => {
    expect(errorOf(() => readCar(withChecks(check))).message).toContain(message);
  });
});

describe('correlations in a file', () => {
  const cornerFile = (correlations: Json): Json => ({
    lowerArm: {
      inner: [
        { value: 255, plusMinus: 2 },
        { value: 165, plusMinus: 3 },
      ],
      outer: [640, 150],
    },
    upperArm: { inner: [{ value: 310, plusMinus: 4 }, 355], outer: [600, 375] },
    wheel: { centre: [705, 312], camber: -0.5 },
    coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
    correlations,
  });

  it('make one covariance with the half-widths of the points', () => {
    const { corner } = readCorner(
      cornerFile({ coordinates: ['lowerInnerZ', 'lowerInnerY'], lowerTriangle: [[], [-0.5]] }),
    );
    const { plusMinus: half } = uncertaintyBands(corner, undefined, travel);
    expect(Object.entries(half).filter(([, width]) => width > 0)).toEqual([
      ['lowerInnerY', expect.closeTo(2, 9)],
      ['lowerInnerZ', expect.closeTo(3, 9)],
      ['upperInnerY', expect.closeTo(4, 9)],
    ]);
    const s2 = 1.96 ** 2;
    expect(corner.plusMinus).toEqual({
      coordinates: ['lowerInnerZ', 'lowerInnerY', 'upperInnerY'],
      matrix: [
        [expect.closeTo(9 / s2, 12), expect.closeTo(-3 / s2, 12), expect.closeTo(0, 12)],
        [expect.closeTo(-3 / s2, 12), expect.closeTo(4 / s2, 12), expect.closeTo(0, 12)],
        [expect.closeTo(0, 12), expect.closeTo(0, 12), expect.closeTo(16 / s2, 12)],
      ],
    });
    // In code the same numbers are given as they stand.
    const { correlations: _, ...parts } = cornerFile({});
    expectSameBands(
      uncertaintyBands(corner, undefined, travel),
      uncertaintyBands(doubleWishbone(parts as never), corner.plusMinus, travel),
    );
  });

  it.each<[string, Json, string]>([
    [
      'an unknown name',
      { coordinates: ['lowerInerY'], lowerTriangle: [[]] },
      'correlations.coordinates[0]: unknown coordinate, got "lowerInerY" (allowed: lowerInnerY, lowerInnerZ, upperInnerY); did you mean lowerInnerY?',
    ],
    [
      'no half-width',
      { coordinates: ['upperInnerZ'], lowerTriangle: [[]] },
      'correlations.coordinates[0]: a coordinate without plusMinus, got "upperInnerZ"; write it as { value, plusMinus } at its point, or take it out here',
    ],
    [
      'a name twice',
      { coordinates: ['lowerInnerY', 'lowerInnerY'], lowerTriangle: [[], [1]] },
      'correlations.coordinates[1]: named twice',
    ],
    [
      'a row too few',
      { coordinates: ['lowerInnerY', 'lowerInnerZ'], lowerTriangle: [[]] },
      'correlations.lowerTriangle: not a row for each coordinate, got 1 row (allowed: 2 rows, the first one empty)',
    ],
    [
      'a square',
      { coordinates: ['lowerInnerY', 'lowerInnerZ'], lowerTriangle: [[1], [0, 1]] },
      'correlations.lowerTriangle[1]: not a correlation with each coordinate before it, got 2 numbers (allowed: 1 number)',
    ],
    [
      'more than 1',
      { coordinates: ['lowerInnerY', 'lowerInnerZ'], lowerTriangle: [[], [1.5]] },
      'correlations.lowerTriangle[1][0]: out of range, got 1.5',
    ],
    [
      'what contradicts itself',
      { coordinates: ['lowerInnerY', 'lowerInnerZ', 'upperInnerY'], lowerTriangle: [[], [0.9], [0.9, -0.9]] },
      'correlations.lowerTriangle: not correlations: a sum of coordinates would have a negative variance',
    ],
    [
      'a text',
      { coordinates: 'lowerInnerY', lowerTriangle: [[]] },
      'correlations.coordinates: wrong kind of value',
    ],
  ])('are refused with %s', (_, correlations, message) => {
    expect(errorOf(() => readCorner(cornerFile(correlations))).message).toContain(message);
    expect(() => readCar({ corners: { front: cornerFile(correlations) } })).toThrow(InputError);
  });

  it('are nothing for a corner that is exact', () => {
    const exact = cornerFile({ coordinates: [], lowerTriangle: [] });
    exact.lowerArm.inner = [255, 165];
    exact.upperArm.inner = [310, 355];
    expect(readCorner(exact).corner).not.toHaveProperty('plusMinus');
  });
});
