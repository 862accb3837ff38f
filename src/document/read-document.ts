import type * as z from 'zod';
import { show } from '../diagnostic.ts';
import { refuse } from '../errors/file.ts';
import type { Units } from '../units.ts';
import { axleFindings } from './axle-findings.ts';
import { type CornerKind, onPathOf } from './corner-kind.ts';
import { refuseNewer } from './format-version.ts';
import { geometryFindings } from './geometry.ts';
import { readJson } from './json-text.ts';
import { endFindings, limitFindings } from './limit-findings.ts';
import { type Check, examine, type Finding, found, inOrder, type Place, placeAt, valueAt } from './parse.ts';
import { inMetric } from './schema-walk.ts';

/** A document that has passed all checks. */
export interface ReadDocument<T> {
  /** As it was written. */
  readonly written: T;
  readonly units: Units;
  /** The same in mm, kg and so on. */
  readonly metric: T;
}

/**
 * Data from a JSON text, or from what such a text stands for, of the shape of the schema that `schemaOf` chooses for it.
 *
 * `check` adds what the shape alone can't tell; it is given the value as it is, whatever its shape.
 *
 * @throws InputError with every issue.
 */
export function readDocument<Schema extends z.ZodType>(
  schemaOf: (value: unknown) => Schema,
  json: unknown,
  what: string,
  check: Check,
): ReadDocument<z.output<Schema>> {
  const { value, twice } = typeof json === 'string' ? readJson(json, what) : { value: json, twice: [] };
  refuseNewer(value, what);
  const schema = schemaOf(value);
  const units = valueAt(value, ['units']) === 'imperial' ? 'imperial' : 'metric';
  const { data, findings } = examine(schema, value, units, check);
  refuse(what, inOrder([...twice, ...findings], value), units);
  const written = data as z.output<Schema>;
  return { written, units, metric: inMetric(schema, written, units) };
}

/** What is wrong with the corner of a kind that stands at a place, as far as its parts have their shape. */
export function cornerFindings(kind: CornerKind, value: unknown, at: Place, units: Units): Finding[] {
  const corner = valueAt(value, at);
  const findings = [
    ...farAway(corner, []),
    ...geometryFindings(kind, corner, units),
    ...under(
      ['limits'],
      limitFindings(valueAt(corner, ['limits']), units, valueAt(corner, ['sizing']) !== undefined),
    ),
    ...bearingFindings(corner),
    ...holderFindings(kind, corner),
    ...axleFindings(kind, corner, units),
  ];
  return under(at, findings);
}

/** Findings of what stands at a place, by their places in the whole. */
function under(at: Place, findings: readonly Finding[]): Finding[] {
  return findings.map((finding) => ({ ...finding, at: [...at, ...finding.at] }));
}

/** Bearings that name an end that the coilover has not. */
function bearingFindings(corner: unknown): Finding[] {
  const bearings = ['limits', 'bearings'];
  const isFixed = valueAt(corner, ['coilover', 'otherEnd']) === undefined;
  return under(bearings, endFindings(valueAt(corner, bearings), isFixed));
}

/** Ball joints on a part that the corner chooses, held by another that it might have chosen. */
function holderFindings({ points, ballJoints }: CornerKind, corner: unknown): Finding[] {
  return Object.entries(points).flatMap(([path, point]): Finding[] => {
    const onPath = onPathOf(path);
    if (onPath === undefined || ballJoints?.holders[point] === undefined) return [];
    const [part] = placeAt(path);
    const on = valueAt(corner, placeAt(onPath));
    const housing = ['limits', 'ballJoints', point, 'housing'];
    const held = valueAt(corner, housing);
    const mayHold = ballJoints.holders[point].filter((holder) => holder !== part);
    if (held === undefined || held === part || held === on || !mayHold.some((holder) => holder === on))
      return [];
    return [found(housing, 'holdsNotThisJoint', { got: show(held), allowed: [String(part), String(on)] })];
  });
}

/** No car is as large, in any unit: a slip of the keyboard, and numbers that leave no digits for a mm. */
const FARTHEST = 1e6;

/** No document is deeper. */
const DEEPEST = 6;

/** Numbers that can be no measure of a car. */
export function farAway(value: unknown, at: Place): Finding[] {
  const findings: Finding[] = [];
  if (hasFarAway(value, at.length)) collectFarAway(value, at, findings);
  return findings;
}

function isFarAway(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && Math.abs(value) > FARTHEST;
}

function hasFarAway(value: unknown, depth: number): boolean {
  if (typeof value !== 'object' || value === null) return isFarAway(value);
  if (depth > DEEPEST) return false;
  for (const name in value) if (hasFarAway((value as Record<string, unknown>)[name], depth + 1)) return true;
  return false;
}

function collectFarAway(value: unknown, at: Place, findings: Finding[]): void {
  if (isFarAway(value)) {
    findings.push(found(at, 'noMeasureOfACar', { got: String(value), min: -FARTHEST, max: FARTHEST }));
  }
  if (at.length > DEEPEST || typeof value !== 'object' || value === null) return;
  const isList = Array.isArray(value);
  for (const [key, inner] of Object.entries(value)) {
    collectFarAway(inner, [...at, isList ? Number(key) : key], findings);
  }
}
