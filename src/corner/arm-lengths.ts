import { fault, show } from '../diagnostic.ts';
import { refusal } from '../errors/corner.ts';
import { withLengths } from '../linkage/lengths.ts';
import { DEGREES } from '../units.ts';
import { modelOf } from './corner.ts';
import type { DoubleWishbone } from './double-wishbone.ts';
import type { CornerModel } from './model.ts';

/** A corner with changed lengths, and the `shortfall` of each against its target: mm, 0 where it was reached. */
export interface ArmLengthResult {
  readonly corner: DoubleWishbone;
  readonly shortfall: Readonly<Record<string, number>>;
}

/**
 * Screws arms in or out from the drawn pose: `lengths` gives the target distance from pivot to ball joint of `lowerArm` or
 * `upperArm`, mm. The contact patch keeps its height, so that the corner stays at its ride height; camber and all moving
 * points follow. A shock mount on the arm keeps its place by the arm's pivot.
 *
 * Where a length can't be reached the corner is left as near to it as it goes, and `shortfall` says how many mm are
 * wanting (positive: it should be longer).
 *
 * @throws InputError for other names and for lengths that are not positive.
 */
export function changeArmLengths(
  corner: DoubleWishbone,
  lengths: { readonly lowerArm?: number; readonly upperArm?: number },
): ArmLengthResult {
  if (corner?.kind !== 'doubleWishbone') {
    throw refusal('corner', [fault('notACorner', 'kind', { got: show(corner), makers: ['doubleWishbone'] })]);
  }
  const model: CornerModel = modelOf(corner);
  const { drawing, shortfall } = withLengths(model.drawing, lengths as Record<string, number>, {
    y: model.contactPatch,
  });
  const { points } = drawing;
  const { otherEnd } = corner.coilover;
  const before = model.drawing.points;
  const direction = (of: typeof points) =>
    Math.atan2(of.upperOuter[1] - of.lowerOuter[1], of.upperOuter[0] - of.lowerOuter[0]);
  const camber = corner.wheel.camber - (direction(points) - direction(before)) * DEGREES;
  return {
    shortfall,
    corner: Object.freeze({
      ...corner,
      lowerArm: Object.freeze({ inner: points.lowerInner, outer: points.lowerOuter }),
      upperArm: Object.freeze({ inner: points.upperInner, outer: points.upperOuter }),
      wheel: Object.freeze({
        ...corner.wheel,
        centre: points.wheelCentre,
        contactPatch: points.contactPatch,
        camber,
      }),
      coilover: Object.freeze({
        ...corner.coilover,
        mount: points.shockMount,
        ...(otherEnd && { otherEnd: Object.freeze({ ...otherEnd, mount: points.shockOtherMount }) }),
      }),
    }),
  };
}
