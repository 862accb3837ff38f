// Corners with a rocker and chains of four-bars against the general solver, and many corners in one process.

import { doubleWishbone, pushrod, sweep } from 'jounce';
import { modelOf } from '../src/corner/corner.ts';
import { bindMeasure } from '../src/linkage/measure.ts';
import { tracePath } from '../src/linkage/motion.ts';
import { reader, readRows } from '../src/linkage/reader.ts';
import { compile } from '../src/linkage/system.ts';
import { type PlanegcsModule, planegcsLinkage } from '../tests/judges/planegcs.ts';
import { fourBarChain } from '../tests/support/four-bar-chain.ts';
import { heapGrowth } from './heap.ts';
import type { Line } from './lines.ts';
import type { Task } from './measure.ts';

const POSES = 201;

const ROCKER = {
  lowerArm: { inner: [250, 160], outer: [630, 150] },
  upperArm: { inner: [300, 340], outer: [590, 360] },
  wheel: { centre: [700, 315], contactPatch: [702, 0] },
  rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
  rocker: { pivot: [260, 400] },
  coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
} satisfies Parameters<typeof pushrod>[0];

/** Values from -reach to reach about a middle. */
function spread(middle: number, reach: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, k) => middle + reach * ((2 * k) / (count - 1) - 1));
}

/** Line g. */
export function rockerLine(gcs: PlanegcsModule): Line {
  const columns = ['shockLength', 'installationRatio', 'installationRatioSlope'];
  const { drawing, contactPatch } = modelOf(pushrod(ROCKER));
  const rival = planegcsLinkage(gcs, { ...drawing, driver: { point: contactPatch, axis: 'y' } });
  const values = spread(0, 60, POSES);
  const out = new Float64Array(2 * rival.moving.length * POSES);
  return {
    mark: 'g',
    text: 'planegcs, positions alone, every point, start extrapolated ÷ a corner with a rocker from its input to shock length, ratio and slope',
    ours: () => sweep(pushrod(ROCKER), { bump: 60, droop: 60, step: 0.6, columns }),
    rival: () => rival.trace(values, out),
    ratio: (ours, theirs) => theirs / ours,
    bar: { atLeast: 100 },
  };
}

/** A chain of so many windows swept by the first upright's end, from the drawing to all places at some poses. */
function chainTask(windows: number, poses: number): Task {
  const drawing = fourBarChain(windows, Math.PI / 2);
  const values = spread(0, 0.9, poses);
  return () => {
    const system = compile(drawing);
    const path = tracePath(system, bindMeasure(system, { x: 'B0' }, 'driver'), -0.9, 0.9);
    const names = Array.from({ length: windows + 1 }, (_, k) => `B${k}`);
    const measures = names.flatMap((name) => [
      bindMeasure(system, { x: name }, 'place'),
      bindMeasure(system, { y: name }, 'place'),
    ]);
    const r = reader(path, measures, []);
    let sum = 0;
    for (let from = 0; from < poses; ) {
      from += readRows(r, values, from);
      sum += r.m[0];
    }
    return sum;
  };
}

/** Lines h: a loop's cost against that in a chain of ten, and against the general solver. */
export function chainLines(gcs: PlanegcsModule): Line[] {
  const ten = chainTask(10, POSES);
  const growth = [1, 50, 100, 200].map(
    (windows): Line => ({
      mark: `h${windows}`,
      text: `a loop and pose in a chain of ${windows} four-bars ÷ the same in a chain of 10 (times: the whole chain)`,
      ours: chainTask(windows, POSES),
      rival: ten,
      ratio: (ours, rival) => ours / windows / (rival / 10),
      bar: { atMost: 1.5 },
      poses: POSES,
    }),
  );
  const against = [1, 10, 40].map((windows): Line => {
    const rival = planegcsLinkage(gcs, {
      ...fourBarChain(windows, Math.PI / 2),
      driver: { point: 'B0', axis: 'x' },
    });
    const values = spread(0, 0.9, POSES);
    const out = new Float64Array(2 * rival.moving.length * POSES);
    return {
      mark: `hp${windows}`,
      text: `planegcs, start extrapolated ÷ a chain of ${windows} four-bars from its drawing to all places at ${POSES} poses`,
      ours: chainTask(windows, POSES),
      rival: () => rival.trace(values, out),
      ratio: (ours, theirs) => theirs / ours,
      bar: { atLeast: 50 },
    };
  });
  return [...growth, ...against];
}

const CORNERS = 100_000;

/** Line i: corners a second, and what all of them leave on the heap. */
export function manyCorners(): string {
  let state = 1;
  const shift = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return 30 * (state / 2 ** 32 - 0.5);
  };
  const one = () =>
    sweep(
      doubleWishbone({
        lowerArm: { inner: [255 + shift(), 165 + shift()], outer: [640 + shift(), 150 + shift()] },
        upperArm: { inner: [310 + shift(), 355 + shift()], outer: [600 + shift(), 375 + shift()] },
        wheel: { centre: [705 + shift(), 312 + shift()], camber: shift() / 10 },
        coilover: {
          on: 'lowerArm',
          mount: [505 + shift(), 170 + shift()],
          chassisMount: [345 + shift(), 480 + shift()],
        },
      }),
      { bump: 80, droop: 80, step: 8, columns: ['installationRatio'] },
    );
  for (let k = 0; k < 2000; k++) one();
  const start = performance.now();
  for (let k = 0; k < CORNERS; k++) one();
  const seconds = (performance.now() - start) / 1000;
  const { bytes, noise } = heapGrowth(one, () => new Float64Array(21), CORNERS / 10);
  return `i: ${CORNERS.toLocaleString('en')} random corners, each from its input to the ratio at 21 poses, in one process: **${Math.round(CORNERS / seconds).toLocaleString('en')}** a second; heap growth over ${(CORNERS / 10).toLocaleString('en')} of them, after collection: **${Math.round(bytes.median)}** bytes, a task that keeps nothing ${Math.round(noise.median)}.`;
}
