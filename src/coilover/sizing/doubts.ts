import { type Corner, modelOf } from '../../corner/corner.ts';
import { moveHardpoints } from '../../corner/hardpoint-coordinates.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { type Place, pathText } from '../../document/parse.ts';
import { certain } from '../../document/uncertain.ts';
import { type ShockCurve, shockCurve } from '../wheel.ts';
import type { Doubt } from './how-sure.ts';
import type { Axle, CarInputs } from './inputs.ts';
import { eachAxle, ofAxle, type PerAxle } from './numbers.ts';

/** An uncertain number of a document, or an uncertain coordinate of one of its corners. */
export interface UncertainInput {
  /** Where it stands: `masses.guess.total`, `corners.front lowerInnerY`. */
  readonly name: string;
  readonly plusMinus: number;
  /** Its place in `CarInputs`; or whose coordinate it is. */
  readonly at: Place | { readonly axle: Axle; readonly coordinate: string };
}

/** A document as numbers, and what of it is uncertain. */
export function inputsOf(document: CarDocument): { inputs: CarInputs; uncertain: UncertainInput[] } {
  const uncertain: UncertainInput[] = [];
  const under = (written: Place, at: Place) => (place: Place, plusMinus: number) => {
    if (plusMinus > 0) {
      uncertain.push({ name: pathText([...written, ...place]), plusMinus, at: [...at, ...place] });
    }
  };
  const car = certain(document.sizing, under([], ['car']));
  const axles = eachAxle(document.corners, (axle) => {
    const { sizing, limits, sprungMass, corner } = ofAxle(document.corners, axle);
    for (const [coordinate, plusMinus] of Object.entries(corner.plusMinus ?? {})) {
      if (plusMinus > 0) {
        uncertain.push({ name: `corners.${axle} ${coordinate}`, plusMinus, at: { axle, coordinate } });
      }
    }
    const numbers = certain(sizing ?? NOTHING, under(['corners', axle, 'sizing'], [axle, 'sizing']));
    return { sizing: numbers, limits, sprungMass };
  });
  return { inputs: { car, ...axles }, uncertain };
}

/** Of a corner without sizing: nothing but its motion and limits can be told. */
const NOTHING = { unsprungMass: 0 };

/** By how much an uncertain input is off. */
export interface Error {
  readonly input: UncertainInput;
  readonly by: number;
}

/** The inputs with errors; coordinates apart. */
export function inputsWith(inputs: CarInputs, errors: readonly Error[]): CarInputs {
  return errors.reduce<CarInputs>(
    (all, { input: { at }, by }) => (isPlace(at) ? (added(all, at, by) as CarInputs) : all),
    inputs,
  );
}

/** The shocks of corners whose coordinates have errors, laid as far as the ones without; those without errors as they are. */
export function shocksWith(
  corners: PerAxle<{ readonly corner: Corner }>,
  shocks: PerAxle<ShockCurve>,
  errors: readonly Error[],
): PerAxle<ShockCurve> {
  return eachAxle(corners, (axle) => {
    const by: Record<string, number> = {};
    for (const { input, by: off } of errors) {
      if (!isPlace(input.at) && input.at.axle === axle) by[input.at.coordinate] = off;
    }
    const shock = ofAxle(shocks, axle);
    if (Object.keys(by).length === 0) return shock;
    const { corner } = ofAxle(corners, axle);
    return shockCurve(moveHardpoints(modelOf(corner), by), -shock.droop, shock.bump);
  });
}

function isPlace(at: UncertainInput['at']): at is Place {
  return Array.isArray(at);
}

/** Data with something added to the number at a place. */
function added(data: unknown, [key, ...rest]: Place, by: number): unknown {
  if (key === undefined) return (data as number) + by;
  if (Array.isArray(data)) return data.map((item, k) => (k === key ? added(item, rest, by) : item));
  const record = data as Record<string, unknown>;
  return { ...record, [key]: added(record[String(key)], rest, by) };
}

/** Each uncertain input with what a function makes of a car in which it is off. */
export function doubtsOf(
  document: CarDocument,
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  uncertain: readonly UncertainInput[],
  figuresOf: (inputs: CarInputs, shocks: PerAxle<ShockCurve>) => ReturnType<Doubt['figures']>,
): Doubt[] {
  return uncertain.map((input) => ({
    input: input.name,
    figures: (share) => {
      const errors = [{ input, by: share * input.plusMinus }];
      return figuresOf(inputsWith(inputs, errors), shocksWith(document.corners, shocks, errors));
    },
  }));
}
