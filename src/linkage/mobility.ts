// What the rows leave free at the drawn pose: the null space of their Jacobian, by singular values. With one freedom
// and one driver the motion is determined; the names of what is not, or of what is held too often, are the user's.

import type { Issue } from '../errors.ts';
import { type RankReport, rankOf } from '../numerics/singular-values.ts';
import { type Expander, fillJacobian, residual } from './series.ts';

/** A component of a unit null vector below this counts as no motion. */
const STILL = 1e-6;

/** A row of the Jacobian, divided by its scale, is empty below this. */
const ROUNDING = 1e-12;

/** Why the drawn pose cannot be moved by one driver, as issues in the drawing's names. */
export function whyNotDriven(e: Expander): Issue[] {
  const { system } = e;
  const { rows } = system.structure;
  residual(e, new Float64Array(system.unknowns));
  fillJacobian(e);
  const matrix = rows.map((_, i) => {
    const row = new Array<number>(system.unknowns).fill(0);
    for (let q = e.start[i]; q < e.start[i + 1]; q++) {
      row[2 * e.pairs[q].free] = e.jacobian[2 * q] / system.scale[i];
      row[2 * e.pairs[q].free + 1] = e.jacobian[2 * q + 1] / system.scale[i];
    }
    return Math.hypot(...row) < ROUNDING ? row.fill(0) : row;
  });
  const { nullSpace, rank } = rankOf(matrix, system.unknowns);
  if (nullSpace.length === 0) return [overDetermined(e, rank)];
  return [underDetermined(e, nullSpace)];
}

function overDetermined(e: Expander, rank: number): Issue {
  const { unknowns, structure } = e.system;
  if (unknowns === 0) {
    return {
      path: '',
      problem: 'nothing can move: every point is ground, or on a body that the ground holds',
      advice: 'take the points that move out of ground',
    };
  }
  const { rows } = structure;
  const held = rows.length - rank;
  const names = [...new Set(rows.map(({ name }) => name))].join(', ');
  return {
    path: '',
    problem: 'over-determined: nothing can move in the drawn pose',
    got: `${rows.length} constraints (${names}) on ${unknowns} coordinates${held > 0 ? `, ${held} of them redundant` : ''}`,
    allowed: 'one freedom for the one driver',
    advice: 'take out a body, or a point of the ground, that holds the linkage',
  };
}

function underDetermined(e: Expander, nullSpace: RankReport['nullSpace']): Issue {
  const { freePoints, names } = e.system.structure;
  const loose = freePoints.filter((_, j) =>
    nullSpace.some((vector) => Math.hypot(vector[2 * j], vector[2 * j + 1]) > STILL),
  );
  return {
    path: '',
    problem: `undetermined: ${nullSpace.length} freedoms in the drawn pose, and one driver`,
    got: `points that can move: ${loose.map((p) => names[p]).join(', ')}`,
    allowed: 'one freedom for the one driver',
    advice: 'add a body or a ground point that holds them; if the linkage lies flat, draw it in another pose',
  };
}
