/**
 * Holds the closed form of the double wishbone against published values, 50-digit poses, differences, and
 * itself.
 */
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../support/tolerance.ts';
import type { CirclePose, CornerInput, Point, TravelReference } from './circle-intersection.ts';
import { circleCorner, drawnContactPatch } from './circle-intersection.ts';
import { fixtureCorners } from './corners.ts';
import { crankLimits, fourBarAngles } from './four-bar.ts';

const degree = Math.PI / 180;

/** The corner of the README: a long lower and a short upper arm. */
const front: CornerInput = {
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
};

function expectPoint(actual: Point, expected: Point, tolerance: number): void {
  expectWithin(actual[0], expected[0], tolerance);
  expectWithin(actual[1], expected[1], tolerance);
}

function poseAt(input: CornerInput, travel: number, travelReference?: TravelReference): CirclePose {
  const pose = circleCorner(input).atTravel(travel, travelReference);
  if (pose === null) throw new Error(`no pose at ${travel} mm`);
  return pose;
}

const apart = (u: Point, v: Point): number => Math.hypot(u[0] - v[0], u[1] - v[1]);

const sweeps = fixtureCorners.flatMap(({ name, input, sweeps: all }) =>
  all.map(({ travelReference, poses }) => ({ name, input, travelReference, poses })),
);

describe('poses computed with 50 digits', () => {
  it('are those of 50 corners, every place of the coilover, both ways to give the contact patch', () => {
    expect(fixtureCorners).toHaveLength(50);
    expect(new Set(fixtureCorners.map(({ input }) => input.coilover.on)).size).toBe(3);
    expect(new Set(fixtureCorners.map(({ input }) => 'camber' in input.wheel)).size).toBe(2);
    expect(sweeps.filter(({ travelReference }) => travelReference === 'wheelCentre')).toHaveLength(3);
    for (const { poses } of sweeps) expect(poses).toHaveLength(9);
  });

  it.each(sweeps)('are met by $name over $travelReference', ({ input, travelReference, poses }) => {
    const corner = circleCorner(input);
    for (const expected of poses) {
      const pose = corner.atTravel(expected.travel, travelReference);
      if (pose === null) throw new Error(`no pose at ${expected.travel} mm`);
      expectWithin(pose.travel, expected.travel, 1e-12);
      for (const key of ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch', 'mount'] as const) {
        expectPoint(pose[key], expected[key], 1e-10);
      }
      expectWithin(pose.shockLength, expected.shockLength, 1e-10);
      expectWithin(pose.installationRatio, expected.installationRatio, 1e-10);
      expectWithin(pose.installationRatioSlope, expected.installationRatioSlope, 1e-10);
      expectWithin(pose.camber, expected.camber, 1e-10);
    }
  });

  it.each(sweeps)(
    'keep 5 mm from the dead points of $name over $travelReference',
    ({ input, travelReference, poses }) => {
      const { droop, bump } = circleCorner(input).deadPoints(travelReference);
      for (const { travel } of poses) {
        expect(travel).toBeGreaterThanOrEqual(droop.travel + 5);
        expect(travel).toBeLessThanOrEqual(bump.travel - 5);
      }
    },
  );
});

describe('telescope on a swinging arm, pivots O(0,0) and C(450,225), arm from C to A(225,225)', () => {
  // Geometry of J. L. Meriam, L. G. Kraige, "Dynamics", Sample Problems 5/17 and 5/18 (results seen in a
  // transcript, coordinates reconstructed). The upper arm and the wheel are of no account.
  const corner = circleCorner({
    lowerArm: { inner: [450, 225], outer: [225, 225] },
    upperArm: { inner: [440, 500], outer: [240, 480] },
    wheel: { centre: [150, 300], contactPatch: [150, 0] },
    coilover: { on: 'lowerArm', mount: [225, 225], chassisMount: [0, 0] },
  });
  const pose = corner.atLowerArm(Math.PI);
  const [first, second] = pose?.lengthByAngle ?? [Number.NaN, Number.NaN];

  it('has the length and its derivatives by arm angle', () => {
    expectWithin(pose?.shockLength ?? null, 225 * Math.SQRT2, 1e-12);
    expectWithin(first, -225 / Math.SQRT2, 1e-12);
    expectWithin(second, 675 / (2 * Math.SQRT2), 1e-12);
  });

  it('has the sliding speed of 5/17 and the sliding acceleration of 5/18', () => {
    // Arm at +4 rad/s and +32 rad/s² against its motion, as the book gives for the telescope turning at 2
    // rad/s.
    expectWithin(first * 4, -450 * Math.SQRT2, 1e-11);
    expectWithin(Math.abs(second * 16 + first * -32), 8909.545443, 1e-6);
  });
});

describe('parallelogram with level arms of 300 (exact, any text)', () => {
  const input: CornerInput = {
    lowerArm: { inner: [300, 150], outer: [600, 150] },
    upperArm: { inner: [290, 400], outer: [590, 400] },
    wheel: { centre: [660, 300], contactPatch: [660, 0] },
    coilover: { on: 'upright', mount: [580, 200], chassisMount: [420, 520] },
  };

  it.each([
    [50, 4.196011],
    [80, 10.863354],
    [-80, 10.863354],
  ])('rising %s moves sideways %s and keeps the camber', (travel, sideways) => {
    const pose = poseAt(input, travel);
    expectWithin(660 - pose.contactPatch[0], sideways, 1e-6);
    expectWithin(660 - pose.contactPatch[0], 300 - Math.sqrt(300 ** 2 - travel ** 2), 1e-12);
    expectWithin(pose.camber, 0, 1e-12);
  });

  it('has a dead point with both arms upright, and ends where it lies flat', () => {
    const slanted: CornerInput = { ...input, upperArm: { inner: [250, 400], outer: [550, 400] } };
    const { droop, bump } = circleCorner(slanted).deadPoints();
    // Flat with both arms along the line of the inner points, which leans by 50 in 250.
    expectWithin(droop.travel, (-300 * 250) / Math.hypot(50, 250), 1e-4);
    expectWithin(bump.travel, 300, 1e-10);
    expectWithin(bump.pose.lowerArmAngle / degree, 90, 1e-6);
    expect(bump.turnedBack).toBe(false);
    expectWithin(bump.pose.contactPatch[0], 360, 5e-7);
  });
});

describe('the loop of a corner', () => {
  // Ground from A to B; crank, coupler and rocker are lower arm, upright and upper arm.
  const toB: Point = [55, 190];
  const line = Math.atan2(toB[1], toB[0]);
  const bars = {
    crank: Math.hypot(385, 15),
    coupler: Math.hypot(40, 225),
    rocker: Math.hypot(290, 20),
    ground: Math.hypot(...toB),
  };
  const corner = circleCorner(front);

  it('has the angles of the four-bar judge', () => {
    for (const angle of [-0.3, -0.1, 0, 0.2, 0.5]) {
      const pose = corner.atLowerArm(angle);
      const loop = fourBarAngles(bars, angle - line, 'crossed');
      if (pose === null || loop === null) throw new Error(`no pose at ${angle} rad`);
      const { lowerOuter: P, upperOuter: Q } = pose;
      expectWithin(Math.atan2(Q[1] - 355, Q[0] - 310), loop.rocker + line, 1e-13);
      expectWithin(Math.atan2(Q[1] - P[1], Q[0] - P[0]), loop.coupler + line, 1e-13);
    }
  });

  it('does not close beyond the limits of the four-bar judge', () => {
    const { smallest, largest } = crankLimits(bars);
    expect(smallest).toBe(0);
    expect(largest).toBeLessThan(Math.PI);
    for (const side of [-1, 1]) {
      expect(corner.atLowerArm(line + side * (largest - 1e-9))).not.toBeNull();
      expect(corner.atLowerArm(line + side * (largest + 1e-9))).toBeNull();
    }
  });
});

describe('laws', () => {
  it('the drawing is the pose at travel 0', () => {
    for (const { input } of fixtureCorners) {
      const pose = poseAt(input, 0);
      expectPoint(pose.lowerOuter, input.lowerArm.outer, 1e-11);
      expectPoint(pose.upperOuter, input.upperArm.outer, 1e-11);
      expectPoint(pose.wheelCentre, input.wheel.centre, 1e-11);
      expectPoint(pose.contactPatch, drawnContactPatch(input), 1e-11);
      expectPoint(pose.mount, input.coilover.mount, 1e-11);
      if ('camber' in input.wheel) expectWithin(pose.camber, input.wheel.camber, 1e-11);
    }
  });

  it('rigid stays rigid, out to the dead points', () => {
    for (const { input } of fixtureCorners) {
      const { lowerArm, upperArm, wheel, coilover } = input;
      const corner = circleCorner(input);
      const { droop, bump } = corner.deadPoints();
      const upright = [lowerArm.outer, upperArm.outer, wheel.centre, drawnContactPatch(input)];
      for (const part of [0, 0.01, 0.3, 0.6, 0.99, 1]) {
        const pose = corner.atTravel((1 - part) * droop.travel + part * bump.travel);
        if (pose === null) throw new Error('no pose between the dead points');
        expectWithin(apart(pose.lowerOuter, lowerArm.inner), apart(lowerArm.outer, lowerArm.inner), 1e-11);
        expectWithin(apart(pose.upperOuter, upperArm.inner), apart(upperArm.outer, upperArm.inner), 1e-11);
        const moved = [pose.lowerOuter, pose.upperOuter, pose.wheelCentre, pose.contactPatch];
        moved.forEach((point, i) => {
          moved.slice(i + 1).forEach((other, j) => {
            expectWithin(apart(point, other), apart(upright[i], upright[i + 1 + j]), 1e-11);
          });
        });
        const planar = apart(pose.mount, coilover.chassisMount);
        expectWithin(pose.shockLength, Math.hypot(planar, coilover.foreAftOffset ?? 0), 1e-12);
      }
    }
  });

  it.each(sweeps)(
    'derivatives of $name over $travelReference are central differences',
    ({ input, travelReference, poses }) => {
      const corner = circleCorner(input);
      const h = 0.005;
      for (const { travel } of poses) {
        const [before, at, after] = [travel - h, travel, travel + h].map((z) =>
          corner.atTravel(z, travelReference),
        );
        if (!before || !at || !after) throw new Error(`no pose about ${travel} mm`);
        const ratio = (before.shockLength - after.shockLength) / (2 * h);
        const slope = ((after.installationRatio ?? 0) - (before.installationRatio ?? 0)) / (2 * h);
        // Error of a central difference: h²/6 times a third derivative, which grows towards dead points.
        expectWithin(at.installationRatio, ratio, 1e-6);
        expectWithin(at.installationRatioSlope, slope, 1e-6);
      }
    },
  );

  it('derivatives by lower-arm angle are central differences', () => {
    const corner = circleCorner(front);
    const h = 1e-3;
    for (const angle of [-0.2, -0.04, 0.15]) {
      const [before, at, after] = [angle - h, angle, angle + h].map((theta) => corner.atLowerArm(theta));
      if (!before || !at || !after) throw new Error(`no pose about ${angle} rad`);
      const [length1, length2] = at.lengthByAngle ?? [];
      const [travel1, travel2] = at.travelByAngle ?? [];
      expectWithin(length1 ?? null, (after.shockLength - before.shockLength) / (2 * h), 1e-3);
      expectWithin(
        length2 ?? null,
        (after.shockLength - 2 * at.shockLength + before.shockLength) / (h * h),
        1e-3,
      );
      expectWithin(travel1 ?? null, (after.travel - before.travel) / (2 * h), 1e-3);
      expectWithin(travel2 ?? null, (after.travel - 2 * at.travel + before.travel) / (h * h), 1e-3);
    }
  });

  it('travel stops rising at a dead point, and nothing is given beyond', () => {
    let turnedBack = 0;
    for (const { input } of fixtureCorners) {
      const corner = circleCorner(input);
      for (const end of Object.values(corner.deadPoints())) {
        const outward = Math.sign(end.travel);
        expect(corner.atTravel(end.travel + outward * 1e-6)).toBeNull();
        const near = corner.atTravel(end.travel - outward * 1e-6);
        if (near === null) throw new Error('no pose inside the dead point');
        // z = z_dead - k s², so 1e-6 mm of travel is a move of the order of its square root.
        const moved = apart(near.contactPatch, end.pose.contactPatch);
        expect(moved).toBeGreaterThan(1e-4);
        expect(Math.abs(near.travel - end.travel) / moved).toBeLessThan(0.01);
        if (end.turnedBack) turnedBack += 1;
      }
    }
    expect(turnedBack).toBeGreaterThan(0);
  });

  it('a mirrored drawing moves as the mirror image', () => {
    const flip = ([y, z]: Point): Point => [-y, z];
    const mirrored: CornerInput = {
      lowerArm: { inner: flip(front.lowerArm.inner), outer: flip(front.lowerArm.outer) },
      upperArm: { inner: flip(front.upperArm.inner), outer: flip(front.upperArm.outer) },
      wheel: { centre: flip(front.wheel.centre), contactPatch: flip(drawnContactPatch(front)) },
      coilover: {
        on: 'lowerArm',
        mount: flip(front.coilover.mount),
        chassisMount: flip(front.coilover.chassisMount),
      },
    };
    for (const travel of [-70, 0, 33]) {
      const here = poseAt(front, travel);
      const there = poseAt(mirrored, travel);
      expectPoint(flip(there.upperOuter), here.upperOuter, 1e-11);
      expectWithin(there.installationRatio, here.installationRatio ?? 0, 1e-13);
      expectWithin(there.installationRatioSlope, here.installationRatioSlope ?? 0, 1e-14);
    }
  });
});
