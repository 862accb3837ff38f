/** A unit at hand against the one that is wanted: its two lengths by stroke and body, and every sentence that it can get. */
import * as fc from 'fast-check';
import { doubleWishbone } from 'jounce';
import { describe, expect, it } from 'vitest';
import { limits } from '../../src/corner/limits/limits.ts';
import type { Donor, LimitOptions } from '../../src/corner/limits/options.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

/** Equal level arms 400 mm long, the coilover on the lower one. */
const cornerWith = (mount: Point, chassisMount: Point, offset = 0) =>
  doubleWishbone({
    lowerArm: { inner: [250, 150], outer: [650, 150] },
    upperArm: { inner: [240, 370], outer: [640, 370] },
    wheel: { centre: [720, 300], camber: 0 },
    coilover: { on: 'lowerArm', mount, chassisMount, offset },
  });

/** The coilover stands upright 300 mm out, 400 mm long. */
const corner = cornerWith([550, 150], [550, 550]);
const donorOf = (options: LimitOptions) => {
  const { donor } = limits(corner, deepFreeze(options));
  if (donor === undefined) expect.fail('not compared');
  return donor;
};
const RIDE = 'the drawn ride height (400 mm between the eyes)';
const planned = { damper: { open: 440, closed: 340 } };

describe('a unit at hand, as it is measured', () => {
  const first = (donor: Donor) => donorOf({ donor }).sentences;

  it('is not spoken of where none is given', () => {
    expect(Object.keys(limits(corner, planned))).not.toContain('donor');
  });

  it.each<[Donor, string]>([
    [{ length: 400, state: 'open' }, `is fully open at ${RIDE}: fitted like this it leaves no droop travel.`],
    [
      { length: 399.6, state: 'open' },
      `is fully open at ${RIDE}: fitted like this it leaves no droop travel.`,
    ],
    [
      { length: 400.4, state: 'open', stroke: 90 },
      `is fully open at ${RIDE}: fitted like this it leaves no droop travel.`,
    ],
    [{ length: 390, state: 'open' }, `is 10 mm too short for ${RIDE}, even fully open.`],
    [{ length: 399.4, state: 'open', stroke: 90 }, `is 0.6 mm too short for ${RIDE}, even fully open.`],
    [{ length: 520, state: 'open', stroke: 100 }, `is 20 mm too long for ${RIDE}, even fully closed.`],
    [{ length: 500.6, state: 'open', stroke: 100 }, `is 0.6 mm too long for ${RIDE}, even fully closed.`],
    [
      { length: 400, state: 'closed' },
      `is fully closed at ${RIDE}: fitted like this it leaves no bump travel.`,
    ],
    [
      { length: 399.6, state: 'closed' },
      `is fully closed at ${RIDE}: fitted like this it leaves no bump travel.`,
    ],
    [
      { length: 400.4, state: 'closed', stroke: 90 },
      `is fully closed at ${RIDE}: fitted like this it leaves no bump travel.`,
    ],
    [{ length: 420, state: 'closed' }, `is 20 mm too long for ${RIDE}, even fully closed.`],
    [{ length: 400.6, state: 'closed', stroke: 90 }, `is 0.6 mm too long for ${RIDE}, even fully closed.`],
    [{ length: 300, state: 'closed', stroke: 70 }, `is 30 mm too short for ${RIDE}, even fully open.`],
    [{ length: 300, state: 'closed', stroke: 99.4 }, `is 0.6 mm too short for ${RIDE}, even fully open.`],
  ])('%j: the unit at hand %s', (donor, sentence) => {
    expect(first(donor)).toEqual([`The unit at hand ${sentence}`]);
  });

  it.each<[Donor, string]>([
    [{ length: 460, state: 'open' }, 'open by 60 mm; give its stroke too, to know how far it can close.'],
    [{ length: 460, state: 'open', stroke: 100 }, 'open by 60 mm and close by 40 mm.'],
    [{ length: 460, state: 'open', stroke: 59.6 }, 'open by 60 mm and close by 0 mm.'],
    [{ length: 330, state: 'closed' }, 'close by 70 mm; give its stroke too, to know how far it can open.'],
    [{ length: 330, state: 'closed', stroke: 90 }, 'open by 20 mm and close by 70 mm.'],
    [{ length: 330, state: 'closed', stroke: 69.6 }, 'open by 0 mm and close by 70 mm.'],
  ])('%j: it can still %s', (donor, sentence) => {
    expect(first(donor)).toEqual([`At ${RIDE} the unit at hand can still ${sentence}`]);
  });

  it.each([
    [400, 'That is its length at the drawn ride height'],
    [399.6, 'That is its length at the drawn ride height'],
    [400.4, 'That is its length at the drawn ride height'],
    [385, `That is 15 mm less than at ${RIDE}`],
    [415, `That is 15 mm more than at ${RIDE}`],
  ])('somewhere between open and closed, %d mm long', (length, where) => {
    expect(first({ length, state: 'measured' })).toEqual([
      `The unit at hand measured ${length} mm somewhere between open and closed. ${where}; how far it can open and close from there only its open and closed length tell.`,
    ]);
  });

  it('is counted in space, the offset of the coilover too', () => {
    // 300-400-500.
    const [sentence] =
      limits(cornerWith([550, 150], [550, 550], 300), { donor: { length: 520, state: 'open' } }).donor
        ?.sentences ?? [];
    expect(sentence).toMatch(
      /^At the drawn ride height \(500 mm between the eyes\) .* can still open by 20 mm;/,
    );
  });
});

describe('a unit at hand against the damper planned', () => {
  const PLANNED = 'The damper planned is 440 mm open and 340 mm closed, with a stroke of 100 mm.';
  const against = (donor: Donor) => {
    const { sentences, wanted, ...by } = donorOf({ ...planned, donor });
    expect(wanted).toEqual(planned.damper);
    expect(sentences[1]).toBe(PLANNED);
    return { by, told: sentences.slice(2) };
  };

  it('whatever is measured of it: with closed = D + S and open = D + 2 S it has but two lengths', () => {
    const length = fc.integer({ min: 1000, max: 5000 }).map((tenths) => tenths / 10);
    const stroke = fc.integer({ min: 100, max: 3000 }).map((tenths) => tenths / 10);
    const unit = fc.record({ dead: length, stroke });
    const roundings = { times: 16, scale: 1000 };
    fc.assert(
      fc.property(unit, unit, (own, other) => {
        const closed = own.dead + own.stroke;
        const open = closed + own.stroke;
        const damper = { open: other.dead + 2 * other.stroke, closed: other.dead + other.stroke };
        for (const donor of [
          { length: open, state: 'open', stroke: own.stroke },
          { length: closed, state: 'closed', stroke: own.stroke },
        ] as const) {
          const { openBy, closedBy, strokeBy, bodyBy } = donorOf({ damper, donor });
          expectClose(openBy, damper.open - open, roundings);
          expectClose(closedBy, damper.closed - closed, roundings);
          expectClose(strokeBy, other.stroke - own.stroke, roundings);
          expectClose(bodyBy, other.dead - own.dead, roundings);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('with its stroke, is told by how much stroke, body and both lengths differ', () => {
    // Dead length 240 mm of either.
    expect(against({ length: 400, state: 'open', stroke: 80 })).toEqual({
      by: { openBy: 40, closedBy: 20, strokeBy: 20, bodyBy: 0 },
      told: [
        "Its stroke is 20 mm more than that of the unit at hand; its body, the closed length less the stroke, is the same as that one's.",
        'Fully open it is 40 mm longer than the unit at hand.',
        'Fully closed it is 20 mm longer than the unit at hand.',
      ],
    });
    // Dead length 260 mm against 240.
    expect(against({ length: 370, state: 'closed', stroke: 110 })).toEqual({
      by: { openBy: -40, closedBy: -30, strokeBy: -10, bodyBy: -20 },
      told: [
        "Its stroke is 10 mm less than that of the unit at hand; its body, the closed length less the stroke, is 20 mm shorter than that one's.",
        'Fully open it is 40 mm shorter than the unit at hand.',
        'Fully closed it is 30 mm shorter than the unit at hand.',
      ],
    });
    expect(against({ length: 340, state: 'closed', stroke: 103 }).told).toEqual([
      "Its stroke is 3 mm less than that of the unit at hand; its body, the closed length less the stroke, is 3 mm longer than that one's.",
      'Fully open it is 3 mm shorter than the unit at hand.',
      'Fully closed it is the same as the unit at hand.',
    ]);
  });

  it('without its stroke, is told of the one length that is known', () => {
    expect(against({ length: 450, state: 'open' })).toEqual({
      by: { openBy: -10, closedBy: null, strokeBy: null, bodyBy: null },
      told: ['Fully open it is 10 mm shorter than the unit at hand.'],
    });
    expect(against({ length: 330, state: 'closed' })).toEqual({
      by: { openBy: null, closedBy: 10, strokeBy: null, bodyBy: null },
      told: ['Fully closed it is 10 mm longer than the unit at hand.'],
    });
  });

  it('measured in between, is told of its stroke, and of a length that the new one never has', () => {
    const unknown = { openBy: null, closedBy: null, bodyBy: null };
    expect(against({ length: 400, state: 'measured' })).toEqual({
      by: { ...unknown, strokeBy: null },
      told: [],
    });
    expect(against({ length: 400, state: 'measured', stroke: 75 })).toEqual({
      by: { ...unknown, strokeBy: 25 },
      told: ['Its stroke is 25 mm more than that of the unit at hand.'],
    });
    expect(against({ length: 455, state: 'measured' }).told).toEqual([
      'The unit at hand was 15 mm longer than that when it was measured: its open length is too long by that at least.',
    ]);
    expect(against({ length: 328, state: 'measured', stroke: 100 }).told).toEqual([
      'Its stroke is the same as that of the unit at hand.',
      'The unit at hand was 12 mm shorter than that when it was measured: its closed length is too short by that at least.',
    ]);
    // What an open or a closed one measures beyond the new one's lengths is told by its open and closed length.
    expect(against({ length: 455, state: 'open' }).told).toHaveLength(1);
    expect(against({ length: 328, state: 'closed' }).told).toHaveLength(1);
  });

  it('is the same where what is written would be nothing, in either unit', () => {
    const open = (length: number, units: LimitOptions['units']) =>
      donorOf({ ...planned, donor: { length, state: 'open' }, units }).sentences.at(-1);
    expect(open(439.96, 'metric')).toBe('Fully open it is the same as the unit at hand.');
    expect(open(439.9, 'metric')).toBe('Fully open it is 0.1 mm longer than the unit at hand.');
    expect(open(439.9, 'imperial')).toBe('Fully open it is the same as the unit at hand.');
    expect(open(439.7, 'imperial')).toBe('Fully open it is 0.01 inch longer than the unit at hand.');
  });
});

describe('a unit at hand against the travel wanted', () => {
  /** Mount on a circle of 300 mm about the pivot at its own height, chassis mount 400 mm above it as drawn. */
  const lengthAt = (travel: number) => {
    const turn = Math.asin(travel / 400);
    return Math.hypot(300 - 300 * Math.cos(turn), 400 - 300 * Math.sin(turn));
  };
  const wantedOf = (options: LimitOptions, of = corner) =>
    limits(of, deepFreeze({ ...options, donor: { length: 330, state: 'closed', stroke: 75 } })).donor;

  it('is set against the lengths at the ends of that travel, the stop solid', () => {
    const donor = wantedOf({
      bumpStop: { height: 40, solidHeight: 12 },
      damper: { open: 500, closed: 200 },
      required: { bump: 60, droop: 50 },
    });
    const [open, closed] = [lengthAt(-50), lengthAt(60) - 12];
    expectWithin(donor?.wanted?.open ?? null, open, 1e-9);
    expectWithin(donor?.wanted?.closed ?? null, closed, 1e-9);
    expectWithin(donor?.openBy ?? null, open - 405, 1e-9);
    expectWithin(donor?.closedBy ?? null, closed - 330, 1e-9);
    expectWithin(donor?.strokeBy ?? null, open - closed - 75, 1e-9);
    expectWithin(donor?.bodyBy ?? null, 2 * closed - open - (330 - 75), 1e-9);
    expect(donor?.sentences[1]).toBe(
      'For the travel wanted the new unit is to be 437.5 mm open or more, and 343 mm closed or less: a stroke of 94.5 mm at least.',
    );
  });

  it('needs no damper and no stop', () => {
    const { wanted } = wantedOf({ required: { bump: 60, droop: 50 } }) ?? {};
    expectWithin(wanted?.open ?? null, lengthAt(-50), 1e-9);
    expectWithin(wanted?.closed ?? null, lengthAt(60), 1e-9);
  });

  it('of no travel at all, is set against the length at the drawn ride height', () => {
    const { wanted } = wantedOf({ required: { bump: 0, droop: 0 } }) ?? {};
    expectWithin(wanted?.open ?? null, 400, 1e-9);
    expectWithin(wanted?.closed ?? null, 400, 1e-9);
  });

  it('of one side only, is set against the damper planned, or against nothing', () => {
    for (const required of [{ bump: 60 }, { droop: 50 }]) {
      expect(wantedOf({ ...planned, required })?.wanted).toEqual(planned.damper);
      expect(wantedOf({ required })).toMatchObject({
        wanted: null,
        openBy: null,
        closedBy: null,
        strokeBy: null,
        bodyBy: null,
        sentences: [expect.stringMatching(/can still open by 5 mm and close by 70 mm\.$/)],
      });
    }
  });

  it('has the shortest and the longest on the way, where the coilover turns back', () => {
    // Chassis mount at 3-4-5 from the pivot: mount and pivot in line with it at 500 - 300 mm, at 4/5 of 400 mm of bump.
    const beyond = wantedOf({ required: { bump: 360, droop: 0 } });
    expectWithin(beyond?.wanted?.closed ?? null, 200, 1e-9);
    expect(beyond?.sentences[1]).toMatch(/400 mm open or more, and 200 mm closed or less/);
    const before = wantedOf({ required: { bump: 280, droop: 0 } });
    expectWithin(before?.wanted?.closed ?? null, lengthAt(280), 1e-9);
    // Chassis mount at 45 degrees inboard of the pivot: longest in line with it, the arm hanging by 45 degrees.
    const inboard = cornerWith([550, 150], [150, 250]);
    const far = wantedOf({ required: { bump: 0, droop: 350 } }, inboard);
    expectWithin(far?.wanted?.open ?? null, 300 + 100 * Math.SQRT2, 1e-9);
    const turn = Math.asin(-350 / 400);
    const last = Math.hypot(300 * Math.cos(turn) + 100, 300 * Math.sin(turn) - 100);
    expectWithin(far?.wanted?.closed ?? null, Math.min(Math.hypot(400, 100), last), 1e-9);
  });

  it('beyond what the linkage has, is set against all that it has', () => {
    const end = limits(corner).droop?.travel ?? Number.NaN;
    const { wanted } = wantedOf({ required: { bump: 900, droop: 900 } }) ?? {};
    expectWithin(wanted?.closed ?? null, 200, 1e-9);
    expectWithin(wanted?.open ?? null, lengthAt(end), 1e-6);
  });
});
