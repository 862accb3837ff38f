// What the rows leave free at the drawn pose: the null space of their Jacobian, by singular values; and what they say
// twice: the null space of its transpose. The names of what is not determined, or held too often, are the user's.

import type { Issue } from '../errors.ts';
import { type RankReport, rankOf } from '../numerics/singular-values.ts';
import { drawingOf, giveOf } from './give.ts';
import { jacobianRows, type Rows } from './rows.ts';

/** A component of a unit null vector below this counts as none. */
const STILL = 1e-6;

/** Freedoms and redundancies of the drawn pose, in the drawing's names. */
export interface Freedoms {
  readonly freedoms: number;
  readonly redundant: number;
  /** Rows that depend on each other, by name. */
  readonly dependent: string[];
  /** Points that can move. */
  readonly moving: string[];
}

/** What the drawn pose of the rows' system leaves free. */
export function freedomsOf(e: Rows): Freedoms {
  const { system } = e;
  const { rows } = system.structure;
  const matrix = jacobianRows(e, new Float64Array(system.unknowns));
  const { nullSpace, rank } = rankOf(matrix, system.unknowns);
  const across = Array.from({ length: system.unknowns }, (_, j) => matrix.map((row) => row[j]));
  const { nullSpace: twice } = rankOf(across, rows.length, { asGiven: true });
  const dependent = rows.filter((_, i) => twice.some((vector) => Math.abs(vector[i]) > STILL));
  return {
    freedoms: nullSpace.length,
    redundant: rows.length - rank,
    dependent: [...new Set(dependent.map(({ name }) => name))],
    moving: movingPoints(e, nullSpace),
  };
}

function movingPoints(e: Rows, nullSpace: RankReport['nullSpace']): string[] {
  const { freePoints, names } = e.system.structure;
  return freePoints
    .filter((p, j) => {
      const moves = nullSpace.some((vector) => Math.hypot(vector[2 * j], vector[2 * j + 1]) > STILL);
      return moves && names[p] !== undefined;
    })
    .map((p) => names[p]);
}

/** Why the drawn pose cannot be moved by one driver, as issues in the drawing's names. */
export function whyNotDriven(e: Rows): Issue[] {
  const found = freedomsOf(e);
  if (found.freedoms === 0) return [overDetermined(e, found)];
  return [
    {
      path: '',
      problem: `undetermined: ${found.freedoms} freedoms in the drawn pose, and one driver`,
      got: `points that can move: ${found.moving.join(', ')}`,
      allowed: 'one freedom for the one driver',
      advice:
        'add a body or a ground point that holds them, or name measures to hold; if the linkage lies flat, draw it in another pose',
    },
  ];
}

/** A bar that would have to give less than this share of the size is taken for one that should be redundant. */
const LITTLE = 0.02;

function overDetermined(e: Rows, { redundant }: Freedoms): Issue {
  const { unknowns, structure, size } = e.system;
  if (unknowns === 0) {
    return {
      path: '',
      problem: 'nothing can move: every point is ground, or on a body that the ground holds',
      advice: 'take the points that move out of ground',
    };
  }
  const { rows } = structure;
  const names = [...new Set(rows.map(({ name }) => name))].join(', ');
  const issue = {
    path: '',
    problem: 'over-determined: nothing can move in the drawn pose',
    got: `${rows.length} constraints (${names}) on ${unknowns} coordinates${redundant > 0 ? `, ${redundant} of them redundant` : ''}`,
    allowed: 'one freedom for the one driver',
  };
  const drawing = drawingOf(e.system);
  const little = Object.keys(drawing.bodies)
    .map((body) => ({ body, by: giveOf(drawing, body) }))
    .filter((bar): bar is { body: string; by: number } => bar.by !== null && bar.by <= LITTLE * size)
    .sort((a, b) => a.by - b.by);
  if (little.length === 0) {
    return { ...issue, advice: 'take out a body, or a point of the ground, that holds the linkage' };
  }
  const each = little.map(({ body, by }) => `${body} by ${Number(by.toPrecision(3))}`).join(', or ');
  return {
    ...issue,
    advice: `all else moves if one of these gives over the whole motion: ${each}. Draw it to fit, or allow that tolerance`,
  };
}
