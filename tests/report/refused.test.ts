/** What is no result of the function that makes it, and options that no picture has: refused at the first, with what was meant. */
import * as jounce from 'jounce';
import { describe, expect, it } from 'vitest';
import { CORNER } from '../axle/roadster.ts';
import { refusedFor } from '../support/refused.ts';

const swept = jounce.sweep(CORNER, { bump: 20, droop: 20, step: 20 });
const hand = jounce.handMethod(CORNER);
if (!hand.defined) throw new Error('the corner of the tests has a hand figure');
const damping = [{ speed: 100, compression: 200, rebound: 300 }];

/** Functions of a result, and options that they take. */
const TAKING: Readonly<Record<string, (result: never, options?: never) => unknown>> = {
  ...jounce,
  drawCorner: (sweep: never, options: never) => jounce.drawCorner(CORNER, sweep, options),
  drawSweep: (sweep: never, options: never) => jounce.drawSweep(CORNER, sweep, options),
  drawDesign: (made: never, options: never) => jounce.drawDesign(CORNER, made, options),
  drawForces: (one: never, options: never) => jounce.drawForces(CORNER, one, options),
  'compareSizings, the second': (after: never) =>
    jounce.compareSizings({ axles: [], conflicts: [], openQuestions: [] } as never, after),
} as never;

const NAMES = [
  'adviceLines compareSizings comparisonSheet describeIssue describeSweepEnd drawCorner drawDesign drawForces drawResiduals drawSweep',
  'issueLines orderSheet plotCurves plotHandMethod reportSheet sentence sheetData sheetHtml sheetJson sheetMarkdown sizingSummary',
  'sweepCsv sweepTable vegaCurves',
].flatMap((line) => line.split(' '));

describe.each([...NAMES, 'compareSizings, the second'])('%s', (name) => {
  it('refuses what is not the result it takes', () => {
    for (const other of [undefined, null, 7, 'a text', {}, { axles: 3 }]) {
      expect([other, refusedFor(() => TAKING[name](other as never))]).toEqual([other, ['notAResult']]);
    }
  });
});

describe('a corner', () => {
  it('that was copied is what it was, and one with a part missing is refused by the place of the part', () => {
    const copy = structuredClone(CORNER);
    expect(jounce.sweep(copy, { bump: 20, droop: 20, step: 20 }).rows()).toEqual(swept.rows());
    const { lowerArm: _, ...part } = copy;
    expect(refusedFor(() => jounce.sweep(part as never))).toEqual(['missing lowerArm']);
    const broken = { ...copy, upperArm: { ...copy.upperArm, outer: [1] } };
    expect(refusedFor(() => jounce.limits(broken as never))).toEqual(['wrongType upperArm.outer']);
  });

  it('has the arms of two wishbones where their lengths are changed', () => {
    expect(refusedFor(() => jounce.changeArmLengths({ kind: 'strut' } as never, {}))).toEqual([
      'notACorner kind',
    ]);
  });
});

describe('numbers that are none', () => {
  it('are refused, big integers and symbols too', () => {
    const whole = jounce.axle({ left: CORNER });
    const spring = { rate: 30, force: 2000 };
    const strange = [10n, Symbol('s'), [], 'a text'];
    for (const one of strange) {
      const refused = [
        refusedFor(() => jounce.drawCorner(CORNER, [one as never])),
        refusedFor(() => jounce.rollStiffness(whole, { left: spring, roll: one as never })),
        refusedFor(() => jounce.approximationLabel(one as never)),
      ];
      expect(refused).toEqual([['notFinite [0]'], ['notFinite roll'], ['unknownChoice approximation']]);
    }
    const design = {
      mounts: { shockMount: { z: [100, 200] } },
      objectives: [{ quantity: 'maxLength', max: 400 }],
    };
    expect(refusedFor(() => jounce.design(CORNER, { ...design, travel: { bump: 10n } } as never))).toEqual([
      'notADistance travel.bump',
    ]);
    expect(refusedFor(() => jounce.changeArmLengths(CORNER, null as never))).toEqual(['notOptions']);
    expect(refusedFor(() => jounce.adviceLines([null] as never))).toEqual(['notAResult']);
  });

  it('are those of no car: they would be looked for a long way', () => {
    expect(
      refusedFor(() => jounce.limits(CORNER, { bumpStop: { height: 1e9, solidHeight: 10 } } as never)),
    ).toContain('noMeasureOfACar bumpStop.height');
  });
});

describe('options of a picture', () => {
  it('are refused where no picture has them, or with other values', () => {
    const looks = {
      titel: 'A',
      title: 3,
      units: 'inch',
      bodyEnd: 'left',
      tyreWidth: -1,
      rimDiameter: Number.NaN,
    };
    expect(refusedFor(() => jounce.drawCorner(CORNER, swept, looks as never))).toEqual([
      'unknownOption titel',
      'notATitle title',
      'unknownChoice units',
      'unknownChoice bodyEnd',
      'outOfRange tyreWidth',
      'outOfRange rimDiameter',
    ]);
    for (const draw of [
      () => jounce.drawSweep(CORNER, swept, { units: 3 } as never),
      () => jounce.plotCurves(swept, { units: 3 } as never),
      () => jounce.plotHandMethod(hand, { units: 3 } as never),
      () => jounce.plotDampingForce(damping, 'Damping', { units: 3 } as never),
      () => jounce.drawAxle(jounce.axle({ left: CORNER }), { units: 3 } as never),
      () => jounce.sweepCsv(swept, { units: 3 } as never),
      () => jounce.vegaCurves(swept, { units: 3 } as never),
      () => jounce.sweepTable(swept, undefined, 3 as never),
      () => jounce.describeSweepEnd(swept.end.bump, 3 as never),
    ]) {
      expect(refusedFor(draw)).toEqual(['unknownChoice units']);
    }
    expect(refusedFor(() => jounce.sweepTable(swept, 'camber' as never))).toEqual([
      'notAListOfColumns columns',
    ]);
  });

  it('are those of a force table', () => {
    const rows = [...damping, { speed: 1, compression: 'x', rebound: 2 }];
    expect(refusedFor(() => jounce.plotDampingForce(rows as never, 3 as never))).toEqual([
      'notDampingRows [1]',
      'notATitle title',
    ]);
  });
});
