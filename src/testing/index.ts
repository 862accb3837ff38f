export { doubleWishbones, type PlainDoubleWishbone } from './double-wishbones.ts';
export type { FastCheck } from './fast-check.ts';
export { fourBars } from './four-bars.ts';
export { checkLaws, laws } from './laws.ts';
export { linkages } from './linkages.ts';
export { type PlainPushrod, pushrods } from './pushrods.ts';
export type { Law, LawOptions, SkippedPart, TracedMotion, TraceFunction, Transformation } from './setting.ts';
export { LawViolation, type Where } from './violation.ts';
