/** Specifications are compiled and drawn by Vega itself. */
import { doubleWishbone, InputError, limits, sweep, vegaCurves } from 'jounce';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { describe, expect, it } from 'vitest';

const front = doubleWishbone({
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
});

async function drawn(spec: unknown): Promise<string> {
  const complaints: string[] = [];
  const note = (...told: unknown[]) => {
    complaints.push(told.join(' '));
    return logger;
  };
  const logger = {
    level: () => logger,
    error: note,
    warn: note,
    info: () => logger,
    debug: () => logger,
  };
  const { spec: compiled } = compile(spec as TopLevelSpec, { logger: logger as never });
  const svg = await new vega.View(vega.parse(compiled), { renderer: 'none' }).toSVG();
  expect(complaints).toEqual([]);
  return svg;
}

describe('curves as Vega-Lite', () => {
  it('are drawn with their titles and units', async () => {
    const svg = await drawn(vegaCurves(sweep(front)));
    for (const words of ['travel, bump + [mm]', 'installation ratio', 'shock length [mm]'])
      expect(svg).toContain(words);
  });

  it('shade what lies beyond the limits, and draw columns with gaps', async () => {
    const found = limits(front, {
      damper: { open: 380, closed: 310 },
      bumpStop: { height: 30, solidHeight: 10 },
    });
    const spec = vegaCurves(sweep(front), { panels: ['shockLength', 'instantCentreY'], limits: found });
    const svg = await drawn(structuredClone(spec));
    expect(svg).toContain('mark-rect');
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  });

  it('refuse columns that are not there', () => {
    expect(() => vegaCurves(sweep(front), { panels: ['chamber'] })).toThrow(InputError);
  });
});
