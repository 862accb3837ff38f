import { handMethod } from '../../corner/hand-method.ts';
import type { Limits } from '../../corner/limits/limits.ts';
import { bearingUses } from '../../corner/limits/misalignment.ts';
import type { CarDocument, DocumentCorner } from '../../corner/read-corner.ts';
import { type Diagnostic, fault, show } from '../../diagnostic.ts';
import { refusal } from '../../errors/sizing.ts';
import { type CornerForces, forcesOf } from '../forces/corner-forces.ts';
import { setUp } from '../forces/static-equilibrium.ts';
import { loadNames, massesSource } from '../masses.ts';
import { adviceOn, crossWeightAdvice } from '../ordered/advice.ts';
import { afterOrder } from '../ordered/after-order.ts';
import { judgedByAdvice } from '../ordered/as-advised.ts';
import { boughtPath } from '../ordered/as-bought.ts';
import { crossWeightOf } from '../ordered/cross-weight.ts';
import { assumptionsOf } from './assumptions.ts';
import { carOf } from './car.ts';
import { chooseParts } from './choose-parts.ts';
import { adjacentRates } from './choose-spring.ts';
import { wheelCurves } from './curves.ts';
import type { DamperLengths } from './damper.ts';
import { boughtTable, dampingTable } from './damping.ts';
import { type SpeedRow, speedRow } from './downforce.ts';
import type { FigureInfos } from './figure.ts';
import { findingsOn, omittedFindings } from './findings.ts';
import type { CarInputs } from './inputs.ts';
import { designStateOf, loadStateDiagnostics, loadStatesOn } from './load-states.ts';
import {
  AXLE_FIGURES,
  type AxleFigureName,
  type AxleNumbers,
  CAR_WIDE_FIGURES,
  type CarFigureName,
  type CarNumbers,
  carNumbers,
  estimatedNumbers,
  type Owner,
} from './numbers.ts';
import { openQuestionsOf } from './open-questions.ts';
import { orderStatus } from './order-status.ts';
import { perchRange } from './perch.ts';
import { rateTable } from './rate-table.ts';
import type { AxleSizing, Figure, Sizing } from './result.ts';
import { springFit } from './spring-fit.ts';
import type { AxleState } from './state.ts';
import { stabilityDiagnostics, steadyStatesOf } from './static-stability.ts';
import { steadyCornerFindings, steadyCornerOf } from './steady-corner.ts';
import { thirdSpringDiagnostics } from './third-spring.ts';
import { perturbationsOf } from './uncertainty.ts';

/**
 * Sizes the coilovers of a car from its document (`readCar`): springs, damper lengths, damping, travel required and available, each
 * figure with its 95 % interval and contributions.
 *
 * What cannot be made is a conflict; all that does not depend on it is computed.
 *
 * @throws InputError for invalid limits, as `limits`.
 */
export function sizeCoilovers(file: CarDocument): Sizing {
  const { document, car, uncertain, issues, written } = carOf(file);
  const { masses } = car.car;
  const perturbations = perturbationsOf(car, uncertain);
  const chosen = chooseParts(car, perturbations);
  const nominal = carNumbers(car, chosen);
  const estimated = estimatedNumbers(nominal, perturbations, (moved) => carNumbers(moved, chosen));
  const figuresOf = <Name extends string>(whose: Owner, infos: FigureInfos): Figure<Name>[] =>
    estimated.flatMap(({ owner, name, estimate }) =>
      owner === whose ? [{ name: name as Name, ...infos[name], ...estimate }] : [],
    );
  const axles = nominal.axles.map((axle) => ({
    ...axle,
    sized: sizedAxle(axle, nominal, car.car, figuresOf(axle.axle, AXLE_FIGURES)),
  }));
  const sized = axles.map((axle) => axle.sized);
  const stability = axles.flatMap(({ axle, state, travelRequirement }) =>
    [
      ...stabilityDiagnostics(state, travelRequirement, car.car),
      ...thirdSpringDiagnostics(state, steadyStatesOf(state, travelRequirement, car.car)),
    ].map((one) => ({ ...one, path: `corners.${axle}.${one.path}` })),
  );
  const steadyCorner = steadyCornerOf(nominal.axles, car.car);
  const crossWeight = crossWeightOf(
    axles.map(({ state, sized: { afterOrder } }) => ({
      state,
      perches: masses?.scales?.perches ?? null,
      change: afterOrder?.change ?? null,
    })),
  );
  const found = [
    ...document.notes,
    ...sized.flatMap(({ axle, input: { corner } }) =>
      (corner.checks ?? []).map((check) => ({ ...check, path: `corners.${axle}` })),
    ),
    ...judgedByAdvice(
      [
        ...issues,
        ...nominal.issues,
        ...stability,
        ...omittedFindings(sized, [...issues, ...nominal.issues, ...stability]),
        ...axles.flatMap((axle) => findingsOn(axle.sized, axle)),
        ...sized.flatMap(({ axle, loadStates }) => loadStateDiagnostics(axle, loadStates)),
        ...steadyCornerFindings(steadyCorner),
        ...sized.flatMap(notCured),
      ],
      car,
      chosen,
      sized,
    ).map((one) => ({ ...one, path: boughtPath(one.path, document) })),
  ];
  const isConflict = ({ severity }: Diagnostic) => severity === 'error' || severity === 'conflict';
  const conflicts = found.filter(isConflict);
  return {
    ...(document.name === undefined ? {} : { name: document.name }),
    units: document.units,
    status: orderStatus(conflicts, sized),
    ...(document.sizing.use === undefined ? {} : { use: document.sizing.use }),
    order: document.sizing.order ?? null,
    designState: designStateOf(masses),
    aboard: loadNames(masses),
    massesFrom: massesSource(masses),
    axles: sized,
    steadyCorner,
    crossWeight: crossWeight === null ? null : { ...crossWeight, advice: crossWeightAdvice(crossWeight) },
    figures: figuresOf<CarFigureName>('car', CAR_WIDE_FIGURES),
    conflicts,
    checks: found.filter((one) => !isConflict(one)),
    assumptions: assumptionsOf(car.car, axles),
    openQuestions: openQuestionsOf(written, sized),
  };
}

/** An axle as a sizing tells of it. */
function sizedAxle(
  {
    axle,
    input,
    sizing,
    ordered,
    rateStep,
    shaftSpeeds,
    model,
    state,
    travelRequirement,
    chosen,
    numbers,
  }: AxleNumbers,
  { loaded, travelRequirementAt }: CarNumbers,
  car: CarInputs['car'],
  figures: readonly Figure<AxleFigureName>[],
): AxleSizing {
  const { masses, downforce } = car;
  const { damper, limits, otherEnds, springOptions } = chosen;
  const { spring, required } = state;
  const { meanDamping, compressionDamping, reboundDamping } = numbers;
  const perches = masses?.scales?.perches ?? null;
  const after = afterOrder({
    state,
    springOptions,
    otherEnds,
    perches,
    travelRequirement: travelRequirementAt,
  });
  return {
    axle,
    input,
    figures,
    figure: <Name extends AxleFigureName>(name: Name) => {
      const found = figures.find((figure): figure is Figure<Name> => figure.name === name);
      if (found !== undefined) return found;
      throw refusal('figure', [
        fault('unknownFigure', '', { got: show(name), allowed: Object.keys(AXLE_FIGURES) }),
      ]);
    },
    spring,
    springFit: spring === null ? null : springFit(spring.rate, sizing, state.carried, required),
    springOptions,
    adjacentRates: required.springRate === null ? null : adjacentRates(required.springRate, rateStep),
    handMethodRate: handMethodRateOf(input, required.wheelRate, state.mass?.sprung),
    rateTable: rateTable(state),
    damper: damper === null ? null : { ...damper, specified: input.limits.damper !== undefined },
    travelRequirement,
    limits,
    bearings: bearingUses(model, input.limits.bearings, state.ends),
    perch: perchRange(state, otherEnds, travelRequirementAt),
    dampingTable:
      compressionDamping === null || reboundDamping === null
        ? []
        : ordered?.valving === undefined
          ? dampingTable(
              sizing.damping ?? {},
              { compression: compressionDamping, rebound: reboundDamping },
              shaftSpeeds,
            )
          : boughtTable(
              ordered.valving,
              { compression: compressionDamping, rebound: reboundDamping },
              shaftSpeeds,
            ),
    speedRows: speedRowsOf(state, downforce),
    steadyStates: state.coilover === null ? [] : steadyStatesOf(state, travelRequirement, car),
    loadStates: loadStatesOn(state, designStateOf(masses), loaded),
    afterOrder: after,
    advice: after === null ? [] : adviceOn(axle, after, perches),
    curves: wheelCurves(state, meanDamping),
    forces: forcesIn(input, state, limits, damper),
  };
}

/** What can't be cured after the order, and is not told of the whole axle already. */
function notCured({ advice, figure }: AxleSizing): Diagnostic[] {
  const isShort = (name: AxleFigureName) => (figure(name).value ?? 0) < 0;
  return advice.filter(({ severity, code, values }) => {
    if (severity !== 'conflict') return false;
    if (code === 'boughtTravelShort')
      return !isShort(values.direction === 'bump' ? 'bumpTravelMargin' : 'droopTravelMargin');
    return code !== 'boughtSpringTravelShort' || !isShort('springTravelMargin');
  });
}

/** The spring that the hand method gives for a wheel rate. */
function handMethodRateOf(
  { corner }: DocumentCorner,
  wheelRate: number | null,
  sprungMass: number | undefined,
): number | Diagnostic {
  if (wheelRate === null || sprungMass === undefined) return noRate('noWheelRateRequired');
  if (!(wheelRate > 0)) return noRate('requiredWheelRateNotPositive');
  const hand = handMethod(corner, { travel: { bump: 0, droop: 0 } });
  return hand.defined ? wheelRate / hand.estimate : hand.reason;
}

/** Why the hand method gives no spring rate. */
function noRate(code: string): Diagnostic {
  return { code, severity: 'note', path: '', values: {} };
}

/** Speeds that are looked at where none are named: this many up to the top speed. */
const SPEED_ROWS = 5;

function speedRowsOf(state: AxleState, downforce: CarInputs['car']['downforce']): SpeedRow[] {
  if (downforce === undefined) return [];
  const speeds =
    downforce.speedsToCheck ??
    Array.from({ length: SPEED_ROWS }, (_, k) => (downforce.speed * (k + 1)) / SPEED_ROWS);
  return speeds.map((speed) => speedRow(state, downforce, speed));
}

function forcesIn(
  { corner, limits }: DocumentCorner,
  { mass, coilover, spring, rest, given, shock }: AxleState,
  found: Limits,
  damper: DamperLengths | null,
): CornerForces | null {
  if (mass?.unsprung == null || coilover === null || spring === null) return null;
  const table = given.sizing.bumpStopTable;
  const options = {
    sprungMass: mass.sprung,
    unsprungMass: mass.unsprung,
    springRate: spring.rate,
    gasForce: coilover.gasForce,
    ...(table === undefined ? {} : { bumpStopTable: table }),
    limits: { ...limits, ...(damper === null ? { bumpStop: undefined } : { damper }) },
  };
  const between = shock.across == null ? null : { linkage: given.linkage, at: shock.across };
  const known = { found, coilover, restingAt: rest?.travel ?? null, between };
  return forcesOf(setUp(corner, options, known), options);
}
