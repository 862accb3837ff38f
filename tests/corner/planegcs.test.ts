/**
 * Positions against a general 2D constraint solver, which gets the drawing as points and distances and steps its
 * own way out from the drawn pose.
 *
 * The solver keeps lengths to some 1e-11 mm. What that leaves of the positions depends on the pose: a point that
 * goes c mm for each mm of travel turns an error of length into c times as much, and c grows without bound towards a
 * dead point. Positions are therefore held to 1e-8 mm times c, c as of `conditioning`, from the solver's own pose.
 *
 * Where the two differ in kind the difference must have a reason: beyond the dead point that the library reports, and
 * nowhere else, the solver finds no pose, and its last good one lies before that dead point.
 */

import * as fc from 'fast-check';
import { doubleWishbone, sweep } from 'jounce';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Point } from '../judges/circle-intersection.ts';
import type { PlanegcsModule } from '../judges/planegcs.ts';
import { loadPlanegcs, planegcsLinkage } from '../judges/planegcs.ts';
import { wildCorners } from '../support/corners.ts';
import { expectWithin } from '../support/tolerance.ts';
import { conditioning } from './geometry.ts';
import { drawingOf, MOVING } from './planegcs-drawing.ts';

const CORNERS = 1000;
/** mm of travel, for every corner. */
const TRAVELS = [-80, -35, 40, 80];
/** mm at a conditioning of 1. */
const PLACE = 1e-8;
/** mm from a dead point at which the solver's stepping may end, on either side of it. */
const SHORT_OF_DEAD_POINT = 1e-3;
/** ms; for a machine far slower than the one on which it takes 5 s. */
const TIMEOUT = 120_000;

let gcs: PlanegcsModule;
beforeAll(async () => {
  gcs = await loadPlanegcs();
});

describe('positions of random corners', () => {
  it(
    `are those of a general constraint solver, ${CORNERS} corners at ${TRAVELS.length} travels`,
    () => {
      const seen = { agreed: 0, beyondDeadPoint: 0, unexplained: [] as string[] };
      fc.assert(
        fc.property(wildCorners, (input) => {
          const swept = sweep(doubleWishbone(input), { bump: 80, droop: 80 });
          const { bump, droop } = swept.end;
          const judge = planegcsLinkage(gcs, drawingOf(input));
          try {
            const poses = judge.sweep(TRAVELS.map((travel) => judge.drawn + travel));
            poses.forEach(({ status, reached, positions }, i) => {
              const travel = TRAVELS[i];
              const end = travel > 0 ? bump : droop;
              if (Math.abs(travel) > Math.abs(end.travel)) {
                // The library ended before; the solver must not get there either.
                expect(end.how).toBe('deadPoint');
                expect(status).not.toBe('converged');
                expectWithin(reached - judge.drawn, end.travel, SHORT_OF_DEAD_POINT);
                seen.beyondDeadPoint += 1;
                return;
              }
              if (status !== 'converged') {
                seen.unexplained.push(`${status} at ${travel} mm of ${JSON.stringify(input)}`);
                return;
              }
              const row = swept.at(travel);
              const place = positions as Record<(typeof MOVING)[number], Point>;
              const within = PLACE * conditioning(input, place);
              for (const name of MOVING) {
                expectWithin(row[`${name}Y`], place[name][0], within);
                expectWithin(row[`${name}Z`], place[name][1], within);
              }
              seen.agreed += 1;
            });
          } finally {
            judge.destroy();
          }
        }),
        { numRuns: CORNERS },
      );
      expect(seen.unexplained).toEqual([]);
      expect(seen.agreed + seen.beyondDeadPoint).toBe(CORNERS * TRAVELS.length);
      expect(seen.agreed).toBeGreaterThan(0.9 * CORNERS * TRAVELS.length);
      expect(seen.beyondDeadPoint).toBeGreaterThan(0);
    },
    TIMEOUT,
  );
});
