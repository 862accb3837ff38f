/**
 * An axle over heave and roll. Judges: the general solver on a drawing of the whole axle, in which the road moves under a chassis that
 * stands; closed forms of a swing axle and of parallel level arms (elementary); central differences for every derivative; and the mirror
 * image, to the bit.
 */

import * as fc from 'fast-check';
import { axle, doubleWishbone, limits, sweep, sweepAxle, torsionalStiffness } from 'jounce';
import { type Drawing, drive } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { wildCorners } from '../support/corners.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { REAR_CORNER } from './car.ts';
import { besidePose, DIFFERENCED } from './central-differences.ts';
import { BAR, CORNER, PATCH as patch, PIVOT as pivot, SWING_AXLE } from './roadster.ts';

const DEGREE = Math.PI / 180;

/** Roundings of sums of a few lengths of an axle. */
const FEW = 64;
/** mm between two solvers of a corner some 700 mm wide, near no dead point. */
const SOLVED = 1e-9;
const POSES = { heave: [-40, 0, 35], roll: [-4, -1.5, 0, 2, 5] };

/** Both corners, x to the left, on a road that lies on a post in the middle of the car. */
function wholeAxle(left: Drawing, right: Drawing): Drawing {
  const sided = (drawing: Drawing, side: 'L' | 'R') => {
    const way = side === 'L' ? 1 : -1;
    const named = (names: readonly string[]) => names.map((name) => side + name);
    return {
      points: Object.fromEntries(
        Object.entries(drawing.points).map(([name, [y, z]]) => [side + name, [way * y, z]]),
      ),
      ground: named(drawing.ground),
      bodies: Object.fromEntries(
        Object.entries(drawing.bodies).map(([name, points]) => [side + name, named(points)]),
      ),
    };
  };
  const [l, r] = [sided(left, 'L'), sided(right, 'R')];
  return {
    points: { ...l.points, ...r.points, post: [0, 0], farther: [1000, 0] },
    ground: [...l.ground, ...r.ground],
    bodies: { ...l.bodies, ...r.bodies, road: ['post', 'farther'] },
    fixedCoordinates: [{ x: 'post' }],
    sliders: {
      left: { point: 'LcontactPatch', on: ['post', 'farther'] },
      right: { point: 'RcontactPatch', on: ['post', 'farther'] },
    },
  };
}

describe('an axle', () => {
  it('stands where the general solver puts a drawing of it all, left and right unlike', () => {
    // As drawn both patches lie on the ground, so that the road is level there.
    const grounded = wildCorners.map(doubleWishbone);
    fc.assert(
      fc.property(
        grounded,
        grounded,
        fc.double({ min: -25, max: 25, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (left, right, heave, roll) => {
          const swept = sweepAxle(axle({ left, right }), { heave: [heave], roll: [roll] });
          fc.pre(swept.outOfReach.length === 0);
          const [row] = swept.rows();
          const whole = wholeAxle(modelOf(left).drawing, modelOf(right).drawing);
          const { drawing, shortfall } = drive(whole, [
            { driver: { y: 'post' }, to: heave },
            { driver: { turn: 'road' }, to: -roll * DEGREE },
          ]);
          fc.pre(shortfall.every((short) => short === 0));
          const { LcontactPatch, RcontactPatch } = drawing.points;
          expectWithin(row.leftTravel, LcontactPatch[1], SOLVED);
          expectWithin(row.rightTravel, RcontactPatch[1], SOLVED);
          const across = ([x, z]: readonly number[]) =>
            x * Math.cos(roll * DEGREE) - z * Math.sin(roll * DEGREE);
          expectWithin(row.leftPatchY, across(LcontactPatch), SOLVED);
          expectWithin(row.rightPatchY, across(RcontactPatch), SOLVED);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('has of each wheel what a sweep of its corner has at its travel', () => {
    const curves = sweep(CORNER, { bump: 130, droop: 130 });
    for (const row of sweepAxle(axle({ left: CORNER, bar: BAR }), POSES).rows()) {
      for (const [side, travel] of [
        ['left', row.leftTravel],
        ['right', row.rightTravel],
      ] as const) {
        const at = curves.at(travel);
        expectClose(row[`${side}ShockLength`], at.shockLength, { times: FEW, scale: 500 });
        expectClose(row[`${side}InstallationRatio`], at.installationRatio!, { times: FEW * 16, scale: 1 });
        const lean = side === 'left' ? -row.roll : row.roll;
        expectClose(row[`${side}Camber`], at.camber + lean, { times: FEW, scale: 90 });
      }
    }
  });

  it('goes as far as its corners, one that ends at a dead point too', () => {
    const { droop } = limits(CORNER);
    expectSame(droop!.cause, 'deadPoint');
    const swept = sweepAxle(axle({ left: CORNER }), {
      heave: [droop!.travel + 1, droop!.travel - 1],
      roll: [0],
    });
    expectSame([...swept.columns.leftTravel], [droop!.travel + 1]);
    expectSame(
      swept.outOfReach.map(({ end }) => end.status),
      ['deadPoint', 'deadPoint'],
    );
    const leaning = sweepAxle(axle({ left: CORNER }), { heave: [droop!.travel / 2], roll: [-2, 2] });
    expectSame(leaning.outOfReach, []);
  });

  it('has both wheels on the ground in every row, up to its dead points too, in finite numbers', () => {
    let atDeadPoints = 0;
    fc.assert(
      fc.property(
        wildCorners.map(doubleWishbone),
        fc.double({ min: -6, max: 6, noNaN: true }),
        // Shares of the way from one end to the other, crowded at both.
        fc.array(
          fc.tuple(fc.integer({ min: 0, max: 14 }), fc.boolean()).map(([k, isUpper]) => {
            const share = k === 0 ? 0 : 10 ** (1 - k);
            return isUpper ? 1 - share : share;
          }),
          { minLength: 8, maxLength: 8 },
        ),
        (left, roll, shares) => {
          const whole = axle({ left });
          const { droop, bump } = sweepAxle(whole, { heave: [-400, 400], roll: [0] }).end.left;
          const curves = sweep(left, { droop: 1000, bump: 1000, columns: ['contactPatchY'] });
          const tan = Math.tan(roll * DEGREE);
          // The heave at which the left wheel is so far on its way.
          const heave = shares.map((share) => {
            const z = droop.travel + share * (bump.travel - droop.travel);
            return z + curves.at(Math.min(curves.end.bump.travel, z)).contactPatchY! * tan;
          });
          const swept = sweepAxle(whole, { heave, roll: [roll] });
          for (const row of swept.rows()) {
            for (const value of Object.values(row))
              expect(value === null || Number.isFinite(value)).toBe(true);
            for (const [side, way] of [
              ['left', 1],
              ['right', -1],
            ] as const) {
              const z = row[`${side}Travel`];
              const y =
                (way * (row[`${side}PatchY`] + z * Math.sin(roll * DEGREE))) / Math.cos(roll * DEGREE);
              // A rounding of the travel moves the wheel by as many of the slope there.
              const slope = Math.max(1, Math.abs(1 / row[`${side}TravelByHeave`]));
              expectClose(z + way * y * tan, row.heave, { times: FEW * slope, scale: 1000 });
            }
          }
          if (droop.status === 'deadPoint' || bump.status === 'deadPoint') atDeadPoints++;
        },
      ),
      { numRuns: 60 },
    );
    expect(atDeadPoints).toBeGreaterThan(0);
  });

  it('level has the roll centre of its corner, in the middle', () => {
    const curves = sweep(CORNER, { bump: 60, droop: 60 });
    for (const row of sweepAxle(axle({ left: CORNER }), { heave: [-50, 0, 20, 60], roll: [0] }).rows()) {
      expectSame(row.rollCentreY, 0);
      expectClose(row.rollCentreHeight!, curves.at(row.heave).rollCentreHeight!, { times: FEW, scale: 700 });
      expectClose(row.rollCentreChassisZ!, row.rollCentreHeight! + row.heave, { times: 4, scale: 700 });
    }
  });

  it('of two swing axles is in closed form: each wheel a turn about its pivot', () => {
    // Pivot at [90, 260], patch at [650, 0]: p + |d| (cos, sin)(a), and the ground z = e - y tan p.
    const radius = Math.hypot(patch[0] - pivot[0], patch[1] - pivot[1]);
    const drawn = Math.atan2(patch[1] - pivot[1], patch[0] - pivot[0]);
    for (const row of sweepAxle(axle({ left: SWING_AXLE }), {
      heave: [-20, 0, 30],
      roll: [0, 2, -3],
    }).rows()) {
      for (const [side, way] of [
        ['left', 1],
        ['right', -1],
      ] as const) {
        // Distance of the pivot from the ground along its normal is radius x cos of an angle.
        const lean = way * row.roll * DEGREE;
        const height = pivot[1] * Math.cos(lean) + pivot[0] * Math.sin(lean) - row.heave * Math.cos(lean);
        const turn = -Math.asin(height / radius) - lean - drawn;
        expectClose(row[`${side}Camber`], (-turn - lean) / DEGREE, { times: FEW * 16, scale: 90 });
        const z = pivot[1] + radius * Math.sin(drawn + turn);
        expectClose(row[`${side}Travel`], z, { times: FEW * 16, scale: radius });
        // The patch goes square to the line to the pivot, which is the line to the roll centre.
        const y = pivot[0] + radius * Math.cos(drawn + turn);
        const [cy, cz] = [way * row.rollCentreChassisY!, row.rollCentreChassisZ!];
        const across = (y - pivot[0]) * (cz - pivot[1]) - (z - pivot[1]) * (cy - pivot[0]);
        expectWithin(across / (radius * radius), 0, 1e-12);
      }
    }
  });

  it('with parallel level arms of one length keeps its wheels upright in the chassis: camber goes by roll alone', () => {
    const left = doubleWishbone({
      lowerArm: { inner: [300, 150], outer: [650, 150] },
      upperArm: { inner: [300, 400], outer: [650, 400] },
      wheel: { centre: [720, 300], contactPatch: [720, 0] },
      coilover: { on: 'lowerArm', mount: [500, 160], chassisMount: [350, 500] },
    });
    for (const row of sweepAxle(axle({ left }), POSES).rows()) {
      expectClose(row.leftCamber, -row.roll, { times: FEW, scale: 90 });
      expectClose(row.rightCamber, row.roll, { times: FEW, scale: 90 });
      expectClose(row.leftCamberByRoll, -1, { times: FEW, scale: 1 });
    }
    const [level] = sweepAxle(axle({ left }), { heave: [0], roll: [0] }).rows();
    // Both lines lie on the ground: they meet anywhere on it.
    expectSame([level.rollCentreY, level.rollCentreHeight], [null, 0]);
  });

  it('has exact derivatives by heave and by roll', () => {
    const left = axle({ left: CORNER, bar: BAR });
    for (const [heave, roll] of [
      [0, 0],
      [25, 3],
      [-30, -2],
    ]) {
      const { row, slopes, byHeave } = besidePose(left, heave, roll);
      for (const name of ['leftTravel', 'rightTravel', 'leftCamber', 'rightCamber', 'barTwist'] as const) {
        expectWithin(row[`${name}ByHeave`]!, slopes(name).byHeave, DIFFERENCED);
        expectWithin(row[`${name}ByRoll`]!, slopes(name).byRoll, DIFFERENCED);
      }
      // Of the lever's end: its ratio to travel is the slope of its height.
      const end = (of: typeof row) => BAR.leverLength * Math.sin(of.leftLeverAngle! * DEGREE);
      const [up, down] = byHeave;
      expectWithin(row.leftBarRatio!, (end(up) - end(down)) / (up.leftTravel - down.leftTravel), DIFFERENCED);
    }
  });

  it('leaned the other way is its mirror image, to the bit', () => {
    const both = (roll: number) =>
      sweepAxle(axle({ left: CORNER, bar: BAR }), { heave: [-30, 10, 40], roll: [roll] }).rows();
    for (const [k, row] of both(2.7).entries()) {
      const image = both(-2.7)[k];
      for (const name of [
        'Travel',
        'ShockLength',
        'Camber',
        'LeverAngle',
        'TravelByHeave',
        'BarRatio',
      ] as const) {
        expectSame(row[`left${name}`], image[`right${name}`]);
        expectSame(row[`right${name}`], image[`left${name}`]);
      }
      expectSame(row.barTwist, -image.barTwist!);
      expectSame(row.rollCentreY! + image.rollCentreY!, 0);
      expectSame(row.rollCentreHeight, image.rollCentreHeight);
    }
  });

  it('has on a grid the bits that it has pose by pose, where wheels and rolls are mirror images or not', () => {
    const [left, right] = [CORNER, REAR_CORNER];
    const thirdSpring = { on: 'lowerArm', mount: [430, 190], rate: 30 } as const;
    for (const pair of [{ left }, { left, right }]) {
      const whole = axle({ ...pair, bar: BAR, thirdSpring });
      for (const roll of [
        [-2.5, 0, 2.5],
        [-2.5, 1, 2.5],
      ]) {
        const heave = [-35, 5, 50];
        const grid = sweepAxle(whole, { heave, roll });
        const pairs = roll.flatMap((degrees) => heave.map((mm) => [mm, degrees]));
        const path = sweepAxle(whole, {
          heave: pairs.map(([mm]) => mm),
          roll: pairs.map(([, degrees]) => degrees),
          along: 'path',
        });
        expectSame(grid.rows(), path.rows());
      }
    }
  });

  it('keeps the length of its drop links, level or not', () => {
    const length = Math.hypot(BAR.linkMount[0] - BAR.leverEnd[0], BAR.linkMount[1] - BAR.leverEnd[1]);
    for (const row of sweepAxle(axle({ left: CORNER, bar: BAR }), POSES).rows()) {
      for (const side of ['left', 'right'] as const) {
        const [angle, lean] = [row[`${side}LeverAngle`]!, row[`${side}LinkAngle`]!].map((a) => a * DEGREE);
        const along = BAR.leverLength * (1 - Math.cos(angle));
        // The link's planar length, from its lean and how far out its lower end is.
        const planar = Math.sqrt(length * length - along * along);
        const swung = modelOf(CORNER).drawing.points.lowerInner;
        const [dy, dz] = [BAR.linkMount[0] - swung[0], BAR.linkMount[1] - swung[1]];
        const [ey, ez] = [BAR.leverEnd[0], BAR.leverEnd[1] + BAR.leverLength * Math.sin(angle)];
        const lower = [ey - planar * Math.sin(lean), ez - planar * Math.cos(lean)];
        expectClose(Math.hypot(lower[0] - swung[0], lower[1] - swung[1]), Math.hypot(dy, dz), {
          times: FEW * 16,
          scale: 500,
        });
      }
    }
  });

  it('says where a wheel does not get to, and gives the rest', () => {
    const swept = sweepAxle(axle({ left: CORNER, bar: BAR }), { heave: [0, 700], roll: [0, 3] });
    expectSame(
      swept.columns.heave.length +
        new Set(swept.outOfReach.map(({ heave, roll }) => `${heave} ${roll}`)).size,
      4,
    );
    expectSame([...swept.columns.heave], [0, 0]);
    for (const { heave, end } of swept.outOfReach) {
      expectSame(heave, 700);
      expect(end.travel).toBeLessThan(700);
      expect(['deadPoint', 'leverOverCentre']).toContain(end.status);
    }
  });
});

describe('a round bar', () => {
  it('has G pi d^4 / (32 L): 20 mm of steel over 1 m is 21.7 N·m/deg (handbook formula, evaluated here)', () => {
    const stiffness = torsionalStiffness({ diameter: 20, length: 1000 });
    expectClose(stiffness, (((79_300 * Math.PI * 20 ** 4) / 32 / 1000 / 1000) * Math.PI) / 180, {
      times: 8,
      scale: 22,
    });
    expectWithin(stiffness, 21.74, 5e-3);
    const tube = torsionalStiffness({ diameter: 20, innerDiameter: 16, length: 1000 });
    expectClose(tube / stiffness, 1 - 0.8 ** 4, { times: 8, scale: 1 });
  });
});
