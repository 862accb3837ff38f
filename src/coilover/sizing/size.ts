import { modelOf } from '../../corner/corner.ts';
import { handMethod } from '../../corner/hand-method.ts';
import type { Limits } from '../../corner/limits/limits.ts';
import type { CarDocument, DocumentCorner } from '../../corner/read-corner.ts';
import { InputError } from '../../errors.ts';
import { type CornerForces, forcesOf } from '../forces/corner-forces.ts';
import { setUp } from '../forces/standing.ts';
import { shockCurve } from '../wheel.ts';
import { nextRates, RATE_STEP } from './choose-spring.ts';
import { wheelCurves } from './curves.ts';
import type { DamperLengths } from './damper.ts';
import { dampingTable } from './damping.ts';
import { doubtsOf, inputsOf } from './doubts.ts';
import { type AtSpeed, atSpeed } from './downforce.ts';
import type { FigureInfo } from './figure.ts';
import { findingsOn } from './findings.ts';
import { howSure, type Sure } from './how-sure.ts';
import { AXLES, type Axle, type CarInputs } from './inputs.ts';
import { AXLE_FIGURES, CAR_WIDE_FIGURES, type CarNumbers, carNumbers, eachAxle, ofAxle } from './numbers.ts';
import { perchRange } from './perch.ts';
import { rateTable } from './rate-table.ts';
import type { AxleSizing, Figure, Sizing } from './result.ts';
import { settleCar } from './settle.ts';
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
  const sure = howSure(
    flat(nominal),
    doubtsOf(document, inputs, shocks, uncertain, (moved, along) => flat(carNumbers(moved, along, settings))),
  );
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
      ...axles.flatMap((sized) => findingsOn(sized, ofAxle(inputs, sized.axle), document.units)),
    ],
    assumptions: assumptionsOf(inputs, axles),
    notes: document.notes,
    openPoints: openPointsOf(written.inputs, axles),
  };
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
    limits: { ...limits, ...(damper === null ? { bumpStop: undefined } : { damper }) },
  };
  return forcesOf(setUp(corner, options, { found, coilover }), options);
}
