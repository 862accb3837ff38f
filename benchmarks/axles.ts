import { axle, doubleWishbone, sweep, sweepAxle, torsionalStiffness } from 'jounce';
import { mainCorner } from './corners.ts';
import type { Line } from './lines.ts';

/** Heaves and rolls, each so many. */
const SIDE = 41;
const POSES = SIDE * SIDE;
/** mm of bump and of droop that the wheels of the grid come to, nearly. */
const TRAVEL = 75;

const evenly = (most: number) =>
  Array.from({ length: SIDE }, (_, k) => (most * (2 * k - SIDE + 1)) / (SIDE - 1));

/** Line x: an axle over heave and roll, against its two corners apart at as many poses. */
export function axleLine(): Line {
  const left = doubleWishbone(mainCorner);
  const bar = {
    on: 'lowerArm',
    linkMount: [480, 175],
    leverEnd: [470, 330],
    leverLength: 180,
    torsionalStiffness: torsionalStiffness({ diameter: 16, length: 800 }),
  } as const;
  const whole = axle({ left, bar });
  const poses = { heave: evenly(40), roll: evenly(3) };
  const travel = { bump: TRAVEL, droop: TRAVEL, step: (2 * TRAVEL) / (POSES - 1) };
  return {
    mark: 'x',
    text: 'an axle with its bar over 41 heaves and 41 rolls, every column ÷ its two corners apart at 1681 poses each, every column',
    ours: () => sweepAxle(whole, poses),
    rival: () => [sweep(left, travel), sweep(left, travel)],
    ratio: (ours, rival) => ours / rival,
    bar: { atMost: 1.5 },
    poses: POSES,
    limit:
      'no single part. The wheels stand at no even travels, so that each has its root, and the angle of its lever; 28 arrays are made, and collected',
  };
}
