// Loads that the order gives: all are static, without damping forces.

import { hardestCase } from '../../coilover/forces/corner-forces.ts';
import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import { freeLengthOf, stackOf } from '../../coilover/sizing/listed-springs.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { isTableShort } from '../../coilover/sizing/unsettled.ts';
import { contactLength } from '../../corner/axial-force.ts';
import { pushOf } from '../../corner/spring-stack.ts';
import { certain } from '../../document/uncertain.ts';

type Loaded = Pick<AxleSizing, 'forces' | 'input' | 'damper' | 'limits'>;

/** Parts of a load by what makes them, N; their sum is the load. */
export type LoadParts = Readonly<Record<string, number>>;

/** What the damper's end stop holds back with the wheel off the ground at full droop, N; null where the damper does not end the droop travel. */
export function toppingOutLoad({ forces, limits }: Loaded): number | null {
  const offGround = forces?.cases.find(({ tyre }) => tyre === null);
  if (offGround === undefined || limits.droop?.cause !== 'damperExtended') return null;
  return offGround.shock.metalContact < 0 ? -offGround.shock.metalContact : null;
}

/** What makes up the topping-out load: spring and gas at that length, and the weight that hangs on the coilover. */
export function toppingOutParts(loaded: Loaded): LoadParts | null {
  const load = toppingOutLoad(loaded);
  const hanging = loaded.forces?.cases.find(({ tyre }) => tyre === null);
  if (load === null || hanging === undefined) return null;
  const { shock, springsBetween } = hanging;
  return {
    spring: shock.spring,
    gas: shock.gas,
    ...(springsBetween === 0 ? {} : { 'springs between wheels ÷ ratio': springsBetween }),
    'unsprung ÷ ratio': load - shock.spring - shock.gas - springsBetween,
  };
}

/** Force of the spring at design ride height, N; null where it is not known. */
export function designSpringForce({
  figure,
  spring,
  input,
}: Pick<AxleSizing, 'figure' | 'spring' | 'input'>): number | null {
  const [length, setting] = [figure('designLength').value, figure('perchSetting').value];
  // A perch that is not set yet is set for design ride height.
  if (spring?.freeLength == null || length === null || setting === null)
    return figure('staticSpringForce').value;
  const { helper }: CornerSizing = certain(input.sizing ?? {});
  return pushOf(stackOf(spring, helper), freeLengthOf(spring.freeLength, helper) - (length - setting)).force;
}

/** The largest axial force, N, its load case, and how the force of the bump stop in it is known. */
export interface MaximumAxialForce {
  readonly force: number;
  readonly loadCase: string;
  /** Eye to eye in that case, mm. */
  readonly length: number;
  /** Vertical force on the tyre there, in static wheel loads; null off the ground. */
  readonly wheelLoads: number | null;
  /** What makes it up; nothing that does not act. */
  readonly parts: LoadParts;
  /** `extrapolated` beyond the end of its table; `notCounted` where it has none; null where it is as given, or does not act. */
  readonly bumpStopForce: 'extrapolated' | 'notCounted' | null;
}

export function maximumAxialForce(sized: Loaded): MaximumAxialForce | null {
  const { forces, input, damper } = sized;
  if (forces === null) return null;
  const { shock, shockLength, name, tyre } = hardestCase(forces.cases);
  const standing = forces.cases[0].tyre;
  const parts: LoadParts = {
    spring: shock.spring,
    gas: shock.gas,
    'bump stop': shock.bumpStop,
    'solid contact': shock.metalContact,
  };
  const contact = contactLength(input.limits.bumpStop, damper);
  const table = input.sizing?.bumpStopTable;
  const last = table?.at(-1)?.[0] ?? 0;
  const isBeyond = contact !== null && contact - shockLength > last + ROUNDING;
  return {
    force: shock.total,
    loadCase: name,
    length: shockLength,
    wheelLoads: tyre === null || standing === null ? null : tyre[1] / standing[1],
    parts: Object.fromEntries(Object.entries(parts).filter(([, force]) => Math.abs(force) > NOTHING)),
    bumpStopForce: !isBeyond
      ? null
      : table === undefined
        ? 'notCounted'
        : isTableShort(input)
          ? 'extrapolated'
          : null,
  };
}

/** N that are rounding and no force. */
const NOTHING = 1e-3;
/** mm that are rounding and no compression. */
const ROUNDING = 1e-6;
