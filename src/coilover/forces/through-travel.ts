// The corner standing still at every travel on the tyre force that balances its coilover there.

import type { ColumnInfo } from '../../corner/columns.ts';
import type { Corner } from '../../corner/corner.ts';
import type { SweepEnd } from '../../corner/sweep.ts';
import { spaced } from '../../words.ts';
import { alongBodies, jointLoads } from './corner-forces.ts';
import type { ForceOptions } from './options.ts';
import { balancedLoad, type SetUp, setUp, standAt, travelRange } from './static-equilibrium.ts';

/** Forces over travel, as the curves of a sweep: `plotCurves` draws them. */
export interface ForceCurves {
  readonly info: readonly ColumnInfo[];
  readonly end: { readonly droop: SweepEnd; readonly bump: SweepEnd };
  /** The forces at a travel, mm, by column: N. */
  readonly at: (travel: number) => Readonly<Record<string, number>>;
  /** `count` rows, evenly spaced from end to end. */
  rows(count?: number): Record<string, number>[];
}

const column = (name: string, label: string, unit = 'N'): ColumnInfo => ({ name, unit, label, gaps: false });

/**
 * Forces of a corner in equilibrium through its travel: the wheel load, the axial force of coilover, arms and rods (`lowerArmAxial`,
 * tension positive), and the axial and radial load of each ball joint with a known axis (`lowerOuterAxial`, positive pulls the stud out).
 * Where a damper is given, the last row is the case of `cornerForces` driven to the bump limit.
 *
 * @throws InputError as `cornerForces`.
 */
export function forceCurves(corner: Corner, options: ForceOptions): ForceCurves {
  const setup = setUp(corner, options);
  const { bump, droop } = travelRange(setup);
  const ride = forcesAt(setup, 0);
  const names = Object.keys(ride).filter((name) => !FIRST.some((one) => one.name === name));
  return {
    info: [...FIRST, ...names.map((name) => column(name, labelOf(name)))],
    end: { droop: { travel: droop, status: 'reached' }, bump: { travel: bump, status: 'reached' } },
    at: (travel) => forcesAt(setup, Math.min(bump, Math.max(droop, travel))),
    rows: (count = 29) =>
      Array.from({ length: count }, (_, k) => forcesAt(setup, droop + ((bump - droop) * k) / (count - 1))),
  };
}

const FIRST = [
  column('travel', 'travel, bump +', 'mm'),
  column('wheelLoad', 'wheel load'),
  column('coiloverForce', 'axial force of the coilover'),
];

/** `lowerOuterRadial` as `lower outer, radial`. */
function labelOf(name: string): string {
  return spaced(name).replace(/ (axial|radial)$/, ', $1');
}

function forcesAt(setup: SetUp, travel: number): Record<string, number> {
  const wheelLoad = balancedLoad(setup, travel);
  const stand = standAt(setup, travel, [0, wheelLoad]);
  const { found, total } = stand;
  const { axial } = alongBodies(setup, stand);
  const joints = Object.entries(jointLoads(setup, travel, found));
  return {
    travel,
    wheelLoad,
    coiloverForce: total,
    ...Object.fromEntries(Object.entries(axial).map(([body, force]) => [`${body}Axial`, force])),
    ...Object.fromEntries(
      joints.flatMap(([name, load]) => [
        [`${name}Axial`, load.axial],
        [`${name}Radial`, load.radial],
      ]),
    ),
  };
}
