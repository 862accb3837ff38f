// Powers by products and roots by logarithms: `**` and `Math.pow` of some engines differ from those of others in the last bit, products and
// logarithms do not. The same input then gives the same bits on every version of Node that is supported.

/** A number to a whole power, by repeated squares; a negative power is the inverse of the positive one. */
export function power(base: number, exponent: number): number {
  let result = 1;
  let square = base;
  for (let left = Math.abs(exponent); left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result *= square;
    square *= square;
  }
  return exponent < 0 ? 1 / result : result;
}

/** A positive number to any power, right to a few roundings of the exponent times its logarithm. */
export function anyPower(base: number, exponent: number): number {
  return Math.exp(exponent * Math.log(base));
}
