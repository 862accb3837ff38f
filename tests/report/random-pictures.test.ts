/** Pictures of random corners of each kind: nothing off the paper, no words on others, none struck by a line that carries the drawing. */
import * as fc from 'fast-check';
import { type Corner, cornerForces, drawCorner, drawForces, limits, plotCurves, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { rocker, strutKind, wishbone } from '../corner/kinds.ts';
import { faults, isHeavy, isNoGrid, readPaper, type Stroke, struck } from './paper.ts';

/** Travel asked for, mm, and corners drawn in all. */
const TRAVEL = { bump: 70, droop: 70 };
const RUNS = 200;

const CORNERS: fc.Arbitrary<Corner> = fc.oneof(
  wishbone.inputs.map(wishbone.corner),
  rocker.inputs.map(rocker.corner),
  strutKind.inputs.map(strutKind.corner),
);

function expectReadable(svg: string, counts: (stroke: Stroke) => boolean): void {
  const paper = readPaper(svg);
  expect([...faults(paper), ...struck(paper, counts)]).toEqual([]);
}

describe('pictures of random corners', () => {
  it.each(['metric', 'imperial'] as const)('have words that nothing covers, %s', (units) => {
    fc.assert(
      fc.property(CORNERS, fc.constantFrom('up', 'down'), (corner, bodyEnd) => {
        const found = limits(corner);
        const curves = sweep(corner, TRAVEL);
        expectReadable(drawCorner(corner, curves, { units, bodyEnd }), isHeavy);
        expectReadable(plotCurves(curves, { limits: found, units }), isNoGrid);
        // A coilover that bump does not shorten carries nothing.
        if ((curves.at(0).installationRatio ?? 0) <= 0) return;
        for (const one of cornerForces(corner, { sprungMass: 200, unsprungMass: 30, springRate: 40 }).cases) {
          expectReadable(drawForces(corner, one, { units, bodyEnd }), isHeavy);
        }
      }),
      { numRuns: RUNS / 2 },
    );
  });
});
