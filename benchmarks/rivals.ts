import { type CornerInput, drawnContactPatch } from '../tests/judges/circle-intersection.ts';
import {
  fastSweep,
  fastSweepWithRatios,
  POSITION_COLUMNS,
  RATIO_COLUMNS,
} from '../tests/judges/circle-sweep.ts';
import { textbookSweep } from '../tests/judges/circle-textbook.ts';
import { newtonSweep } from '../tests/judges/newton-corner.ts';
import { type PlanegcsDrawing, type PlanegcsModule, planegcsLinkage } from '../tests/judges/planegcs.ts';

/** A sweep that the library is held against; writes into a buffer made beforehand, of one row a travel. */
export interface Rival {
  /** The columns of a row, by the library's names. */
  readonly columns: readonly string[];
  readonly out: Float64Array;
  /** Sweeps, and returns how many rows were met. */
  run(): number;
}

/** Of the general solver's three algorithms; the other two take 1.3 to 5 times as long. */
const FASTEST = 'DogLeg';

export interface Rivals {
  /** The general solver: every point or only those needed, start extrapolated (degree 2) or the pose before (0). */
  readonly planegcs: Readonly<Record<'every2' | 'every0' | 'needed2' | 'needed0', Rival>>;
  readonly textbook: Rival;
  readonly tuned: Rival;
  readonly newton: Rival;
  /** Not timed: it judges ratio and slope. */
  readonly tunedWithRatios: Rival;
}

export function rivalsOf(gcs: PlanegcsModule, input: CornerInput, travels: Float64Array): Rivals {
  const handWritten = (
    sweep: (input: CornerInput, travels: Float64Array, out: Float64Array) => number,
    names: readonly string[],
  ): Rival => {
    const out = new Float64Array(travels.length * names.length);
    const columns = names.map((name) => name.replace(/^mount/, 'shockMount'));
    return { columns, out, run: () => sweep(input, travels, out) };
  };
  const solver = (every: boolean, order: 0 | 2): Rival => {
    const linkage = planegcsLinkage(gcs, drawingOf(input, every), { algorithm: FASTEST });
    const columns = linkage.moving.flatMap((name) => [`${name}Y`, `${name}Z`]);
    const out = new Float64Array(travels.length * columns.length);
    const values = travels.map((travel) => linkage.drawn + travel);
    return { columns, out, run: () => linkage.trace(values, out, order) };
  };
  return {
    planegcs: {
      every2: solver(true, 2),
      every0: solver(true, 0),
      needed2: solver(false, 2),
      needed0: solver(false, 0),
    },
    textbook: handWritten(textbookSweep, POSITION_COLUMNS),
    tuned: handWritten(fastSweep, POSITION_COLUMNS),
    newton: handWritten(newtonSweep, POSITION_COLUMNS),
    tunedWithRatios: handWritten(fastSweepWithRatios, RATIO_COLUMNS),
  };
}

/** The corner in points and bodies; without the points that travel and shock length can do without, unless `every`. */
function drawingOf(input: CornerInput, every: boolean): PlanegcsDrawing {
  const { lowerArm, upperArm, wheel, coilover } = input;
  const bodies = {
    lowerArm: ['lowerInner', 'lowerOuter'],
    upperArm: ['upperInner', 'upperOuter'],
    upright: ['lowerOuter', 'upperOuter', ...(every ? ['wheelCentre'] : []), 'contactPatch'],
  };
  bodies[coilover.on].push('shockMount');
  return {
    points: {
      lowerInner: lowerArm.inner,
      lowerOuter: lowerArm.outer,
      upperInner: upperArm.inner,
      upperOuter: upperArm.outer,
      ...(every ? { wheelCentre: wheel.centre } : {}),
      contactPatch: drawnContactPatch(input),
      shockMount: coilover.mount,
    },
    ground: ['lowerInner', 'upperInner'],
    bodies,
    driver: { point: 'contactPatch', axis: 'y' },
  };
}
