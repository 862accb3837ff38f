/** Holds the closed form of rod and rocker against the four-bar's, figures by hand, and differences of its own poses. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rockerCorners } from '../support/rocker-corners.ts';
import { expectWithin } from '../support/tolerance.ts';
import { fourBarAngles } from './four-bar.ts';
import { cross, minus, type Point } from './plane.ts';
import { type RockerInput, type RockerPose, rockerCorner } from './rocker.ts';

const apart = (u: Point, v: Point) => Math.hypot(u[0] - v[0], u[1] - v[1]);
const angle = ([y, z]: Point) => Math.atan2(z, y);
const half = (turn: number) => turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));

function poseAt(input: RockerInput, travel: number): RockerPose {
  const pose = rockerCorner(input).atTravel(travel);
  if (pose === null) throw new Error(`no pose at ${travel} mm`);
  return pose;
}

/** Travels within reach on both sides, well before rod and rocker are in line. */
function travelsOf(input: RockerInput): number[] {
  const corner = rockerCorner(input);
  return [-60, -25, 0, 30, 60].filter((travel) => (corner.atTravel(travel)?.sine ?? 0) > 0.2);
}

describe('a rocker with levers of whole numbers', () => {
  // The arms are a parallelogram: everything on the upright moves as the ball joint does. The rod stands half way out on
  // the lower arm and square to the rocker's arm of 100, the coilover square to its other arm of 50.
  const input: RockerInput = {
    lowerArm: { inner: [200, 150], outer: [600, 150] },
    upperArm: { inner: [200, 350], outer: [600, 350] },
    wheel: { centre: [700, 300], contactPatch: [700, 0] },
    rod: { on: 'lowerArm', mount: [400, 150], rockerMount: [400, 450] },
    rocker: { pivot: [300, 450] },
    coilover: { rockerMount: [300, 400], chassisMount: [500, 400] },
  };

  it('has the product of their ratios', () => {
    const { installationRatio, rockerRate, shockLength } = poseAt(input, 0);
    expectWithin(installationRatio, (200 / 400) * (50 / 100), 1e-15);
    expectWithin(rockerRate, 0.5 / 100, 1e-17);
    expect(shockLength).toBe(200);
  });

  it('comes into line where the diagonal is as long as rod and arm together', () => {
    // The rod's mount on its circle about (200, 150), 400 from the rocker's pivot: |M - O|² = 400².
    const end = rockerCorner(input).inLine('droop');
    if (end === null) throw new Error('no end');
    const [m, o] = [200, Math.hypot(100, 300)];
    const cosine = (m * m + o * o - 400 * 400) / (2 * m * o);
    const turned = Math.atan2(300, 100) - Math.acos(cosine);
    expectWithin(end, 400 * Math.sin(turned), 1e-10);
  });
});

describe('any rod and rocker', () => {
  it('is the four-bar of arm, rod and rocker', () => {
    let seen = 0;
    fc.assert(
      fc.property(rockerCorners, (input) => {
        if (input.rod.on === 'upright') return;
        const [A, O] = [input[input.rod.on].inner, input.rocker.pivot];
        const { mount, rockerMount } = input.rod;
        const ground = minus(O, A);
        const bars = {
          crank: apart(A, mount),
          coupler: apart(mount, rockerMount),
          rocker: apart(O, rockerMount),
          ground: Math.hypot(...ground),
        };
        const open = cross(minus(O, mount), minus(rockerMount, mount)) > 0 ? 'open' : 'crossed';
        for (const travel of travelsOf(input)) {
          const { points, sine } = poseAt(input, travel);
          const crank = angle(minus(points.rodMount, A)) - angle(ground);
          const angles = fourBarAngles(bars, crank, open);
          if (angles === null) throw new Error(`the four-bar does not close at ${travel} mm`);
          const rocker = angle(minus(points.rodRockerMount, O)) - angle(ground);
          expectWithin(half(angles.rocker - rocker), 0, 1e-13 / sine ** 2);
          seen++;
        }
      }),
      { numRuns: 40 },
    );
    expect(seen).toBeGreaterThan(60);
  });

  it('keeps every length, and stands as drawn at no travel', () => {
    fc.assert(
      fc.property(rockerCorners, (input) => {
        const { rod, rocker, coilover } = input;
        expect(apart(poseAt(input, 0).points.rodRockerMount, rod.rockerMount)).toBeLessThan(1e-10);
        for (const travel of travelsOf(input)) {
          const { points } = poseAt(input, travel);
          const { rodMount, rodRockerMount, shockRockerMount } = points;
          expectWithin(apart(rodMount, rodRockerMount), apart(rod.mount, rod.rockerMount), 1e-11);
          expectWithin(apart(rodRockerMount, rocker.pivot), apart(rod.rockerMount, rocker.pivot), 1e-11);
          expectWithin(
            apart(rodRockerMount, shockRockerMount),
            apart(rod.rockerMount, coilover.rockerMount),
            1e-11,
          );
        }
      }),
      { numRuns: 40 },
    );
  });

  it('has the ratio and slope of central differences', () => {
    const h = 1e-3;
    fc.assert(
      fc.property(rockerCorners, (input) => {
        for (const travel of travelsOf(input)) {
          const [before, here, after] = [-h, 0, h].map((step) => poseAt(input, travel + step));
          const loose = (here.fastest ** 2 / here.sine ** 2) * 1e-7;
          const ratio = (before.shockLength - after.shockLength) / (2 * h);
          expectWithin(here.installationRatio, ratio, loose);
          const slope = (after.installationRatio - before.installationRatio) / (2 * h);
          expectWithin(here.installationRatioSlope, slope, loose);
          expectWithin(here.rockerRate, (after.rockerTurn - before.rockerTurn) / (2 * h), loose);
        }
      }),
      { numRuns: 40 },
    );
  });
});
