// The file behind a figure: a car or a single corner as JSON, which of its corners is shown, and numbers changed in it.

import { type DocumentCorner, readCar, readCorner, type Units } from 'jounce';
import { LENGTHS } from './in-units.ts';
import type { Point } from './plane.ts';

export type AxleName = 'front' | 'rear';

type Json = Readonly<Record<string, unknown>>;

/** A file that can be shown. */
export interface ShownFile {
  /** Its value; the corner that is shown is all of it, or one of its corners. */
  readonly value: Json;
  /** Of the car; null where the file has none. */
  readonly name: string | null;
  readonly units: Units;
  /** Corners of a car; empty for a file of one corner. */
  readonly axles: readonly AxleName[];
  /** The one that is shown; null for a file of one corner. */
  readonly axle: AxleName | null;
  readonly corner: DocumentCorner;
}

/** Whether a file, as text, is that of a car. */
export const isCar = (text: string): boolean => /"corners"\s*:/.test(text);

/**
 * A file as text, with one of its corners to show: the front one if the car has no such corner.
 *
 * @throws InputError with every issue.
 */
export function readShown(text: string, wanted: AxleName | null): ShownFile {
  if (!isCar(text)) {
    const { name = null, units, corner, ...rest } = readCorner(text);
    return { value: JSON.parse(text), name, units, axles: [], axle: null, corner: { corner, ...rest } };
  }
  const { name = null, units, corners } = readCar(text);
  const axles = (['front', 'rear'] as const).filter((axle) => corners[axle] !== undefined);
  const axle = wanted === 'rear' && corners.rear !== undefined ? 'rear' : 'front';
  const corner = corners[axle] ?? corners.front;
  return { value: JSON.parse(text), name, units, axles, axle, corner };
}

/**
 * The file with a point of its corner elsewhere, mm and y outboard, to as many decimals as the units have.
 *
 * @throws InputError for a corner that cannot be.
 */
export function withPoint(file: ShownFile, path: string, [y, z]: Point): ShownFile {
  const { corner, units } = file;
  const side = 'mirrored' in corner.corner && corner.corner.mirrored ? -1 : 1;
  const [across, up] = [side * y, z].map((mm) => written(mm, units));
  return edited(file, path, (old) => {
    const [oldY, oldZ] = Array.isArray(old) ? old : [];
    return [replacing(oldY, across), replacing(oldZ, up)];
  });
}

/** The file with another length in its corner, mm. @throws InputError for a corner that cannot be. */
export function withLength(file: ShownFile, path: string, mm: number): ShownFile {
  return edited(file, path, (old) => replacing(old, written(mm, file.units)));
}

/** The file as text. */
export const textOf = ({ value }: ShownFile): string => jsonText(value);

/** A value as text, each point in one line. */
export function jsonText(value: unknown): string {
  const text = JSON.stringify(value, null, 2);
  return text.replaceAll(
    /\[\s+([^[\]{}]{1,60}?)\s+\]/g,
    (_, list: string) => `[${list.replaceAll(/\s+/g, ' ')}]`,
  );
}

function written(mm: number, units: Units): number {
  const { decimals, fromMm } = LENGTHS[units];
  return Number(fromMm(mm).toFixed(decimals));
}

/** A number in place of another one, which may have its uncertainty beside it. */
function replacing(old: unknown, value: number): unknown {
  return isObject(old) && 'plusMinus' in old ? { ...old, value } : value;
}

function edited(file: ShownFile, path: string, change: (old: unknown) => unknown): ShownFile {
  const { axle, units } = file;
  const place = path.split('.');
  const value = changed(file.value, axle === null ? place : ['corners', axle, ...place], change) as Json;
  const corners = value.corners as Readonly<Record<AxleName, Json>>;
  const own = axle === null ? value : { units, ...corners[axle] };
  const { name: _, units: __, notes: ___, ...corner } = readCorner(own);
  return { ...file, value, corner };
}

/** A copy of a value that is changed at a place. */
function changed(
  value: unknown,
  [name, ...rest]: readonly string[],
  change: (old: unknown) => unknown,
): unknown {
  if (name === undefined) return change(value);
  const holder = isObject(value) ? value : {};
  return { ...holder, [name]: changed(holder[name], rest, change) };
}

function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
