export {
  type Equilibria,
  type EquilibriaOptions,
  type Equilibrium,
  type EquilibriumStatus,
  equilibria,
} from './equilibria.ts';
export {
  type EquilibriaFromOptions,
  equilibriaFrom,
  type ReachedEquilibrium,
  type ReachedStatus,
} from './equilibria-from.ts';
export {
  type FollowedRest,
  type FollowOptions,
  followEquilibrium,
  type RestUnderLoad,
  type SnapThrough,
} from './follow.ts';
export {
  type FollowedPose,
  type FollowFromOptions,
  followEquilibriumFrom,
  type GrowingLength,
  type RestPose,
  type SnapThroughPose,
} from './follow-from.ts';
export type { Load } from './loads.ts';
export type { FollowerForce, GrowingSpring, MotionLoad, Spring } from './motion-loads.ts';
export { type Forces, forces, type StaticsOptions } from './statics.ts';
