/** Where a builder has no target: ranges with their sources, and a table of rates for frequencies. Steps of rates in the file's units. */
import { DAMPING_RANGES, FREQUENCY_RANGES, readCar, reportSheet, sheetMarkdown, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { exampleText, type Json } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { front, sized, valueIn } from './cars.ts';

/** lbf/in in N/mm, by the international agreement of 1959 and the 3rd CGPM, 1901 (NIST SP 811, from memory). */
const POUND_FORCE_PER_INCH = 4.4482216152605 / 25.4;

describe('a corner without a target', () => {
  const axle = front((corner) => {
    delete corner.sizing.target;
  });

  it('has a table of rates for frequencies from 1 to 3 Hz, of its mass and geometry, none of them fitted', () => {
    const { rateTable, spring } = axle;
    expect(spring).toBeNull();
    expect(rateTable.length).toBeGreaterThan(5);
    const mass = valueIn(axle, 'sprungMass');
    for (const { springRate, wheelRate, frequency, fitted } of rateTable) {
      expectWithin(springRate / 5, Math.round(springRate / 5), 1e-9);
      expectWithin(frequency ?? Number.NaN, Math.sqrt((wheelRate * 1000) / mass) / (2 * Math.PI), 1e-9);
      expect(fitted).toBe(false);
    }
    const frequencies = rateTable.map(({ frequency }) => frequency ?? Number.NaN);
    // Half a step of 5 N/mm is a twentieth of a Hz or so at the soft end.
    expectWithin(frequencies[0], 1, 0.1);
    expectWithin(frequencies.at(-1) ?? Number.NaN, 3, 0.1);
  });

  it('gets the ranges with their sources on its sheet; one with a target does not', () => {
    const sheet = (change: (document: Json) => void) => sheetMarkdown(reportSheet(sized(change)));
    const without = sheet(({ corners }) => {
      for (const { sizing } of [corners.front, corners.rear]) {
        delete sizing.target;
        delete sizing.damping;
      }
    });
    for (const { use, source } of [...FREQUENCY_RANGES, ...DAMPING_RANGES]) {
      expect(without).toContain(use);
      expect(without).toContain(source);
      expect(source).toMatch(/from memory|no source/);
    }
    expect(without).toContain('Olley');
    expect(sheet(() => {})).not.toContain(FREQUENCY_RANGES[0].use);
  });
});

describe('steps of rates', () => {
  const rates = (units: 'metric' | 'imperial') => {
    const document = JSON.parse(exampleText('car.json'));
    const { sizing } = document.corners.rear;
    delete sizing.rateStep;
    const car = units === 'imperial' ? document : { ...document, units };
    return sizeCoilovers(readCar(car)).axles[1];
  };

  it('in a file of inches and pounds are 25 lbf/in, not 5 N/mm', () => {
    const { spring, adjacentRates, rateTable } = rates('imperial');
    for (const rate of [
      spring?.rate ?? Number.NaN,
      adjacentRates?.below ?? Number.NaN,
      adjacentRates?.above ?? Number.NaN,
      ...rateTable.map(({ springRate }) => springRate),
    ]) {
      const steps = rate / (25 * POUND_FORCE_PER_INCH);
      expectWithin(steps, Math.round(steps), 1e-12);
    }
    expect(rateTable.filter(({ fitted }) => fitted)).toHaveLength(1);
    expect(new Set(rateTable.map(({ springRate }) => springRate.toFixed(6))).size).toBe(rateTable.length);
  });

  it('in a metric file are 5 N/mm', () => {
    const { spring, adjacentRates } = front();
    expect((spring?.rate ?? Number.NaN) % 5).toBe(0);
    expect((adjacentRates?.above ?? 0) - (adjacentRates?.below ?? 0)).toBe(5);
  });
});
