// Roll stiffness of an axle in a pose: the second derivative of its energy U by the roll p, the vertical load held. With h the height of
// the middle of the car as drawn over the ground, z(h, p) the travel of each wheel, W = F R its wheel load from the spring,
// dW/dz = k R^2 + F R' its wheel rate,
//
//   K = U_pp - U_hp^2 / U_hh,     U_pp = sum (k R^2 + F R') z_p^2 + W z_pp + sum (U'' w_p^2 + U' w_pp),   and so on,
//
// w the twist of the bar and the lengths of the springs between both wheels (coupling.ts). U_hh is the heave rate. On the ground z cos p + s y(z) sin p + h = 0; with n = cos p + s y' sin p
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
import { type Coupled, type CoupledWheel, type CouplingName, coupledBy, couplingsOf } from './coupling.ts';
import { leverAngles } from './lever-angle.ts';
import { MOST_ROLL } from './sweep-axle.ts';
import { noEnds, takeEnds } from './wheel-at.ts';
import { layWheels, leversThere, READ, readAlong, travelsAt, type WheelCurve } from './wheel-curve.ts';

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
  /** Springs between both wheels, 0 without them: their rate, and their force as they change direction. */
  readonly thirdSpring: number;
  readonly rollSpring: number;
  /** What heave takes off as the axle rolls, 0 where all is level; never positive while the axle stands. */
  readonly coupling: number;
}

/** Heave rate of an axle in N/mm, and its parts, which add up to it. */
export interface HeaveRate {
  readonly total: number;
  /** Rate of the springs, k R². */
  readonly springs: number;
  /** Their force at a changing installation ratio, F R'. */
  readonly changingRatio: number;
  /** The load of the wheels on contact patches that move across a ground that leans; 0 where all is level. */
  readonly track: number;
  readonly bar: number;
  readonly thirdSpring: number;
  readonly rollSpring: number;
}

/**
 * Vertical rate of an axle, both wheels on the ground, the roll held; tyres rigid. Null where a wheel does not get to the pose.
 *
 * @throws InputError for options out of range.
 */
export function heaveRate(axle: AxleLinkage, options: RollStiffnessOptions): HeaveRate | null {
  const found = there(axle, options);
  if (found === null) return null;
  const { sums, parts } = found;
  const rates = {
    springs: sums.springs.hh,
    changingRatio: sums.changingRatio.hh,
    track: sums.track.hh,
    bar: parts.bar.hh,
    thirdSpring: parts.thirdSpring.hh,
    rollSpring: parts.rollSpring.hh,
  };
  return { total: Object.values(rates).reduce((sum, rate) => sum + rate, 0), ...rates };
}

/**
 * Roll stiffness of an axle about the middle of the ground, with the load held and no lateral force; null where a wheel does not get to the pose.
 *
 * @throws InputError for options out of range.
 */
export function rollStiffness(axle: AxleLinkage, options: RollStiffnessOptions): RollStiffness | null {
  const found = there(axle, options);
  return found === null ? null : stiffnessOf(found);
}

/** An axle in the pose of some options, as second derivatives of its energy; null where a wheel does not get there. */
function there(axle: AxleLinkage, options: RollStiffnessOptions): Derivatives | null {
  const { heave, roll, springs } = checked(options);
  const angle = roll / DEGREES;
  const [left, right] = layWheels(axle, Math.abs(heave), Math.abs(angle)).map((curve) =>
    stateOf(curve, heave, angle),
  );
  if (left === null || right === null) return null;
  return derivativesOf(coupledBy(couplingsOf(axle), left, right), [left, right], angle, springs);
}

/** What the bar of an axle adds as drawn, N·m/deg: its stiffness times the square of its twist by roll. */
export function barRollStiffness(axle: AxleLinkage): number {
  const twistByRoll = layWheels(axle, 0, 0).reduce((sum, curve) => {
    const state = stateOf(curve, 0, 0);
    return sum + (state?.lever[1] ?? 0) * (state?.y[0] ?? 0);
  }, 0);
  return (axle.bar?.torsionalStiffness ?? 0) * twistByRoll ** 2;
}

/** Roll stiffness of an axle whose wheels stand there, tyres keep their deflection; `coupled` is what acts between both. */
export function stiffnessThere(
  coupled: readonly Coupled[],
  states: readonly [WheelState, WheelState],
  angle: number,
  springs: readonly WheelSpring[],
): RollStiffness {
  return stiffnessOf(derivativesOf(coupled, states, angle, springs));
}

/** Second derivatives of a part of the energy: by height, by height and roll, by roll. */
interface Second {
  hh: number;
  hp: number;
  pp: number;
}

interface Derivatives {
  readonly sums: Readonly<Record<'springs' | 'changingRatio' | 'track', Second>>;
  readonly parts: Readonly<Record<CouplingName, Second>>;
}

function derivativesOf(
  coupled: readonly Coupled[],
  states: readonly [WheelState, WheelState],
  angle: number,
  springs: readonly WheelSpring[],
): Derivatives {
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const none = (): Second => ({ hh: 0, hp: 0, pp: 0 });
  const sums = { springs: none(), changingRatio: none(), track: none() };
  const [left, right] = states.map(({ side, travel, y, shock }, w) => {
    const { rate, force } = springs[w];
    const [ratio, slope] = [-shock[1], -shock[2]];
    const n = cos + side * y[1] * sin;
    const nByRoll = side * y[1] * cos - sin;
    const nByTravel = side * y[2] * sin;
    const h = -1 / n;
    const p = -(side * y[0] * cos - travel * sin) / n;
    const pp = (side * y[0] * sin + travel * cos - 2 * nByRoll * p - nByTravel * p * p) / n;
    const hp = (nByRoll + nByTravel * p) / (n * n);
    const hh = (nByTravel * h) / (n * n);
    add(sums.springs, rate * ratio * ratio, h, p);
    add(sums.changingRatio, force * slope, h, p);
    const load = force * ratio;
    sums.track.hh += load * hh;
    sums.track.hp += load * hp;
    sums.track.pp += load * pp;
    return { h, p, hh, hp, pp };
  });
  const parts = { bar: none(), thirdSpring: none(), rollSpring: none() };
  for (const { name, force, rate, ...w } of coupled) {
    const part = parts[name];
    add(part, rate, w.left * left.h + w.right * right.h, w.left * left.p + w.right * right.p);
    const bent = (a: 'h' | 'p', b: 'h' | 'p', both: 'hh' | 'hp' | 'pp') =>
      w.leftLeft * left[a] * left[b] +
      w.leftRight * (left[a] * right[b] + right[a] * left[b]) +
      w.rightRight * right[a] * right[b] +
      w.left * left[both] +
      w.right * right[both];
    part.hh += force * bent('h', 'h', 'hh');
    part.hp += force * bent('h', 'p', 'hp');
    part.pp += force * bent('p', 'p', 'pp');
  }
  return { sums, parts };
}

/** A rate k of a quantity with these derivatives by height and roll. */
function add(into: Second, k: number, h: number, p: number): void {
  into.hh += k * h * h;
  into.hp += k * h * p;
  into.pp += k * p * p;
}

function stiffnessOf({ sums, parts }: Derivatives): RollStiffness {
  const all = [...Object.values(sums), ...Object.values(parts)];
  const [hh, hp] = (['hh', 'hp'] as const).map((by) => all.reduce((sum, one) => sum + one[by], 0));
  const inUnits = (moment: number) => moment / NEWTON_METRE_PER_DEGREE + 0;
  const stiffness = {
    springs: inUnits(sums.springs.pp),
    changingRatio: inUnits(sums.changingRatio.pp),
    track: inUnits(sums.track.pp),
    bar: inUnits(parts.bar.pp),
    thirdSpring: inUnits(parts.thirdSpring.pp),
    rollSpring: inUnits(parts.rollSpring.pp),
    coupling: inUnits(-(hp * hp) / hh),
  };
  return { total: Object.values(stiffness).reduce((sum, part) => sum + part, 0), ...stiffness };
}

/** A wheel in a pose: its travel, and half-track, shock length and what goes into couplings with their derivatives by that. */
export interface WheelState extends CoupledWheel {
  readonly side: 1 | -1;
  readonly travel: number;
  readonly y: readonly [number, number, number];
  readonly shock: readonly [number, number, number];
}

function stateOf(curve: WheelCurve, heave: number, angle: number): WheelState | null {
  const [travel] = travelsAt(curve, Float64Array.of(heave), Float64Array.of(angle));
  if (Number.isNaN(travel)) return null;
  let state: WheelState | null = null;
  readAlong(curve.all, curve.drawn, Float64Array.of(travel), (m, row) => {
    const of = (measure: number) =>
      [0, FIRST, SECOND].map((at) => m[measure * READING + row + at]) as [number, number, number];
    const lever = leverAngles(1);
    leversThere(curve, m, 1, lever);
    const ends = noEnds();
    takeEnds(m, row, curve.ends, ends);
    state = {
      side: curve.side,
      travel,
      y: of(READ.halfTrack),
      shock: of(READ.shock),
      lever: [lever.angle[0], lever.first[0], lever.second[0]],
      ...ends,
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
  if (typeof roll === 'number' && Math.abs(roll) > MOST_ROLL)
    faults.push(fault('rollTooLarge', 'roll', { got: show(roll), most: MOST_ROLL }));
  for (const [side, spring] of Object.entries(options.right === undefined ? { left } : { left, right })) {
    faults.push(...unknownOptions(spring, ['rate', 'force'], side));
    number(`${side}.rate`, spring?.rate);
    number(`${side}.force`, spring?.force);
  }
  if (faults.length > 0) throw refusal('roll stiffness options', faults);
  return { heave, roll, springs: [left, right] as const };
}
