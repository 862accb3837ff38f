// The order for programs: what its pages say, in the library's units.

import type { AxleSizing, Sizing } from '../../coilover/sizing/result.ts';
import { sweep } from '../../corner/sweep.ts';
import { certain } from '../../document/uncertain.ts';
import { figureData } from './data.ts';
import { designSpringForce, maximumAxialForce, toppingOutLoad, toppingOutParts } from './order-loads.ts';
import { toAgree } from './to-agree.ts';

/** Figures that the order prints. */
const ON_ORDER = [
  'extendedLength',
  'designLength',
  'compressedLength',
  'stroke',
  'compressionStroke',
  'extensionStroke',
  'perchSetting',
  'springRate',
  'preload',
  'preloadForce',
  'staticSpringLength',
  'staticSpringCompression',
  'springTravelRequired',
  'compressionDamping',
  'reboundDamping',
  'gasForce',
  'leftWheelMass',
  'rightWheelMass',
  'sprungMass',
  'unsprungMass',
  'wheelRate',
  'frequency',
  'frequencyWithTyre',
] as const;

/** The installation ratio at ride height and at the ends of the travel; null where the travel does not end. */
export function ratiosOf({ input: { corner }, limits }: Pick<AxleSizing, 'input' | 'limits'>): {
  readonly ride: number | null;
  readonly droop: number | null;
  readonly bump: number | null;
} {
  const [droop, bump] = [limits.droop?.travel ?? 0, limits.bump?.travel ?? 0];
  const curves = sweep(corner, {
    bump: Math.max(0, bump),
    droop: Math.max(0, -droop),
    columns: ['installationRatio'],
  });
  const at = (travel: number) => curves.at(travel).installationRatio ?? null;
  return { ride: at(0), droop: droop < 0 ? at(droop) : null, bump: bump > 0 ? at(bump) : null };
}

/** An order as data; `papers` says of each axle whether it is an order or an enquiry. */
export function orderData(sizing: Sizing, papers: readonly string[]): Record<string, unknown> {
  const { name, use, status, order, designState, aboard, axles } = sizing;
  return {
    ...(name === undefined ? {} : { name }),
    ...(use === undefined ? {} : { use }),
    status,
    order,
    designState,
    aboard,
    axles: axles.map((sized, k) => ({ axle: sized.axle, paper: papers[k], ...axleData(sized) })),
  };
}

function axleData(sized: AxleSizing): Record<string, unknown> {
  const { input, figure, spring, damper, bearings, dampingTable, limits } = sized;
  const { order, bumpStopTable, helper, perch, gas, damping, unitMass } = certain(
    input.sizing ?? {},
  ) as Record<string, unknown>;
  const { bump, droop, events } = limits;
  return {
    order,
    figures: ON_ORDER.map((name) => figureData(figure(name))),
    damper,
    bearings,
    spring,
    helper,
    perch,
    bumpStop: input.limits.bumpStop,
    bumpStopTable,
    damping,
    gas,
    unitMass,
    perchRange: sized.perch,
    dampingTable,
    installationRatio: ratiosOf(sized),
    travel: { bump, droop, events },
    springForceAtRideHeight: designSpringForce(sized),
    toppingOutLoad: toppingOutLoad(sized),
    toppingOutParts: toppingOutParts(sized),
    maximumAxialForce: maximumAxialForce(sized),
    toAgree: toAgree(sized),
  };
}
