// The names of a drawing in its type, read by the compiler alone, as contract.ts is.

import { customCorner } from 'jounce';
import {
  type CheckedDrawing,
  type Drawing,
  drive,
  linkage,
  type Measure,
  type Motion,
  mobility,
  otherAssemblyMode,
  type Point,
  placePoints,
  range,
  trace,
  withLengths,
} from 'jounce/linkage';
import { equilibria, equilibriaFrom, followEquilibrium, followEquilibriumFrom, forces } from 'jounce/statics';
import {
  couplerCurve,
  extremeValues,
  mechanicalAdvantage,
  synthesise,
  transmissionAngle,
} from 'jounce/synthesis';
import { checkLaws } from 'jounce/testing';

type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
function holds<_Statement extends true>(): void {}

const fourBar = linkage({
  points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
});
holds<Same<typeof fourBar, CheckedDrawing<'O' | 'A' | 'B' | 'C', 'crank' | 'coupler' | 'rocker', never>>>();

linkage({
  points: { O: [0, 0], A: [0, 40], C: [100, 0], B: [100, 75] },
  ground: ['O', 'C'],
  bodies: { pinion: ['O', 'A'], wheel: ['C', 'B'] },
  // @ts-expect-error: misspelt
  ratios: { mesh: { of: [{ turn: 'wheel' }, { turn: 'pinon' }], ratio: -0.5 } },
  // @ts-expect-error: no such point
  ropes: { stay: ['A', { about: 'D', radius: 3, side: 'left' }, 'B'] },
});

export function named(): void {
  const motion = trace(fourBar, { driver: { turn: 'crank' }, hold: [{ length: ['A', 'C'] }] });
  holds<Same<typeof motion, Motion<'O' | 'A' | 'B' | 'C', 'crank' | 'coupler' | 'rocker'>>>();
  const pose = motion.at(0);
  holds<Same<typeof pose.A, Point>>();
  holds<Same<keyof typeof pose, 'O' | 'A' | 'B' | 'C'>>();
  motion.read({ y: 'B', relativeTo: 'crank' });
  motion.extremes({ angle: ['A', 'B'] });
  // @ts-expect-error: no such point
  pose.D;
  // @ts-expect-error: misspelt
  trace(fourBar, { driver: { turn: 'crnk' } });
  // @ts-expect-error: no such body
  trace(fourBar, { drivers: [{ driver: { turn: 'crnk' }, to: 1 }] });
  trace(fourBar, { drivers: [{ driver: { turn: 'crank' }, schedule: (u) => [u, 1, 0] }] });
  // @ts-expect-error: a point is no body
  trace(fourBar, { driver: { turn: 'A' } });
  // @ts-expect-error: no such point
  trace(fourBar, { hold: [{ x: 'D' }] });
  // @ts-expect-error: no such point
  motion.read({ length: ['A', 'D'] });
  // @ts-expect-error: no such body
  motion.read({ x: 'A', relativeTo: 'frame' });
  // @ts-expect-error: no such body
  motion.extremes({ turn: 'frame' });

  extremeValues(motion, { velocityRatio: { turn: 'rocker' } });
  couplerCurve(motion, 'A', { relativeTo: 'rocker' });
  transmissionAngle(motion, { coupler: ['A', 'B'], output: ['B', 'C'] });
  // @ts-expect-error: misspelt
  extremeValues(motion, { velocityRatio: { turn: 'rockr' } });
  // @ts-expect-error: no such point
  couplerCurve(motion, 'D');
  // @ts-expect-error: no such point
  transmissionAngle(motion, { coupler: ['A', 'D'], output: ['B', 'C'] });
  // @ts-expect-error: no such body
  mechanicalAdvantage(motion, { turn: 'frame' });
  const task = { driver: { turn: 'crank' }, from: 0, to: 1 } as const;
  const made = synthesise(fourBar, {
    ...task,
    move: { A: { x: [-10, 10] } },
    objectives: [{ path: 'B', through: [[1, 2]] }],
  });
  holds<Same<typeof made.drawing, typeof fourBar>>();
  // @ts-expect-error: no such point
  synthesise(fourBar, { ...task, move: { D: { x: [0, 1] } }, objectives: [] });
  synthesise(fourBar, {
    ...task,
    move: {},
    // @ts-expect-error: no such body
    objectives: [{ quantity: { turn: 'frame' }, at: [0], values: [0] }],
  });

  const driven = drive(fourBar, [{ driver: { turn: 'crank' }, to: 1 }]);
  holds<Same<typeof driven.drawing, typeof fourBar>>();
  // @ts-expect-error: misspelt
  drive(fourBar, [{ driver: { turn: 'crnk' }, to: 1 }]);
  holds<Same<ReturnType<typeof otherAssemblyMode<'A', 'crank'>>, CheckedDrawing<'A', 'crank', never>>>();
  otherAssemblyMode(fourBar, 'B').points.B.map(Math.round);
  // @ts-expect-error: no such point
  otherAssemblyMode(fourBar, 'D');
  const longer = withLengths(fourBar, { coupler: 122 }, { x: 'A' });
  holds<Same<typeof longer.shortfall, { readonly coupler: number }>>();
  // @ts-expect-error: no such body
  withLengths(fourBar, { coupling: 122 }, { x: 'A' });
  // @ts-expect-error: no such point
  withLengths(fourBar, { coupler: 122 }, { x: 'D' });
  range(fourBar, { driver: { turn: 'rocker' } });
  // @ts-expect-error: misspelt
  range(fourBar, { driver: { turn: 'rockr' } });
  mobility(fourBar);

  forces(fourBar, [{ at: 'B', force: [0, -9], on: 'rocker' }], { driver: { turn: 'crank' } });
  // @ts-expect-error: no such point
  forces(fourBar, [{ at: 'D', force: [0, -9] }]);
  // @ts-expect-error: no such body
  forces(fourBar, [{ on: 'frame', moment: 3 }]);
  // @ts-expect-error: misspelt
  forces(fourBar, [], { driver: { turn: 'crnk' } });
  // @ts-expect-error: no such body
  forces(fourBar, [], { drivers: [{ turn: 'crnk' }] });

  const rests = equilibria(motion, [
    { at: 'B', force: [0, -9] },
    { at: 'B', force: [0, -9], relativeTo: 'rocker' },
    { along: { turn: 'rocker', relativeTo: 'coupler' }, rate: 3, freeAt: 0 },
  ]);
  holds<Same<keyof (typeof rests.equilibria)[number]['points'], 'O' | 'A' | 'B' | 'C'>>();
  followEquilibrium(motion, [], [{ on: 'crank', moment: 1 }]);
  // @ts-expect-error: no such body
  equilibria(motion, [{ at: 'B', force: [0, -9], relativeTo: 'frame' }]);
  // @ts-expect-error: no such point
  equilibria(motion, [{ along: { length: ['A', 'D'] }, rate: 3, freeAt: 0 }]);
  // @ts-expect-error: no such point
  followEquilibrium(motion, [], [{ at: 'D', force: [0, 1] }]);

  const reached = equilibriaFrom(fourBar, [{ at: 'B', force: [0, -9] }], {
    starts: [[{ driver: { turn: 'crank' }, to: 1 }]],
  });
  holds<Same<keyof (typeof reached)[number]['points'], 'O' | 'A' | 'B' | 'C'>>();
  followEquilibriumFrom(
    fourBar,
    [],
    [
      { bar: 'coupler', by: 1 },
      { along: { y: 'B' }, rate: 3, freeBy: 1 },
    ],
  );
  // @ts-expect-error: no such point
  equilibriaFrom(fourBar, [{ at: 'D', force: [0, -9] }]);
  // @ts-expect-error: no such body
  followEquilibriumFrom(fourBar, [], [{ bar: 'frame', by: 1 }]);
}

/** A telescope is driven, read and seen from as a body is; what a drawing lists is what it has. */
export function joints(): void {
  const parts = {
    points: { O: [0, 0], A: [0, 50], P: [140, 50], near: [100, 50], far: [300, 50] },
    bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
  } as const;
  const press = linkage({
    ...parts,
    ground: ['O', 'near', 'far'],
    sliders: { piston: { point: 'P', on: ['near', 'far'] } },
    telescopes: { ram: ['O', 'P'] },
    fixedAngles: { upright: ['ram', ['O', 'A']] },
    fixedCoordinates: [{ x: 'A' }],
  });
  trace(press, { driver: { turn: 'ram' } }).read({ turn: 'rod', relativeTo: 'ram' });
  // @ts-expect-error: misspelt
  linkage({ ...parts, ground: ['O', 'nere', 'far'] });
  // @ts-expect-error: no such point
  linkage({ points: parts.points, ground: ['O'], bodies: { crank: ['O', 'Q'] } });
  // @ts-expect-error: no such point
  linkage({ ...parts, ground: ['O'], sliders: { piston: { point: 'Q', on: ['near', 'far'] } } });
  // @ts-expect-error: no such point
  linkage({ ...parts, ground: ['O'], telescopes: { ram: ['O', 'Q'] } });
  // @ts-expect-error: no such body
  linkage({ ...parts, ground: ['O'], fixedAngles: { kept: ['coupler'] } });
  // @ts-expect-error: no such point
  linkage({ ...parts, ground: ['O'], fixedCoordinates: [{ y: 'Q' }] });
}

/** Points placed from each other have the names given, and know no others. */
export function placed(): void {
  const points = placePoints({
    O: [0, 0],
    C: [100, 0],
    A: { from: 'O', length: 40, angle: 1 },
    B: { from: ['A', 'C'], lengths: [120, 70], side: 'left' },
  });
  holds<Same<typeof points, Record<'O' | 'C' | 'A' | 'B', Point>>>();
  linkage({ points, ground: ['O', 'C'], bodies: { crank: ['O', 'A'], coupler: ['A', 'B'] } });
  // @ts-expect-error: no such point
  placePoints({ O: [0, 0], A: { from: 'Q', length: 40, angle: 1 } });
  // @ts-expect-error: no such side
  placePoints({ O: [0, 0], C: [9, 0], A: { from: ['O', 'C'], lengths: [6, 6], side: 'up' } });
}

/** An object that was written elsewhere has names as well, and points that are lists of numbers. */
export function written(places: Readonly<Record<string, number[]>>): void {
  const crank = { points: { O: [0, 0], A: [0, 40] }, ground: ['O'], bodies: { crank: ['O', 'A'] } };
  holds<Same<typeof crank.points.A, number[]>>();
  trace(crank, { driver: { turn: 'crank' } })
    .at(0)
    .A.map(Math.round);
  // @ts-expect-error: misspelt
  trace(crank, { driver: { turn: 'crnk' } });
  linkage({ ...crank, ground: ['O'], bodies: { crank: ['O', 'A'] } });
  trace({ points: places, ground: ['O'], bodies: {} })
    .at(0)
    .anything?.map(Math.round);
  checkLaws(() => crank, 0);
}

/** Names that only the program's run knows. */
export function unnamed(drawing: Drawing, measure: Measure, plain: Motion): void {
  const motion = trace(linkage(drawing), { driver: measure, hold: [measure] });
  holds<Same<typeof motion, Motion>>();
  motion.read(measure);
  drive(drawing, [{ driver: measure, to: 1 }]).drawing.points.anything?.map(Math.round);
  otherAssemblyMode(drawing, 'anything');
  withLengths(drawing, { anything: 1 }, { x: 'anything' }).shortfall.anything.toFixed(1);
  range(drawing, { driver: measure });
  const all: readonly Drawing[] = [fourBar, drawing];
  const motions: readonly Motion[] = [trace(fourBar), plain];
  for (const one of all) forces(one, [{ at: 'anything', force: [0, 1] }]);
  for (const one of motions) one.read(measure);
}

/** What drives a law is in the drawing that it checks, whatever that is made of. */
export function laws(): void {
  checkLaws(() => fourBar, 0, { driver: { turn: 'crank' }, range: [-0.3, 0.3] });
  // @ts-expect-error: misspelt
  checkLaws(() => fourBar, 0, { driver: { turn: 'crnk' } });
  // @ts-expect-error: misspelt
  checkLaws(() => fourBar, 0, { rnage: [-0.3, 0.3] });
}

/** The parts of a corner of one's own are in its drawing. */
export function ownCorner(): void {
  const parts = {
    drawing: {
      points: { knee: [200, 300], centre: [700, 300], patch: [700, 0], foot: [400, 300], top: [400, 600] },
      ground: ['knee', 'top'],
      bodies: { axle: ['knee', 'centre', 'patch', 'foot'] },
    },
    upright: 'axle',
    wheelCentre: 'centre',
    contactPatch: 'patch',
    shock: { outer: 'foot', inner: 'top' },
  } as const;
  customCorner({
    ...parts,
    angles: { axle: { turn: 'axle' }, line: { angle: ['knee', 'centre'] } },
    camber: -1,
  });
  // @ts-expect-error: a point is no body
  customCorner({ ...parts, upright: 'knee' });
  // @ts-expect-error: misspelt
  customCorner({ ...parts, wheelCentre: 'center' });
  // @ts-expect-error: no such point
  customCorner({ ...parts, shock: { outer: 'foot', inner: 'tower' } });
  // @ts-expect-error: no such body
  customCorner({ ...parts, angles: { axle: { turn: 'axel' } } });
}
