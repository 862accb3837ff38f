// Roll stiffness of an axle in a pose: the second derivative of its energy U by the roll p, the vertical load held. With h the height of
// the middle of the car as drawn over the ground, z(h, p) the travel of each wheel, W = F R its wheel load from the spring,
// dW/dz = k R^2 + F R' its wheel rate,
//
//   K = U_pp - U_hp^2 / U_hh,     U_pp = sum (k R^2 + F R') z_p^2 + W z_pp + k_t (w_p^2 + w w_pp),   and so on,
//
// w the twist of the bar, k_t its stiffness. On the ground z cos p + s y(z) sin p + h = 0; with n = cos p + s y' sin p
//
//   z_h = -1 / n,   z_p = -Y / n,   Y = s y cos p - z sin p,
//   z_pp = -(h + 2 n_p z_p + n_z z_p^2) / n,   z_hp = (n_p + n_z z_p) / n^2,   z_hh = n_z z_h / n^2,
//
// n_p = s y' cos p - sin p and n_z = s y'' sin p. Of the parts that handbooks leave out W z_pp is the largest: on a level, symmetric axle
// it is 2 P h_rc, P the load and h_rc the height of the roll centre, about the middle of the ground.

import { fault, show, unknownOptions } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/axle.ts';
import { FIRST, READING, SECOND } from '../linkage/reader.ts';
import { DEGREES, NEWTON_METRE_PER_DEGREE } from '../units.ts';
import type { AxleLinkage } from './axle.ts';
import type { LeverAngle } from './bar.ts';
import { MOST_ROLL } from './sweep-axle.ts';
import { layWheels, leverThere, READ, readAlong, travelsAt, type WheelCurve } from './wheel-curve.ts';

/** The spring of a wheel in a pose. */
export interface WheelSpring {
  /** Of spring, bump stop and gas, along the shock, N/mm. */
  readonly rate: number;
  /** Along the shock, compression positive, N. */
  readonly force: number;
}

/** Where an axle is, and what its springs do there. */
export interface RollStiffnessOptions {
  /** mm, bump positive; default 0. */
  readonly heave?: number;
  /** Degrees, left side up positive; default 0. */
  readonly roll?: number;
  readonly left: WheelSpring;
  /** That of the left wheel if left out. */
  readonly right?: WheelSpring;
}

/** Roll stiffness in N·m/deg, and its parts, which add up to it. */
export interface RollStiffness {
  readonly total: number;
  /** Rate of the springs, k R². */
  readonly springs: number;
  /** Their force at a changing installation ratio, F R'. */
  readonly changingRatio: number;
  /** The load of the wheels on contact patches that move: 2 P h_rc where all is level. */
  readonly track: number;
  /** Anti-roll bar. */
  readonly bar: number;
  /** What heave takes off as the axle rolls, 0 where all is level; never positive while the axle stands. */
  readonly coupling: number;
}

/**
 * Roll stiffness of an axle about the middle of the ground, with the load held and no lateral force; null where a wheel does not get to the pose.
 *
 * @throws InputError for options out of range.
 */
export function rollStiffness(axle: AxleLinkage, options: RollStiffnessOptions): RollStiffness | null {
  const { heave, roll, springs } = checked(options);
  const angle = roll / DEGREES;
  const states = layWheels(axle, heave, angle).map((curve) => stateOf(curve, heave, angle));
  if (!states.every((state) => state !== null)) return null;
  return stiffnessThere(
    (axle.bar?.torsionalStiffness ?? 0) * NEWTON_METRE_PER_DEGREE,
    states,
    angle,
    springs,
  );
}

/** What the bar of an axle adds as drawn, N·m/deg: its stiffness times the square of its twist by roll. */
export function barRollStiffness(axle: AxleLinkage): number {
  const twistByRoll = layWheels(axle, 0, 0).reduce((sum, curve) => {
    const state = stateOf(curve, 0, 0);
    return sum + (state?.lever?.first ?? 0) * (state?.y[0] ?? 0);
  }, 0);
  return (axle.bar?.torsionalStiffness ?? 0) * twistByRoll ** 2;
}

/** The same of wheels that stand there, tyres keep their deflection; `torsion` is that of the bar per turn of its levers, N·mm/rad. */
export function stiffnessThere(
  torsion: number,
  states: readonly WheelState[],
  angle: number,
  springs: readonly WheelSpring[],
): RollStiffness {
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const sums = { springs: 0, changingRatio: 0, track: 0, hp: 0, hh: 0 };
  const twist = { value: 0, h: 0, p: 0, hh: 0, hp: 0, pp: 0 };
  states.forEach(({ side, travel, y, shock, lever }, w) => {
    const { rate, force } = springs[w];
    const [ratio, slope] = [-shock[1], -shock[2]];
    const n = cos + side * y[1] * sin;
    const nByRoll = side * y[1] * cos - sin;
    const nByTravel = side * y[2] * sin;
    const zh = -1 / n;
    const zp = -(side * y[0] * cos - travel * sin) / n;
    const zpp = (side * y[0] * sin + travel * cos - 2 * nByRoll * zp - nByTravel * zp * zp) / n;
    const zhp = (nByRoll + nByTravel * zp) / (n * n);
    const zhh = (nByTravel * zh) / (n * n);
    const load = force * ratio;
    sums.springs += rate * ratio * ratio * zp * zp;
    sums.changingRatio += force * slope * zp * zp;
    sums.track += load * zpp;
    const wheelRate = rate * ratio * ratio + force * slope;
    sums.hp += wheelRate * zh * zp + load * zhp;
    sums.hh += wheelRate * zh * zh + load * zhh;
    if (lever === null) return;
    twist.value += side * lever.angle;
    twist.h += side * lever.first * zh;
    twist.p += side * lever.first * zp;
    twist.hh += side * (lever.second * zh * zh + lever.first * zhh);
    twist.hp += side * (lever.second * zh * zp + lever.first * zhp);
    twist.pp += side * (lever.second * zp * zp + lever.first * zpp);
  });
  const bar = torsion * (twist.p * twist.p + twist.value * twist.pp);
  const hp = sums.hp + torsion * (twist.h * twist.p + twist.value * twist.hp);
  const hh = sums.hh + torsion * (twist.h * twist.h + twist.value * twist.hh);
  const inUnits = (moment: number) => moment / NEWTON_METRE_PER_DEGREE + 0;
  const parts = {
    springs: inUnits(sums.springs),
    changingRatio: inUnits(sums.changingRatio),
    track: inUnits(sums.track),
    bar: inUnits(bar),
    coupling: inUnits(-(hp * hp) / hh),
  };
  return { total: parts.springs + parts.changingRatio + parts.track + parts.bar + parts.coupling, ...parts };
}

/** A wheel in a pose: its travel, and half-track, shock length and lever with their derivatives by that. */
export interface WheelState {
  readonly side: 1 | -1;
  readonly travel: number;
  readonly y: readonly [number, number, number];
  readonly shock: readonly [number, number, number];
  readonly lever: LeverAngle | null;
}

function stateOf(curve: WheelCurve, heave: number, angle: number): WheelState | null {
  const [travel] = travelsAt(curve, Float64Array.of(heave), Float64Array.of(angle));
  if (Number.isNaN(travel)) return null;
  let state: WheelState | null = null;
  readAlong(curve.all, curve.drawn, Float64Array.of(travel), (m, row) => {
    const of = (measure: number) =>
      [0, FIRST, SECOND].map((at) => m[measure * READING + row + at]) as [number, number, number];
    state = {
      side: curve.side,
      travel,
      y: of(READ.halfTrack),
      shock: of(READ.shock),
      lever: leverThere(curve, m, row),
    };
  });
  return state;
}

function checked(options: RollStiffnessOptions) {
  const faults = unknownOptions(options, ['heave', 'roll', 'left', 'right']);
  refuse('roll stiffness options', faults);
  const { heave = 0, roll = 0, left, right = left } = options;
  const number = (path: string, value: unknown) => {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', path, { got: show(value) }));
  };
  number('heave', heave);
  number('roll', roll);
  if (Math.abs(roll) > MOST_ROLL)
    faults.push(fault('rollTooLarge', 'roll', { got: show(roll), most: MOST_ROLL }));
  for (const [side, spring] of Object.entries(options.right === undefined ? { left } : { left, right })) {
    faults.push(...unknownOptions(spring, ['rate', 'force'], side));
    number(`${side}.rate`, spring?.rate);
    number(`${side}.force`, spring?.force);
  }
  if (faults.length > 0) throw refusal('roll stiffness options', faults);
  return { heave, roll, springs: [left, right] as const };
}
