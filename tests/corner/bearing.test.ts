import { bearingMisalignment, InputError, type SphericalBearing } from 'jounce';
import { describe, expect, it } from 'vitest';
import { refusedFor } from '../support/refused.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';

describe('tilt of a spherical bearing', () => {
  // Rod ends of series K: widths and balls as two makers' catalogues give them, which state conformity with ISO 12240-4
  // (seen; the standard itself was not read). Balls are whole fractions of an inch. The makers round the tilt down.
  it.each([
    [5, 8, 6, 11.112, 13, 13.37],
    [6, 9, 6.75, 12.7, 13, 13.02],
    [8, 12, 9, 15.875, 14, 14.57],
    [10, 14, 10.5, 19.05, 13, 13.85],
    [12, 16, 12, 22.225, 13, 13.37],
    [14, 19, 13.5, 25.4, 16, 16.31],
    [16, 21, 15, 28.575, 15, 15.64],
  ])(
    'is that of the table for a rod end of bore %d',
    (_bore, ballWidth, housingWidth, ballDiameter, table, exact) => {
      const tilt = bearingMisalignment({ ballDiameter, ballWidth, housingWidth });
      expectWithin(tilt, exact, 0.005 + 1e-9);
      expectSame(Math.floor(tilt), table);
    },
  );

  // Bearings of series E after ISO 12240-1, from the same catalogues (seen).
  it.each([
    [8, 8, 5, 13, 15, 15.36],
    [10, 9, 6, 16, 12, 12.2],
    [12, 10, 7, 18, 10, 10.86],
    [15, 12, 9, 22, 8, 8.91],
    [17, 14, 10, 25, 10, 10.48],
    [20, 16, 12, 29, 9, 9.04],
  ])(
    'is that of the table for a bearing of bore %d',
    (_bore, ballWidth, housingWidth, ballDiameter, table, exact) => {
      const tilt = bearingMisalignment({ ballDiameter, ballWidth, housingWidth });
      expectWithin(tilt, exact, 0.005 + 1e-9);
      expectSame(Math.floor(tilt), table);
    },
  );

  it('needs a ball wider than its housing, and less wide than thick: all faults at once', () => {
    expect(() => bearingMisalignment({ ballDiameter: 20, ballWidth: 9, housingWidth: 12 })).toThrow(
      InputError,
    );
    expect(() => bearingMisalignment({ ballDiameter: 0, ballWidth: 9, housingWidth: -1 })).toThrow(
      [
        'invalid spherical bearing',
        '  ballDiameter: out of range, got 0 (allowed: mm, more than 0)',
        '  ballWidth: out of range, got 9 (allowed: mm, between 0 and the diameter of the ball)',
        '  housingWidth: out of range, got -1 (allowed: mm, between 0 and the width of the ball)',
      ].join('\n'),
    );
    // As wide as the ball, or as the housing, it does not tilt; a text is no size.
    for (const [ballDiameter, ballWidth, housingWidth, path] of [
      [12, 12, 9, 'ballWidth'],
      [20, 12, 12, 'housingWidth'],
      ['20', 12, 9, 'ballDiameter'],
      [20, '12', 9, 'ballWidth'],
    ] as const) {
      const sizes = { ballDiameter, ballWidth, housingWidth } as SphericalBearing;
      expect(refusedFor(() => bearingMisalignment(sizes))).toEqual([`bearingSizeOutOfRange ${path}`]);
    }
  });
});
