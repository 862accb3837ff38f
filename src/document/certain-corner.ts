import type * as z from 'zod';
import { refuse } from '../errors/document.ts';
import type { CornerKind } from './corner-kind.ts';
import { geometryFindings } from './geometry.ts';
import { inOrder, type Place, parse } from './parse.ts';
import { type Certain, certain, isUncertain } from './uncertain.ts';

/** How far a number at a place of an input may be off, to either side. */
export interface HalfWidth {
  readonly at: Place;
  readonly plusMinus: number;
}

const EXACT: readonly HalfWidth[] = Object.freeze([]);

/**
 * Hardpoints of a corner as checked numbers (the input itself where all are certain), and how far they may be off.
 *
 * @throws InputError with every issue.
 */
export function certainCorner<Kind extends CornerKind>(
  kind: Kind,
  input: unknown,
): { given: Certain<z.output<Kind['schema']>>; halfWidths: readonly HalfWidth[] } {
  const { schema, what } = kind;
  const written = parse<Kind['schema']>(schema, input, what);
  const read = isUncertain(written)
    ? numbersOf(written)
    : { given: written as Certain<z.output<Kind['schema']>>, halfWidths: EXACT };
  refuse(what, inOrder(geometryFindings(kind, read.given, 'metric'), input), 'metric');
  return read;
}

function numbersOf<T>(written: T): { given: Certain<T>; halfWidths: readonly HalfWidth[] } {
  const halfWidths: HalfWidth[] = [];
  const given = certain(written, (at, plusMinus) => halfWidths.push({ at, plusMinus }));
  return { given, halfWidths };
}
