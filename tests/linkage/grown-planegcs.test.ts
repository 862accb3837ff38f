/**
 * Positions of random grown linkages against a general 2D constraint solver, @salusoft89/planegcs 1.3.0, which gets the
 * drawing as points and distances and steps its own way out from the drawn pose.
 *
 * What the solver's own error of lengths leaves of a place depends on the pose. It is learnt from the library's motion of the
 * linkage drawn a little differently: a place that goes c units for each unit that the drawing's points are displaced by is
 * known to c times what the lengths are. Where the solver gives up on its way, its last good pose is compared.
 */
import * as fc from 'fast-check';
import { type Motion, type Point, trace } from 'jounce/linkage';
import { linkages } from 'jounce/testing';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadPlanegcs, type PlanegcsModule, planegcsLinkage } from '../judges/planegcs.ts';
import { distance, redrawn } from '../support/motions.ts';
import { few } from '../support/runs.ts';
import { expectWithin } from '../support/tolerance.ts';

/** Where to look: shares of the way from the drawn pose to either end. */
const SHARES = [-0.9, -0.5, 0.3, 0.8];
/** By how much points are displaced, of the 1000 across which linkages are drawn. */
const NUDGE = 1e-4;
/** Longest step of the solver: with its usual one of 80 or so it came into another assembly, unseen, in one of 300 linkages. */
const STEP = 10;
/** Error up to which the solver takes a length for kept, 2e-14 of the size; ten times that where it holds a point flatly. */
const LENGTH = 10 * 2e-14 * 1000;
/** A comparison as close as this, a part in 10^11 of the size, is a sharp one. */
const SHARP = 1e-8;

let gcs: PlanegcsModule;
beforeAll(async () => {
  gcs = await loadPlanegcs();
});

describe('positions of random grown linkages', () => {
  it('are those of a general constraint solver', () => {
    const seen = { poses: 0, reached: 0, compared: 0, points: 0, sharp: 0 };
    fc.assert(
      fc.property(linkages(fc), (drawing) => {
        const by = { driver: { x: 'A' } } as const;
        const nudged = redrawn(drawing, ([x, y], k) => [
          x + NUDGE * Math.sin(12.9898 * k + 1),
          y + NUDGE * Math.sin(78.233 * k + 2),
        ]);
        const [motion, other] = [trace(drawing, by), trace(nudged, by)];
        const judge = planegcsLinkage(
          gcs,
          { ...drawing, driver: { point: 'A', axis: 'x' } },
          { maxStep: STEP },
        );
        try {
          const ends = SHARES.map((share) => {
            const end = share < 0 ? motion.low.at : motion.high.at;
            return motion.drawn + Math.abs(share) * (end - motion.drawn);
          });
          for (const { status, reached, positions } of judge.sweep(ends)) {
            seen.poses++;
            if (status === 'converged') seen.reached++;
            const change = changeAt(motion, other, reached);
            if (change === null) continue;
            seen.compared++;
            const places = motion.at(reached);
            for (const [name, at] of Object.entries(positions)) {
              const allowed = LENGTH * (1 + (change[name] ?? 0) / NUDGE);
              expectWithin(distance(places[name], at), 0, allowed);
              seen.points++;
              if (allowed <= SHARP) seen.sharp++;
            }
          }
        } finally {
          judge.destroy();
        }
      }),
      few(60),
    );
    expect(seen.reached).toBeGreaterThan(0.95 * seen.poses);
    expect(seen.compared).toBeGreaterThan(0.95 * seen.poses);
    expect(seen.sharp).toBeGreaterThan(0.8 * seen.points);
  });
});

/** By how much the places of two motions differ at a value of the driver; null if that is in the range of one only. */
function changeAt(one: Motion, other: Motion, at: number): Record<string, number> | null {
  const [places, others] = [one, other].map(({ low, high, at: place }) =>
    at < low.at || at > high.at ? null : place(at),
  );
  if (!places || !others) return null;
  return Object.fromEntries(
    Object.keys(places).map((name) => [name, distance(places[name] as Point, others[name] as Point)]),
  );
}
