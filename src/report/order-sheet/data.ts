import type { Figure, Sizing } from '../../coilover/sizing/result.ts';
import { refuseOtherThan } from '../../errors/result.ts';
import { unitName } from '../../units.ts';
import type { OrderSheet } from './blocks.ts';

/** What a paper says as data that survives JSON, in the library's units: of a report every figure with unit and definition, tables, limits and rows of the curves. */
export function sheetData(sheet: OrderSheet): Readonly<Record<string, unknown>> {
  refuseOtherThan('sheet', sheet);
  return sheet.data;
}

/** The same as a JSON text. */
export function sheetJson(sheet: OrderSheet): string {
  return `${JSON.stringify(sheetData(sheet), null, 2)}\n`;
}

/** All of a sizing but its functions. */
export function sizingData(sizing: Sizing, cautions: readonly string[]): Record<string, unknown> {
  const {
    name,
    use,
    status,
    axles,
    steadyCorner,
    crossWeight,
    figures,
    conflicts,
    checks,
    assumptions,
    openQuestions,
  } = sizing;
  return {
    ...(name === undefined ? {} : { name }),
    ...(use === undefined ? {} : { use }),
    order: sizing.order,
    designState: sizing.designState,
    aboard: sizing.aboard,
    status,
    figures: figures.map(figureData),
    axles: axles.map(({ figures, figure: _, curves, input, ...sized }) => ({
      ...sized,
      corner: input.corner,
      ...(input.sizing?.order === undefined ? {} : { order: input.sizing.order }),
      ...(input.ordered === undefined ? {} : { ordered: input.ordered }),
      figures: figures.map(figureData),
      curves:
        curves === null
          ? null
          : {
              columns: curves.info,
              rows: curves.rows(),
            },
    })),
    steadyCorner,
    crossWeight,
    conflicts,
    checks,
    assumptions,
    openQuestions,
    cautions,
  };
}

/** A figure with its unit. */
export function figureData({ quantity, ...figure }: Figure): Record<string, unknown> {
  return { ...figure, unit: quantity === 'ratio' ? '' : unitName(quantity, 'metric') };
}
