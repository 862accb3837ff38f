// Corners of many shapes, to be drawn.
import {
  type Corner,
  customCorner,
  type DoubleWishboneInput,
  doubleWishbone,
  pushrod,
  type Sweep,
  type SweepOptions,
  strut,
  sweep,
} from 'jounce';
import { fixtureCorners } from '../judges/corners.ts';

export const plain: DoubleWishboneInput = {
  lowerArm: { inner: [240, 150], outer: [630, 140] },
  upperArm: { inner: [300, 340], outer: [585, 360] },
  wheel: { centre: [690, 295], camber: -0.6 },
  coilover: { on: 'lowerArm', mount: [505, 168], chassisMount: [350, 470] },
};

/** Name, corner, sweep: every place of the coilover, wide and tall, little and much travel, to a dead point. */
export const shapes: [name: string, input: DoubleWishboneInput, options: SweepOptions][] = [
  ['plain', plain, { bump: 70, droop: 70 }],
  ['little travel', plain, { bump: 20, droop: 20 }],
  ['hardly any travel', plain, { bump: 1, droop: 1 }],
  ['no travel', plain, { bump: 0, droop: 0 }],
  ['droop alone', plain, { bump: 0, droop: 50 }],
  ['nearly all droop', plain, { bump: 5, droop: 110 }],
  ['much travel', plain, { bump: 120, droop: 120 }],
  ['to a dead point', plain, { bump: 60, droop: 2000 }],
  ['to both dead points', plain, { bump: 2000, droop: 2000, step: 50 }],
  ['travel of the wheel centre', plain, { bump: 70, droop: 90, travelReference: 'wheelCentre' }],
  [
    'coilover on the upper arm',
    { ...plain, coilover: { on: 'upperArm', mount: [480, 352], chassisMount: [300, 600] } },
    { bump: 20, droop: 20 },
  ],
  [
    'coilover on the upright, its ends apart fore and aft',
    { ...plain, coilover: { on: 'upright', mount: [592, 250], chassisMount: [420, 560], foreAftOffset: 35 } },
    { bump: 120, droop: 120 },
  ],
  [
    'coilover across the centreline',
    { ...plain, coilover: { on: 'lowerArm', mount: [420, 160], chassisMount: [-30, 330] } },
    { bump: 60, droop: 60 },
  ],
  [
    'wide',
    {
      lowerArm: { inner: [180, 180], outer: [960, 170] },
      upperArm: { inner: [250, 330], outer: [920, 350] },
      wheel: { centre: [1030, 300], camber: -1.5 },
      coilover: { on: 'lowerArm', mount: [600, 190], chassisMount: [330, 420] },
    },
    { bump: 60, droop: 90 },
  ],
  [
    'wide, to its dead points',
    {
      lowerArm: { inner: [180, 180], outer: [960, 170] },
      upperArm: { inner: [250, 330], outer: [920, 350] },
      wheel: { centre: [1030, 300], camber: 1 },
      coilover: { on: 'upperArm', mount: [600, 340], chassisMount: [330, 620] },
    },
    { bump: 2000, droop: 2000, step: 50 },
  ],
  [
    'tall',
    {
      lowerArm: { inner: [260, 250], outer: [520, 240] },
      upperArm: { inner: [330, 560], outer: [500, 590] },
      wheel: { centre: [600, 420], camber: 0.5 },
      coilover: { on: 'upright', mount: [510, 500], chassisMount: [420, 980] },
    },
    { bump: 100, droop: 60 },
  ],
  [
    'parallel level arms, upright shock',
    {
      lowerArm: { inner: [250, 150], outer: [600, 150] },
      upperArm: { inner: [250, 350], outer: [600, 350] },
      wheel: { centre: [700, 300], contactPatch: [700, 0] },
      coilover: { on: 'lowerArm', mount: [500, 150], chassisMount: [500, 480] },
    },
    { bump: 50, droop: 50 },
  ],
  [
    'right-hand side',
    {
      lowerArm: { inner: [-240, 150], outer: [-630, 140] },
      upperArm: { inner: [-300, 340], outer: [-585, 360] },
      wheel: { centre: [-690, 295], camber: -0.6 },
      coilover: { on: 'lowerArm', mount: [-505, 168], chassisMount: [-350, 470] },
    },
    { bump: 70, droop: 70 },
  ],
  [
    'a tenth of the size',
    {
      lowerArm: { inner: [24, 15], outer: [63, 14] },
      upperArm: { inner: [30, 34], outer: [58.5, 36] },
      wheel: { centre: [69, 29.5], camber: -0.6 },
      coilover: { on: 'lowerArm', mount: [50.5, 16.8], chassisMount: [35, 47] },
    },
    { bump: 7, droop: 7, step: 0.5 },
  ],
];

const arms = {
  lowerArm: { inner: [250, 160], outer: [630, 150] },
  upperArm: { inner: [300, 340], outer: [590, 360] },
  wheel: { centre: [700, 315], contactPatch: [702, 0] },
} as const;

/** A strut whose coilover stands on the arm. */
export const strutBeside = strut({
  lowerArm: { inner: [330, 190], outer: [690, 170] },
  strut: { topMount: [560, 860], lowerMount: [640, 330] },
  wheel: { centre: [745, 300], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [560, 185], chassisMount: [470, 560], foreAftOffset: 20 },
});

/** An upright on a pillar of the chassis, without arms. */
export const pillar = customCorner({
  drawing: {
    points: {
      ...{ foot: [640, 180], head: [620, 480], low: [634, 270], high: [628, 360] },
      ...{ hub: [700, 300], patch: [702, 0], eye: [600, 220], top: [480, 640] },
    },
    ground: ['foot', 'head', 'top'],
    bodies: { upright: ['low', 'high', 'hub', 'patch', 'eye'] },
    sliders: {
      pillar: { point: 'low', on: ['foot', 'head'] },
      bush: { point: 'high', on: ['foot', 'head'] },
    },
  },
  upright: 'upright',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});

/** Corners that are no plain double wishbones, and what their pictures name beside arms and wheel. */
export const otherKinds: [name: string, corner: Corner, names: string[]][] = [
  [
    'pushrod',
    pushrod({
      ...arms,
      rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
      rocker: { pivot: [260, 400] },
      coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
    }),
    ['rod', 'rocker', 'rod mount', 'rod at the rocker', 'rocker pivot', 'shock mount, rocker'],
  ],
  [
    'pullrod',
    pushrod({
      ...arms,
      rod: { on: 'upperArm', mount: [560, 350], rockerMount: [330, 130] },
      rocker: { pivot: [280, 160] },
      coilover: { rockerMount: [300, 230], chassisMount: [60, 200] },
    }),
    ['rod', 'rocker', 'upper arm pivot', 'shock mount, chassis'],
  ],
  [
    'rod on the upright, coilover from rocker to arm',
    pushrod({
      ...arms,
      rod: { on: 'upright', mount: [600, 200], rockerMount: [345, 470] },
      rocker: { pivot: [260, 400] },
      coilover: { rockerMount: [235, 500], otherEnd: { on: 'lowerArm', mount: [380, 170] } },
    }),
    ['rod mount', 'shock mount, rocker', 'shock mount, lower arm'],
  ],
  [
    'rocker with its points in line',
    pushrod({
      ...arms,
      rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [340, 440] },
      rocker: { pivot: [280, 440] },
      coilover: { rockerMount: [210, 440], chassisMount: [200, 720] },
    }),
    ['rocker', 'rocker pivot'],
  ],
  [
    'coilover between the arms',
    doubleWishbone({
      ...arms,
      coilover: { on: 'lowerArm', mount: [540, 165], otherEnd: { on: 'upperArm', mount: [400, 348] } },
    }),
    ['shock mount, lower arm', 'shock mount, upper arm'],
  ],
  [
    'strut',
    strut({
      lowerArm: { inner: [330, 190], outer: [690, 170] },
      strut: { topMount: [560, 860], lowerMount: [640, 330] },
      wheel: { centre: [745, 300], camber: -0.5 },
    }),
    ['strut top', 'strut, lower end', 'lower ball joint'],
  ],
  [
    'strut with its coilover beside it',
    strutBeside,
    ['strut', 'strut top', 'strut lower', 'shock mount, chassis'],
  ],
];

export function swept(input: DoubleWishboneInput, options: SweepOptions = {}): Sweep {
  return sweep(doubleWishbone(input), options);
}

/** Corners drawn at random for the judges, with the travel they were made for. */
export const randomCorners: [name: string, input: DoubleWishboneInput][] = fixtureCorners.map(
  ({ name, input }) => [name, input as DoubleWishboneInput],
);
