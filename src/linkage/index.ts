export { describeIssue, InputError, type Issue } from '../errors.ts';
export type { Drawing, Held, Point } from './drawing.ts';
export { type Relengthed, withLengths } from './lengths.ts';
export type { Measure } from './measure.ts';
export { type Extreme, type Motion, type Reading, type TraceOptions, trace } from './motion.ts';
export type { End, EndKind } from './path.ts';
