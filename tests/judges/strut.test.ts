/** Holds the closed form of the strut against figures by hand, its own constraints, and differences of its poses. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { strutCorners } from '../support/rocker-corners.ts';
import { expectWithin } from '../support/tolerance.ts';
import { cross, minus, type Point } from './plane.ts';
import { type StrutPose, strutCorner } from './strut.ts';

const apart = (u: Point, v: Point) => Math.hypot(u[0] - v[0], u[1] - v[1]);
const TURNS = [-0.15, -0.05, 0, 0.06, 0.15];

describe('an upright strut over a level arm', () => {
  it('rises with the wheel as drawn, and leans by the law of sines', () => {
    const corner = strutCorner({
      lowerArm: { inner: [300, 150], outer: [600, 150] },
      strut: { topMount: [600, 750], lowerMount: [600, 250] },
      wheel: { centre: [680, 300], contactPatch: [680, 0] },
    });
    const drawn = corner.atArm(0) as StrutPose;
    expectWithin(drawn.installationRatio, 1, 1e-15);
    expect(drawn.shockLength).toBe(500);
    // Triangle of pivot, ball joint and top: the strut turns as the line from ball joint to top does.
    for (const turn of TURNS) {
      const pose = corner.atArm(turn) as StrutPose;
      const [y, z] = [600 - 300 - 300 * Math.cos(turn), 600 - 300 * Math.sin(turn)];
      expectWithin(pose.uprightTurn, -Math.atan2(y, z), 1e-15);
      expectWithin(pose.shockLength, Math.hypot(y, z) - 100, 1e-12);
    }
  });
});

describe('any strut', () => {
  it('keeps its lengths, and its axis passes through the top', () => {
    fc.assert(
      fc.property(strutCorners, (input) => {
        const { lowerArm, strut, wheel } = input;
        const axis = minus(strut.topMount, strut.lowerMount);
        const corner = strutCorner(input);
        for (const turn of TURNS) {
          const { points, uprightTurn } = corner.atArm(turn) as StrutPose;
          expectWithin(
            apart(points.lowerOuter, lowerArm.inner),
            apart(lowerArm.outer, lowerArm.inner),
            1e-11,
          );
          expectWithin(
            apart(points.lowerOuter, points.strutLower),
            apart(lowerArm.outer, strut.lowerMount),
            1e-11,
          );
          expectWithin(
            apart(points.contactPatch, points.strutLower),
            apart(wheel.contactPatch, strut.lowerMount),
            1e-11,
          );
          const [c, s] = [Math.cos(uprightTurn), Math.sin(uprightTurn)];
          const turned: Point = [c * axis[0] - s * axis[1], s * axis[0] + c * axis[1]];
          expectWithin(
            cross(turned, minus(strut.topMount, points.strutLower)) / Math.hypot(...axis),
            0,
            1e-10,
          );
        }
      }),
    );
  });

  it('has the ratio and slope of central differences', () => {
    const h = 1e-5;
    fc.assert(
      fc.property(strutCorners, (input) => {
        const corner = strutCorner(input);
        for (const turn of TURNS) {
          const [before, here, after] = [-h, 0, h].map((step) => corner.atArm(turn + step) as StrutPose);
          const travel = after.travel - before.travel;
          const ratio = (before.shockLength - after.shockLength) / travel;
          expectWithin(here.installationRatio, ratio, 1e-7 * here.fastest ** 2);
          const slope = (after.installationRatio - before.installationRatio) / travel;
          expectWithin(here.installationRatioSlope, slope, 1e-7 * here.fastest ** 2);
        }
      }),
    );
  });
});
