import type { Drawing, Point } from '../../src/linkage/drawing.ts';

/**
 * A scissor lift of so many cells: bars of a length, at an angle to the horizontal, pinned to each other in their middles and at
 * their ends. `left0` is ground, `right0` is held at its height and slides. The lift is `angle` alone: of a bar of length b the
 * width is b cos(angle), the height of each cell b sin(angle); points on the left stay above `left0`.
 */
export function scissorLift(cells: number, length: number, angle: number): Drawing {
  const [width, rise] = [length * Math.cos(angle), length * Math.sin(angle)];
  const points: Record<string, Point> = { left0: [0, 0], right0: [width, 0] };
  const bodies: Record<string, readonly string[]> = {};
  for (let k = 1; k <= cells; k++) {
    points[`middle${k}`] = [width / 2, (k - 0.5) * rise];
    points[`left${k}`] = [0, k * rise];
    points[`right${k}`] = [width, k * rise];
    bodies[`up${k}`] = [`left${k - 1}`, `middle${k}`, `right${k}`];
    bodies[`down${k}`] = [`right${k - 1}`, `middle${k}`, `left${k}`];
  }
  return { points, ground: ['left0'], bodies, fixedCoordinates: [{ y: 'right0' }] };
}
