/** What holds of every design, over random corners, boxes and wishes. */
import * as fc from 'fast-check';
import { design, doubleWishbone, type Objective, sensitivities, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { coordinatesOf } from '../corner/hardpoints.ts';
import { forEachKind, runs } from '../corner/kinds.ts';
import type { CornerInput } from '../judges/circle-intersection.ts';
import { wildCorners } from '../support/corners.ts';
import { expectWithin } from '../support/tolerance.ts';
import { type Kept, leastRoom } from './keeping.ts';

const travel = { bump: 30, droop: 30, step: 15 };
/** mm by which parts may come nearer between rows than the nearest place that is looked for. */
const BETWEEN = 0.01;

const boxes = fc.record({
  inward: fc.integer({ min: 0, max: 40 }),
  outward: fc.integer({ min: 1, max: 40 }),
  down: fc.integer({ min: 0, max: 20 }),
  up: fc.integer({ min: 1, max: 40 }),
  eye: fc.integer({ min: 1, max: 60 }),
});
const wishes = fc.record({
  ratio: fc.integer({ min: 30, max: 90 }).map((percent) => percent / 100),
  most: fc.integer({ min: 5, max: 30 }),
});
const keeps: fc.Arbitrary<Kept> = fc.record({
  upperArm: fc.integer({ min: 0, max: 60 }),
  springToTyre: fc.integer({ min: 0, max: 60 }),
  diameter: fc.constant(70),
  seatOffset: fc.constant(50),
  tyre: fc.constant({ overallRadius: 320, width: 200 }),
});

type Boxes = typeof boxes extends fc.Arbitrary<infer T> ? T : never;

function mountsOf({ coilover: { mount, chassisMount } }: CornerInput, b: Boxes) {
  const [y, z] = mount;
  const [ey, ez] = chassisMount as readonly [number, number];
  return {
    shockMount: { y: [y - b.inward, y + b.outward], z: [z - b.down, z + b.up] },
    shockChassisMount: { y: [ey - b.eye, ey + b.eye], z: [ez, ez + b.eye] },
  } as const;
}

const objectivesOf = ({ ratio, most: max }: { ratio: number; most: number }): Objective[] => [
  { quantity: 'designRatio', target: ratio },
  { quantity: 'inclination', max, min: -max, tolerance: 0.5 },
];

/** Keeps what reaches its travel. */
function precondition(input: CornerInput) {
  const corner = doubleWishbone(input);
  const { end } = sweep(corner, travel);
  fc.pre(end.bump.status === 'reached' && end.droop.status === 'reached');
  return corner;
}

describe('every design', () => {
  it('stays in its boxes, keeps its distances, is no worse than the drawing, and is what sweep says it is', () => {
    let [kept, held] = [0, 0];
    fc.assert(
      fc.property(wildCorners, boxes, wishes, keeps, (input, b, wish, keep) => {
        const corner = precondition(input);
        const mounts = mountsOf(input, b);
        const objectives = objectivesOf(wish);
        const { upperArm, springToTyre, diameter, seatOffset, tyre } = keep;
        const made = design(corner, {
          mounts,
          objectives,
          clearances: { mountToArm: { upperArm }, springToTyre, spring: { diameter, seatOffset }, tyre },
          travel,
          starts: 1,
        });
        for (const [name, box] of Object.entries(mounts)) {
          const [y, z] = made.mounts[name].to;
          expect(y >= box.y[0] && y <= box.y[1] && z >= box.z[0] && z <= box.z[1], name).toBe(true);
        }
        const found = made.corner as typeof corner;
        expect(found.coilover.mount).toEqual(made.mounts.shockMount.to);
        expect(found.coilover.chassisMount).toEqual(made.mounts.shockChassisMount.to);

        const [before, after] = [leastRoom(corner, keep, travel), leastRoom(found, keep, travel)];
        if (made.status !== 'clearanceUnreachable') {
          expect(after).toBeGreaterThan(-1e-9);
          const between = leastRoom(found, keep, { ...travel, step: 0.5 });
          expect(between).toBeGreaterThan(-BETWEEN);
          kept++;
          if (after < 0.01) held++;
        } else expect(before).toBeLessThan(1e-9);

        const row = sweep(found, travel).at(0);
        const [ratio, lean] = made.objectives;
        expectWithin(ratio.achieved, row.installationRatio ?? Number.NaN, 1e-10);
        expectWithin(lean.achieved, row.shockInclination, 1e-9);
        const sum = (which: 'initial' | 'achieved') => {
          const over = Math.max(0, Math.abs(lean[which]) - wish.most) / 0.5;
          return ((ratio[which] - wish.ratio) / 0.001) ** 2 + over ** 2;
        };
        if (before >= 0) expect(sum('achieved')).toBeLessThanOrEqual(sum('initial') + 1e-6);
        expect(made.status === 'targetsMet').toBe(
          made.objectives.every(({ met }) => met) && made.status !== 'clearanceUnreachable',
        );
        expect(made.diagnostics.length).toBeGreaterThan(1);

        // No design of the trade-off beats another.
        made.tradeOff.forEach((one, i) => {
          made.tradeOff.forEach((other, j) => {
            if (i !== j) {
              expect(one.deviations.some((off, k) => Math.abs(off) < Math.abs(other.deviations[k]))).toBe(
                true,
              );
            }
          });
        });
        // Plain, frozen data.
        expect(structuredClone(made)).toEqual(made);
        expect(JSON.parse(JSON.stringify(made))).toEqual(made);
        expect(Object.isFrozen(made.corner) && Object.isFrozen(made.tradeOff)).toBe(true);
      }),
      { numRuns: 5 },
    );
    // Most keep their distances, and for some that is what holds them.
    expect(kept).toBeGreaterThan(2);
    expect(held).toBeGreaterThan(0);
  });

  it('has no slope left but against the edges of its boxes, where nothing else holds it', () => {
    fc.assert(
      fc.property(wildCorners, boxes, (input, b) => {
        const corner = precondition(input);
        fc.pre((sweep(corner, travel).at(0).installationRatio ?? 0) > 0);
        const mounts = mountsOf(input, b);
        const made = design(corner, {
          mounts,
          objectives: [{ quantity: 'designRatio', target: 3 }],
          travel,
          starts: 1,
        });
        fc.pre(made.status === 'targetUnreachable' && made.searches[0].status === 'converged');
        const { by, travel: at } = sensitivities(made.corner, travel);
        for (const [point, box] of Object.entries(mounts)) {
          for (const [axis, name] of (['y', 'z'] as const).entries()) {
            const [least, most] = box[name];
            const slope = by[`${point}${name.toUpperCase()}`].installationRatio[at.indexOf(0)] as number;
            const x = made.mounts[point].to[axis];
            const near = 1e-6 * (most - least);
            // More ratio is wanted: at an edge it may rise outward, elsewhere it must be level.
            if (x <= least + near) expect(slope).toBeLessThan(1e-6);
            else if (x >= most - near) expect(slope).toBeGreaterThan(-1e-6);
            else expectWithin(slope, 0, 1e-6);
          }
        }
      }),
      { numRuns: 8 },
    );
  });

  it('has equal bits for equal seeds', () => {
    fc.assert(
      fc.property(wildCorners, boxes, wishes, fc.integer(), (input, b, wish, seed) => {
        const corner = precondition(input);
        const options = {
          mounts: mountsOf(input, b),
          objectives: objectivesOf(wish),
          travel,
          starts: 2,
          seed,
        };
        expect(design(corner, options)).toEqual(design(corner, options));
      }),
      { numRuns: 2 },
    );
  });
});

forEachKind((kind) => {
  describe(`a design of a ${kind.name}`, () => {
    it('moves any point of its drawing, and only those that it may', () => {
      fc.assert(
        fc.property(kind.inputs, fc.nat(), (input, n) => {
          const corner = kind.corner(input);
          const { end } = sweep(corner, travel);
          fc.pre(end.bump.status === 'reached' && end.droop.status === 'reached');
          const all = coordinatesOf(input);
          const free = all.filter(([name]) => !/^(wheelCentre|contactPatch)/.test(name));
          const [name, value] = free[n % free.length];
          const axis = name.endsWith('Y') ? 'y' : 'z';
          const point = name.slice(0, -1);
          const { installationRatio } = sweep(corner, travel).at(0);
          const made = design(corner, {
            mounts: { [point]: { [axis]: [value - 3, value + 5] } },
            objectives: [{ quantity: 'designRatio', target: (installationRatio ?? Number.NaN) + 0.05 }],
            travel,
            starts: 1,
          });
          const found = coordinatesOf(made.corner);
          const camber = made.corner.kind === 'custom' ? 0 : made.corner.wheel.camber;
          expectWithin(camber, corner.kind === 'custom' ? 0 : corner.wheel.camber, 1e-12);
          for (const [other, at] of all) {
            const now = found.find(([each]) => each === other)?.[1] as number;
            if (other !== name) expect(now, other).toBe(at);
            else expect(now >= value - 3 && now <= value + 5).toBe(true);
          }
        }),
        runs(kind, 12),
      );
    });
  });
});
