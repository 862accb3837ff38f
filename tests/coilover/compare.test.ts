/** Two sizings compared figure by figure. */
import * as fc from 'fast-check';
import {
  type CarDocument,
  compareSizings,
  comparisonSheet,
  readCar,
  type Sizing,
  sheetHtml,
  sheetMarkdown,
  sizeCoilovers,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { specifiedIn } from '../../src/coilover/compare.ts';
import { exampleText, type Json } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { carDocuments, sized, valueIn } from './cars.ts';

const sizedOf = (document: Json | CarDocument): Sizing => sizeCoilovers(readCar(document));

/** The example with 200 lb more. */
const heavier = () => {
  const document = JSON.parse(exampleText('car.json'));
  document.masses.estimate.total.value += 200;
  return sizedOf(document);
};
const example = () => sizedOf(JSON.parse(exampleText('car.json')));

describe('a comparison', () => {
  it('of a sizing with itself, or with the same car read again, is empty', () => {
    fc.assert(
      fc.property(carDocuments, (document) => {
        const one = sizedOf(document);
        for (const other of [one, sizedOf(document)]) {
          expect(compareSizings(one, other)).toMatchObject({
            figures: [],
            choices: [],
            limits: [],
            conflicts: { gone: [], added: [] },
            checks: { gone: [], added: [] },
            consequence: 'nothing',
          });
        }
      }),
      { numRuns: 10 },
    );
  });

  it('is antisymmetric', () => {
    let changes = 0;
    fc.assert(
      fc.property(carDocuments, carDocuments, (one, two) => {
        const [a, b] = [sizedOf(one), sizedOf(two)];
        const [there, back] = [compareSizings(a, b), compareSizings(b, a)];
        const turned = (value: number | null) => (value === null ? null : 0 - value);
        expect(back.figures).toEqual(
          there.figures.map(({ before, after, change, againstInterval, ...rest }) => ({
            ...rest,
            before: after,
            after: before,
            change: turned(change),
            againstInterval: turned(againstInterval),
          })),
        );
        const exchanged = <T extends { before: unknown; after: unknown }>(list: readonly T[]) =>
          list.map((item) => ({ ...item, before: item.after, after: item.before }));
        expect(back.choices).toEqual(exchanged(there.choices));
        expect(back.limits).toEqual(exchanged(there.limits));
        expect(back.conflicts).toEqual({ gone: there.conflicts.added, added: there.conflicts.gone });
        expect(back.checks).toEqual({ gone: there.checks.added, added: there.checks.gone });
        expect(back.consequence).toBe(there.consequence);
        changes += there.figures.length;
      }),
      { numRuns: 10 },
    );
    expect(changes).toBeGreaterThan(50);
  });

  it('of a car and one with 200 lb more gives each change against its interval, the largest first', () => {
    const [before, after] = [example(), heavier()];
    const { figures } = compareSizings(before, after);
    const sprung = figures.find(({ name, whose }) => name === 'sprungMass' && whose === 'front');
    // 200 lb, 0.46 of them on two wheels; 0.45359237 kg in a pound (NIST SP 811, from memory).
    expectWithin((sprung?.change ?? 0) / ((200 * 0.45359237 * 0.46) / 2), 1, 1e-9);
    const { lower, upper } = after.axles[0].figure('sprungMass');
    expectWithin((sprung?.halfWidth ?? 0) / (((upper ?? 0) - (lower ?? 0)) / 2), 1, 1e-9);
    expectWithin(
      (sprung?.againstInterval ?? 0) / ((sprung?.change ?? 0) / (sprung?.halfWidth ?? 1)),
      1,
      1e-12,
    );
    const against = figures.flatMap(({ againstInterval }) =>
      againstInterval === null ? [] : [Math.abs(againstInterval)],
    );
    expect(against.length).toBeGreaterThan(20);
    expect(against).toEqual([...against].sort((a, b) => b - a));
    const firstUncertain = figures.findIndex(({ againstInterval }) => againstInterval !== null);
    for (const { change, againstInterval } of figures.slice(0, firstUncertain)) {
      expect([change === null, againstInterval]).toEqual([false, null]);
    }
  });

  it('lists every figure that differs, and no other', () => {
    const [before, after] = [example(), heavier()];
    const { figures } = compareSizings(before, after);
    const listed = new Set(figures.map(({ whose, name }) => `${whose}.${name}`));
    for (const [k, axle] of before.axles.entries()) {
      for (const { name, value } of axle.figures) {
        const other = after.axles[k].figure(name).value;
        const isSame = value === other || Math.abs((value ?? 0) - (other ?? 0)) < 1e-9;
        expect(listed.has(`${axle.axle}.${name}`), name).toBe(!isSame);
      }
    }
  });

  it('of another target leaves the order where the damper is given, and changes it where it follows', () => {
    const change = (free: boolean) => (frequency: number) =>
      sized((document) => {
        for (const axle of ['front', 'rear']) {
          document.corners[axle].sizing.target = { frequency };
          if (free) delete document.corners[axle].limits.damper;
        }
      });
    const derived = compareSizings(change(true)(1.3), change(true)(2));
    expect(derived.consequence).toBe('order');
    expect(derived.choices.map(({ what }) => what)).toContain('spring.rate');
    expect(derived.choices.map(({ what }) => what)).toContain('damper.extendedLength');
    expect(compareSizings(change(false)(1.5), change(false)(1.6)).choices.map(({ group }) => group)).toEqual(
      expect.not.arrayContaining(['order']),
    );
  });

  it('of another lean of the shock, or another tyre, names the limit that has changed', () => {
    const before = example();
    const document = JSON.parse(exampleText('car.json'));
    document.corners.front.coilover.chassisMount[0] -= 1.5;
    const leant = compareSizings(before, sizedOf(document));
    expect(leant.figures.some(({ name, group }) => name === 'designLength' && group === 'order')).toBe(true);
    const tyre = JSON.parse(exampleText('car.json'));
    tyre.corners.front.limits.tyre = { overallRadius: 13.9, width: 9 };
    tyre.corners.front.sizing.tyreRate = 1400;
    const shod = compareSizings(before, sizedOf(tyre));
    expect(shod.limits[0]).toMatchObject({ axle: 'front', side: 'bump' });
    expect(shod.limits[0].after?.cause).toBe('tyreContact');
    expect(shod.conflicts.added.length).toBeGreaterThan(0);
    expect(shod.figures.some(({ name }) => name === 'rideRate')).toBe(true);
    expect(shod.figures.some(({ name, whose }) => name === 'wheelRate' && whose === 'front')).toBe(false);
  });

  it('says that travel lost to a larger tyre changes no order, and that a conflict is new', () => {
    const tyre = JSON.parse(exampleText('car.json'));
    tyre.corners.front.limits.tyre = '225/60R15';
    const shod = compareSizings(example(), sizedOf(tyre));
    expect(shod.consequence).toBe('car');
    expect(shod.figures.find(({ name }) => name === 'bumpTravelMargin')?.change).toBeLessThan(-30);
    const text = sheetMarkdown(comparisonSheet(shod));
    expect(text).toContain('The order stays');
    expect(text).toContain('resolve them before you order');
  });

  it('lists what differs in the order with 200 lb more, in the units of the file', () => {
    const comparison = compareSizings(example(), heavier());
    expect(comparison.consequence).toBe('order');
    const [before, after] = [example(), heavier()].map((one) => one.axles[1].damper?.extendedLength ?? 0);
    expect(after).toBeGreaterThan(before);
    const inches = (mm: number) => (mm / 25.4).toFixed(2);
    expect(sheetMarkdown(comparisonSheet(comparison))).toContain(
      `Rear, damper: extended length: ${inches(before)} in before, ${inches(after)} in after.`,
    );
  });

  it('tells conflicts apart by code and path, not by the figures in their words', () => {
    const short = (bump: number) =>
      sized(({ corners: { front } }) => {
        front.limits.required = { bump };
      });
    const { conflicts } = compareSizings(short(190), short(200));
    expect(conflicts).toEqual({ gone: [], added: [] });
    expect(compareSizings(sized(), short(200)).conflicts.added.length).toBeGreaterThan(0);
  });

  it('of a car before and after it was weighed says what changes', () => {
    const weighed = sizedOf(JSON.parse(exampleText('car-weighed.json')));
    const { figures, choices } = compareSizings(example(), weighed);
    expect(
      figures.find(({ name, whose }) => name === 'sprungMass' && whose === 'rear')?.change,
    ).toBeGreaterThan(5);
    expect(choices.find(({ what, whose }) => what === 'spring.freeLength' && whose === 'rear')).toMatchObject(
      {
        before: null,
        group: 'adjustable',
      },
    );
  });

  it('survives JSON, and is a sheet that all writers take', () => {
    const comparison = compareSizings(example(), heavier());
    expect(JSON.parse(JSON.stringify(comparison))).toEqual(comparison);
    const sheet = comparisonSheet(comparison);
    const text = sheetMarkdown(sheet);
    expect(text).toContain('# Two sizings compared: One-off light roadster');
    expect(text).toContain('The order changes');
    expect(text).not.toMatch(/undefined|null|NaN|Infinity/);
    expect(sheetHtml(sheet)).toContain('<h1>');
    const mass = valueIn(heavier().axles[0], 'sprungMass') / 0.45359237;
    expect(text).toContain(`${mass.toFixed(1)} lb`);
    expect(sheetMarkdown(comparisonSheet(compareSizings(example(), example())))).toContain(
      'Nothing has changed.',
    );
  });
});

/** A sizing with some values of figures replaced, by owner and name. */
function withFigures(sizing: Sizing, change: (name: string, value: number | null) => number | null): Sizing {
  return {
    ...sizing,
    axles: sizing.axles.map((axle) => ({
      ...axle,
      figures: axle.figures.map((figure) => ({ ...figure, value: change(figure.name, figure.value) })),
    })),
  };
}

/** A sizing with something else replaced on its front axle. */
const withFront = (sizing: Sizing, change: Partial<Sizing['axles'][number]>): Sizing => ({
  ...sizing,
  axles: sizing.axles.map((axle) => (axle.axle === 'front' ? { ...axle, ...change } : axle)),
});

describe('one change alone', () => {
  const one = sized(({ corners: { front } }) => {
    front.sizing.springs = [{ name: 'A', rate: 40, freeLength: 220, minLength: 60 }];
    front.sizing.perch = { min: 150, max: 300 };
  });

  it('of a figure that a maker makes is one of the order, of one that is set or exchanged is adjustable, of any other is the car', () => {
    const consequences: Record<string, string> = {
      designLength: 'order',
      extendedLength: 'order',
      compressedLength: 'order',
      gasForce: 'order',
      springRate: 'adjustable',
      freeLength: 'adjustable',
      perchSetting: 'adjustable',
      compressionDamping: 'adjustable',
      reboundDamping: 'adjustable',
    };
    const names = one.axles[0].figures.flatMap(({ name, value }) => (value === null ? [] : [name as string]));
    expect(names).toEqual(expect.arrayContaining(Object.keys(consequences)));
    for (const moved of names) {
      const other = withFigures(one, (name, value) => (name === moved && value !== null ? value + 1 : value));
      const { consequence, figures } = compareSizings(one, other);
      expect(consequence, moved).toBe(consequences[moved] ?? 'car');
      for (const { name, change } of figures) {
        expect(name).toBe(moved);
        expectWithin(change, 1, 1e-9);
      }
      expect(figures.map(({ whose }) => whose)[0]).toBe('front');
    }
  });

  it('of a length by which a damper is ordered outweighs one of the spring', () => {
    const both = withFigures(one, (name, value) =>
      name === 'springRate' || name === 'compressedLength' ? (value ?? 0) + 1 : value,
    );
    const { spring } = one.axles[0];
    if (spring === null) expect.fail('no spring');
    // What is specified: the choice first, then the figures of both axles.
    const [first, ...rest] = specifiedIn(
      compareSizings(one, withFront(both, { spring: { ...spring, name: 'B' } })),
    ).map((change) => ('what' in change ? change.what : change.name));
    expect(first).toBe('spring.name');
    expect(rest.sort()).toEqual(['compressedLength', 'compressedLength', 'springRate', 'springRate']);
    expect(compareSizings(one, both).consequence).toBe('order');
    expect(compareSizings(both, one).consequence).toBe('order');
  });

  it('of what is chosen is named with its kind, its quantity and both values', () => {
    const { spring, damper, perch } = one.axles[0];
    if (spring === null || damper === null || perch === null) expect.fail('not sized');
    const changes: [Partial<Sizing['axles'][number]>, string, string, string | null, unknown, unknown][] = [
      [{ spring: { ...spring, name: 'B' } }, 'spring.name', 'adjustable', null, 'A', 'B'],
      [{ spring: { ...spring, rate: 41 } }, 'spring.rate', 'adjustable', 'rate', 40, 41],
      [{ spring: { ...spring, freeLength: 221 } }, 'spring.freeLength', 'adjustable', 'length', 220, 221],
      [{ damper: { ...damper, extendedLength: 476 } }, 'damper.extendedLength', 'order', 'length', 475, 476],
      [
        { damper: { ...damper, compressedLength: 349 } },
        'damper.compressedLength',
        'order',
        'length',
        350,
        349,
      ],
      [{ damper: { ...damper, specified: false } }, 'damper.specified', 'order', null, true, false],
      [{ perch: { ...perch, reachesDesign: false } }, 'perch.reachesDesign', 'adjustable', null, true, false],
    ];
    for (const [change, what, group, quantity, before, after] of changes) {
      const { choices, consequence } = compareSizings(one, withFront(one, change));
      expect(choices).toEqual([{ whose: 'front', what, group, quantity, before, after }]);
      expect(consequence).toBe(group);
    }
    const none = compareSizings(one, withFront(one, { perch: null }));
    expect(none.choices.map(({ what, before, after }) => [what, before, after])).toEqual([
      ['perch.reachesDesign', true, null],
    ]);
  });

  it('of the design state, of what ends the travel, of a conflict or a check is of the car, in either direction', () => {
    const found = { code: 'boreUnusual', severity: 'check', path: 'corners.front', values: {} } as const;
    const { limits } = one.axles[0];
    const bump = limits.bump ?? expect.fail('nothing ends bump');
    for (const other of [
      { ...one, designState: 'two aboard' },
      withFront(one, { limits: { ...limits, bump: { ...bump, cause: 'tyreContact' } } }),
      { ...one, conflicts: [...one.conflicts, found] },
      { ...one, checks: [...one.checks, found] },
    ]) {
      expect(compareSizings(one, other).consequence).toBe('car');
      expect(compareSizings(other, one).consequence).toBe('car');
    }
    const state = compareSizings(one, { ...one, designState: 'two aboard' });
    expect(state.choices).toEqual([
      { whose: 'car', what: 'designState', group: 'car', quantity: null, before: null, after: 'two aboard' },
    ]);
    expect(specifiedIn(state)).toEqual([]);
    // The same cause at another travel is a figure, no other limit.
    const moved = withFront(one, { limits: { ...limits, bump: { ...bump, travel: bump.travel - 5 } } });
    expect(compareSizings(one, moved).limits).toEqual([]);
    const endless = compareSizings(one, withFront(one, { limits: { ...limits, bump: null } }));
    expect(endless.limits).toEqual([
      { axle: 'front', side: 'bump', before: { cause: bump.cause, travel: bump.travel }, after: null },
    ]);
  });

  it('of rounding is none: 1e-9 of a value, or of 1 where that is larger', () => {
    for (const [value, rounding] of [
      [400, 4e-7],
      [-400, 4e-7],
      [0.01, 1e-9],
      [0, 1e-9],
    ]) {
      const at = (off: number) => withFigures(one, (name, was) => (name === 'wheelRate' ? value + off : was));
      for (const sign of [1, -1]) {
        expect(compareSizings(at(0), at(0.9 * sign * rounding)).figures).toEqual([]);
        expect(compareSizings(at(0), at(1.1 * sign * rounding)).figures).toHaveLength(2);
      }
    }
    const spring = one.axles[0].spring ?? expect.fail('no spring');
    const rated = (rate: number) => withFront(one, { spring: { ...spring, rate } });
    for (const sign of [1, -1]) {
      expect(compareSizings(one, rated(40 + sign * 36e-9)).choices).toEqual([]);
      expect(compareSizings(one, rated(40 + sign * 44e-9)).choices).toHaveLength(1);
      expect(compareSizings(rated(0.5), rated(0.5 + sign * 0.9e-9)).choices).toEqual([]);
      expect(compareSizings(rated(0.5), rated(0.5 + sign * 1.1e-9)).choices).toHaveLength(1);
    }
  });
});

describe('what is uncertain', () => {
  const one = sized();
  type Ends = readonly [value: number, lower: number | null, upper: number | null];
  const ended = (name: string, [value, lower, upper]: Ends): Sizing =>
    withFront(one, {
      figures: one.axles[0].figures.map((figure) =>
        figure.name === name ? { ...figure, value, lower, upper } : figure,
      ),
    });
  const against = (before: Ends, after: Ends) => {
    const { figures } = compareSizings(ended('wheelRate', before), ended('wheelRate', after));
    const [{ halfWidth, againstInterval }] = figures;
    return [halfWidth, againstInterval];
  };

  it('is held against the larger of the two half-widths, or the one that is known', () => {
    expect(against([20, 19, 21], [23, 21, 25])).toEqual([2, 1.5]);
    expect(against([20, 16, 24], [23, 22, 24])).toEqual([4, 0.75]);
    expect(against([23, null, null], [20, 18, 22])).toEqual([2, -1.5]);
    expect(against([23, 21, 25], [20, null, null])).toEqual([2, -1.5]);
  });

  it('is held against nothing where no interval is known, or none is left', () => {
    expect(against([20, null, null], [23, null, null])).toEqual([null, null]);
    expect(against([20, 20, 20], [23, 23, 23])).toEqual([0, null]);
  });

  it('comes after what is certain, the largest first of either sign, and what has come or gone comes last', () => {
    const set = (values: Record<string, readonly [number | null, number | null]>) =>
      withFront(one, {
        figures: one.axles[0].figures.map((figure) => {
          const { [figure.name]: given } = values;
          if (given === undefined) return { ...figure, lower: null, upper: null };
          const [value, half] = given;
          const ends = value === null || half === null ? [null, null] : [value - half, value + half];
          return { ...figure, value, lower: ends[0], upper: ends[1] };
        }),
      });
    const before = set({
      rideRate: [10, 1],
      stroke: [null, null],
      wheelRate: [10, 1],
      sprungMass: [100, null],
    });
    const after = set({ rideRate: [12, 1], stroke: [125, 1], wheelRate: [7, 1], sprungMass: [101, null] });
    expect(compareSizings(before, after).figures.map(({ name }) => name)).toEqual([
      'sprungMass',
      'wheelRate',
      'rideRate',
      'stroke',
    ]);
  });

  it('where nothing is, leaves the figures in their order: front, rear, car', () => {
    const names = (sizing: Sizing) => [
      ...sizing.axles.flatMap(({ axle, figures }) => figures.map(({ name }) => `${axle}.${name}`)),
      ...sizing.figures.map(({ name }) => `car.${name}`),
    ];
    const shifted = withFigures(one, (_, value) => (value ?? 0) + 1);
    const other = { ...shifted, figures: one.figures.map((figure) => ({ ...figure, value: 1e6 })) };
    const listed = compareSizings(one, other).figures;
    const [gone, there] = [true, false].map((none) =>
      listed.filter(({ change }) => (change === null) === none).map(({ whose, name }) => `${whose}.${name}`),
    );
    expect(there.length).toBeGreaterThan(40);
    expect(there).toEqual(names(one).filter((name) => there.includes(name)));
    expect(gone).toEqual(names(one).filter((name) => gone.includes(name)));
  });
});

it('a car that has lost an axle has lost its figures and choices, and its first axle keeps its place', () => {
  const whole = sized(({ corners: { front } }) => {
    front.sizing.springs = [{ name: 'A', rate: 40, freeLength: 220, minLength: 60 }];
  });
  const rearAlone = { ...whole, axles: whole.axles.filter(({ axle }) => axle === 'rear') };
  const gone = compareSizings(whole, rearAlone);
  const come = compareSizings(rearAlone, whole);
  const front = whole.axles[0].figures.filter(({ value }) => value !== null);
  expect(
    gone.figures.map(({ whose, name, before, after, change }) => [whose, name, before, after, change]),
  ).toEqual(front.map(({ name, value }) => ['front', name, value, null, null]));
  expect(come.figures.map(({ whose, name, before, after }) => [whose, name, before, after])).toEqual(
    front.map(({ name, value }) => ['front', name, null, value]),
  );
  expect(gone.choices.filter(({ what }) => what === 'spring.name')).toEqual([
    { whose: 'front', what: 'spring.name', group: 'adjustable', quantity: null, before: 'A', after: null },
  ]);
  expect(gone.limits.map(({ axle, side, after }) => [axle, side, after])).toEqual([
    ['front', 'bump', null],
    ['front', 'droop', null],
  ]);
});

it('a comparison has the names of both cars, and the units of the second', () => {
  const named = (name: string | undefined, units: Sizing['units']): Sizing => {
    const { name: _, ...rest } = sized();
    return { ...rest, ...(name === undefined ? {} : { name }), units };
  };
  const { names, units } = compareSizings(named('old', 'metric'), named(undefined, 'imperial'));
  expect([names, units]).toEqual([{ before: 'old', after: null }, 'imperial']);
  expect(compareSizings(named(undefined, 'metric'), named('new', 'metric')).names).toEqual({
    before: null,
    after: 'new',
  });
});
