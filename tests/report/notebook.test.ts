/** What results show of themselves: in each MIME type the same, as the pictures and tables have it. */

import * as fc from 'fast-check';
import {
  customCorner,
  doubleWishbone,
  drawLinkage,
  InputError,
  limits,
  orderSheet,
  plotCurves,
  reportSheet,
  sentence,
  sheetHtml,
  show,
  survey,
  sweep,
  sweepTable,
  vegaCurves,
} from 'jounce';
import { type Drawing, trace } from 'jounce/linkage';
import { linkages } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { readingLabel } from '../../src/sentences/survey.ts';
import { sized } from '../coilover/cars.ts';
import { errors, surveyWith } from '../survey/synthetic.ts';
import { plain as plainInput } from './corners.ts';
import { drawnByVega } from './drawn-by-vega.ts';
import { faults, readPaper } from './paper.ts';
import { type Node, parseXml } from './xml.ts';

const plain = doubleWishbone(plainInput);
const VEGA = 'application/vnd.vegalite.v5+json';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>\n';
const crankRocker: Drawing = {
  points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
  ground: ['O', 'C'],
  bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
};
/** The picture inside a page, as the document it was. */
const pictureIn = (html: unknown) => `${DECLARATION}${/<svg[\s\S]*<\/svg>/.exec(String(html))?.[0]}`;

/** Texts of the elements of a name in a part of a page, by element. */
function textsOf(html: unknown, wanted: string): string[] {
  const visit = (node: Node): string[] => [
    ...(node.name === wanted
      ? [node.children.map((child) => (typeof child === 'string' ? child : '')).join('')]
      : []),
    ...node.children.flatMap((child) => (typeof child === 'string' ? [] : visit(child))),
  ];
  return visit(parseXml(`${DECLARATION}${html}`));
}
/** Texts of the cells of tables without their heads, row by row. */
function cellsOf(html: unknown): string[] {
  const rows = (node: Node): Node[] =>
    node.name === 'tbody'
      ? (node.children.filter((child) => typeof child !== 'string') as Node[])
      : node.children.flatMap((child) => (typeof child === 'string' ? [] : rows(child)));
  const textOf = (node: Node): string =>
    node.children.map((child) => (typeof child === 'string' ? child : textOf(child))).join('');
  return rows(parseXml(`${DECLARATION}${html}`)).flatMap(({ children }) =>
    children.flatMap((child) => (typeof child === 'string' ? [] : [textOf(child)])),
  );
}
/** A number as it stands in a cell. */
const leading = (words: string) => Number(/^-?[\d.]+/.exec(words)?.[0]);

describe('show', () => {
  it('answers the kernel, and nobody else', () => {
    const shown = show(plain);
    const asked = (shown as unknown as Record<symbol, () => unknown>)[Symbol.for('Jupyter.display')]();
    expect(asked).toBe(shown.bundle);
    expect(Object.keys(shown)).toEqual(['bundle']);
    expect(structuredClone(shown.bundle)).toEqual(shown.bundle);
    expect(JSON.parse(JSON.stringify(shown.bundle))).toEqual(shown.bundle);
  });

  it('has of a sweep its table, its curves, and their specification', async () => {
    const curves = sweep(plain);
    const options = {
      panels: ['camber' as const],
      limits: limits(plain, { damper: { extendedLength: 400, compressedLength: 300 } }),
    };
    const { bundle } = show(curves, options);
    expect(bundle['text/plain']).toBe(sweepTable(curves));
    expect(pictureIn(bundle['text/html']).trim()).toBe(plotCurves(curves, options).trim());
    expect(bundle[VEGA]).toEqual(vegaCurves(curves, options));
    expect(show(sweep(plain, { columns: ['camber', 'lowerOuterY'] })).bundle['text/html']).toContain(
      'camber',
    );
  });

  it('has of a corner its numbers and its picture, also where it is of a kind of its own', () => {
    const found = limits(plain);
    const custom = customCorner({
      drawing: {
        points: { O: [200, 200], A: [600, 200], W: [680, 300], P: [690, 0], S: [500, 210], T: [380, 520] },
        ground: ['O', 'T'],
        bodies: { arm: ['O', 'A', 'W', 'P', 'S'] },
      },
      upright: 'arm',
      wheelCentre: 'W',
      contactPatch: 'P',
      shock: { outer: 'S', inner: 'T' },
    });
    for (const bundle of [show(plain).bundle, show(plain, { limits: found }).bundle, show(custom).bundle]) {
      expect(faults(readPaper(pictureIn(bundle['text/html'])))).toEqual([]);
    }
    expect(JSON.parse(String(show(plain).bundle['text/plain']))).toEqual(plain);
    expect(show(plain, { limits: found }).bundle['text/html']).toContain('ground at bump');
  });

  it('has of limits every sentence', () => {
    const found = limits(plain, {
      damper: { extendedLength: 330, compressedLength: 300 },
      bumpStop: { height: 20, solidHeight: 8 },
      required: { bump: 500 },
    });
    const { misfits, bump, droop, later, events, notes, travelMargins } = found;
    const sentences = [
      ...misfits,
      ...[bump, droop, ...later, ...events, travelMargins?.bump].flatMap((one) => one?.diagnostic ?? []),
      ...notes,
    ].map((one) => sentence(one, 'imperial'));
    expect(misfits.length).toBeGreaterThan(0);
    const { bundle } = show(found, { units: 'imperial' });
    const items = parseXml(`${DECLARATION}<page>${bundle['text/html']}</page>`)
      .children.flatMap((group) => (typeof group === 'string' ? [] : group.children))
      .flatMap((item) => (typeof item !== 'string' && item.name === 'li' ? item.children : []));
    expect(items.sort()).toEqual(sentences.sort());
    for (const one of sentences) expect(bundle['text/plain']).toContain(one);
  });

  it('has of rows a table, and curves where the first column grows', async () => {
    const motion = trace(crankRocker, { driver: { turn: 'crank' }, from: 0, to: 3 });
    const rocker = motion.read({ turn: 'rocker' });
    const rows = Array.from({ length: 31 }, (_, k) => {
      const { value, first } = rocker(k / 10);
      return { crank: k / 10, 'rocker [rad]': value, 'ratio.first': first, half: k % 2 === 0 ? null : 1 };
    });
    const { bundle } = show(rows);
    const svg = await drawnByVega(bundle[VEGA]);
    for (const name of ['crank', 'rocker [rad]', 'ratio.first']) {
      expect(svg).toContain(name);
      expect(readPaper(pictureIn(bundle['text/html'])).words.map(({ text }) => text)).toContain(name);
    }
    expect(faults(readPaper(pictureIn(bundle['text/html'])))).toEqual([]);
    expect(String(bundle['text/plain']).split('\n')).toHaveLength(33);
    expect(String(bundle['text/html']).match(/<tr>/g)).toHaveLength(32);
  });

  it('has of a motion its poses from end to end, how it ends, and curves of measures', async () => {
    const motion = trace(crankRocker, { driver: { turn: 'crank' }, from: -1, to: 2 });
    const { bundle } = show(motion);
    const poses = [-1, 0, 1, 2].map((at) => motion.at(at));
    const picture = drawLinkage(crankRocker, { poses, title: 'Motion' });
    expect(pictureIn(bundle['text/html']).trim()).toBe(picture.trim());
    expect(bundle['text/plain']).toBe('driver: -1 (reached) to 2 (reached), drawn at 0\n');
    expect(bundle).not.toHaveProperty([VEGA]);

    const measures = [{ turn: 'rocker' }, { length: ['O', 'B'] as const }, { y: 'A', relativeTo: 'rocker' }];
    const curves = show(motion, { measures, poses: [], title: 'Crank and rocker' }).bundle;
    expect(curves['text/html']).toContain('<title>Crank and rocker</title>');
    const names = ['turn of rocker [rad]', 'length O-B', 'y of A relative to rocker'];
    const svg = await drawnByVega(curves[VEGA]);
    for (const name of names) expect(svg).toContain(name);
    // Each cell has six digits.
    const cells = cellsOf(
      `<page>${String(curves['text/html']).replace(/<svg[\s\S]*?<\/svg>/g, '')}</page>`,
    ).map(Number);
    expect(cells).toHaveLength(121 * 4);
    for (let row = 0; row < 121; row++) {
      const at = -1 + row / 40;
      const read = measures.map((measure) => motion.read(measure)(Math.min(at, 2)).value);
      [at, ...read].forEach((value, k) => {
        expect(Math.abs(cells[4 * row + k] - value)).toBeLessThanOrEqual(1e-3);
      });
    }
    const misspelt = [{ turn: 'rocker' }, { turn: 'rockr' }];
    expect(() => show(motion, { measures: misspelt })).toThrow(/measures\[1\]\.turn: unknown body/);
    expect(() => show(motion, { measures: [3] } as never)).toThrow(/measures\[0\]: unknown measure/);
    expect(() => show(motion, { measures: { turn: 'rocker' } } as never)).toThrow(/not a list of measures/);
    expect(() => show(motion, { measure: [] } as never)).toThrow(/measure: unknown option/);
    expect(() => show(motion, null as never)).toThrow(InputError);
  });

  it('has of a closed motion no pose twice, of one at a dead point that alone', () => {
    const closed = trace(crankRocker, { driver: { turn: 'crank' } });
    const quarters = [0, 1, 2, 3].map((k) => closed.at((k * closed.high.at) / 4));
    const picture = drawLinkage(crankRocker, { poses: quarters, title: 'Motion' });
    expect(pictureIn(show(closed).bundle['text/html']).trim()).toBe(picture.trim());
    // Crank and coupler in line.
    const points = { O: [0, 0], A: [0, 40], B: [0, 140], C: [100, 140] } as const;
    const still = trace({ ...crankRocker, points }, { driver: { turn: 'rocker' } });
    expect(show(still, { measures: [{ x: 'B' }] }).bundle['text/plain']).toContain(
      'driver: 0 (deadPoint) to 0 (deadPoint), drawn at 0',
    );
  });

  it('has of other rows a table alone, with nothing that a page could take for its own', () => {
    const { bundle } = show([
      { law: 'closes', holds: true },
      { law: '<b>&', holds: false, why: null },
    ]);
    expect(Object.keys(bundle)).toEqual(['text/plain', 'text/html']);
    expect(bundle['text/html']).toContain('<td>&lt;b&gt;&amp;</td><td>false</td><td>-</td>');
    expect(bundle['text/plain']).toBe('   law  holds  why\ncloses   true    -\n  <b>&  false    -\n');
    expect(
      Object.keys(
        show([
          { at: 2, v: 1 },
          { at: 1, v: 1 },
        ]).bundle,
      ),
    ).not.toContain(VEGA);
  });

  it('has rows in one panel where they are wanted together, with each name before its own line', async () => {
    const names = fc.uniqueArray(fc.stringMatching(/^[a-z][a-z \]]{0,60}[a-z]$/), {
      minLength: 1,
      maxLength: 7,
    });
    await fc.assert(
      fc.asyncProperty(names, async (columns) => {
        const rows = [0, 1, 2, 3].map((at) => ({
          'travel [mm]': at,
          ...Object.fromEntries(columns.map((name, k) => [name, k + at ** 2])),
        }));
        const { bundle } = show(rows, { together: true, title: 'Beside each other' });
        const svg = pictureIn(bundle['text/html']);
        const paper = readPaper(svg);
        expect(faults(paper)).toEqual([]);
        for (const name of columns) expect(paper.words.filter(({ text }) => text === name)).toHaveLength(1);
        expect(svg.match(/<path/g)).toHaveLength(columns.length);
        expect(svg.match(/<rect[^>]*height="170"/g)).toHaveLength(1);
        expect(svg).toContain('<title>Beside each other</title>');
        const drawn = await drawnByVega(bundle[VEGA]);
        for (const name of columns) expect(drawn).toContain(name);
      }),
      { numRuns: 10 },
    );
  });

  it('has of a survey its sentences, points and readings, in the units of its document', () => {
    const metric = surveyWith(errors(3));
    const found = survey({ ...metric, name: 'A & B' });
    const { bundle } = show(found);
    expect(textsOf(bundle['text/html'], 'h1')).toEqual(['Survey: A & B']);
    expect(textsOf(bundle['text/html'], 'li')).toEqual(found.diagnostics.map((one) => sentence(one)));
    const cells = cellsOf(bundle['text/html']).map((cell) => cell.replace('\u2212', '-'));
    const points = Object.values(found.points);
    const placed = points.flatMap(({ at: [y, z], plusMinus: [byY, byZ] }) => [y, byY, z, byZ]);
    expect(cells).toHaveLength(5 * points.length + 6 * found.readings.length);
    const shown = cells.slice(0, 5 * points.length).filter((_, k) => k % 5 > 0);
    // Written to a tenth of a mm.
    placed.forEach((mm, k) => {
      expect(Math.abs(Number(shown[k]) - (mm as number))).toBeLessThanOrEqual(0.0501);
    });
    const readings = cells.slice(5 * points.length);
    found.readings.forEach(({ path, points, measured, residual }, k) => {
      expect(readings[6 * k]).toBe(readingLabel(path, points));
      expect(Math.abs(leading(readings[6 * k + 1]) - measured)).toBeLessThanOrEqual(0.0501);
      expect(Math.abs(Number(readings[6 * k + 3]) - residual)).toBeLessThanOrEqual(0.0501);
    });
    expect(bundle['text/plain']).toContain('wheel centre');

    const inches = cellsOf(show({ ...found, units: 'imperial' }).bundle['text/html']);
    // 1 in = 25.4 mm; written to a hundredth of an inch.
    expect(Math.abs(25.4 * Number(inches[1]) - points[0].at[0])).toBeLessThanOrEqual(25.4 * 0.00501);
  });

  it('says which points of a survey are known, which are not determined, and what nothing checks', () => {
    const found = survey({
      points: { A: { known: [0, 0] }, B: { estimate: [100, 5] } },
      distances: [{ between: ['A', 'B'], value: 100 }],
    });
    const cells = cellsOf(show(found).bundle['text/html']);
    expect(cells.slice(0, 5)).toEqual(['A', '0.0', 'known', '0.0', 'known']);
    expect(cells.slice(5, 10)).toContain('not determined');
    expect(cells.at(-1)).toBe('unchecked');
  });

  it('has of a sizing every figure there is, how sure it is, and what does not fit', () => {
    const guessed = sized((document) => {
      document.masses.estimate.total = { value: 700, plusMinus: 30 };
    });
    const { bundle } = show(guessed);
    const cells = cellsOf(bundle['text/html']);
    const figures = [...guessed.axles.flatMap((axle) => axle.figures), ...guessed.figures];
    const there = figures.filter(({ value }) => value !== null);
    expect(cells).toHaveLength(4 * there.length);
    const wanted = cells.indexOf(guessed.axles[0].figure('requiredSpringRate').label);
    const { value, lower, upper } = guessed.axles[0].figure('requiredSpringRate');
    // Written to a tenth of a N/mm.
    expect(Math.abs(leading(cells[wanted + 1]) - (value as number))).toBeLessThanOrEqual(0.0501);
    const between = cells[wanted + 2].split(' to ').map(Number);
    [lower, upper].forEach((end, k) => {
      expect(Math.abs(between[k] - (end as number))).toBeLessThanOrEqual(0.0501);
    });
    expect(cells[wanted + 3]).toBe('masses.estimate.total, 100 %');
    expect(cells.join()).not.toMatch(/NaN|undefined|null/);

    const faulty = sized((document) => {
      document.corners.front.sizing.unsprungMass = 500;
    });
    expect(faulty.conflicts).toHaveLength(1);
    expect(show(faulty).bundle['text/html']).toContain(faulty.conflicts[0].path);
  });

  it.each([
    ['an order', orderSheet(sized())],
    ['a report', reportSheet(sized())],
  ])('has of %s all that its file has, in a style that holds for nothing beside it', (_, sheet) => {
    const html = String(show(sheet).bundle['text/html']);
    const body = /<body>\n([\s\S]*)\n<\/body>/.exec(sheetHtml(sheet))?.[1];
    expect(html).toContain(body);
    const [style, ...others] = [...html.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, css]) => css.trim());
    expect(others).toEqual([]);
    // One rule, which has all others in it.
    expect(style.replaceAll(/\{[^{}]*\}/g, '')).toMatch(/^(\.jounce-sheet){2} \{[^{}]*\}$/);
    expect(style).not.toMatch(/@|\bbody\b|html/);
  });

  it('has of the curves of a sizing the same pictures as of a sweep', () => {
    const { curves } = sized().axles[0];
    const { bundle } = show(curves!, { panels: ['wheelRate'] });
    expect(pictureIn(bundle['text/html']).trim()).toBe(plotCurves(curves!, { panels: ['wheelRate'] }).trim());
    expect(bundle[VEGA]).toEqual(vegaCurves(curves!, { panels: ['wheelRate'] }));
    expect(String(bundle['text/plain']).split('\n')).toHaveLength(curves!.rows().length + 2);
  });

  it.each([undefined, 3, [], {}, 'text'])('refuses %j', (nothing) => {
    expect(() => show(nothing as never)).toThrow(InputError);
  });
});

describe('drawLinkage', () => {
  it('names points and bodies once, within the paper and over each other nowhere', () => {
    fc.assert(
      fc.property(linkages(fc), (drawing) => {
        const paper = readPaper(drawLinkage(drawing));
        const names = [...Object.keys(drawing.points), ...Object.keys(drawing.bodies), 'Linkage'];
        expect(paper.words.map(({ text }) => text).sort()).toEqual(names.sort());
        expect(faults(paper)).toEqual([]);
      }),
      { numRuns: 20 },
    );
  });

  it('is to scale, with x to the right and y up, and has the other poses in it', () => {
    const motion = trace(crankRocker, { driver: { turn: 'crank' }, from: 0, to: 3 });
    const poses = [motion.at(1), motion.at(2)];
    const svg = drawLinkage(crankRocker, { poses, title: 'Crank and rocker' });
    const rings = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="(6.5|4.4|2.4)"/g)];
    const at = rings.map(([, x, y]) => [Number(x), Number(y)]);
    // Two moving points in each of two poses, then as drawn, then the ground.
    const { points } = crankRocker;
    const places = [poses[0].A, poses[0].B, poses[1].A, poses[1].B, points.A, points.B, points.O, points.C];
    expect(at).toHaveLength(places.length);
    const scale = (at[7][0] - at[6][0]) / 100;
    expect(scale).toBeGreaterThan(1);
    places.forEach(([x, y], k) => {
      // Written to a hundredth.
      expect(Math.abs(at[k][0] - at[6][0] - scale * x)).toBeLessThan(0.03);
      expect(Math.abs(at[6][1] - at[k][1] - scale * y)).toBeLessThan(0.03);
    });
    expect(svg).toContain('<title>Crank and rocker</title>');
  });

  it('has telescopes as cylinders by their names, and blocks about points that slide, along their guides', () => {
    const svg = drawLinkage({
      points: {
        O: [0, 0],
        A: [0, 50],
        P: [120, 0],
        near: [60, 0],
        far: [200, 0],
        Q: [30, 110],
        foot: [200, 90],
      },
      ground: ['O', 'near', 'far', 'foot'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P'], link: ['A', 'Q'] },
      sliders: { piston: { point: 'P', on: ['near', 'far'] } },
      fixedCoordinates: [{ x: 'Q' }],
      telescopes: { ram: ['foot', 'Q'] },
    });
    const paper = readPaper(svg);
    expect(faults(paper)).toEqual([]);
    expect(paper.words.map(({ text }) => text)).toContain('ram');
    const rings = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="(?:6.5|4.4)"/g)];
    // Moving points first, then the ground, in the order of the drawing.
    const [, P, Q, , near, far, foot] = rings.map(([, x, y]): [number, number] => [Number(x), Number(y)]);
    // White boxes: the tube, then the blocks of slider and fixed coordinate.
    const boxes = [...svg.matchAll(/<path [^>]*fill="#fff"[^>]* d="M([^"]*)Z"/g)].map(([, d]) =>
      d.split('L').map((place) => place.split(' ').map(Number)),
    );
    expect(boxes.map((corners) => corners.length)).toEqual([4, 4, 4]);
    const [tube, piston, guided] = boxes.map((corners) =>
      [0, 1].map((axis) => corners.reduce((sum, place) => sum + place[axis] / 4, 0)),
    );
    const expectNear = (got: readonly number[], expected: readonly number[]) =>
      got.forEach((value, k) => {
        expect(Math.abs(value - expected[k])).toBeLessThan(0.02);
      });
    expectNear(piston, P);
    expectNear(guided, Q);
    const off = (tube[0] - foot[0]) * (Q[1] - foot[1]) - (tube[1] - foot[1]) * (Q[0] - foot[0]);
    expect(Math.abs(off) / Math.hypot(Q[0] - foot[0], Q[1] - foot[1])).toBeLessThan(0.02);
    // Guides: from near to far, and upright through Q.
    const lines = paper.strokes.map(({ from, to }) => [...from, ...to]);
    const has = (places: readonly number[]) =>
      expect(
        lines.some((one) => one.every((value, k) => Math.abs(value - places[k]) < 0.02)),
        String(places),
      ).toBe(true);
    has([...near, ...far]);
    has([Q[0], Q[1] - 40, Q[0], Q[1] + 40]);
  });

  it('refuses a pose without a place, by its name, and a faulty drawing', () => {
    const pose = { ...crankRocker.points, B: [Number.NaN, 0] as const };
    expect(() => drawLinkage(crankRocker, { poses: [pose] })).toThrow(
      /poses\[0\]\.B: no place.*give a pose as motion/,
    );
    for (const [curves, path] of [
      [[[[0, 0], [1]]], 'curves[0][1]'],
      [[{ points: [[0, 0]] }], 'curves[0]'],
    ] as const) {
      expect(() => drawLinkage(crankRocker, { curves } as never)).toThrow(
        `${path}: no place, got ${JSON.stringify(path === 'curves[0]' ? curves[0] : [1])}; give the points of a curve`,
      );
    }
    expect(() => drawLinkage({ ...crankRocker, ground: ['X'] })).toThrow(InputError);
  });

  it.each([
    [{ poses: crankRocker.points }, 'poses: not a list of poses'],
    [{ poses: 3 }, 'poses: not a list of poses'],
    [{ curves: { points: [[0, 0]] } }, 'curves: not a list of curves'],
    [{ title: 3 }, 'title: not a text'],
    [{ titel: 'Crank' }, 'titel: unknown option'],
    [{ pose: [] }, 'pose: unknown option'],
    [null, 'not an object'],
  ])('refuses the options %j', (options, words) => {
    expect(() => drawLinkage(crankRocker, options as never)).toThrow(words);
  });
});
