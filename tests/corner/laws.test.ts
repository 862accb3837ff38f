/** Laws that hold for every double wishbone, over random ones. */

import * as fc from 'fast-check';
import { doubleWishbone, InputError, type Row, type Sweep, type SweepOptions, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import {
  type CornerInput,
  circleCorner,
  drawnContactPatch,
  type Point,
  type TravelOf,
} from '../judges/circle-intersection.ts';
import { unlikeArms, wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';
import { conditioning, direction, magnitude, meetingOfArms } from './geometry.ts';
import { expectSameRow, placesOf } from './rows.ts';

const RADIANS = Math.PI / 180;
/** mm; travel of a dead point, found in two ways. */
const END = 1e-9;

/** Shares of the way to the end of a sweep, on both sides. */
const SHARES = [-0.9, -0.5, -0.1, 0, 0.2, 0.6, 0.9];

const travelOfs = fc.constantFrom<TravelOf[]>('contactPatch', 'wheelCentre');

function travelsOf({ end }: Sweep): number[] {
  return SHARES.map((share) => share * (share > 0 ? end.bump.travel : -end.droop.travel));
}

/** A corner with all its points moved: the contact patch is given then, as it may be off the ground. */
function mapPoints(input: CornerInput, move: (point: Point) => Point): CornerInput {
  const arm = ({ inner, outer }: { inner: Point; outer: Point }) => ({
    inner: move(inner),
    outer: move(outer),
  });
  return deepFreeze({
    lowerArm: arm(input.lowerArm),
    upperArm: arm(input.upperArm),
    wheel: { centre: move(input.wheel.centre), contactPatch: move(drawnContactPatch(input)) },
    coilover: {
      ...input.coilover,
      mount: move(input.coilover.mount),
      chassisMount: move(input.coilover.chassisMount),
    },
  });
}

describe('derivatives', () => {
  /** First derivative by the central difference of sixth order, and how far it can be trusted. */
  function differentiate(f: (t: number) => number, t: number, h: number, rounding: number) {
    const quotient = (step: number) => {
      const [one, two, three] = [1, 2, 3].map((k) => f(t + k * step) - f(t - k * step));
      return (45 * one - 9 * two + three) / (60 * step);
    };
    const value = quotient(h / 2);
    // Halving the step leaves a sixty-fourth of the error, where the step is short enough; rounding goes up instead.
    return { value, off: Math.abs(value - quotient(h)) + (32 * rounding) / h };
  }

  it('are those of central differences of the poses', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const swept = sweep(doubleWishbone(input), { travelOf });
        const { bump, droop } = swept.end;
        for (const t of travelsOf(swept)) {
          const row = swept.at(t);
          const c = conditioning(input, placesOf(row), travelOf);
          const both = Math.max(c, conditioning(input, placesOf(row)));
          // Short against the way to a dead point, also to one that is only almost there.
          const h = Math.min(4, (bump.travel - t) / 8, (t - droop.travel) / 8, 12 / both ** 2);
          const rounding = EPS * magnitude(input) * c;
          const by = (name: string, times = 1) =>
            differentiate((at) => swept.at(at)[name] as number, t, h, rounding * times);
          const z = by('contactPatchZ');
          /** By contact-patch travel. */
          const rate = (name: string, times?: number) => {
            const m = by(name, times);
            const value = m.value / z.value;
            return { value, off: (m.off + Math.abs(value) * z.off) / Math.abs(z.value) };
          };

          const length = rate('shockLength');
          expectWithin(row.installationRatio, -length.value, length.off);
          const ratio = rate('installationRatio', c ** 2);
          expectWithin(row.installationRatioSlope, ratio.value, ratio.off);

          const slide = rate('contactPatchY');
          const [y, patchZ] = placesOf(row).contactPatch;
          expectWithin(row.rollCentreHeight, y * slide.value, y * slide.off);

          const camber = rate('camber');
          const w = -camber.value * RADIANS;
          const wOff = camber.off * RADIANS;
          expectWithin(
            row.instantCentreCurvature,
            w / Math.hypot(1, slide.value),
            wOff + Math.abs(w) * slide.off,
          );
          if (row.instantCentreY === null || row.instantCentreZ === null) {
            expectWithin(w, 0, wOff);
          } else {
            // Compared as inverse distances, which are finite where the instant centre runs away.
            expectWithin(w * (y - row.instantCentreY), 1, wOff * Math.abs(y - row.instantCentreY));
            const up = row.instantCentreZ - patchZ;
            expectWithin(w * up, slide.value, wOff * Math.abs(up) + slide.off);
          }
        }
      }),
    );
  });
});

describe('definitions', () => {
  /** Roundings of an angle or a length got from the places of a row. */
  const AGAIN = 8;
  /** Roundings of a rate got from the places of a row, which were rounded each for itself. */
  const RATE = 256;

  it('hold for the angles, lengths and changes of every pose, from its points', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const corner = doubleWishbone(input);
        const swept = sweep(corner, { travelOf });
        for (const t of travelsOf(swept)) {
          const row = swept.at(t);
          const { lowerOuter, upperOuter, wheelCentre, contactPatch, shockMount } = placesOf(row);
          const { lowerArm, upperArm, coilover } = input;
          const place = { times: AGAIN, scale: magnitude(input) };
          expectClose(row.lowerArmAngle, direction(lowerArm.inner, lowerOuter), place);
          expectClose(row.upperArmAngle, direction(upperArm.inner, upperOuter), place);
          expectClose(row.kingpinInclination, direction(lowerOuter, upperOuter) - 90, place);
          // A thin disc's centre stands over its contact patch, leaning by the camber.
          expectClose(row.camber, 90 - direction(contactPatch, wheelCentre), place);
          expectClose(row.shockLean, direction(shockMount, coilover.chassisMount) - 90, place);
          const planar = Math.hypot(
            shockMount[0] - coilover.chassisMount[0],
            shockMount[1] - coilover.chassisMount[1],
          );
          expectClose(row.shockLength, Math.hypot(planar, coilover.offset ?? 0), place);
          expectClose(row.halfTrackChange, contactPatch[0] - drawnContactPatch(input)[0], place);
          const driven = travelOf === 'contactPatch' ? contactPatch : wheelCentre;
          const drawn = travelOf === 'contactPatch' ? drawnContactPatch(input) : input.wheel.centre;
          expectClose(t, driven[1] - drawn[1], place);
        }
      }),
    );
  });

  it('put the instant centre where the arms meet, and the roll centre on its line to the contact patch', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const swept = sweep(doubleWishbone(input), { travelOf });
        for (const t of travelsOf(swept)) {
          const row = swept.at(t);
          const places = placesOf(row);
          const [y, z] = places.contactPatch;
          const c = conditioning(input, places);
          const meeting = meetingOfArms(input, places);
          // The patch goes square to its line to the instant centre; with parallel arms, square to the arms.
          const [dy, dz] =
            meeting === null
              ? [
                  places.lowerOuter[0] - input.lowerArm.inner[0],
                  places.lowerOuter[1] - input.lowerArm.inner[1],
                ]
              : [y - meeting[0], z - meeting[1]];
          const rate = { times: RATE, scale: (magnitude(input) * c ** 2) / 100 };
          expectClose(row.rollCentreHeight / y, -dz / dy, rate);
          if (meeting === null) {
            expect(row.instantCentreY).toBeNull();
            expect(row.instantCentreZ).toBeNull();
          } else {
            const far = Math.hypot(dy, dz);
            const inverse = { times: rate.times, scale: rate.scale / 100 };
            expectClose(Math.abs(row.instantCentreCurvature), 1 / far, inverse);
            expect(Math.sign(row.instantCentreCurvature)).toBe(Math.sign(dy));
            // In units of the distance squared, as an error of the inverse distance has it.
            const unit = far * Math.max(far, 100);
            expectClose((row.instantCentreY ?? Number.NaN) / unit, meeting[0] / unit, inverse);
            expectClose((row.instantCentreZ ?? Number.NaN) / unit, meeting[1] / unit, inverse);
          }
        }
      }),
    );
  });

  it('take the given camber where the contact patch is given too', () => {
    fc.assert(
      fc.property(wildCorners, fc.integer({ min: -50, max: 50 }), (input, tenths) => {
        const camber = tenths / 10;
        const wheel = { centre: input.wheel.centre, contactPatch: drawnContactPatch(input), camber };
        const given = doubleWishbone(deepFreeze({ ...input, wheel }));
        const derived = doubleWishbone(input);
        expect(given.wheel.camber).toBe(camber);
        const [a, b] = [given, derived].map((corner) => sweep(corner, { bump: 10, droop: 10 }));
        for (const t of travelsOf(a)) {
          const [there, here] = [a.at(t), b.at(t)];
          expectClose(there.camber - camber, here.camber - derived.wheel.camber, {
            times: AGAIN,
            scale: 100,
          });
        }
      }),
    );
  });
});

describe('a corner', () => {
  it('on the right-hand side gives the rows of its mirror image, to the bit, and says that it was mirrored', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const flip = ([y, z]: Point): Point => [-y, z];
        const { wheel } = input;
        const right = deepFreeze({
          ...mapPoints(input, flip),
          wheel:
            'camber' in wheel
              ? { centre: flip(wheel.centre), camber: wheel.camber }
              : { centre: flip(wheel.centre), contactPatch: flip(wheel.contactPatch) },
        });
        const [one, other] = [doubleWishbone(input), doubleWishbone(right)];
        expect(one.mirrored).toBe(false);
        expect(other).toEqual({ ...one, mirrored: true });
        expect(sweep(other).rows()).toEqual(sweep(one).rows());
      }),
    );
  });

  it('on the right-hand side has no negative zero, which JSON would lose', () => {
    const input = fc.sample(wildCorners, 1)[0];
    const right = mapPoints(input, ([y, z]) => [-y, z]);
    const centred = deepFreeze({
      ...right,
      coilover: { ...right.coilover, chassisMount: [0, 480] as Point },
    });
    const corner = doubleWishbone(centred);
    expect(corner.coilover.chassisMount).toEqual([0, 480]);
    expect(JSON.parse(JSON.stringify(corner))).toEqual(corner);
  });

  it.each([0.001, 1 / 25.4, 0.5, 3, 1000])('drawn %d times as large has lengths so much larger', (k) => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const large = deepFreeze({
          ...mapPoints(input, ([y, z]) => [k * y, k * z]),
          coilover: {
            on: input.coilover.on,
            mount: input.coilover.mount.map((v) => k * v) as unknown as Point,
            chassisMount: input.coilover.chassisMount.map((v) => k * v) as unknown as Point,
            offset: k * (input.coilover.offset ?? 0),
          },
        });
        const one = sweep(doubleWishbone(input), { travelOf });
        const other = sweep(doubleWishbone(large), { bump: 80 * k, droop: 80 * k, step: 5 * k, travelOf });
        for (const side of ['bump', 'droop'] as const) {
          expect(other.end[side].how).toBe(one.end[side].how);
          expectWithin(other.end[side].travel / k, one.end[side].travel, END);
        }
        for (const t of travelsOf(one)) {
          expectSameRow(other.at(k * t), one.at(t), one.info, input, {
            travelOf,
            units: { mm: 1 / k, '1/mm': k },
          });
        }
      }),
      { numRuns: 40 },
    );
  });

  it.each([1000, 2 ** 20])('drawn %d mm higher moves the same', (up) => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const high = mapPoints(input, ([y, z]) => [y, z + up]);
        const one = sweep(doubleWishbone(input), { travelOf });
        const other = sweep(doubleWishbone(high), { travelOf });
        for (const t of travelsOf(one)) {
          expectSameRow(other.at(t), one.at(t), one.info, input, {
            travelOf,
            coordinates: up,
            shift: (name) => (name.endsWith('Z') ? -up : 0),
          });
        }
      }),
    );
  });

  it.each([1000, 2 ** 20])(
    'drawn %d mm farther out moves the same, but for the height of the roll centre',
    (out) => {
      fc.assert(
        fc.property(wildCorners, travelOfs, (input, travelOf) => {
          const far = mapPoints(input, ([y, z]) => [y + out, z]);
          const one = sweep(doubleWishbone(input), { travelOf });
          const other = sweep(doubleWishbone(far), { travelOf });
          for (const t of travelsOf(one)) {
            const [here, there] = [one.at(t), other.at(t)];
            expectSameRow(there, here, one.info, input, {
              travelOf,
              coordinates: out,
              shift: (name) => (name.endsWith('Y') ? -out : 0),
              except: ['rollCentreHeight'],
            });
            const c = conditioning(input, placesOf(here));
            const slope = (row: Row) => row.rollCentreHeight / (row.contactPatchY as number);
            expectClose(slope(there), slope(here), { times: 8, scale: (out * c ** 2) / 100 });
          }
        }),
      );
    },
  );

  it('survives structuredClone and JSON to the bit', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const corner = doubleWishbone(input);
        const expected = sweep(corner, { travelOf });
        for (const copy of [structuredClone(corner), JSON.parse(JSON.stringify(corner))]) {
          expect(copy).toEqual(corner);
          const swept = sweep(deepFreeze(copy), { travelOf });
          expect(swept.columns).toEqual(expected.columns);
          expect(swept.end).toEqual(expected.end);
        }
      }),
    );
  });

  it('is frozen, with everything in it', () => {
    const thawed = (value: unknown, path: string): string[] =>
      typeof value !== 'object' || value === null
        ? []
        : [
            ...(Object.isFrozen(value) ? [] : [path]),
            ...Object.entries(value).flatMap(([key, inner]) => thawed(inner, `${path}.${key}`)),
          ];
    fc.assert(
      fc.property(wildCorners, (input) => {
        // From an input that is not frozen: what the corner holds must be its own.
        expect(thawed(doubleWishbone(structuredClone(input)), 'corner')).toEqual([]);
      }),
    );
  });

  it('keeps nothing of its input', () => {
    const input = structuredClone(fc.sample(wildCorners, 1)[0]) as CornerInput;
    const corner = doubleWishbone(input);
    const before = structuredClone(corner);
    (input.lowerArm.inner as [number, number])[0] += 10;
    (input.coilover.mount as [number, number])[1] += 10;
    expect(corner).toEqual(before);
  });
});

describe('a coilover', () => {
  it.each([
    ['lower ball joint', 'lowerArm'],
    ['upper ball joint', 'upperArm'],
  ] as const)('at the %s is the same on the arm and on the upright', (_, arm) => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const mount = input[arm].outer;
        const [onArm, onUpright] = [arm, 'upright' as const].map((on) =>
          sweep(doubleWishbone(deepFreeze({ ...input, coilover: { ...input.coilover, on, mount } }))),
        );
        expect(onUpright.columns.travel).toEqual(onArm.columns.travel);
        for (const t of travelsOf(onArm)) expectSameRow(onUpright.at(t), onArm.at(t), onArm.info, input);
      }),
    );
  });

  it('at an inner pivot keeps its length', () => {
    fc.assert(
      fc.property(wildCorners, fc.constantFrom('lowerArm' as const, 'upperArm' as const), (input, on) => {
        const mount = input[on].inner;
        const { columns } = sweep(
          doubleWishbone(deepFreeze({ ...input, coilover: { ...input.coilover, on, mount } })),
        );
        for (const length of columns.shockLength) expect(length).toBe(columns.shockLength[0]);
        for (const ratio of columns.installationRatio) expect(Math.abs(ratio)).toBe(0);
      }),
    );
  });
});

describe('a sweep', () => {
  it('has the same bits in columns, rows and at(), in whatever order it is read', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, fc.infiniteStream(fc.nat()), (input, travelOf, keys) => {
        const swept = sweep(doubleWishbone(input), { travelOf });
        const names = swept.info.map(({ name }) => name);
        const rows = swept.rows();
        expect(Object.keys(swept.columns)).toEqual(names);
        const shuffled = rows
          .map((row, i) => ({ row, i, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key);
        for (const { row, i } of shuffled) {
          expect(Object.keys(row)).toEqual(names);
          for (const name of names) expect(swept.columns[name][i]).toBe(row[name]);
          expect(swept.at(row.travel)).toEqual(row);
        }
      }),
    );
  });

  it('says which columns have gaps; the others are full of finite numbers', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const { info, columns } = sweep(doubleWishbone(input), { bump: 300, droop: 300, travelOf });
        for (const { name, gaps } of info) {
          const column = columns[name];
          expect(column).toBeInstanceOf(gaps ? Array : Float64Array);
          expect(column).toHaveLength(columns.travel.length);
          const odd = [...column].filter((value) => !Number.isFinite(value) && !(gaps && value === null));
          expect([name, odd]).toEqual([name, []]);
        }
      }),
    );
  });

  it('of some columns has the bits of one with all', () => {
    fc.assert(
      fc.property(wildCorners, fc.infiniteStream(fc.boolean()), (input, wanted) => {
        const corner = doubleWishbone(input);
        const all = sweep(corner);
        const columns = all.info
          .map(({ name }) => name)
          .filter((name) => name !== 'travel' && wanted.next().value);
        const some = sweep(corner, deepFreeze({ columns }));
        expect(some.info.map(({ name }) => name)).toEqual(['travel', ...columns]);
        for (const { name } of some.info) expect(some.columns[name]).toEqual(all.columns[name]);
      }),
    );
  });

  it('over a part of the range agrees with one over more', () => {
    fc.assert(
      fc.property(
        wildCorners,
        travelOfs,
        fc.nat({ max: 79 }),
        fc.nat({ max: 79 }),
        (input, travelOf, bump, droop) => {
          const corner = doubleWishbone(input);
          const whole = sweep(corner, { travelOf });
          const part = sweep(corner, { bump, droop, travelOf });
          for (const t of travelsOf(part))
            expectSameRow(part.at(t), whole.at(t), whole.info, input, { travelOf });
        },
      ),
    );
  });

  /** Columns that are derivatives by travel. */
  const DERIVED = [
    'installationRatio',
    'installationRatioSlope',
    'rollCentreHeight',
    'instantCentreCurvature',
  ];

  it.each<TravelOf>(['contactPatch', 'wheelCentre'])(
    'over %s gives null for what does not exist at a dead point, numbers for the rest, and no row there',
    (travelOf) => {
      fc.assert(
        fc.property(unlikeArms, fc.integer({ min: -50, max: 50 }), (input, up) => {
          const raised = mapPoints(input, ([y, z]) => [y, z + up / 10]);
          const swept = sweep(doubleWishbone(raised), { bump: 2000, droop: 2000, step: 50, travelOf });
          const { travel } = swept.columns;
          for (const side of ['bump', 'droop'] as const) {
            const end = swept.end[side];
            expect(end.how).toBe('deadPoint');
            const row = swept.at(end.travel);
            for (const { name, gaps } of swept.info) {
              const derived = gaps || DERIVED.includes(name);
              if (derived) expect([name, row[name]]).toEqual([name, null]);
              else expect([name, Number.isFinite(row[name])]).toEqual([name, true]);
            }
            expect(travel).not.toContain(end.travel);
          }
        }),
      );
    },
  );

  it('stops at the dead point however far beyond it is asked to go', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const corner = doubleWishbone(input);
        const { bump, droop } = circleCorner(input).deadPoints();
        const [near, far] = [1, 1000].map((more) =>
          sweep(corner, { bump: bump.travel + more, droop: more - droop.travel, step: 100 }),
        );
        expect(near.end).toEqual(far.end);
      }),
    );
  });

  it('over wheel-centre travel is the same poses under another travel', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const corner = doubleWishbone(input);
        const byCentre = sweep(corner, { travelOf: 'wheelCentre', bump: 60, droop: 60 });
        const byPatch = sweep(corner, { bump: 300, droop: 300 });
        for (const t of travelsOf(byCentre)) {
          const row = byCentre.at(t);
          const travel = placesOf(row).contactPatch[1] - drawnContactPatch(input)[1];
          expectSameRow(byPatch.at(travel), row, byCentre.info, input, {
            travelOf: 'wheelCentre',
            except: ['travel'],
          });
        }
      }),
    );
  });

  const tenths = (max: number) => fc.nat({ max: 10 * max }).map((n) => n / 10);

  it.each<TravelOf>(['contactPatch', 'wheelCentre'])(
    'over %s ends exactly where it was asked to, and can be read there',
    (travelOf) => {
      fc.assert(
        fc.property(wildCorners, tenths(20), tenths(20), tenths(1), (input, bump, droop, up) => {
          const raised = mapPoints(input, ([y, z]) => [y, z + up]);
          const swept = sweep(doubleWishbone(raised), { bump, droop, travelOf, columns: [] });
          fc.pre(swept.end.bump.how === 'reached' && swept.end.droop.how === 'reached');
          expect(swept.end.bump.travel).toBe(bump);
          expect(swept.end.droop.travel).toBe(0 - droop);
          expect(swept.at(bump).travel).toBe(bump);
          expect(swept.at(-droop).travel).toBe(-droop);
        }),
        { numRuns: 300 },
      );
    },
  );

  describe('has rows', () => {
    const corner = doubleWishbone(fc.sample(wildCorners, { numRuns: 1, seed: 1 })[0]);
    const rowsOver = (bump: number, droop: number, step: number) =>
      sweep(corner, { bump, droop, step, columns: [] }).columns.travel;
    const steps = fc.integer({ min: 1, max: 80 }).map((n) => n / 10);
    const holds = (check: (travel: Float64Array, bump: number, droop: number, step: number) => void) =>
      fc.assert(
        fc.property(tenths(20), tenths(20), steps, (bump, droop, step) =>
          check(rowsOver(bump, droop, step), bump, droop, step),
        ),
        { numRuns: 500 },
      );

    it('at both ends and, between, at all multiples of the step', () => {
      holds((travel, bump, droop, step) => {
        expect(travel[0]).toBe(0 - droop);
        expect(travel[travel.length - 1]).toBe(bump);
        for (const t of travel.subarray(1, -1)) {
          expectClose(t, step * Math.round(t / step), { times: 1, scale: 20 });
        }
        for (let i = 1; i < travel.length; i++) {
          expect(travel[i] - travel[i - 1]).toBeLessThan(step * (1 + 1e-9));
        }
      });
    });

    it('at the drawn pose once, and not as negative zero', () => {
      holds((travel) => {
        expect([...travel].filter((t) => t === 0)).toEqual([0]);
      });
    });

    it('nowhere twice, up to rounding', () => {
      holds((travel) => {
        for (let i = 1; i < travel.length; i++) {
          expect(travel[i] - travel[i - 1]).toBeGreaterThan(1e-6);
        }
      });
    });
  });

  it('with no way to go has one row, the drawn pose', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelOf) => {
        const swept = sweep(doubleWishbone(input), { bump: 0, droop: 0, travelOf });
        expect([...swept.columns.travel]).toEqual([0]);
        expect(swept.end).toEqual({
          bump: { travel: 0, how: 'reached' },
          droop: { travel: 0, how: 'reached' },
        });
        const [row] = swept.rows();
        expect(placesOf(row).lowerOuter).toEqual(input.lowerArm.outer);
        expect(placesOf(row).wheelCentre).toEqual(input.wheel.centre);
      }),
    );
  });

  it('outside its range throws, and says what the range is', () => {
    fc.assert(
      fc.property(wildCorners, fc.constantFrom(1e-9, 1, 1e6, Number.POSITIVE_INFINITY), (input, beyond) => {
        const swept = sweep(doubleWishbone(input), { bump: 10, droop: 20 });
        const { bump, droop } = swept.end;
        for (const travel of [bump.travel + beyond, droop.travel - beyond, Number.NaN]) {
          expect(() => swept.at(travel)).toThrow(InputError);
          expect(() => swept.at(travel)).toThrow(
            `${droop.travel} mm (${droop.how}) to ${bump.travel} mm (${bump.how})`,
          );
        }
      }),
    );
  });

  it('is what its defaults say', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const corner = doubleWishbone(input);
        const spelt: SweepOptions = deepFreeze({ bump: 80, droop: 80, travelOf: 'contactPatch', step: 5 });
        const [one, other] = [sweep(corner), sweep(corner, spelt)];
        expect(one.columns).toEqual(other.columns);
        expect(one.end).toEqual(other.end);
        expect(one.info).toEqual(other.info);
      }),
    );
  });
});
