import * as z from 'zod';
import { meantName } from '../spelling.ts';
import { having } from './choice.ts';
import { fileFields, jsonSchema } from './file-schema.ts';
import type { SurveyInput } from './inputs.ts';
import { type Finding, found, type Place, valueAt } from './parse.ts';
import { pairOf, point, quantity, takes } from './quantity.ts';
import { farAway, type ReadDocument, readDocument } from './read-document.ts';

const name = z.string();
const pair = (description: string) => takes(pairOf(name, name).describe(description), 'twoPoints');

const foreAft = quantity(
  'length',
  'Fore-aft place, forward of the plane across the wheel centre; 0 if left out',
);
const length = (positive: string) => quantity('length', `What was read: ${positive}`);
const angle = (positive: string) =>
  quantity('angle', `What was read, from the front: ${positive}`, z.number().gte(-180).lte(180));

/** Half-width of the 95 % interval of a reading; nothing is read exactly. */
const uncertainty = (kind: 'length' | 'angle', of: string, without: string) =>
  quantity(
    kind,
    `How far ${of} may be off, to either side, 95 times in 100; ${without} if left out`,
    z.number().gt(0),
  ).optional();
const byTape = uncertainty('length', 'this reading', 'plusMinus.tape');
const byRuler = uncertainty('length', 'this reading', 'plusMinus.ruler');
const byAngleFinder = uncertainty('angle', 'this reading', 'plusMinus.angleFinder');

const surveyPoint = z
  .strictObject({
    estimate: point('First estimate of where it lies, from a rough sketch').optional(),
    known: point('Where it lies, known: what other points are measured from').optional(),
    pivotAxis: pair(
      'The point lies on the axis through these two, where that pierces the plane at its x.',
    ).optional(),
    x: foreAft.optional(),
  })
  .refine(...having(['estimate', 'known', 'pivotAxis'], 'one', 'pointNotPlaced'))
  .describe('A point by how its place is known.');

/** A list of readings of one kind. */
function readings<Shape extends z.ZodRawShape>(shape: Shape, one: string, description: string) {
  const reading = z.strictObject(shape).describe(one);
  return takes(z.array(reading).describe(description), 'readings').optional();
}

const line = pair('Two points of the line.');

/** A survey of points; shape as `survey` documents. */
export const surveySchema = z
  .strictObject({
    ...fileFields,
    points: z.record(name, surveyPoint).describe('The points by name.'),
    plusMinus: z
      .strictObject({
        tape: uncertainty('length', 'a distance by tape', '1.5 mm'),
        ruler: uncertainty('length', 'a height, a lateral distance or a point on a line', '1.5 mm'),
        angleFinder: uncertainty('angle', 'an angle', '0.3 degrees'),
      })
      .describe('How far readings may be off that do not say so themselves.')
      .optional(),
    distances: readings(
      {
        between: pair('The two points.'),
        value: quantity('length', 'What was read', z.number().gt(0)),
        plusMinus: byTape,
      },
      'A distance of two points in space, by tape.',
      'Distances of two points in space, by tape: fore-aft included.',
    ),
    heights: readings(
      {
        of: name.describe('The point.'),
        above: name.describe('Above which point; the ground if left out.').optional(),
        value: length('up positive'),
        plusMinus: byRuler,
      },
      'A height above the ground, or above another point.',
      'Heights above the ground, or above another point.',
    ),
    laterals: readings(
      {
        of: name.describe('The point.'),
        from: name.describe('From which point; the centreline if left out.').optional(),
        value: length('outboard positive'),
        plusMinus: byRuler,
      },
      'A lateral distance from the centreline, or from another point.',
      'Lateral distances from the centreline, or from another point: outboard positive.',
    ),
    inclinations: readings(
      { line, value: angle('top inboard positive'), plusMinus: byAngleFinder },
      'The inclination of a line from vertical.',
      'Inclinations of lines from vertical, seen from the front: top inboard positive.',
    ),
    slopes: readings(
      { line, value: angle('outboard end up positive'), plusMinus: byAngleFinder },
      'The slope of a line from horizontal.',
      'Slopes of lines from horizontal, seen from the front: outboard end up positive.',
    ),
    collinear: readings(
      {
        point: name.describe('The point.'),
        line,
        plusMinus: byRuler,
      },
      'A point on the line through two others.',
      'Points that lie on the line through two others, seen from the front.',
    ),
  })
  .describe('A survey: readings of the points of a suspension corner on stands.');

/** The kinds of readings, as a document lists them, with where each names points. */
const NAMES: Readonly<Record<string, readonly (readonly PropertyKey[])[]>> = {
  distances: [
    ['between', 0],
    ['between', 1],
  ],
  heights: [['of'], ['above']],
  laterals: [['of'], ['from']],
  inclinations: [
    ['line', 0],
    ['line', 1],
  ],
  slopes: [
    ['line', 0],
    ['line', 1],
  ],
  collinear: [['point'], ['line', 0], ['line', 1]],
};

/**
 * A survey from a JSON text, or the value of one, in mm and degrees.
 *
 * @throws InputError with every issue.
 */
export function readSurvey(json: unknown): ReadDocument<SurveyInput> {
  return readDocument(() => surveySchema, json, 'survey', surveyFindings);
}

/** JSON Schema (draft 7) of a survey file: name it as `"$schema"` in the file, and an editor explains each field. */
export function surveyJsonSchema(): Record<string, unknown> {
  return jsonSchema(surveySchema);
}

function surveyFindings(value: unknown): Finding[] {
  const points = valueAt(value, ['points']);
  const names = isRecord(points) ? Object.keys(points) : [];
  const find = pointFinder(names);
  return [
    ...farAway(value, []),
    ...twins(names),
    ...names.flatMap((name) => axisFindings(points, name, find)),
    ...Object.entries(NAMES).flatMap(([kind, places]) => readingFindings(value, kind, places, find)),
  ];
}

/** Names that a reader would take for one. */
function twins(names: readonly string[]): Finding[] {
  const first = new Map<string, string>();
  return names.flatMap((name): Finding[] => {
    const plain = name.toLowerCase().replace(/[\s_-]/g, '');
    const other = first.get(plain);
    if (other === undefined) {
      first.set(plain, name);
      return [];
    }
    return [found(['points', name], 'nameAlike', { other })];
  });
}

/** What is wrong with a name at a place, if it is none of a point. */
type PointFinder = (at: Place, name: string) => Finding | undefined;

/** Unknown points for which a likeness is looked for among all names: so many make a list that nobody reads through. */
const MOST_LIKENESSES = 100;

function pointFinder(names: readonly string[]): PointFinder {
  const known = new Set(names);
  let unknown = 0;
  return (at, name) => {
    if (known.has(name)) return undefined;
    const meant = unknown++ < MOST_LIKENESSES ? meantName(name, names) : undefined;
    return found(at, 'unknownPoint', { got: name, allowed: names, meant: meant ?? null });
  };
}

/** An axis goes through two points of its own that lie one behind the other. */
function axisFindings(points: unknown, of: string, find: PointFinder): Finding[] {
  const at: Place = ['points', of, 'pivotAxis'];
  const ends = valueAt(points, [of, 'pivotAxis']);
  if (!Array.isArray(ends) || !ends.every((end) => typeof end === 'string')) return [];
  const unknown = ends.flatMap((end: string, k): Finding[] => {
    const unknown = find([...at, k], end);
    if (unknown !== undefined) return [unknown];
    if (valueAt(points, [end, 'pivotAxis']) === undefined) return [];
    return [found([...at, k], 'axisThroughAxisPoint', { got: end, fields: ['estimate', 'known'] })];
  });
  if (unknown.length > 0 || ends.length !== 2) return unknown;
  const [first, second] = ends.map((end) => valueAt(points, [end, 'x']) ?? 0);
  if (first !== second) return [];
  return [found(at, 'axisNotForeAndAft', { got: String(first), ends })];
}

function readingFindings(
  value: unknown,
  kind: string,
  places: readonly Place[],
  find: PointFinder,
): Finding[] {
  const list = valueAt(value, [kind]);
  if (!Array.isArray(list)) return [];
  return list.flatMap((reading: unknown, k): Finding[] => {
    const named = places.flatMap((place) => {
      const name = valueAt(reading, place);
      return typeof name === 'string' ? [{ at: [kind, k, ...place], name }] : [];
    });
    return named.flatMap(({ at, name }, i): Finding[] => {
      const unknown = find(at, name);
      if (unknown !== undefined) return [unknown];
      const isTwice = named.findIndex((other) => other.name === name) < i;
      return isTwice ? [found(at, 'pointTwiceInReading', { got: name })] : [];
    });
  });
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
