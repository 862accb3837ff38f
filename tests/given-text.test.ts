/** Values of a document written with all the digits they have there. */
import * as fc from 'fast-check';
import { orderSheet, readCar, sheetMarkdown, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { onPaper } from '../src/report/order-sheet/on-paper.ts';
import { givenText, toMetric } from '../src/units.ts';
import { exampleText } from './document/support.ts';

describe('a given value', () => {
  it('keeps its digits: a pitch of 1/16 in is 0.0625, not 0.06', () => {
    expect(givenText(toMetric(0.0625, 'length', 'imperial'), 'length', 'imperial')).toBe('0.0625 in');
  });

  it('is converted to as many digits as figures have, a small length to one more', () => {
    const [inches, mm] = (['imperial', 'metric'] as const).map((units) => onPaper(units));
    expect(inches.given(1.5875, 'length')).toBe('0.0625 in (1.59 mm)');
    expect(inches.given(31.75, 'length')).toBe('1.25 in (31.8 mm)');
    expect(mm.given(12, 'length')).toBe('12 mm (0.472 in)');
    expect(mm.given(350, 'length')).toBe('350 mm (13.78 in)');
    expect(mm.given(35, 'rate')).toBe('35 N/mm (200 lbf/in)');
    expect(inches.given(1.6, 'frequency')).toBe('1.6 Hz');
  });

  it('of ten digits comes back as it was written, from any units', () => {
    const quantities = fc.constantFrom('length', 'mass', 'force', 'rate', 'pressure', 'speed');
    fc.assert(
      fc.property(
        quantities,
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.nat(6),
        (quantity, digits, shift) => {
          const written = digits / 10 ** shift;
          const text = givenText(toMetric(written, quantity, 'imperial'), quantity, 'imperial');
          expect(Number(text.split(' ')[0])).toBe(written);
        },
      ),
    );
  });

  it('stands so on the order', () => {
    const sheet = sheetMarkdown(orderSheet(sizeCoilovers(readCar(exampleText('car.json')))));
    expect(sheet).toContain('0.0625 in | 1.59 mm');
    expect(sheet).toContain('3.625 in | 92.1 mm');
  });
});
