/**
 * Positions against a general 2D constraint solver, which gets the drawing as points and distances and steps its
 * own way out from the drawn pose.
 *
 * The solver keeps lengths to some 1e-11 mm. What that leaves of the positions depends on the pose: a point that
 * goes c mm for each mm of travel turns an error of length into c times as much, and c grows without bound towards a
 * dead point. Positions are therefore held to 1e-8 mm times c, c as of `conditioningOf`, from the solver's own pose.
 *
 * Where the two differ in kind the difference must have a reason: beyond the dead point that the library reports, and
 * nowhere else, the solver finds no pose, and its last good one lies before that dead point.
 */

import * as fc from 'fast-check';
import { type Corner, doubleWishbone, type PushrodInput, pushrod, type Sweep, sweep } from 'jounce';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Point } from '../judges/circle-intersection.ts';
import type { PlanegcsDrawing, PlanegcsModule } from '../judges/planegcs.ts';
import { loadPlanegcs, planegcsLinkage } from '../judges/planegcs.ts';
import { wildCorners } from '../support/corners.ts';
import { rockerCorners } from '../support/rocker-corners.ts';
import { expectWithin } from '../support/tolerance.ts';
import { conditioningOf, rocker, wishbone } from './kinds.ts';
import { drawingOf } from './planegcs-drawing.ts';

const CORNERS = 1000;
/** Corners with rod and rocker; each takes the solver twice as long. */
const ROCKERS = 80;
/** mm of travel, for every corner. */
const TRAVELS = [-80, -35, 40, 80];
/** mm at a conditioning of 1. */
const PLACE = 1e-8;
/** mm from a dead point at which the solver's stepping may end, on either side of it. */
const SHORT_OF_DEAD_POINT = 1e-3;
/** ms; for a machine far slower than the one on which it takes 5 s. */
const TIMEOUT = 120_000;

/** What is held against the solver: a corner, its drawing, and how well a pose of it is known. */
interface Case {
  readonly corner: Corner;
  readonly drawing: PlanegcsDrawing;
  readonly conditioning: (places: Record<string, Point>) => number;
  /** Points that the corner names otherwise. */
  readonly columns?: Readonly<Record<string, string>>;
}

const wishbones = wildCorners.map(
  (input): Case => ({
    corner: doubleWishbone(input),
    drawing: drawingOf(input),
    conditioning: (places) => conditioningOf(wishbone, input, places),
  }),
);

const rockers = rockerCorners.map((input): Case => {
  const { lowerArm, upperArm, wheel, rod, rocker: pivoted, coilover } = input;
  // A rod's mount moves as a coilover's would.
  const { points, ground, bodies, driver } = drawingOf({
    lowerArm,
    upperArm,
    wheel,
    coilover: { on: rod.on, mount: rod.mount, chassisMount: pivoted.pivot },
  });
  return {
    corner: pushrod(input as PushrodInput),
    drawing: {
      points: {
        ...points,
        rodRockerMount: rod.rockerMount,
        rockerPivot: pivoted.pivot,
        shockRockerMount: coilover.rockerMount,
      },
      ground: [...ground, 'rockerPivot'],
      bodies: {
        ...bodies,
        rod: ['shockMount', 'rodRockerMount'],
        rocker: ['rockerPivot', 'rodRockerMount', 'shockRockerMount'],
      },
      ...(driver && { driver }),
    },
    conditioning: ({ shockMount, ...places }) =>
      conditioningOf(rocker, input, { ...places, rodMount: shockMount }),
    columns: { shockMount: 'rodMount' },
  };
});

let gcs: PlanegcsModule;
beforeAll(async () => {
  gcs = await loadPlanegcs();
});

describe.each([
  ['double wishbones', wishbones, CORNERS],
  ['corners with rod and rocker', rockers, ROCKERS],
] as const)('positions of random %s', (_, cases, numRuns) => {
  it(
    `are those of a general constraint solver, ${numRuns} corners at ${TRAVELS.length} travels`,
    () => {
      const seen = { agreed: 0, beyondDeadPoint: 0, unexplained: [] as string[] };
      fc.assert(
        fc.property(cases, ({ corner, drawing, conditioning, columns = {} }) => {
          const swept: Sweep = sweep(corner, { bump: 80, droop: 80 });
          const { bump, droop } = swept.end;
          const judge = planegcsLinkage(gcs, drawing);
          try {
            const poses = judge.sweep(TRAVELS.map((travel) => judge.drawn + travel));
            poses.forEach(({ status, reached, positions }, i) => {
              const travel = TRAVELS[i];
              const end = travel > 0 ? bump : droop;
              if (Math.abs(travel) > Math.abs(end.travel)) {
                // The library ended before; the solver must not get there either.
                expect(end.status).toBe('deadPoint');
                expect(status).not.toBe('converged');
                expectWithin(reached - judge.drawn, end.travel, SHORT_OF_DEAD_POINT);
                seen.beyondDeadPoint += 1;
                return;
              }
              if (status !== 'converged') {
                seen.unexplained.push(`${status} at ${travel} mm of ${JSON.stringify(drawing.points)}`);
                return;
              }
              const row = swept.at(travel);
              const within = PLACE * conditioning(positions);
              for (const [name, [y, z]] of Object.entries(positions)) {
                if (drawing.ground.includes(name)) continue;
                const column = columns[name] ?? name;
                expectWithin(row[`${column}Y`], y, within);
                expectWithin(row[`${column}Z`], z, within);
              }
              seen.agreed += 1;
            });
          } finally {
            judge.destroy();
          }
        }),
        { numRuns },
      );
      expect(seen.unexplained).toEqual([]);
      expect(seen.agreed + seen.beyondDeadPoint).toBe(numRuns * TRAVELS.length);
      expect(seen.agreed).toBeGreaterThan(0.6 * numRuns * TRAVELS.length);
      expect(seen.beyondDeadPoint).toBeGreaterThan(0);
    },
    TIMEOUT,
  );
});
