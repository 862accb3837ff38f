import type { Axle } from '../../corner/axles.ts';
import type { Limits } from '../../corner/limits/limits.ts';
import type { BearingUses } from '../../corner/limits/misalignment.ts';
import type { DocumentCorner } from '../../corner/read-corner.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { Units } from '../../units.ts';
import type { CornerForces } from '../forces/corner-forces.ts';
import type { MassesSource } from '../masses.ts';
import type { AfterOrder } from '../ordered/after-order.ts';
import type { CrossWeight } from '../ordered/cross-weight.ts';
import type { SpringOption } from './choose-spring.ts';
import type { WheelCurves } from './curves.ts';
import type { DamperLengths } from './damper.ts';
import type { DampingRow } from './damping.ts';
import type { SpeedRow } from './downforce.ts';
import type { FigureInfo } from './figure.ts';
import type { Spring } from './listed-springs.ts';
import type { LoadState } from './load-states.ts';
import type { AxleFigureName, CarFigureName } from './numbers.ts';
import type { OrderStatus } from './order-status.ts';
import type { PerchRange } from './perch.ts';
import type { RateRow } from './rate-table.ts';
import type { TravelRequirement } from './required-travel.ts';
import type { SpringFit } from './spring-fit.ts';
import type { SteadyState } from './static-stability.ts';
import type { SteadyCorner } from './steady-corner.ts';
import type { Estimate } from './uncertainty.ts';

/** A figure with its definition and its 95 % interval. Values in the library's units: mm, kg, N, N/mm, N·s/m, Hz, degrees. */
export interface Figure<Name extends string = string> extends FigureInfo, Estimate {
  readonly name: Name;
}

/** The coilover of one axle, sized. */
export interface AxleSizing {
  readonly axle: Axle;
  readonly input: DocumentCorner;
  readonly figures: readonly Figure<AxleFigureName>[];
  /** The figure with a name; its value is null where an input for it is missing. Throws InputError for another name. */
  figure<Name extends AxleFigureName>(name: Name): Figure<Name>;
  /** The chosen spring; null without a target or a given rate. */
  readonly spring: Spring | null;
  /** How near its frequency is to the target; null without a target. */
  readonly springFit: SpringFit | null;
  /** Springs of the list, the one that fits best first. */
  readonly springOptions: readonly SpringOption[];
  /** Available rates next below and above the required one, N/mm. */
  readonly adjacentRates: { readonly below: number; readonly above: number } | null;
  /** Spring rate that the hand method gives for the same wheel rate, N/mm, or why there is none. */
  readonly handMethodRate: number | Diagnostic;
  readonly rateTable: readonly RateRow[];
  /** Eye-to-eye lengths of the damper, mm; `specified` if they were given, else they follow from the required travel. */
  readonly damper: (DamperLengths & { readonly specified: boolean }) | null;
  readonly travelRequirement: TravelRequirement;
  readonly limits: Limits;
  /** Misalignment of the end bearings over the available travel, and their rating; those whose bolt axis is given. */
  readonly bearings: BearingUses;
  readonly perch: PerchRange | null;
  readonly dampingTable: readonly DampingRow[];
  readonly speedRows: readonly SpeedRow[];
  /** The corner at rest, at top speed, in a steady corner, under steady braking, against the bump stop; empty where it does not stand. */
  readonly steadyStates: readonly SteadyState[];
  readonly curves: WheelCurves | null;
  /** The axle in every load state, the design state first; empty for a car without states. */
  readonly loadStates: readonly LoadState[];
  /** What the car that stands asks of what was bought; null where nothing was. */
  readonly afterOrder: AfterOrder | null;
  /** The same as advice: notes are to be done, conflicts can't be cured. */
  readonly advice: readonly Diagnostic[];
  /** Forces in joints and mounts; null where there is no coilover to compute. */
  readonly forces: CornerForces | null;
}

/** The coilovers of a car, sized. */
export interface Sizing {
  readonly name?: string;
  readonly units: Units;
  /** Whether it may go to a maker. */
  readonly status: OrderStatus;
  readonly use?: string;
  /** Revision and date of the order that the file stands for; null without one: its pages have lines to write them on. */
  readonly order: { readonly revision: string; readonly date: string } | null;
  /** The load state that lengths and ride height refer to; null for a car without states. */
  readonly designState: string | null;
  /** Names of the loads aboard at ride height; null where no masses are given. */
  readonly aboard: readonly string[] | null;
  /** What the masses come from; null where none are given. */
  readonly massesFrom: MassesSource | null;
  readonly axles: readonly AxleSizing[];
  /** The car in the steady corner of its travel cases, nominal values; null where masses, coilovers or the rear axle are missing. */
  readonly steadyCorner: SteadyCorner | null;
  /** The four perches of a weighed car at once, with `advice` that says it: notes are to be done, conflicts cannot; null where it was not weighed, or is not bought and standing on both axles. */
  readonly crossWeight: (CrossWeight & { readonly advice: readonly Diagnostic[] }) | null;
  /** Figures of the car as a whole. */
  readonly figures: readonly Figure<CarFigureName>[];
  /** What cannot be right, cannot be made or will not work, with its numbers. Only figures that depend on a conflict are left out. */
  readonly conflicts: readonly Diagnostic[];
  /** Inputs that look wrong, what may not work at an end of its interval, and remarks. */
  readonly checks: readonly Diagnostic[];
  readonly assumptions: readonly Diagnostic[];
  /** Open questions: those of the file (`ownQuestion`), then what is missing. */
  readonly openQuestions: readonly Diagnostic[];
}
