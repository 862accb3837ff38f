/** What limits tell a builder: sentences, what does not fit, travel wanted, a donor damper, and options that can't be. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { customCorner, doubleWishbone, InputError, readCar } from 'jounce';
import { describe, expect, it } from 'vitest';
import { limits } from '../../src/corner/limits/limits.ts';
import type { LimitOptions } from '../../src/document/inputs.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';

/** Equal level arms 400 mm long; the shock stands upright on the lower one, 300 mm out, 400 mm long. */
const corner = doubleWishbone({
  lowerArm: { inner: [250, 150], outer: [650, 150] },
  upperArm: { inner: [240, 370], outer: [640, 370] },
  wheel: { centre: [720, 300], camber: -1 },
  coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 550] },
});
/** The same with its wheel as given. */
const cornerOf = (wheel: { readonly camber: number } | { readonly contactPatch: Point }) =>
  doubleWishbone({
    lowerArm: corner.lowerArm,
    upperArm: corner.upperArm,
    wheel: { centre: [720, 300], ...wheel },
    coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 550] },
  });
const of = (options: LimitOptions) => limits(corner, deepFreeze(options));

/** The same with the shock off by 100 mm fore and aft: 412.3 mm long. */
const offset = doubleWishbone({
  lowerArm: { inner: [250, 150], outer: [650, 150] },
  upperArm: { inner: [240, 370], outer: [640, 370] },
  wheel: { centre: [720, 300], camber: -1 },
  coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 550], foreAftOffset: 100 },
});

/** An upright on a straight pillar: nothing but the coilover, 330 mm below its top, ends the travel. */
const onPillar = customCorner({
  drawing: {
    points: {
      foot: [640, 200],
      head: [640, 460],
      low: [640, 260],
      high: [640, 380],
      hub: [690, 300],
      patch: [690, 0],
      eye: [600, 280],
      top: [500, 610],
    },
    ground: ['foot', 'head', 'top'],
    bodies: { upright: ['low', 'high', 'hub', 'patch', 'eye'] },
    sliders: {
      lower: { point: 'low', on: ['foot', 'head'] },
      upper: { point: 'high', on: ['foot', 'head'] },
    },
  },
  upright: 'upright',
  wheelCentre: 'hub',
  contactPatch: 'patch',
  shock: { outer: 'eye', inner: 'top' },
});

describe('a limit in words', () => {
  it('names what ends the travel, where, and which of several', () => {
    const found = of({
      damper: { extendedLength: 440, compressedLength: 340 },
      bumpStop: { height: 30, solidHeight: 10 },
      tyre: { overallRadius: 310, width: 200 },
      arch: [[720, 700]],
      chassisLowPoints: [
        [0, 200],
        [200, 90],
      ],
      ballJoints: { lowerOuter: { maxArticulation: 20, housing: 'arm' } },
      bearings: { mount: { boltAxis: 'inPlane', maxMisalignment: 12.5 } },
    });
    expect([found.bump, found.droop, ...found.later].map((limit) => limit?.sentence)).toEqual([
      'The bump stop is solid at 66.7 mm of bump (350 mm between the end eyes).',
      'The damper is fully extended at 53.3 mm of droop (440 mm between the end eyes).',
      'The bearing at the mount of the coilover is at its largest misalignment at 79.7 mm of bump: 12.5 degrees from straight.',
      'The damper is fully compressed at 80.1 mm of bump (340 mm between the end eyes).',
      'The tyre meets arch[0], [720, 700], with its tread at 89.8 mm of bump.',
      'The chassis is on the ground with chassisLowPoints[1], [200, 90], at 90 mm of bump.',
      'The bearing at the mount of the coilover is at its largest misalignment at 93.5 mm of droop: 12.5 degrees from straight.',
      'The lower outer ball joint is at its largest articulation at 136.8 mm of bump: its stud is 20 degrees from the axis of its housing.',
      'The lower outer ball joint is at its largest articulation at 136.8 mm of droop: its stud is 20 degrees from the axis of its housing.',
      'The chassis is on the ground with chassisLowPoints[0], [0, 200], at 200 mm of bump.',
      'The installation ratio is zero at 320 mm of bump: the line of the coilover passes through the pivot of the lower arm. The wheel moves there without moving the coilover, and beyond it the coilover goes the other way.',
      'The linkage can go on in more than one way at 399.6 mm of droop: how it does is not determined.',
      'The linkage is at a dead point at 400 mm of bump: it can take the wheel no higher.',
    ]);
    expect(found.events.map(({ sentence }) => sentence)).toEqual([
      'The bump stop makes contact at 40 mm of bump (370 mm between the end eyes).',
    ]);
    expect(found.misfits).toEqual([]);
  });

  it('names the face of the tyre that meets the arch', () => {
    // Arms of 400 mm that hang by 3-4-5: at a height h below level the wheel has come out by sqrt(400² - h²) - 320.
    const hanging = doubleWishbone({
      lowerArm: { inner: [250, 390], outer: [570, 150] },
      upperArm: { inner: [240, 610], outer: [560, 370] },
      wheel: { centre: [650, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [500, 202.5], chassisMount: [450, 700] },
    });
    const metBy = (point: Point) => {
      const { bump, droop, later } = limits(hanging, {
        tyre: { overallRadius: 310, width: 200 },
        arch: [point],
      });
      return [bump, droop, ...later]
        .flatMap((limit) => (limit?.cause === 'tyreContact' ? [limit] : []))
        .map(({ travel, sentence }) => [travel, /with its (.*) at/.exec(sentence)?.[1]] as const);
    };
    // Outboard by 20 mm more than half the width: met after 240 - sqrt(400² - 340²) mm of bump.
    const [outer, ...noMore] = metBy([770, 330]);
    expectWithin(outer[0], 240 - Math.sqrt(400 ** 2 - 340 ** 2), 1e-9);
    expect(outer[1]).toBe('outer side');
    // On the way down it leaves that side.
    expect(noMore).toEqual([]);
    // Inboard by 20 mm: met when it has come in by as much, after sqrt(400² - 300²) - 240 mm of droop.
    const [inner] = metBy([530, 270]);
    expectWithin(inner[0], 240 - Math.sqrt(400 ** 2 - 300 ** 2), 1e-9);
    expect(inner[1]).toBe('inner side');
    // Above and below by 25 mm more than the radius.
    const [above, below] = [metBy([650, 635])[0], metBy([640, -35])[0]];
    expectWithin(above[0], 25, 1e-9);
    expectWithin(below[0], -25, 1e-9);
    expect([above[1], below[1]]).toEqual(['tread', 'tread']);
  });

  it('is written in inches when asked, with the same numbers', () => {
    const options: LimitOptions = {
      damper: { extendedLength: 440, compressedLength: 340 },
      chassisLowPoints: [[0, 101.6]],
    };
    const metric = of(options);
    const imperial = of({ ...options, units: 'imperial' });
    expect(imperial.bump?.sentence).toBe(
      'The damper is fully compressed at 3.15 inch of bump (13.39 inch between the end eyes).',
    );
    expect(imperial.later.map(({ travel }) => travel)).toEqual(metric.later.map(({ travel }) => travel));
    expect(imperial.later[0].sentence).toBe(
      'The chassis is on the ground with chassisLowPoints[0], [0, 4], at 4 inch of bump.',
    );
  });
});

describe('what does not fit as drawn', () => {
  it('is told with what is missing, and leaves no travel to that side', () => {
    const found = of({
      damper: { extendedLength: 390, compressedLength: 300 },
      tyre: { overallRadius: 320, width: 200 },
      arch: [[720, 612]],
      chassisLowPoints: [[0, -3]],
    });
    expect(found.misfits).toEqual([
      'The damper is too short: at the drawn ride height the end eyes are 400 mm apart, 10 mm more than its extended length of 390 mm.',
      'The tyre does not fit: at the drawn ride height arch[0], [720, 612], lies 8 mm inside it.',
      'The chassis is in the ground: at the drawn ride height chassisLowPoints[0], [0, -3], lies 3 mm below it.',
    ]);
    expect(found.droop).toMatchObject({ travel: 0, cause: 'damperExtended', sentence: found.misfits[0] });
    expect(found.bump).toMatchObject({ travel: 0, cause: 'tyreContact', sentence: found.misfits[1] });
    // The way back into the damper's range is open.
    const closed = found.later.find(({ cause }) => cause === 'damperCompressed');
    expect(closed?.travel).toBeGreaterThan(100);
  });

  it('is told of a damper too long, its stop too high, and of joints past their last angle', () => {
    const found = limits(offset, {
      damper: { extendedLength: 550, compressedLength: 420 },
      bumpStop: { height: 50, solidHeight: 20 },
      ballJoints: {
        upperOuter: { maxArticulation: 20, housing: 'upright', housingAxis: [0, 1], studAxis: [1, 1] },
      },
      bearings: {
        chassis: { boltAxis: 'longitudinal', maxMisalignment: 12 },
        mount: { boltAxis: 'inPlane', maxMisalignment: 12 },
      },
    });
    expect(found.misfits).toEqual([
      'The bump stop is too high: at the drawn ride height the end eyes are 412.3 mm apart, 27.7 mm less than the 440 mm at which it is solid.',
      'The damper is too long: at the drawn ride height the end eyes are 412.3 mm apart, 7.7 mm less than its compressed length of 420 mm.',
      'The upper outer ball joint does not fit: at the drawn ride height its stud is 45 degrees from the axis of its housing, 25 degrees more than it can.',
      'The bearing at the chassis end of the coilover does not fit: at the drawn ride height its misalignment is 14 degrees, 2 degrees more than it allows.',
    ]);
    expect(found.events[0]).toMatchObject({
      travel: 0,
      sentence: 'At the drawn ride height the bump stop is already pressed in as far as it goes.',
    });
    expect([found.bump?.travel, found.bump?.cause]).toEqual([0, 'bumpStopSolid']);
  });

  it('is what misses by more than a limit is met to, 1e-9 mm', () => {
    const fitsOf = (extendedLength: number) =>
      of({ damper: { extendedLength, compressedLength: 300 } }).misfits;
    expect(fitsOf(400 - 5e-10)).toEqual([]);
    expect(fitsOf(400 - 2e-9)).toHaveLength(1);
  });

  it('is not a damper fully open at ride height: that fits, with no droop travel', () => {
    const found = of({ damper: { extendedLength: 400, compressedLength: 300 } });
    expect(found.misfits).toEqual([]);
    expect(found.droop).toMatchObject({ travel: 0, cause: 'damperExtended' });
    expect(found.droop?.sentence).toBe(
      'The damper is fully extended at the drawn ride height (400 mm between the end eyes).',
    );
    expect(found.bump?.travel).toBeGreaterThan(100);
    expect(found.notes).toContain(
      'The damper is all but fully extended at the drawn ride height (400 mm of 400 mm): there is no droop travel left.',
    );
  });
});

describe('notes', () => {
  it('ask about a tyre no larger without load than with it', () => {
    const level = cornerOf({ camber: 0 });
    const noted = (overallRadius: number) =>
      limits(level, { tyre: { overallRadius, width: 205 } }).notes.map(
        (note) => note.split(' The overall')[0],
      );
    const than = (radius: string, what: string) => [
      `The tyre's overall radius, ${radius}, is ${what} the height of the wheel's centre as drawn.`,
    ];
    expect(noted(300.6)).toEqual([]);
    expect(noted(300.4)).toEqual(than('300.4 mm', 'equal to'));
    expect(noted(300)).toEqual(than('300 mm', 'equal to'));
    expect(noted(299.6)).toEqual(than('299.6 mm', 'equal to'));
    expect(noted(299.4)).toEqual(than('299.4 mm', '0.6 mm less than'));
    expect(noted(280)).toEqual(than('280 mm', '20 mm less than'));
    expect(limits(level, { tyre: { overallRadius: 300, width: 205 } }).notes[0]).toMatch(
      /drawn\. The overall radius is that with no load on the tyre; the centre stands at the loaded radius, which is less: was one taken for the other\?$/,
    );
  });

  it('count the height of the wheel from its contact patch', () => {
    const noted = (patch: number) =>
      limits(cornerOf({ contactPatch: [720, patch] }), { tyre: { overallRadius: 300, width: 205 } }).notes;
    expect(noted(0)[0]).toMatch(/is equal to/);
    expect(noted(20)).toEqual([]);
    expect(noted(-20)[0]).toMatch(/is 20 mm less than/);
  });

  it('tell which shoulder camber drops, and how far: half the width by its sine', () => {
    const noted = (camber: number, width: number) =>
      limits(cornerOf({ camber }), { tyre: { overallRadius: 320, width } }).notes;
    const shoulder = (side: string, width: number, drop: string) => [
      `With the camber as drawn the ${side} shoulder of a tyre ${width} mm wide stands ${drop} mm lower than the middle of its tread: the contact patch is counted at the middle.`,
    ];
    expect(noted(-1, 205)).toEqual(shoulder('inner', 205, '1.8'));
    expect(noted(1, 205)).toEqual(shoulder('outer', 205, '1.8'));
    expect(noted(-3, 240)).toEqual(shoulder('inner', 240, '6.3'));
    expect(noted(0, 205)).toEqual([]);
    // 0.5 mm is what a tape can tell.
    expect(noted(-1, 57)).toEqual([]);
    expect(noted(-1, 58)).toEqual(shoulder('inner', 58, '0.5'));
    expect(of({ tyre: '205/55R16' }).notes).toHaveLength(1);
  });

  it('ask about points on the other side, a stop as high as the stroke, a coilover that bump lengthens', () => {
    expect(of({ tyre: '205/55R16', arch: [[-720, 700]] }).notes.at(-1)).toBe(
      'arch[0] lies on the other side of the car than the wheel: the two count with one sign of y.',
    );
    const high = of({
      damper: { extendedLength: 440, compressedLength: 340 },
      bumpStop: { height: 100, solidHeight: 10 },
    });
    expect(high.notes[0]).toMatch(/^The bump stop, 100 mm high, .* pressed in all the time\.$/);
    const below = doubleWishbone({
      lowerArm: corner.lowerArm,
      upperArm: corner.upperArm,
      wheel: { centre: [720, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 20] },
    } as never);
    const found = limits(below, { damper: { extendedLength: 150, compressedLength: 100 } });
    expect(found.notes).toEqual([
      'Bump lengthens the coilover at the drawn ride height: is it mounted as meant?',
    ]);
    expect([found.bump?.cause, found.droop?.cause]).toEqual(['damperExtended', 'damperCompressed']);
  });
});

describe('a corner drawn at an end of its travel', () => {
  it('has its ratio at zero to both sides', () => {
    const { lowerArm, upperArm } = corner;
    const inLine = doubleWishbone({
      lowerArm,
      upperArm,
      wheel: { centre: [720, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [900, 150] },
    });
    for (const limit of [limits(inLine).bump, limits(inLine).droop]) {
      expect(limit).toMatchObject({ travel: 0, cause: 'ratioZero' });
      expect(limit?.sentence).toMatch(/^The installation ratio is zero at the drawn ride height/);
    }
  });

  it('has its dead point to both sides, whatever else is asked', () => {
    const upright = doubleWishbone({
      lowerArm: { inner: [500, 150], outer: [500, 400] },
      upperArm: { inner: [450, 300], outer: [450, 550] },
      wheel: { centre: [600, 300], camber: 0 },
      coilover: { on: 'upright', mount: [550, 150], chassisMount: [400, 600] },
    });
    const found = limits(upright, {
      damper: { extendedLength: 600, compressedLength: 300 },
      chassisLowPoints: [[0, 100]],
      required: { bump: 10, droop: 10 },
      donor: { length: 500, state: 'measured' },
    });
    expect(found.bump).toMatchObject({ travel: 0, cause: 'deadPoint' });
    expect(found.droop).toMatchObject({ travel: 0, cause: 'deadPoint' });
    expect(found.travelMargins?.bump?.margin).toBe(-10);
  });
});

describe('what a document holds', () => {
  it('can be passed on as it was read', () => {
    const { corners } = readCar(readFileSync(join(import.meta.dirname, '../fixtures/roadster.json'), 'utf8'));
    const { corner: front, limits: options } = corners.front;
    const found = limits(front, options);
    expect(found.misfits).toEqual([]);
    expect(found.bump?.travel).toBeGreaterThan(0);
    expect(limits(front, { ...options, units: 'imperial' }).bump?.travel).toBe(found.bump?.travel);
  });
});

describe('a drawing that stands higher', () => {
  it('has the same limits and words, the tape held to another floor', () => {
    const raised = (height: number) => {
      const up = ([y, z]: Point): Point => [y, z + height];
      const arm = ({ inner, outer }: typeof corner.lowerArm) => ({ inner: up(inner), outer: up(outer) });
      const found = limits(
        doubleWishbone({
          lowerArm: arm(corner.lowerArm),
          upperArm: arm(corner.upperArm),
          wheel: { centre: up([720, 300]), contactPatch: up([725, 0]) },
          coilover: { on: 'lowerArm', mount: up([550, 150]), chassisMount: up([550, 550]) },
        }),
        {
          damper: { extendedLength: 440, compressedLength: 340 },
          tyre: { overallRadius: 295, width: 200 },
          arch: [up([600, 640])],
          chassisLowPoints: [up([0, 90])],
          required: { bump: 70, droop: 70 },
          donor: { length: 470, state: 'extended', stroke: 120 },
        },
      );
      const { bump, droop, later, misfits, travelMargins, donor, notes } = found;
      const ends = [bump, droop, ...later].filter((limit) => limit !== null);
      const wanted = [travelMargins?.bump, travelMargins?.droop].filter((side) => side !== undefined);
      return {
        numbers: [
          ...ends.map(({ travel }) => travel),
          ...wanted.map(({ margin }) => Number(margin)),
          ...[
            donor?.extendedLengthDifference,
            donor?.compressedLengthDifference,
            donor?.unit?.extendedLength,
            donor?.unit?.compressedLength,
          ].map(Number),
        ],
        words: [
          // Points are named by where they stand.
          ...[...ends, ...wanted].map(({ sentence }) => sentence.replace(/, \[.*?\],/, '')),
          ...[...misfits, ...(donor?.sentences ?? []), ...notes],
        ],
      };
    };
    const drawn = raised(0);
    expect(drawn.words.filter((sentence) => /^The tyre('s| meets)/.test(sentence)).length).toBeGreaterThan(1);
    for (const height of [100, -35]) {
      const { numbers, words } = raised(height);
      expect(words).toEqual(drawn.words);
      numbers.forEach((number, k) => {
        expectWithin(number, drawn.numbers[k], 1e-8);
      });
    }
  });
});

describe('required travel', () => {
  it('is set against what is available', () => {
    const { travelMargins, bump, droop } = of({
      damper: { extendedLength: 440, compressedLength: 340 },
      required: { bump: 81, droop: 50 },
    });
    expect(travelMargins?.bump?.required).toBe(81);
    expect(travelMargins?.bump?.available).toBe(bump?.travel);
    expectWithin(travelMargins?.bump?.margin ?? null, (bump?.travel ?? 0) - 81, 1e-12);
    expect(travelMargins?.droop?.available).toBe(-(droop?.travel ?? 0));
    expectWithin(travelMargins?.droop?.margin ?? null, -(droop?.travel ?? 0) - 50, 1e-12);
    expect(travelMargins?.bump?.sentence).toBe('Bump: 81 mm required, 80.1 mm available: margin -0.9 mm.');
    expect(travelMargins?.droop?.sentence).toBe('Droop: 50 mm required, 53.3 mm available: margin 3.3 mm.');
  });

  it('is told on the sides where it is given', () => {
    const sidesOf = (options: LimitOptions) => Object.keys(of(options).travelMargins ?? {});
    expect(sidesOf({ required: { bump: 10, droop: 10 } })).toEqual(['bump', 'droop']);
    expect(sidesOf({ required: { bump: 10 } })).toEqual(['bump']);
    expect(sidesOf({ required: { droop: 10 } })).toEqual(['droop']);
    expect(Object.keys(of({}))).not.toContain('travelMargins');
  });

  it('beyond what the linkage itself can go has a margin as any other', () => {
    const { travelMargins, later } = of({ required: { bump: 500, droop: 0 } });
    // The ratio is zero at 4/5 of the arm's 400 mm; the dead point is behind that.
    expect(later.map(({ cause }) => cause)).toContain('deadPoint');
    expectWithin(travelMargins?.bump?.available ?? null, 320, 1e-9);
    expectWithin(travelMargins?.bump?.margin ?? null, -180, 1e-9);
    expect(travelMargins?.bump?.sentence).toBe('Bump: 500 mm required, 320 mm available: margin -180 mm.');
    const { required, available, margin } = travelMargins?.droop ?? {};
    expect(required).toBe(0);
    expect(margin).toBe(available);
  });

  it('has all of it below 0 on a side that a limit met as drawn leaves none of', () => {
    const { travelMargins } = of({
      damper: { extendedLength: 400, compressedLength: 340 },
      required: { bump: 80, droop: 30 },
    });
    expect(travelMargins?.droop).toEqual({
      required: 30,
      available: 0,
      margin: -30,
      sentence: 'Droop: 30 mm required, 0 mm available: margin -30 mm.',
    });
    expect(travelMargins?.bump?.margin).toBeGreaterThan(0);
    expect(travelMargins?.bump?.sentence).toBe('Bump: 80 mm required, 80.1 mm available: margin 0.1 mm.');
  });

  it('can not be counted before all fits, on either side', () => {
    const { misfits, travelMargins } = of({
      damper: { extendedLength: 390, compressedLength: 300 },
      required: { bump: 60, droop: 50 },
    });
    expect(misfits).toHaveLength(1);
    expect(travelMargins).toEqual({
      bump: {
        required: 60,
        available: null,
        margin: -60,
        sentence:
          'Bump: 60 mm required; available travel is not known before all fits at the drawn ride height.',
      },
      droop: {
        required: 50,
        available: null,
        margin: -50,
        sentence:
          'Droop: 50 mm required; available travel is not known before all fits at the drawn ride height.',
      },
    });
  });

  it('is there where nothing ends it', () => {
    const { droop, travelMargins } = limits(onPillar, { required: { bump: 100, droop: 2000 } });
    expect(droop).toBeNull();
    expect(travelMargins?.droop).toEqual({
      required: 2000,
      available: null,
      margin: null,
      sentence: 'Droop: 2000 mm required, no limit found: enough.',
    });
    // Square to its pillar the coilover stands where the eye is as high as the top.
    expect(travelMargins?.bump?.sentence).toBe('Bump: 100 mm required, 330 mm available: margin 230 mm.');
    // What does not fit is told even so.
    const misfit = limits(onPillar, { chassisLowPoints: [[0, -5]], required: { droop: 20 } });
    expect(misfit.droop?.cause).not.toBe('deadPoint');
    expect(misfit.travelMargins?.droop).toMatchObject({ available: null, margin: -20 });
  });
});

describe('options that can not be', () => {
  const message = (options: unknown) => {
    try {
      limits(corner, options as LimitOptions);
    } catch (error) {
      if (error instanceof InputError) return error.message;
      throw error;
    }
    return 'accepted';
  };

  it('are told all at once, with what to do', () => {
    expect(
      message({
        damper: { extendedLength: 300, compressedLength: 340 },
        bumpStop: { height: 20, solidHeight: 20 },
        tyre: 'round',
        arch: [[1, Number.NaN]],
        ballJoints: { lowerOuter: { maxArticulation: 20, housing: 'arm', studAxis: [0, 0] } },
        bearings: { mount: { boltAxis: 'sideways', maxMisalignment: -1 } },
        required: { bump: -5 },
        units: 'feet',
        springs: 2,
      }).split('\n'),
    ).toEqual([
      'invalid limit options',
      '  damper.compressedLength: not less than damper.extendedLength, got 340 mm (allowed: less than 300 mm); are the two lengths exchanged?',
      '  bumpStop.solidHeight: not less than bumpStop.height, got 20 mm (allowed: less than 20 mm); height is that with no load on it, solidHeight what is left when it gives no more: are the two exchanged?',
      expect.stringMatching(/^ {2}tyre: not a size marking, got "round"/),
      expect.stringMatching(/^ {2}arch\[0\]\[1\]: wrong kind of value, got NaN/),
      '  ballJoints.lowerOuter.studAxis: no direction, got [0,0] (allowed: a direction [y, z] that is not nothing: [0, 1] is up)',
      expect.stringMatching(/^ {2}bearings\.mount\.boltAxis: unknown choice, got "sideways"/),
      expect.stringMatching(/^ {2}bearings\.mount\.maxMisalignment: out of range, got -1 degrees/),
      expect.stringMatching(/^ {2}required\.bump: out of range, got -5 mm/),
      '  units: unknown choice, got "feet" (allowed: metric, imperial)',
      expect.stringMatching(/^ {2}springs: unknown name/),
    ]);
  });

  it('lack what they count from', () => {
    expect(message({ bumpStop: { height: 20, solidHeight: 5 }, arch: [[1, 2]] })).toBe(
      [
        'invalid limit options',
        '  bumpStop: a bump stop without a damper; give damper: { extendedLength, compressedLength } too: its heights count from the compressed length',
        '  arch: an arch without a tyre; give tyre: { overallRadius, width }, or its marking as "205/55R16"',
      ].join('\n'),
    );
    expect(message({ tyre: 'round' })).toMatch(
      /^invalid limit options\n {2}tyre: not a size marking, got "round"/,
    );
    expect(
      message({
        damper: { extendedLength: 400, compressedLength: 390 },
        bumpStop: { height: 20, solidHeight: 15 },
      }),
    ).toMatch(
      /bumpStop\.solidHeight: not less than the damper's stroke, got 15 mm \(allowed: less than 10 mm\)/,
    );
  });

  it.each([[null], [[]], ['all'], [7]])('are refused as %j', (options) => {
    expect(message(options)).toMatch(/^invalid limit options\n/);
  });

  it('may be left out, as may lists be empty', () => {
    expect(message(undefined)).toBe('accepted');
    expect(message({})).toBe('accepted');
    expect(message({ arch: [], chassisLowPoints: [] })).toBe('accepted');
  });
});
