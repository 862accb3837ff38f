export { InputError, type Issue } from '../errors/input-error.ts';
export { otherAssemblyMode } from './assembly.ts';
export type { CoupledMeasure, Pulley, Ratio, Rope } from './couplings.ts';
export { type CheckedDrawing, type Drawing, linkage, type NamedDrawing, type Point } from './drawing.ts';
export { type DriveOptions, type DriveResult, type Driver, drive } from './drive.ts';
export type { ScheduledDriver } from './drivers.ts';
export type { Direction, FixedCoordinate, Joints, Slider } from './joints.ts';
export { type LengthResult, withLengths } from './lengths.ts';
export type { Frame, Measure } from './measure.ts';
export { type Mobility, mobility, type Range, range } from './mobility.ts';
export {
  type BranchChoice,
  type Extreme,
  type Motion,
  type Reading,
  type TraceOptions,
  trace,
} from './motion.ts';
export type { Branch, MotionEnd, MotionStatus } from './path.ts';
export { type Placement, placePoints } from './placements.ts';
export type { ScheduleFunction } from './schedule.ts';
