/** Limits of any corner, judged by circle intersection: met where they say, and not before. */
import * as fc from 'fast-check';
import { doubleWishbone, sentence } from 'jounce';
import { describe, expect, it } from 'vitest';
import { type Limit, type Limits, limits } from '../../src/corner/limits/limits.ts';
import type { LimitOptions } from '../../src/document/inputs.ts';
import {
  type CircleCorner,
  type CirclePose,
  type CornerInput,
  circleCorner,
  drawnContactPatch,
  type Point,
} from '../judges/circle-intersection.ts';
import { unlikeArms } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin, tolerance } from '../support/tolerance.ts';
import { conditioning, magnitude } from './geometry.ts';

const DEGREES = 180 / Math.PI;

/** mm, degrees: what a limit is met to, and what counts as touched. */
const MET = 1e-9;
/** Roundings of the judge's poses. */
const PLACE = 64;

const all = ({ bump, droop, later }: Limits): Limit[] => [
  ...(bump === null ? [] : [bump]),
  ...(droop === null ? [] : [droop]),
  ...later,
];

const minus = (u: Point, v: Point): Point => [u[0] - v[0], u[1] - v[1]];
const angle = ([y, z]: Point) => Math.atan2(z, y);
/** Into -pi .. pi. */
const half = (turn: number) => turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));

/** How far a pose is from a limit, by the definitions: positive before it. Null for what has no such measure. */
function margin(input: CornerInput, options: LimitOptions, { cause, part }: Limit, pose: CirclePose) {
  const { lowerArm, upperArm, coilover } = input;
  const upright =
    angle(minus(pose.upperOuter, pose.lowerOuter)) - angle(minus(upperArm.outer, lowerArm.outer));
  const turns = {
    lowerArm: angle(minus(pose.lowerOuter, lowerArm.inner)) - angle(minus(lowerArm.outer, lowerArm.inner)),
    upperArm: angle(minus(pose.upperOuter, upperArm.inner)) - angle(minus(upperArm.outer, upperArm.inner)),
    upright,
  };
  const { damper, bumpStop, tyre } = options;
  switch (cause) {
    case 'damperExtended':
      return (damper?.extendedLength ?? Number.NaN) - pose.shockLength;
    case 'damperCompressed':
      return pose.shockLength - (damper?.compressedLength ?? Number.NaN);
    case 'bumpStopSolid':
      return (
        pose.shockLength - ((damper?.compressedLength ?? Number.NaN) + (bumpStop?.solidHeight ?? Number.NaN))
      );
    case 'groundContact': {
      const point = options.chassisLowPoints?.[Number(part.slice('chassisLowPoints['.length, -1))] ?? [
        Number.NaN,
        Number.NaN,
      ];
      return point[1] - pose.contactPatch[1];
    }
    case 'tyreContact': {
      const point = options.arch?.[Number(part.slice(5, -1))] ?? [Number.NaN, Number.NaN];
      if (typeof tyre !== 'object') return Number.NaN;
      const camber = drawnCamber(input) - upright;
      const [y, z] = minus(point, pose.wheelCentre);
      const along = Math.abs(y * Math.cos(camber) - z * Math.sin(camber));
      const up = Math.abs(y * Math.sin(camber) + z * Math.cos(camber));
      return Math.max(along - tyre.width / 2, up - tyre.overallRadius);
    }
    case 'ballJointArticulation': {
      const name = part as 'lowerOuter' | 'upperOuter';
      const joint = options.ballJoints?.[name];
      if (joint === undefined) return Number.NaN;
      const arm = turns[name === 'lowerOuter' ? 'lowerArm' : 'upperArm'];
      const [housing, stud] = joint.housing === 'arm' ? [arm, upright] : [upright, arm];
      const drawn =
        joint.studAxis === undefined || joint.housingAxis === undefined
          ? 0
          : angle(joint.studAxis) - angle(joint.housingAxis);
      return joint.maxArticulation - Math.abs(half(drawn + stud - housing)) * DEGREES;
    }
    case 'bearingMisalignment': {
      const end = options.bearings?.[part as 'mount' | 'chassis'];
      if (end === undefined) return Number.NaN;
      const line = minus(pose.mount, coilover.chassisMount);
      const x = coilover.foreAftOffset ?? 0;
      const lean = Math.atan2(Math.abs(x), Math.hypot(...line));
      if (end.boltAxis === 'longitudinal') return end.maxMisalignment - lean * DEGREES;
      const body = part === 'mount' ? turns[coilover.on] : 0;
      const swing = angle(line) - angle(minus(coilover.mount, coilover.chassisMount)) - body;
      return end.maxMisalignment - Math.asin(Math.abs(Math.cos(lean) * Math.sin(swing))) * DEGREES;
    }
    default:
      return null;
  }
}

function drawnCamber({ wheel, ...input }: CornerInput): number {
  if ('camber' in wheel) return wheel.camber / DEGREES;
  const patch = drawnContactPatch({ wheel, ...input });
  return Math.atan2(wheel.centre[0] - patch[0], wheel.centre[1] - patch[1]);
}

const tenth = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((n) => n / 10);
const axis = fc.tuple(tenth(-1, 1), tenth(1, 3));
const joint = fc.record(
  {
    maxArticulation: tenth(5, 40),
    housing: fc.constantFrom<('arm' | 'upright')[]>('arm', 'upright'),
    housingAxis: axis,
    studAxis: axis,
  },
  { requiredKeys: ['maxArticulation', 'housing'] },
);
const bearing = fc.record({
  boltAxis: fc.constantFrom<('longitudinal' | 'inPlane')[]>('longitudinal', 'inPlane'),
  maxMisalignment: tenth(2, 25),
});

/** Random corners with everything that can end their travel; some of it does not fit as drawn. */
const cases = unlikeArms.chain((input) => {
  const { mount, chassisMount, foreAftOffset = 0 } = input.coilover;
  const [y, z] = input.wheel.centre;
  const ride = Math.hypot(...minus(mount, chassisMount), foreAftOffset);
  return fc
    .record({
      extendedLength: tenth(-10, 80),
      compressedLength: tenth(-10, 80),
      stop: tenth(1, 20),
      solid: tenth(0, 20),
      radius: tenth(0, 20),
      width: tenth(150, 260),
      arch: fc.array(fc.tuple(tenth(-150, 150), tenth(250, 420)), { maxLength: 4 }),
      chassisLowPoints: fc.array(tenth(-5, 150), { maxLength: 2 }),
      lowerOuter: joint,
      upperOuter: joint,
      mount: bearing,
      chassis: bearing,
    })
    .map((d): { input: CornerInput; options: LimitOptions } => {
      const compressedLength = Math.max(20, ride - d.compressedLength);
      return deepFreeze({
        input,
        options: {
          damper: {
            extendedLength: Math.max(ride + d.extendedLength, compressedLength + 50),
            compressedLength,
          },
          bumpStop: { height: d.solid + d.stop, solidHeight: d.solid },
          tyre: { overallRadius: z + d.radius, width: d.width },
          arch: d.arch.map(([u, v]): Point => [y + u, z + v]),
          chassisLowPoints: d.chassisLowPoints.map((height): Point => [0, height]),
          ballJoints: { lowerOuter: d.lowerOuter, upperOuter: d.upperOuter },
          bearings: { mount: d.mount, chassis: d.chassis },
        },
      });
    });
});

/** A pose of the judge, and how well it is known there. */
interface Judged {
  readonly travel: number;
  readonly pose: CirclePose;
  readonly off: number;
}

function poseAt(judge: CircleCorner, input: CornerInput, travel: number): Judged | null {
  const pose = judge.atTravel(travel);
  if (pose === null) return null;
  const roundings = { times: PLACE, scale: magnitude(input) * conditioning(input, pose) };
  return { travel, pose, off: MET + tolerance(roundings) };
}

/** Poses from the drawn one to the dead point of a side, dense near the drawn one. */
function scan(judge: CircleCorner, input: CornerInput, side: 'bump' | 'droop'): Judged[] {
  const end = judge.deadPoints()[side].travel;
  return Array.from({ length: LOOKS + 1 }, (_, k) => poseAt(judge, input, end * (k / LOOKS) ** 2)).filter(
    (pose) => pose !== null,
  );
}
const LOOKS = 160;

const SIDES = ['bump', 'droop'] as const;

describe('limits of any corner', () => {
  it('are met where they say, not before, and left out only where nothing meets them', () => {
    fc.assert(
      fc.property(cases, ({ input, options }) => {
        const found = all(limits(doubleWishbone(input), options));
        const judge = circleCorner(input);
        for (const side of SIDES) {
          const poses = scan(judge, input, side);
          expect(found.filter((one) => one.side === side && one.cause === 'deadPoint')).toHaveLength(1);
          for (const [cause, parts] of Object.entries(partsOf(options))) {
            for (const part of parts) {
              const isIt = (one: Limit) => one.side === side && one.cause === cause && one.part === part;
              const limit = found.find(isIt) ?? ({ side, cause, part } as Limit);
              const travel = limit.travel ?? Number.POSITIVE_INFINITY;
              const left = ({ pose }: Judged) => margin(input, options, limit, pose) ?? Number.NaN;
              if (travel === 0) continue;
              // From a drawn pose beyond the limit it must have come inside on the way.
              let inside = left(poses[0]) >= -MET;
              for (const pose of poses) {
                if (Math.abs(pose.travel) >= Math.abs(travel)) break;
                if (left(pose) > pose.off) inside = true;
                else if (inside && left(pose) < -pose.off)
                  expect.fail(`${cause} ${part} at ${travel}: beyond it by ${left(pose)} at ${pose.travel}`);
              }
              if (limit.travel === undefined) continue;
              const there = poseAt(judge, input, travel);
              if (there !== null) expectWithin(left(there), 0, there.off);
            }
          }
        }
      }),
    );
  });

  it('are at travel 0 on the side where what does not fit gets worse', () => {
    fc.assert(
      fc.property(cases, ({ input, options }) => {
        const found = all(limits(doubleWishbone(input), options));
        const judge = circleCorner(input);
        const drawn = poseAt(judge, input, 0);
        for (const side of SIDES) {
          const near = poseAt(judge, input, side === 'bump' ? 1e-3 : -1e-3);
          if (drawn === null || near === null) continue;
          for (const [cause, parts] of Object.entries(partsOf(options))) {
            for (const part of parts) {
              const wanted = { side, cause, part } as Limit;
              const [here, there] = [drawn, near].map(
                ({ pose }) => margin(input, options, wanted, pose) ?? 0,
              );
              if (here > -MET || there > here - 1e-6) continue;
              const limit = found.find(
                (one) => one.side === side && one.cause === cause && one.part === part,
              );
              expect([cause, part, limit?.travel]).toEqual([cause, part, 0]);
            }
          }
        }
      }),
    );
  });

  it('have their dead points where the circles say', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const found = all(limits(doubleWishbone(input)));
        const ends = circleCorner(input).deadPoints();
        for (const side of ['bump', 'droop'] as const) {
          const dead = found.find((limit) => limit.side === side && limit.cause === 'deadPoint');
          expectWithin(dead?.travel ?? null, ends[side].travel, MET);
        }
      }),
    );
  });

  it('have the ratio at zero where the length turns, and nowhere before', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const judge = circleCorner(input);
        const ends = judge.deadPoints();
        const ratio = (travel: number) => judge.atTravel(travel)?.installationRatio ?? null;
        const drawn = ratio(0) ?? 0;
        fc.pre(Math.abs(drawn) > 1e-6);
        const found = all(limits(doubleWishbone(input)));
        for (const side of ['bump', 'droop'] as const) {
          const zero = found.find((limit) => limit.side === side && limit.cause === 'ratioZero');
          if (zero !== undefined) {
            const there = poseAt(judge, input, zero.travel);
            if (there !== null) {
              const slope = there.pose.installationRatioSlope ?? 0;
              expectWithin(there.pose.installationRatio, 0, MET + Math.abs(slope) * there.off * 100);
            }
          }
          const last = zero?.travel ?? ends[side].travel;
          for (let share = 0; share < 0.999; share += 1 / 256) {
            const there = ratio(share * last);
            if (there !== null) expect(Math.sign(there)).toBe(Math.sign(drawn));
          }
        }
      }),
    );
  });

  it('stand in order of meeting, the first of each side before the others', () => {
    fc.assert(
      fc.property(cases, ({ input, options }) => {
        const found = limits(doubleWishbone(input), options);
        const { bump, droop, later } = found;
        for (let k = 1; k < later.length; k++) {
          expect(Math.abs(later[k].travel)).toBeGreaterThanOrEqual(Math.abs(later[k - 1].travel));
        }
        for (const limit of all(found)) {
          expect(limit.travel * (limit.side === 'bump' ? 1 : -1)).toBeGreaterThanOrEqual(0);
          expect(Object.is(limit.travel, -0)).toBe(false);
          const first = limit.side === 'bump' ? bump : droop;
          expect(Math.abs(limit.travel)).toBeGreaterThanOrEqual(Math.abs(first?.travel ?? Number.NaN));
          const words = sentence(limit.diagnostic);
          expect(words).toMatch(/^[A-Z].*[^ ]\.$/);
          expect(words).not.toMatch(/NaN|undefined|Infinity|-0(?![.\d])/);
        }
        expect(structuredClone(found)).toStrictEqual(JSON.parse(JSON.stringify(found)));
      }),
    );
  });

  it('are the same of the right-hand corner, with points counted outboard', () => {
    fc.assert(
      fc.property(cases, ({ input, options }) => {
        const turned = ([y, z]: Point): Point => [0 - y, z];
        const arm = ({ inner, outer }: CornerInput['lowerArm']) => ({
          inner: turned(inner),
          outer: turned(outer),
        });
        const { wheel, coilover } = input;
        const right = doubleWishbone({
          lowerArm: arm(input.lowerArm),
          upperArm: arm(input.upperArm),
          wheel:
            'contactPatch' in wheel
              ? { centre: turned(wheel.centre), contactPatch: turned(wheel.contactPatch) }
              : { ...wheel, centre: turned(wheel.centre) },
          coilover: {
            ...coilover,
            mount: turned(coilover.mount),
            chassisMount: turned(coilover.chassisMount),
          },
        });
        expect(limits(right, options)).toEqual(limits(doubleWishbone(input), options));
      }),
    );
  });

  it('come with a sentence for each thing that does not fit as drawn', () => {
    fc.assert(
      fc.property(cases, ({ input, options }) => {
        const { misfits: fits } = limits(doubleWishbone(input), options);
        const drawn = circleCorner(input).atTravel(0);
        if (drawn === null) return;
        const misfits = Object.entries(partsOf(options)).flatMap(([cause, parts]) =>
          parts.filter((part) => {
            const here = margin(input, options, { cause, part } as Limit, drawn);
            return here !== null && here < -MET;
          }),
        );
        expect(fits).toHaveLength(misfits.length);
        if (fits.length === 0) return;
        for (const fit of fits) {
          expect(fit.severity).toBe('conflict');
          expect(sentence(fit)).toMatch(/ at design ride height.*\d.*\.$/);
        }
      }),
    );
  });
});

function partsOf({ arch = [], chassisLowPoints = [], bumpStop }: LimitOptions): Record<string, string[]> {
  return {
    damperExtended: [''],
    damperCompressed: [''],
    bumpStopSolid: bumpStop !== undefined && bumpStop.solidHeight > 0 ? [''] : [],
    tyreContact: arch.map((_, k) => `arch[${k}]`),
    groundContact: chassisLowPoints.map((_, k) => `chassisLowPoints[${k}]`),
    ballJointArticulation: ['lowerOuter', 'upperOuter'],
    bearingMisalignment: ['mount', 'chassis'],
  };
}
