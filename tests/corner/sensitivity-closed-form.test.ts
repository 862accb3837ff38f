/**
 * Sensitivities of which there is a closed form, × being the cross product of the plane and t the travel.
 *
 * As drawn, any corner: the instant centre I is where the lines of the arms A-P and B-Q meet. Move A by dA: the line turns
 * about P and I slides along the other arm, dI = m q with (I - P) × (A - P) = 0, so that m = -(I - P) × dA / (q × (A - P));
 * and likewise for the other three. The roll centre follows: h = y_cp (z_I - z_cp) / (y_cp - y_I).
 *
 * Mount M on the upright, chassis mount C, L² = |M - C|² + x²: dL = -(M - C)·dC / L, and from L L' = (M - C)·M',
 * dL' = -(dC·M' + L' dL) / L.
 *
 * Parallelogram with arms (run, rise), both inner points moved alike: y = sqrt(run² - 2 rise t - t²) is the reach of the
 * arms at t, the half-track change is y - run, and the angle of the arms atan((rise + t) / y).
 *
 * Swing arm about O, p the contact patch from there, turned by δ: t = p_y sin δ + p_z (cos δ - 1). With both inner points
 * moved by dO, dp = -dO and 0 = dp_y sin δ + dp_z (cos δ - 1) + (p_y cos δ - p_z sin δ) dδ; and I is O.
 */
import * as fc from 'fast-check';
import { doubleWishbone, sensitivities, sweep } from 'jounce';
import { describe, it } from 'vitest';
import { type CornerInput, drawnContactPatch, type Point } from '../judges/circle-intersection.ts';
import { unlikeArms } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin, tolerance } from '../support/tolerance.ts';
import { carriedByUpright, conditioning, meetingOfArms } from './geometry.ts';
import { placesOf } from './rows.ts';

const DEGREES = 180 / Math.PI;
const UNITS: readonly [letter: 'Y' | 'Z', Point][] = [
  ['Y', [1, 0]],
  ['Z', [0, 1]],
];
/** Roundings of a quotient of lengths, times what makes it large. */
const within = (scale: number) => tolerance({ times: 1024, scale });

const minus = (u: Point, v: Point): Point => [u[0] - v[0], u[1] - v[1]];
const dot = (u: Point, v: Point) => u[0] * v[0] + u[1] * v[1];
const cross = (u: Point, v: Point) => u[0] * v[1] - u[1] * v[0];

describe('a corner as drawn', () => {
  it('has its instant and roll centre where the lines of the moved arms meet', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const { lowerArm, upperArm } = input;
        const drawn = { lowerOuter: lowerArm.outer, upperOuter: upperArm.outer };
        const centre = meetingOfArms(input, drawn);
        fc.pre(centre !== null && Math.hypot(...centre) < 2e4);
        const I = centre as Point;
        const patch = drawnContactPatch(input);
        const { by } = sensitivities(doubleWishbone(input), {
          bump: 0,
          droop: 0,
          columns: ['instantCentreY', 'instantCentreZ', 'rollCentreHeight'],
        });
        for (const [name, arm, other] of [
          ['lower', lowerArm, upperArm],
          ['upper', upperArm, lowerArm],
        ] as const) {
          const along = minus(other.outer, other.inner);
          for (const [end, here, there] of [
            ['Inner', arm.inner, arm.outer],
            ['Outer', arm.outer, arm.inner],
          ] as const) {
            for (const [letter, unit] of UNITS) {
              const m = -cross(minus(I, there), unit) / cross(along, minus(here, there));
              const found = by[`${name}${end}${letter}`];
              const [dy, dz] = [m * along[0], m * along[1]];
              // Far away it moves as the square of its distance, and is as badly known.
              const scale = (Math.hypot(...minus(I, patch)) / 100) ** 3 + Math.hypot(dy, dz);
              expectWithin(found.instantCentreY[0], dy, within(scale));
              expectWithin(found.instantCentreZ[0], dz, within(scale));
              const reach = patch[0] - I[0];
              const wanted = patch[0] * (dz / reach + ((I[1] - patch[1]) * dy) / reach ** 2);
              const sharpness = (Math.hypot(...minus(I, patch)) / Math.abs(reach)) ** 3;
              expectWithin(found.rollCentreHeight[0], wanted, within(10 * sharpness * (1 + scale)));
            }
          }
        }
      }),
    );
  });
});

describe('the chassis mount of a shock on the upright', () => {
  it('changes its length along it, and the ratio as it turns', () => {
    fc.assert(
      fc.property(
        unlikeArms.filter(({ coilover }) => coilover.on === 'upright'),
        (input) => {
          const corner = doubleWishbone(input);
          const rows = sweep(corner, { bump: 40, droop: 40, step: 40 }).rows();
          const { by } = sensitivities(corner, { bump: 40, droop: 40, step: 40 });
          const { chassisMount } = input.coilover;
          rows.forEach((row, i) => {
            const places = placesOf(row);
            const c = conditioning(input, places);
            const rise = carriedByUpright(input, places, places.contactPatch).first[1];
            const rate = carriedByUpright(input, places, places.shockMount).first.map((v) => v / rise);
            const line = minus(places.shockMount, chassisMount);
            const length = row.shockLength;
            for (const [letter, unit] of UNITS) {
              const found = by[`shockChassisMount${letter}`];
              const change = -dot(line, unit) / length;
              const slope = dot(line, [rate[0], rate[1]]) / length;
              expectWithin(found.shockLength[i], change, within(c));
              const bent = (dot(unit, [rate[0], rate[1]]) + slope * change) / length;
              expectWithin(found.installationRatio[i], bent, within(c ** 2));
            }
          });
        },
      ),
    );
  });
});

const tenth = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((n) => n / 10);
const draft = fc.record({
  rise: tenth(-60, 60),
  run: tenth(250, 400),
  kingpin: tenth(10, 60),
  height: tenth(180, 260),
  camber: tenth(-3, 3),
});

function cornerOf(d: typeof draft extends fc.Arbitrary<infer T> ? T : never, swing: boolean): CornerInput {
  const inner: Point = [250, 170];
  const outer: Point = [inner[0] + d.run, inner[1] + d.rise];
  const above = (point: Point): Point => [point[0] - d.kingpin, point[1] + d.height];
  return deepFreeze({
    lowerArm: { inner, outer },
    upperArm: { inner: swing ? inner : above(inner), outer: above(outer) },
    wheel: { centre: [outer[0] + 60, 310], camber: d.camber },
    coilover: { on: 'lowerArm', mount: [inner[0] + 200, 185], chassisMount: [inner[0] + 100, 480] },
  });
}

/** Sensitivities with both inner points moved alike. */
function bothInner(input: CornerInput, letter: 'Y' | 'Z') {
  const { by, travel } = sensitivities(doubleWishbone(input), { bump: 60, droop: 60, step: 20 });
  const [lower, upper] = [by[`lowerInner${letter}`], by[`upperInner${letter}`]];
  const column = (name: string) => lower[name].map((rate, i) => Number(rate) + Number(upper[name][i]));
  return { travel, column };
}

describe('a parallelogram with both inner points moved', () => {
  it('changes half-track and the angle of its arms as arms of another run and rise do', () => {
    fc.assert(
      fc.property(draft, (d) => {
        const { run, rise } = d;
        for (const [letter, unit] of UNITS) {
          const { travel, column } = bothInner(cornerOf(d, false), letter);
          const [track, angle, camber] = ['halfTrackChange', 'lowerArmAngle', 'camber'].map(column);
          travel.forEach((t, i) => {
            const y = Math.sqrt(run ** 2 - 2 * rise * t - t ** 2);
            const [dRun, dRise] = [-unit[0], -unit[1]];
            const dy = (run * dRun - t * dRise) / y;
            expectWithin(track[i], dy - dRun, within(1));
            const turn = (dRise * y - (rise + t) * dy) / (y ** 2 + (rise + t) ** 2);
            expectWithin(angle[i], turn * DEGREES, within(1));
            expectWithin(camber[i], 0, within(1));
          });
        }
      }),
      { numRuns: 30 },
    );
  });
});

describe('a swing arm with its pivot moved', () => {
  it('turns the wheel as an arm of another length does, and takes the instant centre with it', () => {
    fc.assert(
      fc.property(draft, (d) => {
        const input = cornerOf(d, true);
        const pivot = input.lowerArm.inner;
        const [y, z] = minus(drawnContactPatch(input), pivot);
        for (const [letter, unit] of UNITS) {
          const { travel, column } = bothInner(input, letter);
          const [camber, centreY, centreZ] = ['camber', 'instantCentreY', 'instantCentreZ'].map(column);
          travel.forEach((t, i) => {
            const turn = Math.asin((z + t) / Math.hypot(y, z)) - Math.atan2(z, y);
            const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
            const moved = unit[0] * sin + unit[1] * (cos - 1);
            expectWithin(camber[i], (-moved / (y * cos - z * sin)) * DEGREES, within(1));
            expectWithin(centreY[i], unit[0], within(10));
            expectWithin(centreZ[i], unit[1], within(10));
          });
        }
      }),
      { numRuns: 30 },
    );
  });
});
