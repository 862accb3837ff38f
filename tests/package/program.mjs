// @ts-check
// A small program as a user would write it, over all three entries. It runs as it stands in every runtime, and what it
// finds is compared.
import {
  doubleWishbone,
  drawSweep,
  InputError,
  limits,
  pushrod,
  readCorner,
  sweep,
  sweepCsv,
  tyreFromSize,
} from 'jounce';
import { InputError as FaultOfLinkage, mobility, trace } from 'jounce/linkage';
import { checkLaws, LawViolation } from 'jounce/testing';

/** @type {import('jounce').DoubleWishboneInput} */
const drawn = {
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
};

/** @type {(rocker: number) => import('jounce/linkage').Drawing} */
const crankRocker = (rocker) => ({
  points: { O: [0, 0], A: [0, 40], B: [115, rocker], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
});

/** @type {(run: () => unknown) => unknown} */
function thrown(run) {
  try {
    run();
  } catch (error) {
    return error;
  }
  return undefined;
}

/** All that is compared: plain data. */
export function found() {
  const front = doubleWishbone(drawn);
  const curves = sweep(front, { bump: 60, droop: 60, step: 20 });
  const ends = limits(front, {
    damper: { extendedLength: 385, compressedLength: 300 },
    bumpStop: { height: 35, solidHeight: 12 },
  });
  const rear = sweep(
    pushrod({
      lowerArm: { inner: [250, 160], outer: [630, 150] },
      upperArm: { inner: [300, 340], outer: [590, 360] },
      wheel: { centre: [700, 315], contactPatch: [702, 0] },
      rod: { on: 'lowerArm', mount: [560, 165], rockerMount: [345, 470] },
      rocker: { pivot: [260, 400] },
      coilover: { rockerMount: [235, 500], chassisMount: [10, 470] },
    }),
    { bump: 30, droop: 30, step: 30 },
  );
  const read = readCorner(JSON.stringify({ kind: 'doubleWishbone', ...drawn }));
  const linkage = crankRocker(75);
  const swing = trace(linkage).extremes({ turn: 'rocker' });
  const misspelt = thrown(() => doubleWishbone(JSON.parse('{"lowerArmm": {}}')));
  const unpinned = thrown(() => trace({ ...linkage, ground: ['O', 'D'] }));
  const bent = thrown(() =>
    checkLaws(crankRocker, 75, {
      trace: (drawing, options) => ({ ...trace(drawing, options), high: trace(drawing, options).low }),
    }),
  );

  return {
    front: curves.rows(),
    between: curves.at(12.5),
    ends,
    csv: sweepCsv(curves).split('\n')[0],
    picture: drawSweep(front, curves).startsWith('<svg'),
    rear: rear.rows(),
    read: read.corner,
    tyre: tyreFromSize('205/50 R15'),
    swing,
    mobility: mobility(linkage),
    lawsHold: thrown(() => checkLaws(crankRocker, 75)) === undefined,
    lawBroken: bent instanceof LawViolation ? bent.law : String(bent),
    refused: misspelt instanceof InputError ? misspelt.message : String(misspelt),
    refusedByLinkage: unpinned instanceof InputError ? unpinned.message : String(unpinned),
    oneError: InputError === FaultOfLinkage,
    cloned: JSON.stringify(structuredClone(front)) === JSON.stringify(front),
  };
}
