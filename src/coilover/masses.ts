// What each wheel carries. A mass m that lies with the share f on the front axle and l on the left-hand side puts
//
//   front left  m f l,   front right  m f (1 - l),   rear left  m (1 - f) l,   rear right  m (1 - f) (1 - l)
//
// on the wheels; parts and added loads are summed. Scales say it without shares, and with what was aboard when they were read: a load
// that was aboard is not added again, and is taken off for a state in which it is not.

import type { Diagnostic } from '../diagnostic.ts';

/** Something that weighs on the wheels by its shares; kg. */
export interface Spread {
  readonly mass: number;
  readonly frontFraction: number;
  /** Default half. */
  readonly leftFraction?: number | undefined;
}

/** A load by its name; kg. */
export type Load = { readonly name: string } & Spread;

/** What the car weighs, one of the three; kg. */
export interface MassesInput {
  readonly estimate?: ({ readonly total: number } & Omit<Spread, 'mass'>) | undefined;
  readonly parts?: readonly ({ readonly name: string } & Spread)[] | undefined;
  readonly scales?:
    | (Readonly<Record<'frontLeft' | 'frontRight' | 'rearLeft' | 'rearRight', number>> & {
        /** Names of the added loads that were on the car when it was weighed. */
        readonly aboard?: readonly string[] | undefined;
      })
    | undefined;
  /** What comes on top: driver, fuel, luggage. */
  readonly added?: readonly Load[] | undefined;
  /** States in which it is used: names of added loads that are aboard, and loads of its own. */
  readonly states?:
    | readonly { readonly name: string; readonly loads: readonly (string | Load)[] }[]
    | undefined;
  /** The state that the drawn ride height belongs to; without one, everything in `added` is aboard. */
  readonly designState?: string | undefined;
}

/** What the masses of a car come from. */
export type MassesSource = 'estimate' | 'parts' | 'scales';

export function massesSource(masses: MassesInput | undefined): MassesSource | null {
  return (['estimate', 'parts', 'scales'] as const).find((one) => masses?.[one] !== undefined) ?? null;
}

/** Masses on the wheels of an axle, kg. */
export interface WheelMasses {
  readonly left: number;
  readonly right: number;
}

/** What the wheels of a car carry, kg. */
export interface CarMasses {
  readonly front: WheelMasses;
  readonly rear: WheelMasses;
  readonly total: number;
  /** Fraction of the total on the front axle, 0 to 1. */
  readonly frontFraction: number;
  /** Fraction of the total on the left-hand wheels, 0 to 1. */
  readonly leftFraction: number;
}

/** What of the loads is to be added to what was weighed or estimated, and taken off it, in a state, with its place in the input. */
function loadsIn(
  { scales, added = [], states = [], designState }: MassesInput,
  state: string | undefined,
): (Spread & { readonly at: string })[] {
  const name = state ?? designState;
  const k = states.findIndex((one) => one.name === name);
  const aboard = (load: string) => scales?.aboard?.includes(load) === true;
  const inState = (load: string) => k < 0 || states[k].loads.includes(load);
  const named = added.flatMap((load, at) => {
    const sign = Number(inState(load.name)) - Number(aboard(load.name));
    return sign === 0 ? [] : [{ ...load, mass: sign * load.mass, at: `added[${at}]` }];
  });
  const own = (states[k]?.loads ?? []).flatMap((load, at) =>
    typeof load === 'string' ? [] : [{ ...load, at: `states[${k}].loads[${at}]` }],
  );
  return [...named, ...own];
}

/** Names of the loads that are aboard in the design state; null without masses. */
export function loadNames(input: MassesInput | undefined): string[] | null {
  if (input === undefined) return null;
  const { added = [], states = [], designState } = input;
  const state = states.find(({ name }) => name === designState);
  const loads = state === undefined ? added : state.loads;
  return loads.map((load) => (typeof load === 'string' ? load : load.name));
}

/**
 * Masses on the four wheels in the design state, or in the named state. Fractions outside 0 to 1 are reported with their places, and nothing
 * is computed from them.
 */
export function carMasses(
  input: MassesInput,
  state?: string,
): {
  readonly masses: CarMasses | null;
  readonly issues: Diagnostic[];
} {
  const { estimate, parts = [], scales } = input;
  const all = [
    ...(estimate === undefined ? [] : [{ at: 'estimate', ...estimate, mass: estimate.total }]),
    ...parts.map((part, k) => ({ ...part, at: `parts[${k}]` })),
    ...loadsIn(input, state),
  ];
  const issues = all.flatMap(({ at, frontFraction, leftFraction }) => [
    ...shareIssues(`${at}.frontFraction`, frontFraction),
    ...shareIssues(`${at}.leftFraction`, leftFraction),
  ]);
  if (issues.length > 0) return { masses: null, issues };
  let [fl, fr, rl, rr] =
    scales === undefined
      ? [0, 0, 0, 0]
      : [scales.frontLeft, scales.frontRight, scales.rearLeft, scales.rearRight];
  for (const { mass, frontFraction: f, leftFraction: l = 0.5 } of all) {
    fl += mass * f * l;
    fr += mass * f * (1 - l);
    rl += mass * (1 - f) * l;
    rr += mass * (1 - f) * (1 - l);
  }
  const total = fl + fr + rl + rr;
  return {
    masses: {
      front: { left: fl, right: fr },
      rear: { left: rl, right: rr },
      total,
      frontFraction: (fl + fr) / total,
      leftFraction: (fl + rl) / total,
    },
    issues,
  };
}

/** A share that is none. */
export function shareIssues(path: string, share: number | undefined): Diagnostic[] {
  if (share === undefined || (share >= 0 && share <= 1)) return [];
  return [{ code: 'fractionOutOfRange', severity: 'error', path, values: { fraction: share } }];
}
