/** A corner as the general constraint solver takes it. */
import { type CornerInput, drawnContactPatch } from '../judges/circle-intersection.ts';
import type { PlanegcsDrawing } from '../judges/planegcs.ts';

export const MOVING = ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch', 'shockMount'] as const;

export function drawingOf(input: CornerInput): PlanegcsDrawing {
  const { lowerArm, upperArm, wheel, coilover } = input;
  const bodies = {
    lowerArm: ['lowerInner', 'lowerOuter'],
    upperArm: ['upperInner', 'upperOuter'],
    upright: ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch'],
  };
  bodies[coilover.on].push('shockMount');
  return {
    points: {
      lowerInner: lowerArm.inner,
      lowerOuter: lowerArm.outer,
      upperInner: upperArm.inner,
      upperOuter: upperArm.outer,
      wheelCentre: wheel.centre,
      contactPatch: drawnContactPatch(input),
      shockMount: coilover.mount,
    },
    ground: ['lowerInner', 'upperInner'],
    bodies,
    driver: { point: 'contactPatch', axis: 'y' },
  };
}
