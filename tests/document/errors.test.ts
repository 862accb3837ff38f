/**
 * Wrong input to `doubleWishbone` and `sweep`: every issue at once, each by its path, with what was got, what is
 * allowed and what to do, in words that whoever measured the car can act on.
 */

import * as fc from 'fast-check';
import { type DoubleWishboneInput, doubleWishbone, InputError, type Issue, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import type { CornerInput } from '../judges/circle-intersection.ts';
import { wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';

const good = deepFreeze({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
}) satisfies CornerInput;

/** The error that something throws; anything but an InputError fails. */
function errorOf(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    expect.fail(`not an InputError but ${error}`);
  }
  expect.fail('nothing was thrown');
}

const errorOfInput = (input: unknown) =>
  errorOf(() => doubleWishbone(deepFreeze(input) as DoubleWishboneInput));
const errorOfSweep = (options: unknown) =>
  errorOf(() => sweep(doubleWishbone(good), deepFreeze(options) as object));
const pathsOf = ({ issues }: InputError) => issues.map(({ path }) => path);
const lines = (...text: string[]) => text.join('\n');

describe('a double wishbone with mistakes', () => {
  it('is told all of them at once, in the order of the input', () => {
    const { message, issues } = errorOfInput({
      lowerArm: { inner: ['255', 165], outer: [640, null] },
      upperArm: 3,
      wheel: { centre: [705, Number.POSITIVE_INFINITY], camber: 90 },
      coilover: { on: 'lower', mount: [505, 170], chassisMount: [345, 480], foreAftOffset: Number.NaN },
    });
    expect(message).toBe(
      lines(
        'invalid double wishbone',
        '  lowerArm.inner[0]: wrong kind of value, got "255" (allowed: a finite number, in mm); write 255, without quotes',
        '  lowerArm.outer[1]: wrong kind of value, got null (allowed: a finite number, in mm)',
        '  upperArm: wrong kind of value, got 3 (allowed: { inner, outer })',
        '  wheel.centre[1]: wrong kind of value, got Infinity (allowed: a finite number, in mm)',
        '  wheel.camber: out of range, got 90 deg (allowed: less than 45 deg); check the number, its sign and its unit',
        '  coilover.on: unknown choice, got "lower" (allowed: lowerArm, upperArm, upright); did you mean "lowerArm"?',
        '  coilover.foreAftOffset: wrong kind of value, got NaN (allowed: a finite number, in mm)',
      ),
    );
    expect(issues[4]).toEqual({
      code: 'outOfRange',
      severity: 'error',
      path: 'wheel.camber',
      values: { got: '90', below: 45, quantity: 'angle' },
      problem: 'out of range',
      got: '90 deg',
      allowed: 'less than 45 deg',
      advice: 'check the number, its sign and its unit',
    } satisfies Issue);
  });

  it('that is empty is told its parts', () => {
    expect(errorOfInput({}).message).toBe(
      lines(
        'invalid double wishbone',
        '  lowerArm: missing (allowed: { inner, outer }); add it',
        '  upperArm: missing (allowed: { inner, outer }); add it',
        '  wheel: missing (allowed: { centre, camber, contactPatch }); add it',
        '  coilover: missing (allowed: { on, mount, chassisMount, otherEnd, foreAftOffset }); add it',
      ),
    );
  });

  it.each([undefined, null, 3, 'corner', [], () => good])(
    'that is no object at all is refused: %s',
    (input) => {
      const { issues } = errorOfInput(input);
      expect(issues).toHaveLength(1);
      expect(issues[0].path).toBe('');
      expect(issues[0].allowed).toBe('{ lowerArm, upperArm, wheel, coilover }');
    },
  );

  it('of points in one place is told which', () => {
    const { lowerArm, upperArm, wheel, coilover } = good;
    expect(
      errorOfInput({
        lowerArm: { ...lowerArm, inner: lowerArm.outer },
        upperArm: { ...upperArm, inner: upperArm.outer },
        wheel: { centre: wheel.centre, contactPatch: wheel.centre },
        coilover: { ...coilover, chassisMount: coilover.mount },
      }).message,
    ).toBe(
      lines(
        'invalid double wishbone',
        '  lowerArm.inner: in the same place as lowerArm.outer, got [640, 150]; measure the two again: they must lie apart',
        '  upperArm.inner: in the same place as upperArm.outer, got [600, 375]; measure the two again: they must lie apart',
        '  wheel.centre: in the same place as wheel.contactPatch, got [705, 312]; measure the two again: they must lie apart',
        '  coilover.mount: in the same place as coilover.chassisMount, got [505, 170]; measure the two again: they must lie apart',
      ),
    );
    const oneJoint = errorOfInput({ ...good, upperArm: { ...upperArm, outer: lowerArm.outer } });
    expect(pathsOf(oneJoint)).toEqual(['lowerArm.outer']);
  });

  it('on the right-hand side is told its points as they were written', () => {
    const right = {
      lowerArm: { inner: [-640, 150], outer: [-640, 150] },
      upperArm: { inner: [-310, 355], outer: [-600, 375] },
      wheel: { centre: [-705, 312], camber: -0.5 },
      coilover: { on: 'upright', mount: [-505, 170], chassisMount: [-345, 480] },
    };
    expect(errorOfInput(right).issues[0].got).toBe('[-640, 150]');
  });

  it('is told a misspelt name, and what was meant by it', () => {
    const { wheel, ...rest } = good;
    const { issues } = errorOfInput({
      ...rest,
      wheel: { center: wheel.centre, camber: -0.5 },
      units: 'mm',
    });
    expect(issues.map(({ path, problem, advice }) => [path, problem, advice])).toEqual([
      ['wheel.center', 'unknown field', 'did you mean centre?'],
      ['units', 'unknown field', 'correct the spelling, or take it out'],
    ]);
  });

  it('has each wrong value named by its path, and nothing else', () => {
    /** Every value of an input by its path, and what is wrong there in any corner. */
    const places: [path: string, keys: (string | number)[]][] = [
      ...['lowerArm', 'upperArm'].flatMap((arm) =>
        ['inner', 'outer'].flatMap((end): [string, (string | number)[]][] => [
          [`${arm}.${end}[0]`, [arm, end, 0]],
          [`${arm}.${end}[1]`, [arm, end, 1]],
        ]),
      ),
      ['wheel.centre', ['wheel', 'centre']],
      ['coilover.on', ['coilover', 'on']],
      ['coilover.mount', ['coilover', 'mount']],
      ['coilover.chassisMount[1]', ['coilover', 'chassisMount', 1]],
      ['coilover.foreAftOffset', ['coilover', 'foreAftOffset']],
    ];
    const wrong = fc.constantFrom<unknown[]>(null, Number.NaN, Number.POSITIVE_INFINITY, 'text', true, {});
    fc.assert(
      fc.property(
        wildCorners,
        fc.subarray(places, { minLength: 1 }),
        fc.infiniteStream(wrong),
        (input, where, values) => {
          const spoilt = structuredClone(input) as unknown as Record<string, unknown>;
          for (const [, keys] of where) {
            const last = keys[keys.length - 1];
            const holder = keys
              .slice(0, -1)
              .reduce<unknown>((at, key) => Reflect.get(at as object, key), spoilt);
            Reflect.set(holder as object, last, values.next().value);
          }
          const error = errorOfInput(spoilt);
          expect(pathsOf(error)).toEqual(where.map(([path]) => path));
          for (const issue of error.issues) {
            expect(issue.got).toBeTypeOf('string');
            expect(issue.allowed).toBeTypeOf('string');
            expect(error.message).toContain(`\n  ${issue.path}: ${issue.problem}, got ${issue.got}`);
          }
        },
      ),
    );
  });

  it('lacking what says where the wheel stands is told what to give', () => {
    const { issues } = errorOfInput({ ...good, wheel: { centre: [705, 312] } });
    expect(pathsOf({ issues } as InputError)).toEqual(['wheel']);
    expect(issues[0].problem).toBe('give camber (degrees) or contactPatch [y, z], or both');
  });

  it('is told that the wheel lacks camber and contact patch also when something else is wrong with it', () => {
    expect(pathsOf(errorOfInput({ ...good, wheel: { centre: [705, null] } }))).toContain('wheel');
  });

  it.each([
    ['too few numbers', [705]],
    ['too many numbers', [705, 312, 0]],
  ])('is told what a point is when given %s', (_, centre) => {
    const { issues } = errorOfInput({ ...good, wheel: { centre, camber: 0 } });
    expect(issues).toHaveLength(1);
    expect(issues[0].path).toBe('wheel.centre');
    expect(issues[0].allowed).toBe('a point: two finite numbers [y, z]');
  });

  it.each([
    ['below the ground', { centre: [705, -312], camber: 0 }],
    ['on the ground', { centre: [705, 0], camber: 0 }],
    ['below its contact patch', { centre: [705, 312], contactPatch: [705, 400] }],
    ['level with its contact patch', { centre: [705, 312], contactPatch: [300, 312] }],
  ])('is refused with the wheel centre %s', (_, wheel) => {
    // A given camber stays below 45 degrees either way; so must that of a given contact patch.
    expect(pathsOf(errorOfInput({ ...good, wheel }))[0]).toMatch(/^wheel/);
  });
});

describe('a sweep asked for something wrong', () => {
  it('is told all of it at once', () => {
    expect(errorOfSweep({ bump: -3, droop: Number.NaN, travelReference: 'wheel', step: 0 }).message).toBe(
      lines(
        'invalid sweep options',
        '  bump: not a distance, got -3 (allowed: mm, 0 or more; droop counts downward)',
        '  droop: not a distance, got NaN (allowed: mm, 0 or more; droop counts downward)',
        '  travelReference: unknown choice, got "wheel" (allowed: contactPatch, wheelCentre)',
        '  step: not a step, got 0 (allowed: mm, more than 0, 1000000 rows at most)',
      ),
    );
  });

  it('is told its unknown columns together with the rest', () => {
    expect(pathsOf(errorOfSweep({ bump: -3, columns: ['camber', 'chamber', 3] }))).toEqual([
      'bump',
      'columns[1]',
      'columns[2]',
    ]);
  });

  it('is told unknown columns with all that there are', () => {
    const { issues } = errorOfSweep({ columns: ['camber', 'cambr'] });
    expect(issues).toHaveLength(1);
    expect(issues[0]).toMatchObject({ path: 'columns[1]', problem: 'unknown column', got: '"cambr"' });
    const names = sweep(doubleWishbone(good)).info.map(({ name }) => name);
    expect(issues[0].allowed?.split(', ')).toEqual(names.filter((name) => name !== 'travel'));
  });

  it.each([
    ['bump', Number.NaN],
    ['bump', Number.POSITIVE_INFINITY],
    ['droop', -1],
    ['droop', '70'],
    ['droop', null],
    ['travelReference', 'hub'],
    ['step', 0],
    ['step', -5],
    ['step', Number.NaN],
    ['step', '5'],
    ['step', null],
    ['columns', 'camber'],
    ['columns', null],
  ])('is told that %s may not be %s, and nothing else', (name, value) => {
    const { issues } = errorOfSweep({ [name]: value });
    expect(issues.map(({ path }) => path)).toEqual([name]);
    expect(issues[0].got).toBe(typeof value === 'string' ? `"${value}"` : String(value));
    expect(issues[0].allowed).toBeTypeOf('string');
  });

  it('is told a misspelt option', () => {
    expect(pathsOf(errorOfSweep({ bumb: 70 }))).toEqual(['bumb']);
  });

  it.each([[null], [70], ['droop'], [[70, 70]]])('is refused options that are none: %j', (options) => {
    errorOfSweep(options);
  });

  it('is told a step so small that it must be a slip', () => {
    expect(errorOfSweep({ step: 1e-6 }).issues[0]).toMatchObject({ path: 'step', got: '0.000001' });
  });

  it.each([undefined, null, good, { kind: 'tripleWishbone' }, 'corner', 3])(
    'is refused what no function of the library made: %j',
    (corner) => {
      errorOf(() => sweep(corner as never));
    },
  );

  it('throws for a travel outside, with the range and why it ends', () => {
    const swept = sweep(doubleWishbone(good), { bump: 70, droop: 60 });
    expect(errorOf(() => swept.at(71)).message).toBe(
      lines(
        'invalid travel',
        '  outside the sweep, got 71 mm (allowed: -60 mm (reached) to 70 mm (reached))',
      ),
    );
    expect(errorOf(() => swept.at(Number.NaN)).message).toContain('got NaN');
    const { end } = sweep(doubleWishbone(good), { droop: 400 });
    expect(errorOf(() => sweep(doubleWishbone(good), { droop: 400 }).at(-300)).message).toContain(
      `${end.droop.travel} mm (deadPoint)`,
    );
  });

  it('takes a travel beyond an end by rounding as that end', () => {
    const swept = sweep(doubleWishbone(good), { bump: 70, droop: 400 });
    const { droop, bump } = swept.end;
    for (const end of [bump.travel, droop.travel]) {
      for (const beyond of [1, 4, 8]) {
        expect(swept.at(end * (1 + beyond * Number.EPSILON))).toEqual(swept.at(end));
      }
      errorOf(() => swept.at(end * (1 + 1e-12)));
    }
    for (const none of [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) errorOf(() => swept.at(none));
  });

  it.each(['3', null])('throws for a travel that is no number: %j', (travel) => {
    const swept = sweep(doubleWishbone(good));
    errorOf(() => swept.at(travel as never));
  });
});
