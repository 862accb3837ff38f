// The contract of names and types, read by the compiler alone (npm run types): against the sources here, and against
// the declarations of the packed tarball in npm run test:package. A line that stops failing where it should fails.

import fc, * as fastCheck from 'fast-check';
import {
  type CarFile,
  type ColumnOf,
  type Corner,
  type CornerDocument,
  type DistanceInput,
  type DoubleWishbone,
  type DoubleWishboneInput,
  doubleWishbone,
  InputError,
  type Issue,
  type Limit,
  type LimitCause,
  limits,
  type Pose,
  type Pushrod,
  pushrod,
  type Row,
  readCar,
  readCorner,
  type Strut,
  type StrutInput,
  type SurveyInput,
  type strut,
  survey,
  sweep,
  sweepCsv,
  type VegaLite,
  vegaCurves,
} from 'jounce';
import {
  type Drawing,
  type InputError as FaultOfLinkage,
  type MotionStatus,
  type mobility,
  type Point,
  type Reading,
  trace,
} from 'jounce/linkage';
import { forces } from 'jounce/statics';
import {
  checkLaws,
  doubleWishbones,
  type FastCheck,
  fourBars,
  type LawViolation,
  laws,
  linkages as linkagesBy,
  pushrods,
} from 'jounce/testing';

/** Compiles where the two are one and the same type. */
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
function holds<_Statement extends true>(): void {}

export function corners(): Corner[] {
  const drawn = {
    lowerArm: { inner: [255, 165], outer: [640, 150] },
    upperArm: { inner: [310, 355], outer: [600, { value: 375, plusMinus: 2 }] },
    wheel: { centre: [705, 312], camber: -0.5 },
    coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
  } satisfies DoubleWishboneInput;
  const front = doubleWishbone({ ...drawn });
  holds<Same<typeof front, DoubleWishbone>>();
  holds<Same<typeof front.kind, 'doubleWishbone'>>();
  // @ts-expect-error: what is made is not changed
  front.kind = 'doubleWishbone';
  // @ts-expect-error: a point has two coordinates
  doubleWishbone({ ...drawn, lowerArm: { inner: [255], outer: [640, 150] } });
  // @ts-expect-error: no such part
  doubleWishbone({ ...drawn, coilover: { on: 'chassis', mount: [505, 170], chassisMount: [345, 480] } });
  // @ts-expect-error: misspelt
  doubleWishbone({ ...drawn, lowerarm: { inner: [255, 165], outer: [640, 150] } });
  // @ts-expect-error: neither wheel nor coilover
  doubleWishbone({ lowerArm: drawn.lowerArm, upperArm: drawn.upperArm });

  const rear = pushrod({
    lowerArm: { inner: [250, 160], outer: [630, 150] },
    upperArm: { inner: [300, 340], outer: [590, 360] },
    wheel: { centre: [700, 315], contactPatch: [702, 0] },
    rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
    rocker: { pivot: [260, 400] },
    coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
  });
  holds<Same<typeof rear, Pushrod>>();
  holds<Same<ReturnType<typeof strut>, Strut>>();
  return [front, rear];
}

export function sweeps(corner: Corner): string {
  const curves = sweep(corner, { bump: 70, droop: 70, travelReference: 'wheelCentre' });
  // @ts-expect-error: no such axis
  sweep(corner, { travelReference: 'hub' });
  // @ts-expect-error: no such option
  sweep(corner, { rebound: 70 });
  // @ts-expect-error: a corner is made first
  sweep({ lowerArm: { inner: [255, 165], outer: [640, 150] } });

  holds<Same<typeof curves.columns.shockLength, Float64Array>>();
  holds<Same<typeof curves.columns.instantCentreY, readonly (number | null)[]>>();
  const row = curves.at(25);
  holds<Same<typeof row.installationRatio, number | null>>();
  holds<Same<typeof row.shockLength, number>>();
  holds<Same<typeof row.instantCentreZ, number | null>>();
  holds<Same<typeof row, Pose<ColumnOf>>>();
  holds<Same<ReturnType<typeof curves.rows>, Row<ColumnOf>[]>>();
  holds<Same<typeof curves.end.bump.status, MotionStatus>>();
  holds<Same<typeof curves.end.droop.travel, number>>();
  // @ts-expect-error: results are read
  curves.columns.travel = new Float64Array(1);

  const specification: VegaLite = vegaCurves(curves, { panels: ['camber'], limits: limits(corner) });
  return `${sweepCsv(curves)}${JSON.stringify(specification)}`;
}

export function ends(corner: Corner): string {
  const found = limits(corner, {
    damper: { extendedLength: 385, compressedLength: 300 },
    bumpStop: { height: 35, solidHeight: 12 },
    tyre: '205/50R15',
    ballJoints: { lowerOuter: { maxArticulation: 25, housing: 'arm' } },
    required: { bump: 60 },
  });
  // @ts-expect-error: half a damper
  limits(corner, { damper: { extendedLength: 385 } });
  holds<Same<typeof found.bump, Limit | null>>();
  holds<Same<typeof found.later, readonly Limit[]>>();
  holds<Same<Limit['cause'], LimitCause>>();
  holds<Same<Limit['side'], 'bump' | 'droop'>>();
  // @ts-expect-error: there may be no limit
  found.bump.travel.toFixed(1);
  const cause: LimitCause | undefined = found.droop?.cause;
  return cause === 'damperExtended'
    ? (found.droop?.diagnostic.code ?? '')
    : found.misfits.map(({ code }) => code).join();
}

/** Files as literals, whose lists may be readonly, and the parts of one as the functions take them. */
export function files(): void {
  const car = {
    units: 'imperial',
    corners: {
      front: {
        lowerArm: { inner: [10, 6.5], outer: [25, 6] },
        upperArm: { inner: [12, 14], outer: [23.5, { value: 14.75, plusMinus: 0.1 }] },
        wheel: { centre: [27.75, 12.25], camber: -0.5 },
        coilover: { on: 'lowerArm', mount: [20, 6.75], chassisMount: [13.5, 19] },
        limits: { arch: [[27, 26]], ballJoints: { lowerOuter: { maxArticulation: 25, housing: 'arm' } } },
        sizing: {
          unsprungMass: 60,
          bumpStopTable: [[0.5, 90]],
          damping: { ratio: 0.3, shaftSpeeds: [2, 6] },
        },
      },
    },
    masses: { estimate: { total: 1500, frontFraction: 0.48 }, states: [{ name: 'empty', loads: [] }] },
  } as const satisfies CarFile;
  readCar(car);
  const { lowerArm, upperArm, wheel, coilover, limits: given } = car.corners.front;
  limits(doubleWishbone({ lowerArm, upperArm, wheel, coilover }), given);
  const { front, rear }: CarFile['corners'] = car.corners;
  limits(readCorner(front).corner, front.limits);
  // @ts-expect-error: there may be no rear corner
  rear.limits;
  // @ts-expect-error: misspelt
  ({ ...car, mases: {} }) satisfies CarFile;
  // @ts-expect-error: no part of a strut
  ({ on: 'upperArm', mount: [505, 170], chassisMount: [345, 480] }) satisfies StrutInput['coilover'];

  const readings = {
    points: { inner: { known: [255, 165] }, outer: { estimate: [640, 150] } },
    distances: [{ between: ['inner', 'outer'], value: 385 }],
    heights: [{ of: 'outer', value: 150, plusMinus: 2 }],
  } as const satisfies SurveyInput;
  survey(readings);
  // @ts-expect-error: a distance is that of two points
  ({ between: ['inner'], value: 385 }) satisfies DistanceInput;
}

export function documents(text: string): CornerDocument | readonly Issue[] {
  try {
    const read = readCorner(text);
    sweep(read.corner);
    limits(read.corner, read.limits);
    return read;
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
}

export function linkages(): number | null {
  const drawing: Drawing = {
    points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
    ground: ['O', 'C'],
    bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
  };
  const motion = trace(drawing, { driver: { turn: 'crank' }, from: 0, to: 1 });
  // @ts-expect-error: one measure drives
  trace(drawing, { driver: { turn: 'crank', x: 'A', nothing: 1 } });
  // @ts-expect-error: a length is that of two points
  motion.read({ length: ['A'] });
  // @ts-expect-error: a drawing has bodies
  trace({ points: drawing.points, ground: drawing.ground });
  const reading = motion.read({ y: 'B', relativeTo: 'crank' })(0.5);
  holds<Same<typeof reading, Reading>>();
  holds<
    Same<Reading, { readonly value: number; readonly first: number | null; readonly second: number | null }>
  >();
  holds<Same<ReturnType<typeof motion.at>, Record<string, Point>>>();
  holds<Same<typeof motion.high.status, MotionStatus>>();
  holds<
    Same<
      MotionStatus,
      'reached' | 'deadPoint' | 'closed' | 'locked' | 'bifurcation' | 'unbounded' | 'stepLimit'
    >
  >();
  holds<Same<ReturnType<typeof mobility>['degreesOfFreedom'], number>>();
  // @ts-expect-error: a moment acts on a body
  forces(drawing, [{ at: 'B', moment: 3 }]);
  return forces(drawing, [{ at: 'B', force: [0, -9] }], { driver: { turn: 'crank' } }).driver;
}

export function lawsOf(build: (long: number) => Drawing): LawViolation['law'] {
  holds<Same<typeof FaultOfLinkage, typeof InputError>>();
  checkLaws(build, 75, { range: [-0.3, 0.3] });
  // @ts-expect-error: the data is what the drawing is built from
  checkLaws(build, '75');
  laws.keepsLengths(build, 75);
  // @ts-expect-error: no such law
  laws.keepsAngles(build, 75);
  return 'keepsLengths';
}

export function arbitraries(): readonly fc.Arbitrary<Drawing>[] {
  const whole: FastCheck = fastCheck;
  doubleWishbones(fc);
  pushrods(fc);
  // @ts-expect-error: fast-check itself
  linkagesBy({});
  return [linkagesBy(fc), linkagesBy(whole), fourBars(fc)];
}
