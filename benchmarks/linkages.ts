// Corners with a rocker and chains of four-bars against the general solver, and many corners in one process.

import { doubleWishbone, pushrod, sweep } from 'jounce';
import { modelOf } from '../src/corner/corner.ts';
import { type BoundMeasure, bindMeasure } from '../src/linkage/measure.ts';
import { tracePath } from '../src/linkage/motion.ts';
import { READING, reader, readRows } from '../src/linkage/reader.ts';
import { compile, type System } from '../src/linkage/system.ts';
import { type PlanegcsModule, planegcsLinkage } from '../tests/judges/planegcs.ts';
import { fourBarChain } from '../tests/support/four-bar-chain.ts';
import { scissorLift } from '../tests/support/scissor-lift.ts';
import { idealPass, idealSweep, placesOf } from './floor.ts';
import { bytesInUse } from './heap.ts';
import { FIXED, type Line, timesFaster } from './lines.ts';
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

/** mm, and metres. */
const SAME = 1e-9;

/** Values from -reach to reach. */
function spread(reach: number): Float64Array {
  return Float64Array.from({ length: POSES }, (_, k) => reach * ((2 * k) / (POSES - 1) - 1));
}

/** A sweep and its rival, seen to compute the same: the rival has met every pose, and differs nowhere by more than `SAME`. */
function agreed(who: string, met: number, ours: ArrayLike<number>, rival: ArrayLike<number>): void {
  if (met !== POSES) throw new Error(`${who}: ${met} poses of ${POSES}`);
  if (ours.length !== rival.length) throw new Error(`${who}: ${ours.length} numbers, and ${rival.length}`);
  for (let i = 0; i < ours.length; i++) {
    const apart = Math.abs(ours[i] - rival[i]);
    if (!(apart <= SAME)) throw new Error(`${who}: differs by ${apart} at ${i}`);
  }
}

/** Line g. */
export function rockerLine(gcs: PlanegcsModule): Line {
  const travel = { bump: 60, droop: 60, step: 0.6 };
  const model = modelOf(pushrod(ROCKER));
  const { drawing, contactPatch } = model;
  const solver = planegcsLinkage(gcs, { ...drawing, driver: { point: contactPatch, axis: 'y' } });
  const { moving } = solver;
  const values = spread(60).map((value) => solver.drawn + value);
  const out = new Float64Array(2 * moving.length * POSES);
  const rival = () => solver.trace(values, out);

  const columns = moving.flatMap((name) => [`${name}Y`, `${name}Z`]);
  const swept = sweep(pushrod(ROCKER), { ...travel, columns }).rows();
  agreed(
    'g',
    rival(),
    swept.flatMap((row) => columns.map((name) => row[name] ?? Number.NaN)),
    out,
  );
  const ratios = ['shockLength', 'installationRatio', 'installationRatioSlope'];
  return {
    mark: 'g',
    text: 'planegcs, positions alone, every point, start extrapolated ÷ a corner with a rocker from its input to shock length, ratio and slope',
    ours: () => sweep(pushrod(ROCKER), { ...travel, columns: ratios }),
    rival,
    ratio: timesFaster,
    bar: { atLeast: 130 },
    floor: {
      ours: idealSweep(model, { ...travel, columns: ratios }, [
        () => pushrod(ROCKER),
        () => compile(drawing),
      ]),
      rival,
    },
    limit: FIXED,
  };
}

/** Both coordinates of each point. */
function placesIn(system: System, names: readonly string[]): BoundMeasure[] {
  return names.flatMap((name) => [
    bindMeasure(system, { x: name }, 'place'),
    bindMeasure(system, { y: name }, 'place'),
  ]);
}

/** Turn of the first upright from upright, either way; it lies flat at 1.571. */
const TURN = 1.2;

/** A chain of so many windows, from its drawing to the places of its moving points in `out`, by the first upright's turn; and the floor. */
function chain(windows: number): { run: Task; out: Float64Array; ideal: Task } {
  const drawing = fourBarChain(windows, Math.PI / 2);
  const driver = { turn: 'upright0' };
  const turns = spread(TURN);
  const names = Array.from({ length: windows + 1 }, (_, k) => `B${k}`);
  const width = 2 * names.length;
  const out = new Float64Array(width * POSES);
  const lay = () => {
    const system = compile(drawing);
    const path = tracePath(system, bindMeasure(system, driver, 'driver'), -TURN, TURN);
    return { path, measures: placesIn(system, names) };
  };
  const run = () => {
    const { path, measures } = lay();
    const r = reader(path, measures, []);
    for (let first = 0; first < POSES; ) {
      const rows = readRows(r, turns, first);
      for (let row = 0; row < rows; row++) {
        for (let i = 0; i < width; i++) out[(first + row) * width + i] = r.m[i * READING + row];
      }
      first += rows;
    }
    return out;
  };
  run();
  const closed = Float64Array.from(out, (_, q) => {
    const turn = turns[Math.floor(q / width)];
    const i = q % width;
    return i % 2 === 0 ? i / 2 - Math.sin(turn) : Math.cos(turn);
  });
  agreed(`chain of ${windows}`, POSES, out, closed);
  const { path, measures } = lay();
  const read = placesOf(measures, path.system.unknowns, POSES);
  return { run, out, ideal: idealPass(path, read, [() => compile(drawing)]) };
}

/** Lines h: a loop's cost against that in a chain of ten, and against the general solver. */
export function chainLines(gcs: PlanegcsModule): Line[] {
  const ten = chain(10);
  const growth = [1, 50, 100, 200].map((windows): Line => {
    const { run, ideal } = chain(windows);
    return {
      mark: `h${windows}`,
      text: `a loop and pose in a chain of ${windows} four-bars ÷ the same in a chain of 10 (times: the whole chain)`,
      ours: run,
      rival: ten.run,
      ratio: (ours, rival) => ours / windows / (rival / 10),
      bar: { atMost: 1.5 },
      floor: { ours: ideal, rival: ten.ideal },
      limit:
        'a single loop has two pins to read, and a loop of ten has 1.1. Ten loops also share the work that is done once for each path',
      poses: POSES,
    };
  });
  const against = (
    [
      [1, 60],
      [10, 80],
      [40, 150],
    ] as const
  ).map(([windows, atLeast]): Line => {
    const { run, out, ideal } = chain(windows);
    const solver = planegcsLinkage(gcs, {
      ...fourBarChain(windows, Math.PI / 2),
      driver: { point: 'B0', axis: 'x' },
    });
    // It can prescribe a coordinate and no turn.
    const values = spread(TURN).map((turn) => -Math.sin(turn));
    const theirs = new Float64Array(out.length);
    const rival = () => solver.trace(values, theirs);
    agreed(`hp${windows}`, rival(), out, theirs);
    return {
      mark: `hp${windows}`,
      text: `planegcs, start extrapolated ÷ a chain of ${windows} four-bars from its drawing to all places at ${POSES} poses`,
      ours: run,
      rival,
      ratio: timesFaster,
      bar: { atLeast },
      floor: { ours: ideal, rival },
      limit: 'the ideal pass omits the check of both ends of the path, binding, copying blocks of rows',
    };
  });
  return [...growth, ...against];
}

const CELLS = 80;
const MORE_CELLS = 320;
const BAR = 1000;

/** A scissor lift of so many cells: its drawing, its whole path from flat to upright, and all places at every pose. */
function lift(cells: number): { run: Task; ideal: Task; pieces: number } {
  const drawing = scissorLift(cells, BAR, 0.6);
  const names = Object.keys(drawing.points);
  const lay = () => {
    const system = compile(drawing);
    const driver = bindMeasure(system, { x: 'right0' }, 'driver');
    const path = tracePath(system, driver, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
    return { path, measures: placesIn(system, names) };
  };
  const run = () => {
    const { path, measures } = lay();
    const r = reader(path, measures, []);
    const { low, high } = path;
    const values = spread(1).map((part) => low.at + 0.5 * (1 + part) * (high.at - low.at));
    values[POSES - 1] = high.at;
    let top = 0;
    for (let first = 0; first < POSES; ) {
      const rows = readRows(r, values, first);
      top = r.m[measures.length * READING - READING];
      if (first === 0) expectHeight(cells, values[0], top);
      first += rows;
    }
    return top;
  };
  const { path, measures } = lay();
  const read = placesOf(measures, path.system.unknowns, POSES);
  return { run, ideal: idealPass(path, read, [() => compile(drawing)]), pieces: path.pieces.length };
}

/** mm; close to where all lies flat the height follows from the width by a root. */
const NEAR_FLAT = 1e-3;

function expectHeight(cells: number, width: number, height: number): void {
  const wanted = cells * Math.sqrt(BAR * BAR - width * width);
  if (!(Math.abs(height - wanted) <= NEAR_FLAT * cells)) {
    throw new Error(`scissor lift of ${cells}: ${height} mm high, not ${wanted}`);
  }
}

/** Line s: how the whole of a long chain grows. */
export function liftLine(): Line {
  const [more, fewer] = [lift(MORE_CELLS), lift(CELLS)];
  return {
    mark: 's',
    text: `CPU time of a scissor lift of ${MORE_CELLS} cells ÷ of ${CELLS}: drawing, whole path, all places at ${POSES} poses`,
    ours: more.run,
    rival: fewer.run,
    floor: { ours: more.ideal, rival: fewer.ideal },
    ratio: (ours, rival) => ours / rival,
    bar: { atMost: 5 },
    limit: `rounding: near the flat pose all cells are free at once, which keeps pieces short. The longer lift takes ${more.pieces} pieces and the shorter ${fewer.pieces}, and each piece takes four times as long`,
    clock: 'cpu',
  };
}

const CORNERS = 100_000;

/** Corners a second that line i is to reach. */
const ASKED = 25_000;

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
  const before = bytesInUse();
  const start = performance.now();
  for (let k = 0; k < CORNERS; k++) one();
  const seconds = (performance.now() - start) / 1000;
  const growth = bytesInUse() - before;
  return `i: ${CORNERS.toLocaleString('en')} random corners, each from its input to the ratio at 21 poses, in one process: **${Math.round(CORNERS / seconds).toLocaleString('en')}** per second; target: at least ${ASKED.toLocaleString('en')}, ${CORNERS / seconds >= ASKED ? 'met' : 'missed'}; heap growth over all corners, after collection: **${growth.toLocaleString('en')}** bytes.`;
}
