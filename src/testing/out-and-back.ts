// outAndBack: the linkage drawn anew in a pose that it came to is the same linkage: driven back by as much as it was
// driven out, it is in the drawn pose again. A change point is known to the root of a rounding only: from there it is driven half the way back.

import type { CheckedDrawing, Measure } from '../linkage/index.ts';
import { measureName } from '../words.ts';
import { coordinates, drawnValue, frameOf, isCoordinate } from './measures.ts';
import { distance, type Places } from './plane.ts';
import { changeOf, largest, nudged, reaches } from './sensitivity.ts';
import { clamp, drivenTo, lawOf, placeAt, type Setting, traced, unitOf, where } from './setting.ts';
import { expectWithin } from './violation.ts';

/** How far out: shares of the way from the drawn pose to either end. */
const SHARES = [-0.9, -0.4, 0.4, 0.9];

// Relative to a body that is drawn turned, a coordinate is another one: then something else drives.
const unfit = (measure: Measure) => isCoordinate(measure) && frameOf(measure) !== null;

export const outAndBack = lawOf(
  'outAndBack',
  (setting) => {
    const motion = traced(setting, setting.drawing);
    const isDrawn = setting.branch === null;
    if (!isDrawn) setting.skip('the last half of the way back', 'it ends in a change point');
    for (const share of SHARES) {
      const [at, home] = [placeAt(motion, share), placeAt(motion, isDrawn ? 0 : share / 2)];
      if (at === home) continue;
      const places = isDrawn ? setting.drawing.points : motion.at(home);
      expectBack(setting, motion.at(at), at, places, home - at);
    }
  },
  unfit,
);

/** Expects the places of `home` when the linkage is drawn in other places of its points, come to at `out`, and driven on by `way`. */
function expectBack(setting: Setting, points: Places, out: number, home: Places, way: number): void {
  const { law, drawing, driver, size, allowed } = setting;
  const there = { ...drawing, points };
  const start = drawnValue(driver, there);
  const unit = unitOf(driver, size);
  const target = start + way;
  const trace = (one: CheckedDrawing) => drivenTo({ ...setting, branch: null }, one, start, target);
  const [motion, other] = [trace(there), nudged(there, size, trace)];
  if (!reaches(other, target)) {
    setting.skip(
      `the way back from driver value ${out}`,
      'a drawing that differs by a little does not come home',
    );
    return;
  }

  const end = clamp(motion, target);
  const place = where(setting, out);
  expectWithin(law, `${measureName(driver)} driven back`, place, end, target, allowed * unit);
  const measures = coordinates(drawing);
  const read = (of: typeof motion, key: 'value' | 'first') =>
    measures.map((measure) => of.read(measure)(end)[key] ?? Number.NaN);
  const value = read(motion, 'value').map((v) => v / size);
  const rate = largest(read(motion, 'first').map((v) => (v / size) * unit));
  const scale = 1 + rate + changeOf(value, other && read(other, 'value').map((v) => v / size));
  const places = motion.at(end);
  for (const [name, at] of Object.entries(home)) {
    const off = distance(places[name], at);
    expectWithin(
      law,
      `distance of ${name} from its ${setting.branch === null ? 'drawn' : 'earlier'} place, driven back from`,
      place,
      off,
      0,
      allowed * size * scale,
    );
  }
}
