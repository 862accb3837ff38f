// The share of Student's t with n degrees of freedom that lies between -t and t, with theta = atan(t / sqrt(n)):
//
//   n odd:   A = (2/pi) (theta + sin theta (cos theta + 2/3 cos^3 theta + ... + (2 4 ... (n-3))/(3 5 ... (n-2)) cos^(n-2) theta))
//   n even:  A = sin theta (1 + 1/2 cos^2 theta + (1 3)/(2 4) cos^4 theta + ... + (1 3 ... (n-3))/(2 4 ... (n-2)) cos^(n-2) theta)
//
// (M. Abramowitz, I. Stegun, "Handbook of Mathematical Functions", 26.7.3 and 26.7.4; from memory: cos^(n-1) integrated by parts).
// It grows with theta from 0 to 1.

import { zeroBetween } from './zero.ts';

/** The t within which, to either side, together a share `within` of Student's distribution lies; `within` between 0 and 1, n from 1. */
export function studentQuantile(within: number, degreesOfFreedom: number): number {
  const theta = zeroBetween((angle) => shareWithin(angle, degreesOfFreedom) - within, 0, Math.PI / 2);
  return Math.sqrt(degreesOfFreedom) * Math.tan(theta);
}

function shareWithin(theta: number, n: number): number {
  const isOdd = n % 2 === 1;
  const [sine, cosine] = [Math.sin(theta), Math.cos(theta)];
  let term = isOdd ? cosine : 1;
  let sum = n === 1 ? 0 : term;
  for (let m = isOdd ? 3 : 2; m <= n - 2; m += 2) {
    term *= ((m - 1) / m) * cosine * cosine;
    sum += term;
  }
  return isOdd ? (2 / Math.PI) * (theta + sine * sum) : sine * sum;
}
