import {
  axle,
  type CarOnAxles,
  type Corner,
  doubleWishbone,
  equilibrium,
  steadyCornering,
  sweep,
  sweepAxle,
  torsionalStiffness,
} from 'jounce';
import { mainCorner } from './corners.ts';
import { type Line, timesFaster } from './lines.ts';

/** Heaves and rolls, each so many. */
const SIDE = 41;
const POSES = SIDE * SIDE;
/** mm of bump and of droop that the wheels of the grid come to, nearly. */
const TRAVEL = 75;
const BAR = {
  on: 'lowerArm',
  linkMount: [480, 175],
  leverEnd: [470, 330],
  leverLength: 180,
  torsionalStiffness: torsionalStiffness({ diameter: 16, length: 800 }),
} as const;

/** About 0, each with its exact opposite. */
const evenly = (most: number) =>
  Array.from({ length: SIDE }, (_, k) => (most * (2 * k - SIDE + 1)) / (SIDE - 1));

/** Lines x: an axle over heave and roll, against its two corners apart at as many poses. */
export function axleLines(): Line[] {
  const corner = doubleWishbone(mainCorner);
  const narrower = doubleWishbone({
    ...mainCorner,
    lowerArm: {
      ...mainCorner.lowerArm,
      inner: [mainCorner.lowerArm.inner[0] - 5, mainCorner.lowerArm.inner[1]],
    },
  });
  return [axleLine('x1', 'alike', corner, corner), axleLine('x2', 'unlike', corner, narrower)];
}

function axleLine(mark: string, how: string, left: Corner, right: Corner): Line {
  const whole = axle({ left, right, bar: BAR });
  const poses = { heave: evenly(40), roll: evenly(3) };
  const travel = { bump: TRAVEL, droop: TRAVEL, step: (2 * TRAVEL) / (POSES - 1) };
  return {
    mark,
    text: `an axle of corners ${how}, with its bar, over 41 heaves and 41 rolls, every column ÷ its two corners apart at 1681 poses each, every column`,
    ours: () => sweepAxle(whole, poses),
    rival: () => [sweep(left, travel), sweep(right, travel)],
    ratio: (ours, rival) => ours / rival,
    bar: { atMost: 1.5 },
    poses: POSES,
  };
}

/** Lateral accelerations, up to so many g. */
const STATES = 100;
const MOST_G = 1;

/** Line y: a car through lateral accelerations, against each of its equilibria apart. */
export function corneringLine(): Line {
  const coilover = {
    springRate: 48,
    gasForce: 130,
    damper: { extendedLength: 385, compressedLength: 270 },
    bumpStop: {
      height: 36,
      table: [
        [6, 260],
        [12, 800],
        [18, 2100],
        [25, 5200],
      ],
    },
    damping: 3100,
  } as const;
  const left = doubleWishbone(mainCorner);
  const car = {
    front: {
      linkage: axle({ left, bar: BAR }),
      sprungMass: 341,
      unsprungMass: 29,
      left: coilover,
      tyreRate: 210,
    },
    rear: { linkage: axle({ left }), sprungMass: 388, unsprungMass: 33, left: coilover, tyreRate: 230 },
    sprungCentreOfGravityHeight: 452,
    wheelbase: 2380,
  } satisfies CarOnAxles;
  const lateralAccelerations = Array.from({ length: STATES }, (_, k) => (MOST_G * (k + 1)) / STATES);
  return {
    mark: 'y',
    text: `equilibria of a car at ${STATES} lateral accelerations, each apart ÷ the car through all of them, with what happens on the way`,
    ours: () => steadyCornering(car, { lateralAccelerations }),
    rival: () => lateralAccelerations.map((lateralAcceleration) => equilibrium(car, { lateralAcceleration })),
    ratio: timesFaster,
    poses: STATES,
  };
}
