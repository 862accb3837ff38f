// The travel that is needed, from cases. What moves the wheel in each:
//
//   downforce   travel at top speed against standing                  roll    t/2 tan(phi), phi the roll angle at the lateral g, times what
//                                                                             the wheel's own curve makes of it (steady-corner.ts)
//   dive, lift  W(z) = m_s g +- m a h / (2 wheelbase), in front and at the rear, m and h mass and centre height of the sprung part
//   road        a bump or a dip that the wheel takes alone            margin  kept at either end
//
// Cornering and braking are not summed: each is a case with road and margin. All factors are common practice, without a source.

import type { Diagnostic } from '../../diagnostic.ts';
import type { CarSizingFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import { DEGREES, GRAVITY } from '../../units.ts';
import { restUnder } from '../wheel.ts';
import { cornerDownforce, topSpeedOf } from './downforce.ts';
import type { AxleState, RollShare } from './state.ts';

/** What is taken where the document says nothing; common practice, without a source. g, and mm. */
export const TRAVEL_CASES = { lateralAcceleration: 1, deceleration: 1, roadBump: 40, roadDip: 40, margin: 5 };

/** One case of the required travel: its parts by name, mm, and their sum. */
export interface TravelCase {
  readonly name: string;
  /** The load state that it belongs to; null for the design state. */
  readonly state: string | null;
  readonly side: 'bump' | 'droop';
  readonly parts: Readonly<Record<string, number>>;
  /** From static ride height, mm, positive. */
  readonly travel: number;
  /** From design ride height, mm, positive: `travel` and the static travel. */
  readonly required: number;
}

/** Required travel from design ride height, mm, droop negative, with its cases; null if the corner has no static ride height. */
export interface TravelRequirement {
  readonly bump: number | null;
  readonly droop: number | null;
  readonly cases: readonly TravelCase[];
  /**
   * Travel of the outer wheel in the steady corner with downforce, and of the inner one without, mm from design ride height, bump positive, by
   * their own curves without bump stop and ends of the damper; null where a part of it is not known.
   */
  readonly cornerTravel: { readonly outer: number; readonly inner: number } | null;
  /** Parts that were not counted, and why; paths in the car. */
  readonly omitted: readonly Diagnostic[];
}

/** The travel that an axle needs, measured from the drawn ride height. */
export function travelRequirementOf(
  state: AxleState,
  car: Certain<CarSizingFile>,
  rollGradient: number | null,
  sprungMass: number | null,
): TravelRequirement {
  const {
    lateralAcceleration = TRAVEL_CASES.lateralAcceleration,
    deceleration = TRAVEL_CASES.deceleration,
    roadBump = TRAVEL_CASES.roadBump,
    roadDip = TRAVEL_CASES.roadDip,
    margin = TRAVEL_CASES.margin,
  } = car.travelCases ?? {};
  const { masses, downforce } = car;
  const { axle } = state.given;
  if (state.coilover !== null && state.rest === null) {
    const omitted = [omission('everyCase', 'stand', 'coilover')];
    return { bump: null, droop: null, cases: [], cornerTravel: null, omitted };
  }
  const omitted: Diagnostic[] = [];
  const rest = state.rest?.travel ?? 0;
  const load = (state.mass?.sprung ?? 0) * GRAVITY;
  const under = (more: number) => {
    const { coilover, shock, mass } = state;
    if (coilover === null || mass === null) return null;
    // As far as the linkage goes: what the damper will allow follows from this.
    const at = restUnder(shock, coilover, load + more, shock, rest);
    return at.state === 'bumpLimit' ? null : at.travel - rest;
  };
  /** A part under which the corner does not stand, or for which its spring is not known. */
  const unborne = (part: Omitted) => omission(part, state.coilover === null ? 'spring' : 'stand', 'sizing');
  const pushed =
    downforce === undefined ? 0 : under(Math.max(0, cornerDownforce(downforce, axle, topSpeedOf(downforce))));
  if (pushed === null) omitted.push(unborne('downforce'));
  const estimate =
    rollGradient === null ? null : estimatedRollTravel(state, rollGradient * lateralAcceleration);
  const { outer, inner } = state.settings.roll ?? AS_ESTIMATED;
  const rolled = (share: number) => (estimate === null ? null : share * estimate);
  if (estimate === null) {
    omitted.push(
      masses?.sprungCentreOfGravityHeight === undefined
        ? omission('roll', 'centreOfGravityHeight', 'masses.sprungCentreOfGravityHeight')
        : omission('roll', 'bothAxles', 'sizing'),
    );
  }
  const moved =
    sprungMass === null || masses?.sprungCentreOfGravityHeight === undefined || masses.wheelbase === undefined
      ? null
      : (sprungMass * GRAVITY * deceleration * masses.sprungCentreOfGravityHeight) / masses.wheelbase / 2;
  const dive = moved === null ? null : under(axle === 'front' ? moved : -Math.min(moved, load));
  if (dive === null) {
    omitted.push(
      masses?.sprungCentreOfGravityHeight === undefined
        ? omission('dive', 'centreOfGravityHeight', 'masses.sprungCentreOfGravityHeight')
        : masses.wheelbase === undefined
          ? omission('dive', 'wheelbase', 'masses.wheelbase')
          : moved === null
            ? omission('dive', 'bothAxles', 'sizing')
            : unborne('dive'),
    );
  }
  // Asked for from the drawn ride height, cases go from where the car stands.
  const required = state.given.limits.required;
  const cases: TravelCase[] = [];
  const add = (name: string, side: 'bump' | 'droop', parts: Record<string, number | null>) => {
    const known = Object.entries(parts).filter((part): part is [string, number] => part[1] !== null);
    const travel = known.reduce((sum, [, part]) => sum + part, 0);
    const required = side === 'bump' ? travel + rest : travel - rest;
    cases.push({ name, state: null, side, parts: Object.fromEntries(known), travel, required });
  };
  add('cornering over a bump', 'bump', { downforce: pushed, roll: rolled(outer), road: roadBump, margin });
  if (axle === 'front') {
    add('braking over a bump', 'bump', { downforce: pushed, dive, road: roadBump, margin });
  }
  if (required?.bump !== undefined) add('specified', 'bump', { specified: required.bump - rest });
  add('inner wheel in a dip', 'droop', { roll: rolled(inner), road: roadDip, margin });
  if (axle === 'rear') {
    add('braking over a dip', 'droop', { lift: dive === null ? null : -dive, road: roadDip, margin });
  }
  if (required?.droop !== undefined) add('specified', 'droop', { specified: required.droop + rest });
  const most = (side: TravelCase['side']) => Math.max(...requiredBy({ cases }, side));
  const cornerTravel =
    estimate === null || pushed === null
      ? null
      : { outer: rest + pushed + outer * estimate, inner: rest - inner * estimate };
  return { bump: most('bump'), droop: -most('droop'), cases, cornerTravel, omitted };
}

const AS_ESTIMATED: RollShare = { outer: 1, inner: 1 };

/** Travel of either wheel where an axle rolls by an angle, degrees, about the middle of the ground: t/2 tan(phi). */
export function estimatedRollTravel({ shock, rest }: AxleState, angle: number): number {
  return shock.patch(rest?.travel ?? 0).y * Math.tan(angle / DEGREES);
}

/** A part of the required travel that was not counted. */
type Omitted = 'downforce' | 'roll' | 'dive' | 'everyCase';

function omission(part: Omitted, needs: string, path: string): Diagnostic {
  return { code: 'travelPartOmitted', severity: 'check', path, values: { part, needs, state: '' } };
}

/** What each case of a side requires from the drawn ride height, mm outward. */
export function requiredBy({ cases }: Pick<TravelRequirement, 'cases'>, side: TravelCase['side']): number[] {
  return cases.filter((one) => one.side === side).map(({ required }) => required);
}
