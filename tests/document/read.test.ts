/** Car and corner files as builders write them: what is refused, and in which words; what is only asked. */

import * as fc from 'fast-check';
import { describeIssue, doubleWishbone, sentence, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { readCar, readCorner } from '../../src/corner/read-corner.ts';
import { limitOptionsSchema } from '../../src/document/limits-schema.ts';
import { fromMetric } from '../../src/units.ts';
import { wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose } from '../support/tolerance.ts';
import {
  carWith,
  errorOf,
  exampleText,
  frontWith,
  holderOf,
  type Json,
  lines,
  pathOf,
  placesOf,
  roadsterText,
} from './support.ts';

const messageOf = (car: unknown) => errorOf(() => readCar(car)).message;
const notesOf = (car: unknown) => {
  const { notes, units } = readCar(car);
  return notes.map((one) => describeIssue(one, units));
};
const frontCorner = () => JSON.parse(exampleText('front-corner.json'));

describe('the example files', () => {
  it('are read without a note, and move', () => {
    const { name, corners, notes } = readCar(roadsterText());
    expect(name).toBe('One-off light roadster');
    expect(notes).toEqual([]);
    for (const { corner } of [corners.front, corners.rear!]) {
      expect(sweep(corner, { bump: 60, droop: 60 }).end).toMatchObject({
        bump: { status: 'reached' },
        droop: { status: 'reached' },
      });
    }
    expect(readCorner(exampleText('front-corner.json'))).toEqual({
      corner: doubleWishbone(frontCorner()),
      limits: {},
      units: 'metric',
      notes: [],
    });
  });

  it('are converted to the nearest mm, kg and degrees that there are', () => {
    const { front } = readCar(roadsterText()).corners;
    expect(front.corner).toMatchObject({
      lowerArm: { inner: [234.95, 146.05], outer: [622.3, 136.525] },
      wheel: { camber: -0.75 },
    });
    expect(front.sprungMass).toBe(149.6854821);
    expect(front.limits).toEqual({
      damper: { extendedLength: 374.65, compressedLength: 279.4 },
      bumpStop: { height: 38.1, solidHeight: 12.7 },
      tyre: '195/50R15',
      arch: [
        [596.9, 673.1],
        [685.8, 679.45],
        [768.35, 647.7],
      ],
      chassisLowPoints: [
        [0, 120.65],
        [241.3, 114.3],
      ],
      ballJoints: {
        lowerOuter: { maxArticulation: 25, housing: 'arm', housingAxis: [0, 1], studAxis: [-0.2, 1] },
        upperOuter: { maxArticulation: 22, housing: 'upright' },
      },
      bearings: {
        mount: { boltAxis: 'longitudinal', maxMisalignment: 14 },
        chassis: { boltAxis: 'inPlane', maxMisalignment: 14 },
      },
      required: { bump: 63.5, droop: 50.8 },
      donor: { length: 361.95, state: 'extended', stroke: 88.9 },
    });
  });
});

describe('reading', () => {
  it('gives the same from a text as from its value, and changes nothing', () => {
    const car = carWith(() => {});
    expect(readCar(JSON.stringify(car))).toEqual(readCar(car));
    expect(readCar(`\uFEFF${JSON.stringify(car)}`)).toEqual(readCar(car));
    fc.assert(
      fc.property(wildCorners, (corner) => {
        const read = readCorner(corner);
        expect(readCorner(JSON.stringify(corner))).toEqual(read);
        expect(read.corner).toEqual(doubleWishbone(corner));
      }),
    );
  });

  it('gives frozen data that survives JSON', () => {
    const { corners } = readCar(roadsterText());
    expect(JSON.parse(JSON.stringify(corners))).toEqual(corners);
    for (const [, value] of placesOf(corners)) expect(Object.isFrozen(value)).toBe(true);
  });

  it('gives the same corner from inches as from mm, to rounding', () => {
    const inInches = (value: Json): Json =>
      typeof value === 'number'
        ? fromMetric(value, 'length', 'imperial')
        : Array.isArray(value)
          ? value.map(inInches)
          : typeof value === 'object'
            ? Object.fromEntries(
                Object.entries(value).map(([name, inner]) => [
                  name,
                  name === 'camber' ? inner : inInches(inner),
                ]),
              )
            : value;
    fc.assert(
      fc.property(wildCorners, (given) => {
        const metric = readCorner(given).corner;
        const imperial = readCorner(deepFreeze({ units: 'imperial', ...inInches(given) })).corner;
        for (const [keys, value] of placesOf(metric)) {
          if (typeof value !== 'number') continue;
          const other = keys.reduce((at: Json, key) => at[key], imperial);
          // An angle from a given contact patch is rounded as the patch is, over the wheel's height.
          expectClose(other, value, { times: 8, scale: 1000 });
        }
      }),
    );
  });

  it('mirrors a right-hand corner with all its limits', () => {
    const flip = (value: Json): Json =>
      Array.isArray(value) && value.length === 2 && typeof value[0] === 'number'
        ? [-value[0], value[1]]
        : Array.isArray(value)
          ? value.map(flip)
          : typeof value === 'object' && value !== null
            ? Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, flip(inner)]))
            : value;
    const left = readCar(carWith(() => {}));
    const right = readCar(carWith((car) => Object.assign(car, { corners: flip(car.corners) })));
    const sided = Object.entries(limitOptionsSchema.shape).filter(([, schema]) =>
      JSON.stringify(z.toJSONSchema(schema)).includes('y outboard'),
    );
    const given = Object.keys({ ...left.corners.front?.limits, ...left.corners.rear?.limits });
    // Each limit with a side stands in the file.
    expect(given).toEqual(expect.arrayContaining(sided.map(([name]) => name)));
    expect(sided.length).toBeGreaterThan(2);
    for (const axle of ['front', 'rear'] as const) {
      const { corner, limits, sprungMass, bar, thirdSpring, rollSpring } = right.corners[axle]!;
      expect(corner).toEqual({ ...left.corners[axle]!.corner, mirrored: true });
      expect({ limits, sprungMass, bar, thirdSpring, rollSpring }).toEqual({
        limits: left.corners[axle]!.limits,
        sprungMass: left.corners[axle]!.sprungMass,
        bar: left.corners[axle]!.bar,
        thirdSpring: left.corners[axle]!.thirdSpring,
        rollSpring: left.corners[axle]!.rollSpring,
      });
    }
    expect(right.notes.map(({ path }) => path)).toEqual([
      'corners.front.wheel.centre',
      'corners.rear.wheel.centre',
    ]);
    expect(sentence(right.notes[0])).toBe(
      'A right-hand corner (y is negative): it was mirrored, and is treated as a left-hand corner, y outboard.',
    );
  });
});

describe('a car file with mistakes', () => {
  it('is told all of them at once, in the order of the file and in its unit', () => {
    expect(
      messageOf(
        frontWith((front) => {
          front.lowerArm.inner = ['9,25', '5 3/4'];
          delete front.upperArm.outer;
          front.wheel.center = front.wheel.centre;
          delete front.wheel.centre;
          front.coilover.on = 'lower arm';
          front.sprungMass = -330;
          front.limits.damper = { extendedLength: 11, compressedLength: 14.75 };
          front.limits.tyre = '195-50-15';
          front.damper = { extendedLength: 14.75, compressedLength: 11 };
        }),
      ),
    ).toBe(
      lines(
        'invalid car file',
        '  corners.front.lowerArm.inner[0]: wrong kind of value, got "9,25" (allowed: a finite number, in inches); write 9.25, without quotes',
        '  corners.front.lowerArm.inner[1]: wrong kind of value, got "5 3/4" (allowed: a finite number, in inches); write 5.75, without quotes',
        '  corners.front.upperArm.outer: missing (allowed: a point: two finite numbers [y, z]); add it',
        '  corners.front.wheel.center: unknown field (allowed: centre, camber, contactPatch); did you mean centre?',
        '  corners.front.coilover.on: unknown choice, got "lower arm" (allowed: lowerArm, upperArm, upright); did you mean "lowerArm"?',
        '  corners.front.sprungMass: out of range, got -330 lb (allowed: more than 0 lb); check the number, its sign and its unit',
        '  corners.front.limits.damper.compressedLength: not less than damper.extendedLength, got 14.75 in (allowed: less than 11 in); are the two lengths exchanged?',
        '  corners.front.limits.tyre: not a size marking, got "195-50-15" (allowed: width/ratio R rim, as "205/55R16"); copy it from the side wall, or give { overallRadius, width }',
        '  corners.front.damper: unknown field (allowed: notes, kind, lowerArm, upperArm, wheel, coilover, sprungMass, limits, bar, thirdSpring, rollSpring, sizing, ordered, correlations, surveyChecks); it belongs in limits or ordered',
      ),
    );
  });

  it('is told which figures of what was ordered contradict each other, at their place in a car and in a corner', () => {
    const spoil = (front: Json) => {
      front.ordered = {
        damper: { extendedLength: 11, compressedLength: 14.75 },
        spring: { rate: 200, freeLength: 8, solidLength: 8 },
        bumpStop: {
          height: 2,
          table: [
            [0.1, 10],
            [0.1, 20],
          ],
        },
        valving: { compressionDamping: 2 },
      };
    };
    const paths = (error: { issues: readonly { code: string; path: string }[] }, under: string) =>
      error.issues
        .filter(({ code }) => /^(lengthsExchanged|tableNotRising|dampingMissing)$/.test(code))
        .map(({ path }) => path.replace(under, ''));
    const expected = [
      'ordered.damper.compressedLength',
      'ordered.spring.solidLength',
      'ordered.bumpStop.table[1]',
      'ordered.valving.reboundDamping',
    ];
    const inCar = errorOf(() => readCar(frontWith(spoil)));
    expect(paths(inCar, 'corners.front.')).toEqual(expected);
    const front = { units: 'imperial', ...JSON.parse(roadsterText()).corners.front };
    spoil(front);
    expect(
      paths(
        errorOf(() => readCorner(front)),
        '',
      ),
    ).toEqual(expected);
  });

  it('is told which correlations are none, each by its place', () => {
    const told = (coordinates: unknown, lowerTriangle: unknown) => {
      const { issues } = errorOf(() =>
        readCar(
          frontWith((front) => {
            front.lowerArm.inner = front.lowerArm.inner.map((value: number) => ({ value, plusMinus: 0.1 }));
            front.correlations = { coordinates, lowerTriangle };
          }),
        ),
      );
      return issues.map(({ code, path }) => `${code} ${path.replace('corners.front.correlations.', '')}`);
    };
    const names = ['lowerInnerY', 'lowerInnerZ'];
    expect(told([...names, 'lowerInnerY'], [[], [0.5], [0, 0]])).toEqual(['namedTwice coordinates[2]']);
    expect(told(['lowerInnerY', 'upperInnerZ'], [[], [0.5]])).toEqual([
      'coordinateWithoutPlusMinus coordinates[1]',
    ]);
    expect(told(['lowerInerY', 'lowerInnerZ'], [[], [0.5]])).toEqual(['unknownCoordinate coordinates[0]']);
    expect(told(names, [[]])).toEqual(['rowsNotOfCoordinates lowerTriangle']);
    expect(told(names, [[1], [0.5]])).toEqual(['rowNotOfCoordinatesBefore lowerTriangle[0]']);
    const nameIn = (coordinates: string[]) =>
      messageOf(
        frontWith((front) => {
          front.lowerArm.inner = front.lowerArm.inner.map((value: number) => ({ value, plusMinus: 0.1 }));
          front.correlations = {
            coordinates,
            lowerTriangle: coordinates.map((_, k) => coordinates.slice(0, k).map(() => 0)),
          };
        }),
      );
    expect(nameIn(['lowerInerY'])).toContain(
      'got "lowerInerY" (allowed: lowerInnerY, lowerInnerZ); did you mean lowerInnerY?',
    );
    expect(nameIn(['upperInnerZ'])).toContain('got "upperInnerZ"');
    expect(nameIn(['lowerInnerY', 'lowerInnerY'])).toContain('got "lowerInnerY"');
    expect(nameIn(['contactPatchY'])).toContain('camber');
    expect(nameIn(['wheelCentreY'])).not.toContain('camber');
  });

  it('is told what is missing, down to the last number', () => {
    const optional = new Set(
      '$schema units name notes kind rear foreAftOffset limits sprungMass damper bumpStop tyre arch chassisLowPoints ballJoints bearings required donor bump droop stroke bar thirdSpring rollSpring preload housingAxis studAxis lowerOuter upperOuter mount chassis'.split(
        ' ',
      ),
    );
    const car = carWith(() => {});
    for (const [keys] of placesOf(car)) {
      const name = String(keys[keys.length - 1]);
      const inList = typeof keys[keys.length - 1] === 'number';
      const within = (part: string) => keys.includes(part);
      // The coilover must have a mount, its ends need not.
      if (inList || (optional.has(name) && !(within('coilover') && name === 'mount'))) continue;
      const spoilt = structuredClone(car);
      delete holderOf(spoilt, keys)[name];
      const { issues } = errorOf(() => readCar(spoilt));
      expect(issues, pathOf(keys)).toHaveLength(1);
      const hasOther = ['camber', 'contactPatch', 'chassisMount', 'roundBar', 'leverLength'].includes(name);
      expect(issues[0].path).toBe(hasOther ? pathOf(keys.slice(0, -1)) : pathOf(keys));
      expect(issues[0].problem).toMatch(
        hasOther ? /^give .*(camber|chassisMount|torsionalStiffness|leverLength)/ : /^missing$/,
      );
    }
  });

  it('is told of each misspelt name what was meant, once', () => {
    const car = carWith(() => {});
    for (const [keys] of placesOf(car)) {
      const name = keys[keys.length - 1];
      if (typeof name === 'number') continue;
      const k = Math.floor(name.length / 2);
      const slips = [
        name.slice(0, k) + name.slice(k + 1),
        `${name}s`,
        name.slice(0, k - 1) + name[k] + name[k - 1] + name.slice(k + 1),
        name.toUpperCase(),
        name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`),
      ];
      for (const slip of slips) {
        if (slip === name) continue;
        const spoilt = structuredClone(car);
        const holder = holderOf(spoilt, keys);
        holder[slip] = holder[name];
        delete holder[name];
        // Read in mm without its units, the rest is as sound.
        const { issues } = errorOf(() => readCar(spoilt));
        expect(issues.map(({ path, problem, advice }) => [path, problem, advice])).toEqual([
          [pathOf([...keys.slice(0, -1), slip]), 'unknown field', `did you mean ${name}?`],
        ]);
      }
    }
  });

  it('is told of each number written as a text how to write it', () => {
    const car = carWith(() => {});
    for (const [keys, value] of placesOf(car)) {
      if (typeof value !== 'number') continue;
      const spoilt = structuredClone(car);
      holderOf(spoilt, keys)[keys[keys.length - 1]] = String(value).replace('.', ',');
      const { issues } = errorOf(() => readCar(spoilt));
      expect(issues, pathOf(keys)).toHaveLength(1);
      expect(issues[0].path).toBe(pathOf(keys));
      // 5,375 may be 5375 as well.
      const plain = String(value);
      const also = /\.\d{3}$/.test(plain) ? ` or ${Number(plain.replace('.', ''))}` : '';
      expect(issues[0].advice).toBe(`write ${plain}${also}, without quotes`);
    }
  });

  it.each<[text: string, advice: string]>([
    ['17.5', 'write 17.5, without quotes'],
    ['17 3/8', 'write 17.375, without quotes'],
    ['-3/4', 'write -0.75, without quotes'],
    ['−2,5', 'write -2.5, without quotes'],
    ['17.5"', 'write 17.5, without quotes'],
    ['17.5 in', 'write 17.5, without quotes'],
    ['444.5 mm', 'write the bare number, in inches, without quotes'],
    ['about 17', 'write the bare number, in inches, without quotes'],
    ['1/0', 'write the bare number, in inches, without quotes'],
    ['', 'write the bare number, in inches, without quotes'],
  ])('is told how to write %j', (text, advice) => {
    const { issues } = errorOf(() => readCar(frontWith((front) => (front.coilover.mount[0] = text))));
    expect(issues.map(({ advice }) => advice)).toEqual([advice]);
  });

  it.each<[name: string, value: unknown, got: string]>([
    ['NaN', Number.NaN, 'NaN'],
    ['Infinity', Number.POSITIVE_INFINITY, 'Infinity'],
    ['null', null, 'null'],
    ['true', true, 'true'],
    ['a list', [5], '[5]'],
  ])('is told that %s is no coordinate', (_, value, got) => {
    expect(messageOf(frontWith((front) => (front.lowerArm.outer[1] = value)))).toBe(
      lines(
        'invalid car file',
        `  corners.front.lowerArm.outer[1]: wrong kind of value, got ${got} (allowed: a finite number, in inches)`,
      ),
    );
  });

  it.each<[name: string, value: unknown, got: string, advice: string]>([
    ['one number', [9.25], '[9.25]', ''],
    [
      'decimal commas',
      [9, 25, 5, 75],
      '[9,25,5,75]',
      '; if there are decimals, write a point for the comma: 12.5',
    ],
    [
      'three numbers',
      [0, 9.25, 5.75],
      '[0,9.25,5.75]',
      '; leave out the fore-aft one; if it is a decimal, write a point for the comma: 12.5',
    ],
    ['named coordinates', { y: 9.25, z: 5.75 }, '{"y":9.25,"z":5.75}', ''],
  ])('is told what a point is when given %s', (_, value, got, advice) => {
    expect(messageOf(frontWith((front) => (front.lowerArm.inner = value)))).toBe(
      lines(
        'invalid car file',
        `  corners.front.lowerArm.inner: wrong kind of value, got ${got} (allowed: a point: two finite numbers [y, z])${advice}`,
      ),
    );
  });

  it('is told of points in one place, and of a wheel in the ground, beside what else is wrong', () => {
    expect(
      messageOf(
        frontWith((front) => {
          front.lowerArm.outer = front.lowerArm.inner;
          front.upperArm.outer = ['22.75', 14];
          front.wheel.centre[1] = -10.875;
          delete front.wheel.camber;
          front.coilover.mount = front.coilover.chassisMount;
        }),
      ),
    ).toBe(
      lines(
        'invalid car file',
        '  corners.front.lowerArm.inner: in the same place as lowerArm.outer, got [9.25, 5.75]; measure the two again: they must lie apart',
        '  corners.front.upperArm.outer[0]: wrong kind of value, got "22.75" (allowed: a finite number, in inches); write 22.75, without quotes',
        '  corners.front.wheel: give camber (degrees) or contactPatch [y, z], or both, got {"centre":[26.875,-10.875]}',
        '  corners.front.wheel.centre[1]: wheel centre not above the ground, got -10.875 in (allowed: more than 0 in); z counts up from the ground at design ride height',
        '  corners.front.coilover.mount: in the same place as coilover.chassisMount, got [13.75, 18.5]; measure the two again: they must lie apart',
      ),
    );
  });

  it('is told of lengths that are none, and of pairs the wrong way round', () => {
    expect(
      messageOf(
        frontWith(({ limits }) => {
          limits.damper = { extendedLength: 0, compressedLength: -3 };
          limits.bumpStop = { height: 0.5, solidHeight: 1.5 };
          limits.bearings.mount.maxMisalignment = 95;
          limits.required.droop = -2;
          limits.donor.stroke = 20;
        }),
      ),
    ).toBe(
      lines(
        'invalid car file',
        '  corners.front.limits.damper.extendedLength: out of range, got 0 in (allowed: more than 0 in); check the number, its sign and its unit',
        '  corners.front.limits.damper.compressedLength: out of range, got -3 in (allowed: more than 0 in); check the number, its sign and its unit',
        '  corners.front.limits.bumpStop.solidHeight: not less than bumpStop.height, got 1.5 in (allowed: less than 0.5 in); height is the free height, solidHeight the solid height: are the two exchanged?',
        '  corners.front.limits.bearings.mount.maxMisalignment: out of range, got 95 deg (allowed: less than 90 deg); check the number, its sign and its unit',
        '  corners.front.limits.required.droop: out of range, got -2 in (allowed: at least 0 in); check the number, its sign and its unit',
        '  corners.front.limits.donor.stroke: not less than donor.length, got 20 in (allowed: less than 14.25 in); length is eye to eye, stroke how far the damper moves',
      ),
    );
  });

  it('is told what lacks that from which it counts', () => {
    expect(
      messageOf(
        frontWith(({ limits }) => {
          delete limits.damper;
          delete limits.tyre;
          limits.ballJoints.lowerOuter.housingAxis = [0, 0];
        }),
      ),
    ).toBe(
      lines(
        'invalid car file',
        '  corners.front.limits.bumpStop: a bump stop without a damper; give damper: { extendedLength, compressedLength } too: its heights count from the compressed length',
        '  corners.front.limits.arch: an arch without a tyre; give tyre: { overallRadius, width }, or its marking as "205/55R16"',
        '  corners.front.limits.ballJoints.lowerOuter.housingAxis: no direction, got [0,0] (allowed: a direction [y, z] other than [0, 0]: [0, 1] is up)',
      ),
    );
  });

  it('is told of a tyre and of lists in another shape', () => {
    expect(
      messageOf(
        frontWith((front) => {
          front.notes = 3;
          front.limits.tyre = { radius: 11.25, width: '8"' };
          front.limits.arch = [];
          front.limits.ballJoints.lowerOuter.housingAxis = 'up';
        }),
      ),
    ).toBe(
      lines(
        'invalid car file',
        '  corners.front.notes: wrong kind of value, got 3 (allowed: a text or a list of texts)',
        '  corners.front.limits.tyre.radius: unknown field (allowed: overallRadius, width); did you mean overallRadius?',
        '  corners.front.limits.tyre.width: wrong kind of value, got "8\\"" (allowed: a finite number, in inches); write 8, without quotes',
        '  corners.front.limits.arch: wrong kind of value, got [] (allowed: a list of points [[y, z], ...], one at least)',
        '  corners.front.limits.ballJoints.lowerOuter.housingAxis: wrong kind of value, got "up" (allowed: a direction: two finite numbers [y, z])',
      ),
    );
    expect(messageOf(frontWith((front) => (front.limits.tyre = 8)))).toBe(
      lines(
        'invalid car file',
        '  corners.front.limits.tyre: wrong kind of value, got 8 (allowed: { overallRadius, width } or a text)',
      ),
    );
  });

  it('is told what its units may be', () => {
    expect(messageOf(carWith((car) => (car.units = 'inch')))).toBe(
      lines(
        'invalid car file',
        '  units: unknown choice, got "inch" (allowed: metric (mm, kg), imperial (in, lb)); choose one of them',
      ),
    );
  });

  it('is told of numbers that no car has in any unit', () => {
    expect(messageOf(frontWith((front) => (front.lowerArm.inner[0] = 9.25e12)))).toBe(
      lines(
        'invalid car file',
        '  corners.front.lowerArm.inner[0]: out of range, got 9250000000000 (allowed: -1000000 to 1000000); look for a typing error',
      ),
    );
  });

  it('that is a corner, or the other way round, is told so in one line', () => {
    expect(messageOf(frontCorner())).toBe(
      lines(
        'invalid car file',
        '  a file of one corner, where a car is required; put the corner into "corners": { "front": { ... } }, or take it as one corner (readCorner, jounce corner)',
      ),
    );
    expect(errorOf(() => readCorner(roadsterText())).message).toBe(
      lines(
        'invalid corner file',
        '  corners: a file of a whole car, where one corner is required; take it as a car (readCar, jounce order), or one of its corners',
      ),
    );
  });

  it.each([undefined, null, 3, [], () => 3, {}])('that is no car at all is refused: %s', (value) => {
    for (const read of [readCar, readCorner])
      expect(errorOf(() => read(value)).issues[0].problem).toBeTypeOf('string');
  });
});

describe('a car file that may be right is read, and asked about', () => {
  it('with the arms exchanged', () => {
    const car = frontWith((front) => {
      [front.lowerArm, front.upperArm] = [front.upperArm, front.lowerArm];
    });
    expect(notesOf(car)).toEqual([
      'corners.front.upperArm: upperArm and lowerArm seem to be exchanged: both ends of the upper arm are the lower ones, got its ball joint 8.625 in below that of lowerArm; exchange the two arms',
    ]);
    expect(readCar(car).corners.front.corner).toMatchObject({ lowerArm: { outer: [577.85, 355.6] } });
  });

  it('with points exchanged', () => {
    const swap = (holder: Json, one: string, other: string) => {
      [holder[one], holder[other]] = [holder[other], holder[one]];
    };
    expect(
      notesOf(
        frontWith(({ lowerArm, upperArm }) => {
          [lowerArm.outer, upperArm.outer] = [upperArm.outer, lowerArm.outer];
        }),
      ),
    ).toEqual([
      'corners.front.upperArm: the outer points, or the arms, seem to be exchanged, got its ball joint 8.625 in below that of lowerArm; exchange the two outer points, or the two arms',
    ]);
    expect(notesOf(frontWith(({ upperArm }) => swap(upperArm, 'inner', 'outer')))).toEqual([
      'corners.front.upperArm: inner and outer seem to be exchanged, got its outer point nearer to the centreline than its inner one; exchange the two points',
    ]);
    expect(notesOf(frontWith(({ coilover }) => swap(coilover, 'mount', 'chassisMount')))).toEqual([
      'corners.front.coilover: the two ends seem to be exchanged, got its chassisMount below its mount; exchange the two points',
    ]);
  });

  it('with its wheel on the other side', () => {
    expect(notesOf(frontWith((front) => (front.wheel.centre[0] *= -1)))).toEqual([
      'corners.front.wheel.centre: the wheel lies on the other side of the car than most points, got [-26.875, 10.875]; check its sign; the side with the wheel is taken as outboard',
    ]);
  });

  it.each([
    [
      'a sign lost',
      (front: Json) => (front.lowerArm.inner[0] *= -1),
      'lowerArm.inner: it lies on the other side of the car than the wheel, got [-9.25, 5.75]; check its sign',
    ],
    [
      'a point of the arch on the other side',
      (front: Json) => (front.limits.arch[1][0] *= -1),
      'limits.arch[1]: it lies on the other side of the car than the wheel, got [-27, 26.75]; check its sign',
    ],
    [
      'a point below the ground',
      (front: Json) => (front.lowerArm.outer[1] *= -1),
      'lowerArm.outer: below the ground, got z = -5.375 in; check its sign',
    ],
    [
      'y and z exchanged',
      (front: Json) => front.wheel.centre.reverse(),
      'wheel.centre: y and z seem to be exchanged, got [10.875, 26.875], higher above the ground than far from the centreline; write [y, z]: outboard first, then up',
    ],
    [
      'a wheel inboard of its ball joints',
      (front: Json) => (front.wheel.centre[0] = 20),
      'wheel.centre: the wheel centre lies inboard of both ball joints, got 2.75 in inboard; check the point',
    ],
    [
      'mm in an inch file',
      (front: Json) => (front.limits.damper = { extendedLength: 375, compressedLength: 11 }),
      'limits.damper.extendedLength: unusual length, got 375 in (usual: 3.9 to 35 in); check the digits and the decimal point; was it measured in mm? It was read in inches',
    ],
    [
      'much camber',
      (front: Json) => (front.wheel.camber = -10),
      'wheel.camber: an unusual camber, got -10 deg (usual: 8 deg at most, either way); check the number',
    ],
    [
      'camber against the contact patch',
      (front: Json) => (front.wheel.contactPatch = [26.5, 0]),
      'wheel.contactPatch: camber and contact patch contradict each other, got -0.75 deg, where centre and contact patch give 1.975; measure again, or leave one out; until then the load acts at the contact patch, and the camber is shown as given',
    ],
    [
      'a contact patch above the ground',
      (front: Json) => (front.wheel.contactPatch = [27.01, 1]),
      'wheel.contactPatch: the contact patch is off the ground, got z = 1 in (usual: 0: heights are measured from the ground); check the height',
    ],
    [
      'a point copied',
      (front: Json) => (front.upperArm.inner = [9.25, 5.75]),
      'upperArm.inner: in the same place as lowerArm.inner; check whether it was copied and not changed',
    ],
    [
      'a shock on the pivot of its arm',
      (front: Json) => (front.coilover.mount = [9.25, 5.75]),
      'coilover.mount: it lies on the pivot of lowerArm, on which it is mounted: the wheel moves without moving the coilover; check the point',
    ],
  ])('with %s', (_, change, note) => {
    expect(notesOf(frontWith(change))).toContain(`corners.front.${note}`);
  });

  it('with one size that no car has', () => {
    expect(notesOf(frontWith((front) => (front.lowerArm.inner = [-375, 5.375])))).toContain(
      'corners.front.lowerArm: unusual length, got 399.5 in (usual: 2.4 to 39 in); check the digits and the decimal point; was it measured in mm? It was read in inches',
    );
    const short = { ...frontCorner(), upperArm: { inner: [563, 356], outer: [578, 356] } };
    expect(readCorner(short).notes).toEqual([
      {
        code: 'sizeUnusual',
        severity: 'check',
        path: 'upperArm',
        values: { what: 'length', value: 15, least: 60, most: 1000, unit: 'inches' },
      },
    ]);
  });

  it('with all sizes in another unit, once', () => {
    expect(notesOf(carWith((car) => delete car.units))).toEqual([
      'units: sizes that no car has: the file was read in mm, got lowerArm 15.25 mm (length), upperArm 11.27 mm (length), wheel.centre 10.88 mm (height above the ground), wheel.centre 26.88 mm (distance from the centreline); if it was measured in inches, write "units": "imperial"',
    ]);
    expect(sentence(readCorner({ units: 'imperial', ...frontCorner() }).notes[0], 'imperial')).toMatch(
      /got lowerArm 390\.1 in \(length\), upperArm 290\.6 in \(length\), wheel\.centre 289 in \(height above the ground\), wheel\.centre 684 in \(distance from the centreline\); if it was measured in mm, write "units": "metric"\.$/,
    );
    const cm = JSON.parse(JSON.stringify(frontCorner(), (_, v) => (typeof v === 'number' ? v / 10 : v)));
    expect(readCorner(cm).notes.map(({ path }) => path)).toEqual(['units']);
    expect(sentence(readCorner(cm).notes[0])).toMatch(/measured in cm, write them in mm\./);
  });

  it('with a tyre no larger than the wheel centre is high', () => {
    const tyre = (given: unknown) => notesOf(frontWith((front) => (front.limits.tyre = given)));
    expect(tyre({ overallRadius: 10.875, width: 7.75 })).toEqual([
      'corners.front.limits.tyre.overallRadius: the overall radius of the tyre is equal to its loaded radius, got 10.88 in, with the wheel centre 10.88 in above the ground; give the radius without load; the height of the wheel centre is the loaded radius, measured with the wheel on the ground under the weight of the car',
    ]);
    expect(tyre('155/50R13')).toEqual([
      'corners.front.limits.tyre: the overall radius of the tyre is less than its loaded radius, got 9.551 in, with the wheel centre 10.88 in above the ground; give the radius without load; the height of the wheel centre is the loaded radius, measured with the wheel on the ground under the weight of the car',
    ]);
  });

  it('with such a tyre against the height above the contact patch', () => {
    const noted = (contactPatch: unknown) => {
      const { wheel, ...rest } = frontCorner();
      const at = { centre: wheel.centre, ...(contactPatch === undefined ? { camber: 0 } : { contactPatch }) };
      const limits = { tyre: { overallRadius: wheel.centre[1], width: 200 } };
      return readCorner({ ...rest, wheel: at, limits })
        .notes.filter(({ path }) => path.startsWith('limits.tyre'))
        .map((one) => /(equal to|less than) its loaded radius/.exec(sentence(one))?.[1]);
    };
    const [y] = frontCorner().wheel.centre;
    expect(noted(undefined)).toEqual(['equal to']);
    expect(noted([y, 0])).toEqual(['equal to']);
    expect(noted([y, 20])).toEqual([]);
    expect(noted([y, -20])).toEqual(['less than']);
  });

  it('with a whole car on one corner', () => {
    expect(notesOf(frontWith((front) => (front.sprungMass = 2200)))).toEqual([
      'corners.front.sprungMass: unusual sprung mass of one corner, got 2200 lb (usual: 66 to 1800 lb); check that it is the mass on one corner, in lb',
    ]);
  });
});
