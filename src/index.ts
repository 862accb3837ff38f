export { type AxleInput, type AxleLinkage, axle } from './axle/axle.ts';
export {
  type AxleLimitOptions,
  type AxleLimits,
  axleLimits,
  type HeaveLimit,
  type HeaveRange,
  type RollLimit,
  type WheelLimit,
} from './axle/axle-limits.ts';
export {
  type AxleMonteCarlo,
  type AxleMonteCarloOptions,
  axleMonteCarlo,
} from './axle/axle-monte-carlo.ts';
export { type AxleSensitivities, axleSensitivities } from './axle/axle-sensitivity.ts';
export {
  type AxleSensitivityRank,
  type AxleSensitivityRankingOptions,
  axleSensitivityRanking,
} from './axle/axle-sensitivity-ranking.ts';
export { type AxleUncertaintyBands, axleUncertaintyBands } from './axle/axle-uncertainty-bands.ts';
export { type AntiRollBar, type BarEnd, torsionalStiffness } from './axle/bar.ts';
export type { CarAxle, CarLoads, CarOnAxles, LateralSplit, WheelCoilover } from './axle/car.ts';
export { type ChooseBarOptions, type ChosenBar, chooseBar, type NoBar } from './axle/choose-bar.ts';
export type { CrossSpring } from './axle/cross-spring.ts';
export {
  type AxleRest,
  type CrossSpringRest,
  type Equilibrium,
  equilibrium,
  type LoadTransfer,
  type NoEquilibrium,
  type NoRestCause,
  type WheelLoad,
  type WheelName,
  type WheelRest,
} from './axle/equilibrium.ts';
export { type PerchMove, type PerchMoveOptions, type PerchMoves, perchMoves } from './axle/perch-moves.ts';
export {
  type HeaveRate,
  heaveRate,
  type RollStiffness,
  type RollStiffnessOptions,
  rollStiffness,
  type WheelSpring,
} from './axle/roll-stiffness.ts';
export {
  type CorneringEvent,
  type CorneringEventKind,
  type CorneringRow,
  type SpringEventKind,
  type SteadyCornering,
  type SteadyCorneringOptions,
  steadyCornering,
  type WheelEventKind,
} from './axle/steady-cornering.ts';
export {
  type AxleColumn,
  type AxleColumns,
  type AxleRow,
  type AxleSweep,
  type AxleSweepOptions,
  type OutOfReach,
  sweepAxle,
} from './axle/sweep-axle.ts';
export type { WheelEnd } from './axle/wheel-curve.ts';
export {
  type ChoiceChange,
  type ChoiceValue,
  compareSizings,
  type FigureChange,
  type LimitChange,
  type SizingComparison,
} from './coilover/compare.ts';
export type { AxialLoad, BallJointLoad } from './coilover/forces/ball-joint.ts';
export type { Bending } from './coilover/forces/bending.ts';
export {
  type CaseForces,
  type CornerForces,
  cornerForces,
  type JointExtreme,
  type LoadedJoint,
} from './coilover/forces/corner-forces.ts';
export {
  type CaseTravel,
  LOAD_FACTORS,
  type LoadCase,
  type LoadFactors,
  standardLoadCases,
} from './coilover/forces/load-cases.ts';
export type { ForceOptions } from './coilover/forces/options.ts';
export { type ForceCurves, forceCurves } from './coilover/forces/through-travel.ts';
export type { CarMasses, MassesSource, WheelMasses } from './coilover/masses.ts';
export type {
  AfterOrder,
  PerchAdvice,
  RatioOverTravel,
  SpringChange,
  WheelAfterOrder,
  WheelSide,
  WheelStand,
} from './coilover/ordered/after-order.ts';
export type { CrossWeight, CrossWeightWheel } from './coilover/ordered/cross-weight.ts';
export {
  DAMPING_RANGES,
  FREQUENCY_RANGES,
  type UseRange,
} from './coilover/sizing/advice.ts';
export type { SpringOption } from './coilover/sizing/choose-spring.ts';
export type { WheelCurves } from './coilover/sizing/curves.ts';
export type { DamperLengths } from './coilover/sizing/damper.ts';
export type { DampingRow } from './coilover/sizing/damping.ts';
export type { SpeedRow } from './coilover/sizing/downforce.ts';
export type { FigureGroup, FigureInfo } from './coilover/sizing/figure.ts';
export type { Spring } from './coilover/sizing/listed-springs.ts';
export type { LoadState } from './coilover/sizing/load-states.ts';
export {
  monteCarloSizing,
  type SizingMonteCarlo,
  type SizingMonteCarloOptions,
} from './coilover/sizing/monte-carlo.ts';
export type { AxleFigureName, CarFigureName } from './coilover/sizing/numbers.ts';
export type { OrderStatus } from './coilover/sizing/order-status.ts';
export type { PerchLimit, PerchLimitCause, PerchRange } from './coilover/sizing/perch.ts';
export type { RateRow } from './coilover/sizing/rate-table.ts';
export type { TravelCase, TravelRequirement } from './coilover/sizing/required-travel.ts';
export type { AxleSizing, Figure, Sizing } from './coilover/sizing/result.ts';
export { sizeCoilovers } from './coilover/sizing/size.ts';
export type { SpringFit } from './coilover/sizing/spring-fit.ts';
export type { SteadyState } from './coilover/sizing/static-stability.ts';
export type { SteadyCorner } from './coilover/sizing/steady-corner.ts';
export type { Estimate } from './coilover/sizing/uncertainty.ts';
export {
  type CoilEnds,
  type CoilSpring,
  coilSpring,
} from './coilover/springs/coil-spring.ts';
export type { MinLengthSource, SpringLengths } from './coilover/springs/min-length.ts';
export { type ArmLengthResult, changeArmLengths } from './corner/arm-lengths.ts';
export type { AxialForce, BumpStopTable } from './corner/axial-force.ts';
export type { Axle } from './corner/axles.ts';
export { bearingMisalignment, type SphericalBearing } from './corner/bearing.ts';
export type {
  AllowedColumn,
  ColumnName,
  ColumnOf,
  Columns,
  Pose,
  Row,
  StandardColumns,
} from './corner/column-types.ts';
export type { ColumnInfo, TravelReference } from './corner/columns.ts';
export type { Corner, DrawnCorner } from './corner/corner.ts';
export type { Covariance } from './corner/covariance.ts';
export { type CustomCorner, type CustomCornerInput, customCorner } from './corner/custom.ts';
export { type DoubleWishbone, doubleWishbone } from './corner/double-wishbone.ts';
export type { DrawnColumns } from './corner/drawn-columns.ts';
export { carJsonSchema, cornerJsonSchema } from './corner/file-schemas.ts';
export {
  HAND_METHOD_APPROXIMATIONS,
  type HandMethod,
  type HandMethodApproximation,
  type HandMethodOptions,
  type HandPoint,
  handMethod,
  type NoHandMethod,
} from './corner/hand-method.ts';
export type { Arm, OtherEnd, Part, Wheel } from './corner/hardpoints.ts';
export type { ComparedUnit, DonorComparison, StrokeLeft } from './corner/limits/donor.ts';
export type { Side } from './corner/limits/first-crossing.ts';
export { type Limit, type LimitCause, type LimitEvent, type Limits, limits } from './corner/limits/limits.ts';
export type { BearingUse, BearingUses } from './corner/limits/misalignment.ts';
export type { TravelMargin, TravelMargins } from './corner/limits/travel-margins.ts';
export { type MigratedFile, migrateFile } from './corner/migrate.ts';
export type { Rocker } from './corner/model.ts';
export {
  type CauseProbability,
  type LimitProbabilities,
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
export { type ColumnValues, type Sensitivities, sensitivities } from './corner/sensitivity.ts';
export {
  type SensitivityRank,
  type SensitivityRankingOptions,
  sensitivityRanking,
} from './corner/sensitivity-ranking.ts';
export { type Strut, strut } from './corner/strut.ts';
export {
  type Sweep,
  type SweepEnd,
  type SweepOptions,
  sweep,
} from './corner/sweep.ts';
export { type Tyre, tyreFromSize } from './corner/tyre.ts';
export type { PlusMinus } from './corner/uncertainty.ts';
export { type UncertaintyBands, uncertaintyBands } from './corner/uncertainty-bands.ts';
export type { Clearances } from './design/clearances.ts';
export { design } from './design/design.ts';
export type { JointForce } from './design/joint-force.ts';
export type { DesignQuantity, Goal, Objective } from './design/objectives.ts';
export type { DesignOptions } from './design/options.ts';
export type {
  Design,
  DesignStatus,
  MovedMount,
  ObjectiveResult,
  TradeOff,
} from './design/result.ts';
export type { Station } from './design/trial.ts';
export type { Diagnostic, Severity } from './diagnostic.ts';
export type * from './document/inputs.ts';
export { surveyJsonSchema } from './document/survey-schema.ts';
export { InputError, type Issue } from './errors/input-error.ts';
export type { MotionStatus } from './linkage/path.ts';
export type { Bounds } from './numerics/box.ts';
export type { LeastSquaresStatus } from './numerics/least-squares.ts';
export type { SearchEnd } from './numerics/minimiser.ts';
export type { SearchProgress, SearchReport } from './numerics/multistart.ts';
export { approximationLabel } from './report/approximation-label.ts';
export { type PlotAxleLimitsOptions, plotAxleLimits } from './report/axle-map.ts';
export { type DrawAxleOptions, drawAxle } from './report/axle-picture.ts';
export { sweepCsv } from './report/csv.ts';
export { type PlotCurvesOptions, plotCurves } from './report/curves.ts';
export { plotDampingForce } from './report/damping-picture.ts';
export { drawDesign } from './report/design-picture.ts';
export { type DrawCornerOptions, drawCorner } from './report/drawing.ts';
export { drawForces } from './report/force-picture.ts';
export { type HandMethodPlotOptions, plotHandMethod } from './report/hand-method.ts';
export { describeIssue, issueLines, sentence } from './report/in-words.ts';
export { type DrawLinkageOptions, drawLinkage } from './report/linkage.ts';
export { type MimeBundle, type Showable, type Shown, type ShowOptions, show } from './report/notebook.ts';
export { adviceLines } from './report/order-sheet/after-weighing.ts';
export type { Block, FigureRow, FigureValue, FormLine, OrderSheet } from './report/order-sheet/blocks.ts';
export { comparisonSheet } from './report/order-sheet/comparison-sheet.ts';
export { sheetData, sheetJson } from './report/order-sheet/data.ts';
export { sheetHtml } from './report/order-sheet/html.ts';
export { orderSheet } from './report/order-sheet/maker-order.ts';
export { sheetMarkdown } from './report/order-sheet/markdown.ts';
export { type ReportSheetOptions, reportSheet } from './report/order-sheet/report-sheet.ts';
export { type DrawSweepOptions, drawSweep } from './report/picture.ts';
export type { BodyEnd, WheelSizes } from './report/poses.ts';
export { drawResiduals } from './report/residual-picture.ts';
export type { FlatRow } from './report/rows.ts';
export { sizingSummary } from './report/summary.ts';
export { sweepTable } from './report/table.ts';
export { describeSweepEnd } from './report/text.ts';
export { type VegaLite, type VegaOptions, vegaCurves } from './report/vega.ts';
export type { ReadingKind } from './survey/readings.ts';
export type {
  MirrorSolution,
  Survey,
  SurveyedPoint,
  SurveyedReading,
  SurveyScale,
  SuspectReading,
  UndeterminedPoints,
} from './survey/result.ts';
export { survey } from './survey/survey.ts';
export { type SurveyedParts, surveyedCorner } from './survey/surveyed-corner.ts';
export { type SurveyedCornerOptions, writeSurveyedCorner } from './survey/write-surveyed-corner.ts';
export type { SearchOptions } from './synthesis/search-options.ts';
export type { Quantity, Units } from './units.ts';
