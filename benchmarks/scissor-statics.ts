// Forces and degrees of freedom of long scissor lifts: how the cost grows with the number of cells.

import { mobility } from 'jounce/linkage';
import { forces } from 'jounce/statics';
import { scissorLift } from '../tests/support/scissor-lift.ts';
import type { Line } from './lines.ts';
import type { Task } from './measure.ts';

const CELLS = 80;
const MORE_CELLS = 320;
const ANGLE = 0.6;
const LOAD = 1000;

/** Rounding of the actuator's force, as a share of it. */
const SAME = 1e-9;

/** Forces in all joints under a load on top, held at the foot; by virtual work the foot is pulled by -N P / tan(angle). */
function lifting(cells: number): Task {
  const drawing = scissorLift(cells, 1000, ANGLE);
  const loads = [{ at: `left${cells}`, force: [0, -LOAD] as const }];
  const run = () => forces(drawing, loads, { driver: { x: 'right0' } });
  const wanted = (-cells * LOAD) / Math.tan(ANGLE);
  if (!(Math.abs((run().driver ?? 0) - wanted) <= SAME * Math.abs(wanted))) {
    throw new Error(`scissor lift of ${cells}: ${run().driver} is not ${wanted}`);
  }
  return run;
}

/** Count and rank. */
function counting(cells: number): Task {
  const drawing = scissorLift(cells, 1000, ANGLE);
  const run = () => mobility(drawing);
  if (run().degreesOfFreedom !== 1) throw new Error(`scissor lift of ${cells}: not one degree of freedom`);
  return run;
}

/** Lines sf and sm. */
export function scissorStaticsLines(): Line[] {
  const line = (mark: string, what: string, of: (cells: number) => Task): Line => ({
    mark,
    text: `${what} of a scissor lift of ${MORE_CELLS} cells ÷ those of one of ${CELLS}`,
    ours: of(MORE_CELLS),
    rival: of(CELLS),
    ratio: (ours, rival) => ours / rival,
    bar: { atMost: 6 },
  });
  return [line('sf', 'forces', lifting), line('sm', 'count and rank', counting)];
}
