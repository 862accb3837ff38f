import { axleName } from '../../coilover/sizing/inputs.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { sweep } from '../../corner/sweep.ts';
import type { Units } from '../../units.ts';
import { plotCurves } from '../curves.ts';
import { drawCorner } from '../drawing.ts';
import type { Block } from './blocks.ts';

/** Columns that the curves show, from the top. */
const PANELS = ['installationRatio', 'wheelRateOnSpring'];
/** Travel drawn where nothing ends it, mm. */
const FREE = 60;

/** The corner in three poses, its curves. */
export function axlePictures({ axle, input, limits, curves }: AxleSizing, units: Units): Block[] {
  const name = axleName(axle);
  const { corner } = input;
  const poses = `${name} corner at droop, design ride height and bump`;
  const { bodyEnd = 'up' } = input.sizing?.order ?? {};
  const drawn = sweep(corner, {
    bump: limits.bump?.travel ?? FREE,
    droop: Math.max(0, -(limits.droop?.travel ?? -FREE)),
    columns: [],
  });
  const title = `${name} corner through travel`;
  return [
    {
      kind: 'picture',
      title: poses,
      svg: drawCorner(corner, drawn, {
        title: poses,
        limits,
        units,
        bodyEnd,
      }),
    },
    ...(curves === null
      ? []
      : [{ kind: 'picture', title, svg: plotCurves(curves, { title, panels: PANELS, units }) } as const]),
  ];
}
