import { type Corner, type DrawnCorner, modelOf } from '../../corner/corner.ts';
import { hardpointsOf, moveHardpoints } from '../../corner/hardpoint-coordinates.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { spreadOf } from '../../corner/uncertainty.ts';
import { type Place, pathText } from '../../document/parse.ts';
import { certain } from '../../document/uncertain.ts';
import { type ShockCurve, shockCurve } from '../wheel.ts';
import type { Doubt } from './how-sure.ts';
import type { Axle, CarInputs } from './inputs.ts';
import { eachAxle, ofAxle, type PerAxle } from './numbers.ts';

/** An uncertain number of a document, or a way in which the coordinates of one of its corners may be off. */
export interface UncertainInput {
  /** Where it stands: `masses.guess.total`, `corners.front lowerInnerY`. */
  readonly name: string;
  readonly plusMinus: number;
  /** Its place in `CarInputs`; or whose coordinates are off together, each by its half-width. */
  readonly at: Place | { readonly axle: Axle; readonly direction: Readonly<Record<string, number>> };
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
    for (const direction of errorsOf(corner)) {
      uncertain.push({
        name: `corners.${axle} ${directionName(direction)}`,
        plusMinus: 1,
        at: { axle, direction },
      });
    }
    const numbers = certain(sizing ?? NOTHING, under(['corners', axle, 'sizing'], [axle, 'sizing']));
    return { sizing: numbers, limits, sprungMass };
  });
  return { inputs: { car, ...axles }, uncertain };
}

/** Independent ways in which the coordinates of a corner may be off. */
function errorsOf(corner: DrawnCorner): readonly Readonly<Record<string, number>>[] {
  if (corner.plusMinus === undefined) return [];
  const names = hardpointsOf(modelOf(corner)).map(({ name }) => name);
  return spreadOf(corner, undefined, names).directions.filter((direction) =>
    Object.values(direction).some((width) => width !== 0),
  );
}

/** A coordinate by its name; coordinates that are off together by the one that is so most. */
function directionName(direction: Readonly<Record<string, number>>): string {
  const names = Object.keys(direction).filter((name) => direction[name] !== 0);
  const most = names.reduce((a, b) => (Math.abs(direction[b]) > Math.abs(direction[a]) ? b : a));
  return names.length === 1 ? most : `hardpoints as surveyed, ${most} most`;
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
      if (isPlace(input.at) || input.at.axle !== axle) continue;
      for (const [name, width] of Object.entries(input.at.direction))
        by[name] = (by[name] ?? 0) + off * width;
    }
    const shock = ofAxle(shocks, axle);
    if (Object.keys(by).length === 0) return shock;
    const { corner } = ofAxle(corners, axle);
    return shockCurve(moveHardpoints(modelOf(corner), by), -shock.droop, shock.bump);
  });
}

/** Whether an uncertain input is a number of `CarInputs`, and not a coordinate. */
export function isPlace(at: UncertainInput['at']): at is Place {
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
