/** A law that does not hold. `message` says which law, what is wrong, by how much and where; the fields say the same as data. */
export class LawViolation extends Error {
  override readonly name = 'LawViolation';
  /** Name of the law, as in `laws`. */
  readonly law: string;
  /** What is wrong: a point, a body, a measure, by the drawing's names. */
  readonly what: string;
  /** Where in the motion. */
  readonly where: Where;
  /** Size of the error, in the unit of what is wrong; null where it has none. */
  readonly error: number | null;
  /** Permitted error; null where there is none. */
  readonly tolerance: number | null;

  constructor(
    law: string,
    what: string,
    where: Where,
    text: string,
    size?: { error: number; tolerance: number },
  ) {
    super(`${law}: ${what} ${text} at ${inWords(where)}`);
    this.law = law;
    this.what = what;
    this.where = where;
    this.error = size?.error ?? null;
    this.tolerance = size?.tolerance ?? null;
  }
}

/** A place in the motion: the value of the driver, and its name; without a driver the arc length. */
export interface Where {
  /** In the drawing's unit, or radians. */
  readonly at: number;
  readonly driver: string | null;
}

function inWords({ at, driver }: Where): string {
  const value = Number(at.toPrecision(6));
  return driver === null ? `arc length ${value}` : `driver value ${value} (${driver})`;
}

/** Throws LawViolation unless `got` is `expected` within the tolerance; null and NaN are never right. */
export function expectWithin(
  law: string,
  what: string,
  where: Where,
  got: number | null,
  expected: number | null,
  tolerance: number,
): void {
  const error = got === null || expected === null ? Number.NaN : Math.abs(got - expected);
  if (error <= tolerance) return;
  const text = `is ${figure(got)} instead of ${figure(expected)}, error ${short(error)} (tolerance ${short(tolerance)})`;
  throw new LawViolation(law, what, where, text, { error, tolerance });
}

function figure(value: number | null): string {
  return value === null ? 'null' : String(Number(value.toPrecision(15)));
}

function short(value: number): string {
  return String(Number(value.toPrecision(2)));
}
