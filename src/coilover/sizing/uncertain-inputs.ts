import { axle as axleOf } from '../../axle/axle.ts';
import { barRollStiffness } from '../../axle/roll-stiffness.ts';
import { AXLES, type Axle } from '../../corner/axles.ts';
import { type DrawnCorner, modelOf } from '../../corner/corner.ts';
import { hardpointsOf } from '../../corner/hardpoint-coordinates.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { ownPlusMinus, spreadOf } from '../../corner/uncertainty.ts';
import type { OrderedFile } from '../../document/inputs.ts';
import { type Place, pathText } from '../../document/parse.ts';
import { certain } from '../../document/uncertain.ts';
import { isPerchMeasured } from '../ordered/as-bought.ts';
import { AS_ORDERED, type AsMade } from './as-made.ts';
import type { AxleInputs, CarInputs, CornerSizing } from './inputs.ts';
import { commonRateStep } from './listed-springs.ts';
import { usualShaftSpeeds } from './shaft-speeds.ts';

/** An uncertain number of a document, or a way in which the coordinates of one of its corners may be off. */
export interface UncertainInput {
  /** Where it stands: `masses.estimate.total`, `corners.front lowerInnerY`. */
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
  const axles = AXLES.flatMap((axle, k): AxleInputs[] => {
    const input = document.corners[axle];
    if (input === undefined) return [];
    const { sizing = {}, limits, sprungMass, corner, bar, thirdSpring, rollSpring, ordered } = input;
    const linkage = axleOf({ left: corner, bar, thirdSpring, rollSpring });
    for (const direction of errorsOf(corner)) {
      uncertain.push({
        name: `corners.${axle} ${directionName(direction)}`,
        plusMinus: 1,
        at: { axle, direction },
      });
    }
    const written = ['corners', axle, 'sizing'];
    const numbers: CornerSizing = certain(sizing, under(written, ['axles', k, 'sizing']));
    uncertain.push(...toleranceInputs([...written, 'order'], ['axles', k, 'made'], numbers.order, ordered));
    return [
      {
        axle,
        input,
        sizing: numbers,
        limits,
        sprungMass,
        linkage,
        drawnBarStiffness: bar === undefined ? null : barRollStiffness(linkage),
        ...(ordered === undefined ? {} : { ordered: certain(ordered) }),
        rateStep: numbers.rateStep ?? commonRateStep(document.units),
        shaftSpeeds: numbers.damping?.shaftSpeeds ?? usualShaftSpeeds(document.units),
        made: AS_ORDERED,
      },
    ];
  });
  return { inputs: { car, axles }, uncertain };
}

/** What the tolerance of lengths lets be off, each by itself. */
const LENGTHS = ['extendedLength', 'compressedLength', 'seat'] as const;

/** The tolerances of an order as uncertain inputs: they are half-widths like any other. What was bought is measured, and no longer subject to them. */
function toleranceInputs(
  written: Place,
  made: Place,
  order: AxleInputs['sizing']['order'],
  ordered: OrderedFile | undefined,
): UncertainInput[] {
  const { lengthTolerance, rateTolerance } = order ?? {};
  const tolerance = (name: string, plusMinus: number | undefined, what: keyof AsMade): UncertainInput[] =>
    plusMinus === undefined ? [] : [{ name: pathText([...written, name]), plusMinus, at: [...made, what] }];
  return [
    ...LENGTHS.filter((length) => !(length === 'seat' ? isPerchMeasured(ordered) : ordered?.damper)).flatMap(
      (length) => tolerance('lengthTolerance', lengthTolerance, length),
    ),
    ...(ordered?.spring === undefined ? tolerance('rateTolerance', rateTolerance, 'rate') : []),
  ];
}

/** Independent ways in which the coordinates of a corner may be off. */
function errorsOf(corner: DrawnCorner): readonly Readonly<Record<string, number>>[] {
  if (corner.plusMinus === undefined) return [];
  const names = hardpointsOf(modelOf(corner)).map(({ name }) => name);
  return spreadOf(ownPlusMinus(corner), undefined, names).directions.filter((direction) =>
    Object.values(direction).some((width) => width !== 0),
  );
}

/** A coordinate by its name; coordinates that are off together by the one that is so most. */
function directionName(direction: Readonly<Record<string, number>>): string {
  const names = Object.keys(direction).filter((name) => direction[name] !== 0);
  const most = names.reduce((a, b) => (Math.abs(direction[b]) > Math.abs(direction[a]) ? b : a));
  return names.length === 1 ? most : `hardpoints as surveyed, ${most} most`;
}

/** Whether an uncertain input is a number of `CarInputs`, and not a coordinate. */
export function isPlace(at: UncertainInput['at']): at is Place {
  return Array.isArray(at);
}
