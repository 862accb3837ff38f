/**
 * Corners whose motion has a closed form: any double wishbone as the intersection of two circles (its own judge in
 * tests/judges), and drawings that reduce to something simpler.
 *
 * Parallelogram: upper and lower arm are one vector a (cos θ, sin θ), so the upright translates on a circle,
 *
 *     sin θ = sin θ0 + z/a,   y - y0 = a (cos θ - cos θ0),   dθ/dz = 1/(a cos θ),   d²θ/dz² = sin θ/(a² cos³ θ)
 *
 * One pivot for both arms: arms and upright are one triangle that turns about it by θ - θ0, and z follows from the
 * contact patch at (ρ, θ) from the pivot by the very same equations with ρ for a.
 *
 * A mount M on a circle about O: M_θ = (M - O)⊥, M_θθ = -(M - O); with l = M - C and fore-aft offset x
 *
 *     L² = l·l + x²,   L L_θ = l·M_θ,   L L_θθ = M_θ·M_θ + l·M_θθ - L_θ²,   R = -L_θ θ',   R' = -(L_θθ θ'² + L_θ θ'')
 */

import * as fc from 'fast-check';
import { doubleWishbone, type Pose, type Row, type SweepEnd, sweep } from 'jounce';
import { trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import {
  type CircleCorner,
  type CornerInput,
  circleCorner,
  drawnContactPatch,
  type Point,
  type TravelReference,
} from '../judges/circle-intersection.ts';
import { unlikeArms, wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';
import { conditioning, magnitude } from './geometry.ts';

const DEGREES = 180 / Math.PI;

/** Farther than any linkage of these tests can go, mm. */
const BEYOND = 3000;
/** Roundings of a place or a length, times the size of the drawing and its conditioning. */
const PLACE = 32;
/** The same of an angle in degrees, over some 200 mm. */
const ANGLE = 16;
/** Roundings of a rate that is got from places. */
const RATE = 256;
/** What ratio (1) and slope (1/mm) may be off at a conditioning of 1. */
const RATIO = 1e-10;
/** mm; travel is stationary at a dead point, so that it is known far better than the pose. */
const DEAD_POINT = 1e-9;
/** mm; where bars lie flat the pose itself is known to the root of rounding only. */
const FLAT = 1e-4;

const travelOfs = fc.constantFrom<TravelReference[]>('contactPatch', 'wheelCentre');

/** Both ends of the motion. */
function endsOf(input: CornerInput, travelReference: TravelReference = 'contactPatch') {
  return sweep(doubleWishbone(input), {
    bump: BEYOND,
    droop: BEYOND,
    step: BEYOND,
    travelReference,
    columns: ['shockLength'],
  }).end;
}

describe('any corner, by circle intersection', () => {
  /** Shares of the way to the end, on both sides. */
  const SHARES = [-0.99, -0.8, -0.4, -0.05, 0, 0.15, 0.5, 0.9, 0.99];

  it('has the places, lengths, angles and ratios of the two circles', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelReference) => {
        const swept = sweep(doubleWishbone(input), { travelReference });
        const { bump, droop } = swept.end;
        const judge = circleCorner(input);
        const ground = drawnContactPatch(input)[1];
        for (const share of SHARES) {
          const travel = share * (share > 0 ? bump.travel : -droop.travel);
          const row = swept.at(travel);
          const pose = judge.atTravel(travel, travelReference);
          if (pose === null) expect.fail(`no pose of the judge at ${travel} mm`);
          const scale = magnitude(input) * conditioning(input, pose, travelReference);
          expectPose(row, pose, scale);

          // Ratios are by contact-patch travel, whatever the axis is.
          const byPatch = judge.atTravel(pose.contactPatch[1] - ground);
          const c = conditioning(input, pose) * conditioning(input, pose, travelReference);
          const { installationRatio, installationRatioSlope } = byPatch ?? pose;
          expectWithin(row.installationRatio, installationRatio ?? Number.NaN, RATIO * c ** 2);
          expectWithin(row.installationRatioSlope, installationRatioSlope ?? Number.NaN, RATIO * c ** 4);
        }
      }),
    );
  });

  it('ends at its dead points', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const ends = endsOf(input);
        const judged = circleCorner(input).deadPoints();
        for (const side of ['bump', 'droop'] as const) {
          expect(ends[side].status).toBe('deadPoint');
          expectWithin(ends[side].travel, judged[side].travel, DEAD_POINT);
        }
      }),
    );
  });

  it('over wheel-centre travel ends where the wheel centre or the contact patch stands still, the first of both', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const ends = endsOf(input, 'wheelCentre');
        const judge = circleCorner(input);
        for (const side of ['bump', 'droop'] as const) {
          expect(ends[side].status).toBe('deadPoint');
          expectWithin(ends[side].travel, firstEnd(judge, input, side), DEAD_POINT);
        }
      }),
    );
  });

  it('stops at a dead point only when asked to go beyond it', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const { bump, droop } = circleCorner(input).deadPoints();
        const corner = doubleWishbone(input);
        const past = sweep(corner, { bump: bump.travel + 1e-6, droop: 1e-6 - droop.travel, step: 50 }).end;
        const short = sweep(corner, { bump: bump.travel - 1e-6, droop: -droop.travel - 1e-6, step: 50 }).end;
        expect([past.droop.status, past.bump.status]).toEqual(['deadPoint', 'deadPoint']);
        expect([short.droop.status, short.bump.status]).toEqual(['reached', 'reached']);
      }),
    );
  });
});

/** Wheel-centre travel at the first of two places: where the wheel centre, or the contact patch, stands still. */
function firstEnd(judge: CircleCorner, input: CornerInput, side: 'bump' | 'droop'): number {
  const own = judge.deadPoints('wheelCentre')[side].travel;
  const patch = judge.deadPoints()[side].pose;
  const travel = patch.wheelCentre[1] - input.wheel.centre[1];
  // The patch's pose comes first if the motion over the wheel centre passes it on the same side.
  const there = travel > 0 === (side === 'bump') ? judge.atTravel(travel, 'wheelCentre') : null;
  if (there === null) return own;
  const apart = Math.hypot(
    there.lowerOuter[0] - patch.lowerOuter[0],
    there.lowerOuter[1] - patch.lowerOuter[1],
    there.upperOuter[0] - patch.upperOuter[0],
    there.upperOuter[1] - patch.upperOuter[1],
  );
  return apart < 1e-3 ? travel : own;
}

function expectPose(row: Row, pose: NonNullable<ReturnType<CircleCorner['atTravel']>>, scale: number): void {
  const place = { times: PLACE, scale };
  const angle = { times: ANGLE, scale };
  for (const [name, at] of Object.entries({
    lowerOuter: pose.lowerOuter,
    upperOuter: pose.upperOuter,
    wheelCentre: pose.wheelCentre,
    contactPatch: pose.contactPatch,
    shockMount: pose.mount,
  })) {
    expectClose(row[`${name}Y`], at[0], place);
    expectClose(row[`${name}Z`], at[1], place);
  }
  expectClose(row.shockLength, pose.shockLength, place);
  expectClose(row.camber, pose.camber, angle);
  // The judge's angle comes with any number of whole turns.
  const theta = pose.lowerArmAngle * DEGREES;
  expectClose(row.lowerArmAngle, theta - 360 * Math.round(theta / 360), angle);
}

/** Length, ratio and slope of a shock whose mount goes on a circle of its own by θ; `rates` are θ' and θ''. */
function shockOnCircle(
  mount: Point,
  about: Point,
  input: CornerInput,
  [first, second]: readonly [number, number],
) {
  const { chassisMount, foreAftOffset = 0 } = input.coilover;
  const arm = [mount[0] - about[0], mount[1] - about[1]];
  const l = [mount[0] - chassisMount[0], mount[1] - chassisMount[1]];
  const square = arm[0] * arm[0] + arm[1] * arm[1];
  const L = Math.hypot(l[0], l[1], foreAftOffset);
  const L1 = (l[1] * arm[0] - l[0] * arm[1]) / L;
  const L2 = (square - l[0] * arm[0] - l[1] * arm[1] - L1 * L1) / L;
  return { L, R: -L1 * first, slope: -(L2 * first * first + L1 * second) };
}

/** θ of a radius a at travel z, and its derivatives by z. */
function turnAt(a: number, theta0: number, z: number) {
  const theta = Math.asin(Math.sin(theta0) + z / a);
  const cos = Math.cos(theta);
  return {
    theta,
    rates: [1 / (a * cos), Math.sin(theta) / (a * a * cos * cos * cos)] as const,
    conditioning: 1 / cos,
  };
}

/** A corner with the upper arm made equal and parallel to the lower one. */
function parallelogram(input: CornerInput, level: boolean): CornerInput {
  const { inner, outer } = input.lowerArm;
  const [y, z] = input.upperArm.outer;
  const tenth = (value: number) => Math.round(10 * value) / 10;
  const rise = level ? 0 : outer[1] - inner[1];
  return deepFreeze({
    ...input,
    lowerArm: { outer, inner: [inner[0], tenth(outer[1] - rise)] },
    upperArm: { outer: [y, z], inner: [tenth(y - outer[0] + inner[0]), tenth(z - rise)] },
  });
}

describe.each([
  ['level', true],
  ['inclined', false],
] as const)('equal and parallel arms, %s', (_, level) => {
  const corners = wildCorners.map((input) => parallelogram(input, level));

  it('carry the upright on a circle', () => {
    fc.assert(
      fc.property(corners, fc.integer({ min: -70, max: 70 }), (input, percent) => {
        const { inner, outer } = input.lowerArm;
        const arm = [outer[0] - inner[0], outer[1] - inner[1]];
        const a = Math.hypot(arm[0], arm[1]);
        const theta0 = Math.atan2(arm[1], arm[0]);
        // Towards the dead point, where the arms stand upright.
        const travel = ((Math.sign(percent) - Math.sin(theta0)) * a * Math.abs(percent)) / 100;
        const { theta, rates, conditioning: c } = turnAt(a, theta0, travel);
        const aside = a * (Math.cos(theta) - Math.cos(theta0));
        const moved = ([y, z]: Point): Point => [y + aside, z + travel];

        const corner = doubleWishbone(input);
        const row: Pose = sweep(corner, { bump: Math.max(0, travel), droop: Math.max(0, -travel) }).at(
          travel,
        );
        const scale = magnitude(input) * c;
        const place = { times: PLACE, scale };
        const angle = { times: ANGLE, scale };
        const patch = moved(corner.wheel.contactPatch);
        const { on } = input.coilover;
        const turned = (pivot: Point): Point => {
          const [sin, cos] = [Math.sin(theta - theta0), Math.cos(theta - theta0)];
          const [y, z] = [input.coilover.mount[0] - pivot[0], input.coilover.mount[1] - pivot[1]];
          return [pivot[0] + cos * y - sin * z, pivot[1] + sin * y + cos * z];
        };
        const mount = on === 'upright' ? moved(input.coilover.mount) : turned(input[on].inner);
        for (const [name, at] of Object.entries({
          lowerOuter: moved(outer),
          upperOuter: moved(input.upperArm.outer),
          wheelCentre: moved(input.wheel.centre),
          contactPatch: patch,
          shockMount: mount,
        })) {
          expectClose(row[`${name}Y`], at[0], place);
          expectClose(row[`${name}Z`], at[1], place);
        }
        expectClose(row.halfTrackChange, aside, place);
        expectClose(row.camber, corner.wheel.camber, angle);
        expectClose(row.lowerArmAngle, theta * DEGREES, angle);
        expectClose(row.upperArmAngle, theta * DEGREES, angle);
        expect(row.instantCentreY).toBeNull();
        expect(row.instantCentreZ).toBeNull();
        expectClose(row.instantCentreCurvature, 0, { times: RATE, scale: c ** 3 / a });
        expectClose(row.rollCentreHeight, -patch[0] * Math.tan(theta), { times: RATE, scale: scale * c });

        const pivot: Point =
          on === 'upright'
            ? [mount[0] - a * Math.cos(theta), mount[1] - a * Math.sin(theta)]
            : input[on].inner;
        const shock = shockOnCircle(mount, pivot, input, rates);
        expectClose(row.shockLength, shock.L, place);
        expectWithin(row.installationRatio, shock.R, RATIO * c);
        expectWithin(row.installationRatioSlope, shock.slope, RATIO * c);
      }),
    );
  });

  it(`have their roll centre as drawn ${level ? 'on the ground' : 'where their slope says'}`, () => {
    fc.assert(
      fc.property(corners, (input) => {
        const row = sweep(doubleWishbone(input)).at(0);
        const { inner, outer } = input.lowerArm;
        const tan = (outer[1] - inner[1]) / (outer[0] - inner[0]);
        const [patchY] = drawnContactPatch(input);
        const scale = magnitude(input);
        expectClose(row.rollCentreHeight, -patchY * tan, { times: PLACE, scale });
      }),
    );
  });
});

describe('equal and parallel arms that fold flat on the way', () => {
  // The upper ball joint stands inboard of the lower one by more than nothing: arms and upright come into one line
  // in droop, at the direction of the upright turned by half a turn, before the arms hang straight down.
  const corners = wildCorners
    .map((input) => parallelogram(input, false))
    .filter(({ lowerArm, upperArm }) => upperArm.outer[0] < lowerArm.outer[0] - 10);

  it('end there, as nothing says how they go on', () => {
    fc.assert(
      fc.property(corners, (input) => {
        const { inner, outer } = input.lowerArm;
        const arm = [outer[0] - inner[0], outer[1] - inner[1]];
        const upright = [input.upperArm.outer[0] - outer[0], input.upperArm.outer[1] - outer[1]];
        const flat = (-Math.hypot(...arm) * upright[1]) / Math.hypot(...upright) - arm[1];
        const { droop } = endsOf(input);
        expect(droop.status).toBe('bifurcation');
        expectWithin(droop.travel, flat, FLAT);
      }),
    );
  });
});

describe('parallel arms of different length, as drawn', () => {
  const corners = wildCorners.map((input) => {
    const { lowerArm, upperArm } = parallelogram(input, false);
    const half = (from: number, to: number) => (from + to) / 2;
    const inner: Point = [
      half(upperArm.inner[0], upperArm.outer[0]),
      half(upperArm.inner[1], upperArm.outer[1]),
    ];
    return deepFreeze({ ...input, lowerArm, upperArm: { ...upperArm, inner } });
  });

  it('have no instant centre, and a roll centre all the same', () => {
    fc.assert(
      fc.property(corners, (input) => {
        const row = sweep(doubleWishbone(input)).at(0);
        const { inner, outer } = input.lowerArm;
        const tan = (outer[1] - inner[1]) / (outer[0] - inner[0]);
        const scale = magnitude(input);
        expect(row.instantCentreY).toBeNull();
        expect(row.instantCentreZ).toBeNull();
        expectClose(row.instantCentreCurvature, 0, { times: PLACE, scale: 1 / 100 });
        expectClose(row.rollCentreHeight, -drawnContactPatch(input)[0] * tan, { times: PLACE, scale });
      }),
    );
  });
});

describe('equal level arms, order by order', () => {
  // Every free point goes by the same (u, v), and v is how far the driver is from its drawn value: h x, with no other
  // order; and u = a (√(1 - (v/a)²) - 1), even orders only.
  it('have the binomial series of a circle', () => {
    fc.assert(
      fc.property(
        wildCorners.map((input) => parallelogram(input, true)),
        (input) => {
          const { lowerArm, upperArm, wheel } = input;
          const a = lowerArm.outer[0] - lowerArm.inner[0];
          const { path } = trace(
            deepFreeze({
              points: {
                lowerInner: lowerArm.inner,
                lowerOuter: lowerArm.outer,
                upperInner: upperArm.inner,
                upperOuter: upperArm.outer,
                contactPatch: drawnContactPatch(input),
                wheelCentre: wheel.centre,
              },
              ground: ['lowerInner', 'upperInner'],
              bodies: {
                lowerArm: ['lowerInner', 'lowerOuter'],
                upperArm: ['upperInner', 'upperOuter'],
                upright: ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch'],
              },
            }),
            { driver: { y: 'contactPatch' }, from: drawnContactPatch(input)[1] - 40, to: 40 },
          );
          const piece = path.pieces.find(({ origin }) => origin === 0);
          if (piece === undefined) expect.fail('no piece about the drawn pose');
          const { unknowns } = path.system;
          const stride = piece.z.length / unknowns;
          // Coefficients of u by v/a, and of v; everything as a share of a.
          let binomial = 1;
          for (let k = 0; k < stride; k++) {
            if (k > 0 && k % 2 === 0) binomial *= -(0.5 - (k / 2 - 1)) / (k / 2);
            const u = k > 0 && k % 2 === 0 ? binomial : 0;
            const v = k === 1 ? 1 : 0;
            const unit = (a / piece.unit) ** k / a;
            const order = { times: 1000, scale: 1 };
            for (let i = 0; i < unknowns; i += 2) {
              expectClose(piece.z[i * stride + k] * unit, u, order);
              expectClose(piece.z[(i + 1) * stride + k] * unit, v, order);
            }
          }
        },
      ),
    );
  });
});

describe('both arms on one chassis pivot', () => {
  const corners = wildCorners.map((input) =>
    deepFreeze({ ...input, upperArm: { ...input.upperArm, inner: input.lowerArm.inner } }),
  );

  it('are a swing arm: everything turns about the pivot', () => {
    fc.assert(
      fc.property(corners, fc.integer({ min: -90, max: 90 }), (input, percent) => {
        const pivot = input.lowerArm.inner;
        const corner = doubleWishbone(input);
        const [y, z] = corner.wheel.contactPatch;
        const [py, pz] = [y - pivot[0], z - pivot[1]];
        const radius = Math.hypot(py, pz);
        const theta0 = Math.atan2(pz, py);
        const travel = ((Math.sign(percent) - Math.sin(theta0)) * radius * Math.abs(percent)) / 100;
        const { theta, rates, conditioning: c } = turnAt(radius, theta0, travel);
        const [sin, cos] = [Math.sin(theta - theta0), Math.cos(theta - theta0)];
        const turned = ([y, z]: Point): Point => [
          pivot[0] + cos * (y - pivot[0]) - sin * (z - pivot[1]),
          pivot[1] + sin * (y - pivot[0]) + cos * (z - pivot[1]),
        ];
        const row: Pose = sweep(corner, { bump: Math.max(0, travel), droop: Math.max(0, -travel) }).at(
          travel,
        );
        const place = { times: PLACE, scale: magnitude(input) * c };
        const mount = turned(input.coilover.mount);
        for (const [name, at] of Object.entries({
          lowerOuter: turned(input.lowerArm.outer),
          upperOuter: turned(input.upperArm.outer),
          wheelCentre: turned(input.wheel.centre),
          contactPatch: turned(corner.wheel.contactPatch),
          shockMount: mount,
        })) {
          expectClose(row[`${name}Y`], at[0], place);
          expectClose(row[`${name}Z`], at[1], place);
        }
        const turn = (theta - theta0) * DEGREES;
        expectClose(row.camber, corner.wheel.camber - turn, { times: ANGLE, scale: place.scale });
        expectClose(row.instantCentreY, pivot[0], { times: RATE, scale: place.scale * c });
        expectClose(row.instantCentreZ, pivot[1], { times: RATE, scale: place.scale * c });
        expectClose(row.instantCentreCurvature, 1 / radius, { times: RATE, scale: c / radius });
        const shock = shockOnCircle(mount, pivot, input, rates);
        expectClose(row.shockLength, shock.L, place);
        expectWithin(row.installationRatio, shock.R, RATIO * c);
        expectWithin(row.installationRatioSlope, shock.slope, RATIO * c);
      }),
    );
  });

  it('end with the contact patch straight above and straight below the pivot', () => {
    fc.assert(
      fc.property(corners, (input) => {
        const pivot = input.lowerArm.inner;
        const [y, z] = drawnContactPatch(input);
        const radius = Math.hypot(y - pivot[0], z - pivot[1]);
        const ends: Record<'bump' | 'droop', SweepEnd> = endsOf(input);
        expect([ends.droop.status, ends.bump.status]).toEqual(['deadPoint', 'deadPoint']);
        expectWithin(ends.bump.travel, pivot[1] - z + radius, DEAD_POINT);
        expectWithin(ends.droop.travel, pivot[1] - z - radius, DEAD_POINT);
      }),
    );
  });
});

describe('an upper arm so long that its ball joint goes almost straight', () => {
  const LENGTHS = [1e4, 1e5, 1e6];
  /** What ratio and slope may be off for each mm of the arm, whose roundings they carry. */
  const RATIO_PER_MM = 16 * EPS;

  it.each(LENGTHS)('of %d mm', (length) => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const { inner, outer } = input.upperArm;
        const share = length / Math.hypot(outer[0] - inner[0], outer[1] - inner[1]);
        const far = (k: 0 | 1) => outer[k] - share * (outer[k] - inner[k]);
        const long = deepFreeze({ ...input, upperArm: { outer, inner: [far(0), far(1)] as Point } });
        const swept = sweep(doubleWishbone(long), { bump: 60, droop: 60 });
        const judge = circleCorner(long);
        for (const share of [-0.8, -0.3, 0.4, 0.8]) {
          const travel = share * (share > 0 ? swept.end.bump.travel : -swept.end.droop.travel);
          const row = swept.at(travel);
          const pose = judge.atTravel(travel);
          if (pose === null) expect.fail(`no pose of the judge at ${travel} mm`);
          const c = conditioning(long, pose);
          expectPose(row, pose, length * c);
          expectWithin(
            row.installationRatio,
            pose.installationRatio ?? Number.NaN,
            RATIO_PER_MM * length * c ** 2,
          );
          expectWithin(
            row.installationRatioSlope,
            pose.installationRatioSlope ?? Number.NaN,
            RATIO_PER_MM * length * c ** 4,
          );
        }
      }),
    );
  });
});
