export { LawViolation, type Where } from './broken.ts';
export { doubleWishbones, type PlainDoubleWishbone } from './double-wishbones.ts';
export type { FastCheck } from './fast-check.ts';
export { fourBars } from './four-bars.ts';
export { checkLaws, laws } from './laws.ts';
export { linkages } from './linkages.ts';
export { type PlainPushrod, pushrods } from './pushrods.ts';
export type { Transformation, Law, LawOptions, TraceFunction, TracedMotion } from './setting.ts';
