// The pieces of a path are laid outward from the drawn pose, both ways, in one of two manners, never in both:
//
// - by the driver itself (driver-path.ts), where that goes all the way to the requested values;
// - by arc length (arc-path.ts) else: through dead points of the driver, to where the motion ends and why.

import { layByArcLength } from './arc-path.ts';
import { layByDriver } from './driver-path.ts';
import type { NoPath, Path, Task } from './path.ts';
import type { TaylorExpansion } from './series.ts';

/** Lays the path of a task. */
export function layPath(e: TaylorExpansion, task: Task): Path | NoPath {
  return layByDriver(e, task) ?? layByArcLength(e, task);
}
