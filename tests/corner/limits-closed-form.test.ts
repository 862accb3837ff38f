/**
 * Limits of corners whose motion has a closed form.
 *
 * Parallelogram, both arms a (cos θ, sin θ): the upright keeps its direction and goes by a (cos θ, sin θ), so that
 *
 *     t = a (sin θ - sin θ0)
 *
 * Swing arm, both arms on one pivot O: all turns about O by δ, and t = ρ (sin(α0 + δ) - sin α0) with the contact patch at
 * (ρ, α0) from O. In both the shock's mount is on a circle of radius b about an arm's pivot, the chassis mount at a distance
 * c from that, and with ε the angle between the two, by the law of cosines,
 *
 *     L² = b² + c² - 2 b c cos ε + x²       x: fore-aft offset;   R = 0 at ε = 0 and ε = 180°
 */
import * as fc from 'fast-check';
import { doubleWishbone } from 'jounce';
import { describe, expect, it } from 'vitest';
import { type Limit, type LimitCause, type Limits, limits } from '../../src/corner/limits/limits.ts';
import type { LimitOptions } from '../../src/document/inputs.ts';
import type { CornerInput, Point } from '../judges/circle-intersection.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';

const DEGREES = 180 / Math.PI;
/** mm; what a limit is met to, on a travel that is not near a dead point. */
const MET = 1e-9;
/** mm; where bars lie flat the pose is known to the root of rounding only. */
const FLAT = 1e-4;

const polar = ([y, z]: Point) => ({ radius: Math.hypot(y, z), angle: Math.atan2(z, y) });
const minus = (u: Point, v: Point): Point => [u[0] - v[0], u[1] - v[1]];

function find(found: Limits, side: 'bump' | 'droop', cause: LimitCause, part = ''): Limit | undefined {
  const { bump, droop, later } = found;
  return [bump, droop, ...later].find(
    (limit) => limit?.side === side && limit.cause === cause && limit.part === part,
  ) as Limit | undefined;
}

/** The mount's circle: turn of the arm, from drawn, at which the shock has a length; negative: downward. */
function circleOf({ coilover, lowerArm }: CornerInput) {
  const mount = polar(minus(coilover.mount, lowerArm.inner));
  const chassis = polar(minus(coilover.chassisMount, lowerArm.inner));
  const [b, c, x] = [mount.radius, chassis.radius, coilover.foreAftOffset ?? 0];
  // The chassis mount stands above: the arm turns up to it.
  const drawn = chassis.angle - mount.angle;
  return {
    b,
    c,
    x,
    drawn,
    turnAt: (length: number) => drawn - Math.acos((b * b + c * c + x * x - length * length) / (2 * b * c)),
    lengthAt: (turn: number) => Math.sqrt(b * b + c * c + x * x - 2 * b * c * Math.cos(drawn - turn)),
  };
}

const tenth = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((n) => n / 10);

const draft = fc.record({
  rise: tenth(-60, 60),
  run: tenth(250, 400),
  kingpin: tenth(10, 60),
  height: tenth(180, 260),
  camber: tenth(-3, 3),
  share: tenth(0.5, 0.9),
  offset: tenth(0, 40),
  shockInboard: tenth(50, 160),
  shockHeight: tenth(250, 350),
});
type Draft = typeof draft extends fc.Arbitrary<infer T> ? T : never;

function cornerOf(d: Draft, swing: boolean): CornerInput {
  const inner: Point = [250, 170];
  const outer: Point = [inner[0] + d.run, inner[1] + d.rise];
  const mount: Point = [inner[0] + d.share * d.run, inner[1] + d.share * d.rise + 15];
  const above = (point: Point): Point => [point[0] - d.kingpin, point[1] + d.height];
  return deepFreeze({
    lowerArm: { inner, outer },
    upperArm: { inner: swing ? inner : above(inner), outer: above(outer) },
    wheel: { centre: [outer[0] + 60, 310], camber: d.camber },
    coilover: {
      on: 'lowerArm',
      mount,
      chassisMount: [mount[0] - d.shockInboard, mount[1] + d.shockHeight],
      foreAftOffset: d.offset,
    },
  });
}

describe('a parallelogram', () => {
  const cases = draft.map((d) => {
    const input = cornerOf(d, false);
    const arm = polar(minus(input.lowerArm.outer, input.lowerArm.inner));
    const travelAt = (turn: number) => arm.radius * (Math.sin(arm.angle + turn) - Math.sin(arm.angle));
    return { input, arm, travelAt, circle: circleOf(input) };
  });
  const turns = fc.record({ up: tenth(2, 40), down: tenth(2, 30) }).map(({ up, down }) => ({
    up: up / DEGREES,
    down: -down / DEGREES,
  }));

  it('ends with its arms upright, and where they lie along the kingpin', () => {
    fc.assert(
      fc.property(cases, ({ input, arm, travelAt }) => {
        const found = limits(doubleWishbone(input));
        expectWithin(
          find(found, 'bump', 'deadPoint')?.travel ?? null,
          travelAt(Math.PI / 2 - arm.angle),
          MET,
        );
        const kingpin = polar(minus(input.upperArm.outer, input.lowerArm.outer));
        const flat = travelAt(kingpin.angle - Math.PI - arm.angle);
        expectWithin(find(found, 'droop', 'bifurcation')?.travel ?? null, flat, FLAT);
      }),
    );
  });

  it('has damper, stop and contact with it where the law of cosines says', () => {
    fc.assert(
      fc.property(cases, turns, tenth(1, 20), tenth(1, 20), (c, { up, down }, solid, free) => {
        const { circle, travelAt } = c;
        const [extendedLength, compressedLength] = [circle.lengthAt(down), circle.lengthAt(up)];
        fc.pre(compressedLength + solid + free < circle.lengthAt(0) && up < circle.drawn);
        const found = limits(doubleWishbone(c.input), {
          damper: { extendedLength, compressedLength },
          bumpStop: { height: solid + free, solidHeight: solid },
        });
        const at = (cause: LimitCause, side: 'bump' | 'droop') => find(found, side, cause)?.travel ?? null;
        expectWithin(at('damperExtended', 'droop'), travelAt(down), MET);
        expectWithin(at('damperCompressed', 'bump'), travelAt(up), MET);
        expectWithin(at('bumpStopSolid', 'bump'), travelAt(circle.turnAt(compressedLength + solid)), MET);
        const contact = found.events.find(({ side }) => side === 'bump');
        expectWithin(contact?.travel ?? null, travelAt(circle.turnAt(compressedLength + solid + free)), MET);
        expect(contact?.event).toBe('bumpStopContact');
        expect([found.bump?.cause, found.droop?.cause]).toEqual(['bumpStopSolid', 'damperExtended']);
        expect(found.misfits).toEqual([]);
      }),
    );
  });

  it('has its ball joints at the end of their articulation when the arms have turned by it', () => {
    fc.assert(
      fc.property(
        cases,
        tenth(3, 40),
        tenth(-2, 2),
        fc.constantFrom('arm', 'upright'),
        ({ input, travelAt }, most, aside, housing) => {
          // The stud turned clockwise by `aside` from the housing's axis.
          const lean = aside / DEGREES;
          const ballJoint = {
            maxArticulation: most,
            housing,
            housingAxis: [0, 2] as Point,
            studAxis: [Math.sin(lean), Math.cos(lean)] as Point,
          };
          const found = limits(doubleWishbone(input), { ballJoints: { upperOuter: ballJoint } });
          // Housing on the arm: as that turns up, the stud leans clockwise from it.
          const further = housing === 'arm' ? -lean : lean;
          const up = travelAt(most / DEGREES + further);
          const down = travelAt(-most / DEGREES + further);
          expectWithin(find(found, 'bump', 'ballJointArticulation', 'upperOuter')?.travel ?? null, up, MET);
          expectWithin(
            find(found, 'droop', 'ballJointArticulation', 'upperOuter')?.travel ?? null,
            down,
            MET,
          );
        },
      ),
    );
  });

  it('has its bearings at the end of their tilt where the triangle of the shock says', () => {
    const ends = fc.record({
      part: fc.constantFrom('chassis', 'mount'),
      boltAxis: fc.constantFrom('inPlane', 'longitudinal'),
      maxMisalignment: tenth(1, 25),
    });
    fc.assert(
      fc.property(cases, ends, ({ input, arm, circle, travelAt }, { part, boltAxis, maxMisalignment }) => {
        const { b, c, x, drawn } = circle;
        // Angle of the triangle at the chassis mount or the mount, for the arm turned, and the side between the two.
        const triangle = (turn: number) => {
          const e = drawn - turn;
          const chassis = Math.atan2(b * Math.sin(e), c - b * Math.cos(e));
          const planar = Math.hypot(c - b * Math.cos(e), b * Math.sin(e));
          return { angle: part === 'chassis' ? chassis : Math.PI - e - chassis, planar };
        };
        const tilt = (turn: number) => {
          const { angle, planar } = triangle(turn);
          if (boltAxis === 'longitudinal') return Math.atan2(x, planar) * DEGREES;
          const swing = Math.sin(angle - triangle(0).angle);
          return Math.asin((Math.abs(swing) * planar) / Math.hypot(planar, x)) * DEGREES;
        };
        fc.pre(tilt(0) < maxMisalignment - 1e-3);
        const found = limits(doubleWishbone(input), { bearings: { [part]: { boltAxis, maxMisalignment } } });
        for (const [side, last] of [
          ['bump', Math.PI / 2 - arm.angle - 0.01],
          ['droop', -Math.PI / 2 - arm.angle + 0.5],
        ] as const) {
          const met = find(found, side, 'bearingMisalignment', part);
          const turnMet =
            met === undefined ? last : Math.asin(Math.sin(arm.angle) + met.travel / arm.radius) - arm.angle;
          if (Math.abs(turnMet) < Math.abs(last)) expectWithin(tilt(turnMet), maxMisalignment, 1e-8);
          for (let share = 0; share < 1; share += 1 / 256) {
            const turn = share * (Math.abs(turnMet) < Math.abs(last) ? turnMet : last);
            if (Math.abs(travelAt(turn)) < Math.abs(met?.travel ?? Number.POSITIVE_INFINITY) - 1e-6) {
              expect(tilt(turn)).toBeLessThan(maxMisalignment);
            }
          }
        }
      }),
    );
  });

  it('has the chassis on the ground after as much bump as it stands above it', () => {
    fc.assert(
      fc.property(cases, tenth(5, 150), ({ input }, height) => {
        const found = limits(doubleWishbone(input), {
          chassisLowPoints: [
            [0, 300],
            [100, height],
          ],
        });
        expectWithin(
          find(found, 'bump', 'groundContact', 'chassisLowPoints[1]')?.travel ?? null,
          height,
          MET,
        );
        expect(find(found, 'droop', 'groundContact', 'chassisLowPoints[1]')).toBeUndefined();
      }),
    );
  });

  it('has the tyre at the arch by its tread, or by its inner side', () => {
    fc.assert(
      fc.property(cases, turns, tenth(150, 250), tenth(-0.4, 0.4), (c, { up }, width, aside) => {
        const { input, arm, travelAt } = c;
        const r = 325;
        const camber = 'camber' in input.wheel ? input.wheel.camber / DEGREES : 0;
        // The wheel's centre, and the place of a point u across and v up in its plane, with the arms turned.
        const place = (turn: number, u: number, v: number): Point => [
          input.wheel.centre[0] +
            arm.radius * (Math.cos(arm.angle + turn) - Math.cos(arm.angle)) +
            u * Math.cos(camber) +
            v * Math.sin(camber),
          input.wheel.centre[1] + travelAt(turn) - u * Math.sin(camber) + v * Math.cos(camber),
        ];
        const [tread, side] = [place(up, aside * width, r), place(up, -0.5 * width, 0.9 * r)];
        const tyre = { overallRadius: r, width };
        const found = limits(doubleWishbone(input), { tyre, arch: [tread, side] });
        const met = find(found, 'bump', 'tyreContact', 'arch[0]');
        expectWithin(met?.travel ?? null, travelAt(up), MET);
        expect(met?.diagnostic.values.face).toBe('tread');
        // Across the wheel's plane the wheel goes by -a sin(θ + camber) dθ: steadily to the panel, or away from it first.
        if (arm.angle + camber < 0) return;
        const other = find(found, 'bump', 'tyreContact', 'arch[1]');
        expectWithin(other?.travel ?? null, travelAt(up), MET);
        expect(other?.diagnostic.values.face).toBe('inner');
      }),
    );
  });
});

describe('a swing arm', () => {
  const cases = draft.map((d) => {
    const input = cornerOf(d, true);
    const { contactPatch } = doubleWishbone(input).wheel;
    const patch = polar(minus(contactPatch, input.lowerArm.inner));
    const travelAt = (turn: number) => patch.radius * (Math.sin(patch.angle + turn) - Math.sin(patch.angle));
    return { input, patch, travelAt, circle: circleOf(input) };
  });

  it('ends with the contact patch above and below its pivot', () => {
    fc.assert(
      fc.property(cases, ({ input, patch }) => {
        const found = limits(doubleWishbone(input));
        const centre = -patch.radius * Math.sin(patch.angle);
        expectWithin(find(found, 'bump', 'deadPoint')?.travel ?? null, centre + patch.radius, MET);
        expectWithin(find(found, 'droop', 'deadPoint')?.travel ?? null, centre - patch.radius, MET);
      }),
    );
  });

  it('has its ratio at zero with mount and chassis mount in line with the pivot', () => {
    fc.assert(
      fc.property(cases, ({ input, patch, circle, travelAt }) => {
        const found = limits(doubleWishbone(input));
        const zero = find(found, 'bump', 'ratioZero')?.travel ?? null;
        if (patch.angle + circle.drawn < Math.PI / 2 - 1e-3) expectWithin(zero, travelAt(circle.drawn), MET);
        else if (patch.angle + circle.drawn > Math.PI / 2 + 1e-3) expect(zero).toBeNull();
      }),
    );
  });

  it('meets a damper that is just closed where the ratio is zero, touched and not crossed', () => {
    fc.assert(
      fc.property(cases, ({ input, patch, circle, travelAt }) => {
        const { b, c, x, drawn } = circle;
        fc.pre(patch.angle + drawn < Math.PI / 2 - 0.05);
        const shortest = Math.hypot(c - b, x);
        const closedAt = (compressedLength: number) =>
          find(
            limits(doubleWishbone(input), { damper: { extendedLength: 1500, compressedLength } }),
            'bump',
            'damperCompressed',
          )?.travel;
        // L grows by its curvature there, so that 1e-9 mm are met this far from the least length.
        const curvature = (b * c) / shortest / (patch.radius * Math.cos(patch.angle + drawn)) ** 2;
        const off = 2 * Math.sqrt((2 * MET) / curvature);
        expectWithin(closedAt(shortest) ?? null, travelAt(drawn), off);
        expectWithin(
          closedAt(shortest + 1e-6) ?? null,
          travelAt(drawn) - Math.sqrt(2e-6 / curvature),
          1e-2 * Math.sqrt(2e-6 / curvature) + 1e-3,
        );
        expect(closedAt(shortest - 1e-6)).toBeUndefined();
      }),
    );
  });

  it('never bends its ball joints', () => {
    fc.assert(
      fc.property(cases, ({ input }) => {
        const joint = { maxArticulation: 0.001, housing: 'arm' } as const;
        const found = limits(doubleWishbone(input), { ballJoints: { lowerOuter: joint, upperOuter: joint } });
        for (const side of ['bump', 'droop'] as const) {
          expect(find(found, side, 'ballJointArticulation', 'lowerOuter')).toBeUndefined();
          expect(find(found, side, 'ballJointArticulation', 'upperOuter')).toBeUndefined();
        }
      }),
    );
  });

  it('has the tread at the arch where a point comes to its radius from the axle', () => {
    fc.assert(
      fc.property(cases, tenth(3, 20), (c, degrees) => {
        const { input, travelAt } = c;
        const camber = 'camber' in input.wheel ? input.wheel.camber / DEGREES : 0;
        const { inner } = input.lowerArm;
        const turn = degrees / DEGREES;
        // The middle of the tread as drawn, turned about the pivot.
        const top: Point = [
          input.wheel.centre[0] + 330 * Math.sin(camber),
          input.wheel.centre[1] + 330 * Math.cos(camber),
        ];
        const from = polar(minus(top, inner));
        const arch: Point = [
          inner[0] + from.radius * Math.cos(from.angle + turn),
          inner[1] + from.radius * Math.sin(from.angle + turn),
        ];
        const options: LimitOptions = { tyre: { overallRadius: 330, width: 205 }, arch: [arch] };
        const found = limits(doubleWishbone(input), options);
        expectWithin(find(found, 'bump', 'tyreContact', 'arch[0]')?.travel ?? null, travelAt(turn), MET);
      }),
    );
  });
});
