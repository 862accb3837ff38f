export {
  type Equilibria,
  type EquilibriaOptions,
  type Equilibrium,
  type EquilibriumStatus,
  equilibria,
} from './equilibria.ts';
export {
  type FollowedRest,
  type FollowOptions,
  followEquilibrium,
  type RestUnderLoad,
  type SnapThrough,
} from './follow.ts';
export type { Load } from './loads.ts';
export type { FollowerForce, MotionLoad, Spring } from './motion-loads.ts';
export { type Forces, forces, type StaticsOptions } from './statics.ts';
