// outAndBack: the linkage drawn anew in a pose that it came to is the same linkage: driven back by as much as it was
// driven out, it is in the drawn pose again.

import type { CheckedDrawing, Measure } from '../linkage/index.ts';
import { coordinates, drawnValue, frameOf, isCoordinate, nameOf } from './measures.ts';
import { distance } from './plane.ts';
import { changeOf, largest, nudged, reaches } from './sensitivity.ts';
import {
  clamp,
  drivenTo,
  drivenUnless,
  type Law,
  placeAt,
  type Setting,
  settingOf,
  traced,
  unitOf,
  where,
} from './setting.ts';
import { expectWithin } from './violation.ts';

/** How far out: shares of the way from the drawn pose to either end. */
const SHARES = [-0.9, -0.4, 0.4, 0.9];

export const outAndBack: Law = (build, data, options) => {
  // Relative to a body that is drawn turned, a coordinate is another one: then something else drives.
  const turns = (measure: Measure) => isCoordinate(measure) && frameOf(measure) !== null;
  const setting = settingOf('outAndBack', build, data, drivenUnless(turns, options));
  const motion = traced(setting, setting.drawing);
  for (const share of SHARES) {
    const at = placeAt(motion, share);
    if (at !== motion.drawn) expectBack(setting, motion.at(at), at, motion.drawn - at);
  }
};

/** Expects the drawn pose when the linkage is driven on from other places of its points, come to at `out`, by `way`. */
function expectBack(setting: Setting, points: Setting['drawing']['points'], out: number, way: number): void {
  const { law, drawing, driver, size, allowed } = setting;
  const there = { ...drawing, points };
  const start = drawnValue(driver, there);
  const unit = unitOf(driver, size);
  const target = start + way;
  const trace = (one: CheckedDrawing) => drivenTo(setting, one, start, target);
  const [motion, other] = [trace(there), nudged(there, size, trace)];
  if (!reaches(other, target)) return;

  const home = clamp(motion, target);
  const place = where(setting, out);
  expectWithin(law, `${nameOf(driver)} driven back`, place, home, target, allowed * unit);
  const measures = coordinates(drawing);
  const read = (of: typeof motion, key: 'value' | 'first') =>
    measures.map((measure) => of.read(measure)(home)[key] ?? Number.NaN);
  const value = read(motion, 'value').map((v) => v / size);
  const rate = largest(read(motion, 'first').map((v) => (v / size) * unit));
  const scale = 1 + rate + changeOf(value, other && read(other, 'value').map((v) => v / size));
  const places = motion.at(home);
  for (const [name, at] of Object.entries(drawing.points)) {
    const off = distance(places[name], at);
    expectWithin(
      law,
      `distance of ${name} from its drawn place, driven back from`,
      place,
      off,
      0,
      allowed * size * scale,
    );
  }
}
