// Derivatives of a measure by the unknowns z. With W its form, F that of the body it is relative to (1 for the ground), M = conj(F) W and
// dM_i, d2M_ij its first and second derivatives along directions u_i,
//
//   dm = Re(conj(G) dM),   G = 1 (x), i (y), M/m (length), i M/|M|^2 (angle)
//   d2m_ij = Re(conj(G) d2M_ij) + c_ij,   c_ij = 0 (x, y), (Re(conj(dM_i) dM_j) - dm_i dm_j)/m (length), -Im(dM_i dM_j/M^2) (angle).

import { type Form, variablePart } from '../linkage/form.ts';
import type { BoundMeasure } from '../linkage/measure.ts';
import { unwrap } from '../linkage/measure-series.ts';

/** A measure in a pose, with its derivatives. */
export interface MeasureRates {
  readonly value: number;
  /** By each unknown that it depends on. */
  readonly gradient: readonly (readonly [unknown: number, rate: number])[];
  /** Second derivatives along directions, by pairs. */
  readonly second: (directions: readonly ArrayLike<number>[]) => number[][];
}

type Complex = readonly [re: number, im: number];

/** a b, and conj(a) b. */
const product = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const across = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c + b * d, a * d - b * c];
const sum = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];

/** A measure in a pose; an angle is taken on the revolution nearest to `near`. */
export function measureRates(measure: BoundMeasure, pose: ArrayLike<number>, near: number): MeasureRates {
  const { kind, form, frame, zero, offset } = measure;
  const at = (one: Form): Complex => sum([one.x, one.y], variablePart(one, pose));
  const W = at(form);
  const F: Complex = frame === null ? [1, 0] : at(frame.form);
  const M = across(F, W);
  const square = M[0] * M[0] + M[1] * M[1];
  const length = Math.sqrt(square + offset * offset);
  const G: Complex =
    kind === 'x'
      ? [1, 0]
      : kind === 'y'
        ? [0, 1]
        : kind === 'length'
          ? [M[0] / length, M[1] / length]
          : [-M[1] / square, M[0] / square];
  const value =
    kind === 'angle'
      ? unwrap(Math.atan2(M[1], M[0]) + zero, near)
      : kind === 'length'
        ? length
        : zero + M[kind === 'x' ? 0 : 1];
  return {
    value,
    gradient: [
      ...gradientOf(form, product(G, F)),
      ...(frame === null ? [] : gradientOf(frame.form, across(G, W))),
    ],
    second(directions) {
      const rates = directions.map((u): readonly [dW: Complex, dF: Complex, dM: Complex] => {
        const dW = variablePart(form, u);
        const dF: Complex = frame === null ? [0, 0] : variablePart(frame.form, u);
        return [dW, dF, sum(across(dF, W), across(F, dW))];
      });
      return rates.map(([dW, dF, dM]) =>
        rates.map(([otherW, otherF, other]) => {
          const [bent] = across(G, sum(across(dF, otherW), across(otherF, dW)));
          const [both] = across(dM, other);
          if (kind === 'length') return bent + (both - across(G, dM)[0] * across(G, other)[0]) / length;
          if (kind !== 'angle') return bent;
          const [, turned] = across(product(M, M), product(dM, other));
          return bent - turned / (square * square);
        }),
      );
    },
  };
}

/** Of Re(conj(G) W) by each unknown of a form W. */
function gradientOf({ free, re, im }: Form, [x, y]: Complex): [number, number][] {
  return free.flatMap((j, k): [number, number][] => [
    [2 * j, x * re[k] + y * im[k]],
    [2 * j + 1, y * re[k] - x * im[k]],
  ]);
}
