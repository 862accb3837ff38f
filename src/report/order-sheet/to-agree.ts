// What an order leaves to be agreed, and who decides it.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { strutOf } from '../../corner/corner.ts';
import { endNames } from './unit-drawing.ts';

/** Something that is not settled; without an `essential` one the unit cannot be made. */
export interface ToAgree {
  readonly what: string;
  readonly who: 'builder' | 'maker' | 'spring maker';
  readonly essential: boolean;
}

/** What an order says where something is not settled. */
export const TO_AGREE = 'to be agreed';

/** All that is not settled on an axle, what is essential first. */
export function toAgree(sized: AxleSizing): ToAgree[] {
  const { damper, spring, input, dampingTable } = sized;
  const { order = {}, bumpStopTable, perch, gas } = input.sizing ?? {};
  const { bumpStop } = input.limits;
  const [chassis, moving] = endNames(sized);
  const found: (ToAgree | null)[] = [];
  const ask = (isAsked: boolean, who: ToAgree['who'], what: string, essential = false) =>
    found.push(isAsked ? { what, who, essential } : null);
  ask(damper === null, 'builder', 'extended and compressed length', true);
  ask(order.mounts?.mount === undefined, 'builder', `type, bore and width of the ${moving}`, true);
  ask(order.mounts?.chassis === undefined, 'builder', `type, bore and width of the ${chassis}`, true);
  ask(spring === null, 'builder', 'spring', true);
  ask(
    spring !== null && spring.freeLength === null,
    'spring maker',
    `free${spring?.innerDiameter === null ? ' length, inner diameter' : ''} and minimum permissible length of the spring`,
    true,
  );
  ask(order.handed === undefined, 'builder', 'left and right alike, or handed');
  ask(order.bodyEnd === undefined && strutOf(input.corner) === null, 'builder', 'body up or down', true);
  ask(input.limits.bearings === undefined, 'builder', 'bolt axes and misalignment of the ends');
  ask(
    [order.mounts?.mount, order.mounts?.chassis].some(
      (end) => end?.type === 'stud' && end.referenceFace === undefined,
    ),
    'builder',
    'face of the stud that lengths are taken to',
  );
  ask(order.maxSpringOuterDiameter === undefined, 'builder', 'maximum outer diameter of the spring');
  ask(bumpStop === undefined, 'builder', 'bump stop');
  ask(dampingTable.length === 0, 'builder', 'valving');
  ask(damper !== null && !damper.specified, 'maker', 'whether this stroke fits this compressed length');
  ask(order.lengthTolerance === undefined, 'maker', 'tolerance of lengths');
  ask(order.rateTolerance === undefined && spring !== null, 'maker', 'tolerance of the spring rate');
  ask(order.bodyDiameter === undefined, 'maker', 'body diameter');
  ask(perch?.min === undefined || perch.max === undefined, 'maker', 'range of the perch');
  ask(perch?.threadPitch === undefined, 'maker', 'thread pitch of the perch');
  ask(order.lengthAdjustment === undefined, 'maker', 'length adjustment');
  ask(order.adjusters === undefined, 'maker', 'adjusters');
  ask(order.reservoir === undefined, 'maker', 'reservoir');
  ask(gas === undefined, 'maker', 'gas force and shaft diameter');
  ask(bumpStop !== undefined && bumpStopTable === undefined, 'maker', 'force table of the bump stop');
  ask(bumpStop !== undefined && order.bumpStopSupplier === undefined, 'maker', 'who supplies the bump stop');
  ask(
    spring?.minLengthSource === 'estimated' || spring?.minLengthSource === 'assumed',
    'spring maker',
    'minimum permissible length of the spring',
  );
  return found.filter((one) => one !== null).sort((a, b) => Number(b.essential) - Number(a.essential));
}

/** The same in a line for each who decides. */
export function agreeLines(items: readonly ToAgree[]): [who: string, what: string][] {
  return (['builder', 'maker', 'spring maker'] as const).flatMap((who): [string, string][] => {
    const his = items.filter((item) => item.who === who);
    if (his.length === 0) return [];
    return [[who, his.map(({ what, essential }) => (essential ? `* ${what}` : what)).join('; ')]];
  });
}
