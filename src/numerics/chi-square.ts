// The share of chi-square with k degrees of freedom that lies above x: Q(a, y), a = k/2, y = x/2, the incomplete gamma function
//
//   y < a + 1:  Q = 1 - e^-y y^a / Gamma(a + 1) (1 + y/(a+1) + y^2/((a+1)(a+2)) + ...)
//   else:       Q = e^-y y^a / Gamma(a) / (y + 1 - a - 1(1-a)/(y + 3 - a - 2(2-a)/(y + 5 - a - ...)))
//
// (NIST Digital Library of Mathematical Functions 8.11.4 and 8.9.2; from memory). As 2a is a whole number, Gamma(a) is a product
// down to Gamma(1) = 1 or Gamma(1/2) = sqrt(pi).

/** Steps of the continued fraction beyond what any survey needs: it ends long before. */
const STEPS = 10_000;

/** The probability of a larger chi-square by chance, 0 to 1; 1 without a degree of freedom. */
export function chiSquareAbove(x: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom === 0) return 1;
  const [a, y] = [degreesOfFreedom / 2, x / 2];
  const front = Math.exp(a * Math.log(y) - y - logGamma(a));
  if (y < a + 1) return 1 - (front / a) * series(a, y);
  return front * fraction(a, y);
}

function series(a: number, y: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; term > Number.EPSILON * sum; n++) {
    term *= y / (a + n);
    sum += term;
  }
  return sum;
}

/** The continued fraction by the method of Lentz, forwards. */
function fraction(a: number, y: number): number {
  let b = y + 1 - a;
  let c = Number.MAX_VALUE;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < STEPS; n++) {
    const top = n * (a - n);
    b += 2;
    d = 1 / (b + top * d);
    c = b + top / c;
    value *= c * d;
    if (Math.abs(c * d - 1) < Number.EPSILON) break;
  }
  return value;
}

function logGamma(a: number): number {
  let sum = Number.isInteger(a) ? 0 : Math.log(Math.PI) / 2;
  for (let factor = a - 1; factor > 0; factor--) sum += Math.log(factor);
  return sum;
}
