/**
 * Corners with rod and rocker against their closed form (two circles more than a double wishbone), against levers by
 * hand, and against pictures of what ends their travel.
 */
import * as fc from 'fast-check';
import {
  doubleWishbone,
  handMethod,
  type Limit,
  type Limits,
  limits,
  type Pose,
  type PushrodInput,
  pushrod,
  sentence,
  sweep,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { cross, dot, minus, type Point } from '../judges/plane.ts';
import { type RockerInput, type RockerPose, rockerCorner } from '../judges/rocker.ts';
import { deepFreeze } from '../support/freeze.ts';
import { rockerCorners } from '../support/rocker-corners.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { direction } from './geometry.ts';
import { magnitudeOf } from './kinds.ts';

const DEGREES = 180 / Math.PI;
/** Roundings of a place, times the size of the drawing and how far the fastest point goes for each mm of travel. */
const PLACE = 64;
/** What ratio (1) and slope (1/mm) may be off where nothing goes faster than the travel. */
const RATIO = 1e-10;
/** mm: what a limit is met to. */
const MET = 1e-9;
/** Shares of the way to an end at which to look. */
const SHARES = [-0.95, -0.6, -0.2, 0, 0.3, 0.7, 0.95];

/** A pushrod corner, to be changed. */
const rear: PushrodInput = deepFreeze({
  lowerArm: { inner: [250, 160], outer: [630, 150] },
  upperArm: { inner: [300, 340], outer: [590, 360] },
  wheel: { centre: [700, 315], contactPatch: [702, 0] },
  rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
  rocker: { pivot: [260, 400] },
  coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
});

const all = ({ bump, droop, later }: Limits): Limit[] =>
  [bump, droop, ...later].filter((limit) => limit !== null);

/** About what a part turns against the chassis, in words. */
function judged(input: RockerInput, travel: number): RockerPose {
  const pose = rockerCorner(input).atTravel(travel);
  if (pose === null) throw new Error(`no pose at ${travel} mm`);
  return pose;
}

describe('any corner with rod and rocker, by circle intersection', () => {
  it('has the places, lengths, angles and ratios of its circles', () => {
    fc.assert(
      fc.property(rockerCorners, (input) => {
        const swept = sweep(pushrod(input as PushrodInput), { bump: 80, droop: 80 });
        const { bump, droop } = swept.end;
        for (const share of SHARES) {
          const travel = share * (share > 0 ? bump.travel : -droop.travel);
          const row = swept.at(travel);
          const places: Pose = row;
          const pose = judged(input, travel);
          const c = pose.fastest / pose.sine;
          const place = { times: PLACE, scale: magnitudeOf(input) * c };
          for (const [name, at] of Object.entries(pose.points)) {
            const column = name === 'shockOther' ? 'shockOtherMount' : name;
            if (name === 'shockOther' && input.coilover.otherEnd === undefined) continue;
            expectClose(places[`${column}Y`], at[0], place);
            expectClose(places[`${column}Z`], at[1], place);
          }
          const { rodMount, rodRockerMount } = pose.points;
          expectClose(row.shockLength, pose.shockLength, place);
          expectClose(row.rockerAngle, pose.rockerTurn * DEGREES, place);
          const along = direction(rodRockerMount, rodMount);
          expectClose(Math.cos((row.rodAngle - along) / DEGREES), 1, { times: 64, scale: 1 });
          expectClose(Math.sin(row.rodRockerAngle / DEGREES), pose.sine, place);
          const arm = minus(input.rocker.pivot, rodRockerMount);
          const rod = minus(rodMount, rodRockerMount);
          const cosine = dot(arm, rod) / (Math.hypot(...arm) * Math.hypot(...rod));
          expectClose(Math.cos(row.rodRockerAngle / DEGREES), cosine, place);
          expectWithin(row.installationRatio, pose.installationRatio, RATIO * c ** 2);
          expectWithin(row.installationRatioSlope, pose.installationRatioSlope, RATIO * c ** 4);
        }
      }),
    );
  });

  it('ends where the arms do, or before, where rod and rocker come into line', () => {
    const seen = { arms: 0, rodAndRocker: 0 };
    fc.assert(
      fc.property(rockerCorners, (input) => {
        const corner = pushrod(input as PushrodInput);
        const judge = rockerCorner(input);
        const found = all(limits(corner));
        const swept = sweep(corner, { bump: 3000, droop: 3000, step: 3000, columns: ['shockLength'] });
        for (const side of ['bump', 'droop'] as const) {
          const inLine = judge.inLine(side);
          const end = found.find((limit) => limit.side === side && /dead|undet/.test(limit.cause));
          if (end === undefined) throw new Error(`no end in ${side}`);
          expectWithin(swept.end[side].travel, end.travel, MET);
          // Arms that lie flat on the way are an end of their own.
          if (end.cause !== 'deadPoint') continue;
          expectWithin(end.travel, inLine ?? judge.arms.deadPoints()[side].travel, MET);
          const part = inLine === null ? 'arms' : 'rodAndRocker';
          expect(end.part).toBe(part);
          seen[part]++;
        }
      }),
      { numRuns: 50 },
    );
    expect(Math.min(seen.arms, seen.rodAndRocker)).toBeGreaterThan(2);
  });

  it('has its ratio at zero where the length turns, and says why', () => {
    const why = { pivotOfRocker: 0, pivotOfArm: 0, instantCentre: 0, against: 0 };
    fc.assert(
      fc.property(rockerCorners, (input) => {
        const judge = rockerCorner(input);
        for (const { travel, cause, diagnostic } of all(limits(pushrod(input as PushrodInput)))) {
          if (cause !== 'ratioZero' || travel === 0) continue;
          const pose = judged(input, travel);
          const c = pose.fastest / pose.sine;
          expectWithin(pose.installationRatio, 0, RATIO * c ** 2);
          const before = judge.atTravel(travel / 2) as RockerPose;
          expect(Math.sign(before.installationRatio)).toBe(Math.sign(judged(input, 0).installationRatio));
          const { rodMount, rodRockerMount, shockRockerMount, shockOther } = pose.points;
          const off = (at: Point, a: Point, b: Point) =>
            Math.abs(cross(minus(at, a), minus(b, a))) / Math.hypot(...minus(b, a));
          const { why: reason, centre, of } = diagnostic.values;
          if (reason === 'rockerStands') {
            expectWithin(pose.rockerRate, 0, RATIO * c ** 2);
            const { on } = input.rod;
            expect([centre, of]).toEqual([on === 'upright' ? 'instantCentre' : 'pivot', [on]]);
            if (on !== 'upright') expectWithin(off(input[on].inner, rodMount, rodRockerMount), 0, 1e-6 * c);
            why[on === 'upright' ? 'instantCentre' : 'pivotOfArm']++;
          } else if (centre === 'pivot') {
            expect([reason, of]).toEqual(['throughCentre', ['rocker']]);
            expectWithin(off(input.rocker.pivot, shockRockerMount, shockOther), 0, 1e-6 * c);
            why.pivotOfRocker++;
          } else {
            expect(reason).toMatch(/throughCentre|carrierStands|eyesMoveAlike/);
            if (reason === 'throughCentre') {
              expect(centre).toBe('instantCentre');
              expect(of).toHaveLength(2);
              why.against++;
            }
          }
        }
      }),
      { numRuns: 150 },
    );
    expect(Math.min(...Object.values(why))).toBeGreaterThan(0);
  });
});

describe('the ratio at ride', () => {
  /** Distance of a point from the line through two others, positive to the left. */
  const lever = (at: Point, a: Point, b: Point) =>
    cross(minus(b, a), minus(at, a)) / Math.hypot(...minus(b, a));
  /** Where two lines meet, each through two points. */
  const meeting = ([a, b]: [Point, Point], [c, d]: [Point, Point]): Point => {
    const [p, q] = [minus(b, a), minus(d, c)];
    const share = cross(minus(c, a), q) / cross(p, q);
    return [a[0] + share * p[0], a[1] + share * p[1]];
  };

  it('is the product of the levers: wheel and rod about the arm, rod and coilover about the rocker', () => {
    const { lowerArm, upperArm, rod, rocker, coilover } = pushrod(rear);
    const centre = meeting([lowerArm.inner, lowerArm.outer], [upperArm.inner, upperArm.outer]);
    // 1 N up at the contact patch is held by the arm's own force on the upright: moments about the instant centre give its
    // part across the arm, moments about the arm's pivot the rod's force, about the rocker's pivot that of the coilover.
    const patch: Point = [702, 0];
    const atJoint = (patch[0] - centre[0]) / Math.hypot(...minus(lowerArm.outer, centre));
    const across = Math.sign(lowerArm.outer[0] - centre[0]);
    const inRod =
      (across * atJoint * Math.hypot(...minus(lowerArm.outer, lowerArm.inner))) /
      lever(lowerArm.inner, rod.mount, rod.rockerMount);
    const inCoilover =
      (inRod * lever(rocker.pivot, rod.mount, rod.rockerMount)) /
      lever(rocker.pivot, coilover.rockerMount, coilover.chassisMount as Point);
    // The ratio is the wheel's force over the coilover's.
    const { installationRatio } = sweep(pushrod(rear)).at(0);
    expectClose(installationRatio, Math.abs(1 / inCoilover), { times: 64, scale: 1 });
  });

  it('of right angles and whole levers is a simple fraction', () => {
    const corner = pushrod({
      lowerArm: { inner: [200, 150], outer: [600, 150] },
      upperArm: { inner: [200, 350], outer: [600, 350] },
      wheel: { centre: [700, 300], contactPatch: [700, 0] },
      rod: { on: 'lowerArm', mount: [400, 150], rockerMount: [400, 450] },
      rocker: { pivot: [300, 450] },
      coilover: { rockerMount: [300, 400], chassisMount: [500, 400] },
    });
    const row = sweep(corner).at(0);
    expectClose(row.installationRatio, 1 / 4, { times: 4, scale: 1 });
    expect([row.rockerAngle, row.rodRockerAngle]).toEqual([0, 90]);
    expectClose(row.rodAngle, -90, { times: 2, scale: 90 });
  });
});

describe('limits of a corner with rod and rocker', () => {
  const words = (input: PushrodInput) =>
    all(limits(pushrod(input))).map(({ diagnostic }) => sentence(diagnostic));

  it('tell dead points of the rod and of the arms apart', () => {
    const long: PushrodInput = {
      ...rear,
      rod: { on: 'lowerArm', mount: [290, 165], rockerMount: [270, 470] },
      rocker: { pivot: [170, 460] },
      coilover: { rockerMount: [190, 560], chassisMount: [-60, 540] },
    };
    expect(words(rear)).toContainEqual(
      "The rod is at a dead point at 214.3 mm of bump, in line with the rocker's arm: the wheel cannot go higher.",
    );
    expect(words(long).join(' ')).toMatch(
      /The arms are at a dead point at [\d.]+ mm of droop: the wheel cannot go lower\./,
    );
  });

  it('say why the ratio is zero', () => {
    const still: PushrodInput = {
      ...rear,
      rod: { on: 'lowerArm', mount: [300, 165], rockerMount: [300, 420] },
      rocker: { pivot: [200, 420] },
      coilover: { rockerMount: [200, 500], chassisMount: [400, 500] },
    };
    expect(words(still).join(' ')).toContain(
      'the rocker stands still there, its rod in line with the pivot of the lower arm.',
    );
  });

  it('know the joints of the rod, and the end of a coilover that moves', () => {
    const found = limits(
      pushrod({
        ...rear,
        coilover: { rockerMount: [235, 500], otherEnd: { on: 'lowerArm', mount: [380, 170] } },
      }),
      {
        ballJoints: {
          rodRockerMount: { maxArticulation: 8, housing: 'rod' },
          rodMount: { maxArticulation: 6, housing: 'lowerArm' },
        },
        bearings: { otherEnd: { boltAxis: 'inPlane', maxMisalignment: 5 } },
      },
    );
    const { at } = sweep(pushrod(rear), { bump: 214.3, droop: 200 });
    const drawn = at(0);
    const met = (cause: string, part: string) =>
      all(found).filter((one) => one.cause === cause && one.part === part);
    for (const { travel } of met('ballJointArticulation', 'rodRockerMount')) {
      expectWithin(Math.abs(at(travel).rodRockerAngle - drawn.rodRockerAngle), 8, 1e-8);
    }
    for (const { travel } of met('ballJointArticulation', 'rodMount')) {
      const { rodAngle, lowerArmAngle } = at(travel);
      expectWithin(Math.abs(rodAngle - lowerArmAngle - drawn.rodAngle + drawn.lowerArmAngle), 6, 1e-8);
    }
    expect(met('ballJointArticulation', 'rodRockerMount')).toHaveLength(2);
    expect(met('ballJointArticulation', 'rodMount')).toHaveLength(2);
    expect(sentence(met('bearingMisalignment', 'otherEnd')[0].diagnostic)).toMatch(
      /^The bearing at the other end of the coilover is at its largest misalignment at [\d.]+ mm of (bump|droop): 5\.0 deg\.$/,
    );
  });

  it('refuse joints and ends that the corner has not', () => {
    const corner = pushrod(rear);
    const options = {
      ballJoints: {
        rodRockrMount: { maxArticulation: 8, housing: 'rod' },
        rodMount: { maxArticulation: 8, housing: 'upperArm' },
        lowerOuter: { maxArticulation: 8, housing: 'uprigt' },
      },
      bearings: { otherEnd: { boltAxis: 'inPlane', maxMisalignment: 5 } },
    } as const;
    expect(() => limits(corner, options)).toThrow(
      [
        'invalid limit options',
        '  ballJoints.rodRockrMount: unknown joint (allowed: lowerInner, lowerOuter, upperInner, upperOuter, rodMount, rodRockerMount, rockerPivot); did you mean rodRockerMount?',
        '  ballJoints.rodMount.housing: not a part of this joint, got "upperArm" (allowed: lowerArm, rod)',
        '  ballJoints.lowerOuter.housing: not a part of this joint, got "uprigt" (allowed: arm, lowerArm, upright); did you mean upright?',
        '  bearings.otherEnd: an end that does not move in this corner; name it chassis',
      ].join('\n'),
    );
  });
});

describe('the hand method', () => {
  it('is not defined through a rocker, nor between two parts that move', () => {
    expect(handMethod(pushrod(rear))).toMatchObject({
      defined: false,
      reason: { code: 'handMethodThroughRocker' },
    });
    const between = doubleWishbone({
      lowerArm: rear.lowerArm,
      upperArm: rear.upperArm,
      wheel: rear.wheel,
      coilover: { on: 'lowerArm', mount: [380, 170], otherEnd: { on: 'upperArm', mount: [400, 380] } },
    });
    expect(handMethod(between)).toMatchObject({
      defined: false,
      reason: { code: 'handMethodBetweenMovingParts' },
    });
  });
});
