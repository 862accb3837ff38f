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
export function certain<T>(
  data: T,
  told: (at: Place, plusMinus: number) => void = () => {},
  at: Place = [],
): Certain<T> {
  if (typeof data !== 'object' || data === null) return data as Certain<T>;
  if ('value' in data) {
    if ('plusMinus' in data) told(at, data.plusMinus as number);
    return data.value as Certain<T>;
  }
  if (Array.isArray(data)) {
    return data.map((item: unknown, k): unknown => certain(item, told, [...at, k])) as unknown as Certain<T>;
  }
  return Object.fromEntries(
    Object.entries(data).map(([name, inner]) => [name, certain(inner, told, [...at, name])]),
  ) as Certain<T>;
}
