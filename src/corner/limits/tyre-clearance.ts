// Tyre and wheel seen from the front: a rectangle as high as the overall diameter 2 r and w wide about the wheel's centre
// C, turned by the camber, moving with the upright. For a point P of the arch, fixed in the chassis,
//
//   u = (P - C) . (cos g, sin g),   v = (P - C) . (-sin g, cos g),    g = turn of the upright - drawn camber
//
// (camber positive with the top outboard is a turn clockwise). P is in the tyre where all of |u| - w/2 and |v| - r are
// negative; each absolute value is two margins.

import { DEGREES } from '../../units.ts';
import type { CornerModel } from '../model.ts';
import type { Tyre } from '../tyre.ts';
import { type Bound, type Margin, marginOf } from './bound.ts';
import type { CheckedOptions } from './options.ts';
import type { Ask, Pose } from './travel-path.ts';
import type { Words } from './words.ts';

const FACES = ['inner side', 'outer side', 'tread', 'tread'];

/** Points of the arch, each met by the tyre. */
export function tyreBounds(
  { tyre, arch = [] }: CheckedOptions,
  model: CornerModel,
  ask: Ask,
  words: Words,
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
    const name = `arch[${k}], ${words.point(point)},`;
    return {
      cause: 'tyreContact',
      part: `arch[${k}]`,
      ways: [way],
      met(where, pose) {
        const margins = way.map((margin) => margin(pose));
        return `The tyre meets ${name} with its ${FACES[margins.indexOf(Math.max(...margins))]} ${where}.`;
      },
      misfit: (pose) =>
        `The tyre does not fit: at the drawn ride height ${name} lies ${words.length(-marginOf(way, pose))} inside it.`,
    };
  });
}

/** What to look at again in the tyre's measures, against the drawn wheel. */
export function tyreNotes(
  tyre: Tyre,
  { drawing: { points }, ...model }: CornerModel,
  words: Words,
): string[] {
  const notes: string[] = [];
  const loaded = points[model.wheelCentre][1] - points[model.contactPatch][1];
  const more = tyre.overallRadius - loaded;
  if (more < TAPE) {
    const than = more > -TAPE ? 'equal to' : `${words.length(-more)} less than`;
    notes.push(
      `The tyre's overall radius, ${words.length(tyre.overallRadius)}, is ${than} the height of the wheel's centre as drawn. The overall radius is that with no load on the tyre; the centre stands at the loaded radius, which is less: was one taken for the other?`,
    );
  }
  const drop = 0.5 * tyre.width * Math.sin(Math.abs(model.camber) / DEGREES);
  if (drop >= TAPE) {
    notes.push(
      `With the camber as drawn the ${model.camber < 0 ? 'inner' : 'outer'} shoulder of a tyre ${words.length(tyre.width)} wide stands ${words.length(drop)} lower than the middle of its tread: the contact patch is counted at the middle.`,
    );
  }
  return notes;
}

/** What a tape can tell, mm. */
const TAPE = 0.5;
