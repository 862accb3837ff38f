import type { Figure, Sizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { numberIn, textIn } from '../../units.ts';
import { type Block, heading, type OrderSheet, table } from './blocks.ts';
import { sizingData } from './data.ts';
import { onPaper } from './on-paper.ts';
import { findingsPart } from './report-sheet.ts';

/** A sizing at a glance, in the units of its document: what does not fit, and each figure with its interval. */
export function sizingSheet(sizing: Sizing): OrderSheet {
  const { name, units, axles, figures } = sizing;
  const ofCar = figureTable('The car', figures, units);
  return {
    title: name === undefined ? 'Coilovers as sized' : `Coilovers as sized: ${name}`,
    data: sizingData(sizing, []),
    blocks: [
      ...findingsPart(sizing, onPaper(units)),
      ...axles.flatMap(({ axle, figures }) => [
        heading(2, axleName(axle)),
        ...figureTable(axleName(axle), figures, units),
      ]),
      ...(ofCar.length === 0 ? [] : [heading(2, 'The car'), ...ofCar]),
    ],
  };
}

/** Figures that have a value, each with the input that makes it unsure most. */
function figureTable(label: string, figures: readonly Figure[], units: Sizing['units']): Block[] {
  const rows = figures.flatMap(({ label, value, lower, upper, contributions, quantity }): string[][] => {
    if (value === null) return [];
    const shown = textIn(value, quantity, units);
    const [from, to] = [lower, upper].map((end) => (end === null ? null : numberIn(end, quantity, units)));
    if (from === null || to === null) return [[label, shown, 'not known', '']];
    if (from === to) return [[label, shown, '', '']];
    const most = contributions
      .slice(0, 1)
      .map(({ input, fraction }) => `${input}, ${(100 * fraction).toFixed(0)} %`);
    return [[label, shown, `${from} to ${to}`, most.join('')]];
  });
  return rows.length === 0
    ? []
    : [table(label, ['figure', 'value', '95 % interval', 'uncertain most by'], rows, [1, 2])];
}
