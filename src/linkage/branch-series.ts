// The motion as a power series about a singular pose, along the tangent v of one of its branches. Order by order
//
//   J Z_k = r_k(Z_1 .. Z_{k-1}),   Z_1 = h v,
//
// where J has further null vectors n_j, across v, and rows I set aside, which these equations have to agree with. Z_{k-1} is known but for
// its part sum_j c_j n_j across; that changes r_k by - 2 q(Z_1, n_j) c_j, so that the set-aside rows of order k give it
// (singular-pose.ts; h_i there):
//
//   2 h_i(Z_1, n_j) c_j = (r_k)_i - J_i S r_k.

import { applyForms } from './form.ts';
import { ARC_ORDER, convolve, offTangent, STRIDE, type TaylorExpansion } from './series.ts';
import {
  bilinear,
  leastSquares,
  nullSpaceAt,
  reduced,
  type SingularPose,
  unitAcross,
} from './singular-pose.ts';

/**
 * Expands the motion by arc length about a singular pose along the unit tangent of a branch. `redundant` are the rows that were redundant
 * before. False where the second-order terms do not determine it.
 */
export function expandOnBranch(
  e: TaylorExpansion,
  { pose }: SingularPose,
  tangent: Float64Array,
  redundant: Uint8Array,
): boolean {
  const { system, z, x, formX, formY } = e;
  const { size, forms, further } = system;
  const { basis, aside } = nullSpaceAt(e, pose);
  const across: Float64Array[] = [];
  for (const vector of basis) {
    const unit = unitAcross(vector, [tangent, ...across]);
    if (unit !== null) across.push(unit);
  }
  const first = tangent.map((value) => value * size);
  const solutions: Float64Array[] = [];
  const columns = across.map((n) => {
    bilinear(e, first, n);
    const column = reduced(e, aside);
    solutions.push(x.slice());
    return column;
  });
  const matrix = aside.map((_, i) => columns.map((column) => 2 * column[i]));
  e.tangent.set(tangent);
  for (let i = 0; i < pose.length; i++) {
    z[i * STRIDE] = pose[i];
    z[i * STRIDE + 1] = first[i];
  }
  applyForms(forms, z, STRIDE, 1, 1, formX, formY);
  further?.begin(e, z);
  // The last order is there for the sake of the one before it.
  for (let k = 2; k <= ARC_ORDER + 1; k++) {
    convolve(e, e.asListed, k);
    const lacking = reduced(e, aside);
    const by = k === 2 ? across.map(() => 0) : leastSquares(matrix, lacking);
    if (by === null) return false;
    by.forEach((c, j) => {
      for (let i = 0; i < x.length; i++) {
        z[i * STRIDE + k - 1] += c * across[j][i];
        x[i] -= 2 * c * solutions[j][i];
      }
    });
    applyForms(forms, z, STRIDE, k - 1, k - 1, formX, formY);
    if (further !== undefined && k > 2) {
      // What it has of order k - 1 is from before Z_{k-1} was known, and so is what it makes of it for order k.
      further.order(k - 1, formX, formY);
      further.take(k - 1, z, formX, formY);
      further.order(k, formX, formY);
    }
    offTangent(x, tangent);
    for (let i = 0; i < x.length; i++) z[i * STRIDE + k] = x[i];
    applyForms(forms, z, STRIDE, k, k, formX, formY);
    further?.take(k, z, formX, formY);
  }
  e.order = ARC_ORDER;
  e.redundant = redundant;
  return true;
}
