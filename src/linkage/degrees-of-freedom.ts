// Degrees of freedom of the drawn pose: the null space of the rows' Jacobian. Redundant rows: the null space of its transpose. Messages
// use the user's names.

import { type Diagnostic, fault } from '../diagnostic.ts';
import { nullVector } from '../numerics/elimination.ts';
import { nullSpaces, type Sparse } from '../numerics/sparse-rank.ts';
import { barMisfits, drawingOf } from './bar-misfit.ts';
import { variablePart } from './form.ts';
import { EMPTY, factorise, type Rows } from './rows.ts';
import type { TaylorExpansion } from './series.ts';
import { singularPose } from './singular-pose.ts';
import type { System } from './system.ts';

/** A component of a unit null vector below this counts as none. */
const NEGLIGIBLE = 1e-6;

/** Degrees of freedom and redundant rows of the drawn pose, by the drawing's names. */
export interface FreedomCount {
  readonly degreesOfFreedom: number;
  readonly redundant: number;
  /** Rows that depend on each other, by name. */
  readonly dependent: string[];
  /** Points that have a velocity in the drawn pose. */
  readonly moving: string[];
}

/** Counts the degrees of freedom and the redundant rows of the drawn pose. */
export function countFreedom(e: Rows): FreedomCount {
  const { rows } = e.system.structure;
  const { nullSpace, leftNullSpace } = nullSpaces(drawnJacobian(e));
  const dependent = rows.filter(
    ({ defines }, i) =>
      defines === undefined && leftNullSpace.some((vector) => Math.abs(vector[i]) > NEGLIGIBLE),
  );
  return {
    degreesOfFreedom: nullSpace.length,
    redundant: leftNullSpace.length,
    dependent: [...new Set(dependent.map(({ of }) => of.constraint))],
    moving: movingPoints(e.system, nullSpace),
  };
}

/** Points that unit vectors of the null space move, by name. */
function movingPoints({ places, structure }: System, nullSpace: readonly ArrayLike<number>[]): string[] {
  const isMoved = (_: string, p: number) =>
    nullSpace.some((vector) => Math.hypot(...variablePart(places[p], vector)) > NEGLIGIBLE);
  return structure.names.filter(isMoved);
}

/** The Jacobian of the drawn pose. */
function drawnJacobian(e: Rows): Sparse {
  const { pattern } = e.elimination;
  factorise(e, new Float64Array(e.system.unknowns));
  const value = e.jacobian.slice();
  e.system.scale.forEach((scale, i) => {
    const row = value.subarray(pattern.start[i], pattern.start[i + 1]);
    if (Math.hypot(...row) < EMPTY * scale) row.fill(0);
  });
  return { pattern, value };
}

/** Why the drawn pose cannot be moved by one driver, in the drawing's names. */
export function whyNotDriven(e: TaylorExpansion): Diagnostic {
  const { elimination, system } = e;
  const { unknowns } = system;
  factorise(e, new Float64Array(unknowns));
  const degreesOfFreedom = unknowns - elimination.rank;
  if (degreesOfFreedom === 0) return overDetermined(e.system);
  const bifurcation = bifurcationDrawn(e);
  if (bifurcation !== null) return bifurcation;
  factorise(e, new Float64Array(unknowns));
  const vectors: Float64Array[] = [];
  elimination.pivotRow.forEach((row, column) => {
    if (row >= 0) return;
    const vector = new Float64Array(unknowns);
    nullVector(elimination, column, vector);
    const length = Math.hypot(...vector);
    vectors.push(vector.map((value) => value / length));
  });
  return fault('severalFreedoms', '', { degreesOfFreedom, moving: movingPoints(system, vectors) });
}

/** That several branches cross in the drawn pose, if they do. */
export function bifurcationDrawn(e: TaylorExpansion): Diagnostic | null {
  const branches = singularPose(e, e.pose.fill(0))?.tangents?.length ?? 0;
  return branches > 1 ? fault('drawnAtBifurcation', '', { branches }) : null;
}

/** A bar whose misfit is below this share of the size is taken for one that should be redundant. */
const LITTLE = 0.02;

function overDetermined(system: System): Diagnostic {
  const { unknowns, structure, size } = system;
  if (unknowns === 0) return fault('nothingFree', '');
  const rows = structure.rows.filter(({ defines }) => defines === undefined);
  const own = structure.rows.length - rows.length;
  const little = barMisfits(drawingOf(system)).filter(({ misfit }) => misfit <= LITTLE * size);
  return fault('overDetermined', '', {
    rows: rows.length,
    constraints: [...new Set(rows.map(({ of }) => of.constraint))],
    unknowns: unknowns - own,
    redundant: structure.rows.length - unknowns,
    bodies: little.map(({ body }) => body),
    misfits: little.map(({ misfit }) => misfit),
  });
}
