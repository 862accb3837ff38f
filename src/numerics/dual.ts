// Numbers with their derivatives by some inputs, so that a formula gives both (forward differentiation: A. Griewank, A.
// Walther, "Evaluating Derivatives", 2008, ch. 3; from memory):
//
//   (a b)' = a b' + b a',   (a / b)' = (a' - (a / b) b') / b,   sqrt(a)' = a' / (2 sqrt(a)).

/** A value and its derivative by each input. */
export interface Dual {
  readonly value: number;
  readonly by: readonly number[];
}

/** A value that depends on none of so many inputs. */
export function constant(value: number, inputs: number): Dual {
  return { value, by: new Array<number>(inputs).fill(0) };
}

/** p a + q b. */
export function combined(p: number, a: Dual, q: number, b: Dual): Dual {
  return { value: p * a.value + q * b.value, by: a.by.map((da, i) => p * da + q * b.by[i]) };
}

export function plus(a: Dual, b: Dual): Dual {
  return combined(1, a, 1, b);
}

export function minus(a: Dual, b: Dual): Dual {
  return combined(1, a, -1, b);
}

/** p a + q, with plain p and q. */
export function scaled(a: Dual, p: number, q = 0): Dual {
  return { value: p * a.value + q, by: a.by.map((da) => p * da) };
}

export function times(a: Dual, b: Dual): Dual {
  return { value: a.value * b.value, by: a.by.map((da, i) => a.value * b.by[i] + b.value * da) };
}

export function over(a: Dual, b: Dual): Dual {
  const value = a.value / b.value;
  return { value, by: a.by.map((da, i) => (da - value * b.by[i]) / b.value) };
}

/** sqrt(a^2 + b^2); where both are 0 it is taken as constant. */
export function length(a: Dual, b: Dual): Dual {
  const value = Math.hypot(a.value, b.value);
  const by = a.by.map((da, i) => (value === 0 ? 0 : (a.value * da + b.value * b.by[i]) / value));
  return { value, by };
}
