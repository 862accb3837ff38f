import { coordinatesOf } from '../../axle/axle-coordinates.ts';
import { barRollStiffness } from '../../axle/roll-stiffness.ts';
import { springsAcross } from '../../axle/springs-across.ts';
import { modelOf } from '../../corner/corner.ts';
import { moveHardpoints } from '../../corner/hardpoint-coordinates.ts';
import type { CornerModel } from '../../corner/model.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { type Diagnostic, fault, show } from '../../diagnostic.ts';
import type { Place } from '../../document/parse.ts';
import { refusal } from '../../errors/sizing.ts';
import { asBought, boughtPath } from '../ordered/as-bought.ts';
import { type ShockCurve, shockCurve } from '../wheel.ts';
import type { AxleInputs, CarInputs } from './inputs.ts';
import { inputsOf, isPlace, type UncertainInput } from './uncertain-inputs.ts';
import { usable } from './usable.ts';

/** An axle as it is reckoned with: what sizes its coilovers, its corner, and how the coilover goes with the wheel. */
export interface CarAxle extends AxleInputs {
  readonly model: CornerModel;
  readonly shock: ShockCurve;
}

/** A car as it is reckoned with. */
export interface Car extends CarInputs {
  readonly axles: readonly CarAxle[];
}

/** Travel that a corner is laid for to either side, mm, where the linkage goes so far. */
const REACH = 220;

/** A document made ready to be reckoned with: what of it can't be used is named and left out. */
export function carOf(given: CarDocument): {
  /** The document with what was bought in the place of what it replaces. */
  readonly document: CarDocument;
  readonly car: Car;
  readonly uncertain: readonly UncertainInput[];
  readonly issues: readonly Diagnostic[];
  /** Its inputs as they stand in the document. */
  readonly written: CarInputs;
} {
  if (given?.corners?.front?.corner === undefined || given.sizing === undefined) {
    throw refusal('car', [fault('notACar', '', { got: show(given) })]);
  }
  const document = asBought(given);
  const { inputs: written, uncertain: found } = inputsOf(document);
  const doubtful = found.map((input) => ({ ...input, name: boughtPath(input.name, document) }));
  const { inputs, uncertain, issues } = usable(written, doubtful);
  const axles = inputs.axles.map((axle): CarAxle => {
    const model = modelOf(axle.input.corner);
    return {
      ...axle,
      model,
      shock: shockCurve(model, REACH, REACH, springsAcross(model, axle.linkage, REACH)),
    };
  });
  return { document, car: { ...inputs, axles }, uncertain, issues, written };
}

/** An uncertain input, and by how much it is off. */
export interface Slip {
  readonly input: UncertainInput;
  readonly by: number;
}

/** A car with inputs that are off; an axle of which none is off stays the very same, and so does a corner of right coordinates. */
export function slipped(car: Car, slips: readonly Slip[]): Car {
  const numbers = slips.reduce(
    (all, { input: { at }, by }) => (isPlace(at) ? (added(all, at, by) as Car) : all),
    car,
  );
  const axles = numbers.axles.map((axle): CarAxle => {
    const by: Record<string, number> = {};
    for (const { input, by: off } of slips) {
      if (isPlace(input.at) || input.at.axle !== axle.axle) continue;
      for (const [name, width] of Object.entries(input.at.direction)) {
        by[name] = (by[name] ?? 0) + off * width;
      }
    }
    if (Object.keys(by).length === 0) return axle;
    const model = moveHardpoints(axle.model, by);
    const { droop, bump } = axle.shock;
    const across = springsAcross(model, axle.linkage, REACH);
    const drawnBarStiffness =
      axle.drawnBarStiffness === null ? null : barRollStiffness(coordinatesOf(axle.linkage).moved(by));
    return { ...axle, model, drawnBarStiffness, shock: shockCurve(model, -droop, bump, across) };
  });
  return { ...numbers, axles };
}

/** Data with something added to the number at a place. */
function added(data: unknown, [key, ...rest]: Place, by: number): unknown {
  if (key === undefined) return (data as number) + by;
  if (Array.isArray(data)) return data.map((item, k) => (k === key ? added(item, rest, by) : item));
  const record = data as Record<string, unknown>;
  return { ...record, [key]: added(record[String(key)], rest, by) };
}
