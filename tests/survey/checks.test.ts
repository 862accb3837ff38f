/** What a survey leaves to look at goes along with its corner, into the sheet of the car. */

import { readFileSync } from 'node:fs';
import {
  readCar,
  reportSheet,
  type Survey,
  type SurveyInput,
  sentence,
  sheetMarkdown,
  sizeCoilovers,
  survey,
  surveyedCorner,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { car } from '../coilover/cars.ts';
import { errors, planeSurvey, surveyWith } from './synthetic.ts';

const example = (): SurveyInput & { distances: { value: number }[] } =>
  JSON.parse(readFileSync(new URL('../../docs/examples/survey.json', import.meta.url), 'utf8'));
const checksOf = ({ diagnostics }: Survey) => diagnostics.filter(({ severity }) => severity === 'check');
const codesOf = (found: Survey) => checksOf(found).map(({ code }) => code);

describe('what a survey leaves to look at', () => {
  it('goes along with the corner, and into the notes and the sheet of a car', () => {
    const found = survey(example());
    const corner = surveyedCorner(found, { coilover: 'lowerArm' });
    expect(corner.checks?.map(({ code, severity, path }) => ({ code, severity, path }))).toEqual([
      { code: 'lengthSuspect', severity: 'check', path: 'distances[8]' },
      { code: 'readingsContradict', severity: 'check', path: '' },
    ]);
    expect(Object.isFrozen(corner.checks?.[0].values)).toBe(true);
    const read = readCar(car());
    const corners = { ...read.corners, front: { ...read.corners.front, corner } };
    for (const [units, figure] of [
      ['metric', '+8.1 mm'],
      ['imperial', '+0.32 in'],
    ] as const) {
      const sizing = sizeCoilovers({ ...read, units, corners });
      const checks = sizing.checks.filter(({ path }) => path === 'corners.front');
      expect(checks).toEqual(corner.checks?.map((one) => ({ ...one, path: 'corners.front' })));
      const [suspect, contradiction] = checks.map((one) => sentence(one, units));
      expect(suspect).toBe(
        `A reading of the survey is likely wrong, by ${figure}: distance from shock mount to lower outer (distances[8]); read it again, and the fore-aft places (x) of its ends, before anything is built on these points.`,
      );
      expect(contradiction).toMatch(
        /^The readings of the survey contradict each other, got a scatter \d\.\d times that stated, chi-square [\d.]+ with \d+ redundant readings; the intervals of its points are \d\.\d times as wide/,
      );
      expect(sheetMarkdown(reportSheet(sizing))).toMatch(/a reading of the survey is likely wrong/i);
    }
  });

  it('is nothing where the readings agree', () => {
    const again = example();
    again.distances[8].value = 136.5;
    const found = survey(again);
    expect(checksOf(found)).toEqual([]);
    expect(surveyedCorner(found, { coilover: 'lowerArm' })).not.toHaveProperty('checks');
  });

  it('is one of several, a mirror, or that nothing checks', () => {
    const triangle: SurveyInput = {
      points: { A: { known: [0, 0] }, B: { known: [400, 0] }, P: { estimate: [200, 50] } },
      distances: [
        { between: ['A', 'P'], value: 300 },
        { between: ['P', 'B'], value: 250 },
      ],
    };
    expect(codesOf(survey(triangle))).toEqual(['pointsMirrored', 'surveyUnchecked']);
    const checked = survey({ ...triangle, heights: [{ of: 'P', value: 197 }] });
    expect(codesOf(checked)).toEqual([...new Array(3).fill('lengthSuspect'), 'readingsContradict']);
    const [one, ...others] = checksOf(checked).slice(0, 3);
    expect(one.values.or).toEqual(others.map(({ path }) => path));
    expect(sentence(one)).toMatch(
      /^One reading of the survey is likely wrong, perhaps this one, by [+-]\d+\.\d mm: .*; nothing tells it from \w+\[\d\], \w+\[\d\]: read them again, or add a reading\.$/,
    );
  });

  it('is a fore-aft place', () => {
    const slipped = surveyWith(errors(6));
    const points = { ...slipped.points } as Record<string, unknown>;
    points.shockMount = { estimate: [500, 190], x: -15 - 100 };
    const found = survey({ ...slipped, points } as SurveyInput);
    const check = checksOf(found).filter(({ code }) => code === 'foreAftSuspect');
    expect(check).toEqual([
      {
        code: 'foreAftSuspect',
        severity: 'check',
        path: 'points.shockMount.x',
        values: { point: 'shockMount' },
      },
    ]);
    expect(sentence(check[0])).toContain('fore-aft place (x) of shock mount');
  });

  it('says where the complement of an angle fits', () => {
    const complement = planeSurvey(errors(3));
    complement.inclinations[0].value = 90 - complement.inclinations[0].value;
    const found = survey(complement);
    const [check] = checksOf(found);
    expect(check).toMatchObject({ code: 'angleSuspect', values: { fitsAsComplement: true } });
    expect(sentence(check)).toContain(
      'inclination of the line of shock mount and shock chassis mount (inclinations[0])',
    );
    expect(sentence(check)).toContain('90 deg minus the reading fits');
    const slope = surveyWith(() => 0);
    slope.slopes[0].value = -(90 + slope.slopes[0].value);
    expect(checksOf(survey(slope as SurveyInput))[0].values.fitsAsComplement).toBe(true);
    const wrong = planeSurvey(errors(3));
    wrong.inclinations[0].value += 20;
    expect(checksOf(survey(wrong))[0].values.fitsAsComplement).toBe(false);
  });
});
