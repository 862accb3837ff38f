import { handMethod } from '../../corner/hand-method.ts';
import type { Limits } from '../../corner/limits/limits.ts';
import { bearingUses } from '../../corner/limits/misalignment.ts';
import type { CarDocument, DocumentCorner } from '../../corner/read-corner.ts';
import { type Diagnostic, fault, show } from '../../diagnostic.ts';
import { refusal } from '../../errors/sizing.ts';
import { type CornerForces, forcesOf } from '../forces/corner-forces.ts';
import { setUp } from '../forces/static-equilibrium.ts';
import { loadNames } from '../masses.ts';
import { adviceOn } from '../ordered/advice.ts';
import { afterOrder } from '../ordered/after-order.ts';
import { boughtPath } from '../ordered/as-bought.ts';
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
import { AXLES, type Axle, type CarInputs, ofAxle } from './inputs.ts';
import { designStateOf, loadStateDiagnostics, loadStatesOn } from './load-states.ts';
import {
  AXLE_FIGURES,
  type AxleFigureName,
  CAR_WIDE_FIGURES,
  type CarFigureName,
  type CarNumbers,
  carNumbers,
  estimatedNumbers,
  figuresIn,
  type Owner,
} from './numbers.ts';
import { openQuestionsOf } from './open-questions.ts';
import { orderStatus } from './order-status.ts';
import { perchRange } from './perch.ts';
import { rateTable } from './rate-table.ts';
import type { AxleSizing, Figure, Sizing } from './result.ts';
import { springFit } from './spring-fit.ts';
import { stabilityDiagnostics } from './static-stability.ts';
import { perturbationsOf } from './uncertainty.ts';

/**
 * Sizes the coilovers of a car from its document (`readCar`): springs, damper lengths, damping, what is needed and what there is,
 * each figure with how sure it is and what makes it so.
 *
 * What can't be is a finding with its numbers; all that does not hang on it is still reckoned.
 *
 * @throws InputError for limits that can't be, as `limits`.
 */
export function sizeCoilovers(file: CarDocument): Sizing {
  const { document, car, uncertain, issues, written } = carOf(file);
  const { inputs } = car;
  const perturbations = perturbationsOf(car, uncertain);
  const { settings, limits, springOptions } = chooseParts(document, car, perturbations);
  const nominal = carNumbers(car, settings);
  const sure = estimatedNumbers(nominal, perturbations, (moved) => carNumbers(moved, settings));
  const listed = figuresIn(inputs);
  const figuresOf = <Name extends string>(whose: Owner, infos: FigureInfos): Figure<Name>[] =>
    listed.flatMap(({ owner, name }, k) =>
      owner === whose ? [{ name: name as Name, ...infos[name], ...sure[k] }] : [],
    );
  const { masses } = inputs.car;
  const perches = masses?.scales?.perches ?? null;
  const designState = designStateOf(masses);
  const axles = AXLES.filter((axle) => document.corners[axle] !== undefined).map((axle): AxleSizing => {
    const given = ofAxle(document.corners, axle);
    const state = ofAxle(nominal.states, axle);
    const figures = figuresOf<AxleFigureName>(axle, AXLE_FIGURES);
    const { sizing, ordered, rateStep } = ofAxle(inputs, axle);
    const valving = ordered?.valving;
    const requiredRate = state.required.springRate;
    const damper = ofAxle(settings, axle).damper;
    const { meanDamping, compressionDamping, reboundDamping } = ofAxle(nominal.axles, axle).damping;
    const after = afterOrder({
      axle,
      state,
      springOptions: ofAxle(springOptions, axle),
      otherEnds: ofAxle(settings, axle).otherEnds,
      perches,
      travelRequirement: (at, side) => nominal.travelRequirementAt(axle, at, side),
    });
    return {
      axle,
      input: given,
      figures,
      figure: <Name extends AxleFigureName>(name: Name) => {
        const found = figures.find((figure): figure is Figure<Name> => figure.name === name);
        if (found !== undefined) return found;
        throw refusal('figure', [
          fault('unknownFigure', '', { got: show(name), allowed: Object.keys(AXLE_FIGURES) }),
        ]);
      },
      spring: state.spring,
      springFit:
        state.spring === null ? null : springFit(state.spring.rate, sizing, state.carried, state.required),
      springOptions: ofAxle(springOptions, axle),
      adjacentRates: requiredRate === null ? null : adjacentRates(requiredRate, rateStep),
      handMethodRate: handMethodRateOf(given, state.required.wheelRate, state.mass?.sprung),
      rateTable: rateTable(state),
      damper: damper === null ? null : { ...damper, specified: given.limits.damper !== undefined },
      travelRequirement: ofAxle(nominal.travelRequirement, axle),
      limits: ofAxle(limits, axle),
      bearings: bearingUses(ofAxle(car.models, axle), given.limits.bearings, state.ends),
      perch: perchRange(state),
      dampingTable:
        compressionDamping === null || reboundDamping === null
          ? []
          : valving === undefined
            ? dampingTable(sizing.damping ?? {}, compressionDamping, reboundDamping)
            : boughtTable(valving, { compression: compressionDamping, rebound: reboundDamping }),
      speedRows: speedRowsOf(inputs, nominal, axle),
      loadStates: loadStatesOn(axle, state, designState, nominal.loaded),
      afterOrder: after,
      advice: after === null ? [] : adviceOn(axle, after, perches),
      curves: wheelCurves(state, meanDamping),
      forces: forcesIn(given, state, ofAxle(limits, axle), damper),
    };
  });
  const stability = axles.flatMap(({ axle, travelRequirement }) =>
    stabilityDiagnostics(ofAxle(nominal.states, axle), travelRequirement, inputs.car, axle).map((one) => ({
      ...one,
      path: `corners.${axle}.${one.path}`,
    })),
  );
  const isError = ({ severity }: Diagnostic) => severity === 'error';
  const isNote = ({ severity }: Diagnostic) => severity === 'note';
  const inDocument = (one: Diagnostic) => ({ ...one, path: boughtPath(one.path, document) });
  const conflicts = [
    ...document.notes.filter(isError),
    ...[
      ...issues,
      ...nominal.issues,
      ...stability.filter((one) => !isNote(one)),
      ...omittedFindings(axles, [...issues, ...nominal.issues, ...stability]),
      ...axles.flatMap((sized) => findingsOn(sized, ofAxle(inputs, sized.axle))),
      ...axles.flatMap(({ axle, loadStates }) => loadStateDiagnostics(axle, loadStates)),
      ...axles.flatMap(notCured),
    ].map(inDocument),
  ];
  return {
    ...(document.name === undefined ? {} : { name: document.name }),
    units: document.units,
    status: orderStatus(conflicts, axles),
    ...(document.sizing.use === undefined ? {} : { use: document.sizing.use }),
    order: document.sizing.order ?? null,
    designState,
    aboard: loadNames(masses),
    axles,
    figures: figuresOf<CarFigureName>('car', CAR_WIDE_FIGURES),
    conflicts,
    assumptions: assumptionsOf(inputs, axles),
    checks: [
      ...document.notes.filter((one) => !isError(one)),
      ...axles.flatMap(({ axle, input: { corner } }) =>
        (corner.checks ?? []).map((check) => ({ ...check, path: `corners.${axle}` })),
      ),
      ...stability.filter(isNote).map(inDocument),
    ],
    openQuestions: openQuestionsOf(written, axles),
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

/** Why there is no spring rate by the hand method. */
function noRate(code: string): Diagnostic {
  return { code, severity: 'note', path: '', values: {} };
}

/** Speeds that are looked at where none are named: this many up to the top speed. */
const SPEED_ROWS = 5;

function speedRowsOf({ car }: CarInputs, { states }: CarNumbers, axle: Axle): SpeedRow[] {
  const { downforce } = car;
  if (downforce === undefined) return [];
  const speeds =
    downforce.speedsToCheck ??
    Array.from({ length: SPEED_ROWS }, (_, k) => (downforce.speed * (k + 1)) / SPEED_ROWS);
  return speeds.map((speed) => speedRow(ofAxle(states, axle), downforce, axle, speed));
}

function forcesIn(
  { corner, limits }: DocumentCorner,
  { mass, coilover, spring, rest, given }: CarNumbers['states']['front'],
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
  return forcesOf(setUp(corner, options, { found, coilover, restingAt: rest?.travel ?? null }), options);
}
