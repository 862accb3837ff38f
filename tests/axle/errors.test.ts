import { axle, InputError, rollStiffness, sweepAxle, torsionalStiffness } from 'jounce';
import { describe, it } from 'vitest';
import { expectSame } from '../support/tolerance.ts';
import { BAR as bar, CORNER as left } from './roadster.ts';

/** What is refused: code and place of each issue. */
function codes(run: () => unknown): string[] {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error.issues.map(({ code, path }) => `${code} ${path}`.trim());
    throw error;
  }
  return [];
}

describe('what is no axle', () => {
  it('is refused with its place', () => {
    expectSame(
      codes(() => axle({ left: 3 } as never)),
      ['notACorner kind'],
    );
    expectSame(
      codes(() => axle({ left, rigt: left } as never)),
      ['unknownOption rigt'],
    );
    expectSame(
      codes(() => axle({ left, bar: { ...bar, on: 'lowerArn' } })),
      ['unknownName bar.on'],
    );
    expectSame(
      codes(() => axle({ left, bar: { ...bar, leverLength: 0, linkMount: [1] } } as never)),
      ['wrongType linkMount', 'outOfRange leverLength'],
    );
    // A drop link that lies across the car cannot turn the lever.
    expectSame(
      codes(() => axle({ left, bar: { ...bar, leverEnd: [300, 160] } })),
      ['leverOverCentre bar.linkMount'],
    );
    expectSame(
      codes(() => torsionalStiffness({ diameter: 20, length: -1 })),
      ['outOfRange length'],
    );
    expectSame(
      codes(() => torsionalStiffness({ diameter: 20, innerDiameter: 20, length: 800 })),
      ['outOfRange innerDiameter'],
    );
  });
});

describe('where an axle can’t be asked', () => {
  it('is refused with its place', () => {
    const whole = axle({ left, bar });
    expectSame(
      codes(() => sweepAxle(whole, { heave: [], roll: [Number.NaN], along: 'line' } as never)),
      ['notPlaces heave', 'notPlaces roll', 'unknownChoice along'],
    );
    expectSame(
      codes(() => sweepAxle(whole, { roll: [31] })),
      ['rollTooLarge roll'],
    );
    expectSame(
      codes(() => sweepAxle(whole, { heave: [1, 2], roll: [0], along: 'path' })),
      ['pathLengthsDiffer roll'],
    );
    const many = Array.from({ length: 1001 }, (_, k) => k / 1000);
    expectSame(
      codes(() => sweepAxle(whole, { heave: many, roll: many })),
      ['tooManyPoses'],
    );
    expectSame(
      codes(() => rollStiffness(whole, { roll: 40, left: { rate: 1, force: Number.NaN } })),
      ['rollTooLarge roll', 'notFinite left.force'],
    );
    expectSame(
      codes(() => rollStiffness(whole, {} as never)),
      ['notOptions left', 'notFinite left.rate', 'notFinite left.force'],
    );
  });
});
