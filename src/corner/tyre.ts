import { fault, show } from '../diagnostic.ts';
import { type Finding, found, type Place, valueAt } from '../document/parse.ts';
import { refusal } from '../errors/corner.ts';
import { INCH } from '../units.ts';

/** A tyre as its marking gives it, unloaded: mm. */
export interface Tyre {
  /** Radius over the tread, half of the overall diameter D = rim diameter + 2 width (height-to-width ratio). */
  readonly overallRadius: number;
  /** Nominal section width. */
  readonly width: number;
}

/** `205/55R16`, with letters, load and speed marks after it or not: width mm, ratio %, rim inches. */
const MARKING = /^\s*P?(\d{3})\s*\/\s*(\d{2,3})\s*(?:[ZVHS]?R|B|D|-)?\s*(\d{2}(?:\.5)?)\b/i;

/**
 * Overall radius and width of a tyre from its size marking, by the exact rule with the rim at 25.4 mm per inch. Tables of the
 * standards round it to whole mm; the tyre you have may be several mm off either.
 *
 * @throws InputError for a marking that can't be read.
 */
export function tyreFromSize(size: string): Tyre {
  const match = typeof size === 'string' ? MARKING.exec(size) : null;
  if (match === null) throw refusal('tyre size', [fault('notATyreSize', '', { got: show(size) })]);
  const [width, percent, rim] = match.slice(1).map(Number);
  return { overallRadius: 0.5 * (INCH * rim + (2 * width * percent) / 100), width };
}

/** Diameter of the rim in a size marking, mm; null for a tyre by its radius and width. */
export function rimDiameterOf(tyre: Tyre | string): number | null {
  const [, , , rim] = (typeof tyre === 'string' ? MARKING.exec(tyre) : null) ?? [];
  return rim === undefined ? null : INCH * Number(rim);
}

/** A tyre as its numbers. */
export function tyreOf(tyre: Tyre | string): Tyre {
  return typeof tyre === 'string' ? tyreFromSize(tyre) : tyre;
}

/** What is wrong with a size marking that stands at a place of an input. */
export function tyreFindings(input: unknown, at: Place): Finding[] {
  const size = valueAt(input, at);
  return typeof size !== 'string' || MARKING.test(size)
    ? []
    : [found(at, 'notATyreSize', { got: show(size) })];
}
