/**
 * A wheel on a swing arm pivoted at O, its coilover from the mount m on the arm to the eye e on the chassis: with the arm turning
 * at w, the contact patch c rises at w (c_y - O_y) and the coilover shortens at w h, h the moment arm of its line about O, so that
 *
 *   R = h / (c_y - O_y),   h = |(m - O) x (e - m)| / |e - m|,
 *
 * and its force under a load W on the tyre is W / R. A line through m with a wanted h touches the circle about O with that radius; no
 * h is larger than |m - O|.
 */
import * as fc from 'fast-check';
import { type CustomCorner, customCorner, design, sentence } from 'jounce';
import { describe, expect, it } from 'vitest';
import { cross, minus, type Point } from '../judges/plane.ts';
import { expectWithin } from '../support/tolerance.ts';

const O: Point = [200, 250];
const PATCH: Point = [700, 0];

function swingArm(mount: Point, eye: Point): CustomCorner {
  return customCorner({
    drawing: {
      points: { pivot: O, wheelCentre: [700, 300], contactPatch: PATCH, mount, eye },
      ground: ['pivot', 'eye'],
      bodies: { arm: ['pivot', 'wheelCentre', 'contactPatch', 'mount'] },
    },
    upright: 'arm',
    wheelCentre: 'wheelCentre',
    contactPatch: 'contactPatch',
    shock: { outer: 'mount', inner: 'eye' },
  });
}

const momentArm = (m: Point, e: Point) =>
  Math.abs(cross(minus(m, O), minus(e, m))) / Math.hypot(...minus(e, m));

const mounts = fc.record({
  y: fc.integer({ min: 400, max: 600 }),
  z: fc.integer({ min: 180, max: 300 }),
  height: fc.integer({ min: 520, max: 640 }),
});
const travel = { bump: 40, droop: 40, step: 20 };
/** mm; the ratio is met to 1e-11, its change with a mm of the eye is 1e-4 and more in the boxes below. */
const PLACE = 1e-6;

describe('a design of a swing arm', () => {
  it('has the eye where the line of the coilover touches the circle of the wanted moment arm', () => {
    fc.assert(
      fc.property(mounts, fc.integer({ min: 55, max: 90 }), ({ y, z, height }, share) => {
        const m: Point = [y, z];
        const far = Math.hypot(...minus(m, O));
        const h = (far * share) / 100;
        // The line leaves m at the angle asin(h / |m - O|) from the way to O, and leans inboard.
        const angle = Math.atan2(O[1] - z, O[0] - y) - Math.asin(h / far);
        const wanted = y + (height - z) / Math.tan(angle);
        fc.pre(wanted > 60 && wanted < y);
        const drawn = Math.min(y - 10, wanted + 37);
        const made = design(swingArm(m, [drawn, height]), {
          mounts: { eye: { y: [50, y] } },
          objectives: [{ quantity: 'designRatio', target: h / (PATCH[0] - O[0]) }],
          travel,
        });
        expect(made.status).toBe('targetsMet');
        // A line that leans outboard by as much about the square one has the same moment arm.
        const [foundY] = made.mounts.eye.to;
        expectWithin(momentArm(m, [foundY, height]), h, 1e-7);
        if (Math.abs(foundY - wanted) < 1) expectWithin(foundY, wanted, PLACE * (1 + 1 / (1 - h / far)));
        expectWithin(made.objectives[0].achieved, h / 500, 1e-9);
      }),
      { numRuns: 15 },
    );
  });

  it('stands square to the arm where more is wanted than there is', () => {
    fc.assert(
      fc.property(mounts, ({ y, z, height }) => {
        const m: Point = [y, z];
        const far = Math.hypot(...minus(m, O));
        // (e - m) . (m - O) = 0.
        const square = y - ((height - z) * (z - O[1])) / (y - O[0]);
        const made = design(swingArm(m, [y - 60, height]), {
          mounts: { eye: { y: [y - 200, y + 150] } },
          objectives: [{ quantity: 'designRatio', target: 1.3 }],
          travel,
          starts: 2,
        });
        expect(made.status).toBe('targetUnreachable');
        // The value is level there: the place is found to about the square root of rounding.
        expectWithin(made.mounts.eye.to[0], square, 1e-2);
        expectWithin(made.objectives[0].achieved, far / 500, 1e-9);
        expectWithin(made.objectives[0].deviation, far / 500 - 1.3, 1e-9);
        expect(made.active).toEqual([]);
        expect(made.diagnostics[0].code).toBe('targetUnreachable');
      }),
      { numRuns: 6 },
    );
  });

  it('ends at the edge of its box where the optimum lies beyond', () => {
    const made = design(swingArm([500, 260], [380, 560]), {
      mounts: { eye: { y: [350, 440] } },
      objectives: [{ quantity: 'designRatio', target: 0.9 }],
      travel,
    });
    expect(made.mounts.eye.to).toEqual([440, 560]);
    expect(made.active).toEqual([
      {
        code: 'coordinateAtMax',
        severity: 'note',
        path: 'mounts.eye.y',
        values: { coordinate: 'eyeY', at: 440 },
      },
    ]);
    expectWithin(made.objectives[0].achieved, momentArm([500, 260], [440, 560]) / 500, 1e-12);
    expect(made.diagnostics).toContainEqual(made.active[0]);
    expect(sentence(made.active[0])).toBe('Eye y is at its maximum, 440.0 mm.');
  });

  it('makes the force of the coilover what is wanted: load over ratio', () => {
    const load = 2500;
    const made = design(swingArm([500, 260], [380, 560]), {
      mounts: { mount: { y: [420, 640] }, eye: { y: [300, 500] } },
      objectives: [
        { quantity: 'jointForce', joint: 'eye', tyre: [0, load], target: 4000 },
        { quantity: 'inclination', target: 10 },
      ],
      travel,
    });
    expect(made.status).toBe('targetsMet');
    const { mount, eye } = made.mounts;
    expectWithin((load * 500) / momentArm(mount.to, eye.to), 4000, 1e-4);
    const [y, z] = minus(eye.to, mount.to);
    expectWithin((Math.atan2(-y, z) * 180) / Math.PI, 10, 1e-6);
  });
});
