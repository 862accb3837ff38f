import { readFileSync } from 'node:fs';
import {
  drawResiduals,
  InputError,
  plotCurves,
  survey,
  surveyedCorner,
  sweep,
  uncertaintyBands,
} from 'jounce';
import { describe, expect, it } from 'vitest';

const readings = JSON.parse(
  readFileSync(new URL('../../docs/examples/survey.json', import.meta.url), 'utf8'),
);
const found = survey(readings);

describe('a picture of residuals', () => {
  const svg = drawResiduals(found);
  /** Bars in the order of the readings: place of the left edge, width, fill. */
  const bars = [
    ...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="11" fill="(#\w+)"/g),
  ].map(([, x, width, fill]) => ({ x: Number(x), width: Number(width), fill }));

  it('has a bar for each reading, as long as its residual in half-widths', () => {
    expect(bars).toHaveLength(found.readings.length);
    const longest = Math.max(...bars.map(({ width }) => width));
    const most = Math.max(...found.readings.map(({ residual, plusMinus }) => Math.abs(residual / plusMinus)));
    found.readings.forEach(({ residual, plusMinus }, k) => {
      expect(bars[k].width).toBeCloseTo(Math.max(0.5, (longest * Math.abs(residual / plusMinus)) / most), 0);
      expect(bars[k].fill).toBe(Math.abs(residual) > plusMinus ? '#000' : '#999');
    });
  });

  it('marks what is suspected, and never a minus before nothing', () => {
    expect(svg).toContain('→ distance from shock mount to lower outer');
    expect(svg.match(/→/g)).toHaveLength(2);
    expect(svg).not.toMatch(/[−+]0\.00? /);
  });

  it('refuses a survey without readings', () => {
    expect(() => drawResiduals(survey({ points: { A: { known: [0, 0] } } }))).toThrow(InputError);
  });
});

describe('curves with their bands', () => {
  it('shade each panel as wide as the band', () => {
    const corner = surveyedCorner(found, { coilover: 'lowerArm' });
    const travel = { bump: 60, droop: 60 };
    const sure = uncertaintyBands(corner, undefined, travel);
    const svg = plotCurves(sweep(corner, travel), { panels: ['installationRatio'], bands: sure });
    const all = svg.match(/<path[^>]*fill-opacity="0.16"[^>]*>/g) ?? [];
    expect(all).toHaveLength(1);
    const path = all.join('').match(/ d="([^"]*)"/)?.[1] ?? '';
    const places = path.match(/[\d.]+ [\d.]+/g) ?? [];
    const rows = sure.travel.length;
    expect(places).toHaveLength(2 * rows);
    const height = (k: number) => Number(places[k].split(' ')[1]);
    const widths = Array.from({ length: rows }, (_, k) => height(2 * rows - 1 - k) - height(k));
    const [first, last] = [
      sure.columns.installationRatio[0] ?? 0,
      sure.columns.installationRatio[rows - 1] ?? 0,
    ];
    expect(widths.every((width) => width > 0)).toBe(true);
    expect(widths[0] / widths[rows - 1]).toBeCloseTo(first / last, 1);
    expect(plotCurves(sweep(corner, travel), { panels: ['installationRatio'] })).not.toContain(
      'fill-opacity="0.16"',
    );
  });
});
