/**
 * A rolled pose against a general 2D constraint solver. The chassis points of a corner are put where heave and roll of the body bring them,
 * as fixed numbers; the solver then moves the wheel until its contact patch is on the ground. It knows nothing of axles, of travel, or of
 * the frame of the chassis. What it is held to: see tests/corner/planegcs.test.ts.
 */

import * as fc from 'fast-check';
import { axle, doubleWishbone, sweepAxle } from 'jounce';
import { beforeAll, describe, expect, it } from 'vitest';
import { conditioningOf, wishbone } from '../corner/kinds.ts';
import { drawingOf } from '../corner/planegcs-drawing.ts';
import type { Point } from '../judges/circle-intersection.ts';
import { loadPlanegcs, type PlanegcsModule, planegcsLinkage } from '../judges/planegcs.ts';
import { wildCorners } from '../support/corners.ts';
import { expectWithin } from '../support/tolerance.ts';

const AXLES = 150;
/** mm at a conditioning of 1. */
const PLACE = 1e-8;
/** ms; for a machine far slower than the one on which it takes some seconds. */
const TIMEOUT = 120_000;

let gcs: PlanegcsModule;
beforeAll(async () => {
  gcs = await loadPlanegcs();
});

describe('both wheels of random axles in heave and roll', () => {
  it(
    `are where a general constraint solver has them on the ground, ${AXLES} axles`,
    () => {
      const seen = { agreed: 0, outOfReach: 0, unexplained: [] as string[] };
      fc.assert(
        fc.property(
          wildCorners,
          fc.integer({ min: -30, max: 30 }),
          fc.integer({ min: -40, max: 40 }).map((tenths) => tenths / 10),
          (input, heave, roll) => {
            const swept = sweepAxle(axle({ left: doubleWishbone(input) }), { heave: [heave], roll: [roll] });
            const [row] = swept.rows();
            if (row === undefined) {
              seen.outOfReach += 1;
              return;
            }
            const [sin, cos] = [Math.sin((roll * Math.PI) / 180), Math.cos((roll * Math.PI) / 180)];
            // From the chassis to the ground, whose middle is at the height of the heave on the centreline of the chassis.
            const placed = ([y, z]: Point): Point => [
              y * cos - (z - heave) * sin,
              y * sin + (z - heave) * cos,
            ];
            const drawing = drawingOf(input);
            for (const side of ['left', 'right'] as const) {
              const way = side === 'left' ? 1 : -1;
              const mirrored = ([y, z]: Point): Point => [way * y, z];
              const points = Object.fromEntries(
                Object.entries(drawing.points).map(([name, at]) => [name, placed(mirrored(at as Point))]),
              );
              const judge = planegcsLinkage(gcs, { ...drawing, points });
              try {
                const { status, positions } = judge.solve(0);
                if (status !== 'converged') {
                  seen.unexplained.push(
                    `${status}: ${side} at ${heave} mm, ${roll} deg of ${JSON.stringify(input)}`,
                  );
                  continue;
                }
                const back = ([y, z]: Point): Point => [y * cos + z * sin, heave - y * sin + z * cos];
                const inChassis = Object.fromEntries(
                  Object.entries(positions).map(([name, at]) => [name, mirrored(back(at))]),
                );
                const within = PLACE * conditioningOf(wishbone, input, inChassis);
                const { contactPatch, shockMount } = positions;
                const [far, near] = [placed(mirrored(input.coilover.chassisMount as Point)), shockMount];
                // Along the ground from below the chassis point that is the middle of the ground as drawn.
                expectWithin(row[`${side}PatchY`], contactPatch[0] - heave * sin, within);
                expectWithin(row[`${side}Travel`], inChassis.contactPatch[1], within);
                expectWithin(
                  row[`${side}ShockLength`],
                  Math.hypot(far[0] - near[0], far[1] - near[1], input.coilover.foreAftOffset ?? 0),
                  within,
                );
                seen.agreed += 1;
              } finally {
                judge.destroy();
              }
            }
          },
        ),
        { numRuns: AXLES },
      );
      expect(seen.unexplained).toEqual([]);
      expect(seen.agreed).toBe(2 * (AXLES - seen.outOfReach));
      expect(seen.agreed).toBeGreaterThan(AXLES);
    },
    TIMEOUT,
  );
});
