// docs/planar-model.md says how far the flat corner is off where a pivot axis leans. The spatial side is a rotation of points about
// an axis in three dimensions (Rodrigues' formula), by code of this file alone.

import { customCorner, sweep } from 'jounce';
import { describe, it } from 'vitest';
import { DEGREES } from '../../src/units.ts';
import { expectWithin } from '../support/tolerance.ts';

type Vector = readonly [number, number, number];

const INNER: Vector = [0, 255, 165];
const MOUNT: Vector = [0, 505, 170];
const TOP: Vector = [0, 345, 480];
const PATCH: Vector = [0, 708, 0];

const less = (p: Vector, q: Vector): Vector => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
const dot = (p: Vector, q: Vector) => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
const cross = (p: Vector, q: Vector): Vector => [
  p[1] * q[2] - p[2] * q[1],
  p[2] * q[0] - p[0] * q[2],
  p[0] * q[1] - p[1] * q[0],
];

/** A point turned by t about an axis through the inner pivot. */
function turned(point: Vector, axis: Vector, t: number): Vector {
  const r = less(point, INNER);
  const x = cross(axis, r);
  const along = dot(axis, r) * (1 - Math.cos(t));
  const part = (k: 0 | 1 | 2) => INNER[k] + r[k] * Math.cos(t) + x[k] * Math.sin(t) + axis[k] * along;
  return [part(0), part(1), part(2)];
}

/** Ratio, length and fore-aft place of the patch with the wheel at a travel. */
function spatial(axis: Vector, travel: number) {
  let [low, high] = [-1, 1];
  for (let k = 0; k < 100; k++) {
    const middle = (low + high) / 2;
    if (turned(PATCH, axis, middle)[2] < travel) low = middle;
    else high = middle;
  }
  const length = (t: number) => Math.hypot(...less(turned(MOUNT, axis, t), TOP));
  // The rate of a turned point is axis x (point - pivot).
  const at = (point: Vector) => cross(axis, less(turned(point, axis, low), INNER));
  const line = less(turned(MOUNT, axis, low), TOP);
  const ratio = -dot(line, at(MOUNT)) / length(low) / at(PATCH)[2];
  return { length: length(low), ratio, foreAft: turned(PATCH, axis, low)[0] };
}

const swingArm = customCorner({
  drawing: {
    points: { pivot: [255, 165], eye: [505, 170], hub: [705, 312], patch: [708, 0], top: [345, 480] },
    ground: ['pivot', 'top'],
    bodies: { arm: ['pivot', 'eye', 'hub', 'patch'] },
  },
  upright: 'arm',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});

const planOf = (lean: number): Vector => [Math.cos(lean / DEGREES), Math.sin(lean / DEGREES), 0];
const sideOf = (lean: number): Vector => [Math.cos(lean / DEGREES), 0, Math.sin(lean / DEGREES)];

describe('the flat corner against an axis that leans', () => {
  const flat = sweep(swingArm, { bump: 60, droop: 60 });

  it('is that of an axis that does not', () => {
    for (const travel of [-60, -20, 0, 35, 60]) {
      const { ratio, length } = spatial([1, 0, 0], travel);
      expectWithin(flat.at(travel).installationRatio, ratio, 5e-10);
      expectWithin(flat.at(travel).shockLength, length, 5e-10);
    }
  });

  it.each([
    ['plan view', 5, planOf, -0.04, 0.04, -0.006],
    ['plan view', 10, planOf, -0.18, 0.15, -0.025],
    ['plan view', 20, planOf, -0.75, 0.65, -0.11],
    ['side view', 10, sideOf, -0.12, 0.13, -0.02],
    ['side view', 20, sideOf, -0.49, 0.56, -0.08],
  ] as const)('is off in %s by %i degrees as the guide says', (_, lean, axisOf, droop, bump, most) => {
    const axis = axisOf(lean);
    const off = (travel: number) => {
      const { ratio, length } = spatial(axis, travel);
      const { installationRatio, shockLength } = flat.at(travel);
      return { ratio: 100 * ((installationRatio ?? Number.NaN) / ratio - 1), length: shockLength - length };
    };
    expectWithin(off(0).ratio, 0, 5e-10);
    expectWithin(off(-60).ratio, droop, 0.005);
    expectWithin(off(60).ratio, bump, 0.005);
    expectWithin(Math.max(Math.abs(off(-60).length), Math.abs(off(60).length)), -most, 0.005);
  });
});
