// A car with one input moved keeps its other axle as it is: what was computed of that axle is kept by its inputs, which stay the very same
// objects.

import type { WheelMasses } from '../masses.ts';
import type { ShockCurve } from '../wheel.ts';
import type { AxleInputs } from './inputs.ts';
import { type AxleState, axleState, type Settings } from './state.ts';

interface Kept {
  readonly wheels: WheelMasses | null;
  readonly shock: ShockCurve;
  readonly settings: Settings;
  readonly state: AxleState;
}

/** States kept for each axle's inputs: as many as a sizing has settings. */
const MOST = 4;
const known = new WeakMap<AxleInputs, Kept[]>();

/** As `axleState`, for the same inputs the same object. */
export function keptState(
  given: AxleInputs,
  wheels: WheelMasses | null,
  shock: ShockCurve,
  settings: Settings,
): AxleState {
  const kept = known.get(given) ?? [];
  const found = kept.find(
    (one) =>
      one.shock === shock &&
      one.settings === settings &&
      one.wheels?.left === wheels?.left &&
      one.wheels?.right === wheels?.right,
  );
  if (found !== undefined) return found.state;
  const state = axleState(given, wheels, shock, settings);
  known.set(given, [...kept.slice(-MOST + 1), { wheels, shock, settings, state }]);
  return state;
}
