// What an order leaves to be agreed: what it is, who decides it, and whether it decides what is made.

import { strutOf } from '../../corner/corner.ts';
import type { DocumentCorner } from '../../corner/read-corner.ts';
import type { DamperLengths } from './damper.ts';
import { type DampingRow, isSplitAssumed, kneeOf } from './damping.ts';
import type { CornerSizing } from './inputs.ts';
import type { Spring } from './listed-springs.ts';

/** An end of a coilover: the one that moves, and the one on the chassis. */
export type End = 'mount' | 'chassis';
export const ENDS: readonly End[] = ['mount', 'chassis'];

/** How an end is held: by a bolt through it, by a nut on its thread, or by an upright that clamps it or that it is welded to. */
export type Hold = 'bolt' | 'nut' | 'upright';

/** What can be left to be agreed. */
export type UnsettledItem =
  | 'lengths'
  | 'end'
  | 'bore'
  | 'width'
  | 'spacers'
  | 'boltAxis'
  | 'thread'
  | 'threadPitch'
  | 'fixing'
  | 'referenceFace'
  | 'clampDiameter'
  | 'topBearing'
  | 'spring'
  | 'freeLength'
  | 'innerDiameter'
  | 'solidLength'
  | 'minLength'
  | 'quantity'
  | 'handed'
  | 'bodyEnd'
  | 'maxSpringOuterDiameter'
  | 'bumpStop'
  | 'valving'
  | 'highSpeedForces'
  | 'compressionFraction'
  | 'strokeFits'
  | 'lengthTolerance'
  | 'rateTolerance'
  | 'forceTolerance'
  | 'bodyDiameter'
  | 'perchRange'
  | 'perchPitch'
  | 'lengthAdjustment'
  | 'adjusters'
  | 'adjusterSetting'
  | 'reservoir'
  | 'gasForce'
  | 'shaftDiameter'
  | 'bumpStopTable'
  | 'bumpStopSolidForce'
  | 'springSupplier'
  | 'bumpStopSupplier';

/** Who decides what is not settled: the builder of the car, the maker of the damper, or that of the spring. */
export type Decider = 'builder' | 'builder and maker' | 'maker' | 'spring maker';

/** Something that is not settled; what is `essential` decides what is made, the rest can be agreed until delivery. */
export interface Unsettled {
  readonly item: UnsettledItem;
  /** Of which end, where it is of one. */
  readonly end?: End;
  readonly who: Decider;
  readonly essential: boolean;
}

/** What of an axle says what is settled. */
export interface Settled {
  readonly spring: Spring | null;
  readonly damper: (DamperLengths & { readonly specified: boolean }) | null;
  readonly input: DocumentCorner;
  readonly dampingTable: readonly DampingRow[];
}

/** How an end is held, as given; as it usually is where nothing is given. */
export function holdOf({ corner, sizing }: Settled['input'], end: End): Hold {
  switch (sizing?.order?.mounts?.[end]?.type) {
    case undefined:
      if (strutOf(corner) === null) return 'bolt';
      return end === 'mount' ? 'upright' : 'nut';
    case 'stud':
      return 'nut';
    case 'clamp':
    case 'weldOn':
      return 'upright';
    default:
      return 'bolt';
  }
}

/** The bearing of an end, where it is given. */
export function bearingOf({ limits: { bearings } }: Settled['input'], end: End) {
  return end === 'mount' ? bearings?.mount : (bearings?.chassis ?? bearings?.otherEnd);
}

/** Whether a damper has adjusters, as far as is known. */
export function isAdjustable({ adjusters }: NonNullable<CornerSizing['order']>): boolean {
  return adjusters !== undefined && !/^none\b/i.test(adjusters.trim());
}

/** Whether the coilover of an axle has been bought. */
export function isBought({ ordered }: Settled['input']): boolean {
  return ordered?.damper !== undefined;
}

/** Whether no gas force is given, or one that no shaft and pressure stand behind: it is an assumption of whoever wrote the file. */
export function isGasAssumed({ sizing }: Settled['input']): boolean {
  return sizing?.gas?.shaftDiameter === undefined || sizing.gas.pressure === undefined;
}

/** Whether the force table of a bump stop ends before the stop is solid. */
export function isTableShort({ limits: { bumpStop }, sizing }: Settled['input']): boolean {
  const last = sizing?.bumpStopTable?.at(-1);
  if (bumpStop === undefined || last === undefined) return false;
  return last[0] < (bumpStop.height - bumpStop.solidHeight) * (1 - ROUNDING);
}

/** Share of a length that the conversion of its unit may make. */
const ROUNDING = 1e-9;

/** All that is not settled on an axle, what is essential first. */
export function unsettledOn({ damper, spring, input, dampingTable }: Settled): Unsettled[] {
  const { order = {}, bumpStopTable, perch, gas, deadLength } = input.sizing ?? {};
  const { bumpStop } = input.limits;
  const found: Unsettled[] = [];
  const ask =
    (who: Unsettled['who'], essential: boolean, end?: End) => (isAsked: boolean, item: UnsettledItem) => {
      if (isAsked) found.push({ item, ...(end === undefined ? {} : { end }), who, essential });
    };
  const [builder, both, maker, springMaker] = (
    ['builder', 'builder and maker', 'maker', 'spring maker'] as const
  ).map((who) => ask(who, true));
  const [makerLater, springMakerLater] = [ask('maker', false), ask('spring maker', false)];
  builder(damper === null, 'lengths');
  for (const end of ENDS) {
    const shape = order.mounts?.[end];
    const [now, later] = [ask('builder', true, end), ask('builder', false, end)];
    const hold = holdOf(input, end);
    now(shape === undefined, 'end');
    if (hold === 'bolt') {
      now(shape !== undefined && shape.bore === undefined, 'bore');
      now(shape !== undefined && shape.width === undefined, 'width');
      now(bearingOf(input, end) === undefined, 'boltAxis');
      now(shape !== undefined && shape.spacers === undefined, 'spacers');
    }
    if (hold === 'nut' && shape !== undefined) {
      now(shape.bore === undefined, 'thread');
      now(shape.threadPitch === undefined, 'threadPitch');
      now(shape.referenceFace === undefined && strutOf(input.corner) === null, 'referenceFace');
      later(shape.fixing === undefined, 'fixing');
    }
    if (hold === 'upright' && shape?.type !== 'weldOn')
      now(shape !== undefined && shape.clampDiameter === undefined, 'clampDiameter');
    if (strutOf(input.corner) !== null && end === 'chassis')
      builder(shape?.bearing === undefined, 'topBearing');
  }
  builder(spring === null, 'spring');
  both(spring !== null && spring.freeLength === null, 'freeLength');
  // Without a minimum length there is no solid length either, and coil bind was never looked for.
  const isUnmeasured = spring !== null && spring.minLength === null;
  springMaker(isUnmeasured, 'solidLength');
  springMaker(isUnmeasured, 'minLength');
  maker(spring !== null && spring.innerDiameter === null, 'innerDiameter');
  builder(order.handed === undefined, 'handed');
  builder(order.bodyEnd === undefined && strutOf(input.corner) === null, 'bodyEnd');
  builder(bumpStop === undefined, 'bumpStop');
  builder(dampingTable.length === 0, 'valving');
  maker(
    dampingTable.length > 0 && kneeOf(input) === null && input.ordered?.valving?.forceTable === undefined,
    'highSpeedForces',
  );
  both(isSplitAssumed({ dampingTable, input }), 'compressionFraction');
  builder(order.quantity === undefined, 'quantity');
  builder(order.maxSpringOuterDiameter === undefined, 'maxSpringOuterDiameter');
  maker(damper !== null && (!damper.specified || deadLength === undefined), 'strokeFits');
  maker(order.lengthTolerance === undefined, 'lengthTolerance');
  maker(spring !== null && order.rateTolerance === undefined, 'rateTolerance');
  maker(dampingTable.length > 0 && order.forceTolerance === undefined, 'forceTolerance');
  maker(order.bodyDiameter === undefined, 'bodyDiameter');
  maker(order.lengthAdjustment === undefined, 'lengthAdjustment');
  maker(order.adjusters === undefined, 'adjusters');
  maker(isAdjustable(order) && order.adjusterSetting === undefined, 'adjusterSetting');
  maker(order.reservoir === undefined, 'reservoir');
  both(isGasAssumed(input), 'gasForce');
  maker(gas?.shaftDiameter === undefined, 'shaftDiameter');
  maker(perch?.min === undefined || perch.max === undefined, 'perchRange');
  maker(perch?.threadPitch === undefined, 'perchPitch');
  makerLater(bumpStop !== undefined && bumpStopTable === undefined, 'bumpStopTable');
  makerLater(isTableShort(input), 'bumpStopSolidForce');
  makerLater(bumpStop !== undefined && order.bumpStopSupplier === undefined, 'bumpStopSupplier');
  makerLater(spring !== null && order.springSupplier === undefined, 'springSupplier');
  springMakerLater(
    spring !== null && spring.minLength !== null && spring.solidLength === null,
    'solidLength',
  );
  springMakerLater(
    spring?.minLengthSource === 'estimated' || spring?.minLengthSource === 'assumed',
    'minLength',
  );
  return found.sort((a, b) => Number(b.essential) - Number(a.essential));
}
