import {
  axle,
  doubleWishbone,
  equilibrium,
  perchMoves,
  rollStiffness,
  steadyCornering,
  sweepAxle,
  torsionalStiffness,
} from 'jounce';
import { describe, it } from 'vitest';
import { refusedFor } from '../support/refused.ts';
import { expectSame } from '../support/tolerance.ts';
import { CAR, COILOVER } from './car.ts';
import { BAR as bar, CORNER as left } from './roadster.ts';

describe('what is no axle', () => {
  it('is refused with its place', () => {
    expectSame(
      refusedFor(() => axle({ left: 3 } as never)),
      ['notACorner kind'],
    );
    expectSame(
      refusedFor(() => axle({ left, rigt: left } as never)),
      ['unknownOption rigt'],
    );
    expectSame(
      refusedFor(() => axle({ left, bar: { ...bar, on: 'lowerArn' } })),
      ['unknownName bar.on'],
    );
    expectSame(
      refusedFor(() => axle({ left, bar: { ...bar, leverLength: 0, linkMount: [1] } } as never)),
      ['wrongType linkMount', 'outOfRange leverLength'],
    );
    // A drop link that lies across the car cannot turn the lever.
    expectSame(
      refusedFor(() => axle({ left, bar: { ...bar, leverEnd: [300, 160] } })),
      ['leverOverCentre linkMount'],
    );
    expectSame(
      refusedFor(() => torsionalStiffness({ diameter: 20, length: -1 })),
      ['outOfRange length'],
    );
    expectSame(
      refusedFor(() => torsionalStiffness({ diameter: 20, innerDiameter: 20, length: 800 })),
      ['outOfRange innerDiameter'],
    );
  });
});

describe('where an axle can’t be asked', () => {
  it('is refused with its place', () => {
    const whole = axle({ left, bar });
    expectSame(
      refusedFor(() => sweepAxle(whole, { heave: [], roll: [Number.NaN], along: 'line' } as never)),
      ['notPlaces heave', 'notPlaces roll', 'unknownChoice along'],
    );
    expectSame(
      refusedFor(() => sweepAxle(whole, { roll: [31] })),
      ['rollTooLarge roll'],
    );
    expectSame(
      refusedFor(() => sweepAxle(whole, { heave: [1, 2], roll: [0], along: 'path' })),
      ['pathLengthsDiffer roll'],
    );
    const many = Array.from({ length: 1001 }, (_, k) => k / 1000);
    expectSame(
      refusedFor(() => sweepAxle(whole, { heave: many, roll: many })),
      ['tooManyPoses'],
    );
    expectSame(
      refusedFor(() => rollStiffness(whole, { roll: 40, left: { rate: 1, force: Number.NaN } })),
      ['rollTooLarge roll', 'notFinite left.force'],
    );
    expectSame(
      refusedFor(() => rollStiffness(whole, {} as never)),
      ['notOptions left', 'notFinite left.rate', 'notFinite left.force'],
    );
  });
});

describe('what is no car', () => {
  const { front } = CAR;
  const sprungCentreOfGravityHeight = 450;

  it('is refused with all that is wrong', () => {
    expectSame(
      refusedFor(() => equilibrium(null as never)),
      ['notOptions'],
    );
    expectSame(
      refusedFor(() => equilibrium({ sprungCentreOfGravityHeight: 0, wheelbase: -1, frnt: front } as never)),
      [
        'unknownOption frnt',
        'outOfRange sprungCentreOfGravityHeight',
        'outOfRange wheelbase',
        'carWithoutAxle front',
      ],
    );
    const broken = {
      linkage: left,
      unsprungMass: -1,
      tyreRate: Number.NaN,
      left: {
        springForce: 3000,
        freeLength: 240,
        bumpStop: {
          height: 30,
          table: [
            [6, 300],
            [5, 400],
          ],
        },
      },
      right: { springRate: 40, damper: { extendedLength: 380 }, perchSetting: 3, gasForce: -1 },
    };
    expectSame(
      refusedFor(() => equilibrium({ front: broken, sprungCentreOfGravityHeight } as never)),
      [
        'notAnAxle front.linkage',
        'missingNumber front.sprungMass',
        'outOfRange front.unsprungMass',
        'notFinite front.tyreRate',
        'missingNumber front.left.springRate',
        'missing front.left.perchSetting',
        'forceAndFreeLength front.left.springForce',
        'notARisingTable front.left.bumpStop.table',
        'stopWithoutDamper front.left.bumpStop',
        'missingNumber front.right.freeLength',
        'outOfRange front.right.gasForce',
        'missingNumber front.right.damper.compressedLength',
      ],
    );
  });

  it('is refused where its coilovers do not fit as drawn', () => {
    const damper = { extendedLength: 340, compressedLength: 260 };
    expectSame(
      refusedFor(() =>
        equilibrium({ front: { ...front, right: { ...COILOVER, damper } }, sprungCentreOfGravityHeight }),
      ),
      ['damperNotAtRide front.right.damper'],
    );
    const upside = doubleWishbone({
      lowerArm: { inner: [231, 148], outer: [628, 139] },
      upperArm: { inner: [287, 342], outer: [591, 361] },
      wheel: { centre: [694, 301], camber: -1 },
      coilover: { on: 'lowerArm', mount: [497, 158], chassisMount: [470, -90] },
    });
    expectSame(
      refusedFor(() =>
        equilibrium({
          front: { ...front, linkage: axle({ left: upside }), left: { springRate: 40 } },
          sprungCentreOfGravityHeight,
        }),
      ),
      ['carriesNothingAtRide front.left', 'carriesNothingAtRide front.left'],
    );
  });

  it('has no loads, turns or poses that cannot be', () => {
    const { wheelbase: _wheelbase, ...short } = CAR;
    expectSame(
      refusedFor(() =>
        equilibrium(short, {
          lateralAcceleration: 11,
          deceleration: 1,
          longitudinalTransfer: 3,
          lateralSplit: 'half',
          downforce: { frnt: 1 },
        } as never),
      ),
      [
        'outOfRange lateralAcceleration',
        'decelerationAndTransfer longitudinalTransfer',
        'wheelbaseMissing deceleration',
        'unknownOption downforce.frnt',
        'unknownChoice lateralSplit',
      ],
    );
    const { rear: _rear, ...single } = CAR;
    expectSame(
      refusedFor(() => equilibrium(single, { longitudinalTransfer: 300 })),
      ['oneAxleOnly longitudinalTransfer'],
    );
    expectSame(
      refusedFor(() =>
        steadyCornering(CAR, { lateralAccelerations: [0, Number.NaN], lateralSplit: 3 } as never),
      ),
      ['unknownChoice lateralSplit', 'notAccelerations lateralAccelerations'],
    );
    expectSame(
      refusedFor(() => steadyCornering(CAR, null as never)),
      ['notOptions'],
    );
    expectSame(
      refusedFor(() =>
        perchMoves(CAR, { roll: 31, crossWeight: 2, threadPitch: 0, heave: { front: Number.NaN } }),
      ),
      ['notFinite heave.front', 'rollTooLarge roll', 'outOfRange crossWeight', 'outOfRange threadPitch'],
    );
  });
});
