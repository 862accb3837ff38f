import { readFileSync } from 'node:fs';
import { InputError } from 'jounce';
import { expect } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';

/** The text of a file in docs/examples. */
export const exampleText = (name: string) => textAt(`../../docs/examples/${name}`);
/** A car file in inches that stays as it is, whatever becomes of the example. */
export const roadsterText = () => textAt('../fixtures/roadster.json');

const textAt = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');

// biome-ignore lint/suspicious/noExplicitAny: documents are spoilt here, at any place
export type Json = any;

/** A copy of the example car, changed and then frozen. */
export function carWith(change: (car: Json) => void): Json {
  const car = JSON.parse(roadsterText());
  change(car);
  return deepFreeze(car);
}

/** A copy of the example car with its front corner changed. */
export const frontWith = (change: (front: Json) => void) => carWith((car) => change(car.corners.front));

/** The error that something throws; anything but an InputError fails. */
export function errorOf(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    expect.fail(`not an InputError but ${(error as Error).stack}`);
  }
  expect.fail('nothing was thrown');
}

export const lines = (...text: string[]) => text.join('\n');

/** All places of a value: path as messages have it, keys, and what stands there. */
export function placesOf(value: Json, keys: (string | number)[] = []): [(string | number)[], Json][] {
  const own: [(string | number)[], Json][] = keys.length === 0 ? [] : [[keys, value]];
  if (typeof value !== 'object' || value === null) return own;
  const inner = Object.entries(value).map(([key, at]) =>
    placesOf(at, [...keys, Array.isArray(value) ? Number(key) : key]),
  );
  return [...own, ...inner.flat()];
}

export const pathOf = (keys: (string | number)[]) =>
  keys
    .map((key) => (typeof key === 'number' ? `[${key}]` : `.${key}`))
    .join('')
    .slice(1);

/** What holds the last key of a place. */
export const holderOf = (value: Json, keys: (string | number)[]) =>
  keys.slice(0, -1).reduce((at, key) => at[key], value);
