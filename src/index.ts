export type { BallJointLoad } from './coilover/forces/ball-joint.ts';
export type { Bending } from './coilover/forces/bending.ts';
export {
  type CaseForces,
  type CornerForces,
  cornerForces,
  type LoadedJoint,
} from './coilover/forces/corner-forces.ts';
export type { EyeForce, StopTable } from './coilover/forces/eye-force.ts';
export {
  CASE_FACTORS,
  type CaseFactors,
  type CaseTravel,
  type LoadCase,
  usualCases,
} from './coilover/forces/load-cases.ts';
export type { ForceOptions } from './coilover/forces/options.ts';
export { type ForceCurves, forceCurves } from './coilover/forces/through-travel.ts';
export { type Bands, bands } from './corner/bands.ts';
export { bearingTilt, type SphericalBearing } from './corner/bearing.ts';
export type { ColumnInfo } from './corner/columns.ts';
export type { Corner, DrawnCorner } from './corner/corner.ts';
export type { Covariance } from './corner/covariance.ts';
export { type CustomCorner, type CustomCornerInput, customCorner } from './corner/custom.ts';
export { type DoubleWishbone, doubleWishbone } from './corner/double-wishbone.ts';
export {
  FAULTS,
  type Fault,
  faultWords,
  type HandMethod,
  type HandOptions,
  type HandPoint,
  handMethod,
  type NoHandMethod,
} from './corner/hand-method.ts';
export { type ChangedCorner, changeLengths } from './corner/lengths.ts';
export type { DonorComparison } from './corner/limits/donor.ts';
export { type Limit, type LimitCause, type LimitEvent, type Limits, limits } from './corner/limits/limits.ts';
export type { BallJoint, BearingEnd, Donor, LimitOptions } from './corner/limits/options.ts';
export type { RequiredTravel, Requirement } from './corner/limits/required.ts';
export { costOfAMillimetre, type MillimetreCost, type MillimetreOptions } from './corner/millimetre.ts';
export {
  type CauseOdds,
  type LimitOdds,
  type MonteCarlo,
  type MonteCarloOptions,
  monteCarlo,
} from './corner/monte-carlo.ts';
export { type Pushrod, pushrod } from './corner/pushrod.ts';
export {
  type CarDocument,
  type CornerDocument,
  type DocumentCorner,
  readCar,
  readCorner,
} from './corner/read-corner.ts';
export { type Numbers, type Sensitivities, sensitivities } from './corner/sensitivity.ts';
export { type Strut, strut } from './corner/strut.ts';
export {
  type Columns,
  type Row,
  type Sweep,
  type SweepEnd,
  type SweepOptions,
  sweep,
} from './corner/sweep.ts';
export { type Tyre, tyreFromSize } from './corner/tyre.ts';
export type { PlusMinus } from './corner/uncertainty.ts';
export type { DoubleWishboneInput, PushrodInput, StrutInput } from './document/corner-schema.ts';
export { carJsonSchema, cornerJsonSchema } from './document/file-schema.ts';
export type { LimitsDocument } from './document/limits-schema.ts';
export type { Note } from './document/note.ts';
export { type SurveyInput, surveyJsonSchema } from './document/survey-schema.ts';
export { describeIssue, InputError, type Issue } from './errors.ts';
export type { EndKind } from './linkage/path.ts';
export { sweepCsv } from './report/csv.ts';
export { type CurveOptions, plotCurves } from './report/curves.ts';
export { type DrawingOptions, drawCorner } from './report/drawing.ts';
export { drawForces } from './report/force-picture.ts';
export { type HandPictureOptions, plotHandMethod } from './report/hand-method.ts';
export { drawSweep, type PictureOptions } from './report/picture.ts';
export { sweepTable } from './report/table.ts';
export { describeEnd } from './report/text.ts';
export { type VegaLite, type VegaOptions, vegaCurves } from './report/vega.ts';
export type {
  Mirrored,
  Survey,
  SurveyedPoint,
  SurveyedReading,
  Suspect,
  Unfixed,
} from './survey/result.ts';
export { survey } from './survey/survey.ts';
export { type SurveyedParts, surveyedCorner } from './survey/surveyed-corner.ts';
