import { tyreFromSize } from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';

describe('a tyre from its size marking', () => {
  // The rule's exact diameters; side walls of 205/55R16 (112.75 mm) and 225/45R17 (101.25 mm) were seen on sellers'
  // pages, and the whole numbers are those of UN Regulation No. 30, 6.1.2 with its table of rims (from memory).
  it.each([
    ['205/55R16', 631.9, 632, 205],
    ['225/45R17', 634.3, 634, 225],
    ['195/65R15', 634.5, 635, 195],
    ['245/40R18', 653.2, 653, 245],
  ])(
    '%s has the overall diameter of the rule, within half a mm of the rounded table',
    (size, exact, table, width) => {
      const tyre = tyreFromSize(size);
      expectWithin(2 * tyre.overallRadius, exact, 1e-12);
      expectWithin(2 * tyre.overallRadius, table, 0.5 + 1e-12);
      expectSame(tyre.width, width);
    },
  );

  it('has the side walls that were seen: 112.75 and 101.25 mm', () => {
    expectWithin(tyreFromSize('205/55R16').overallRadius - 8 * 25.4, 112.75, 1e-12);
    expectWithin(tyreFromSize('225/45R17').overallRadius - 8.5 * 25.4, 101.25, 1e-12);
  });

  it('may carry what else stands on a side wall', () => {
    for (const size of ['205/55 R16 91V', 'P205/55ZR16', ' 205 / 55 r16']) {
      expect(tyreFromSize(size)).toEqual(tyreFromSize('205/55R16'));
    }
  });

  it.each(['205-55-16', '', 'R16', '26x8.5', 16, null])('is refused as %s', (size) => {
    expect(() => tyreFromSize(size as string)).toThrow(`not a size marking, got ${JSON.stringify(size)}`);
  });
});
