/** What a survey leaves to look at goes along with its corner, into the sheet of the car. */

import { readFileSync } from 'node:fs';
import {
  readCar,
  reportSheet,
  type Survey,
  type SurveyInput,
  sheetMarkdown,
  sizeCoilovers,
  survey,
  surveyedCorner,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/diagnostic.ts';
import { worded } from '../../src/sentences/worded.ts';
import { surveyChecks } from '../../src/survey/checks.ts';
import { car } from '../coilover/cars.ts';
import { errors, planeSurvey, surveyWith } from './synthetic.ts';

const example = (): SurveyInput & { distances: { value: number }[] } =>
  JSON.parse(readFileSync(new URL('../../docs/examples/survey.json', import.meta.url), 'utf8'));
const codesOf = (found: Survey) => surveyChecks(found).map(({ code }) => code);

describe('what a survey leaves to look at', () => {
  it('goes along with the corner, and into the notes and the sheet of a car', () => {
    const found = survey(example());
    const corner = surveyedCorner(found, { coilover: 'lowerArm' });
    expect(corner.checks?.map(({ code, severity, path }) => ({ code, severity, path }))).toEqual([
      { code: 'surveySuspect', severity: 'check', path: 'distances[8]' },
      { code: 'surveyContradiction', severity: 'check', path: '' },
    ]);
    expect(Object.isFrozen(corner.checks?.[0].values)).toBe(true);
    const read = readCar(car());
    const corners = { ...read.corners, front: { ...read.corners.front, corner } };
    for (const [units, figure] of [
      ['metric', '+8.1 mm'],
      ['imperial', '+0.32 inch'],
    ] as const) {
      const sizing = sizeCoilovers({ ...read, units, corners });
      const notes = sizing.checks.filter(({ text }) => text.includes('survey'));
      expect(notes.map(({ path }) => path)).toEqual(['corners.front', 'corners.front']);
      expect(notes[0].text).toBe(
        `a reading of the survey is likely wrong: distance from shock mount to lower outer (distances[8]), got ${figure} against all others; read it again before anything is built on these points.`,
      );
      expect(notes[1].text).toMatch(
        /^the readings of the survey contradict each other, got a scatter \d\.\d times that stated, with \d+ redundant readings; the intervals of its points are \d\.\d times as wide/,
      );
      expect(sheetMarkdown(reportSheet(sizing))).toContain('a reading of the survey is likely wrong');
    }
  });

  it('is nothing where the readings agree', () => {
    const again = example();
    again.distances[8].value = 136.5;
    const found = survey(again);
    expect(surveyChecks(found)).toEqual([]);
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
    expect(codesOf(survey(triangle))).toEqual(['surveyMirrored', 'surveyUnchecked']);
    const checked = survey({ ...triangle, heights: [{ of: 'P', value: 197 }] });
    expect(codesOf(checked)).toEqual(['surveySuspects', 'surveyContradiction']);
  });

  it('is a fore-aft place', () => {
    const slipped = surveyWith(errors(6));
    const points = { ...slipped.points } as Record<string, unknown>;
    points.shockMount = { estimate: [500, 190], x: -15 - 100 };
    const found = survey({ ...slipped, points } as SurveyInput);
    const check = surveyChecks(found).find(({ code }) => code === 'surveyForeAft');
    expect(check).toEqual({
      code: 'surveyForeAft',
      severity: 'check',
      path: 'points.shockMount.x',
      values: { point: 'shockMount' },
    });
    expect(worded(check as Diagnostic, 'metric').problem).toContain('the fore-aft place (x) of shock mount');
  });

  it('says where the complement of an angle fits', () => {
    const complement = planeSurvey(errors(3));
    complement.inclinations[0].value = 90 - complement.inclinations[0].value;
    const found = survey(complement);
    expect(found.sentences.join(' ')).toContain(
      'inclination of the line of shock mount and shock chassis mount (inclinations[0])',
    );
    expect(found.sentences.join(' ')).toContain('90 degrees minus the reading fits');
    const [check] = surveyChecks(found);
    expect(check).toMatchObject({ code: 'surveySuspect', values: { fitsAsComplement: true } });
    const slope = surveyWith(() => 0);
    slope.slopes[0].value = -(90 + slope.slopes[0].value);
    expect(survey(slope as SurveyInput).sentences.join(' ')).toContain('90 degrees minus the reading fits');
    const wrong = planeSurvey(errors(3));
    wrong.inclinations[0].value += 20;
    expect(survey(wrong).sentences.join(' ')).not.toContain('90 degrees');
  });
});
