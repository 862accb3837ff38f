/** The spring that is chosen: how near it comes to its target, and the one travel by which table and findings judge it. */
import * as fc from 'fast-check';
import { type Diagnostic, readCar, sentence, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import type { Json } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { carDocuments, front, sized, valueIn } from './cars.ts';

const codes = (springs: object[], more: object = {}) =>
  sized((document) => {
    Object.assign(document.corners.front.sizing, { springs }, more);
  }).conflicts.map(({ code }) => code);

describe('a spring far from its target', () => {
  it('is a conflict, with what it gives and what is required', () => {
    const { axles, conflicts } = sized((document) => {
      document.corners.front.sizing.springs = [
        { name: 'rock', rate: 9000, freeLength: 250, solidLength: 60 },
      ];
    });
    const far = conflicts.find(({ code }) => code === 'springFarFromTarget');
    expect([far?.severity, far?.path]).toEqual(['conflict', 'corners.front.sizing.springs']);
    const values = far?.values ?? {};
    expectWithin(values.requiredFrequency as number, 1.6, 1e-9);
    expectWithin(values.frequency as number, valueIn(axles[0], 'frequency'), 1e-9);
    expectWithin(values.deviation as number, valueIn(axles[0], 'frequency') / 1.6 - 1, 1e-9);
    expect(axles[0].springOptions[0].conflicts).toHaveLength(1);
  });

  it('is one more than 10 % off in frequency, about 20 % in rate', () => {
    const required = valueIn(front(), 'requiredSpringRate');
    const at = (share: number) =>
      codes([{ name: 'S', rate: required * share, freeLength: 260, solidLength: 60 }]);
    for (const share of [0.85, 1, 1.15]) expect(at(share)).toEqual([]);
    for (const share of [0.75, 1.3]) expect(at(share)).toEqual(['springFarFromTarget']);
  });

  it('is passed over for one nearer', () => {
    const required = valueIn(front(), 'requiredSpringRate');
    const axle = front((corner) => {
      corner.sizing.springs = [
        { name: 'soft', rate: required * 0.5, freeLength: 300, solidLength: 60 },
        { name: 'near', rate: required * 1.1, freeLength: 260, solidLength: 60 },
      ];
    });
    expect(axle.spring?.name).toBe('near');
    expect(axle.springOptions.map(({ conflicts }) => conflicts.length)).toEqual([0, 1]);
  });
});

describe('a spring too narrow for the body', () => {
  it('is a conflict', () => {
    const springs = [{ name: 'S', rate: 38, freeLength: 260, solidLength: 60, innerDiameter: 50 }];
    expect(codes(springs, { order: { bodyDiameter: 50 } })).toEqual(['springInnerDiameterSmall']);
    expect(codes(springs, { order: { bodyDiameter: 49 } })).toEqual([]);
  });
});

describe('the table of springs and the findings', () => {
  it('take one travel: an arch that ends it before the stop leaves a shorter spring enough', () => {
    const of = (arch: boolean) =>
      sized((document) => {
        const { front } = document.corners;
        front.sizing.springs = [{ name: 'S', rate: 40, freeLength: 205, minLength: 90 }];
        if (!arch) return;
        front.limits.tyre = { overallRadius: 300, width: 180 };
        front.limits.arch = [
          [600, 660],
          [800, 660],
        ];
      });
    const [without, with_] = [of(false).axles[0], of(true).axles[0]];
    expect(with_.limits.bump?.cause).toBe('tyreContact');
    expect(with_.springOptions[0].travelRequired).toBeLessThan(
      without.springOptions[0].travelRequired ?? Number.NaN,
    );
    for (const axle of [without, with_]) {
      expectWithin(
        axle.springOptions[0].travelRequired ?? Number.NaN,
        valueIn(axle, 'springTravelRequired'),
        1e-9,
      );
    }
  });

  it('agree on random cars: what fits raises nothing, what does not is a conflict', () => {
    const RAISED = ['springTravelShort', 'springFarFromTarget', 'springInnerDiameterSmall'];
    let seen = 0;
    fc.assert(
      fc.property(carDocuments, (document) => {
        const { axles, conflicts } = sizeCoilovers(readCar(document));
        for (const { axle, springOptions, spring } of axles) {
          if (springOptions.length === 0 || spring === null) continue;
          seen++;
          const raised = conflicts.filter(
            ({ code, path }) => path.startsWith(`corners.${axle}.`) && RAISED.includes(code),
          );
          const codesOf = (found: readonly Diagnostic[]) => found.map(({ code }) => code);
          expect(codesOf(raised)).toEqual(codesOf(springOptions[0].conflicts));
        }
      }),
      { numRuns: 30 },
    );
    expect(seen).toBeGreaterThan(10);
  });
});

describe('the perch setting', () => {
  const perchOf = (change: (corner: Json) => void) => front(change).figure('perchSetting').value;
  const springs = [{ name: 'S', rate: 40, freeLength: 260, solidLength: 60 }];

  it('and the length of the spring make up the length between the eyes', () => {
    const axle = front(({ sizing }) => {
      sizing.springs = springs;
    });
    // From (505, 170) to (345, 560) as drawn.
    const length = Math.hypot(505 - 345, 170 - 560);
    expectWithin(valueIn(axle, 'perchSetting') + valueIn(axle, 'staticSpringLength'), length, 1e-9);
  });

  it('is not known where it is not given and the corner does not stand on its spring', () => {
    const bound = (perch?: object) => {
      const axle = front(({ sizing }) => {
        sizing.springs = [{ name: 'short', rate: 40, freeLength: 150, solidLength: 110 }];
        if (perch !== undefined) sizing.perch = perch;
      });
      expect(axle.figure('staticTravel').value).toBeNull();
      return axle.figure('perchSetting').value;
    };
    expect(bound({ threadPitch: 1.5 })).toBeNull();
    expect(bound()).toBeNull();
  });

  it('is as given, but not known without the free length of the spring, whether the corner stands on it or not', () => {
    const perch = { setting: 180 };
    const standing = (corner: Json) => Object.assign(corner.sizing, { perch });
    const leaning = (corner: Json) => {
      // Under this coilover the force of the spring turns the wheel rate negative.
      corner.coilover = { on: 'lowerArm', mount: [450, 170], chassisMount: [620, 430] };
      corner.limits = {};
      delete corner.sizing.bumpStopTable;
      Object.assign(corner.sizing, { perch, target: { springRate: 15 } });
    };
    expect(front(standing).figure('staticTravel').value).toBe(0);
    expect(perchOf(standing)).toBeNull();
    expect(front(leaning).figure('staticTravel').value).toBeNull();
    expect(perchOf(leaning)).toBeNull();
    const measured = (corner: Json) => {
      leaning(corner);
      corner.sizing.springs = [{ name: 'S', rate: 15, freeLength: 260, solidLength: 60 }];
    };
    expect(front(measured).figure('staticTravel').value).toBeNull();
    expect(perchOf(measured)).toBe(180);
  });
});

it('a spring about right in the other unit is asked about', () => {
  const advice = (rate: number) =>
    front((corner) => {
      corner.sizing.springs = [{ name: 'S', rate, freeLength: 260, solidLength: 90 }];
    });
  const found = (rate: number) =>
    sized((document) => {
      document.corners.front.sizing.springs = [{ name: 'S', rate, freeLength: 260, solidLength: 90 }];
    })
      .conflicts.filter(({ code }) => code === 'springFarFromTarget')
      .map((one) => sentence(one))
      .join();
  const required = valueIn(advice(40), 'requiredSpringRate');
  expect(found(5.71 * required)).toContain('is the rate written in lbf/in?');
  expect(found(3 * required)).not.toContain('lbf/in');
});
