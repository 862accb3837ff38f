/** What stands against an order: conflicts of the axle or of the car, and that something is to be agreed. */
import { describe, expect, it } from 'vitest';
import { conflictsOn } from '../../src/coilover/sizing/order-status.ts';
import { sized } from './cars.ts';

describe('the status of an order', () => {
  it('is an enquiry while something is to be agreed, and not for order with a conflict, but for one of comfort', () => {
    expect(sized().status).toBe('enquiry');
    const withSpring = (rate: number, innerDiameter: number) =>
      sized(({ corners }) => {
        corners.front.sizing.springs = [{ name: 'S', rate, freeLength: 260, solidLength: 60, innerDiameter }];
        corners.front.sizing.order = { bodyDiameter: 50 };
      });
    const stiff = withSpring(60, 60);
    expect(stiff.conflicts.map(({ code }) => code)).toEqual(['springFarFromTarget']);
    expect(stiff.status).toBe('enquiry');
    const narrow = withSpring(40, 50);
    expect(narrow.conflicts.map(({ code }) => code)).toEqual(['springInnerDiameterSmall']);
    expect(narrow.status).toBe('notForOrder');
  });

  it('counts the conflicts of an axle and of the car as those of the axle, not those of the other', () => {
    const conflicts = ['corners.front.limits', 'corners.rear.limits', 'masses'].map((path) => ({ path }));
    expect(conflictsOn('front', conflicts).map(({ path }) => path)).toEqual([
      'corners.front.limits',
      'masses',
    ]);
    expect(conflictsOn('rear', conflicts).map(({ path }) => path)).toEqual(['corners.rear.limits', 'masses']);
  });
});
