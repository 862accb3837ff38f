/**
 * Sensitivities, bands and Monte Carlo of an axle. Judges: the exact sensitivities of a corner, level and rolled; central differences of
 * `sweepAxle` of axles put together by hand; a swing axle in closed form; the law of propagation (JCGM 100:2008, sec. 5.1.2, from memory) against
 * many draws.
 */

import * as fc from 'fast-check';
import {
  axle,
  axleMonteCarlo,
  axleSensitivities,
  axleSensitivityRanking,
  axleUncertaintyBands,
  doubleWishbone,
  InputError,
  type PlusMinus,
  sensitivities,
  sweepAxle,
  uncertaintyBands,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { unlikeArms } from '../support/corners.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import { REAR_CORNER } from './car.ts';
import { BAR, CORNER, PATCH, PIVOT, SWING_AXLE } from './roadster.ts';
import { ROCKERS } from './rockers.ts';

const DEGREE = Math.PI / 180;
/** Roundings of sweeps over a fiftieth of a mm, in the unit of a column of some hundreds. */
const DIFFERENCED = 1e-9;
const MIRRORED = axle({ left: CORNER, bar: BAR });

describe('the sensitivities of an axle', () => {
  it('level are those of its corner, which stands on both sides', () => {
    fc.assert(
      fc.property(unlikeArms.map(doubleWishbone), (left) => {
        const { by, heave } = axleSensitivities(axle({ left }), { heave: [-20, 0, 20], roll: [0] });
        fc.pre(heave.length === 3);
        const apart = sensitivities(left, { bump: 20, droop: 20, step: 20 });
        fc.pre(apart.travel.length === 3);
        expectSame(Object.keys(by), Object.keys(apart.by));
        for (const [name, columns] of Object.entries(by)) {
          for (const [column, own, scale] of [
            ['ShockLength', 'shockLength', 1],
            ['InstallationRatio', 'installationRatio', 0.01],
            ['InstallationRatioSlope', 'installationRatioSlope', 0.01],
            ['Camber', 'camber', 1],
          ] as const) {
            for (const row of [0, 1, 2]) {
              const exact = apart.by[name][own][row] as number;
              for (const side of ['left', 'right'] as const)
                expectWithin(
                  columns[side + column][row] as number,
                  exact,
                  DIFFERENCED * (scale + Math.abs(exact)),
                );
            }
          }
        }
      }),
      { numRuns: 10 },
    );
  });

  it('rolled have the wheel go with its half-track: dz = -s tan p dy ÷ (1 + s y′ tan p), exactly', () => {
    const pose = { heave: [12], roll: [3] };
    const [row] = sweepAxle(MIRRORED, pose).rows();
    const { by } = axleSensitivities(MIRRORED, pose);
    for (const [side, way] of [
      ['left', 1],
      ['right', -1],
    ] as const) {
      const travel = row[`${side}Travel`];
      const lean = way * Math.tan(3 * DEGREE);
      const level = { bump: Math.max(0, travel), droop: Math.max(0, -travel), step: 200 };
      const exact = sensitivities(CORNER, level);
      const at = exact.travel.indexOf(travel);
      const heaved = row[`${side}TravelByHeave`];
      for (const [name, columns] of Object.entries(by)) {
        if (name.startsWith('bar')) {
          expectSame([columns[`${side}Travel`][0], columns[`${side}ShockLength`][0]], [0, 0]);
          continue;
        }
        const of = (column: string) => exact.by[name][column][at] as number;
        const moved = -lean * of('contactPatchY') * heaved;
        expectWithin(columns[`${side}Travel`][0] as number, moved, DIFFERENCED);
        expectWithin(
          columns[`${side}ShockLength`][0] as number,
          of('shockLength') - row[`${side}InstallationRatio`] * moved,
          DIFFERENCED,
        );
        expectWithin(
          columns[`${side}InstallationRatio`][0] as number,
          of('installationRatio') + row[`${side}InstallationRatioSlope`] * moved,
          DIFFERENCED,
        );
      }
    }
  });

  it('have the roll centre of a swing axle on the line from its patch through its pivot', () => {
    // h = z_O y_P / (y_P - y_O).
    const { by } = axleSensitivities(axle({ left: SWING_AXLE }), { heave: [0], roll: [0] });
    const reach = PATCH[0] - PIVOT[0];
    expectWithin(by.pivotZ.rollCentreHeight[0] as number, PATCH[0] / reach, DIFFERENCED);
    expectWithin(by.pivotY.rollCentreHeight[0] as number, (PIVOT[1] * PATCH[0]) / reach ** 2, DIFFERENCED);
    expectSame(by.pivotY.rollCentreY[0], 0);
  });

  it('of a corner on both sides are the sums of those of the sides apart', () => {
    const poses = { heave: [-15, 0, 25], roll: [-2, 2] };
    const both = axleSensitivities(MIRRORED, poses).by;
    const apart = axleSensitivities(axle({ left: CORNER, right: { ...CORNER }, bar: BAR }), poses).by;
    for (const [name, columns] of Object.entries(both)) {
      if (name.startsWith('bar')) continue;
      const own = name[0].toUpperCase() + name.slice(1);
      for (const [column, values] of Object.entries(columns)) {
        values.forEach((value, row) => {
          const [left, right] = [apart[`left${own}`], apart[`right${own}`]].map(
            (of) => of[column][row] as number,
          );
          expectWithin(value as number, left + right, 1e-7 * (1 + Math.abs(left) + Math.abs(right)));
        });
      }
    }
  });

  it('are central differences of axles put together by hand: bar across, bar along, springs between', () => {
    const rocker = (plus: Readonly<Record<string, number>>) => {
      const of = (name: string) => plus[name] ?? 0;
      return axle({
        left: ROCKERS,
        bar: {
          on: 'rocker',
          linkMount: [320 + of('barLinkMountY'), 480],
          axis: [0, 470 + of('barAxisZ')],
          leverEnd: [10, 540 + of('barLeverEndZ')],
          torsionalStiffness: 20,
        },
        thirdSpring: { on: 'rocker', mount: [340 + of('thirdSpringMountY'), 520], rate: 40 },
        rollSpring: {
          on: 'rocker',
          mount: [350, 530 + of('rollSpringLeftMountZ')],
          right: { on: 'rocker', mount: [395 + of('rollSpringRightMountY'), 380] },
          rate: 30,
        },
      });
    };
    const across = (plus: Readonly<Record<string, number>>) => {
      const of = (name: string) => plus[name] ?? 0;
      return axle({
        left: CORNER,
        right: REAR_CORNER,
        bar: {
          ...BAR,
          linkMount: [BAR.linkMount[0], BAR.linkMount[1] + of('barLinkMountZ')],
          leverEnd: [BAR.leverEnd[0] + of('barLeverEndY'), BAR.leverEnd[1]],
          leverLength: BAR.leverLength + of('barLeverLength'),
        },
      });
    };
    const h = 0.01;
    const pose = { heave: [18], roll: [1.7] };
    for (const [build, names] of [
      [
        rocker,
        [
          'barLinkMountY',
          'barAxisZ',
          'barLeverEndZ',
          'thirdSpringMountY',
          'rollSpringLeftMountZ',
          'rollSpringRightMountY',
        ],
      ],
      [across, ['barLinkMountZ', 'barLeverEndY', 'barLeverLength']],
    ] as const) {
      const { by, info } = axleSensitivities(build({}), pose);
      for (const name of names) {
        const [up, down] = [h, -h].map((by) => sweepAxle(build({ [name]: by }), pose).rows()[0]);
        let moved = 0;
        for (const { name: column } of info) {
          const [plus, minus] = [up, down].map((row) => row[column as keyof typeof row] as number);
          const slope = (plus - minus) / (2 * h);
          // Roundings of some 1e-13 over the distance, and its square times a third derivative.
          expectWithin(by[name][column][0] as number, slope, 1e-8 * (1 + Math.abs(slope)));
          if (Math.abs(slope) > 1e-6) moved++;
        }
        expect(moved).toBeGreaterThan(0);
      }
    }
  });

  it('are ranked by their effect at design ride height', () => {
    const ranks = axleSensitivityRanking(MIRRORED, { heave: [-20, 20], roll: [-1, 1] });
    const { by } = axleSensitivities(MIRRORED, { heave: [0], roll: [0] });
    expectSame(ranks.length, Object.keys(by).length);
    ranks.forEach(({ coordinate, atDesign, largest, atHeave, atRoll }, k) => {
      expectSame(atDesign, by[coordinate].rollCentreHeight[0]);
      if (k > 0)
        expect(Math.abs(atDesign as number)).toBeLessThanOrEqual(Math.abs(ranks[k - 1].atDesign as number));
      const there = axleSensitivities(MIRRORED, { heave: [atHeave as number], roll: [atRoll as number] }).by;
      expectWithin(there[coordinate].rollCentreHeight[0] as number, largest as number, 1e-7);
    });
  });
});

describe('the bands of an axle', () => {
  const poses = { heave: [-20, 0, 20], roll: [0] };

  it('are those of its corner, level', () => {
    const bands = axleUncertaintyBands(axle({ left: CORNER }), 1.5, poses);
    const own = uncertaintyBands(CORNER, 1.5, { bump: 20, droop: 20, step: 20 });
    for (const row of [0, 1, 2]) {
      const exact = own.columns.shockLength[row] as number;
      expectWithin(bands.columns.leftShockLength[row] as number, exact, 1e-8);
      expectWithin(bands.columns.rightShockLength[row] as number, exact, 1e-8);
    }
    // The middle of the roll centre does not move: the errors are on both sides.
    expectSame(bands.columns.rollCentreY[1], 0);
  });

  it('of a roll centre are narrower by the root of two where the sides have errors of their own', () => {
    const [both, apart] = [CORNER, { ...CORNER }].map((right) =>
      axleUncertaintyBands(axle({ left: CORNER, right }), 1, poses),
    );
    expectWithin(
      (both.columns.rollCentreHeight[1] as number) / (apart.columns.rollCentreHeight[1] as number),
      Math.SQRT2,
      1e-6,
    );
    expect(apart.columns.rollCentreY[1]).toBeGreaterThan(1);
  });

  it('take the errors of the corners, with the bar exact', () => {
    const parts = {
      lowerArm: { inner: [231, 148], outer: [628, 139] },
      upperArm: { inner: [287, 342], outer: [591, 361] },
      wheel: { centre: [694, 301], camber: -1 },
      coilover: { on: 'lowerArm', mount: [497, 158] },
    } as const;
    const left = doubleWishbone({
      ...parts,
      coilover: { ...parts.coilover, chassisMount: [{ value: 322, plusMinus: 2 }, 471] },
    });
    const { plusMinus } = axleUncertaintyBands(axle({ left, bar: BAR }), undefined, poses);
    const uncertain = (widths: Readonly<Record<string, number>>) =>
      Object.entries(widths).filter(([, width]) => width > 0);
    expectSame(uncertain(plusMinus), [['shockChassisMountY', 2]]);
    const apart = axleUncertaintyBands(axle({ left, right: CORNER, bar: BAR }), undefined, poses);
    expectSame(uncertain(apart.plusMinus), [['leftShockChassisMountY', 2]]);
    expectSame(apart.columns.rightShockLength, [0, 0, 0]);
    expectWithin(
      apart.columns.leftShockLength[1] as number,
      uncertaintyBands(left, undefined, { bump: 0, droop: 0 }).columns.shockLength[0] as number,
      1e-8,
    );
  });

  it('are what many draws of small errors give', () => {
    const sweep = { heave: [-30, 0, 30], roll: [-2, 2] };
    // Errors of a tenth of a mm, those of two coordinates together.
    for (const plusMinus of [
      0.1,
      {
        coordinates: ['lowerInnerY', 'upperInnerY', 'barLeverLength'],
        matrix: [
          [4e-3, 3e-3, 0],
          [3e-3, 4e-3, 0],
          [0, 0, 1e-2],
        ],
      },
    ] as const satisfies PlusMinus[]) {
      const many = axleMonteCarlo(MIRRORED, plusMinus, { draws: 400, seed: 3, sweep });
      const bands = axleUncertaintyBands(MIRRORED, plusMinus, sweep);
      expectSame(many.firstOrder, bands.columns);
      expectSame([many.failedDraws, ...many.drawsPerRow], [0, 400, 400, 400, 400, 400, 400]);
      for (const [name, widths] of Object.entries(many.columns)) {
        widths.forEach((width, row) => {
          const first = bands.columns[name][row] as number;
          // The standard error of a half-width of 400 draws is some 5 %.
          expectWithin(width as number, first, 0.2 * first + 1e-9);
        });
      }
    }
    const [once, again, otherwise] = [1, 1, 2].map((seed) =>
      axleMonteCarlo(MIRRORED, 1, { draws: 100, seed, sweep: { heave: [0], roll: [1] } }),
    );
    expectSame(once, again);
    expect(once.columns).not.toEqual(otherwise.columns);
  });

  it('are empty where no pose is reached, and null where draws do not reach one', () => {
    const none = { heave: [900], roll: [0] };
    expectSame(axleUncertaintyBands(axle({ left: CORNER }), 1, none).columns.leftShockLength, []);
    expectSame(axleMonteCarlo(axle({ left: CORNER }), 1, { draws: 100, sweep: none }).drawsPerRow, []);
    const { droop } = sweepAxle(axle({ left: CORNER }), { heave: [-500], roll: [0] }).end.left;
    const close = axleUncertaintyBands(axle({ left: CORNER }), 1, {
      heave: [droop.travel + 1e-3],
      roll: [0],
    });
    expectSame(close.columns.leftShockLength, [null]);
  });

  it('refuse names that the axle has not', () => {
    const codes = (ask: () => unknown) => {
      try {
        ask();
      } catch (error) {
        if (error instanceof InputError) return error.issues.map(({ code, path }) => `${code} ${path}`);
        throw error;
      }
      return [];
    };
    expectSame(
      codes(() => axleUncertaintyBands(MIRRORED, { leftLowerInnerY: 1 })),
      ['unknownCoordinate leftLowerInnerY'],
    );
    expectSame(
      codes(() => axleUncertaintyBands(MIRRORED)),
      ['plusMinusMissing '],
    );
    expectSame(
      codes(() => axleSensitivityRanking(MIRRORED, { column: 'camber' as never })),
      ['unknownColumn column'],
    );
    expectSame(
      codes(() => axleMonteCarlo(MIRRORED, 1, { draws: 3 })),
      ['notADrawCount draws'],
    );
  });
});
