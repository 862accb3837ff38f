// fmin 0.0.4 has no types, and its package's own entry gives nothing: what we use of its sources.
declare module 'fmin/index.js' {
  /** Writes the gradient at x into its second argument and returns the value. */
  type Objective = (x: number[], gradient: number[]) => number;

  export function conjugateGradient(
    f: Objective,
    initial: number[],
    params?: { maxIterations?: number },
  ): { x: number[]; fx: number; fxprime: number[] };
}
