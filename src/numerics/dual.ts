// Numbers with their derivatives by some inputs, so that a formula gives both (forward differentiation: A. Griewank, A.
// Walther, "Evaluating Derivatives", 2008, ch. 3; from memory):
//
//   (a b)' = a b' + b a',   (a / b)' = (a' - (a / b) b') / b,   |(a, b)|' = (a a' + b b') / |(a, b)|.
//
// Derivatives are computed when they are first needed.

/** A value and its derivative by each input. */
export interface Dual {
  readonly value: number;
  readonly by: readonly number[];
}

/** A value whose derivatives `make` works out. */
export function dual(value: number, make: () => readonly number[]): Dual {
  return new Lazy(value, make);
}

/** A class for its getter: one on each object would cost more than the derivatives. */
class Lazy implements Dual {
  readonly value: number;
  #by: readonly number[] | null = null;
  readonly #make: () => readonly number[];

  constructor(value: number, make: () => readonly number[]) {
    this.value = value;
    this.#make = make;
  }

  get by(): readonly number[] {
    this.#by ??= this.#make();
    return this.#by;
  }
}

/** A value that depends on none of the inputs of another. */
export function constant(value: number, like: Dual): Dual {
  return dual(value, () => like.by.map(() => 0));
}

/** p a + q b. */
export function combined(p: number, a: Dual, q: number, b: Dual): Dual {
  return dual(p * a.value + q * b.value, () => a.by.map((da, i) => p * da + q * b.by[i]));
}

export function plus(a: Dual, b: Dual): Dual {
  return combined(1, a, 1, b);
}

export function minus(a: Dual, b: Dual): Dual {
  return combined(1, a, -1, b);
}

/** p a + q, with plain p and q. */
export function scaled(a: Dual, p: number, q = 0): Dual {
  return dual(p * a.value + q, () => a.by.map((da) => p * da));
}

export function times(a: Dual, b: Dual): Dual {
  return dual(a.value * b.value, () => a.by.map((da, i) => a.value * b.by[i] + b.value * da));
}

export function over(a: Dual, b: Dual): Dual {
  const value = a.value / b.value;
  return dual(value, () => a.by.map((da, i) => (da - value * b.by[i]) / b.value));
}

/** |(a, b)|; where both are 0 it is taken as constant. */
export function length(a: Dual, b: Dual): Dual {
  const value = Math.hypot(a.value, b.value);
  return dual(value, () =>
    a.by.map((da, i) => (value === 0 ? 0 : (a.value * da + b.value * b.by[i]) / value)),
  );
}
