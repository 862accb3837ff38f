// Tyre and wheel seen from the front: a rectangle as high as the overall diameter 2 r and w wide about the wheel's centre
// C, turned by the camber, moving with the upright. For a point P of the arch, fixed in the chassis,
//
//   u = (P - C) . (cos g, sin g),   v = (P - C) . (-sin g, cos g),    g = turn of the upright - drawn camber
//
// (camber positive with the top outboard is a turn clockwise). P is in the tyre where all of |u| - w/2 and |v| - r are
// negative; each absolute value is two margins.

import type { Diagnostic } from '../../diagnostic.ts';
import { DEGREES } from '../../units.ts';
import type { CornerModel } from '../model.ts';
import type { Tyre } from '../tyre.ts';
import { type Bound, type Margin, marginOf } from './bound.ts';
import type { CheckedOptions } from './options.ts';
import type { Ask, Pose } from './travel-path.ts';

/** What of the tyre each margin is before. */
const FACES = ['inner', 'outer', 'tread', 'tread'];

/** Points of the arch, each met by the tyre. */
export function tyreBounds(
  { tyre, arch = [] }: CheckedOptions,
  model: CornerModel,
  ask: Ask,
): Bound<'tyreContact'>[] {
  if (tyre === undefined) return [];
  const y = ask({ x: model.wheelCentre });
  const z = ask({ y: model.wheelCentre });
  const turn = ask({ turn: model.upright });
  return arch.map((point, k) => {
    const u = (pose: Pose) => {
      const g = pose[turn] - model.camber / DEGREES;
      return (point[0] - pose[y]) * Math.cos(g) + (point[1] - pose[z]) * Math.sin(g);
    };
    const v = (pose: Pose) => {
      const g = pose[turn] - model.camber / DEGREES;
      return (point[1] - pose[z]) * Math.cos(g) - (point[0] - pose[y]) * Math.sin(g);
    };
    const { overallRadius: r, width } = tyre;
    const way: Margin[] = [
      (pose) => -0.5 * width - u(pose),
      (pose) => u(pose) - 0.5 * width,
      (pose) => v(pose) - r,
      (pose) => -r - v(pose),
    ];
    const part = `arch[${k}]`;
    const values = { part, y: point[0], z: point[1] };
    return {
      cause: 'tyreContact',
      part,
      path: part,
      ways: [way],
      met(pose) {
        const margins = way.map((margin) => margin(pose));
        return { ...values, face: FACES[margins.indexOf(Math.max(...margins))] };
      },
      misfit: (pose) => ({ code: 'tyreDoesNotFit', values: { ...values, by: -marginOf(way, pose) } }),
    };
  });
}

/** What to look at again in the tyre's measures, against the drawn wheel. */
export function tyreNotes(tyre: Tyre, { drawing: { points }, ...model }: CornerModel): Diagnostic[] {
  const notes: Diagnostic[] = [];
  const { overallRadius: overall, width } = tyre;
  const loaded = points[model.wheelCentre][1] - points[model.contactPatch][1];
  if (overall - loaded < TAPE) {
    const values = { overall, loaded, isLess: overall - loaded <= -TAPE };
    notes.push({ code: 'overallRadiusNotAboveLoaded', severity: 'check', path: 'tyre', values });
  }
  const by = 0.5 * width * Math.sin(Math.abs(model.camber) / DEGREES);
  // Where the contact patch is given, it is where the tyre carries.
  if (by >= TAPE && model.standsBy === 'camber') {
    const side = model.camber < 0 ? 'inner' : 'outer';
    notes.push({ code: 'shoulderBelowTread', severity: 'note', path: 'tyre', values: { side, width, by } });
  }
  return notes;
}

/** What a tape can tell, mm. */
const TAPE = 0.5;
