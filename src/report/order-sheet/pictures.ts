import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { sweep } from '../../corner/sweep.ts';
import type { Units } from '../../units.ts';
import { plotCurves } from '../curves.ts';
import { drawCorner } from '../drawing.ts';
import { type Block, heading } from './blocks.ts';

/** Columns that the curves show, from the top. */
const PANELS = ['installationRatio', 'wheelRateOnSpring'];
/** Travel drawn where nothing ends it, mm. */
const FREE = 60;

/** Each corner in three poses, then the curves of each: in this order they fill pages. */
export function cornersPart(axles: readonly AxleSizing[], units: Units): Block[] {
  return [
    heading(2, 'Corners'),
    ...axles.map((sized) => posesOf(sized, units)),
    ...axles.flatMap((sized) => curvesOf(sized, units)),
  ];
}

function posesOf({ axle, input, limits }: AxleSizing, units: Units): Block {
  const { corner } = input;
  const title = `${axleName(axle)} corner at droop, design ride height and bump`;
  const { bodyEnd = 'up' } = input.sizing?.order ?? {};
  const drawn = sweep(corner, {
    bump: limits.bump?.travel ?? FREE,
    droop: Math.max(0, -(limits.droop?.travel ?? -FREE)),
    columns: [],
  });
  return { kind: 'picture', title, svg: drawCorner(corner, drawn, { title, limits, units, bodyEnd }) };
}

function curvesOf({ axle, curves }: AxleSizing, units: Units): Block[] {
  if (curves === null) return [];
  const title = `${axleName(axle)} corner through travel`;
  return [{ kind: 'picture', title, svg: plotCurves(curves, { title, panels: PANELS, units }) }];
}
