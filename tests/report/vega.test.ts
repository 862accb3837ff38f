/** Specifications are compiled and drawn by Vega itself. */
import { doubleWishbone, InputError, limits, sweep, vegaCurves } from 'jounce';
import { describe, expect, it } from 'vitest';
import { drawnByVega as drawn } from './drawn-by-vega.ts';

const front = doubleWishbone({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});

describe('curves as Vega-Lite', () => {
  it('are drawn with their titles and units', async () => {
    const svg = await drawn(vegaCurves(sweep(front)));
    for (const words of ['travel, bump + [mm]', 'installation ratio', 'shock length [mm]'])
      expect(svg).toContain(words);
  });

  it('shade what lies beyond the limits, and draw columns with gaps', async () => {
    const found = limits(front, {
      damper: { extendedLength: 380, compressedLength: 310 },
      bumpStop: { height: 30, solidHeight: 10 },
    });
    const spec = vegaCurves(sweep(front), { panels: ['shockLength', 'instantCentreY'], limits: found });
    const svg = await drawn(structuredClone(spec));
    expect(svg).toContain('mark-rect');
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  });

  it('refuse columns that are not there', () => {
    // @ts-expect-error: no such column
    expect(() => vegaCurves(sweep(front), { panels: ['chamber'] })).toThrow(InputError);
  });
});
