// Results in a notebook. A kernel shows an object that has the method `Symbol.for('Jupyter.display')` by what that returns:
// the same result by MIME type, of which the reader takes the richest that it knows. Results stay plain data: what shows
// itself is made of them here.

import type { AxleLinkage } from '../axle/axle.ts';
import type { WheelCurves } from '../coilover/sizing/curves.ts';
import type { Sizing } from '../coilover/sizing/result.ts';
import type { Corner } from '../corner/corner.ts';
import type { Limits } from '../corner/limits/limits.ts';
import type { Sweep } from '../corner/sweep.ts';
import { type Diagnostic, fault, unknownOptions, show as written } from '../diagnostic.ts';
import { refuse as refuseMeasures } from '../errors/linkage.ts';
import { refusal, refuse } from '../errors/report.ts';
import { drawingOf } from '../linkage/bar-misfit.ts';
import { checkMotion } from '../linkage/check-motion.ts';
import type { Drawing } from '../linkage/drawing.ts';
import { bindMeasure, type Measure, measureFaults } from '../linkage/measure.ts';
import type { Motion } from '../linkage/motion.ts';
import type { System } from '../linkage/system.ts';
import { sentence } from '../sentences/sentence.ts';
import type { Survey } from '../survey/result.ts';
import { measureName } from '../words.ts';
import { type DrawAxleOptions, drawAxle } from './axle-picture.ts';
import { type PlotCurvesOptions, plotCurves } from './curves.ts';
import { type DrawCornerOptions, drawCorner } from './drawing.ts';
import { shownRow } from './in-units.ts';
import { type DrawLinkageOptions, drawLinkage } from './linkage.ts';
import type { OrderSheet } from './order-sheet/blocks.ts';
import { sheetPart } from './order-sheet/html.ts';
import { sheetMarkdown } from './order-sheet/markdown.ts';
import { sizingSheet } from './order-sheet/sizing-sheet.ts';
import { cell, columnsOf, curvesIn, type FlatRow, plotRows, textTable, vegaRows } from './rows.ts';
import { surveySheet } from './survey-sheet.ts';
import { sweepTable } from './table.ts';
import { vegaCurves } from './vega.ts';

/** The same thing by MIME type: `text/plain`, mostly `text/html`, and `application/vnd.vegalite.v5+json` where there are curves. */
export type MimeBundle = Readonly<Record<string, unknown>>;

/** Displays as the last value of a notebook's cell; elsewhere `bundle` has the same content. */
export interface Shown {
  /** The content by MIME type. */
  readonly bundle: MimeBundle;
  /** Called by the kernel. */
  readonly [display: symbol]: () => MimeBundle;
}

/** What of a result is shown; all optional, and each for the pictures that know it. */
export interface ShowOptions
  extends Pick<PlotCurvesOptions, 'panels'>,
    Pick<DrawLinkageOptions, 'poses'>,
    Pick<DrawCornerOptions, 'title' | 'limits' | 'units'>,
    Pick<DrawAxleOptions, 'heave' | 'roll'> {
  /** Measures of a motion to plot over its driver. */
  readonly measures?: readonly Measure[];
  /** Whether the curves of flat rows or measures share one panel; default each has its own. */
  readonly together?: boolean;
}

/** What can be shown. */
export type Showable =
  | Sweep
  | WheelCurves
  | Corner
  | AxleLinkage
  | Limits
  | Survey
  | Sizing
  | OrderSheet
  | Drawing
  | Motion
  | readonly FlatRow[]
  | string;

/** A table of no more rows than this stands open below its curves. */
const FEW = 12;

const DISPLAY = Symbol.for('Jupyter.display');

/**
 * Makes a result show itself in a notebook, as text, as HTML with a picture in it, and curves as a Vega-Lite v5
 * specification:
 *
 * - a sweep, or the `curves` of a sizing, as curves (`panels` chooses columns, `limits` shades what can't be reached), with the
 *   table as text, in `units`;
 * - a corner as its picture at ride and, with `limits`, where its travel ends;
 * - an axle as its picture, at `heave` (mm) and `roll` (degrees);
 * - limits as sentences, the nearest first;
 * - a survey as its sentences, points and readings;
 * - a sizing as its conflicts, checks and figures, an order or a report as it is;
 * - the drawing of a linkage as its picture, with further `poses`;
 * - a motion of a linkage as poses from end to end (or the `poses` given), with curves of `measures`;
 * - a picture, the text of an SVG document, as it is;
 * - flat rows as a table, with curves of each number over the first where that grows (`together`: in one panel).
 *
 * @throws InputError for anything else, for unknown options, for measures of a drawing that is not traced, and as the pictures do.
 */
export function show(what: Showable, options: ShowOptions = {}): Shown {
  refuse('options of show', unknownOptions(options, OPTIONS));
  const bundle = bundleOf(what, options);
  return { bundle, [DISPLAY]: () => bundle };
}

const OPTIONS = ['panels', 'poses', 'title', 'limits', 'units', 'heave', 'roll', 'measures', 'together'];

function bundleOf(what: Showable, options: ShowOptions): MimeBundle {
  if (Array.isArray(what) && what.length > 0 && what.every((row) => typeof row === 'object' && row !== null))
    return shownRows(what, options);
  if (typeof what === 'string' && what.includes('<svg'))
    return { 'text/plain': 'a picture', 'text/html': inline(what) };
  if (typeof what === 'object' && what !== null) {
    if ('readings' in what) return shownSheet(surveySheet(what));
    if ('axles' in what) return shownSheet(sizingSheet(what));
    if ('blocks' in what) return shownSheet(what);
    if ('kind' in what) return what.kind === 'axle' ? shownAxle(what, options) : shownCorner(what, options);
    if ('info' in what && 'at' in what) return shownSweep(what, options);
    if ('misfits' in what) return shownLimits(what, options);
    if ('extremes' in what) return shownMotion(what, options);
    if ('bodies' in what) return shownDrawing(what, options);
  }
  throw refusal('result to show', [fault('cannotBeShown', '', { got: written(what) })]);
}

function shownSweep(
  sweep: Sweep | WheelCurves,
  { panels = panelsOf(sweep), limits, title, units = 'metric' }: ShowOptions,
): MimeBundle {
  const shaded = { units, ...(limits === undefined ? {} : { limits }) };
  const rows = () => sweep.rows().map(shownRow(sweep.info, units));
  return {
    'text/plain': 'columns' in sweep ? sweepTable(sweep, undefined, units) : textTable(rows()),
    'text/html': inline(plotCurves(sweep, { panels, ...shaded, ...(title === undefined ? {} : { title }) })),
    'application/vnd.vegalite.v5+json': vegaCurves(sweep, { panels, ...shaded }),
  };
}

/** Installation ratio and shock length, or what the sweep has in their place. */
function panelsOf({ info }: Sweep | WheelCurves): string[] {
  const names = info.slice(1).map(({ name }) => name);
  const usual = ['installationRatio', 'shockLength'].filter((name) => names.includes(name));
  return usual.length > 0 ? usual : names.slice(0, 3);
}

function shownCorner(corner: Corner, { limits, title, units = 'metric' }: ShowOptions): MimeBundle {
  const given = {
    units,
    ...(limits === undefined ? {} : { limits }),
    ...(title === undefined ? {} : { title }),
  };
  return {
    'text/plain': JSON.stringify(corner, null, 2),
    'text/html': inline(drawCorner(corner, [], given)),
  };
}

function shownAxle(
  axle: AxleLinkage,
  { heave = 0, roll = 0, title, units = 'metric' }: ShowOptions,
): MimeBundle {
  const named = title === undefined ? {} : { title };
  return {
    'text/plain': JSON.stringify(axle, null, 2),
    'text/html': inline(drawAxle(axle, { heave, roll, units, ...named })),
  };
}

function shownLimits(
  { bump, droop, misfits, events, later, notes, travelMargins, donor }: Limits,
  { units }: ShowOptions,
): MimeBundle {
  const diagnosticsOf = (found: readonly ({ readonly diagnostic: Diagnostic } | null | undefined)[]) =>
    found.flatMap((one) => one?.diagnostic ?? []);
  const groups: [string, readonly Diagnostic[]][] = [
    ['Does not fit as drawn', misfits],
    ['Travel ends', diagnosticsOf([bump, droop])],
    ['On the way', diagnosticsOf(events)],
    ['Required travel', diagnosticsOf([travelMargins?.bump, travelMargins?.droop])],
    ['Donor damper', donor?.diagnostics ?? []],
    ['Later limits', diagnosticsOf(later)],
    ['Check these inputs', notes],
  ];
  const told = groups
    .filter(([, found]) => found.length > 0)
    .map(([name, found]): [string, string[]] => [name, found.map((one) => sentence(one, units))]);
  if (told.length === 0) told.push(['Travel ends', ['Nothing ends it.']]);
  const list = (sentences: readonly string[]) => sentences.map((one) => `<li>${escaped(one)}</li>`).join('');
  return {
    'text/plain': told.map(([name, all]) => `${name}:\n${all.map((one) => `  ${one}\n`).join('')}`).join(''),
    'text/html': told.map(([name, all]) => `<p><b>${name}</b></p><ul>${list(all)}</ul>`).join(''),
  };
}

function shownDrawing(drawing: Drawing, { poses = [], title, measures }: ShowOptions): MimeBundle {
  // Measures are read along a motion.
  if (measures !== undefined) checkMotion(drawing);
  const picture = drawLinkage(drawing, { poses, ...(title === undefined ? {} : { title }) });
  const bodies = Object.entries(drawing.bodies).map(([name, points]) => `${name}: ${points.join('-')}\n`);
  return {
    'text/plain': `ground: ${drawing.ground.join(', ')}\n${bodies.join('')}`,
    'text/html': inline(picture),
  };
}

/** Poses of a motion, if none are given; places at which its measures are read. */
const POSES = 4;
const SAMPLES = 121;

function shownMotion(
  motion: Motion,
  { measures = [], poses, title = 'Motion', together = false }: ShowOptions,
): MimeBundle {
  checkMotion(motion);
  const { drawn, low, high, path } = motion;
  checkMeasures(path.system, measures);
  // A closed motion ends where it began.
  const parts = high.status === 'closed' ? POSES : POSES - 1;
  const picture = drawLinkage(drawingOf(path.system), {
    poses: poses ?? spread(motion, parts).slice(0, POSES).map(motion.at),
    title,
  });
  const said = `${low.at} (${low.status}) to ${high.at} (${high.status}), drawn at ${drawn}`;
  const shown = { 'text/plain': `driver: ${said}\n`, 'text/html': inline(picture) };
  if (measures.length === 0) return shown;
  const columns = measures.map((measure) => {
    const unit = 'turn' in measure || 'angle' in measure ? ' [rad]' : '';
    return { name: `${measureName(measure)}${unit}`, read: motion.read(measure) };
  });
  const rows = spread(motion, SAMPLES - 1).map((at) => ({
    driver: at,
    ...Object.fromEntries(columns.map(({ name, read }) => [name, read(at).value])),
  }));
  const curves = shownRows(rows, { together });
  return {
    ...curves,
    'text/plain': `${shown['text/plain']}${curves['text/plain']}`,
    'text/html': `${shown['text/html']}${curves['text/html']}`,
  };
}

function checkMeasures(system: System, measures: unknown): void {
  if (!Array.isArray(measures)) {
    refuseMeasures('measures', [fault('notAListOfMeasures', 'measures', { got: written(measures) })]);
    return;
  }
  const named = measures.map((measure, k) => [measure, `measures[${k}]`] as const);
  refuseMeasures(
    'measures',
    named.flatMap(([measure, path]) => measureFaults(measure, path)),
  );
  for (const [measure, path] of named) bindMeasure(system, measure, path);
}

/** Values of the driver from end to end, so many parts apart; one where the motion is a single pose. */
function spread({ low, high }: Motion, parts: number): number[] {
  if (high.at === low.at) return [low.at];
  return Array.from({ length: parts + 1 }, (_, k) =>
    Math.min(high.at, low.at + (k / parts) * (high.at - low.at)),
  );
}

/** As text it is Markdown, without pictures. */
function shownSheet(sheet: OrderSheet): MimeBundle {
  return { 'text/plain': sheetMarkdown(sheet), 'text/html': sheetPart(sheet) };
}

function shownRows(rows: readonly FlatRow[], { together = false, title }: ShowOptions): MimeBundle {
  const names = columnsOf(rows);
  const line = (cells: readonly string[], tag: string) =>
    `<tr>${cells.map((words) => `<${tag}>${escaped(words)}</${tag}>`).join('')}</tr>`;
  const body = rows.map((row) =>
    line(
      names.map((name) => cell(row[name])),
      'td',
    ),
  );
  const table = `<table><thead>${line(names, 'th')}</thead><tbody>${body.join('')}</tbody></table>`;
  const curves = curvesIn(rows);
  if (curves === null) return { 'text/plain': textTable(rows), 'text/html': table };
  const { over, drawn } = curves;
  const panels = together ? [drawn] : drawn.map((name) => [name]);
  const folded = `<details${rows.length > FEW ? '' : ' open'}><summary>${rows.length} rows</summary>${table}</details>`;
  return {
    'text/plain': textTable(rows),
    'text/html': `${inline(plotRows(rows, over, panels, title))}${folded}`,
    'application/vnd.vegalite.v5+json': vegaRows(rows, over, panels),
  };
}

/** An SVG document as an element of a page. */
function inline(svg: string): string {
  return svg.slice(svg.indexOf('<svg'));
}

function escaped(words: string): string {
  return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
