import { handMethod } from '../../corner/hand-method.ts';
import type { Limits } from '../../corner/limits/limits.ts';
import { bearingUses } from '../../corner/limits/misalignment.ts';
import type { CarDocument, DocumentCorner } from '../../corner/read-corner.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { Note } from '../../document/note.ts';
import { InputError, type Issue } from '../../errors.ts';
import { worded } from '../../sentences/worded.ts';
import type { Units } from '../../units.ts';
import { type CornerForces, forcesOf } from '../forces/corner-forces.ts';
import { setUp } from '../forces/standing.ts';
import { adviceOn } from '../ordered/advice.ts';
import { afterOrder } from '../ordered/after-order.ts';
import { boughtPath } from '../ordered/as-bought.ts';
import { carOf } from './car.ts';
import { nextRates } from './choose-spring.ts';
import { cornerChecks } from './corner-checks.ts';
import { wheelCurves } from './curves.ts';
import type { DamperLengths } from './damper.ts';
import { boughtTable, dampingTable } from './damping.ts';
import { type AtSpeed, atSpeed } from './downforce.ts';
import type { FigureInfos } from './figure.ts';
import { findingsOn, omittedFindings } from './findings.ts';
import { doubtsOf } from './how-sure.ts';
import { AXLES, type Axle, type CarInputs, ofAxle } from './inputs.ts';
import { designStateOf, loadStateDiagnostics, loadStatesOn } from './load-states.ts';
import {
  AXLE_FIGURES,
  type AxleFigureName,
  CAR_WIDE_FIGURES,
  type CarFigureName,
  type CarNumbers,
  carNumbers,
  figuresIn,
  type Owner,
  sureNumbers,
} from './numbers.ts';
import { orderStatus } from './order-status.ts';
import { perchRange } from './perch.ts';
import { rateTable } from './rate-table.ts';
import type { AxleSizing, Figure, Sizing } from './result.ts';
import { settleCar } from './settle.ts';
import { springFit } from './spring-fit.ts';
import { standingDiagnostics } from './stands.ts';
import { assumptionsOf, openPointsOf } from './words.ts';

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
  const doubts = doubtsOf(car, uncertain);
  const { settings, limits, choices } = settleCar(document, car, doubts);
  const nominal = carNumbers(car, settings);
  const sure = sureNumbers(nominal, doubts, (moved) => carNumbers(moved, settings));
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
    const wanted = state.wanted.springRate;
    const damper = ofAxle(settings, axle).damper;
    const { damping, bumpDamping, reboundDamping } = ofAxle(nominal.axles, axle).damping;
    const after = afterOrder({
      axle,
      state,
      choices: ofAxle(choices, axle),
      otherEnds: ofAxle(settings, axle).otherEnds,
      perches,
      needed: (at, side) => nominal.neededAt(axle, at, side),
    });
    return {
      axle,
      document: given,
      figures,
      figure: <Name extends AxleFigureName>(name: Name) => {
        const found = figures.find((figure): figure is Figure<Name> => figure.name === name);
        if (found !== undefined) return found;
        throw new InputError('figure', [
          { path: '', problem: 'unknown name', got: name, allowed: Object.keys(AXLE_FIGURES).join(', ') },
        ]);
      },
      spring: state.spring,
      springFit:
        state.spring === null ? null : springFit(state.spring.rate, sizing, state.carried, state.wanted),
      choices: ofAxle(choices, axle),
      nextRates: wanted === null ? null : nextRates(wanted, rateStep),
      handRate: handRateOf(given, state.wanted.wheelRate, state.mass?.sprung),
      rateTable: rateTable(state),
      damper: damper === null ? null : { ...damper, given: given.limits.damper !== undefined },
      needed: ofAxle(nominal.needed, axle),
      limits: ofAxle(limits, axle),
      bearings: bearingUses(ofAxle(car.models, axle), given.limits.ends, state.ends),
      perch: perchRange(state),
      dampingTable:
        bumpDamping === null || reboundDamping === null
          ? []
          : valving === undefined
            ? dampingTable(sizing.damping ?? {}, bumpDamping, reboundDamping)
            : boughtTable(valving, { compression: bumpDamping, rebound: reboundDamping }),
      speeds: speedsOf(inputs, nominal, axle),
      loadStates: loadStatesOn(axle, state, designState, nominal.loaded),
      afterOrder: after,
      advice: (after === null ? [] : adviceOn(axle, after, perches)).map((one) =>
        worded(one, document.units),
      ),
      curves: wheelCurves(state, damping),
      forces: forcesIn(given, state, ofAxle(limits, axle), damper, document.units),
    };
  });
  const standing = axles.flatMap(({ axle, needed }) =>
    standingDiagnostics(ofAxle(nominal.states, axle), needed, inputs.car, axle).map((one) => ({
      ...one,
      path: `corners.${axle}.${one.path}`,
    })),
  );
  const [fatal, notes] = [true, false].map((isFatal) =>
    document.notes.filter(({ severity }) => (severity === 'error') === isFatal),
  );
  const findings = [
    ...fatal.map(({ text, ...diagnostic }): Issue & Diagnostic => ({
      ...diagnostic,
      problem: text.replace(/\.$/, ''),
    })),
    ...[
      ...issues,
      ...nominal.issues,
      ...standing.filter(({ severity }) => severity !== 'note'),
      ...omittedFindings(axles, [...issues, ...nominal.issues, ...standing]),
      ...axles.flatMap((sized) => findingsOn(sized, ofAxle(inputs, sized.axle))),
      ...axles.flatMap(({ axle, loadStates }) => loadStateDiagnostics(axle, loadStates)),
      ...axles.flatMap(notCured),
    ].map((finding) => worded(finding, document.units)),
  ].map((issue) => ({ ...issue, path: boughtPath(issue.path, document) }));
  return {
    ...(document.name === undefined ? {} : { name: document.name }),
    units: document.units,
    status: orderStatus(findings, axles),
    ...(document.sizing.use === undefined ? {} : { use: document.sizing.use }),
    order: document.sizing.order ?? null,
    designState,
    axles,
    figures: figuresOf<CarFigureName>('car', CAR_WIDE_FIGURES),
    findings,
    assumptions: assumptionsOf(inputs, axles, document.units),
    notes: [
      ...notes,
      ...cornerChecks(document),
      ...standing
        .filter(({ severity }) => severity === 'note')
        .map((one) => noted({ ...one, path: boughtPath(one.path, document) }, document.units)),
    ],
    openPoints: openPointsOf(written, axles, document.units),
  };
}

/** What can't be cured after the order, and is not told of the whole axle already. */
function notCured({ advice, figure }: AxleSizing): Diagnostic[] {
  const isShort = (name: AxleFigureName) => (figure(name).value ?? 0) < 0;
  return advice.filter(({ severity, code, values }) => {
    if (severity !== 'conflict') return false;
    if (code === 'boughtTravelShort')
      return !isShort(values.direction === 'bump' ? 'bumpSpare' : 'droopSpare');
    return code !== 'boughtSpringTravelShort' || !isShort('bindMargin');
  });
}

/** A diagnostic worth knowing, as a note. */
function noted(diagnostic: Diagnostic, units: Units): Diagnostic & Note {
  const { problem, got, advice } = worded(diagnostic, units);
  return { ...diagnostic, text: [problem, got, advice].filter((part) => part !== undefined).join('; ') };
}

/** The spring that the hand method gives for a wheel rate. */
function handRateOf(
  { corner }: DocumentCorner,
  wheelRate: number | null,
  sprungMass: number | undefined,
): number | string {
  if (wheelRate === null || sprungMass === undefined) return 'no wheel rate is wanted';
  if (!(wheelRate > 0)) return 'the wheel rate is not positive';
  const hand = handMethod(corner, { travel: { bump: 0, droop: 0 } });
  return hand.defined ? wheelRate / hand.hand : hand.why;
}

/** Speeds that are looked at where none are named: this many up to the top speed. */
const SPEED_ROWS = 5;

function speedsOf({ car }: CarInputs, { states }: CarNumbers, axle: Axle): AtSpeed[] {
  const { downforce } = car;
  if (downforce === undefined) return [];
  const speeds =
    downforce.speeds ??
    Array.from({ length: SPEED_ROWS }, (_, k) => (downforce.speed * (k + 1)) / SPEED_ROWS);
  return speeds.map((speed) => atSpeed(ofAxle(states, axle), downforce, axle, speed));
}

function forcesIn(
  { corner, limits }: DocumentCorner,
  { mass, coilover, spring, given }: CarNumbers['states']['front'],
  found: Limits,
  damper: DamperLengths | null,
  units: Units,
): CornerForces | null {
  if (mass?.unsprung == null || coilover === null || spring === null) return null;
  const table = given.sizing.bumpStopForces;
  const options = {
    sprungMass: mass.sprung,
    unsprungMass: mass.unsprung,
    springRate: spring.rate,
    gasForce: coilover.gasForce,
    ...(table === undefined ? {} : { stopTable: table }),
    limits: { ...limits, ...(damper === null ? { bumpStop: undefined } : { damper }), units },
  };
  return forcesOf(setUp(corner, options, { found, coilover }), options);
}
