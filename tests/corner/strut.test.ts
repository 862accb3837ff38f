/** Strut corners against their closed form, and against the same linkage drawn with a slider. */
import * as fc from 'fast-check';
import {
  customCorner,
  handMethod,
  limits,
  type Pose,
  type StrutInput,
  type Sweep,
  strut,
  sweep,
} from 'jounce';
import type { Drawing } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { type StrutCornerInput, strutCorner } from '../judges/strut.ts';
import { strutCorners } from '../support/rocker-corners.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { direction } from './geometry.ts';
import { magnitudeOf } from './kinds.ts';

const DEGREES = 180 / Math.PI;
/** Roundings of a place, times the size of the drawing and how far the fastest point goes for each mm of travel. */
const PLACE = 64;
/** What ratio (1) and slope (1/mm) may be off where nothing goes faster than the travel. */
const RATIO = 1e-10;
/** rad */
const TURNS = [-0.16, -0.1, -0.03, 0, 0.04, 0.11, 0.16];

const asInput = (input: StrutCornerInput) => input as StrutInput;

const plain: StrutInput = {
  lowerArm: { inner: [330, 190], outer: [690, 170] },
  strut: { topMount: [560, 860], lowerMount: [640, 330] },
  wheel: { centre: [745, 300], camber: -0.5 },
};

describe('any strut corner', () => {
  it('has the places, lengths, angles and ratios of its closed form', () => {
    let seen = 0;
    fc.assert(
      fc.property(strutCorners, (input) => {
        const swept = sweep(strut(asInput(input)), { bump: 80, droop: 80 });
        const judge = strutCorner(input);
        const moving = input.coilover === undefined ? 'strutLower' : 'shockMount';
        for (const turn of TURNS) {
          const pose = judge.atArm(turn);
          if (pose === null) throw new Error(`no pose at ${turn}`);
          if (pose.travel < swept.end.droop.travel || pose.travel > swept.end.bump.travel) continue;
          const row = swept.at(pose.travel);
          const places: Pose = row;
          const c = pose.fastest;
          const place = { times: PLACE, scale: magnitudeOf(input) * c };
          const { shock, ...others } = pose.points;
          for (const [name, at] of Object.entries({ ...others, [moving]: shock })) {
            expectClose(places[`${name}Y`], at[0], place);
            expectClose(places[`${name}Z`], at[1], place);
          }
          expectClose(row.shockLength, pose.shockLength, place);
          expectClose(row.camber - swept.at(0).camber, -pose.uprightTurn * DEGREES, place);
          expectClose(row.kingpinInclination, direction(others.lowerOuter, input.strut.topMount) - 90, place);
          expectClose(row.lowerArmAngle - swept.at(0).lowerArmAngle, turn * DEGREES, place);
          expectWithin(row.installationRatio, pose.installationRatio, RATIO * c ** 2);
          expectWithin(row.installationRatioSlope, pose.installationRatioSlope, RATIO * c ** 4);
          seen++;
        }
      }),
    );
    expect(seen).toBeGreaterThan(4 * (fc.readConfigureGlobal().numRuns ?? 100));
  });

  it('ends where its contact patch goes sideways', () => {
    fc.assert(
      fc.property(strutCorners, (input) => {
        const corner = strut(asInput(input));
        const swept = sweep(corner, { bump: 3000, droop: 3000, step: 3000 });
        const { bump, droop, later } = limits(corner);
        for (const side of ['bump', 'droop'] as const) {
          const { travel, status } = swept.end[side];
          expect(status).toBe('deadPoint');
          const dead = [bump, droop, ...later].find(
            (limit) => limit?.side === side && limit.cause === 'deadPoint',
          );
          expectWithin(dead?.travel ?? null, travel, 1e-9);
          const turn = (swept.at(travel).lowerArmAngle - swept.at(0).lowerArmAngle) / DEGREES;
          // On its way the ball joint may have passed the top.
          const judge = strutCorner(input);
          const poses = (['below', 'above'] as const).map((ball) => judge.atArm(turn, ball));
          const off = (pose: (typeof poses)[number]) => Math.abs((pose?.travel ?? Number.NaN) - travel);
          const pose = poses.reduce((best, one) => (off(one) < off(best) ? one : best));
          expectWithin(pose?.travel ?? null, travel, 1e-9);
          expect(pose?.fastest).toBeGreaterThan(1e5);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('moves like the same linkage with the top as a slider on two points of the axis', () => {
    fc.assert(
      fc.property(strutCorners, (input) => {
        const corner = strut(asInput(input));
        const { drawing, kingpin, rocker: _, standsBy: __, ...roles } = modelOf(corner);
        const { points, ground, bodies } = drawing;
        const [top, lower] = [input.strut.topMount, input.strut.lowerMount];
        const slid: Drawing = {
          points: { ...points, axis: [(top[0] + lower[0]) / 2, (top[1] + lower[1]) / 2] },
          ground,
          bodies: { ...bodies, upright: [...bodies.upright, 'axis'] },
          sliders: { strut: { point: 'strutTop', on: ['strutLower', 'axis'] } },
        };
        const twin = customCorner({
          ...roles,
          drawing: slid,
          kingpin: kingpin as NonNullable<typeof kingpin>,
          angles: { lowerArmAngle: { angle: ['lowerInner', 'lowerOuter'] } },
        });
        const [one, other] = [corner, twin].map(
          (each): Sweep => sweep(each, { bump: 40, droop: 40, step: 40 }),
        );
        for (const { name } of one.info) {
          // The instant centre may be far away, the slope has been divided twice.
          if (/instantCentre[YZ]|Slope/.test(name)) continue;
          const place = { times: 64 * PLACE, scale: magnitudeOf(input) };
          one.columns[name].forEach((value, i) => {
            expectClose(other.columns[name][i], value as number, place);
          });
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('a strut', () => {
  it('with a coilover of its own bears on that', () => {
    const coilover = {
      on: 'lowerArm',
      mount: [560, 190],
      chassisMount: [520, 520],
      foreAftOffset: 30,
    } as const;
    const row = sweep(strut({ ...plain, coilover })).at(0);
    expectClose(row.shockLength, Math.hypot(40, 330, 30), { times: 4, scale: 400 });
    const [own, other] = [plain, { ...plain, coilover }].map((input) => sweep(strut(input)).at(30));
    expectClose(other.camber, own.camber, { times: 64, scale: 10 });
  });

  it('has no hand figure along an arm, unless its coilover stands on one', () => {
    expect(handMethod(strut(plain))).toMatchObject({
      defined: false,
      reason: { code: 'handMethodOnUpright' },
    });
    const coilover = { on: 'lowerArm', mount: [560, 190], chassisMount: [520, 520] } as const;
    expect(handMethod(strut({ ...plain, coilover }))).toMatchObject({ defined: true });
  });

  it('has its ratio at zero where its line passes through the instant centre', () => {
    const { bump, later } = limits(strut(plain));
    const found = [bump, ...later].find((limit) => limit?.cause === 'ratioZero');
    expect(found?.diagnostic.values).toMatchObject({
      why: 'throughCentre',
      centre: 'instantCentre',
      of: ['upright'],
    });
    const row = sweep(strut(plain), { bump: 400 }).at(found?.travel ?? 0);
    // What slides along the strut turns about a point square to it at the top: here the top itself.
    expectWithin(row.instantCentreY, 560, 1e-6);
    expectWithin(row.instantCentreZ, 860, 1e-6);
  });
});
