/** The minimum permissible length of a spring: given, from its wire, estimated, or assumed. */
import * as fc from 'fast-check';
import { coilSpring, readCar, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { springLengths, wireOf } from '../../src/coilover/springs/min-length.ts';
import { exampleText, type Json } from '../document/support.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { sized, valueIn } from './cars.ts';

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('the minimum length', () => {
  // EN 13906-1:2013 (from memory: only its title pages could be reached): d 5, D 40, n 5, ends closed and ground: S_a = 4.9, L_c = 35, L_n = 39.9; R = G d^4 / 8 D^3 n.
  it('is estimated as EN 13906-1 has it, from rate, solid length and inner diameter', () => {
    const rate = (81_500 * 5 ** 4) / (8 * 40 ** 3 * 5);
    const { minLength, minLengthSource, solidLength } = springLengths({
      rate,
      solidLength: 35,
      innerDiameter: 35,
    });
    expect([minLengthSource, solidLength]).toEqual(['estimated', 35]);
    expectWithin(minLength ?? Number.NaN, 39.9, 1e-9);
  });

  it('is estimated from what a spring by its wire comes to, to the same wire', () => {
    fc.assert(
      fc.property(double(2, 20), double(4.1, 19.9), double(2.1, 20), (diameter, index, active) => {
        const made = coilSpring({
          diameter,
          meanDiameter: index * diameter,
          totalCoils: active + 2,
          ends: 'closedGround',
        });
        const found = wireOf(made.rate, made.solidLength, made.innerDiameter);
        expectClose(found?.diameter ?? Number.NaN, diameter, { times: 1000, scale: made.solidLength });
        const { minLength } = springLengths({
          rate: made.rate,
          solidLength: made.solidLength,
          innerDiameter: made.innerDiameter,
        });
        expectClose(minLength ?? Number.NaN, made.minLength, { times: 10_000, scale: made.minLength });
      }),
    );
  });

  it('is not estimated where no ordinary spring has such sizes', () => {
    // A wire as thick as half the solid length, a hair in a wide coil.
    expect(wireOf(1e6, 80, 60)).toBeNull();
    expect(wireOf(1e-3, 80, 60)).toBeNull();
    expect(springLengths({ rate: 1e-3, solidLength: 80, innerDiameter: 60 }).minLengthSource).toBe('assumed');
  });

  it('is the given one, then that of the wire, then 15 % above the solid length', () => {
    const wire = { diameter: 5, meanDiameter: 40, totalCoils: 7, ends: 'closedGround' } as const;
    const of = (size: object) => {
      const { minLength, minLengthSource } = springLengths({ rate: 30, solidLength: 36, ...size });
      return [minLengthSource, Number(minLength?.toFixed(6))];
    };
    expect(of({ minLength: 50, wire })).toEqual(['given', 50]);
    expect(of({ wire })).toEqual(['wire', 39.9]);
    expect(of({})).toEqual(['assumed', 41.4]);
  });

  it('below the solid length is refused by name', () => {
    const { conflicts } = sized((document) => {
      document.corners.front.sizing.springs = [
        { name: 'S', rate: 40, freeLength: 240, solidLength: 90, minLength: 80 },
      ];
    });
    expect(conflicts.map(({ path }) => path)).toEqual(['corners.front.sizing.springs[0].minLength']);
  });
});

describe('a spring that goes past its minimum length, but not solid', () => {
  /** The example's car with springs of which only the solid length is listed. */
  const document: Json = JSON.parse(exampleText('car.json'));
  document.corners.front.sizing.springs = [
    { name: 'B', rate: 200, freeLength: 8, solidLength: 3.25, innerDiameter: 2.5 },
  ];
  const { axles, conflicts } = sizeCoilovers(readCar(document));

  it('is a conflict that names both lengths apart', () => {
    const [front] = axles;
    expect(front.spring?.minLengthSource).toBe('estimated');
    expectWithin(front.spring?.solidLength ?? null, 3.25 * 25.4, 1e-9);
    const margin = valueIn(front, 'springTravelMargin');
    expect(margin).toBeLessThan(0);
    const short = conflicts.find(({ code }) => code === 'springTravelShort');
    expect([short?.severity, short?.path]).toEqual(['conflict', 'corners.front.sizing.springs']);
    expectWithin(short?.values?.margin as number, margin, 1e-12);
    // Solid it is not: the solid length leaves travel.
    const { freeLength, solidLength } = front.spring ?? {};
    expect((freeLength ?? 0) - (solidLength ?? 0)).toBeGreaterThan(valueIn(front, 'springTravelRequired'));
  });
});
