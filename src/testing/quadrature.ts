// Gauss-Legendre quadrature: int f dt over [-1, 1] is sum w_i f(x_i), exact for polynomials up to degree 2 n - 1, where
//     P_n(x_i) = 0,    w_i = 2 / ((1 - x_i^2) P_n'(x_i)^2)
//     (k + 1) P_{k+1} = (2 k + 1) x P_k - k P_{k-1},    (1 - x^2) P_n' = n (P_{n-1} - x P_n)
// (M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, 25.4.29, 22.7, 22.8, from memory).

/** Number of nodes in a panel. */
const N = 10;
/** Newton steps for a node: far more than it needs from the usual first guess. */
const STEPS = 8;

/** A place at which a function is to be known, and the weight of its value in the integral. */
export interface QuadratureNode {
  readonly at: number;
  readonly weight: number;
}

/** Nodes for the integral over [from, to]. */
export function quadratureNodes(from: number, to: number): QuadratureNode[] {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  return NODES.map(({ at, weight }) => ({ at: middle + half * at, weight: half * weight }));
}

function legendreNode(i: number): QuadratureNode {
  let x = Math.cos((Math.PI * (i + 0.75)) / (N + 0.5));
  let slope = 0;
  for (let step = 0; step < STEPS; step++) {
    let [before, p] = [1, x];
    for (let k = 1; k < N; k++) [before, p] = [p, ((2 * k + 1) * x * p - k * before) / (k + 1)];
    slope = (N * (before - x * p)) / (1 - x * x);
    x -= p / slope;
  }
  return { at: x, weight: 2 / ((1 - x * x) * slope * slope) };
}

const NODES = Array.from({ length: N }, (_, i) => legendreNode(i));
