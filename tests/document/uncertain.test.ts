/** Coordinates that are known to plus or minus, in files and in input: what is read, and what is refused in which words. */

import * as fc from 'fast-check';
import {
  doubleWishbone,
  type PushrodInput,
  pushrod,
  readCar,
  readCorner,
  type StrutInput,
  sensitivities,
  strut,
  sweep,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { cornerJsonSchema } from '../../src/corner/file-schemas.ts';
import { coordinatesOf, withCoordinates } from '../corner/hardpoints.ts';
import { rockerCorners, strutCorners } from '../support/rocker-corners.ts';
import { expectClose } from '../support/tolerance.ts';
import { carWith, errorOf, exampleText, frontWith, type Json, lines } from './support.ts';

const messageOf = (car: unknown) => errorOf(() => readCar(car)).message;

/** The example car with one coordinate of its front corner as given. */
const withCoordinate = (coordinate: unknown) => frontWith((front) => (front.lowerArm.inner[0] = coordinate));

describe('an uncertain coordinate of a file', () => {
  it('is read as its value, and what it may be off by is kept in mm under the name of its column', () => {
    const certain = readCar(carWith(() => {}));
    const read = readCar(
      frontWith((front) => {
        const [y, z] = front.lowerArm.inner;
        front.lowerArm.inner = [{ value: y, plusMinus: 0.0625 }, z];
        front.wheel.centre[1] = { value: front.wheel.centre[1], plusMinus: 0.125 };
        front.coilover.chassisMount[0] = { value: front.coilover.chassisMount[0], plusMinus: 0 };
      }),
    );
    const { plusMinus, ...rest } = read.corners.front.corner;
    expect(plusMinus).toEqual({ lowerInnerY: 1.5875, wheelCentreZ: 3.175, shockChassisMountY: 0 });
    expect(rest).toEqual(certain.corners.front.corner);
    expect(read.notes).toEqual(certain.notes);
    expect(read.corners.rear).toEqual(certain.corners.rear);
  });

  it('is looked at as its number where points must lie apart and sizes be those of a car', () => {
    const written = frontWith((front) => {
      const [y, z] = front.lowerArm.outer;
      front.lowerArm.inner = [y, { value: z, plusMinus: 1 }];
      front.wheel.centre[1] = { value: -10, plusMinus: 0.5 };
    });
    expect(messageOf(written)).toContain('corners.front.lowerArm.inner: in the same place as lowerArm.outer');
    expect(messageOf(written)).toContain('wheel centre not above the ground, got -10 in');
    const far = withCoordinate({ value: 1e9, plusMinus: 1 });
    expect(messageOf(far)).toContain('corners.front.lowerArm.inner[0].value: out of range, got 1000000000');
  });

  it.each<[string, unknown, string]>([
    [
      'a text for its value',
      { value: '9.25', plusMinus: 0.1 },
      '.value: wrong kind of value, got "9.25" (allowed: a finite number, in inches); write 9.25, without quotes',
    ],
    ['no half-width', { value: 9.25 }, '.plusMinus: missing (allowed: a finite number, in inches); add it'],
    [
      'a half-width below nothing',
      { value: 9.25, plusMinus: -0.1 },
      '.plusMinus: out of range, got -0.1 in (allowed: at least 0 in); check the number, its sign and its unit',
    ],
    ['nothing', {}, ': wrong kind of value, got {} (allowed: a finite number, in inches)'],
  ])('is refused with %s', (_, coordinate, text) => {
    expect(messageOf(withCoordinate(coordinate))).toBe(
      lines('invalid car file', `  corners.front.lowerArm.inner[0]${text}`),
    );
  });

  it('is told a misspelt name, and what was meant by it', () => {
    const { issues } = errorOf(() => readCar(withCoordinate({ value: 9.25, plusminus: 0.1 })));
    expect(issues).toEqual([
      {
        code: 'unknownField',
        severity: 'error',
        path: 'corners.front.lowerArm.inner[0].plusminus',
        values: { allowed: ['value', 'plusMinus'], meant: 'plusMinus' },
        problem: 'unknown field',
        allowed: 'value, plusMinus',
        advice: 'did you mean plusMinus?',
      },
    ]);
  });

  it('is no point of the arch or the ground: those are taken as they are', () => {
    const car = frontWith(
      (front) => (front.limits.chassisLowPoints = [[0, { value: 4.75, plusMinus: 0.1 }]]),
    );
    expect(messageOf(car)).toContain('corners.front.limits.chassisLowPoints[0][1]: wrong kind of value');
  });

  it('is described to editors', () => {
    const [doubleWishbone] = (cornerJsonSchema() as Json).anyOf;
    const [y] = doubleWishbone.properties.lowerArm.properties.inner.items;
    const { value, plusMinus } = y.anyOf[1].properties;
    expect(y.anyOf[0].type).toBe('number');
    expect(value.description).toContain('Unit: mm, or in (imperial)');
    expect(plusMinus).toMatchObject({ type: 'number', minimum: 0 });
  });
});

describe('an uncertain coordinate of an input', () => {
  const input = JSON.parse(exampleText('front-corner.json'));

  it('makes the same corner as its number, on either side of the car', () => {
    const mirror = ([y, z]: Json) => [typeof y === 'number' ? -y : { ...y, value: -y.value }, z];
    const uncertain = structuredClone(input);
    uncertain.upperArm.outer[0] = { value: input.upperArm.outer[0], plusMinus: 2 };
    const right = structuredClone(uncertain);
    for (const part of [right.lowerArm, right.upperArm, right.wheel, right.coilover]) {
      for (const name of Object.keys(part)) if (Array.isArray(part[name])) part[name] = mirror(part[name]);
    }
    const corner = doubleWishbone(uncertain);
    expect(corner.plusMinus).toEqual({ upperOuterY: 2 });
    expect(doubleWishbone(right)).toEqual({ ...corner, mirrored: true });
    expect(sweep(corner).columns).toEqual(sweep(doubleWishbone(input)).columns);
    expect(Object.isFrozen(corner.plusMinus)).toBe(true);
  });

  it('has its half-width under the name that sensitivities have', () => {
    const all = structuredClone(input);
    for (const part of [all.lowerArm, all.upperArm, all.wheel, all.coilover]) {
      for (const [name, at] of Object.entries<Json>(part)) {
        if (Array.isArray(at)) part[name] = at.map((value) => ({ value, plusMinus: 1 }));
      }
    }
    const corner = doubleWishbone(all);
    expect(Object.keys(corner.plusMinus ?? {}).sort()).toEqual(Object.keys(sensitivities(corner).by).sort());
    expect(structuredClone(corner)).toEqual(JSON.parse(JSON.stringify(corner)));
  });
});

/** Random corners of the other kinds as files hold them, and as their functions make them. */
const others = [
  {
    kind: 'pushrod',
    inputs: rockerCorners.map((input): object => input),
    corner: (input: object) => pushrod(input as PushrodInput),
  },
  {
    kind: 'strut',
    inputs: strutCorners.map((input): object => input),
    corner: (input: object) => strut(input as StrutInput),
  },
];

describe.each(others)('uncertain coordinates of a $kind', ({ kind, inputs, corner }) => {
  /** Every coordinate with a half-width of its own: 1, 2, 3, ... mm, divided by `unit`. */
  const uncertain = (input: object, unit = 1, side = 1) => {
    const names = coordinatesOf(input).map(([name]) => name);
    return withCoordinates(input, (name, value) => ({
      value: ((name.endsWith('Y') ? side : 1) * value) / unit,
      plusMinus: (names.indexOf(name) + 1) / unit,
    }));
  };
  const widthsOf = (input: object) =>
    Object.fromEntries(coordinatesOf(input).map(([name], k) => [name, k + 1]));

  it('are kept wherever they stand, under the names that sensitivities have, on either side', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const certain = corner(input);
        const { plusMinus, ...rest } = corner(uncertain(input));
        expect(rest).toEqual(certain);
        expect(plusMinus).toEqual(widthsOf(input));
        expect(Object.keys(plusMinus ?? {}).sort()).toEqual(
          Object.keys(sensitivities(certain, { step: 80 }).by).sort(),
        );
        expect(readCorner({ kind, ...uncertain(input) }).corner).toEqual({ ...certain, plusMinus });
        expect(corner(uncertain(input, 1, -1))).toEqual({ ...certain, plusMinus, mirrored: true });
      }),
      { numRuns: 12 },
    );
  });

  it('come from inches as their values do', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const { plusMinus = {} } = readCorner({ kind, units: 'imperial', ...uncertain(input, 25.4) })
          .corner as {
          plusMinus?: Record<string, number>;
        };
        const widths = widthsOf(input);
        expect(Object.keys(plusMinus).sort()).toEqual(Object.keys(widths).sort());
        for (const [name, width] of Object.entries(widths)) {
          expectClose(plusMinus[name], width, { times: 2, scale: width });
        }
      }),
      { numRuns: 12 },
    );
  });

  it('are refused without their half-width, each by its place', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const halved = withCoordinates(input, (_, value) => ({ value }));
        const { issues } = errorOf(() => corner(halved));
        expect(issues).toHaveLength(coordinatesOf(input).length);
        for (const issue of issues) {
          expect(issue).toMatchObject({
            path: expect.stringMatching(/\[[01]\]\.plusMinus$/),
            problem: 'missing',
          });
        }
        expect(new Set(issues.map(({ path }) => path)).size).toBe(issues.length);
      }),
      { numRuns: 6 },
    );
  });
});
