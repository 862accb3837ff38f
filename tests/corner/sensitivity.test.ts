/** Sensitivities of random corners against corners that are drawn, built and swept anew, and laws of their sums. */

import * as fc from 'fast-check';
import {
  doubleWishbone,
  type Row,
  type Sensitivities,
  type Sweep,
  type SweepOptions,
  sensitivities,
  sweep,
} from 'jounce';
import { beforeAll, describe, expect, it } from 'vitest';
import type { CornerInput, Point, TravelReference } from '../judges/circle-intersection.ts';
import { loadPlanegcs, type PlanegcsModule, planegcsLinkage } from '../judges/planegcs.ts';
import { wildCorners } from '../support/corners.ts';
import { STEPS, slopeOf } from '../support/differences.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin, tolerance } from '../support/tolerance.ts';
import { conditioning } from './geometry.ts';
import { coordinatesOf, moved } from './hardpoints.ts';
import { conditioningOf, forEachKind, magnitudeOf, wishbone } from './kinds.ts';
import { drawingOf, MOVING } from './planegcs-drawing.ts';
import { placesOf, withinOf } from './rows.ts';

const travelReferences = fc.constantFrom<TravelReference[]>('contactPatch', 'wheelCentre');
/** Rows at both ends, at ride, and between. */
const ROWS = { bump: 60, droop: 60, step: 30 } satisfies SweepOptions;
/** Corners of which a point goes more than so many times as far as the wheel anywhere are near a dead point. */
const WILDEST = 20;

/** Difference, as a share, that a sharp comparison would find. */
const SHARP = 1e-6;

/** Roundings of a place, times the size of the drawing and the conditioning of the pose. */
const PLACE = 16;
const BOTH = ['contactPatch', 'wheelCentre'] as const;

/** Worst conditioning of the rows of a corner. */
const worstOf = (input: CornerInput, rows: readonly Row[]) =>
  Math.max(...rows.flatMap((row) => BOTH.map((of) => conditioning(input, placesOf(row), of))));

/** Whether a column is a place of the instant centre, an inverse of its curvature. */
const isPlace = (name: string) => name === 'instantCentreY' || name === 'instantCentreZ';

/**
 * Whether the instant centre comes near its way through infinity within the steps of a difference, which says nothing
 * there: 1/k has a series with a fast end only while k keeps well away from 0. The difference of k itself stands.
 */
function nearPole(drawn: readonly Sweep<'instantCentreCurvature'>[], i: number): boolean {
  const k = drawn.map(({ columns }) => columns.instantCentreCurvature[i]);
  const middle = k.reduce((sum, one) => sum + one, 0) / k.length;
  return k.some((one) => Math.abs(one - middle) > Math.abs(middle) / 2);
}

const example = deepFreeze({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], contactPatch: [708, 0] },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
}) satisfies CornerInput;

/** Random corners whose wheel stands by camber, by contact patch, or by both at odds with each other. */
const corners = fc.tuple(wildCorners, fc.boolean()).map(([input, both]): CornerInput => {
  const { wheel } = input;
  if (!both || !('contactPatch' in wheel)) return input;
  return deepFreeze({ ...input, wheel: { ...wheel, camber: 0.5 } });
});

forEachKind((kind) => {
  describe(`sensitivities of a ${kind.name}`, () => {
    it('are central differences of corners drawn anew, for every column and every coordinate', () => {
      const inputs = (kind.name === wishbone.name ? corners : kind.inputs) as typeof kind.inputs;
      let [sharp, all] = [0, 0];
      const [named, seen] = [new Set<string>(), new Set<string>()];
      fc.assert(
        fc.property(inputs, travelReferences, (input, travelReference) => {
          const options = { ...ROWS, travelReference };
          const nominal = sweep(kind.corner(input), options);
          const rows: readonly Row[] = nominal.rows();
          const c = Math.max(
            ...rows.flatMap((row) =>
              BOTH.map((travelled) => conditioningOf(kind, input, placesOf(row), travelled)),
            ),
          );
          fc.pre(
            c < WILDEST && nominal.end.bump.status === 'reached' && nominal.end.droop.status === 'reached',
          );
          const { by, info } = sensitivities(kind.corner(input), options);
          expect(Object.keys(by)).toEqual(coordinatesOf(input).map(([name]) => name));
          const h = Math.min(0.5, 4 / c ** 2);
          const place = tolerance({ times: PLACE, scale: magnitudeOf(input) * c });
          for (const { name } of info) named.add(name);
          for (const [coordinate, columns] of Object.entries(by)) {
            const drawn = STEPS.map((k) => sweep(kind.corner(moved(input, coordinate, k * h)), options));
            expect(Object.keys(columns)).toEqual(info.map(({ name }) => name));
            for (const { name } of info) {
              rows.forEach((row, i) => {
                const values = drawn.map(({ columns }: Sweep) => columns[name][i]);
                if (row[name] === null) return expect(columns[name][i]).toBeNull();
                if (values.includes(null) || (isPlace(name) && nearPole(drawn, i))) return;
                const rounding = withinOf(name, place, c, row);
                const { slope, trust } = slopeOf(values as number[], h, rounding);
                expectWithin(columns[name][i], slope, trust);
                seen.add(name);
                all++;
                if (trust < SHARP * (1 + Math.abs(slope))) sharp++;
              });
            }
          }
        }),
        { numRuns: 6 },
      );
      // Nearly all of these tolerances must be sharp.
      expect(sharp / all).toBeGreaterThan(0.9);
      expect(seen).toEqual(named);
    });
  });
});

/** Sum over coordinates of the sensitivity of a column at a row, each times a weight; null where one is null. */
function sum({ by }: Sensitivities, column: string, row: number, weight: (coordinate: string) => number) {
  let total = 0;
  let scale = 0;
  for (const [coordinate, columns] of Object.entries(by)) {
    const rate = columns[column][row];
    if (rate === null) return null;
    total += rate * weight(coordinate);
    scale += Math.abs(rate * weight(coordinate));
  }
  return { total, scale };
}

/** Roundings, of the largest term, that a sum of sensitivities may be off by at a conditioning of 1. */
const TERMS = 4096;

describe('sums of sensitivities', () => {
  const withPatch = wildCorners.filter(({ wheel }) => 'contactPatch' in wheel);

  it('are what moving the whole drawing does', () => {
    fc.assert(
      fc.property(withPatch, travelReferences, (input, travelReference) => {
        const options = { ...ROWS, travelReference };
        const corner = doubleWishbone(input);
        const rows: readonly Row[] = sweep(corner, options).rows();
        const c = worstOf(input, rows);
        fc.pre(c < WILDEST);
        const found = sensitivities(corner, options);
        for (const axis of ['Y', 'Z']) {
          for (const { name } of found.info) {
            rows.forEach((row, i) => {
              const together = sum(found, name, i, (coordinate) => (coordinate.endsWith(axis) ? 1 : 0));
              if (together === null) return expect(row[name]).toBeNull();
              // The height of the roll centre is on the centreline of the car, which stays.
              const slide = (row.rollCentreHeight as number) / (row.contactPatchY as number);
              const wanted =
                name === 'rollCentreHeight' ? (axis === 'Y' ? slide : 0) : name.endsWith(axis) ? 1 : 0;
              const scale = together.scale * c ** 2;
              expectWithin(together.total, wanted, tolerance({ times: TERMS, scale: 1 + scale }));
            });
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  it('times their coordinates, and slope times travel, are the degree times the column (Euler)', () => {
    const plain = withPatch.filter(({ coilover: { foreAftOffset = 0 } }) => foreAftOffset === 0);
    fc.assert(
      fc.property(plain, (input) => {
        const corner = doubleWishbone(input);
        const swept = sweep(corner, ROWS);
        const c = worstOf(input, swept.rows());
        fc.pre(c < WILDEST);
        const found = sensitivities(corner, ROWS);
        const values = Object.fromEntries(coordinatesOf(input));
        swept.rows().forEach((row: Row & ReturnType<typeof swept.rows>[number], i) => {
          const slopes: Record<string, number> = {
            shockLength: -row.installationRatio,
            installationRatio: row.installationRatioSlope,
          };
          for (const { name, unit } of found.info) {
            // At ride travel counts for nothing.
            const slope = row.travel === 0 ? 0 : slopes[name];
            const weighted = sum(found, name, i, (coordinate) => values[coordinate]);
            if (slope === undefined || weighted === null) continue;
            const degree = { mm: 1, '1/mm': -1 }[unit] ?? 0;
            const scale = weighted.scale * c ** 2;
            expectWithin(
              weighted.total + row.travel * slope,
              degree * (row[name] as number),
              tolerance({ times: TERMS, scale }),
            );
          }
        });
      }),
      { numRuns: 30 },
    );
  });
});

describe('sensitivities by the wheel', () => {
  it('keep a camber that was given, and the patch on the ground below it', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        fc.pre('camber' in input.wheel);
        const { by, travel } = sensitivities(doubleWishbone(input), ROWS);
        const ride = travel.indexOf(0);
        expect(Object.keys(by).filter((name) => name.startsWith('contactPatch'))).toEqual([]);
        const camber = 'camber' in input.wheel ? input.wheel.camber : Number.NaN;
        expect(by.wheelCentreY.camber[ride]).toBe(0);
        expect(by.wheelCentreZ.camber[ride]).toBe(0);
        expectWithin(by.wheelCentreY.contactPatchY[ride], 1, 0);
        expectWithin(
          by.wheelCentreZ.contactPatchY[ride],
          -Math.tan((camber * Math.PI) / 180),
          tolerance({ times: 4, scale: 1 }),
        );
        expectWithin(by.wheelCentreZ.contactPatchZ[ride], 0, 0);
      }),
      { numRuns: 30 },
    );
  });

  it('turn the drawn camber where the patch alone was given', () => {
    const { by, travel } = sensitivities(doubleWishbone(example), ROWS);
    const ride = travel.indexOf(0);
    const [out, up] = [705 - 708, 312];
    const degrees = 180 / Math.PI / (out ** 2 + up ** 2);
    const within = tolerance({ times: 4, scale: 1 });
    expectWithin(by.wheelCentreY.camber[ride], up * degrees, within);
    expectWithin(by.wheelCentreZ.camber[ride], -out * degrees, within);
    expectWithin(by.contactPatchY.camber[ride], -up * degrees, within);
    expectWithin(by.contactPatchZ.camber[ride], out * degrees, within);
  });
});

describe('sensitivities against a general constraint solver', () => {
  let gcs: PlanegcsModule;
  beforeAll(async () => {
    gcs = await loadPlanegcs();
  });

  /** mm; what the solver keeps of a place at a conditioning of 1. */
  const SOLVED = 1e-9;

  it('are differences of the poses that it finds for moved hardpoints', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const options = { bump: 40, droop: 40, step: 40 };
        const corner = doubleWishbone(input);
        const rows = sweep(corner, options).rows();
        const c = worstOf(input, rows);
        fc.pre(c < 3);
        const { by } = sensitivities(corner, options);
        const h = 1;
        for (const coordinate of Object.keys(by)) {
          if (coordinate.startsWith('shockChassisMount')) continue;
          const poses = STEPS.map((k) => {
            const judge = planegcsLinkage(gcs, drawingOf(moved(input, coordinate, k * h)));
            try {
              return judge.sweep([-40, 0, 40].map((travel) => judge.drawn + travel));
            } finally {
              judge.destroy();
            }
          });
          for (const i of [0, 1, 2]) {
            for (const name of MOVING) {
              for (const [axis, letter] of ['Y', 'Z'].entries()) {
                const values = poses.map((pose) => pose[i].positions[name][axis]);
                const { slope, trust } = slopeOf(values, h, SOLVED * c);
                expectWithin(by[coordinate][name + letter][i], slope, trust);
              }
            }
          }
        }
      }),
      { numRuns: 4 },
    );
  });
});

describe('the result', () => {
  it('has null where the column has or the motion is not determined, and a number everywhere else', () => {
    const seen = { gaps: 0, bifurcations: 0 };
    fc.assert(
      fc.property(wildCorners, travelReferences, (input, travelReference) => {
        const options = { bump: 400, droop: 400, step: 40, travelReference };
        const corner = doubleWishbone(input);
        const { columns, end }: Sweep = sweep(corner, options);
        const { by, info, travel } = sensitivities(corner, options);
        expect(travel).toEqual(columns.travel);
        const bifurcations = [end.droop, end.bump].flatMap((side) =>
          side.status === 'bifurcation' ? [side.travel] : [],
        );
        const odd: unknown[] = [];
        for (const [coordinate, rates] of Object.entries(by)) {
          for (const { name } of info) {
            rates[name].forEach((rate, i) => {
              const isOpen = bifurcations.includes(travel[i]);
              const isGap = columns[name][i] === null;
              if (isOpen) seen.bifurcations++;
              if (isGap) seen.gaps++;
              const good = rate === null ? isGap || isOpen : Number.isFinite(rate) && !isGap;
              if (!good) odd.push([coordinate, name, travel[i], rate]);
            });
          }
        }
        expect(odd).toEqual([]);
      }),
      { numRuns: 40 },
    );
    expect(seen.gaps).toBeGreaterThan(0);
    expect(seen.bifurcations).toBeGreaterThan(0);
  });

  it('of a right-hand corner is that of its mirror image', () => {
    const turn = ([y, z]: Point): Point => [-y, z];
    const right = deepFreeze({
      lowerArm: { inner: turn(example.lowerArm.inner), outer: turn(example.lowerArm.outer) },
      upperArm: { inner: turn(example.upperArm.inner), outer: turn(example.upperArm.outer) },
      wheel: { centre: turn(example.wheel.centre), contactPatch: turn(example.wheel.contactPatch) },
      coilover: {
        on: 'lowerArm' as const,
        mount: turn(example.coilover.mount),
        chassisMount: turn(example.coilover.chassisMount),
      },
    });
    expect(sensitivities(doubleWishbone(right)).by).toEqual(sensitivities(doubleWishbone(example)).by);
  });

  it('does not depend on the rows or columns that are asked for', () => {
    const corner = doubleWishbone(example);
    const all = sensitivities(corner, { step: 0.5 });
    const few = sensitivities(corner, { step: 40, columns: ['camber', 'installationRatio'] });
    few.travel.forEach((travel, i) => {
      const j = all.travel.indexOf(travel);
      for (const [coordinate, columns] of Object.entries(few.by)) {
        for (const name of ['camber', 'installationRatio']) {
          expect(columns[name][i]).toBe(all.by[coordinate][name][j]);
        }
      }
    });
  });
});
