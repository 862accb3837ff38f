import type { InputError } from '../errors/input-error.ts';

/**
 * Rows behind those of two forms whose equation is another one: what such rows are at a pose, and in the orders of a series about it. All
 * calls but `residuals` refer to the pose of the last one.
 */
export interface FurtherRows {
  /** The first of them; the others follow. */
  readonly first: number;
  /** Residuals at a pose into their places; `wx`, `wy` are the variable parts of all forms there. */
  residuals(pose: Float64Array, wx: Float64Array, wy: Float64Array, residuals: Float64Array): void;
  /** Entries of the Jacobian; row i has those from `start[i]`. */
  jacobian(
    wholeX: Float64Array,
    wholeY: Float64Array,
    start: readonly number[],
    jacobian: Float64Array,
  ): void;
  /** Begins a series about the pose with orders 0 and 1. */
  begin(whole: Whole, z: Float64Array): void;
  /** Takes order k once it is known, of the unknowns and of the forms. */
  take(k: number, z: Float64Array, formX: Float64Array, formY: Float64Array): void;
  /** Order k of each row less the Jacobian times order k of the unknowns: what the orders before make of it. */
  order(k: number, formX: Float64Array, formY: Float64Array): Float64Array;
  /** Second-order terms for two directions of the unknowns: half of what Q(x, x) is more for u + v than for both alone, over the scale. */
  secondOrder(whole: Whole, u: Float64Array, v: Float64Array): number[];
  /** Why nothing moves by them. */
  refusal(): InputError;
}

/** All forms at a pose, and room for their series. */
export interface Whole {
  readonly wholeX: Float64Array;
  readonly wholeY: Float64Array;
  readonly formX: Float64Array;
  readonly formY: Float64Array;
}
