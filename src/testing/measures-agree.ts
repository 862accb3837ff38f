// measuresAgree: the value of a measure is that of the places of its points.

import { measureName } from '../words.ts';
import { expectMeasured } from './measured.ts';
import { everything } from './measures.ts';
import { lawOf, poseAt, spread, traced } from './setting.ts';

/** How many poses are looked at. */
const POSES = 8;

export const measuresAgree = lawOf('measuresAgree', (setting) => {
  const { drawing, driver } = setting;
  const motion = traced(setting, drawing);
  const reads = everything(drawing, driver).map((measure) => ({
    measure,
    read: motion.read(measure),
  }));
  for (const at of spread(motion, POSES)) {
    const pose = poseAt(setting, motion, at);
    for (const { measure, read } of reads) {
      expectMeasured(setting, measureName(measure), measure, pose, read(at).value);
    }
  }
});
