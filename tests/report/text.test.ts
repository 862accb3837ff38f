import { describeSweepEnd } from 'jounce';
import { describe, expect, it } from 'vitest';
import { figure, fittingSize, fold, printed, signedTravel, textWidth } from '../../src/report/text.ts';
import { roundStep, ticks } from '../../src/report/ticks.ts';
import { spaced } from '../../src/words.ts';
import { expectWithin } from '../support/tolerance.ts';

// Advance widths in thousandths of the font size, from the font's own table (DejaVu Sans 2.37, hmtx).
const DEJAVU: [width: number, characters: string][] = [
  [275, "'"],
  [278, 'ijl'],
  [295, 'IJ'],
  [318, ' ,.'],
  [337, '/:;\\|'],
  [352, 'f'],
  [361, '-'],
  [390, '()[]'],
  [392, 't'],
  [401, '!'],
  [411, 'r'],
  [460, '"'],
  [500, '*_`\u2013\u00b0'],
  [521, 's'],
  [525, 'z'],
  [531, '?'],
  [550, 'c'],
  [557, 'L'],
  [575, 'F'],
  [579, 'k'],
  [592, 'vxy'],
  [603, 'P'],
  [611, 'TY'],
  [612, 'o'],
  [613, 'a'],
  [615, 'e'],
  [632, 'E'],
  [634, 'hnu'],
  [636, 'Sbdgpq$0123456789{}'],
  [656, 'K'],
  [685, 'AVXZ'],
  [686, 'B'],
  [695, 'R'],
  [698, 'C'],
  [732, 'U'],
  [752, 'NH'],
  [775, 'DG'],
  [787, '&OQ'],
  [838, 'w#+<=>^~\u2212'],
  [863, 'M'],
  [974, '%m'],
  [1000, 'W@'],
];

describe('textWidth', () => {
  it('is never less than in DejaVu Sans, and not much more', () => {
    for (const [width, characters] of DEJAVU) {
      for (const character of characters) {
        expectWithin(textWidth(character, 1000), width + 80, 80);
      }
    }
  });

  it('makes a long text as small as it takes', () => {
    const text = 'a heading '.repeat(30);
    const size = fittingSize(text, 19, 400);
    expect(textWidth(text, size)).toBeCloseTo(400, 9);
    expect(fittingSize('short', 19, 400)).toBe(19);
  });
});

describe('figures', () => {
  it('are rounded as their unit deserves, without a minus before zero', () => {
    expect([figure(-0.04, 'mm'), figure(12.345, 'deg'), figure(0.61849, ''), figure(-1e-9, '1/mm')]).toEqual([
      '0.0',
      '12.35',
      '0.618',
      '0.00000',
    ]);
    expect(figure(null, 'mm')).toBe('-');
    expect([70, -12.34, -0.01, 0.05, 0].map((t) => signedTravel(t))).toEqual([
      '+70',
      '-12.3',
      '0',
      '+0.1',
      '0',
    ]);
  });

  it('have a true minus sign in print, and words keep their hyphens', () => {
    expect([printed('-0.8'), printed('-'), printed('half-track')]).toEqual([
      '\u22120.8',
      '\u2013',
      'half-track',
    ]);
  });

  it('come with names in words', () => {
    expect(['lowerOuter', 'camber', 'shockChassisMount'].map(spaced)).toEqual([
      'lower outer',
      'camber',
      'shock chassis mount',
    ]);
    expect(fold('one two three', 7)).toEqual(['one two', 'three']);
    expect(fold('incomparable x', 5)).toEqual(['incomparable', 'x']);
  });
});

describe('describeSweepEnd', () => {
  it('says how a sweep ended, and where', () => {
    expect(describeSweepEnd({ travel: 70, status: 'reached' })).toBe('reached +70 mm, as requested');
    expect(describeSweepEnd({ travel: -63.42, status: 'deadPoint' })).toMatch(/^dead point at -63\.4 mm: /);
    expect(describeSweepEnd({ travel: 5, status: 'locked', constraint: 'upright' })).toBe(
      'locked at +5 mm: upright cannot be kept any farther',
    );
    expect(describeSweepEnd({ travel: 5, status: 'bifurcation' })).toMatch(/^bifurcation at/);
    expect(describeSweepEnd({ travel: 5, status: 'closed' })).toMatch(/^closed at/);
    expect(describeSweepEnd({ travel: 5, status: 'unbounded' })).toMatch(/^unbounded at/);
    expect(describeSweepEnd({ travel: 5, status: 'stepLimit' })).toMatch(/^step limit at/);
  });
});

describe('ticks', () => {
  it('stand at multiples of 1, 2 or 5 times a power of ten', () => {
    expect([0.03, 0.1, 0.7, 1, 3, 11, 60].map(roundStep)).toEqual([0.05, 0.1, 1, 1, 5, 20, 100]);
    expect(ticks(-70, 70, 12).at).toEqual([-60, -40, -20, 0, 20, 40, 60]);
    expect(ticks(0.601, 0.644, 7)).toEqual({ at: [0.61, 0.62, 0.63, 0.64], step: 0.01, decimals: 2 });
  });

  it('are written without rest at any scale', () => {
    for (let exponent = -9; exponent <= 9; exponent++) {
      const [low, high] = [-1.3 * 10 ** exponent, 2.9 * 10 ** exponent];
      const { at, decimals } = ticks(low, high, 6);
      expect(at.length).toBeGreaterThanOrEqual(3);
      expect(at.length).toBeLessThanOrEqual(7);
      expect(at.every((value) => value >= low && value <= high)).toBe(true);
      expect(at.every((value) => Number(value.toFixed(decimals)) === value)).toBe(true);
      expect(new Set(at.map((value) => value.toFixed(decimals))).size).toBe(at.length);
    }
  });
});
