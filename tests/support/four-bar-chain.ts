import type { CheckedDrawing } from 'jounce/linkage';
import { deepFreeze } from './freeze.ts';

/**
 * N four-bars in a row that share their uprights, all bars 1, with the uprights at an angle from the ground; `redundant` adds a bar
 * in the middle of each. Problem A02 of the Library of Computational Benchmark Problems (multibody; description read).
 */
export function fourBarChain(windows: number, angle: number, redundant = false): CheckedDrawing {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const points: Record<string, readonly [number, number]> = {};
  const bodies: Record<string, readonly string[]> = {};
  const ground: string[] = [];
  for (let k = 0; k <= windows; k++) {
    points[`A${k}`] = [k, 0];
    points[`B${k}`] = [k + c, s];
    ground.push(`A${k}`);
    bodies[`upright${k}`] = [`A${k}`, `B${k}`];
    if (k === 0) continue;
    const coupler = [`B${k - 1}`, `B${k}`];
    if (redundant) {
      points[`E${k}`] = [k - 0.5, 0];
      points[`F${k}`] = [k - 0.5 + c, s];
      ground.push(`E${k}`);
      bodies[`middle${k}`] = [`E${k}`, `F${k}`];
      coupler.push(`F${k}`);
    }
    bodies[`coupler${k}`] = coupler;
  }
  return deepFreeze({ points, ground, bodies });
}
