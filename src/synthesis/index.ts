export { type CouplerCurve, type CouplerCurveOptions, couplerCurve } from './coupler-curve.ts';
export { type ExtremeValues, extremeValues, type LocalExtreme } from './extreme-values.ts';
export type { Quantity, Transmission } from './quantity.ts';
export { mechanicalAdvantage, transmissionAngle } from './transmission.ts';
