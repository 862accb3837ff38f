// The library counts in mm, kg, N, N/mm, N·s/m, degrees, km/h and bar. The factors from inch and pound are exact:
//
//   inch = 25.4 mm     pound = 0.45359237 kg     standard gravity g = 9.80665 m/s^2
//   lbf = pound g      lbf/in = lbf / inch       lbf s/in = lbf s / inch
//
// and a mile is 63360 inch, by the international agreement of 1959 and the 3rd General Conference on Weights and Measures, 1901 (NIST SP 811,
// app. B; from memory, and as in SciPy's constants). A value is converted by a ratio of whole numbers that doubles hold
// exactly, so that halves, quarters and sixteenths of an inch come out as the nearest number there is.

/** Degrees in a radian. */
export const DEGREES = 180 / Math.PI;
/** N·mm/rad in a N·m/deg. */
export const NEWTON_METRE_PER_DEGREE = 1000 * DEGREES;
/** mm in an inch. */
export const INCH = 25.4;
/** kg in a pound. */
export const POUND = 0.45359237;
/** Standard gravity, m/s^2. */
export const GRAVITY = 9.80665;
/** N in a pound-force. */
export const POUND_FORCE = 4.4482216152605;
/** N/mm in a pound-force per inch. */
export const POUND_FORCE_PER_INCH = POUND_FORCE / INCH;

/** What the numbers of a document are written in. */
export type Units = 'metric' | 'imperial';

/** What a number stands for. */
export type Quantity =
  | 'length'
  | 'mass'
  | 'force'
  | 'rate'
  | 'damping'
  | 'angle'
  | 'speed'
  | 'shaftSpeed'
  | 'pressure'
  | 'moment'
  | 'rollStiffness'
  | 'rollGradient'
  | 'frequency';

/** Names of the units, and metric = imperial * times / by. */
interface Measured {
  readonly metric: string;
  readonly imperial: string;
  readonly times: number;
  readonly by: number;
}

const QUANTITIES: Readonly<Record<Quantity, Measured>> = {
  length: { metric: 'mm', imperial: 'in', times: 127, by: 5 },
  mass: { metric: 'kg', imperial: 'lb', times: 45_359_237, by: 100_000_000 },
  force: { metric: 'N', imperial: 'lbf', times: 8_896_443_230_521, by: 2_000_000_000_000 },
  rate: { metric: 'N/mm', imperial: 'lbf/in', times: 8_896_443_230_521, by: 50_800_000_000_000 },
  damping: { metric: 'N·s/m', imperial: 'lbf·s/in', times: 8_896_443_230_521, by: 50_800_000_000 },
  angle: { metric: 'deg', imperial: 'deg', times: 1, by: 1 },
  speed: { metric: 'km/h', imperial: 'mph', times: 25_146, by: 15_625 },
  shaftSpeed: { metric: 'mm/s', imperial: 'in/s', times: 127, by: 5 },
  pressure: { metric: 'bar', imperial: 'psi', times: 8_896_443_230_521, by: 129_032_000_000_000 },
  moment: {
    metric: 'N·m',
    imperial: 'lbf·ft',
    times: 3_389_544_870_828_501,
    by: 2_500_000_000_000_000,
  },
  rollStiffness: {
    metric: 'N·m/deg',
    imperial: 'lbf·ft/deg',
    times: 3_389_544_870_828_501,
    by: 2_500_000_000_000_000,
  },
  rollGradient: { metric: 'deg/g', imperial: 'deg/g', times: 1, by: 1 },
  frequency: { metric: 'Hz', imperial: 'Hz', times: 1, by: 1 },
};

/** The unit's name: `mm`, `in`, `lbf/in`. */
export function unitName(quantity: Quantity, units: Units): string {
  return QUANTITIES[quantity][units];
}

/** What a unit of the library (`mm`, `N/mm`) measures; null for one that is the same in both systems, or none. */
export function quantityIn(unit: string): Quantity | null {
  const found = Object.entries(QUANTITIES).find(
    ([, { metric, imperial }]) => metric === unit && metric !== imperial,
  );
  return found === undefined ? null : (found[0] as Quantity);
}

/** A value written in `units` as the library counts it: 17.5 in as 444.5 mm. */
export function toMetric(value: number, quantity: Quantity, units: Units): number {
  const { times, by } = QUANTITIES[quantity];
  return units === 'metric' ? value : (value * times) / by;
}

/** A value of the library as it is written in `units`: 444.5 mm as 17.5 in. */
export function fromMetric(value: number, quantity: Quantity, units: Units): number {
  const { times, by } = QUANTITIES[quantity];
  return units === 'metric' ? value : (value * by) / times;
}

/** Decimals that a figure deserves, by its unit. */
const DECIMALS: Readonly<Record<string, number>> = {
  mm: 1,
  in: 2,
  kg: 1,
  lb: 1,
  N: 0,
  lbf: 0,
  'N/mm': 1,
  'lbf/in': 0,
  'N·s/m': 0,
  'lbf·s/in': 1,
  deg: 1,
  'deg/g': 1,
  'km/h': 0,
  mph: 0,
  'mm/s': 0,
  'in/s': 1,
  bar: 1,
  psi: 0,
  N·m: 0,
  lbf·ft: 0,
  'N·m/deg': 0,
  'lbf·ft/deg': 0,
  Hz: 2,
};
const RATIO_DECIMALS = 3;
/** Share by which a number is moved away from 0 before it is rounded: a tie stays one, whichever unit it was written in. */
const TIE = 1e-12;

/** Decimals that are added at most to tell two values apart. */
const MAX_MORE_DECIMALS = 4;

/**
 * A value of the library as a number in some units, rounded for reading; never a minus before zero. With `apartFrom` it has as many more
 * decimals as tell it from that value, unless they differ by rounding only; `least` more in any case.
 */
export function numberIn(
  value: number,
  quantity: Quantity | 'ratio',
  units: Units,
  apartFrom = value,
  least = 0,
): string {
  for (let more = least; value !== apartFrom && more <= MAX_MORE_DECIMALS; more++) {
    const text = finerNumberIn(value, quantity, units, more);
    if (text !== finerNumberIn(apartFrom, quantity, units, more)) return text;
  }
  return finerNumberIn(value, quantity, units, least);
}

/** Rounds a value for reading. */
export type Rounding = (value: number, quantity: Quantity | 'ratio', units: Units) => string;

/** The same with so many more decimals. */
export function finerNumberIn(
  value: number,
  quantity: Quantity | 'ratio',
  units: Units,
  more: number,
): string {
  const decimals = quantity === 'ratio' ? RATIO_DECIMALS : (DECIMALS[unitName(quantity, units)] ?? 2);
  const shown = quantity === 'ratio' ? value : fromMetric(value, quantity, units);
  const text = (shown * (1 + TIE)).toFixed(decimals + more);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** Names of all units. */
export const UNIT_NAMES: readonly string[] = [
  ...new Set(Object.values(QUANTITIES).flatMap(({ metric, imperial }) => [metric, imperial])),
];

/** The same with its unit: `338.0 mm`. */
export function textIn(
  value: number,
  quantity: Quantity | 'ratio',
  units: Units,
  apartFrom = value,
  least = 0,
): string {
  const number = numberIn(value, quantity, units, apartFrom, least);
  return quantity === 'ratio' ? number : `${number} ${unitName(quantity, units)}`;
}

/** Digits of a value that the conversion of units keeps. */
const KEPT_DIGITS = 12;

/** A value as a document in `units` gives it, with all its digits: `0.0625 in`. */
export function givenText(value: number, quantity: Quantity, units: Units): string {
  return `${Number(fromMetric(value, quantity, units).toPrecision(KEPT_DIGITS))} ${unitName(quantity, units)}`;
}
