/** The unit to order against a donor damper, the donor by itself, and every sentence that they can get. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { type DonorComparison, doubleWishbone, readCar, sentence, sizeCoilovers, type Units } from 'jounce';
import { describe, expect, it } from 'vitest';
import { limits } from '../../src/corner/limits/limits.ts';
import type { Donor, LimitOptions } from '../../src/document/inputs.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

/** Equal level arms 400 mm long, the coilover on the lower one. */
const cornerWith = (mount: Point, chassisMount: Point, foreAftOffset = 0) =>
  doubleWishbone({
    lowerArm: { inner: [250, 150], outer: [650, 150] },
    upperArm: { inner: [240, 370], outer: [640, 370] },
    wheel: { centre: [720, 300], camber: 0 },
    coilover: { on: 'lowerArm', mount, chassisMount, foreAftOffset },
  });

/** The coilover stands upright 300 mm out, 400 mm long. */
const corner = cornerWith([550, 150], [550, 550]);
const donorOf = (options: LimitOptions) => {
  const { donor } = limits(corner, deepFreeze(options));
  if (donor === undefined) expect.fail('not compared');
  return donor;
};
/** What is said of a donor, but for its wheel travel. */
const said = (donor: DonorComparison | undefined, units?: Units) =>
  (donor?.diagnostics ?? []).filter(({ code }) => code !== 'donorTravel').map((one) => sentence(one, units));
const travelOf = (donor: DonorComparison | undefined) =>
  (donor?.diagnostics ?? []).filter(({ code }) => code === 'donorTravel').map((one) => sentence(one));
const RIDE = 'design ride height (400.0 mm eye to eye)';
const ordered = { damper: { extendedLength: 440, compressedLength: 340 } };

describe('a donor damper by itself', () => {
  const told = (donor: Donor) => said(donorOf({ donor }));

  it('is not spoken of where none is given', () => {
    expect(Object.keys(limits(corner, ordered))).not.toContain('donor');
  });

  it.each<[Donor, 'droop' | 'bump']>([
    [{ length: 400, state: 'extended' }, 'droop'],
    [{ length: 399.6, state: 'extended' }, 'droop'],
    [{ length: 400.4, state: 'extended', stroke: 90 }, 'droop'],
    [{ length: 400, state: 'compressed' }, 'bump'],
    [{ length: 399.6, state: 'compressed' }, 'bump'],
    [{ length: 400.4, state: 'compressed', stroke: 90 }, 'bump'],
  ])('%j at ride height has no %s travel', (donor, side) => {
    const state = side === 'droop' ? 'extended' : 'compressed';
    expect(told(donor)).toEqual([
      `Fitted as it is, fully ${state} at design ride height, the donor damper has no ${side} travel.`,
    ]);
  });

  it.each<[Donor, string]>([
    [{ length: 390, state: 'extended' }, `is 10.0 mm too short for ${RIDE}, even fully extended.`],
    [
      { length: 399.4, state: 'extended', stroke: 90 },
      `is 0.6 mm too short for ${RIDE}, even fully extended.`,
    ],
    [
      { length: 520, state: 'extended', stroke: 100 },
      `is 20.0 mm too long for ${RIDE}, even fully compressed.`,
    ],
    [
      { length: 500.6, state: 'extended', stroke: 100 },
      `is 0.6 mm too long for ${RIDE}, even fully compressed.`,
    ],
    [{ length: 420, state: 'compressed' }, `is 20.0 mm too long for ${RIDE}, even fully compressed.`],
    [
      { length: 400.6, state: 'compressed', stroke: 90 },
      `is 0.6 mm too long for ${RIDE}, even fully compressed.`,
    ],
    [
      { length: 300, state: 'compressed', stroke: 70 },
      `is 30.0 mm too short for ${RIDE}, even fully extended.`,
    ],
    [
      { length: 300, state: 'compressed', stroke: 99.4 },
      `is 0.6 mm too short for ${RIDE}, even fully extended.`,
    ],
    [
      { length: 460, state: 'extended' },
      `can extend by 60.0 mm from ${RIDE}; give its stroke to know how far it can compress.`,
    ],
    [
      { length: 460, state: 'extended', stroke: 100 },
      `can extend by 60.0 mm and compress by 40.0 mm from ${RIDE}.`,
    ],
    [
      { length: 460, state: 'extended', stroke: 59.6 },
      `can extend by 60.0 mm and compress by 0.0 mm from ${RIDE}.`,
    ],
    [
      { length: 330, state: 'compressed' },
      `can compress by 70.0 mm from ${RIDE}; give its stroke to know how far it can extend.`,
    ],
    [
      { length: 330, state: 'compressed', stroke: 90 },
      `can extend by 20.0 mm and compress by 70.0 mm from ${RIDE}.`,
    ],
    [
      { length: 330, state: 'compressed', stroke: 69.6 },
      `can extend by 0.0 mm and compress by 70.0 mm from ${RIDE}.`,
    ],
  ])('%j as it is %s', (donor, sentence) => {
    expect(told(donor)).toEqual([`Fitted as it is, the donor damper ${sentence}`]);
  });

  it('has what it has left as numbers, as it is and cut to fit', () => {
    const open = donorOf({ donor: { length: 460, state: 'extended', stroke: 100 } });
    expect(open).toMatchObject({
      donorAsIs: { extension: 60, compression: 40 },
      donorCutToFit: { extension: 0, compression: 100 },
      designLengthDifference: -60,
    });
    const closed = donorOf({ donor: { length: 330, state: 'compressed' } });
    expect(closed).toMatchObject({
      donorAsIs: { extension: null, compression: 70 },
      donorCutToFit: { extension: null, compression: 0 },
      designLengthDifference: 70,
    });
    const between = donorOf({ donor: { length: 400, state: 'measured', stroke: 80 } });
    expect(between.donorAsIs).toEqual({ extension: null, compression: null });
    expect(between.donorCutToFit).toBe(null);
  });

  it.each([
    [400, `as at ${RIDE}`],
    [399.6, `0.4 mm less than at ${RIDE}`],
    [415, `15.0 mm more than at ${RIDE}`],
  ])('somewhere between extended and compressed, %d mm long', (length, where) => {
    expect(told({ length, state: 'measured' })).toEqual([
      `The donor damper measured ${length.toFixed(1)} mm somewhere between extended and compressed, ${where}; measure its extended and compressed lengths to know how far it goes from there.`,
    ]);
  });

  it('is counted in space, the offset of the coilover too', () => {
    // 300-400-500.
    const { donor } = limits(cornerWith([550, 150], [550, 550], 300), {
      donor: { length: 520, state: 'extended' },
    });
    expect(said(donor)[0]).toMatch(/can extend by 20.0 mm from design ride height \(500.0 mm eye to eye\);/);
  });
});

describe('the ordered unit against a donor damper', () => {
  const IS = 'The new damper is 440.0 mm extended and 340.0 mm compressed, with a stroke of 100.0 mm.';
  const AGAINST = 'The new damper against the donor damper:';
  const against = (donor: Donor) => {
    const found = donorOf({ ...ordered, donor });
    const { diagnostics, unit, donorAsIs, donorCutToFit, donorTravel, designLengthDifference, ...by } = found;
    const sentences = said(found);
    expect(unit).toEqual({ extendedLength: 440, compressedLength: 340, basis: 'ordered' });
    expect(sentences[0]).toBe(IS);
    return {
      by,
      told: sentences.slice(1).filter((one) => !/^(Fitted|Shortened|Length|At design)|somewhere/.test(one)),
    };
  };

  it('whatever is measured of it: with compressed = D + S and extended = D + 2 S it has but two lengths', () => {
    const length = fc.integer({ min: 1000, max: 5000 }).map((tenths) => tenths / 10);
    const stroke = fc.integer({ min: 100, max: 3000 }).map((tenths) => tenths / 10);
    const unit = fc.record({ dead: length, stroke });
    const roundings = { times: 16, scale: 1000 };
    fc.assert(
      fc.property(unit, unit, (own, other) => {
        const closed = own.dead + own.stroke;
        const open = closed + own.stroke;
        const damper = {
          extendedLength: other.dead + 2 * other.stroke,
          compressedLength: other.dead + other.stroke,
        };
        for (const donor of [
          { length: open, state: 'extended', stroke: own.stroke },
          { length: closed, state: 'compressed', stroke: own.stroke },
        ] as const) {
          const found = donorOf({ damper, donor });
          expectClose(found.extendedLengthDifference, damper.extendedLength - open, roundings);
          expectClose(found.compressedLengthDifference, damper.compressedLength - closed, roundings);
          expectClose(found.strokeDifference, other.stroke - own.stroke, roundings);
          expectClose(found.deadLengthDifference, other.dead - own.dead, roundings);
        }
      }),
      { numRuns: 25 },
    );
  });

  const DEAD = 'dead length (compressed length minus stroke)';
  it('with its stroke, is told by how much both lengths, stroke and dead length differ', () => {
    // Dead length 240 mm of either.
    expect(against({ length: 400, state: 'extended', stroke: 80 })).toEqual({
      by: {
        extendedLengthDifference: 40,
        compressedLengthDifference: 20,
        strokeDifference: 20,
        deadLengthDifference: 0,
      },
      told: [
        `${AGAINST} 40.0 mm longer extended, 20.0 mm longer compressed, 20.0 mm more stroke, the same ${DEAD}.`,
      ],
    });
    // Dead length 260 mm against 240.
    expect(against({ length: 370, state: 'compressed', stroke: 110 })).toEqual({
      by: {
        extendedLengthDifference: -40,
        compressedLengthDifference: -30,
        strokeDifference: -10,
        deadLengthDifference: -20,
      },
      told: [
        `${AGAINST} 40.0 mm shorter extended, 30.0 mm shorter compressed, 10.0 mm less stroke, 20.0 mm less ${DEAD}.`,
      ],
    });
    expect(against({ length: 340, state: 'compressed', stroke: 103 }).told).toEqual([
      `${AGAINST} 3.0 mm shorter extended, as long compressed, 3.0 mm less stroke, 3.0 mm more ${DEAD}.`,
    ]);
  });

  it('without its stroke, is told of the one length that is known', () => {
    const unknown = { strokeDifference: null, deadLengthDifference: null };
    expect(against({ length: 450, state: 'extended' })).toEqual({
      by: { ...unknown, extendedLengthDifference: -10, compressedLengthDifference: null },
      told: [`${AGAINST} 10.0 mm shorter extended.`],
    });
    expect(against({ length: 330, state: 'compressed' })).toEqual({
      by: { ...unknown, extendedLengthDifference: null, compressedLengthDifference: 10 },
      told: [`${AGAINST} 10.0 mm longer compressed.`],
    });
  });

  it('measured in between, is told of its stroke, and of a length that the ordered unit never has', () => {
    const unknown = {
      extendedLengthDifference: null,
      compressedLengthDifference: null,
      deadLengthDifference: null,
    };
    expect(against({ length: 400, state: 'measured' })).toEqual({
      by: { ...unknown, strokeDifference: null },
      told: [],
    });
    expect(against({ length: 400, state: 'measured', stroke: 75 })).toEqual({
      by: { ...unknown, strokeDifference: 25 },
      told: [`${AGAINST} 25.0 mm more stroke.`],
    });
    expect(against({ length: 455, state: 'measured' }).told).toEqual([
      'The donor damper measured 15.0 mm longer than the new damper fully extended: it differs there by at least that.',
    ]);
    expect(against({ length: 328, state: 'measured', stroke: 100 }).told).toEqual([
      `${AGAINST} the same stroke.`,
      'The donor damper measured 12.0 mm shorter than the new damper fully compressed: it differs there by at least that.',
    ]);
    // Of one that is extended or compressed the lengths themselves are compared.
    expect(against({ length: 455, state: 'extended' }).told).toHaveLength(1);
    expect(against({ length: 328, state: 'compressed' }).told).toHaveLength(1);
  });

  it('is as long where what is written would be nothing, in either unit', () => {
    const open = (length: number, units: Units) =>
      said(donorOf({ ...ordered, donor: { length, state: 'extended' } }), units)[1];
    expect(open(439.96, 'metric')).toBe(`${AGAINST} as long extended.`);
    expect(open(439.9, 'metric')).toBe(`${AGAINST} 0.1 mm longer extended.`);
    expect(open(439.9, 'imperial')).toBe(`${AGAINST} as long extended.`);
    expect(open(439.7, 'imperial')).toBe(`${AGAINST} 0.01 in longer extended.`);
  });

  it('at ride height is compared with the donor as it was measured', () => {
    const compared = donorOf({ ...ordered, donor: { length: 425, state: 'extended' } });
    expect(said(compared)[2]).toBe(
      'At design ride height the new damper is 400.0 mm long, 25.0 mm shorter than the donor damper fully extended (425.0 mm).',
    );
  });

  it('is the unit that is ordered, whatever travel is required', () => {
    const donor: Donor = { length: 400, state: 'extended', stroke: 80 };
    const required = donorOf({ ...ordered, donor, required: { bump: 20, droop: 15 } });
    const free = donorOf({ ...ordered, donor });
    expect({ ...required, diagnostics: said(required) }).toEqual({ ...free, diagnostics: said(free) });
  });

  it('is the damper of a sized car, given or chosen: of the example, 14.9 in extended, 0.70 in more stroke, 0.65 longer, 0.05 shorter', () => {
    const text = readFileSync(join(import.meta.dirname, '../../docs/examples/car.json'), 'utf8');
    const document = JSON.parse(text);
    document.corners.front.limits.damper.extendedLength = 14.9;
    document.corners.rear.limits.donor = { length: 16, state: 'extended', stroke: 4.5 };
    const [front, rear] = sizeCoilovers(readCar(document)).axles;
    const inch = (mm: number | null | undefined) => (mm ?? Number.NaN) / 25.4;
    expectWithin(inch(front.limits.donor?.strokeDifference), 0.7, 1e-12);
    expectWithin(inch(front.limits.donor?.extendedLengthDifference), 0.65, 1e-12);
    expectWithin(inch(front.limits.donor?.compressedLengthDifference), -0.05, 1e-12);
    expect(front.limits.donor?.donorCutToFit?.extension).toBe(0);
    // The rear's damper follows from the travel: in whole mm.
    const { extendedLength, compressedLength } = rear.damper ?? expect.fail('no damper');
    expect(rear.limits.donor?.unit).toEqual({
      extendedLength: extendedLength,
      compressedLength: compressedLength,
      basis: 'ordered',
    });
  });
});

describe('the unit that the required travel needs', () => {
  /** Mount on a circle of 300 mm about the pivot at its own height, chassis mount 400 mm above it as drawn. */
  const lengthAt = (travel: number) => {
    const turn = Math.asin(travel / 400);
    return Math.hypot(300 - 300 * Math.cos(turn), 400 - 300 * Math.sin(turn));
  };
  const neededFor = (options: LimitOptions, of = corner) =>
    limits(of, deepFreeze({ ...options, donor: { length: 330, state: 'compressed', stroke: 75 } })).donor;

  it('has the lengths at the ends of that travel', () => {
    const donor = neededFor({ required: { bump: 60, droop: 50 } });
    const [open, closed] = [lengthAt(-50), lengthAt(60)];
    expectWithin(donor?.unit?.extendedLength ?? null, open, 1e-9);
    expectWithin(donor?.unit?.compressedLength ?? null, closed, 1e-9);
    expectWithin(donor?.extendedLengthDifference ?? null, open - 405, 1e-9);
    expectWithin(donor?.compressedLengthDifference ?? null, closed - 330, 1e-9);
    expectWithin(donor?.strokeDifference ?? null, open - closed - 75, 1e-9);
    expectWithin(donor?.deadLengthDifference ?? null, 2 * closed - open - (330 - 75), 1e-9);
    expect(said(donor)[0]).toBe(
      'The damper for the required travel is 437.5 mm or more extended and 355.0 mm or less compressed, with a stroke of 82.5 mm or more.',
    );
  });

  it('stands beside the wheel travel of the donor as it is, and what that lacks', () => {
    // 330 mm compressed and 405 mm extended.
    const travel = (required: LimitOptions['required']) => {
      const donor = neededFor({ required });
      expectWithin(lengthAt(donor?.donorTravel.bump ?? Number.NaN), 330, 1e-9);
      expectWithin(lengthAt(donor?.donorTravel.droop ?? Number.NaN), 405, 1e-9);
      return travelOf(donor)[0];
    };
    const gives =
      'Fitted as it is and without a bump stop, the donor damper gives 93.5 mm of bump and 6.7 mm of droop at the wheel';
    expect(travel(undefined)).toBe(`${gives}.`);
    expect(travel({ bump: 60 })).toBe(`${gives}; 60.0 mm of bump required: that is enough.`);
    expect(travel({ bump: 100, droop: 50 })).toBe(
      `${gives}; 100.0 mm of bump and 50.0 mm of droop required: that is not enough, 6.5 mm of bump and 43.3 mm of droop are missing.`,
    );
  });

  it('of no travel at all, is set against the length at the drawn ride height', () => {
    const { unit } = neededFor({ required: { bump: 0, droop: 0 } }) ?? {};
    expectWithin(unit?.extendedLength ?? null, 400, 1e-9);
    expectWithin(unit?.compressedLength ?? null, 400, 1e-9);
  });

  it('is not known from one side alone', () => {
    for (const required of [{ bump: 60 }, { droop: 50 }]) {
      expect(neededFor({ ...ordered, required })?.unit?.basis).toBe('ordered');
      expect(neededFor({ required })).toMatchObject({
        unit: null,
        extendedLengthDifference: null,
        compressedLengthDifference: null,
        strokeDifference: null,
        deadLengthDifference: null,
        diagnostics: [
          { code: 'donorStrokeLeft', values: { extension: 5, compression: 70 } },
          { code: 'donorTravel' },
        ],
      });
    }
  });

  it('has the shortest and the longest on the way, where the coilover turns back', () => {
    // Chassis mount at 3-4-5 from the pivot: mount and pivot in line with it at 500 - 300 mm, at 4/5 of 400 mm of bump.
    const beyond = neededFor({ required: { bump: 360, droop: 0 } });
    expectWithin(beyond?.unit?.compressedLength ?? null, 200, 1e-9);
    expect(said(beyond)[0]).toMatch(/400.0 mm or more extended and 200.0 mm or less compressed/);
    const before = neededFor({ required: { bump: 280, droop: 0 } });
    expectWithin(before?.unit?.compressedLength ?? null, lengthAt(280), 1e-9);
    // Chassis mount at 45 degrees inboard of the pivot: longest in line with it, the arm hanging by 45 degrees.
    const inboard = cornerWith([550, 150], [150, 250]);
    const far = neededFor({ required: { bump: 0, droop: 350 } }, inboard);
    expectWithin(far?.unit?.extendedLength ?? null, 300 + 100 * Math.SQRT2, 1e-9);
    const turn = Math.asin(-350 / 400);
    const last = Math.hypot(300 * Math.cos(turn) + 100, 300 * Math.sin(turn) - 100);
    expectWithin(far?.unit?.compressedLength ?? null, Math.min(Math.hypot(400, 100), last), 1e-9);
  });

  it('beyond what the linkage has, is set against all that it has', () => {
    const end = limits(corner).droop?.travel ?? Number.NaN;
    const { unit } = neededFor({ required: { bump: 900, droop: 900 } }) ?? {};
    expectWithin(unit?.compressedLength ?? null, 200, 1e-9);
    expectWithin(unit?.extendedLength ?? null, lengthAt(end), 1e-6);
  });
});
