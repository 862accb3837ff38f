/** Laws that hold for corners of every kind, over random ones. */

import * as fc from 'fast-check';
import { InputError, type Pose, type Sweep, type SweepOptions, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { planColumns } from '../../src/corner/columns.ts';
import { modelOf } from '../../src/corner/corner.ts';
import type { CornerModel } from '../../src/corner/model.ts';
import type { TravelReference } from '../judges/circle-intersection.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';
import { EPS, expectClose, expectWithin, tolerance } from '../support/tolerance.ts';
import {
  conditioningOf,
  forEachKind,
  type Input,
  type Kind,
  magnitudeOf,
  moved,
  movedPoints,
  runs,
  scaled,
} from './kinds.ts';
import { expectSameRow, placesOf } from './rows.ts';

const RADIANS = Math.PI / 180;
/** mm; travel of a dead point, found in two ways. */
const END = 1e-9;

/** Roundings of a place against its closed form, times the size of the drawing and the conditioning of the pose. */
const CLOSED = 64;
/** What a ratio may be off where nothing goes faster than the travel. */
const RATIO = 1e-10;

/** Columns that have no value somewhere: instant centres of a wheel that does not turn. */
const GAPS = ['instantCentreY', 'instantCentreZ'];

/** Shares of the way to the end of a sweep, on both sides. */
const SHARES = [-0.9, -0.5, -0.1, 0, 0.2, 0.6, 0.9];

const travelReferences = fc.constantFrom<TravelReference[]>('contactPatch', 'wheelCentre');

function travelsOf({ end }: Sweep): number[] {
  return SHARES.map((share) => share * (share > 0 ? end.bump.travel : -end.droop.travel));
}

forEachKind((kind) => describe(kind.name, () => lawsOf(kind)));

function lawsOf<In extends Input>(kind: Kind<In>): void {
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
        fc.property(kind.inputs, travelReferences, (input, travelReference) => {
          const swept: Sweep = sweep(kind.corner(input), { travelReference });
          const { bump, droop } = swept.end;
          for (const t of travelsOf(swept)) {
            const row = swept.at(t);
            const c = conditioningOf(kind, input, placesOf(row), travelReference);
            const both = Math.max(c, conditioningOf(kind, input, placesOf(row)));
            // Short against the way to a dead point, also to one that is only almost there.
            const h = Math.min(4, (bump.travel - t) / 8, (t - droop.travel) / 8, 12 / both ** 2);
            const rounding = EPS * magnitudeOf(input) * c;
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
        runs(kind),
      );
    });
  });

  describe('a corner', () => {
    it('has each moving point, the length of its shock and its ratio where its closed form has them', () => {
      let seen = 0;
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const swept: Sweep = sweep(kind.corner(input), { bump: 80, droop: 80 });
          const { bump, droop } = swept.end;
          for (const judged of kind.judged(input)) {
            if (judged.travel < 0.9 * droop.travel || judged.travel > 0.9 * bump.travel) continue;
            const row = swept.at(judged.travel);
            const c = conditioningOf(kind, input, judged.points);
            const place = tolerance({ times: CLOSED, scale: magnitudeOf(input) * c });
            expect(new Set(Object.keys(judged.points))).toEqual(new Set(Object.keys(placesOf(row))));
            for (const [name, [y, z]] of Object.entries(judged.points)) {
              expectWithin(row[`${name}Y`] as number, y, place);
              expectWithin(row[`${name}Z`] as number, z, place);
            }
            expectWithin(row.shockLength, judged.shockLength, place);
            expectWithin(row.installationRatio, judged.installationRatio ?? Number.NaN, RATIO * c ** 2);
            seen++;
          }
        }),
        runs(kind),
      );
      expect(seen).toBeGreaterThan(runs(kind).numRuns);
    });

    it('on the right-hand side gives the rows of its mirror image, to the bit, and says that it was mirrored', () => {
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const flip = ([y, z]: Point): Point => [-y, z];
          const right = movedPoints(input, flip);
          const [one, other] = [kind.corner(input), kind.corner(right)];
          expect(one.mirrored).toBe(false);
          expect(other).toEqual({ ...one, mirrored: true });
          expect(sweep(other).rows()).toEqual(sweep(one).rows());
        }),
        runs(kind),
      );
    });

    it.each([0.001, 1 / 25.4, 0.5, 3, 1000])('drawn %d times as large has lengths so much larger', (k) => {
      fc.assert(
        fc.property(kind.inputs, travelReferences, (input, travelReference) => {
          const large = scaled(kind, input, k);
          const one = sweep(kind.corner(input), { travelReference });
          const other = sweep(kind.corner(large), {
            bump: 80 * k,
            droop: 80 * k,
            step: 5 * k,
            travelReference,
          });
          for (const side of ['bump', 'droop'] as const) {
            expect(other.end[side].status).toBe(one.end[side].status);
            expectWithin(other.end[side].travel / k, one.end[side].travel, END);
          }
          for (const t of travelsOf(one)) {
            expectSameRow(other.at(k * t), one.at(t), one.info, kind, input, {
              travelReference,
              units: { mm: 1 / k, '1/mm': k },
            });
          }
        }),
        runs(kind, 40),
      );
    });

    it.each([1000, 2 ** 20])('drawn %d mm higher moves the same', (up) => {
      fc.assert(
        fc.property(kind.inputs, travelReferences, (input, travelReference) => {
          const high = moved(kind, input, ([y, z]) => [y, z + up]);
          const one = sweep(kind.corner(input), { travelReference });
          const other = sweep(kind.corner(high), { travelReference });
          for (const t of travelsOf(one)) {
            expectSameRow(other.at(t), one.at(t), one.info, kind, input, {
              travelReference,
              coordinates: up,
              shift: (name) => (name.endsWith('Z') ? -up : 0),
            });
          }
        }),
        runs(kind),
      );
    });

    it.each([1000, 2 ** 20])(
      'drawn %d mm farther out moves the same, but for the height of the roll centre',
      (out) => {
        fc.assert(
          fc.property(kind.inputs, travelReferences, (input, travelReference) => {
            const far = moved(kind, input, ([y, z]) => [y + out, z]);
            const one = sweep(kind.corner(input), { travelReference });
            const other = sweep(kind.corner(far), { travelReference });
            for (const t of travelsOf(one)) {
              const [here, there] = [one.at(t), other.at(t)];
              expectSameRow(there, here, one.info, kind, input, {
                travelReference,
                coordinates: out,
                shift: (name) => (name.endsWith('Y') ? -out : 0),
                except: ['rollCentreHeight'],
              });
              const c = conditioningOf(kind, input, placesOf(here));
              const slope = (row: Pose) => (row.rollCentreHeight as number) / (row.contactPatchY as number);
              expectClose(slope(there), slope(here), { times: 8, scale: (out * c ** 2) / 100 });
            }
          }),
          runs(kind),
        );
      },
    );

    it('survives structuredClone and JSON to the bit', () => {
      fc.assert(
        fc.property(kind.inputs, travelReferences, (input, travelReference) => {
          const corner = kind.corner(input);
          const expected = sweep(corner, { travelReference });
          for (const copy of [structuredClone(corner), JSON.parse(JSON.stringify(corner))]) {
            expect(copy).toEqual(corner);
            const swept = sweep(deepFreeze(copy), { travelReference });
            expect(swept.columns).toEqual(expected.columns);
            expect(swept.end).toEqual(expected.end);
          }
        }),
        runs(kind),
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
        fc.property(kind.inputs, (input) => {
          // From an input that is not frozen: what the corner holds must be its own.
          expect(thawed(kind.corner(structuredClone(input)), 'corner')).toEqual([]);
        }),
        runs(kind),
      );
    });

    it('keeps nothing of its input', () => {
      const input = structuredClone(fc.sample(kind.inputs, 1)[0]);
      const corner = kind.corner(input);
      const before = structuredClone(corner);
      const shift = (value: object): void => {
        for (const [key, inner] of Object.entries(value)) {
          if (typeof inner === 'number') Object.assign(value, { [key]: inner + 10 });
          else if (typeof inner === 'object' && inner !== null) shift(inner);
        }
      };
      shift(input);
      expect(corner).toEqual(before);
    });
  });

  describe('a sweep', () => {
    it('has the same bits in columns, rows and at(), in whatever order it is read', () => {
      fc.assert(
        fc.property(
          kind.inputs,
          travelReferences,
          fc.infiniteStream(fc.nat()),
          (input, travelReference, keys) => {
            const swept: Sweep = sweep(kind.corner(input), { travelReference });
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
          },
        ),
        runs(kind),
      );
    });

    it('says which columns have gaps; the others are full of finite numbers', () => {
      fc.assert(
        fc.property(kind.inputs, travelReferences, (input, travelReference) => {
          const { info, columns }: Sweep = sweep(kind.corner(input), {
            bump: 300,
            droop: 300,
            travelReference,
          });
          for (const { name, gaps } of info) {
            const column = columns[name];
            expect(column).toBeInstanceOf(gaps ? Array : Float64Array);
            expect(column).toHaveLength(columns.travel.length);
            const odd = [...column].filter((value) => !Number.isFinite(value) && !(gaps && value === null));
            expect([name, odd]).toEqual([name, []]);
          }
        }),
        runs(kind),
      );
    });

    it('keeps the plan of its columns, for the next sweep of the same ones', () => {
      const [input] = fc.sample(kind.inputs, 1);
      const [one, two] = [kind.corner(input), kind.corner(structuredClone(input))].map(modelOf);
      const plan = (model: CornerModel, only?: readonly string[]) => planColumns(model, 'contactPatch', only);
      for (const only of [undefined, [], ['camber'], ['camber', 'shockLength']]) {
        expect(plan(two, only && [...only])).toBe(plan(one, only));
      }
      expect(planColumns(one, 'wheelCentre', ['camber'])).not.toBe(plan(one, ['camber']));
    });

    it('has gaps where a column may have no value, and nowhere else', () => {
      const [input] = fc.sample(kind.inputs, 1);
      for (const travelReference of ['contactPatch', 'wheelCentre'] as const) {
        const { info }: Sweep = sweep(kind.corner(input), { bump: 1, droop: 1, travelReference });
        expect(info.filter(({ gaps }) => gaps).map(({ name }) => name)).toEqual(GAPS);
      }
    });

    it('of some columns has the bits of one with all', () => {
      fc.assert(
        fc.property(kind.inputs, fc.infiniteStream(fc.boolean()), (input, wanted) => {
          const corner = kind.corner(input);
          const all: Sweep = sweep(corner);
          const columns = all.info
            .map(({ name }) => name)
            .filter((name) => name !== 'travel' && wanted.next().value);
          const some = sweep(corner, deepFreeze({ columns }));
          expect(some.info.map(({ name }) => name)).toEqual(['travel', ...columns]);
          for (const { name } of some.info) expect(some.columns[name]).toEqual(all.columns[name]);
        }),
        runs(kind),
      );
    });

    it('has just its columns, by its own travel, whatever was swept before', () => {
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const corner = kind.corner(input);
          const choices = [
            undefined,
            ['shockLength'],
            ['shockLength', 'camber'],
            ['camber'],
            undefined,
            ['shockLength', 'halfTrackChange'],
          ];
          for (const columns of choices) {
            for (const travelReference of ['contactPatch', 'wheelCentre'] as const) {
              const options = { bump: 10, droop: 10, step: 5, travelReference };
              const swept: Sweep = sweep(corner, {
                ...options,
                ...(columns === undefined ? {} : { columns }),
              });
              const alone: Sweep = sweep(kind.corner(structuredClone(input)), options);
              const names =
                columns === undefined ? alone.info.map(({ name }) => name) : ['travel', ...columns];
              expect(swept.info.map(({ name }) => name)).toEqual(names);
              for (const name of names) expect(swept.columns[name]).toEqual(alone.columns[name]);
            }
          }
        }),
        runs(kind, 10),
      );
    });

    it('over a part of the range agrees with one over more', () => {
      fc.assert(
        fc.property(
          kind.inputs,
          travelReferences,
          fc.nat({ max: 79 }),
          fc.nat({ max: 79 }),
          (input, travelReference, bump, droop) => {
            const corner = kind.corner(input);
            const whole = sweep(corner, { travelReference });
            const part = sweep(corner, { bump, droop, travelReference });
            // Pieces of another length are cut off at another order.
            for (const t of travelsOf(part))
              expectSameRow(part.at(t), whole.at(t), whole.info, kind, input, {
                travelReference,
                rates: 2,
              });
          },
        ),
        runs(kind),
      );
    });

    /** Columns that are derivatives by travel. */
    const DERIVED = [
      'installationRatio',
      'installationRatioSlope',
      'rollCentreHeight',
      'instantCentreCurvature',
    ];

    it.each<TravelReference>(['contactPatch', 'wheelCentre'])(
      'over %s gives null for what does not exist at a dead point, numbers for the rest, and no row there',
      (travelReference) => {
        fc.assert(
          fc.property(kind.endingDead, fc.integer({ min: -50, max: 50 }), (input, up) => {
            const raised = moved(kind, input, ([y, z]) => [y, z + up / 10]);
            const swept = sweep(kind.corner(raised), { bump: 2000, droop: 2000, step: 50, travelReference });
            const { travel } = swept.columns;
            for (const side of ['bump', 'droop'] as const) {
              const end = swept.end[side];
              expect(end.status).toBe('deadPoint');
              const row: Pose = swept.at(end.travel);
              for (const { name, gaps } of swept.info) {
                const derived = gaps || DERIVED.includes(name);
                if (derived) expect([name, row[name]]).toEqual([name, null]);
                else expect([name, Number.isFinite(row[name])]).toEqual([name, true]);
              }
              expect(travel).not.toContain(end.travel);
            }
          }),
          runs(kind),
        );
      },
    );

    it('over wheel-centre travel is the same poses under another travel', () => {
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const corner = kind.corner(input);
          const byCentre = sweep(corner, { travelReference: 'wheelCentre', bump: 60, droop: 60 });
          const byPatch = sweep(corner, { bump: 300, droop: 300 });
          for (const t of travelsOf(byCentre)) {
            const row = byCentre.at(t);
            const travel = placesOf(row).contactPatch[1] - kind.contactPatch(input)[1];
            expectSameRow(byPatch.at(travel), row, byCentre.info, kind, input, {
              travelReference: 'wheelCentre',
              except: ['travel'],
            });
          }
        }),
        runs(kind),
      );
    });

    const tenths = (max: number) => fc.nat({ max: 10 * max }).map((n) => n / 10);

    it.each<TravelReference>(['contactPatch', 'wheelCentre'])(
      'over %s ends exactly where it was asked to, and can be read there',
      (travelReference) => {
        fc.assert(
          fc.property(kind.inputs, tenths(20), tenths(20), tenths(1), (input, bump, droop, up) => {
            const raised = moved(kind, input, ([y, z]) => [y, z + up]);
            const swept = sweep(kind.corner(raised), { bump, droop, travelReference, columns: [] });
            fc.pre(swept.end.bump.status === 'reached' && swept.end.droop.status === 'reached');
            expect(swept.end.bump.travel).toBe(bump);
            expect(swept.end.droop.travel).toBe(0 - droop);
            expect(swept.at(bump).travel).toBe(bump);
            expect(swept.at(-droop).travel).toBe(-droop);
          }),
          runs(kind, 300),
        );
      },
    );

    it('with no way to go has one row, the drawn pose', () => {
      fc.assert(
        fc.property(kind.inputs, travelReferences, (input, travelReference) => {
          const swept = sweep(kind.corner(input), { bump: 0, droop: 0, travelReference });
          expect([...swept.columns.travel]).toEqual([0]);
          expect(swept.end).toEqual({
            bump: { travel: 0, status: 'reached' },
            droop: { travel: 0, status: 'reached' },
          });
          const [row] = swept.rows();
          expect(placesOf(row).wheelCentre).toEqual(input.wheel.centre);
        }),
        runs(kind),
      );
    });

    it('outside its range throws, and says what the range is', () => {
      fc.assert(
        fc.property(kind.inputs, fc.constantFrom(1e-9, 1, 1e6, Number.POSITIVE_INFINITY), (input, beyond) => {
          const swept = sweep(kind.corner(input), { bump: 10, droop: 20 });
          const { bump, droop } = swept.end;
          for (const travel of [bump.travel + beyond, droop.travel - beyond, Number.NaN]) {
            expect(() => swept.at(travel)).toThrow(InputError);
            expect(() => swept.at(travel)).toThrow(
              `${droop.travel} mm (${droop.status}) to ${bump.travel} mm (${bump.status})`,
            );
          }
        }),
        runs(kind),
      );
    });

    it('is what its defaults say', () => {
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const corner = kind.corner(input);
          const spelt: SweepOptions = deepFreeze({
            bump: 80,
            droop: 80,
            travelReference: 'contactPatch',
            step: 5,
          });
          const [one, other] = [sweep(corner), sweep(corner, spelt)];
          expect(one.columns).toEqual(other.columns);
          expect(one.end).toEqual(other.end);
          expect(one.info).toEqual(other.info);
        }),
        runs(kind),
      );
    });
  });
}
