import { modelOf } from '../../corner/corner.ts';
import { handMethod } from '../../corner/hand-method.ts';
import { type Limits, limitsOf } from '../../corner/limits/limits.ts';
import { checkOptions } from '../../corner/limits/options.ts';
import type { CarDocument, DocumentCorner } from '../../corner/read-corner.ts';
import { InputError, type Issue } from '../../errors.ts';
import { type CornerForces, forcesOf } from '../forces/corner-forces.ts';
import { setUp } from '../forces/standing.ts';
import { travelOf } from '../springs/stack.ts';
import { type ShockCurve, shockCurve } from '../wheel.ts';
import { chooseSpring, nextRates, RATE_STEP, type Spring, type SpringChoice } from './choose-spring.ts';
import { wheelCurves } from './curves.ts';
import { type DamperLengths, damperIssues, wantedDamper } from './damper.ts';
import { dampingTable } from './damping.ts';
import { inputsOf, inputsWith, shocksWith, type UncertainInput } from './doubts.ts';
import { type AtSpeed, atSpeed } from './downforce.ts';
import type { FigureInfo } from './figure.ts';
import { howSure, type Sure } from './how-sure.ts';
import { AXLES, type Axle, type AxleInputs, type CarInputs } from './inputs.ts';
import {
  AXLE_FIGURES,
  type AxleSettings,
  CAR_WIDE_FIGURES,
  type CarNumbers,
  carAtWork,
  carNumbers,
  eachAxle,
  ofAxle,
  type PerAxle,
} from './numbers.ts';
import { perchRange } from './perch.ts';
import { rateTable } from './rate-table.ts';
import type { AxleSizing, Figure, Sizing } from './result.ts';
import type { TravelNeeded } from './travel-needed.ts';
import { usable } from './usable.ts';
import { assumptionsOf, openPointsOf } from './words.ts';

/** Travel that a corner is laid for to either side, mm, where the linkage goes so far. */
export const REACH = 220;

/**
 * Sizes the coilovers of a car from its document (`readCar`): springs, damper lengths, damping, what is needed and what there is,
 * each figure with how sure it is and what makes it so.
 *
 * What can't be is a finding with its numbers; all that does not hang on it is still reckoned.
 *
 * @throws InputError for limits that can't be, as `limits`.
 */
export function sizeCoilovers(document: CarDocument): Sizing {
  const written = inputsOf(document);
  const { inputs, uncertain, issues } = usable(written.inputs, written.uncertain);
  const shocks = eachAxle(inputs, (axle) =>
    shockCurve(modelOf(ofAxle(document.corners, axle).corner), REACH, REACH),
  );
  const { settings, limits, choices } = settleCar(document, inputs, shocks, uncertain);
  const nominal = carNumbers(inputs, shocks, settings);
  const sure = sureOf(document, inputs, shocks, uncertain, (...car) => flat(carNumbers(...car, settings)));
  const axles = AXLES.filter((axle) => document.corners[axle] !== undefined).map((axle): AxleSizing => {
    const given = ofAxle(document.corners, axle);
    const state = ofAxle(nominal.states, axle);
    const numbers = ofAxle(nominal.axles, axle);
    const figures = figuresOf(AXLE_FIGURES, sure, axle);
    const { sizing } = ofAxle(inputs, axle);
    const wanted = state.wanted.springRate;
    const damper = ofAxle(settings, axle).damper;
    const { bumpDamping, reboundDamping } = numbers;
    return {
      axle,
      document: given,
      figures,
      figure: (name) => {
        const found = figures.find((figure) => figure.name === name);
        if (found !== undefined) return found;
        throw new InputError('figure', [
          { path: '', problem: 'unknown name', got: name, allowed: Object.keys(AXLE_FIGURES).join(', ') },
        ]);
      },
      spring: state.spring,
      choices: ofAxle(choices, axle),
      nextRates: wanted === null ? null : nextRates(wanted, sizing.rateStep ?? RATE_STEP),
      handRate: handRateOf(given, state.wanted.wheelRate, state.mass?.sprung),
      rateTable: rateTable(state),
      damper: damper === null ? null : { ...damper, given: given.limits.damper !== undefined },
      needed: ofAxle(nominal.needed, axle),
      limits: ofAxle(limits, axle),
      perch: perchRange(state),
      dampingTable:
        sizing.damping === undefined || bumpDamping === null || reboundDamping === null
          ? []
          : dampingTable(sizing.damping, bumpDamping, reboundDamping),
      speeds: speedsOf(inputs, nominal, axle),
      curves: wheelCurves(state, numbers.damping),
      forces: forcesIn(given, state, ofAxle(limits, axle), damper),
    };
  });
  return {
    ...(document.name === undefined ? {} : { name: document.name }),
    units: document.units,
    ...(document.sizing.use === undefined ? {} : { use: document.sizing.use }),
    axles,
    figures: figuresOf(CAR_WIDE_FIGURES, sure, 'car'),
    findings: [
      ...issues,
      ...nominal.issues,
      ...axles.flatMap((sized) => findingsOn(sized, ofAxle(inputs, sized.axle))),
    ],
    assumptions: assumptionsOf(inputs, axles),
    openPoints: openPointsOf(written.inputs, axles),
  };
}

interface Settled {
  readonly settings: PerAxle<AxleSettings>;
  readonly limits: PerAxle<Limits>;
  readonly choices: PerAxle<readonly SpringChoice[]>;
}

/**
 * Settles the coilovers of a car: the springs that can be had, dampers for the travel that is then needed, with what is unsure of it as
 * a margin where they are not given, and the ends of the travel.
 */
export function settleCar(
  document: CarDocument,
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  uncertain: readonly UncertainInput[],
): Settled {
  const first = settleSprings(inputs, shocks, NO_SLACK);
  const slack = slackOf(document, inputs, shocks, first.settings, uncertain);
  const { settings: sprung, choices } = slack === NO_SLACK ? first : settleSprings(inputs, shocks, slack);
  const { needed } = carAtWork(inputs, shocks, sprung);
  const damped = eachAxle(inputs, (axle) => ({
    ...ofAxle(sprung, axle),
    damper: damperFor(ofAxle(inputs, axle), ofAxle(shocks, axle), ofAxle(needed, axle), ofAxle(slack, axle)),
  }));
  const { states } = carAtWork(inputs, shocks, damped);
  const limits = eachAxle(inputs, (axle) => {
    const { coilover, stack } = ofAxle(states, axle);
    const travel = stack === null ? Number.POSITIVE_INFINITY : travelOf(stack);
    const spring =
      coilover === null || !Number.isFinite(travel) ? {} : { springAtLeast: coilover.loose - travel };
    return limitsWith(document, axle, { damper: ofAxle(damped, axle).damper, ...spring });
  });
  const settings = eachAxle(inputs, (axle): AxleSettings => {
    const { bump, droop, behind } = ofAxle(limits, axle);
    const shock = ofAxle(shocks, axle);
    const bumps = [bump, ...behind].filter((limit) => limit?.side === 'bump');
    const within = (travel: number | undefined, end: number) =>
      Math.min(shock.bump, Math.max(shock.droop, travel ?? end));
    return {
      ...ofAxle(damped, axle),
      ends: { bump: within(bump?.travel, shock.bump), droop: within(droop?.travel, shock.droop) },
      springEnd: bumps.find((limit) => limit?.cause !== 'springAtLeast')?.travel ?? null,
    };
  });
  return { settings, limits, choices };
}

/** Settles the springs: by the rates that are wanted with the dampers that are given, or those for the travel needed. */
function settleSprings(
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  slack: PerAxle<Slack>,
): Pick<Settled, 'settings' | 'choices'> {
  const open: AxleSettings = { spring: null, damper: null, ends: null, springEnd: null };
  const bare = eachAxle(inputs, (axle) => ({ ...open, damper: ofAxle(inputs, axle).limits.damper ?? null }));
  const { states, needed } = carAtWork(inputs, shocks, bare);
  const choices = eachAxle(inputs, (axle): readonly SpringChoice[] => {
    const given = ofAxle(inputs, axle);
    const { carried, wanted } = ofAxle(states, axle);
    if (carried === null || wanted.springRate === null) return [];
    const damper = damperFor(given, ofAxle(shocks, axle), ofAxle(needed, axle), ofAxle(slack, axle));
    const shortest = damper.closed + (given.limits.bumpStop?.solidHeight ?? 0);
    return chooseSpring(given.sizing, wanted.springRate, carried, shortest);
  });
  const settings = eachAxle(inputs, (axle) => ({
    ...ofAxle(bare, axle),
    spring: fitted(ofAxle(inputs, axle), ofAxle(states, axle).wanted.springRate, ofAxle(choices, axle)),
  }));
  return { settings, choices };
}

/** By how much the travel that is needed may be more than reckoned, mm. */
interface Slack {
  readonly bump: number;
  readonly droop: number;
}

const NO_SLACK: PerAxle<Slack> = { front: { bump: 0, droop: 0 }, rear: { bump: 0, droop: 0 } };

/** How unsure the travel is that dampers follow from: what can't be changed after the order gets it as a margin. */
function slackOf(
  document: CarDocument,
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  settings: PerAxle<AxleSettings>,
  uncertain: readonly UncertainInput[],
): PerAxle<Slack> {
  const given = AXLES.every((axle) => inputs[axle] === undefined || inputs[axle].limits.damper !== undefined);
  if (given || uncertain.length === 0) return NO_SLACK;
  const sure = sureOf(document, inputs, shocks, uncertain, (...car): Record<string, number> => {
    const { needed } = carAtWork(...car, settings);
    const entries = AXLES.flatMap((axle) => {
      const { bump, droop } = needed[axle] ?? { bump: 0, droop: 0 };
      return [
        [`${axle}.bump`, bump],
        [`${axle}.droop`, -droop],
      ];
    });
    return Object.fromEntries(entries);
  });
  const more = (name: string) => Math.max(0, (sure[name].high ?? 0) - (sure[name].value ?? 0));
  return eachAxle(inputs, (axle) => ({ bump: more(`${axle}.bump`), droop: more(`${axle}.droop`) }));
}

/** The damper that was given, or the one for the travel that is needed with its slack, in whole mm outward. */
function damperFor(given: AxleInputs, shock: ShockCurve, needed: TravelNeeded, slack: Slack): DamperLengths {
  const { damper } = given.limits;
  if (damper !== undefined) return damper;
  const { open, closed } = wantedDamper(given, shock, {
    bump: needed.bump + slack.bump,
    droop: needed.droop - slack.droop,
  });
  return { open: Math.ceil(open), closed: Math.floor(closed) };
}

function fitted(
  { sizing }: AxleInputs,
  wanted: number | null,
  choices: readonly SpringChoice[],
): Spring | null {
  if (wanted === null) return null;
  if (choices.length > 0) return choices[0].spring;
  // A rate that was asked for is taken as it is.
  const step = sizing.rateStep ?? RATE_STEP;
  const rate =
    sizing.target?.springRate === undefined ? Math.max(step, Math.round(wanted / step) * step) : wanted;
  return { name: '', rate, free: null, least: null, innerDiameter: null };
}

function limitsWith(
  document: CarDocument,
  axle: Axle,
  { damper, springAtLeast }: { damper: DamperLengths | null; springAtLeast?: number },
): Limits {
  const { corner, limits } = ofAxle(document.corners, axle);
  const model = modelOf(corner);
  const options = {
    ...limits,
    ...(damper === null ? {} : { damper }),
    ...(springAtLeast === undefined || springAtLeast <= 0 ? {} : { springAtLeast }),
    units: document.units,
  };
  return limitsOf(model, checkOptions(options, model));
}

/** Figures of a car with their intervals. */
function sureOf(
  document: CarDocument,
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  uncertain: readonly UncertainInput[],
  figuresOf: (inputs: CarInputs, shocks: PerAxle<ShockCurve>) => Readonly<Record<string, number | null>>,
): Readonly<Record<string, Sure>> {
  return howSure(
    figuresOf(inputs, shocks),
    uncertain.map((input) => ({
      input: input.name,
      plusMinus: input.plusMinus,
      figures: (share) => {
        const errors = [{ input, by: share * input.plusMinus }];
        return figuresOf(inputsWith(inputs, errors), shocksWith(document.corners, shocks, errors));
      },
    })),
  );
}

/** All figures by one name each. */
export function flat({ axles, car }: CarNumbers): Record<string, number | null> {
  const all: Record<string, number | null> = {};
  for (const [owner, numbers] of Object.entries({ car, ...axles })) {
    for (const [name, value] of Object.entries(numbers)) all[`${owner}.${name}`] = value;
  }
  return all;
}

function figuresOf(
  infos: Readonly<Record<string, FigureInfo>>,
  sure: Readonly<Record<string, Sure>>,
  owner: string,
): Figure[] {
  return Object.entries(infos).map(([name, info]) => ({ name, ...info, ...sure[`${owner}.${name}`] }));
}

/** The spring that the hand method gives for a wheel rate. */
function handRateOf(
  { corner }: DocumentCorner,
  wheelRate: number | null,
  sprungMass: number | undefined,
): number | string {
  if (wheelRate === null || sprungMass === undefined) return 'no wheel rate is wanted';
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
): CornerForces | null {
  if (mass === null || coilover === null || spring === null) return null;
  const table = given.sizing.bumpStopForces;
  const options = {
    sprungMass: mass.sprung,
    unsprungMass: mass.unsprung,
    springRate: spring.rate,
    gasForce: coilover.gasForce,
    ...(table === undefined ? {} : { stopTable: table }),
    limits: { ...limits, ...(damper === null ? {} : { damper }) },
  };
  return forcesOf(setUp(corner, options, { found, coilover }), options);
}

/** What of an axle can't be. */
function findingsOn({ axle, limits, damper, figure }: AxleSizing, { sizing }: AxleInputs): Issue[] {
  const at = (issue: Issue): Issue => ({ ...issue, path: `corners.${axle}.${issue.path}` });
  const installed = figure('installedLength').value ?? 0;
  const issues: Issue[] = damper === null ? [] : damperIssues(damper, installed, sizing.deadLength).map(at);
  const needs = figure('springTravelNeeded').value;
  const margin = figure('bindMargin').value;
  if (margin !== null && needs !== null && margin < 0) {
    const where =
      limits.bump?.cause === 'springAtLeast' ? `at ${limits.bump.travel.toFixed(1)} mm of bump` : 'there';
    issues.push(
      at({
        path: 'sizing.springs',
        problem: 'the coils bind before the bump limit',
        got: `${needs.toFixed(1)} mm of spring travel needed, ${(needs + margin).toFixed(1)} mm there is: least length ${where}`,
        allowed: `a spring with ${needs.toFixed(1)} mm or more from free to least length`,
        advice: 'take a longer spring, or a stop that ends the travel before',
      }),
    );
  }
  return issues;
}
