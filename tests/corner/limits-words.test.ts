/** What limits tell a builder: sentences, what does not fit, travel wanted, a donor damper, and options that can't be. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Diagnostic, doubleWishbone, InputError, readCar, sentence } from 'jounce';
import { describe, expect, it } from 'vitest';
import { type LimitCause, limits } from '../../src/corner/limits/limits.ts';
import type { LimitOptions } from '../../src/document/inputs.ts';
import { issueLines } from '../../src/sentences/sentence.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';
import { onPillar } from './on-pillar.ts';

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
const said = (found: readonly Diagnostic[]) => found.map((one) => sentence(one));
/** What is said of a limit, an event or a margin. */
const saidOf = (one: { readonly diagnostic: Diagnostic } | null | undefined) =>
  sentence((one ?? expect.fail('nothing found')).diagnostic);

/** The same with the shock off by 100 mm fore and aft: 412.3 mm long. */
const offset = doubleWishbone({
  lowerArm: { inner: [250, 150], outer: [650, 150] },
  upperArm: { inner: [240, 370], outer: [640, 370] },
  wheel: { centre: [720, 300], camber: -1 },
  coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 550], foreAftOffset: 100 },
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
    expect([found.bump, found.droop, ...found.later].map(saidOf)).toEqual([
      'The bump stop is solid at 66.7 mm of bump (350.0 mm eye to eye).',
      'The damper is topped out at 53.3 mm of droop (440.0 mm eye to eye).',
      'The bearing at the mount of the coilover is at its largest misalignment at 79.7 mm of bump: 12.5 deg.',
      'The damper is bottomed out at 80.1 mm of bump (340.0 mm eye to eye).',
      'The tread of the tyre makes contact with arch[0], [720, 700], at 89.8 mm of bump.',
      'The chassis makes contact with the ground: chassisLowPoints[1], [200, 90], at 90.0 mm of bump.',
      'The bearing at the mount of the coilover is at its largest misalignment at 93.5 mm of droop: 12.5 deg.',
      'The lower outer ball joint is at its largest articulation angle at 136.8 mm of bump: its stud is 20.0 deg from the axis of its housing.',
      'The lower outer ball joint is at its largest articulation angle at 136.8 mm of droop: its stud is 20.0 deg from the axis of its housing.',
      'The chassis makes contact with the ground: chassisLowPoints[0], [0, 200], at 200.0 mm of bump.',
      'The installation ratio is zero at 320.0 mm of bump: the line of the coilover passes through the pivot of the lower arm. The wheel moves there without moving the coilover, and beyond it the coilover moves the other way.',
      'The motion is not determined beyond a bifurcation at 399.6 mm of droop.',
      'The linkage is at a dead point at 400.0 mm of bump: the wheel cannot go higher.',
    ]);
    expect(found.events.map(saidOf)).toEqual([
      'The bump stop makes contact at 40.0 mm of bump (370.0 mm eye to eye).',
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
        .map(({ travel, diagnostic }) => [travel, diagnostic.values.face] as const);
    };
    // Outboard by 20 mm more than half the width: met after 240 - sqrt(400² - 340²) mm of bump.
    const [outer, ...noMore] = metBy([770, 330]);
    expectWithin(outer[0], 240 - Math.sqrt(400 ** 2 - 340 ** 2), 1e-9);
    expect(outer[1]).toBe('outer');
    // On the way down it leaves that side.
    expect(noMore).toEqual([]);
    // Inboard by 20 mm: met when it has come in by as much, after sqrt(400² - 300²) - 240 mm of droop.
    const [inner] = metBy([530, 270]);
    expectWithin(inner[0], 240 - Math.sqrt(400 ** 2 - 300 ** 2), 1e-9);
    expect(inner[1]).toBe('inner');
    // Above and below by 25 mm more than the radius.
    const [above, below] = [metBy([650, 635])[0], metBy([640, -35])[0]];
    expectWithin(above[0], 25, 1e-9);
    expectWithin(below[0], -25, 1e-9);
    expect([above[1], below[1]]).toEqual(['tread', 'tread']);
  });

  it('is written in inches when asked', () => {
    const { bump, later } = of({
      damper: { extendedLength: 440, compressedLength: 340 },
      chassisLowPoints: [[0, 101.6]],
    });
    expect([bump, later[0]].map((limit) => sentence(limit!.diagnostic, 'imperial'))).toEqual([
      'The damper is bottomed out at 3.15 in of bump (13.39 in eye to eye).',
      'The chassis makes contact with the ground: chassisLowPoints[0], [0, 4], at 4.00 in of bump.',
    ]);
  });

  it('has its cause as code, what sets it as path, and side and travel among its values', () => {
    const found = of({
      damper: { extendedLength: 440, compressedLength: 340 },
      arch: [[720, 700]],
      tyre: { overallRadius: 310, width: 200 },
    });
    for (const limit of [found.bump, found.droop, ...found.later]) {
      const { side, travel, cause, diagnostic } = limit ?? expect.fail('no limit');
      expect(diagnostic).toMatchObject({ code: cause, severity: 'note', values: { side, travel } });
    }
    expect([found.bump, found.droop, ...found.later].map((limit) => limit?.diagnostic.path)).toEqual([
      'damper.compressedLength',
      'damper.extendedLength',
      'arch[0]',
      ...['', '', ''],
    ]);
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
    expect(said(found.misfits)).toEqual([
      'The damper is too short: the length at design ride height is 400.0 mm eye to eye, 10.0 mm more than the extended length of 390.0 mm.',
      'The tyre does not fit: at design ride height arch[0], [720, 612], lies 8.0 mm inside it.',
      'The chassis is below the ground: at design ride height chassisLowPoints[0], [0, -3], lies 3.0 mm below it.',
    ]);
    expect(found.misfits.map(({ severity }) => severity)).toEqual(['conflict', 'conflict', 'conflict']);
    expect(found.droop).toMatchObject({ travel: 0, cause: 'damperExtended', diagnostic: found.misfits[0] });
    expect(found.bump).toMatchObject({ travel: 0, cause: 'tyreContact', diagnostic: found.misfits[1] });
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
    expect(said(found.misfits)).toEqual([
      'The bump stop is too high: the length at design ride height is 412.3 mm eye to eye, 27.7 mm less than the 440.0 mm at which the stop is solid.',
      'The damper is too long: the length at design ride height is 412.3 mm eye to eye, 7.7 mm less than the compressed length of 420.0 mm.',
      'The upper outer ball joint does not fit: at design ride height its stud is 45.0 deg from the axis of its housing, 25.0 deg more than it allows.',
      'The bearing at the chassis end of the coilover does not fit: at design ride height its misalignment is 14.0 deg, 2.0 deg more than it allows.',
    ]);
    expect(found.events[0].travel).toBe(0);
    expect(saidOf(found.events[0])).toBe('The bump stop is solid at design ride height.');
    const less = limits(offset, {
      damper: { extendedLength: 550, compressedLength: 380 },
      bumpStop: { height: 50, solidHeight: 20 },
    });
    expect(saidOf(less.events[0])).toBe('The bump stop is compressed by 17.7 mm at design ride height.');
    const spring = of({ springMinLengthAt: 403 });
    expect(said(spring.misfits)).toEqual([
      'The spring is too long: at design ride height it is 3.0 mm shorter than its minimum permissible length.',
    ]);
    expect(spring.bump?.diagnostic).toEqual(spring.misfits[0]);
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
    expect(saidOf(found.droop)).toBe('The damper is topped out at design ride height (400.0 mm eye to eye).');
    expect(found.bump?.travel).toBeGreaterThan(100);
    expect(said(found.notes)).toContain(
      'The damper is almost topped out at design ride height (400.0 mm of 400.0 mm): there is no droop travel left.',
    );
  });
});

describe('notes', () => {
  it('ask about a tyre no larger without load than with it', () => {
    const level = cornerOf({ camber: 0 });
    const noted = (overall: number) =>
      limits(level, { tyre: { overallRadius: overall, width: 205 } }).notes.map(({ code, values }) => [
        code,
        values,
      ]);
    const than = (overall: number, isLess: boolean) => [
      ['overallRadiusNotAboveLoaded', { overall, loaded: 300, isLess }],
    ];
    expect(noted(300.6)).toEqual([]);
    expect(noted(300.4)).toEqual(than(300.4, false));
    expect(noted(300)).toEqual(than(300, false));
    expect(noted(299.6)).toEqual(than(299.6, false));
    expect(noted(299.4)).toEqual(than(299.4, true));
    const [note] = limits(level, { tyre: { overallRadius: 280, width: 205 } }).notes;
    expect(sentence(note)).toMatch(
      /got 280 mm, with the wheel centre 300 mm above the ground; give the radius without load; the height of the wheel centre is the loaded radius, measured with the wheel on the ground under the weight of the car\.$/,
    );
  });

  it('count the height of the wheel from its contact patch', () => {
    const noted = (patch: number) =>
      limits(cornerOf({ contactPatch: [720, patch] }), { tyre: { overallRadius: 300, width: 205 } }).notes;
    expect(noted(0)[0].values).toMatchObject({ isLess: false });
    expect(noted(20)).toEqual([]);
    expect(noted(-20)[0].values).toMatchObject({ loaded: 320, isLess: true });
  });

  it('tell which shoulder camber drops, and how far: half the width by its sine', () => {
    const noted = (camber: number, width: number) =>
      said(limits(cornerOf({ camber }), { tyre: { overallRadius: 320, width } }).notes);
    const shoulder = (side: string, width: string, drop: string) => [
      `With the camber as drawn the ${side} shoulder of a tyre ${width} mm wide is ${drop} mm lower than the middle of its tread, where the contact patch is taken: the tyre carries farther ${side === 'inner' ? 'in' : 'out'}; give wheel.contactPatch to count that.`,
    ];
    expect(noted(-1, 205)).toEqual(shoulder('inner', '205.0', '1.8'));
    expect(noted(1, 205)).toEqual(shoulder('outer', '205.0', '1.8'));
    expect(noted(-3, 240)).toEqual(shoulder('inner', '240.0', '6.3'));
    expect(noted(0, 205)).toEqual([]);
    // 0.5 mm is what a tape can tell.
    expect(noted(-1, 57)).toEqual([]);
    expect(noted(-1, 58)).toEqual(shoulder('inner', '58.0', '0.5'));
    expect(of({ tyre: '205/55R16' }).notes).toHaveLength(1);
  });

  it('ask about points on the other side, a stop as high as the stroke, a coilover that bump lengthens', () => {
    expect(of({ tyre: '205/55R16', arch: [[-720, 700]] }).notes.at(-1)).toMatchObject({
      code: 'pointOnOtherSide',
      path: 'arch[0]',
      values: { y: -720, z: 700 },
    });
    const high = of({
      damper: { extendedLength: 440, compressedLength: 340 },
      bumpStop: { height: 100, solidHeight: 10 },
    });
    expect(said(high.notes)[0]).toBe(
      'The bump stop is 100.0 mm high and the damper has a stroke of 100.0 mm: the stop is compressed through the whole travel.',
    );
    const below = doubleWishbone({
      lowerArm: corner.lowerArm,
      upperArm: corner.upperArm,
      wheel: { centre: [720, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [550, 150], chassisMount: [550, 20] },
    } as never);
    const found = limits(below, { damper: { extendedLength: 150, compressedLength: 100 } });
    expect(said(found.notes)).toEqual([
      'Bump lengthens the coilover at design ride height: is it mounted as intended?',
    ]);
    expect([found.bump?.cause, found.droop?.cause]).toEqual(['damperExtended', 'damperCompressed']);
    const ended = limits(below, { damper: { extendedLength: 150, compressedLength: 130 } });
    expect(said(ended.notes).at(-1)).toBe(
      'The damper is almost bottomed out at design ride height (130.0 mm of 130.0 mm): there is no droop travel left.',
    );
  });

  it('tell of a ball joint of which one axis is given', () => {
    const { notes } = of({
      ballJoints: { lowerOuter: { maxArticulation: 20, housing: 'arm', studAxis: [0, 1] } },
    });
    expect(said(notes)).toEqual([
      'Only studAxis of the lower outer ball joint is given: the stud is taken to be straight in its housing at design ride height; give both axes if it is not.',
    ]);
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
      expect(saidOf(limit)).toMatch(/^The installation ratio is zero at design ride height/);
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
          ...[...ends, ...wanted].map((one) => saidOf(one).replace(/, \[.*?\],/, '')),
          ...said([...misfits, ...(donor?.diagnostics ?? []), ...notes]),
        ],
      };
    };
    const drawn = raised(0);
    expect(
      drawn.words.filter((words) =>
        /^(The \w+( side)? of the tyre makes contact|The overall radius)/.test(words),
      ).length,
    ).toBeGreaterThan(1);
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
    expect(saidOf(travelMargins?.bump)).toBe(
      'Bump travel: 80.1 mm available, 81.0 mm required; margin -0.9 mm.',
    );
    expect(saidOf(travelMargins?.droop)).toBe(
      'Droop travel: 53.3 mm available, 50.0 mm required; margin 3.3 mm.',
    );
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
    expect(saidOf(travelMargins?.bump)).toBe(
      'Bump travel: 320.0 mm available, 500.0 mm required; margin -180.0 mm.',
    );
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
      diagnostic: {
        code: 'travelMargin',
        severity: 'conflict',
        path: 'required.droop',
        values: { side: 'droop', required: 30, available: 0 },
      },
    });
    expect(travelMargins?.bump?.diagnostic.severity).toBe('note');
    expect(travelMargins?.bump?.margin).toBeGreaterThan(0);
    expect(saidOf(travelMargins?.bump)).toBe(
      'Bump travel: 80.1 mm available, 80.0 mm required; margin 0.1 mm.',
    );
  });

  it('can not be counted before all fits, on either side', () => {
    const { misfits, travelMargins } = of({
      damper: { extendedLength: 390, compressedLength: 300 },
      required: { bump: 60, droop: 50 },
    });
    expect(misfits).toHaveLength(1);
    expect(travelMargins).toMatchObject({
      bump: { required: 60, available: null, margin: -60 },
      droop: { required: 50, available: null, margin: -50 },
    });
    expect([travelMargins?.bump, travelMargins?.droop].map(saidOf)).toEqual([
      'Bump travel: 60.0 mm required; what is available is not known until everything fits at design ride height.',
      'Droop travel: 50.0 mm required; what is available is not known until everything fits at design ride height.',
    ]);
  });

  it('is there where nothing ends it', () => {
    const { droop, travelMargins } = limits(onPillar, { required: { bump: 100, droop: 2000 } });
    expect(droop).toBeNull();
    expect(travelMargins?.droop).toMatchObject({ required: 2000, available: null, margin: null });
    expect(saidOf(travelMargins?.droop)).toBe('Droop travel: no limit found, 2000.0 mm required.');
    // Square to its pillar the coilover stands where the eye is as high as the top.
    expect(saidOf(travelMargins?.bump)).toBe(
      'Bump travel: 330.0 mm available, 100.0 mm required; margin 230.0 mm.',
    );
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
        springs: 2,
      }).split('\n'),
    ).toEqual([
      'invalid limit options',
      '  damper.compressedLength: not less than damper.extendedLength, got 340 mm (allowed: less than 300 mm); are the two lengths exchanged?',
      '  bumpStop.solidHeight: not less than bumpStop.height, got 20 mm (allowed: less than 20 mm); height is the free height, solidHeight the solid height: are the two exchanged?',
      expect.stringMatching(/^ {2}tyre: not a size marking, got "round"/),
      expect.stringMatching(/^ {2}arch\[0\]\[1\]: wrong kind of value, got NaN/),
      '  ballJoints.lowerOuter.studAxis: no direction, got [0,0] (allowed: a direction [y, z] other than [0, 0]: [0, 1] is up)',
      expect.stringMatching(/^ {2}bearings\.mount\.boltAxis: unknown choice, got "sideways"/),
      expect.stringMatching(/^ {2}bearings\.mount\.maxMisalignment: out of range, got -1 deg/),
      expect.stringMatching(/^ {2}required\.bump: out of range, got -5 mm/),
      expect.stringMatching(/^ {2}springs: unknown field/),
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

/** Every cause; the compiler asks for a new one here. */
const CAUSES: Readonly<Record<LimitCause, true>> = {
  damperExtended: true,
  damperCompressed: true,
  bumpStopSolid: true,
  springMinLength: true,
  ballJointArticulation: true,
  bearingMisalignment: true,
  tyreContact: true,
  groundContact: true,
  deadPoint: true,
  ratioZero: true,
  locked: true,
  bifurcation: true,
};

describe.each(Object.keys(CAUSES))('the cause %s', (cause) => {
  it('has its words where travel falls short of what is required', () => {
    const values = { available: 40, required: 60, case: 'specified', state: null, cause };
    const lines = issueLines({ code: 'bumpTravelShort', severity: 'conflict', path: '', values }, 'metric');
    expect(lines.join('\n')).toMatch(/40\.0 mm available, where (the|a|an) [a-z]/);
    expect(lines.join('\n')).not.toContain('undefined');
  });

  it('is in the guide', () => {
    const guide = readFileSync(join(import.meta.dirname, '../../docs/limits.md'), 'utf8');
    const [, table] = guide.split('## Causes');
    expect(table.split('\n### ')[0]).toMatch(new RegExp(`^\\|.*\`${cause}\`.*\\|`, 'm'));
  });
});
