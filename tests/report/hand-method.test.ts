import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  approximationLabel,
  drawSweep,
  type HandMethod,
  handMethod,
  limits,
  plotHandMethod,
  readCar,
  sweep,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { faults, readPaper } from './paper.ts';

const { front, rear } = readCar(
  readFileSync(join(import.meta.dirname, '../fixtures/roadster.json'), 'utf8'),
).corners;
const method = handMethod(front.corner, { sprungMass: 150, frequency: 1.5 }) as HandMethod;

it('labels an approximation, and refuses a name of none', () => {
  expect(approximationLabel('onePose')).toBe('one pose taken for all');
  expect(() => approximationLabel('x' as 'onePose')).toThrow(
    /approximation: unknown choice, got "x" \(allowed: cosineOnce, .*noGeometricPart\)/,
  );
});

describe('the picture of the hand figure', () => {
  it('has its curves, its faults and their shares, nothing cut off or on top of other words', () => {
    const svg = plotHandMethod(method);
    expect(faults(readPaper(svg))).toEqual([]);
    for (const words of [
      'wheel-rate factor',
      'by hand',
      'too soft',
      'One pose taken for all',
      'All together',
    ]) {
      expect(svg).toContain(words);
    }
    expect(svg).toContain(`${(100 * method.ride.error).toFixed(1).replace('-', '\u2212')} %`);
  });

  it('shows limits, and stands as a panel of its own below a corner', () => {
    const found = limits(front.corner, front.limits);
    expect(faults(readPaper(plotHandMethod(method, { limits: found })))).toEqual([]);
    const curves = sweep(front.corner, { bump: 90, droop: 75 });
    const svg = drawSweep(front.corner, curves, { limits: found, hand: method });
    expect(faults(readPaper(svg))).toEqual([]);
    expect(svg).toContain('by hand');
  });

  it('is left out where there is no hand figure', () => {
    const none = handMethod((rear ?? front).corner);
    expect(none.defined).toBe(false);
    expect(drawSweep((rear ?? front).corner, sweep((rear ?? front).corner), { hand: none })).not.toContain(
      'by hand',
    );
  });
});
