/** Random grown linkages against a general 2D constraint solver, driven by a coordinate. */
import { assert, property } from 'fast-check';
import { trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { loadPlanegcs, planegcsLinkage } from '../judges/planegcs.ts';
import { linkages } from '../support/linkages.ts';
import { expectWithin } from '../support/tolerance.ts';

/** As far as the solver's own residuals let its poses be told, as a share of the drawing's 1000 and of how they react. */
const TELLS = 1e-9;

describe('positions of random grown linkages', () => {
  it('are those of the general constraint solver, @salusoft89/planegcs 1.3.0', async () => {
    const module = await loadPlanegcs();
    let [poses, asked] = [0, 0];
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing, { driver: { x: 'A' } });
        const judge = planegcsLinkage(module, { ...drawing, driver: { point: 'A', axis: 'x' } });
        try {
          for (const share of [-0.6, -0.2, 0.3, 0.7]) {
            const end = share < 0 ? motion.low.at : motion.high.at;
            const at = motion.drawn + Math.abs(share) * (end - motion.drawn);
            asked++;
            const pose = judge.solve(at);
            if (pose.status !== 'converged') continue;
            poses++;
            const places = motion.at(at);
            for (const [name, [x, y]] of Object.entries(pose.positions)) {
              // Near dead points of its own a linkage feels the solver's residual much enlarged.
              const feel = Math.max(
                1,
                Math.abs(motion.read({ x: name })(at).first ?? 1),
                Math.abs(motion.read({ y: name })(at).first ?? 1),
              );
              expectWithin(places[name][0], x, TELLS * 1000 * feel * feel);
              expectWithin(places[name][1], y, TELLS * 1000 * feel * feel);
            }
          }
        } finally {
          judge.destroy();
        }
      }),
      { numRuns: 40 },
    );
    expect(poses / asked).toBeGreaterThan(0.8);
  });
});
