/** A law that does not hold: `message` says which, what, by how much and where; the parts are there for programs. */
export class LawViolation extends Error {
  override readonly name = 'LawViolation';
  /** Name of the law, as in `laws`. */
  readonly law: string;
  /** What does not hold: a point, a body, a measure, in the drawing's names. */
  readonly what: string;
  /** Where in the travel. */
  readonly where: Where;
  /** By how much it is off; null where it is no matter of size. */
  readonly error: number | null;
  /** How much was allowed; null where it is no matter of size. */
  readonly tolerance: number | null;

  constructor(
    law: string,
    what: string,
    where: Where,
    text: string,
    size?: { off: number; allowed: number },
  ) {
    super(`${law}: ${what} ${text} at ${inWords(where)}`);
    this.law = law;
    this.what = what;
    this.where = where;
    this.error = size?.off ?? null;
    this.tolerance = size?.allowed ?? null;
  }
}

/** A place in the travel: the driver's value, and what drives, in words; the arc length where nothing does. */
export interface Where {
  /** In the drawing's unit, or radians. */
  readonly at: number;
  readonly driver: string | null;
}

function inWords({ at, driver }: Where): string {
  const value = Number(at.toPrecision(6));
  return driver === null ? `arc length ${value}` : `driver value ${value} (${driver})`;
}

/** Throws LawViolation unless `got` is `wanted` within `allowed`; null and NaN are never right. */
export function expectWithin(
  law: string,
  what: string,
  where: Where,
  got: number | null,
  wanted: number | null,
  allowed: number,
): void {
  const off = got === null || wanted === null ? Number.NaN : Math.abs(got - wanted);
  if (off <= allowed) return;
  const text = `is ${figure(got)} instead of ${figure(wanted)}, off by ${short(off)} (allowed ${short(allowed)})`;
  throw new LawViolation(law, what, where, text, { off, allowed });
}

function figure(value: number | null): string {
  return value === null ? 'null' : String(Number(value.toPrecision(15)));
}

function short(value: number): string {
  return String(Number(value.toPrecision(2)));
}
