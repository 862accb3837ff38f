// Couplings have measures as unknowns (mixed coordinates: J. Garcia de Jalon, E. Bayo, 1994, sec. 2.1.4): q_m, the change of measure m
// from the drawn pose, of turns times the size h, so that all are lengths. One row defines each, and a coupling is a linear row:
//
//   value      Re(k conj(W_a) W_b) - Re(k conj(d_a) d_b) - |d_a| q = 0
//   turn       arg(W) - arg(d) - q/h = 0,   W a line of constant length rho
//   coupling   sum_m c_m q_m = 0            (c_m / h for a turn)
//
// A turn is no product of forms, but as |W| = rho its rate is one, rho^2 dq/h = Im(conj(W) dW). Order by order that is
//
//   rho^2 q_k / h = sum_{j=1..k} (j/k) Im(conj(w_{k-j}) w_j),   w_0 = W_0
//
// a convolution as that of any other row, but with the weights j/k. And the row's Jacobian is that of the second form alone. The residual
// takes the turn nearest to q/h out of those that W allows: the unknown remembers the revolutions.

import type { RowPlan, Structure } from './structure.ts';

/** The number that makes the residual of a row with unknown measures a length; `length` is |d_a|. */
export function measureScale(
  { defines, measures = [] }: RowPlan,
  length: number,
  { measures: isTurn }: Pick<Structure, 'measures'>,
  size: number,
): number {
  if (defines === 'turn') return (length * length) / size;
  if (defines === 'value') return length;
  // A sum of nothing that moves is 0 = 0.
  return Math.max(0, ...measures.map(([m, factor]) => Math.abs(factor) / (isTurn[m] ? size : 1))) || 1;
}

/** The factors of a row's unknown measures. */
export function measureFactors(
  { defines, measures = [] }: RowPlan,
  scale: number,
  { measures: isTurn }: Pick<Structure, 'measures'>,
  size: number,
): number[] {
  return measures.map(([m, factor]) =>
    defines === undefined ? factor / (isTurn[m] ? size : 1) : factor * scale,
  );
}

/** How far the turn of conj(d) W is from the unknown one, q/h, in radians. */
export function turnMissing(re: number, im: number, turn: number): number {
  const missing = Math.atan2(im, re) - turn;
  return missing - 2 * Math.PI * Math.round(missing / (2 * Math.PI));
}
