import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import type { Corner } from '../../corner/corner.ts';
import { sweep } from '../../corner/sweep.ts';
import type { Units } from '../../units.ts';
import { type Curves, curvesPlot } from '../curves.ts';
import { bareCornerPicture, cornerPicture, type DrawingSheet } from '../drawing.ts';
import type { PlotLayout } from '../plot.ts';
import { element, svgDocument, text } from '../svg.ts';
import { type Block, heading, table } from './blocks.ts';
import type { OnPaper } from './on-paper.ts';

/** Columns that the curves show: of the coilover at work on the left, of the corner on the right. */
const AT_WORK = ['installationRatio', 'wheelRateOnSpring'];
const OF_CORNER = ['camber', 'rollCentreHeight'];
/** Width of a column of curves, and of the gap between two. */
const COLUMN = 425;
const GAP = 50;
/** Height of the title above the curves. */
const HEAD = 22;
const LAYOUT: PlotLayout = {
  left: 52,
  words: 52,
  right: COLUMN - 8,
  top: 4,
  height: 58,
  between: 8,
  size: 12.5,
  small: 12,
  names: 'above',
};
/** Height of a drawing that leaves room for the curves on the same page. */
const ON_PAPER = { mostHeight: 460 };
/** A drawing for a narrow screen, whose legend is a table below it. */
const NARROW: DrawingSheet = { width: 470, left: 20, top: 40, right: 140, mostHeight: 400 };
/** Travel drawn where nothing ends it, mm. */
const FREE = 60;

/** A corner in three poses, then its curves: what is measured wrong shows here first. */
export function cornerPart(sized: AxleSizing, paper: OnPaper): Block[] {
  return [heading(3, 'Corner'), posesOf(sized, paper), ...curvesOf(sized, paper.units[0])];
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
  const motion = sweep(corner, { ...travel, columns: [] });
  const options = { title, limits, units, bodyEnd, ...(tyre === undefined ? {} : { tyre }) };
  const inWords = [poseTable(corner, travel, title, paper)];
  return {
    kind: 'picture',
    title,
    svg: svgDocument(cornerPicture(corner, motion, options, ON_PAPER)),
    narrow: svgDocument(bareCornerPicture(corner, motion, options, NARROW)),
    narrowLegend: inWords,
    inWords,
  };
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

function curvesOf({ axle, input, curves: atWork }: AxleSizing, units: Units): Block[] {
  if (atWork === null) return [];
  const { droop, bump } = atWork.end;
  const ofCorner = sweep(input.corner, {
    bump: Math.max(0, bump.travel),
    droop: Math.max(0, -droop.travel),
    columns: ['camber', 'rollCentreHeight'],
  });
  const title = `${axleName(axle)}: curves through travel`;
  const columns = [
    curvesPlot(atWork, { panels: AT_WORK, units }, LAYOUT),
    curvesPlot(ofCorner as Curves, { panels: OF_CORNER, units }, LAYOUT),
  ];
  const side = Math.max(...columns.map(({ bottom }) => bottom)) + 4;
  const placed = (x: number, y: number, k: number) =>
    element('g', { transform: `translate(${x} ${HEAD + y})` }, ...columns[k].content);
  const caption = text(title, [4, 14], { 'font-size': LAYOUT.size, 'font-weight': 'bold' });
  const svg = svgDocument({
    width: 2 * COLUMN + GAP,
    height: HEAD + side,
    title,
    content: [caption, placed(0, 0, 0), placed(COLUMN + GAP, 0, 1)],
  });
  const narrow = svgDocument({
    width: COLUMN,
    height: HEAD + 2 * side,
    title,
    content: [caption, placed(0, 0, 0), placed(0, side, 1)],
  });
  return [{ kind: 'picture', title, svg, narrow }];
}
