export type { QuantityBounds } from './bounds.ts';
export { type CouplerCurve, type CouplerCurveOptions, couplerCurve } from './coupler-curve.ts';
export { type ExtremeValues, extremeValues, type LocalExtreme } from './extreme-values.ts';
export type { Counted, PrecisionPoint, SynthesisObjective } from './objectives.ts';
export type { SynthesisOptions } from './options.ts';
export type { Quantity, Transmission } from './quantity.ts';
export type { MovedPoint, Synthesis, SynthesisObjectiveResult, SynthesisStatus } from './result.ts';
export { synthesise } from './synthesise.ts';
export { mechanicalAdvantage, transmissionAngle } from './transmission.ts';
