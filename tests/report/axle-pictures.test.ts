/** Pictures of axles: what they say, and, of random corners, nothing off the paper, no words on others or under a heavy line. */
import * as fc from 'fast-check';
import {
  axle,
  axleLimits,
  doubleWishbone,
  drawAxle,
  InputError,
  limits,
  plotAxleLimits,
  show,
  sweepAxle,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { BAR, CORNER } from '../axle/roadster.ts';
import { rocker, strutKind, wishbone } from '../corner/kinds.ts';
import { faults, isHeavy, isNoGrid, readPaper, struck } from './paper.ts';

const textsOf = (svg: string) => readPaper(svg).words.map(({ text }) => text);
const found = limits(CORNER, {
  damper: { extendedLength: 376, compressedLength: 312 },
  bumpStop: { height: 30, solidHeight: 10 },
});

describe('drawAxle', () => {
  it('says of each wheel what the sweep has', () => {
    const whole = axle({ left: CORNER, bar: BAR });
    const [row] = sweepAxle(whole, { heave: [12], roll: [-1.5] }).rows();
    const texts = textsOf(drawAxle(whole, { heave: 12, roll: -1.5 }));
    for (const side of ['left', 'right'] as const) {
      const travel = row[`${side}Travel`];
      expect(texts).toContain(`${travel < 0 ? '\u2212' : '+'}${Math.abs(travel).toFixed(1)} mm`);
      expect(texts).toContain(`${row[`${side}ShockLength`].toFixed(1)} mm`);
      expect(texts).toContain(`${row[`${side}Camber`].toFixed(2)} deg`.replace('-', '\u2212'));
    }
  });

  it('refuses a pose that a wheel does not get to', () => {
    expect(() => drawAxle(axle({ left: CORNER }), { heave: 900 })).toThrow(InputError);
  });

  it('has words that nothing covers, of random corners of every kind', () => {
    const corners = fc.oneof(
      wishbone.inputs.map(wishbone.corner),
      rocker.inputs.map(rocker.corner),
      strutKind.inputs.map(strutKind.corner),
    );
    fc.assert(
      fc.property(
        corners,
        fc.integer({ min: -4, max: 4 }),
        fc.constantFrom('metric', 'imperial'),
        (left, roll, units) => {
          const whole = axle({ left });
          fc.pre(sweepAxle(whole, { heave: [15], roll: [roll] }).outOfReach.length === 0);
          const paper = readPaper(drawAxle(whole, { heave: 15, roll, units }));
          expect([...faults(paper), ...struck(paper, isHeavy)]).toEqual([]);
          const map = readPaper(plotAxleLimits(whole, { left: limits(left) }, { units }));
          expect(faults(map)).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('plotAxleLimits', () => {
  it('names the limits of both wheels, their bump stops and the path', () => {
    const whole = axle({ left: CORNER, bar: BAR });
    const { leftUp } = axleLimits(whole, { left: found });
    expect(leftUp!.roll).toBeGreaterThan(3);
    const svg = plotAxleLimits(
      whole,
      { left: found },
      {
        path: {
          name: 'a left turn',
          poses: [
            { heave: 0, roll: 0 },
            { heave: 5, roll: 2 },
          ],
        },
      },
    );
    const paper = readPaper(svg);
    expect([...faults(paper), ...struck(paper, isNoGrid)]).toEqual([]);
    for (const side of ['left', 'right']) {
      expect(textsOf(svg)).toEqual(
        expect.arrayContaining([
          `${side} wheel in bump: bump stop solid`,
          `${side} wheel in droop: damper fully extended`,
          `${side} wheel: bump stop contact`,
        ]),
      );
    }
    expect(textsOf(svg)).toContain('a left turn');
  });

  it('shows an axle whose wheels differ', () => {
    const right = doubleWishbone({
      lowerArm: { inner: [231, 148], outer: [628, 139] },
      upperArm: { inner: [287, 342], outer: [591, 361] },
      wheel: { centre: [694, 301], camber: -1 },
      coilover: { on: 'upperArm', mount: [510, 355], chassisMount: [400, 620] },
    });
    const svg = plotAxleLimits(axle({ left: CORNER, right }), { left: found, right: limits(right) });
    expect(faults(readPaper(svg))).toEqual([]);
  });
});

describe('show', () => {
  it('displays an axle in its pose, and the text of a picture', () => {
    const whole = axle({ left: CORNER, bar: BAR });
    const html = String(show(whole, { roll: 2, heave: 5 }).bundle['text/html']);
    expect(html).toContain('Axle at +5 mm of heave and 2.00 deg of roll');
    const map = plotAxleLimits(whole, { left: found });
    expect(map).toContain(String(show(map).bundle['text/html']));
    expect(() => show('text')).toThrow(InputError);
  });
});
