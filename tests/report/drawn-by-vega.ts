import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { expectSame } from '../support/tolerance.ts';

/** A specification compiled and drawn by Vega itself, which has nothing to complain about: an SVG document. */
export async function drawnByVega(spec: unknown): Promise<string> {
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
  expectSame(complaints, []);
  return svg;
}
