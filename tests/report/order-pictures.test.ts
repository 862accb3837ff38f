/** Pictures of order and report: to scale, with words that nothing covers, for the example and for many random cars. */
import * as fc from 'fast-check';
import { type Block, orderSheet, reportSheet, type Sizing, sheetHtml, sheetMarkdown } from 'jounce';
import { describe, expect, it } from 'vitest';
import { contributionBars } from '../../src/report/order-sheet/contribution-bars.ts';
import { rateCurve } from '../../src/report/order-sheet/rate-curve.ts';
import { travelRuler } from '../../src/report/order-sheet/travel-ruler.ts';
import { unitShape } from '../../src/report/order-sheet/unit-shape.ts';
import { faults, readPaper, struck } from './paper.ts';
import { flat, type Json, sized } from './papers.ts';

type Picture = Pick<Block & { readonly kind: 'picture' }, 'title' | 'svg' | 'width'>;

/** Poses and curves of the report have tests of their own. */
const picturesOf = ({ axles, units, ...sizing }: Sizing): Picture[] => [
  ...flat(orderSheet({ ...sizing, axles, units }).blocks).flatMap((block) =>
    block.kind === 'picture' ? [block] : [],
  ),
  ...axles.flatMap((axle) =>
    Object.entries({
      ruler: travelRuler(axle, 'ruler', units),
      rates: rateCurve(axle, 'rates', units),
      bars: contributionBars(axle.figures, 'bars'),
    }).flatMap(([title, svg]) => (svg === null ? [] : [{ title, svg }])),
  ),
];

function expectReadable(sizing: Sizing): number {
  const pictures = picturesOf(sizing);
  for (const { title, svg } of pictures) {
    const paper = readPaper(svg);
    expect([...faults(paper), ...struck(paper)], title).toEqual([]);
  }
  return pictures.length;
}

const END = fc.record({
  type: fc.constantFrom('eye', 'clevis', 'stud'),
  bore: fc.double({ min: 0.3, max: 0.8, noNaN: true }),
  width: fc.double({ min: 0.8, max: 2, noNaN: true }),
});

const CAR = fc.record({
  extended: fc.double({ min: 13.6, max: 17, noNaN: true }),
  compressed: fc.double({ min: 8.5, max: 12.9, noNaN: true }),
  stop: fc.double({ min: 0.6, max: 2.5, noNaN: true }),
  total: fc.double({ min: 900, max: 3000, noNaN: true }),
  ends: fc.record({ mount: END, chassis: END }),
  bolts: fc.record({
    mount: fc.constantFrom('longitudinal', 'inPlane'),
    chassis: fc.constantFrom('longitudinal', 'inPlane'),
  }),
  body: fc.constantFrom('up', 'down'),
  top: fc.tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: -0.4, max: 0.4, noNaN: true })),
  free: fc.double({ min: 5, max: 12, noNaN: true }),
  innerDiameter: fc.double({ min: 2.3, max: 4, noNaN: true }),
  helper: fc.boolean(),
  required: fc.double({ min: 0.5, max: 6, noNaN: true }),
});

/** A coilover that does not fit. */
const CONFLICT: Json = {
  extended: 13.6,
  compressed: 12.9,
  stop: 2,
  total: 2500,
  ends: {},
  bolts: { mount: 'inPlane', chassis: 'longitudinal' },
  body: 'down',
  top: [0.5, -0.3],
  free: 6,
  innerDiameter: 2.5,
  helper: true,
  required: 5,
};

/** The example with another unit in front. */
const carWith = (given: Json) =>
  sized((car) => {
    const { coilover, limits, sizing } = car.corners.front;
    coilover.chassisMount = coilover.chassisMount.map((at: number, k: number) => at + given.top[k]);
    car.masses.estimate.total.value = given.total;
    limits.damper = { extendedLength: given.extended, compressedLength: given.compressed };
    limits.bumpStop = { height: given.stop, solidHeight: 0.3 * given.stop };
    limits.required = { bump: given.required, droop: given.required };
    for (const end of ['mount', 'chassis']) limits.bearings[end].boltAxis = given.bolts[end];
    sizing.bumpStopTable = [
      [0.2 * given.stop, 60],
      [0.6 * given.stop, 600],
    ];
    sizing.springs = [
      {
        name: 'A',
        rate: 200,
        freeLength: given.free,
        solidLength: 0.4 * given.free,
        innerDiameter: given.innerDiameter,
      },
    ];
    if (given.helper) sizing.helper = { rate: 40, freeLength: 3, solidLength: 0.6, separatorHeight: 0.25 };
    Object.assign(sizing.order, { bodyEnd: given.body, mounts: given.ends });
  });

describe('pictures of order and report', () => {
  it('of the example have words that nothing covers', () => {
    // Of each axle the unit, the valving, rates, the ruler, and what matters most.
    expect(expectReadable(sized())).toBe(10);
  });

  it('of random cars likewise', () => {
    fc.assert(
      fc.property(CAR, (given) => {
        expect(expectReadable(carWith(given))).toBeGreaterThan(5);
      }),
      { numRuns: 200 },
    );
  }, 600_000);

  it('have the same minus sign as the papers around them', () => {
    const hyphen = /.{0,20}(?<![\p{L}\d.)])-\d.{0,10}/u;
    for (const sizing of [sized(), carWith(CONFLICT)]) {
      for (const [sheet, hasNegative] of [
        [orderSheet(sizing), false],
        [reportSheet(sizing), true],
      ] as const) {
        const words = sheetHtml(sheet)
          .replace(/<style.*?<\/style>/gs, '')
          .replace(/<[^>]*>/g, '\n');
        for (const text of [words, sheetMarkdown(sheet)]) {
          expect(hyphen.exec(text)?.[0] ?? '').toBe('');
          if (hasNegative) expect(text).toMatch(/\u2212\d/);
        }
      }
    }
  });

  it('draw the unit to the scale that they name, the right way up', () => {
    const MM = 96 / 25.4;
    sized().axles.forEach((axle, k) => {
      const shape = unitShape(axle) ?? expect.fail('no lengths');
      expect([shape.bodyUp, shape.chassisUp]).toEqual([k === 0, true]);
      const picture = picturesOf(sized()).filter(({ title }) => title.includes('eye to eye'))[k];
      const scale = Number(/1:([\d.]+)/.exec(picture.title)?.[1]);
      expect(picture.width).toBe(90);
      const paper = readPaper(picture.svg);
      expect(Math.abs(paper.width - 90 * MM)).toBeLessThan(0.01);
      // Each length is dimensioned by two arrows that end at its eyes.
      const arrows = [...picture.svg.matchAll(/<path d="M([\d.]+) ([\d.]+)L[^"]*Z"\/>/g)].map(([, x, y]) => [
        Number(x),
        Number(y),
      ]);
      const lengths = new Map<number, number[]>();
      for (const [x, y] of arrows) lengths.set(x, [...(lengths.get(x) ?? []), y]);
      const drawn = [...lengths.values()].map(([a, b]) => ((b - a) * scale) / MM);
      for (const name of ['extendedLength', 'designLength', 'compressedLength'] as const) {
        const value = axle.figure(name).value ?? Number.NaN;
        // Rounded to a hundredth of a unit of the picture.
        expect(
          drawn.some((mm) => Math.abs(mm - value) < (0.02 * scale) / MM),
          `${name} ${drawn}`,
        ).toBe(true);
      }
    });
  });
});
