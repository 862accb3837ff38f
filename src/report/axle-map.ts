// The poses of an axle as an area over roll and heave: within it neither wheel is past a limit.

import type { AxleLinkage } from '../axle/axle.ts';
import {
  type AxleLimitOptions,
  type HeaveLimit,
  type HeaveRange,
  limitsOver,
  type WheelLimit,
} from '../axle/axle-limits.ts';
import { MOST_ROLL } from '../axle/sweep-axle.ts';
import { refuse } from '../errors/report.ts';
import { type Units, unitName } from '../units.ts';
import { shownLength } from './in-units.ts';
import { lookFaults } from './looks.ts';
import { EDGE, heading, WIDTH } from './marks.ts';
import { limitWords } from './order-sheet/limit-words.ts';
import { type LineStyle, type PlotCurve, type PlotLayout, type PlotPanel, plot, WIDE } from './plot.ts';
import { type Picture, svgDocument } from './svg.ts';

/** What is shown beside the limits; all optional. */
export interface PlotAxleLimitsOptions {
  /** Heading; default says what is shown. */
  readonly title?: string;
  /** Poses that the car goes through, mm and degrees, as a curve with a name. */
  readonly path?: {
    readonly name: string;
    readonly poses: readonly { readonly heave: number; readonly roll: number }[];
  };
  /** Units of the labels; default metric. */
  readonly units?: Units;
}

/** Places across the area, and the roll shown to a side that no limit ends, degrees. */
const STATIONS = 60;
const WIDE_ROLL = 5;
/** Room beyond the area, as shares of its size. */
const ACROSS = 0.04;
const ABOVE = 0.08;
const HEIGHT = 340;

/**
 * The heave and roll that an axle can take, shaded, with the limit of either wheel that ends it, as a self-contained SVG document in
 * black and white.
 *
 * @throws InputError as `axleLimits`.
 */
export function plotAxleLimits(
  axle: AxleLinkage,
  limits: Pick<AxleLimitOptions, 'left' | 'right'>,
  options: PlotAxleLimitsOptions = {},
): string {
  refuse('options of plotAxleLimits', lookFaults(options, ['title', 'path', 'units']));
  return svgDocument(axleMapPicture(axle, limits, options));
}

/** The picture behind `plotAxleLimits`. */
export function axleMapPicture(
  axle: AxleLinkage,
  limits: Pick<AxleLimitOptions, 'left' | 'right'>,
  { title = 'Heave and roll that the wheels allow', path, units = 'metric' }: PlotAxleLimitsOptions,
  layout: PlotLayout = { ...WIDE, height: HEIGHT },
  hasHeading = true,
): Picture {
  const { rangeAt, leftUp, rightUp } = limitsOver(axle, limits);
  const from = Math.max(-MOST_ROLL, rightUp?.roll ?? -WIDE_ROLL);
  const to = Math.min(MOST_ROLL, leftUp?.roll ?? WIDE_ROLL);
  const roll = Array.from({ length: STATIONS + 1 }, (_, k) => from + ((to - from) * k) / STATIONS);
  const ranges = [...roll, 0].sort((a, b) => a - b).map(rangeAt);
  const heaves = ranges.flatMap(({ bump, droop }) => [bump, droop].flatMap((limit) => limit?.heave ?? []));
  const shown = (mm: number) => shownLength(mm, units);
  const [low, high] = [Math.min(0, ...heaves), Math.max(0, ...heaves)].map(shown);
  const [outside, above] = [ACROSS * (to - from), ABOVE * (high - low)];
  const edge = (way: 'bump' | 'droop', otherwise: number) =>
    ranges.map(({ roll, [way]: limit }): [number, number] => [
      roll,
      limit === null ? otherwise : shown(limit.heave),
    ]);
  const panel: PlotPanel = {
    y: {
      label: `heave, bump of both wheels + [${unitName('length', units)}]`,
      low: low - above,
      high: high + above,
      ticks: 9,
    },
    band: { upper: edge('bump', high + above), lower: edge('droop', low - above) },
    curves: [
      ...edgeCurves(ranges, 'bump', shown),
      ...edgeCurves(ranges, 'droop', shown),
      ...contactCurves(ranges, shown),
      ...(path === undefined
        ? []
        : [
            {
              points: path.poses.map(({ heave, roll }): [number, number] => [roll, shown(heave)]),
              style: 'grey' as const,
              name: path.name,
            },
          ]),
    ],
  };
  const x = {
    label: 'roll, left side up + [deg]',
    low: from - outside,
    high: to + outside,
    ticks: 9,
    signed: true,
  };
  const { content, bottom } = plot(x, [panel], layout);
  return {
    width: hasHeading ? WIDTH : layout.right + EDGE,
    height: bottom + 14,
    title,
    content: [...(hasHeading ? [heading(title)] : []), ...content],
  };
}

type Side = 'left' | 'right';
const LINES: Readonly<Record<Side, LineStyle>> = { left: 'solid', right: 'dashed' };
const BOTH: LineStyle = 'grey';
const CONTACT_LINES: Readonly<Record<Side, LineStyle>> = { left: 'dotted', right: 'chain' };

/** An edge of the area in pieces, one for each limit of a wheel along it. */
function edgeCurves(
  ranges: readonly HeaveRange[],
  way: 'bump' | 'droop',
  shown: (mm: number) => number,
): PlotCurve[] {
  const nameOf = (limit: HeaveLimit) =>
    `${limit.side === null ? 'axle' : `${limit.side} wheel`} in ${way}: ${limitName(limit)}`;
  const found = ranges.flatMap(({ roll, [way]: limit }) => (limit === null ? [] : [{ roll, limit }]));
  const names = [...new Set(found.map(({ limit }) => nameOf(limit)))];
  return names.map((name) => {
    const isIts = (k: number) => found[k] !== undefined && nameOf(found[k].limit) === name;
    return {
      // A piece goes on to where the next one begins.
      points: found.map(({ roll, limit }, k) => [roll, isIts(k) || isIts(k - 1) ? shown(limit.heave) : null]),
      style: styleOf(found.find(({ limit }) => nameOf(limit) === name)?.limit.side ?? null),
      name,
    };
  });
}

function styleOf(side: WheelLimit['side']): LineStyle {
  return side === null ? BOTH : LINES[side];
}

function limitName({ cause, part }: WheelLimit): string {
  switch (cause) {
    case 'leverOverCentre':
      return 'lever of the bar over its centre';
    case 'thirdSpringCompressed':
      return 'third spring at its compressed length';
    case 'thirdSpringExtended':
      return 'third spring at its extended length';
    default:
      return limitWords({ cause, part });
  }
}

/** Where a bump stop is touched, within the area. */
function contactCurves(ranges: readonly HeaveRange[], shown: (mm: number) => number): PlotCurve[] {
  return (['left', 'right'] as const).flatMap((side) => {
    const points = ranges.map(({ roll, bump, droop, bumpStopContact }): [number, number | null] => {
      const heave = bumpStopContact[side];
      const isInside =
        heave !== null &&
        heave <= (bump?.heave ?? Number.POSITIVE_INFINITY) &&
        heave >= (droop?.heave ?? Number.NEGATIVE_INFINITY);
      return [roll, isInside ? shown(heave) : null];
    });
    const isMet = points.some(([, heave]) => heave !== null);
    return isMet ? [{ points, style: CONTACT_LINES[side], name: `${side} wheel: bump stop contact` }] : [];
  });
}
