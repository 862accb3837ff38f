import type { Place } from './parse.ts';

/** Data with each `{ value, plusMinus }` as its value. */
export type Certain<T> = T extends { readonly value: number; readonly plusMinus: number }
  ? number
  : { [Key in keyof T]: Certain<T[Key]> };

/** Whether data has a `{ value, ... }` in it. */
export function isUncertain(data: unknown): boolean {
  if (typeof data !== 'object' || data === null) return false;
  if (Array.isArray(data)) {
    for (let k = 0; k < data.length; k++) if (isUncertain(data[k])) return true;
    return false;
  }
  if ('value' in data) return true;
  for (const name in data) if (isUncertain((data as Record<string, unknown>)[name])) return true;
  return false;
}

/** The values of data; `told`, if given, hears of each half-width with the place that it belongs to. */
export function certain<T>(data: T, told?: (at: Place, plusMinus: number) => void): Certain<T> {
  return valuesOf(data, told, HERE) as Certain<T>;
}

const HERE: Place = Object.freeze([]);

function valuesOf(
  data: unknown,
  told: ((at: Place, plusMinus: number) => void) | undefined,
  at: Place,
): unknown {
  if (typeof data !== 'object' || data === null) return data;
  // Where nobody hears of places none are made.
  const inside = (key: string | number) => (told === undefined ? HERE : [...at, key]);
  if (Array.isArray(data)) return data.map((item: unknown, k) => valuesOf(item, told, inside(k)));
  if ('value' in data) {
    if ('plusMinus' in data) told?.(at, data.plusMinus as number);
    return data.value;
  }
  const values: Record<string, unknown> = {};
  for (const [name, inner] of Object.entries(data)) values[name] = valuesOf(inner, told, inside(name));
  return values;
}
