// measuresAgree: the value of a measure is that of the places of its points.

import { expectMeasured } from './measured.ts';
import { everything, nameOf } from './measures.ts';
import { type Law, poseAt, settingOf, spread, traced } from './setting.ts';

/** How many poses are looked at. */
const POSES = 8;

export const measuresAgree: Law = (build, data, options) => {
  const setting = settingOf('measuresAgree', build, data, options);
  const { drawing, driver } = setting;
  const motion = traced(setting, drawing);
  const reads = everything(drawing, driver).map((measure) => ({
    measure,
    read: motion.read(measure),
  }));
  for (const at of spread(motion, POSES)) {
    const pose = poseAt(setting, motion, at);
    for (const { measure, read } of reads) {
      expectMeasured(setting, nameOf(measure), measure, pose, read(at).value);
    }
  }
};
