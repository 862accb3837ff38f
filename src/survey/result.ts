import type { Covariance } from '../corner/covariance.ts';
import type { Diagnostic } from '../diagnostic.ts';
import type { Point } from '../linkage/drawing.ts';
import type { LeastSquaresStatus } from '../numerics/least-squares.ts';
import type { Units } from '../units.ts';
import type { ReadingKind } from './readings.ts';

/** A chance below this makes one look twice. */
export const UNLIKELY = 0.001;

/** What comes of a survey, as plain, frozen data: mm and degrees, whatever the document is in. */
export interface Survey {
  readonly kind: 'survey';
  readonly name?: string;
  /** What the document is written in. */
  readonly units: Units;
  /** Inputs that look wrong: a unit, an angle read from the other axis. */
  readonly notes: readonly Diagnostic[];
  /** How the search for the best places ended; whatever it says, the places are the best found. */
  readonly status: LeastSquaresStatus;
  readonly points: Readonly<Record<string, SurveyedPoint>>;
  /** Of all coordinates that are fixed and not known beforehand (`lowerInnerY`), mm²; times the square of the Birge ratio where `scale` is applied. */
  readonly covariance: Covariance;
  readonly readings: readonly SurveyedReading[];
  /** Sum of the squares of residual / standard deviation; null where a computed reading is no number. */
  readonly chiSquare: number | null;
  /** Readings beyond those that it takes to fix what they fix. */
  readonly degreesOfFreedom: number;
  /** The probability that readings as sure as they say differ as much or more; null where there is nothing to differ. */
  readonly pValue: number | null;
  /** What the intervals are widened by because the readings disagree more than their half-widths say. */
  readonly scale: SurveyScale;
  /** Likely misreadings, the most likely first. */
  readonly suspects: readonly SuspectReading[];
  /** Points whose fore-aft place `x` is likely wrong: several readings are suspected, and without the distances of this point all others agree. */
  readonly foreAftSuspects: readonly string[];
  /** Readings that are missing to determine points. */
  readonly undetermined: readonly UndeterminedPoints[];
  /** Points that could as well lie elsewhere, or that the first estimate had on the wrong side. */
  readonly mirrorSolutions: readonly MirrorSolution[];
  /** All this as diagnostics; checks are to be looked at before the points are built on. Paths are places in the document. */
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * How much more than stated the readings scatter. Where that is more, `applied`: standard deviations count `birgeRatio` times, 95 %
 * half-widths `studentFactor` times beside. It covers half-widths that are all too small by one factor, not one misreading.
 */
export interface SurveyScale {
  readonly applied: boolean;
  /** √(chi-square ÷ degrees of freedom); null where no reading checks another. */
  readonly birgeRatio: number | null;
  /** The 97.5 % quantile of Student's t for the degrees of freedom, divided by 1.96; null as above. */
  readonly studentFactor: number | null;
}

/** A point as the readings have it. */
export interface SurveyedPoint {
  /** `[y, z]`, mm: the best estimate, also where it is not determined. */
  readonly at: Point;
  /** Forward of the plane across the wheel centre, mm, as given. */
  readonly x: number;
  /** Half-widths of the 95 % intervals of y and z, mm, widened as `scale` says; null for one that is not determined. */
  readonly plusMinus: readonly [number | null, number | null];
  /** Covariance of y and z, mm², scaled like that of the survey; null where one is not determined. */
  readonly covariance: readonly [readonly [number, number], readonly [number, number]] | null;
  /** Given, determined by the readings, or not. */
  readonly status: 'known' | 'determined' | 'undetermined';
}

/** A reading beside what it should have been. */
export interface SurveyedReading {
  readonly kind: ReadingKind;
  /** Place in the document, as `distances[3]`. */
  readonly path: string;
  /** The points that it was read between, in the order in which the document names them. */
  readonly points: readonly string[];
  readonly unit: 'mm' | 'deg';
  /** What was read, in `unit`. */
  readonly measured: number;
  /** What it would be between the points as found, in `unit`. */
  readonly computed: number;
  /** Measured - computed, in `unit`. */
  readonly residual: number;
  /** Half-width of the 95 % interval of the reading. */
  readonly plusMinus: number;
  /** The residual ÷ its own standard deviation: beyond 3.6 to either side it is no chance. Null where no other reading checks it. */
  readonly standardised: number | null;
}

/** A likely misreading: one reading, or one of several. */
export interface SuspectReading {
  readonly candidates: readonly {
    readonly path: string;
    readonly points: readonly string[];
    readonly unit: 'mm' | 'deg';
    /** Its error if it is this one: measured minus what all others say, in `unit`. */
    readonly error: number;
  }[];
}

/** A reading that is missing, and the points that it would determine, alone or with the others that are missing. */
export interface UndeterminedPoints {
  readonly points: readonly string[];
  /** What to read: a height above the ground, or a lateral distance from the centreline. */
  readonly read: 'height' | 'lateral';
  readonly of: string;
}

/** Points with two places that the readings may mean. */
export interface MirrorSolution {
  readonly points: readonly string[];
  /** The places that were not taken. */
  readonly other: Readonly<Record<string, Point>>;
  /** Chi-square there; null where it has no value. */
  readonly chiSquare: number | null;
  /** Whether the readings determine the side: then the first estimate was on the wrong one. If not, the first estimate decided. */
  readonly isDetermined: boolean;
  /** A reading that determines the side, or would. */
  readonly read: 'height' | 'lateral';
  readonly of: string;
}
