/** The conflicts of a bought coilover once its perches and spring are as the advice has them: which are cured, which remain. */
import { type Diagnostic, readCar, type Sizing, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import type { Json } from '../document/support.ts';
import { weighedCar } from './bought.ts';

type Change = (front: Json, document: Json) => void;

const sized = (...changes: Change[]): Sizing =>
  sizeCoilovers(
    readCar(
      weighedCar((document) => {
        for (const change of changes) change(document.corners.front, document);
      }),
    ),
  );

/** The target is what the bought spring gives: no other spring is advised. */
const asBought: Change = ({ sizing }) => {
  sizing.target = { springRate: 50.3 };
};
/** More travel is required than the damper has. */
const tooMuchBump: Change = ({ limits }) => {
  limits.required = { bump: 200, droop: 20 };
};
const noSetting: Change = ({ ordered }) => {
  delete ordered.perch.setting;
};
const reset: Change = (_, { masses }) => {
  masses.scales.perches = 'reset';
};

const advised = ({ conflicts }: Sizing) =>
  conflicts.map(({ code, values }): [string, unknown] => [code, values.afterAdvice]);
const settingsOf = ({ axles: [{ afterOrder }] }: Sizing) =>
  (afterOrder?.wheels ?? []).map(({ perch, perchWithChange }) => (perchWithChange ?? perch)?.requiredSetting);

describe('a conflict of a bought coilover', () => {
  it.each<[string, Change[], [string, string][]]>([
    [
      'is cured by the perches alone',
      [asBought],
      [
        ['ridesOnBumpStop', 'cured'],
        ['bumpTravelShort', 'cured'],
      ],
    ],
    [
      'is cured by another spring',
      [],
      [
        ['ridesOnBumpStop', 'cured'],
        ['bumpTravelShort', 'cured'],
      ],
    ],
    [
      'remains where the travel is too short wherever the car stands',
      [asBought, tooMuchBump],
      [
        ['ridesOnBumpStop', 'cured'],
        ['bumpTravelShort', 'remains'],
      ],
    ],
  ])('%s, and so it is once the file has what is advised', (_, changes, judged) => {
    const before = sized(...changes);
    expect(advised(before)).toEqual(judged);
    const [left, right] = settingsOf(before);
    const spring = before.axles[0].afterOrder?.change?.spring;
    const after = sized(...changes, ({ ordered }) => {
      Object.assign(ordered.perch, { left, right, setting: ((left ?? 0) + (right ?? 0)) / 2 });
      if (spring !== undefined) ordered.spring = { ...ordered.spring, rate: spring.rate };
    });
    const codes = judged.filter(([, how]) => how === 'remains').map(([code]) => code);
    expect(after.conflicts.map(({ code }) => code)).toEqual(codes);
  });

  it('remains where the thread of the perch does not reach ride height', () => {
    const within = ({ conflicts }: Sizing) =>
      conflicts.filter(({ code }) => code !== 'perchOutOfThread').map(({ values }) => values.afterAdvice);
    const max = (reach: number): Change => {
      return ({ ordered }) => Object.assign(ordered.perch, { max: reach });
    };
    const [left = 0, right = 0] = settingsOf(sized(asBought)).map((setting) => setting ?? Number.NaN);
    expect(right).toBeLessThan(left);
    expect(within(sized(asBought, max(left + 1)))).toEqual(['cured', 'cured']);
    for (const reach of [right - 1, (left + right) / 2]) {
      expect(within(sized(asBought, max(reach)))).toEqual(['remains', 'remains']);
    }
  });

  it('says whether the car was weighed, and the axles that get another spring', () => {
    const values = (sizing: Sizing) => {
      const { weighed, newSprings } = sizing.conflicts[0].values;
      return { weighed, newSprings };
    };
    expect(values(sized())).toEqual({ weighed: true, newSprings: ['front'] });
    expect(values(sized(asBought))).toEqual({ weighed: true, newSprings: [] });
    const estimated: Change = (_, { masses }) => {
      delete masses.scales;
      masses.estimate = { total: 731, frontFraction: 0.4856 };
    };
    expect(values(sized(asBought, estimated))).toEqual({ weighed: false, newSprings: [] });
  });
});

describe('no conflict is judged', () => {
  const unjudged = ({ conflicts }: Sizing) => {
    expect(conflicts.map(({ code }) => code)).toEqual(['bumpTravelShort']);
    return conflicts.every(({ values }) => !('afterAdvice' in values));
  };

  it('where every perch is right as it is, or its setting is not known', () => {
    expect(unjudged(sized(asBought, tooMuchBump, noSetting, reset))).toBe(true);
    expect(unjudged(sized(asBought, tooMuchBump, noSetting))).toBe(true);
  });

  it('but where one perch of two is to be turned, or only the spring is to be changed', () => {
    const [left] = settingsOf(sized(asBought, tooMuchBump));
    const half = sized(asBought, tooMuchBump, ({ ordered }) => {
      ordered.perch.left = left;
    });
    expect(half.axles[0].afterOrder?.wheels.map(({ perch }) => perch?.move === 0)).toEqual([true, false]);
    expect(advised(half)).toContainEqual(['bumpTravelShort', 'remains']);
    expect(unjudged(sized(tooMuchBump, noSetting))).toBe(false);
  });

  it('on an axle of which nothing was bought, or where the spring that is replaced ends the travel', () => {
    const judgedOn = (sizing: Sizing, on: (conflict: Diagnostic) => boolean) =>
      sizing.conflicts.filter(on).map(({ values }) => 'afterAdvice' in values);
    const both = sized(asBought, tooMuchBump, (_, { corners }) => {
      corners.rear.limits.required = { bump: 200, droop: 20 };
    });
    expect(judgedOn(both, ({ path }) => path.startsWith('corners.rear.'))).toEqual([false]);
    const short = sized(({ ordered, sizing }) => {
      ordered.spring.minLength = 170;
      sizing.springs = [{ name: 'soft', rate: 41, freeLength: 240, minLength: 60 }];
    });
    expect(judgedOn(short, ({ values }) => values.cause === 'springMinLength')).toEqual([false]);
    expect(judgedOn(short, ({ code }) => code === 'ridesOnBumpStop')).toEqual([true]);
  });
});
