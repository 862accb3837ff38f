/** Pictures and tables in inches: labels, ticks and figures; and one car written in inches and in mm gives one order. */
import { readFileSync } from 'node:fs';
import {
  cornerForces,
  describeSweepEnd,
  design,
  drawCorner,
  drawDesign,
  drawForces,
  drawSweep,
  forceCurves,
  handMethod,
  orderSheet,
  plotCurves,
  plotDampingForce,
  plotHandMethod,
  readCar,
  reportSheet,
  type Sizing,
  sentence,
  sheetData,
  show,
  sizeCoilovers,
  sizingSummary,
  sweep,
  sweepCsv,
  sweepTable,
  vegaCurves,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { flat } from './papers.ts';

// biome-ignore lint/suspicious/noExplicitAny: documents are read here, at any place
type Json = any;

// As in SciPy's constants (read): inch, pound and standard gravity, written down a second time.
const INCH = 25.4;
const POUND = 0.45359237;
const POUND_FORCE = POUND * 9.80665;

const document = JSON.parse(readFileSync(new URL('../../docs/examples/car.json', import.meta.url), 'utf8'));
const sizing = sizeCoilovers(readCar(document));
const [front] = sizing.axles;
const { corner } = front.input;
const found = front.limits;
const units = 'imperial' as const;
const curves = sweep(corner, { bump: 80, droop: 60, step: 10 });

/** Metric units where they would stand: after a figure, or in brackets. */
const METRIC = /\d (mm|N|kg|N\/mm)\b|\[(mm|N|N\/mm|mm\/s|1\/mm)\]|>mm</;
const IMPERIAL = /\d in\b|\[(in|lbf|lbf\/in|in\/s)\]|>in</;

describe('in inches', () => {
  const forces = cornerForces(corner, {
    sprungMass: 140,
    unsprungMass: 28,
    springRate: 35,
    limits: front.input.limits,
  });
  const made = design(corner, {
    mounts: { shockMount: { y: [480, 510], z: [150, 180] } },
    objectives: [
      { quantity: 'maxLength', max: 370 },
      { quantity: 'springRate', sprungMass: 140, frequency: 1.6, target: 36 },
    ],
    clearances: { mountToArm: { lowerArm: 5 } },
    travel: { bump: 50, droop: 40, step: 10 },
    starts: 1,
  });
  const hand = handMethod(corner, { travel: { bump: 60, droop: 60 } });
  if (!hand.defined) expect.fail('no hand method');
  const pictures: Record<string, string> = {
    drawCorner: drawCorner(corner, curves, { limits: found, units }),
    drawSweep: drawSweep(corner, curves, { limits: found, hand, units }),
    plotCurves: plotCurves(front.curves ?? expect.fail('no curves'), {
      panels: ['wheelLoad', 'wheelRate', 'springLength'],
      limits: found,
      units,
    }),
    forceCurves: plotCurves(
      forceCurves(corner, {
        sprungMass: 140,
        unsprungMass: 28,
        springRate: 35,
        limits: front.input.limits,
      }),
      { panels: ['wheelLoad', 'lowerArmAxial'], units },
    ),
    vegaCurves: JSON.stringify(vegaCurves(curves, { limits: found, units })),
    drawForces: drawForces(corner, forces.cases[1], { units }),
    drawDesign: drawDesign(corner, made, { units }),
    plotDamping: plotDampingForce(front.dampingTable, 'Damper', { units }),
    plotHandMethod: plotHandMethod(hand, { limits: found, units }),
    sweepTable: sweepTable(curves, undefined, units),
    show: String(show(curves, { limits: found, units }).bundle['text/html']),
    sentences: forces.diagnostics.map((one) => sentence(one, units)).join(' '),
    diagnostics: made.diagnostics.map((one) => sentence(one, units)).join(' '),
  };

  it.each(Object.keys(pictures))('%s has no metric label, and imperial ones', (name) => {
    expect(pictures[name]).not.toMatch(METRIC);
    expect(pictures[name]).toMatch(
      name === 'sweepTable' ? /\bin\b/ : name === 'sentences' ? / lbf\b/ : IMPERIAL,
    );
  });

  it('the report of an inch file has inches in its pictures, and that of a metric one has none', () => {
    const svgs = (of: Sizing) =>
      reportSheet(of)
        .blocks.flatMap((block) => (block.kind === 'picture' ? [block.svg] : []))
        .join('');
    expect(svgs(sizing)).not.toMatch(METRIC);
    expect(svgs(sizeCoilovers(readCar(inMetric(document))))).not.toMatch(IMPERIAL);
  });

  it('the ticks of travel are round numbers of inches', () => {
    const labels = [...pictures.plotHandMethod.matchAll(/>([+−]?[\d.]+)<\/text>/g)].map(([, label]) => label);
    for (const label of ['−2.0', '−1.5', '−1.0', '−0.5', '+0.5', '+1.0', '+1.5', '+2.0']) {
      expect(labels).toContain(label);
    }
  });

  it('a curve goes through the same places of the paper as in mm, its scale alone written otherwise', () => {
    const [inches, mm] = [units, 'metric' as const].map((one) =>
      plotCurves(curves, { panels: ['shockLength'], units: one }),
    );
    const path = (svg: string) =>
      svg
        .match(/<path[^>]*stroke-width="2"[^>]*>/)?.[0]
        .match(/-?\d+\.?\d*/g)
        ?.map(Number) ?? [];
    expect(path(inches).length).toBe(path(mm).length);
    // A paper place is written to a hundredth.
    path(mm).forEach((place, k) => {
      expect(Math.abs(path(inches)[k] - place)).toBeLessThan(0.02);
    });
  });

  it('a CSV has its lengths over 25.4 and its lengths below times 25.4, the rest as it was', () => {
    const cells = (text: string) =>
      text
        .trim()
        .split('\r\n')
        .map((line) => line.split(','));
    const [head, ...rows] = cells(sweepCsv(curves, { units }));
    const [metricHead, ...metricRows] = cells(sweepCsv(curves));
    expect(sweepCsv(curves, { units: 'metric' })).toBe(sweepCsv(curves));
    head.forEach((name, c) => {
      expect(name).toBe(metricHead[c].replace('[mm]', '[in]').replace('[1/mm]', '[1/in]'));
      const factor = name.includes('[in]') ? 1 / INCH : name.includes('[1/in]') ? INCH : 1;
      rows.forEach((row, k) => {
        if (row[c] === '' || metricRows[k][c] === '') expect(row[c]).toBe(metricRows[k][c]);
        else {
          const expected = Number(metricRows[k][c]) * factor;
          expectClose(Number(row[c]), expected, { times: 8, scale: Math.abs(expected) });
        }
      });
    });
  });

  it('an end says where it is', () => {
    expect(describeSweepEnd({ travel: 63.5, status: 'deadPoint' }, units)).toBe(
      'dead point at +2.50 in: the linkage cannot move the wheel farther',
    );
    expect(describeSweepEnd({ travel: 63.5, status: 'reached' })).toBe('reached +63.5 mm, as requested');
  });
});

/** What the numbers of a document are by the name that they stand under; all others are lengths. */
const FACTORS: Readonly<Record<string, number>> = {
  ...Object.fromEntries(['total', 'mass', 'new', 'replaced', 'unsprungMass'].map((name) => [name, POUND])),
  ...Object.fromEntries(['rate', 'rateStep', 'tyreRate'].map((name) => [name, POUND_FORCE / INCH])),
  force: POUND_FORCE,
  pressure: POUND_FORCE / INCH ** 2 / 0.1,
  antiRollBarStiffness: (POUND_FORCE * 12 * INCH) / 1000,
  speed: 1.609344,
  speedsToCheck: 1.609344,
  ...Object.fromEntries(
    'formatVersion frontFraction leftFraction lateralAcceleration deceleration camber maxArticulation maxMisalignment housingAxis studAxis frequency ratio compressionFraction highSpeedFraction quantity rateTolerance forceTolerance'
      .split(' ')
      .map((name) => [name, 1]),
  ),
};

/** A document in inches and pounds, written in mm and kg. */
function inMetric(value: Json, name = ''): Json {
  if (typeof value === 'number') return value * (FACTORS[name] ?? INCH);
  if (name === 'bumpStopTable') return value.map(([at, force]: number[]) => [at * INCH, force * POUND_FORCE]);
  if (Array.isArray(value)) return value.map((one) => inMetric(one, name));
  if (typeof value !== 'object' || value === null) return value === 'imperial' ? 'metric' : value;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => {
      return [key, inMetric(one, key === 'value' || key === 'plusMinus' ? name : key)];
    }),
  );
}

describe('one car in inches and in mm', () => {
  const codesOf = (found: Sizing['openQuestions']) => found.map(({ code, path }) => [code, path]);
  // Without a choice the force table has round speeds in the units of the file.
  const chosen = structuredClone(document);
  for (const { sizing } of Object.values<Json>(chosen.corners)) {
    sizing.damping.shaftSpeeds = [1, 2, 4, 6, 8, 12, 16, 20];
  }
  const sizing = sizeCoilovers(readCar(chosen));
  const metric = sizeCoilovers(readCar(inMetric(chosen)));

  it('has the same figures, intervals and tables to rounding', () => {
    const numbers = (value: Json, path = ''): [string, number | string][] => {
      if (typeof value === 'number') return [[path, value]];
      if (typeof value === 'string') return [];
      return Object.entries(value ?? {}).flatMap(([key, one]) => numbers(one, `${path}.${key}`));
    };
    const dataOf = (of: Sizing) => {
      const { conflicts, checks, assumptions, openQuestions, ...data } = sheetData(reportSheet(of)) as Json;
      return numbers(JSON.parse(JSON.stringify(data)));
    };
    const [inches, mm] = [dataOf(sizing), dataOf(metric)];
    expect(inches.map(([path]) => path)).toEqual(mm.map(([path]) => path));
    expect(inches.length).toBeGreaterThan(1000);
    inches.forEach(([path, value], k) => {
      const other = Number(mm[k][1]);
      expect(mm[k][0]).toBe(path);
      expectWithin(Number(value), other, 1e-6 * Math.max(1, Math.abs(other)));
    });
    expect(sizing.conflicts.length).toBe(metric.conflicts.length);
    expect(codesOf(sizing.openQuestions)).toEqual(codesOf(metric.openQuestions));
  });

  it('gives one order: the same facts, its own unit first', () => {
    /** Rows of an order, the imperial value before the metric one. */
    const rowsOf = (of: Sizing) =>
      flat(orderSheet(of).blocks).flatMap((block): string[][] => {
        if (block.kind !== 'table') return [];
        const isValues =
          block.spans === true && block.label !== '2 Mounts' && !block.label.startsWith('Wheel travel');
        // What a load is made up of stands in the units of the file alone.
        const inBoth = block.rows.filter(([label]) => !label.startsWith('made up of'));
        return inBoth.map((written) => {
          // A tolerance in per cent stands once.
          const row = written.map((cell) => cell.replace(/ ± [^±]* %( \*)?$/, ''));
          if (of.units === 'imperial') return row;
          const cells = isValues && row[2] !== '' ? [row[0], row[2], row[1]] : row;
          return cells.map((cell) =>
            cell.replace(
              /([\d.]+(?: \/ [\d.]+)?(?: [^\s(),]+)?|, \S+) \((?!estimate)(?![^()]* to )([^()]+)\)/g,
              (_, one: string, two: string) =>
                one.startsWith(',') ? `, ${two} (${one.slice(2)})` : `${two} (${one})`,
            ),
          );
        });
      });
    const number = /[−-]?\d+(?:\.\d+)?/g;
    const [inches, mm] = [rowsOf(sizing), rowsOf(metric)];
    const wordsOf = (rows: string[][]) => rows.map((row) => row.map((cell) => cell.replace(number, '#')));
    expect(wordsOf(inches)).toEqual(wordsOf(mm));
    const [own, other] = [inches, mm].map((rows) =>
      rows.flat().flatMap((cell) => (cell.match(number) ?? []).map((text) => text.replace('−', '-'))),
    );
    expect(own.length).toBeGreaterThan(150);
    const decimals = (text: string) => text.split('.')[1]?.length ?? 0;
    own.forEach((text, k) => {
      // Half of the last digit of the shorter one, or what four digits leave.
      const lastDigit = 10 ** -Math.min(decimals(text), decimals(other[k]));
      expect(Math.abs(Number(text) - Number(other[k])), `${text}, ${other[k]}`).toBeLessThanOrEqual(
        Math.max(0.51 * lastDigit, 5e-4 * Math.abs(Number(text))),
      );
    });
  });

  it('words what cannot be in its own units', () => {
    const heavy = structuredClone(document);
    heavy.corners.front.sizing.unsprungMass = 900;
    const [inches, mm] = [heavy, inMetric(heavy)].map((one) => sizingSummary(sizeCoilovers(readCar(one))));
    expect(inches).toMatch(
      /The unsprung mass leaves no sprung mass\.\s+found: +corners\.front\.sizing\.unsprungMass = 900\.0 lb of [\d.]+ lb/,
    );
    expect(mm).toMatch(
      /The unsprung mass leaves no sprung mass\.\s+found: +corners\.front\.sizing\.unsprungMass = 408\.2 kg of [\d.]+ kg/,
    );
  });
});
