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
