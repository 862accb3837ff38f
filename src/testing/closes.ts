// closes: the motion is one of this drawing. It starts as drawn, leaves the ground where it is, has the driver at the requested value,
// and where it says that it closed, it is in the drawn pose.

import { measureName } from '../words.ts';
import { expectMeasured } from './measured.ts';
import { distance } from './plane.ts';
import { lawOf, type Pose, poseAt, poses, type Setting, traced } from './setting.ts';
import { expectWithin } from './violation.ts';

export const closes = lawOf('closes', (setting) => {
  const { drawing, driver } = setting;
  const motion = traced(setting, drawing);
  const all = Object.keys(drawing.points);
  expectPlace(setting, poseAt(setting, motion, motion.drawn), all, 'its drawn place');
  if (motion.high.status === 'closed') {
    expectPlace(
      setting,
      poseAt(setting, motion, motion.high.at),
      all,
      'its drawn place, where the motion closes',
    );
  }
  for (const pose of poses(setting, motion)) {
    expectPlace(setting, pose, drawing.ground, 'its place on the ground');
    if (pose.where.driver === null) continue;
    expectMeasured(setting, `driver (${measureName(driver)}) on the points`, driver, pose, pose.where.at);
  }
});

function expectPlace(
  { law, drawing, allowed, size }: Setting,
  { where, places }: Pose,
  names: readonly string[],
  place: string,
): void {
  for (const name of names) {
    const off = distance(places[name], drawing.points[name]);
    expectWithin(law, `distance of ${name} from ${place}`, where, off, 0, allowed * size);
  }
}
