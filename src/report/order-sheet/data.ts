import type { Figure, Sizing } from '../../coilover/sizing/result.ts';
import { unitName } from '../../units.ts';
import { CAUTIONS } from './order-sheet.ts';

/** A sizing as data that survives JSON: every figure with its unit and definition, tables, limits, and rows of the curves. */
export function sheetData(sizing: Sizing): Record<string, unknown> {
  const { name, use, status, axles, figures, conflicts, checks, assumptions, openQuestions } = sizing;
  return {
    ...(name === undefined ? {} : { name }),
    ...(use === undefined ? {} : { use }),
    order: sizing.order,
    designState: sizing.designState,
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
    conflicts,
    checks,
    assumptions,
    openQuestions,
    cautions: CAUTIONS,
  };
}

/** The same as a JSON text, in the library's units. */
export function sheetJson(sizing: Sizing): string {
  return `${JSON.stringify(sheetData(sizing), null, 2)}\n`;
}

function figureData({ quantity, ...figure }: Figure): Record<string, unknown> {
  return { ...figure, unit: quantity === 'ratio' ? '' : unitName(quantity, 'metric') };
}
