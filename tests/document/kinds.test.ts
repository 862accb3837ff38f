/** Files of corners of every kind: which they are taken for, what is refused, in which words, and what is only asked. */
import * as fc from 'fast-check';
import { describeIssue, limits, type PushrodInput, pushrod, type StrutInput, strut, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../src/corner/kinds.ts';
import { readCar, readCorner } from '../../src/corner/read-corner.ts';
import { deepFreeze } from '../support/freeze.ts';
import { rockerCorners, strutCorners } from '../support/rocker-corners.ts';
import { errorOf, exampleText, type Json, lines } from './support.ts';

const example = (name: string) => JSON.parse(exampleText(name));
const rodWith = (change: (corner: Json) => void) => {
  const corner = example('pushrod-corner.json');
  change(corner);
  return deepFreeze(corner);
};
const strutWith = (change: (corner: Json) => void) => {
  const corner = example('strut-corner.json');
  change(corner);
  return deepFreeze(corner);
};
const messageOf = (corner: unknown) => errorOf(() => readCorner(corner)).message;
const notesOf = (corner: unknown) => {
  const { notes, units } = readCorner(corner);
  return notes.map((one) => describeIssue(one, units));
};

describe('files of other kinds', () => {
  it('are read without a note, move and have limits', () => {
    for (const name of ['pushrod-corner.json', 'strut-corner.json']) {
      const { corner, limits: given, notes } = readCorner(exampleText(name));
      expect(notes).toEqual([]);
      expect(sweep(corner, { bump: 50, droop: 50 }).end).toMatchObject({
        bump: { status: 'reached' },
        droop: { status: 'reached' },
      });
      const { bump, droop } = limits(corner, given);
      expect([bump?.cause, droop?.cause]).toEqual(['damperCompressed', 'damperExtended']);
    }
  });

  it('are those of the functions', () => {
    fc.assert(
      fc.property(rockerCorners, strutCorners, (rocker, sliding) => {
        expect(readCorner({ kind: 'pushrod', ...rocker }).corner).toEqual(pushrod(rocker as PushrodInput));
        const car = {
          corners: { front: { kind: 'strut', ...sliding }, rear: { kind: 'pushrod', ...rocker } },
        };
        const { front, rear } = readCar(deepFreeze(car)).corners;
        expect(front.corner).toEqual(strut(sliding as StrutInput));
        expect(rear?.corner).toEqual(pushrod(rocker as PushrodInput));
      }),
      { numRuns: 30 },
    );
  });

  it('are converted from inches', () => {
    expect(readCorner(exampleText('strut-corner.json')).corner).toMatchObject({
      kind: 'strut',
      lowerArm: { inner: [330.2, 190.5], outer: [688.975, 171.45] },
      strut: { topMount: [558.8, 857.25], lowerMount: [641.35, 330.2] },
    });
  });

  it('are mirrored from the right-hand side, with all their points', () => {
    const flip = (value: Json): Json =>
      Array.isArray(value)
        ? [-value[0], value[1]]
        : typeof value === 'object'
          ? Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, flip(inner)]))
          : value;
    for (const name of ['pushrod-corner.json', 'strut-corner.json']) {
      const left = readCorner(example(name));
      const { limits: given, ...points } = example(name);
      const right = readCorner(deepFreeze({ ...flip(points), limits: given }));
      expect(right.corner).toEqual({ ...left.corner, mirrored: true });
      expect(right.notes.map(({ path }) => path)).toEqual(['wheel.centre']);
    }
  });
});

const allowed = Object.keys(KINDS).join(', ');

describe('the kind of a corner', () => {
  it.each([
    [`kind: missing (allowed: ${allowed}); write "pushrod"`, rodWith((c) => delete c.kind)],
    [`kind: missing (allowed: ${allowed}); write "strut"`, strutWith((c) => delete c.kind)],
    [
      `kind: unknown choice, got "pushRods" (allowed: ${allowed}); did you mean "pushrod"?`,
      rodWith((c) => (c.kind = 'pushRods')),
    ],
    [
      `kind: unknown choice, got "pullrod" (allowed: ${allowed}); did you mean "pushrod"?`,
      rodWith((c) => (c.kind = 'pullrod')),
    ],
    [`kind: unknown choice, got 3 (allowed: ${allowed}); choose one of them`, strutWith((c) => (c.kind = 3))],
  ])('is told: %s', (message, corner) => {
    expect(messageOf(corner)).toBe(lines('invalid corner file', `  ${message}`));
  });
});

describe('a corner file of another kind with mistakes', () => {
  it('is told all of them by their places', () => {
    expect(
      messageOf(
        rodWith((corner) => {
          corner.rod.on = 'lowerarm';
          corner.rod.rokerMount = corner.rod.rockerMount;
          delete corner.rod.rockerMount;
          corner.rocker = [258, 397];
          delete corner.coilover.chassisMount;
          corner.limits.ballJoints.rodMount = { maxArticulation: 20, housing: 'upright' };
          corner.limits.ballJoints.topMount = { maxArticulation: 20, housing: 'rod' };
          corner.limits.bearings = { otherEnd: { boltAxis: 'longitudinal', maxMisalignment: 10 } };
          corner.damper = corner.limits.damper;
        }),
      ),
    ).toBe(
      lines(
        'invalid corner file',
        '  rod.on: unknown choice, got "lowerarm" (allowed: lowerArm, upperArm, upright); did you mean "lowerArm"?',
        '  rod.rokerMount: unknown field (allowed: on, mount, rockerMount); did you mean rockerMount?',
        '  rocker: wrong kind of value, got [258,397] (allowed: { pivot })',
        '  coilover: give chassisMount [y, z], or otherEnd { on, mount } where that end moves too, got {"rockerMount":[232,498]}',
        '  limits.ballJoints.topMount: unknown field (allowed: lowerOuter, upperOuter, rodMount, rodRockerMount); correct the spelling, or take it out',
        '  limits.bearings.otherEnd: an end that does not move in this corner; name it chassis',
        '  damper: unknown field (allowed: $schema, formatVersion, units, name, notes, kind, lowerArm, upperArm, wheel, rod, rocker, coilover, sprungMass, limits, bar, thirdSpring, rollSpring, sizing, ordered, correlations, surveyChecks); it belongs in limits or ordered',
      ),
    );
  });

  it.each<[string, Json]>([
    [
      'rod.mount: in the same place as rod.rockerMount, got [342, 468]; measure the two again: they must lie apart',
      rodWith((c) => (c.rod.mount = c.rod.rockerMount)),
    ],
    [
      'rocker.pivot: in the same place as rod.rockerMount, got [342, 468]; measure the two again: they must lie apart',
      rodWith((c) => (c.rocker.pivot = c.rod.rockerMount)),
    ],
    [
      'coilover.rockerMount: in the same place as coilover.chassisMount, got [12, 472]; measure the two again: they must lie apart',
      rodWith((c) => (c.coilover.rockerMount = c.coilover.chassisMount)),
    ],
    [
      'coilover: chassisMount and otherEnd are two places for one end: take one out, got chassisMount and otherEnd',
      rodWith((c) => (c.coilover.otherEnd = { on: 'lowerArm', mount: [400, 160] })),
    ],
    [
      'limits.ballJoints.rodMount.housing: not a part of this joint, got "upright" (allowed: rod, lowerArm)',
      rodWith((c) => (c.limits.ballJoints.rodMount = { maxArticulation: 20, housing: 'upright' })),
    ],
    [
      'strut.topMount: in the same place as strut.lowerMount, got [25.25, 13]; measure the two again: they must lie apart',
      strutWith((c) => (c.strut.topMount = c.strut.lowerMount)),
    ],
    [
      'upperArm: unknown field (allowed: $schema, formatVersion, units, name, notes, kind, lowerArm, strut, wheel, coilover, sprungMass, limits, bar, thirdSpring, rollSpring, sizing, ordered, correlations, surveyChecks); correct the spelling, or take it out',
      strutWith((c) => (c.upperArm = { inner: [14, 14], outer: [24, 15] })),
    ],
    [
      'coilover.otherEnd.on: both ends of the coilover on one part, got "upright"; name the part that the other end is bolted to, or give chassisMount in place of otherEnd',
      strutWith((c) => {
        c.coilover = { on: 'upright', mount: [25, 12], otherEnd: { on: 'upright', mount: [26, 20] } };
      }),
    ],
    [
      'limits.bearings.chassis: an end that moves in this corner; name it otherEnd',
      rodWith((c) => {
        delete c.coilover.chassisMount;
        c.coilover.otherEnd = { on: 'lowerArm', mount: [400, 160] };
        c.limits.bearings = { chassis: { boltAxis: 'longitudinal', maxMisalignment: 10 } };
      }),
    ],
  ])('is told: %s', (message, corner) => {
    expect(messageOf(corner)).toBe(lines('invalid corner file', `  ${message}`));
  });

  it('in a car is told where the car has it', () => {
    const car = { corners: { front: example('front-corner.json'), rear: { kind: 'pushrod' } } };
    expect(errorOf(() => readCar(deepFreeze(car))).issues.map(({ path }) => path)).toEqual([
      'corners.rear.lowerArm',
      'corners.rear.upperArm',
      'corners.rear.wheel',
      'corners.rear.rod',
      'corners.rear.rocker',
      'corners.rear.coilover',
    ]);
  });
});

describe('a note asks', () => {
  it.each<[string, Json]>([
    [
      'upperArm: upperArm and lowerArm seem to be exchanged: both ends of the upper arm are the lower ones, got its ball joint 208 mm below that of lowerArm; exchange the two arms',
      rodWith((c) => ([c.lowerArm, c.upperArm] = [c.upperArm, c.lowerArm])),
    ],
    [
      'rod: the two ends seem to be exchanged, got its mount nearer to the centreline than its rockerMount; exchange the two points',
      rodWith((c) => ([c.rod.mount, c.rod.rockerMount] = [c.rod.rockerMount, c.rod.mount])),
    ],
    [
      "rod.rockerMount: unusual distance from the rocker's pivot, got 630.6 mm (usual: 15 to 400 mm); check the digits and the decimal point",
      rodWith((c) => (c.rocker.pivot = [58, -95])),
    ],
    [
      'coilover.rockerMount: it lies on the pivot of rocker, on which it is mounted: the wheel moves without moving the coilover; check the point',
      rodWith((c) => (c.coilover.rockerMount = c.rocker.pivot)),
    ],
    [
      'rod.mount: it lies on the pivot of lowerArm, on which it is mounted: the wheel moves without moving the rod; check the point',
      rodWith((c) => (c.rod.mount = c.lowerArm.inner)),
    ],
    [
      'rocker.pivot: it lies on the other side of the car than the wheel, got [-258, 397]; check its sign',
      rodWith((c) => (c.rocker.pivot = [-258, 397])),
    ],
    [
      'strut: the two ends seem to be exchanged, got its topMount below its lowerMount; exchange the two points',
      strutWith((c) => ([c.strut.topMount, c.strut.lowerMount] = [c.strut.lowerMount, c.strut.topMount])),
    ],
  ])('%s', (note, corner) => {
    expect(notesOf(corner)).toContain(note);
  });

  it('nothing of a coilover that lies across the car, on a rocker', () => {
    expect(notesOf(rodWith((c) => (c.coilover.chassisMount = [-20, 472])))).toEqual([]);
  });

  it('once for the file when all sizes are in another unit', () => {
    expect(notesOf(strutWith((c) => delete c.units))).toEqual([
      expect.stringMatching(
        /^units: sizes that no car has: .*strut 21 mm \(distance between the mounts\).*; if it was measured in inches, /,
      ),
    ]);
  });
});
