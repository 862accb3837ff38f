/**
 * Positions of random grown linkages against a general 2D constraint solver, @salusoft89/planegcs 1.3.0, which gets the
 * drawing as points and distances and steps its own way out from the drawn pose.
 *
 * What the solver's own error of lengths leaves of a place depends on the pose. It is learnt from the library's motion of the
 * linkage drawn a little differently: a place that goes c units for each unit that the drawing's points are displaced by is
 * known to c times what the lengths are. Where the solver gives up on its way, its last good pose is compared.
 */
import * as fc from 'fast-check';
import { type CheckedDrawing, trace } from 'jounce/linkage';
import { linkages } from 'jounce/testing';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadPlanegcs, type PlanegcsModule, planegcsLinkage } from '../judges/planegcs.ts';
import { distance, placeAt, redrawn } from '../support/motions.ts';
import { few } from '../support/runs.ts';
import { expectWithin } from '../support/tolerance.ts';

/** Where to look: shares of the way from the drawn pose to either end. */
const SHARES = [-0.9, -0.5, 0.3, 0.8];
/** By how much points are displaced, of the 1000 across which linkages are drawn. */
const NUDGE = 1e-4;
/**
 * Longest step of the solver, and a shorter one that decides where the two differ: with its own, of 80 or so, it came into
 * another assembly, unseen, in one of 300 linkages; with steps of 10 in one of 2000.
 */
const STEPS = [10, 1];
/** Error up to which the solver takes a length for kept, 2e-14 of the size; ten times that where it holds a point flatly. */
const LENGTH = 10 * 2e-14 * 1000;
/** A comparison as close as this, a part in 10^11 of the size, is a sharp one. */
const SHARP = 1e-8;

let gcs: PlanegcsModule;
beforeAll(async () => {
  gcs = await loadPlanegcs();
});

/** A point of a pose: how far it is from the solver's, and how far it may be. */
interface Compared {
  readonly off: number;
  readonly allowed: number;
}

/** A linkage's points at the places to look at, compared with those that the solver comes to in steps of a length. */
function compare(drawing: CheckedDrawing, maxStep: number) {
  // The coordinate of the crank's pin that is farther from its own dead point.
  const { O, A } = drawing.points;
  const axis = Math.abs(A[1] - O[1]) > Math.abs(A[0] - O[0]) ? 'x' : 'y';
  const by = { driver: axis === 'x' ? { x: 'A' } : { y: 'A' } };
  const nudged = redrawn(drawing, ([x, y], k) => [
    x + NUDGE * Math.sin(12.9898 * k + 1),
    y + NUDGE * Math.sin(78.233 * k + 2),
  ]);
  const [motion, other] = [trace(drawing, by), trace(nudged, by)];
  const judge = planegcsLinkage(gcs, { ...drawing, driver: { point: 'A', axis } }, { maxStep });
  try {
    const poses = judge.sweep(SHARES.map((share) => placeAt(motion, share)));
    const points = poses.map(({ reached, positions }): Compared[] => {
      if (reached < other.low.at || reached > other.high.at) return [];
      const [places, others] = [motion.at(reached), other.at(reached)];
      return Object.entries(positions).map(([name, at]) => ({
        off: distance(places[name], at),
        allowed: LENGTH * (1 + distance(places[name], others[name]) / NUDGE),
      }));
    });
    return { reached: poses.filter(({ status }) => status === 'converged').length, points };
  } finally {
    judge.destroy();
  }
}

const agree = ({ off, allowed }: Compared) => off <= allowed;

describe('positions of random grown linkages', () => {
  it('are those of a general constraint solver', () => {
    const seen = { poses: 0, reached: 0, compared: 0, points: 0, sharp: 0, again: 0 };
    fc.assert(
      fc.property(linkages(fc), (drawing) => {
        let { reached, points } = compare(drawing, STEPS[0]);
        if (!points.flat().every(agree)) {
          seen.again++;
          ({ reached, points } = compare(drawing, STEPS[1]));
        }
        for (const { off, allowed } of points.flat()) expectWithin(off, 0, allowed);
        seen.poses += points.length;
        seen.reached += reached;
        seen.compared += points.filter((pose) => pose.length > 0).length;
        seen.points += points.flat().length;
        seen.sharp += points.flat().filter(({ allowed }) => allowed <= SHARP).length;
      }),
      few(60),
    );
    expect(seen.reached).toBeGreaterThan(0.95 * seen.poses);
    expect(seen.compared).toBeGreaterThan(0.95 * seen.poses);
    expect(seen.sharp).toBeGreaterThan(0.8 * seen.points);
    expect(seen.again).toBeLessThan(0.05 * seen.poses);
  });
});
