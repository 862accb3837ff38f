import { doubleWishbone, type Sweep, sweep } from 'jounce';
import { modelOf } from '../src/corner/corner.ts';
import { taylorExpansion } from '../src/linkage/series.ts';
import { compile } from '../src/linkage/system.ts';
import type { CornerInput } from '../tests/judges/circle-intersection.ts';
import { idealSweep } from './floor.ts';
import type { Task } from './measure.ts';

/** mm of bump and of droop, and between two poses. */
const travel = { bump: 80, droop: 80, step: 0.8 };
export const POSES = 201;

const ratioColumns = ['shockLength', 'installationRatio', 'installationRatioSlope'];
const moving = ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch', 'shockMount'];
const positionColumns = [...moving.flatMap((name) => [`${name}Y`, `${name}Z`]), 'shockLength'];

/** What the library is timed at. */
export interface Jobs {
  /** From the document to shock length, ratio and slope. */
  readonly fromDocument: () => Sweep;
  /** A corner swept for the same. */
  readonly ratios: () => Sweep;
  /** A corner swept for the places of its moving points and the shock length. */
  readonly positions: () => Sweep;
  /** A corner swept for every column. */
  readonly everything: () => Sweep;
  /** The drawing made into a system that is ready to be moved. */
  readonly build: () => unknown;
  /** What of three of them no pass could leave out (floor.ts). */
  readonly ideal: Readonly<Record<'fromDocument' | 'positions' | 'everything', Task>>;
}

export function jobsOf(input: CornerInput): Jobs {
  const corner = doubleWishbone(input);
  const model = modelOf(corner);
  const build = () => taylorExpansion(compile(model.drawing));
  const ideal = (columns?: readonly string[], ...needed: Task[]) =>
    idealSweep(model, columns === undefined ? travel : { ...travel, columns }, needed);
  return {
    fromDocument: () => sweep(doubleWishbone(input), { ...travel, columns: ratioColumns }),
    ratios: () => sweep(corner, { ...travel, columns: ratioColumns }),
    positions: () => sweep(corner, { ...travel, columns: positionColumns }),
    everything: () => sweep(corner, travel),
    build,
    ideal: {
      fromDocument: ideal(ratioColumns, () => doubleWishbone(input), build),
      positions: ideal(positionColumns, build),
      everything: ideal(undefined, build),
    },
  };
}
