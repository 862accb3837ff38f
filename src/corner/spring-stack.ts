// Springs in series carry the same force F; spring i gives by F/k_i until it has no travel t_i left. Together
//
//   x(F) = sum_i min(F / k_i, t_i),
//
// which bends at the forces F_i = k_i t_i, the transfer points: from there a spring is shut and the others go on alone.

/** A spring of a stack. */
export interface StackedSpring {
  /** N/mm. */
  readonly rate: number;
  /** How far it can be compressed from free, mm; Infinity where its least length is not known. */
  readonly travel: number;
}

/** Springs one on the other, as plain data. */
export interface Stack {
  readonly springs: readonly StackedSpring[];
}

/** How far a stack is compressed from free under a force, mm; at most its travel. */
export function compressionUnder({ springs }: Stack, force: number): number {
  return springs.reduce((sum, { rate, travel }) => sum + Math.min(Math.max(0, force) / rate, travel), 0);
}

/** The travel of a stack: how far it can be compressed from free, mm. */
export function travelOf({ springs }: Stack): number {
  return springs.reduce((sum, { travel }) => sum + travel, 0);
}

/** Force (N) and rate (N/mm) of a stack compressed by so much; loose it has neither, and shut it is kept at its last force. */
export function pushOf({ springs }: Stack, compression: number): { force: number; rate: number } {
  if (compression <= 0) return { force: 0, rate: 0 };
  if (springs.length === 1 && compression <= springs[0].travel)
    return { force: springs[0].rate * compression, rate: springs[0].rate };
  const knots = springs.map(({ rate, travel }) => rate * travel).sort((a, b) => a - b);
  let [from, x] = [0, 0];
  for (const to of knots) {
    const soft = springs.reduce((sum, { rate, travel }) => sum + (rate * travel > from ? 1 / rate : 0), 0);
    const upTo = x + (to - from) * soft;
    if (soft > 0 && compression <= upTo) {
      return { force: from + (compression - x) / soft, rate: 1 / soft };
    }
    [from, x] = [to, upTo];
  }
  return { force: from, rate: 0 };
}

/** Forces at which springs of a stack shut one after the other, N, and the compression there, mm; the last shuts it all. */
export function transfers(stack: Stack): { readonly force: number; readonly compression: number }[] {
  return stack.springs
    .map(({ rate, travel }) => rate * travel)
    .filter(Number.isFinite)
    .sort((a, b) => a - b)
    .map((force) => ({ force, compression: compressionUnder(stack, force) }));
}
