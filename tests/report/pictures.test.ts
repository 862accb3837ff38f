import { readdirSync, readFileSync } from 'node:fs';
import {
  type Corner,
  doubleWishbone,
  drawCorner,
  drawSweep,
  InputError,
  limits,
  type PlotCurvesOptions,
  plotCurves,
  type Sweep,
  sweep,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { spaced } from '../../src/words.ts';
import { otherKinds, pillar, plain, randomCorners, shapes, strutBeside, swept } from './corners.ts';
import { faults, isNoGrid, readPaper, struck } from './paper.ts';

const drawn = (svg: string) => {
  const paper = readPaper(svg);
  return { ...paper, faults: faults(paper), texts: paper.words.map(({ text }) => text) };
};

describe('drawCorner', () => {
  it.each(shapes)(
    'names every point and body, with nothing cut off or written over: %s',
    (_, input, options) => {
      const corner = doubleWishbone(input);
      const curves = sweep(corner, options);
      const { faults: found, texts } = drawn(drawCorner(corner, curves));
      expect(found).toEqual([]);
      const mount = { lowerArm: 'lower arm', upperArm: 'upper arm', upright: 'upright' }[input.coilover.on];
      expect(texts).toEqual(
        expect.arrayContaining([
          ...['lower arm', 'lower arm pivot', 'lower ball joint', 'upper arm', 'upper arm pivot'],
          ...['upper ball joint', 'upright', 'wheel centre', 'contact patch'],
          ...['coilover', `shock mount, ${mount}`, 'shock mount, chassis'],
          ...['vehicle centreline', 'y outboard', 'z up', 'mm'],
          ...['travel [mm]', 'shock length [mm]', 'installation ratio', 'camber [deg]'],
          ...['ground at design', 'ride height', 'design ride height', curves.at(0).shockLength?.toFixed(1)],
        ]),
      );
      for (const side of ['bump', 'droop'] as const) {
        const shown = curves.end[side].travel !== 0;
        expect(texts.includes(`ground at ${side}`)).toBe(shown);
        expect(texts.some((text) => text.startsWith(`On the ${side} side: dead point at`))).toBe(
          curves.end[side].status === 'deadPoint',
        );
      }
    },
  );

  it.each(otherKinds)(
    'names the parts of other kinds, with nothing written over: %s',
    (name, corner, names) => {
      const curves: Sweep = sweep(corner, { bump: 60, droop: 60 });
      const { faults: found, texts } = drawn(drawCorner(corner, curves));
      expect(found).toEqual([]);
      const bodies = Object.keys(modelOf(corner).drawing.bodies).map(spaced);
      expect(texts).toEqual(
        expect.arrayContaining([
          ...names,
          ...bodies,
          name === 'strut' ? 'strut' : 'coilover',
          'wheel centre',
        ]),
      );
      const panels = curves.info.map(({ name }) => name).filter((name) => /^(ro|shockL|kingpin)/.test(name));
      expect(drawn(drawSweep(corner, curves, { limits: limits(corner), panels })).faults).toEqual([]);
    },
  );

  it('gives no ratio at a dead point that limits the travel', () => {
    const [, corner] = otherKinds.find(([name]) => name.startsWith('rocker with its points'))!;
    const found = limits(corner);
    expect(found.droop).toMatchObject({ cause: 'deadPoint', part: 'rodAndRocker' });
    const { texts } = drawn(drawCorner(corner, [], { limits: found }));
    expect(texts.filter((text) => text === '\u2013')).toHaveLength(1);
  });

  it('fills a rocker, and draws a rod as a bar', () => {
    const [, corner] = otherKinds[0];
    const svg = drawCorner(corner, [0]);
    const plates = [...svg.matchAll(/<path [^>]*fill="#e2e2e2"[^>]*d="([^"]*)"/g)].map(([, d]) => d);
    // Lower arm, upright and rocker have three points that show, not in line; upper arm and rod are bars.
    expect(plates.map((d) => d.split(/[ML]/).length - 1)).toEqual([3, 3, 3]);
    expect(svg.match(/<path [^>]*stroke-width="4"/g)).toHaveLength(2);
  });

  it('draws what slides as a bar, once, and not where the shock is drawn', () => {
    const bars = (corner: Corner) =>
      drawCorner(corner, [0]).match(/<path [^>]*stroke-width="4"/g)?.length ?? 0;
    const names = (corner: Corner) => drawn(drawCorner(corner, [0])).texts;
    const kind = (name: string) => otherKinds.find(([each]) => each === name)![1];
    // The arm alone; the strut, beside an arm that has three points; the pillar of two sliders.
    expect([kind('strut'), strutBeside, pillar].map(bars)).toEqual([1, 1, 1]);
    expect(names(pillar)).toEqual(
      expect.arrayContaining(['pillar', 'upright', 'foot', 'head', 'low', 'high']),
    );
    expect(names(pillar)).not.toContain('bush');
    expect(drawn(drawCorner(pillar, [-50, 50])).faults).toEqual([]);
  });

  it.each(randomCorners)('has nothing cut off or written over: %s', (_, input) => {
    const corner = doubleWishbone(input);
    expect(drawn(drawCorner(corner, sweep(corner, { bump: 70, droop: 50 }))).faults).toEqual([]);
  });

  it('shows given travels and ride', () => {
    const { texts, faults: found } = drawn(drawCorner(doubleWishbone(plain), [30, -60, 30, 60]));
    expect(found).toEqual([]);
    expect(texts.filter((text) => text.startsWith('ground at'))).toEqual([
      'ground at bump',
      'ground at bump',
      'ground at design',
      'ground at droop',
    ]);
    expect(texts).toEqual(expect.arrayContaining(['+60 mm', '+30 mm', '\u221260 mm']));
    expect(drawn(drawCorner(doubleWishbone(plain), [])).texts).toContain('Corner at design ride height');
  });

  it('is to scale: points of the picture lie apart as those of the corner', () => {
    const corner = doubleWishbone(plain);
    const svg = drawCorner(corner, swept(plain));
    const pivots = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="3"\/>/g)].map(([, x, y]) => [
      +x,
      +y,
    ]);
    // The first is the legend's own only if it came first: those on the chassis come in the order of the drawing.
    const [lower, upper, mount] = pivots;
    const apart = ([ax, ay]: number[], [bx, by]: number[]) => Math.hypot(ax - bx, ay - by);
    const { lowerArm, upperArm, coilover } = corner;
    const scale = apart(lower, upper) / apart([...lowerArm.inner], [...upperArm.inner]);
    expect(apart(lower, mount)).toBeCloseTo(
      scale * apart([...lowerArm.inner], [...(coilover.chassisMount ?? [])]),
      1,
    );
    expect(upper[0]).toBeGreaterThan(lower[0]);
    expect(upper[1]).toBeLessThan(lower[1]);
  });

  it('says what it guessed, mirrored and foreshortened', () => {
    const notes = (input: typeof plain, sizes = {}) =>
      drawn(drawCorner(doubleWishbone(input), swept(input), sizes)).texts.join('\n');
    expect(notes(plain)).toContain('tyre width and rim diameter assumed, for the drawing only');
    expect(notes(plain, { tyreWidth: 155 })).toContain('; rim diameter assumed');
    expect(notes(plain, { tyreWidth: 155, rimDiameter: 330 })).not.toContain('assumed');
    expect(notes(plain, { tyre: { overallRadius: 290, width: 155 } })).toContain('; rim diameter assumed');
    expect(notes(plain, { tyre: '155/65R13' })).not.toContain('assumed');
    // A size marking names the width in mm and the rim in inches.
    expect(drawCorner(doubleWishbone(plain), swept(plain), { tyre: '155/65R13' })).toBe(
      drawCorner(doubleWishbone(plain), swept(plain), { tyreWidth: 155, rimDiameter: 13 * 25.4 }),
    );
    expect(notes({ ...plain, coilover: { ...plain.coilover, foreAftOffset: 30 } })).toContain(
      '30.0 mm apart fore and aft',
    );
    const [, rightHand] = shapes.find(([name]) => name === 'right-hand side')!;
    expect(notes(rightHand)).toContain('drawn mirrored');
  });

  it('asks for the columns that it needs, and draws nothing out of reach', () => {
    const corner = doubleWishbone(plain);
    expect(() => drawCorner(corner, sweep(corner, { columns: ['camber'] }))).toThrow(InputError);
    expect(() => drawCorner(corner, [5000])).toThrow(/outside the sweep, got 5000 mm/);
  });
});

describe('the pictures of the guides', () => {
  const folder = new URL('../../docs/pictures/', import.meta.url);
  // Drawn by hand, with shapes that the library does not use.
  const drawn = readdirSync(folder).filter((name) => name.endsWith('.svg') && name !== 'two-paths.svg');

  it.each(drawn)('%s: nothing on words but the grid, a white ground, one minus sign', (name) => {
    const svg = readFileSync(new URL(name, folder), 'utf8');
    const paper = readPaper(svg);
    expect([...faults(paper), ...struck(paper, isNoGrid)]).toEqual([]);
    // On a dark page black lines need a ground of their own.
    expect(svg).toMatch(/<title>[^<]*<\/title>\s*<rect width="[\d.]+" height="[\d.]+" fill="#fff"\/>/);
    for (const { text } of paper.words) expect(text).not.toMatch(/(?<![\p{L}\d.)])-\d/u);
  });
});

describe('plotCurves', () => {
  it.each(shapes)(
    'has axes with titles, units and numbers, and words where it stopped short: %s',
    (_, input, options) => {
      const curves = swept(input, options);
      const { faults: found, texts } = drawn(plotCurves(curves));
      expect(found).toEqual([]);
      expect(texts).toEqual(
        expect.arrayContaining([
          'Installation ratio and shock length through travel',
          'installation ratio',
          'shock length [mm]',
          `${curves.info[0].label} [mm]`,
          'design ride height',
          '0',
        ]),
      );
      const stopped = Object.values(curves.end).filter(({ status }) => status === 'deadPoint');
      expect(texts.filter((text) => text.startsWith('dead point ')).length).toBe(stopped.length);
    },
  );

  it('shows any columns', () => {
    for (const [, input, options] of shapes.filter(([name]) => /both|level|size/.test(name))) {
      const curves = swept(input, options);
      for (const { name, label, unit } of curves.info.slice(1)) {
        const { faults: found, texts } = drawn(plotCurves(curves, { panels: [name] }));
        expect(found).toEqual([]);
        expect(texts).toContain(unit === '' ? label : `${label} [${unit}]`);
      }
    }
  });

  it('draws the curve through the values of the sweep', () => {
    const curves = swept(plain, { bump: 60, droop: 60 });
    const svg = plotCurves(curves, { panels: ['camber'] });
    const [, d] = /<path[^>]* d="(M[^"]+)"/.exec(svg)!;
    const places = d
      .slice(1)
      .split('L')
      .map((place) => place.split(' ').map(Number));
    // Left and right end are droop and bump; camber grows downward on the paper as it falls.
    const [first, last] = [places[0], places[places.length - 1]];
    const high = (travel: number) => curves.at(travel).camber as number;
    const scale = (last[1] - first[1]) / (high(60) - high(-60));
    for (const [x, y] of places) {
      const travel = -60 + (120 * (x - first[0])) / (last[0] - first[0]);
      expect(y - first[1]).toBeCloseTo(scale * (high(travel) - high(-60)), 0);
    }
  });

  it('keeps a curve in its panel, in pieces where it runs away', () => {
    const [, input, options] = shapes.find(([name]) => name === 'to both dead points')!;
    const curves = swept(input, options);
    const curve = (panel: string) => {
      const svg = plotCurves(curves, { panels: [panel] });
      const [x, y, width, height] = (/<rect x="(.*?)" y="(.*?)" width="(.*?)" height="(.*?)"/.exec(svg) ?? [])
        .slice(1)
        .map(Number);
      const parts = [...svg.matchAll(/<path fill="none" stroke="#000" stroke-width="2"[^>]* d="M([^"]+)"/g)];
      for (const [, d] of parts) {
        for (const [px, py] of d.split('L').map((place) => place.split(' ').map(Number))) {
          expect(px >= x && px <= x + width && py >= y && py <= y + height).toBe(true);
        }
      }
      return parts.length;
    };
    expect(curve('shockLength')).toBe(1);
    // Towards a dead point the ratio grows without bound; where the arms are parallel the instant centre is nowhere.
    expect(curve('installationRatio')).toBe(1);
    expect(curves.at(curves.end.droop.travel).installationRatio).toBeNull();
    expect(curve('instantCentreY')).toBeGreaterThan(1);
  });

  it('names what it can not show', () => {
    const curves = swept(plain, { columns: ['camber'] });
    expect(() => plotCurves(curves)).toThrow(
      /panels\[0\]: not in the sweep, got "installationRatio" \(allowed: camber\)/,
    );
    expect(() => plotCurves(curves, { panels: [] })).toThrow(/panels: nothing to show/);
    expect(() => plotCurves(curves, { panels: ['travel'] })).toThrow(InputError);
    expect(() => plotCurves(curves, { panles: ['camber'] } as PlotCurvesOptions)).toThrow(
      /panles: unknown option \(allowed: panels, title, /,
    );
  });
});

describe('drawSweep', () => {
  const corner = doubleWishbone(plain);
  const curves = sweep(corner);

  it('has the corner above the curves', () => {
    const { faults: found, words } = drawn(drawSweep(corner, curves, { panels: ['camber'] }));
    expect(found).toEqual([]);
    const level = (wanted: string) => words.find(({ text }) => text === wanted)?.top ?? Number.NaN;
    expect(level('upper ball joint')).toBeLessThan(level('Camber through travel'));
  });

  it('writes a title as it is, however long', () => {
    const title = `<b>"Light" & quick</b> ${'with a long name '.repeat(12)}`.trim();
    const { faults: found, texts } = drawn(drawSweep(corner, curves, { title }));
    expect(found).toEqual([]);
    expect(texts[0]).toBe(title);
  });

  it('gives the same for the same', () => {
    expect(drawSweep(corner, curves)).toBe(drawSweep(structuredClone(corner), sweep(corner)));
  });

  it('needs nothing from elsewhere, and no colour', () => {
    const svg = drawSweep(corner, curves);
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(
      /https?:|href|url\(|<style|<script|<image/,
    );
    const inks = [...svg.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map(([, ink]) => ink);
    for (const ink of new Set(inks)) expect(ink).toMatch(/^(none|#([0-9a-f]{1,2})\2\2)$/);
  });
});
