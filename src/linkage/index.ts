export { describeIssue, InputError, type Issue } from '../errors.ts';
export type { Drawing, Point } from './drawing.ts';
export type { Direction, Held, Joints, Slider } from './joints.ts';
export { type Relengthed, withLengths } from './lengths.ts';
export type { Measure } from './measure.ts';
export { type Extreme, type Motion, type Reading, type TraceOptions, trace } from './motion.ts';
export type { End, EndKind } from './path.ts';
