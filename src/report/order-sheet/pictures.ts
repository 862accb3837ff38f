import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import type { Corner } from '../../corner/corner.ts';
import { sweep } from '../../corner/sweep.ts';
import type { Units } from '../../units.ts';
import { plotCurves } from '../curves.ts';
import { drawCorner } from '../drawing.ts';
import { type Block, heading, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** Columns that the curves show, from the top. */
const PANELS = ['installationRatio', 'wheelRateOnSpring'];
/** Travel drawn where nothing ends it, mm. */
const FREE = 60;

/** Each corner in three poses, then the curves of each: in this order they fill pages. */
export function cornersPart(axles: readonly AxleSizing[], paper: OnPaper): Block[] {
  const [units] = paper.units;
  return [
    heading(2, 'Corners'),
    ...axles.map((sized) => posesOf(sized, paper)),
    ...axles.flatMap((sized) => curvesOf(sized, units)),
  ];
}

function posesOf({ axle, input, limits }: AxleSizing, paper: OnPaper): Block {
  const { corner, sizing } = input;
  const title = `${axleName(axle)} corner at droop, design ride height and bump`;
  const { bodyEnd = 'up' } = sizing?.order ?? {};
  const [units] = paper.units;
  const travel = {
    bump: limits.bump?.travel ?? FREE,
    droop: Math.max(0, -(limits.droop?.travel ?? -FREE)),
  };
  const { tyre } = input.limits;
  const svg = drawCorner(corner, sweep(corner, { ...travel, columns: [] }), {
    title,
    limits,
    units,
    bodyEnd,
    ...(tyre === undefined ? {} : { tyre }),
  });
  return { kind: 'picture', title, svg, inWords: [poseTable(corner, travel, title, paper)] };
}

/** What the picture shows in figures. */
function poseTable(
  corner: Corner,
  { bump, droop }: { readonly bump: number; readonly droop: number },
  title: string,
  { both, orDash }: OnPaper,
): Block {
  const { at } = sweep(corner, {
    bump,
    droop,
    columns: ['shockLength', 'installationRatio', 'camber'],
  });
  const poses = [
    ['full droop', -droop],
    ['design ride height', 0],
    ['full bump', bump],
  ] as const;
  return table(
    title,
    ['pose', 'travel at the wheel', 'eye to eye', 'installation ratio', 'camber'],
    poses.map(([name, travel]) => {
      const { shockLength, installationRatio, camber } = at(travel);
      return [
        name,
        both(travel, 'length'),
        both(shockLength, 'length'),
        orDash(installationRatio, 'ratio'),
        both(camber, 'angle'),
      ];
    }),
  );
}

function curvesOf({ axle, curves }: AxleSizing, units: Units): Block[] {
  if (curves === null) return [];
  const title = `${axleName(axle)} corner through travel`;
  return [{ kind: 'picture', title, svg: plotCurves(curves, { title, panels: PANELS, units }) }];
}
