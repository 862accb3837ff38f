// Values as the papers print them: rounded figures, and what the file gives with its own digits, each in both units.

import {
  finerNumberIn,
  fromMetric,
  givenText,
  numberIn,
  type Quantity,
  type Rounding,
  type Units,
  unitName,
} from '../../units.ts';
import { printed } from '../text.ts';

/** Decimals of an inch at least, in what the file gives. */
const INCH_DECIMALS = 2;
/** Of a length that the file gives, in the other units: below so much, one decimal more than figures have. */
const SMALL: Readonly<Record<Units, number>> = { metric: 10, imperial: 1 };

/** A value in the units of the file, and in the other ones; the second is empty where both are the same. */
export type Cells = readonly [own: string, other: string];

/** Writes values in the units of a file and the other ones. */
export interface OnPaper {
  readonly units: readonly [own: Units, other: Units];
  readonly rounding: Rounding;
  /** Rounded for reading, as `13.31`. */
  number(value: number, quantity: Quantity | 'ratio', units: Units): string;
  /** The same with its unit, a cell for each system. */
  cells(value: number, quantity: Quantity | 'ratio'): Cells;
  /** The same in one text, as `13.31 in (338.0 mm)`. */
  both(value: number, quantity: Quantity | 'ratio'): string;
  /** The same of what is printed as a sum or difference of rounded values, which depend on the units; null where there is none. */
  cellsOf(value: (units: Units) => number | null, quantity: Quantity): Cells | null;
  /** Both cells in one text, or a dash where there are none. */
  inOne(cells: Cells | null): string;
  /** A value in one text, or a dash where there is none. */
  orDash(value: number | null, quantity: Quantity | 'ratio'): string;
  /** A value of the file with the digits that it has there; in the other units rounded as figures are. */
  given(value: number, quantity: Quantity): string;
  givenCells(value: number, quantity: Quantity): Cells;
  unit(quantity: Quantity, units: Units): string;
}

export function onPaper(first: Units, rounding: Rounding = numberIn): OnPaper {
  const units = [first, first === 'metric' ? 'imperial' : 'metric'] as const;
  const number: OnPaper['number'] = (value, quantity, of) => printed(rounding(value, quantity, of));
  const withUnit = (digits: string, quantity: Quantity | 'ratio', of: Units) =>
    quantity === 'ratio' ? digits : `${digits} ${unitName(quantity, of)}`;
  const cells: OnPaper['cells'] = (value, quantity) => {
    const [own, other] = units.map((of) => withUnit(number(value, quantity, of), quantity, of));
    return [own, other === own ? '' : other];
  };
  const givenCells: OnPaper['givenCells'] = (value, quantity) => {
    const own = ownDigits(value, quantity, units[0]);
    const isSame = unitName(quantity, units[0]) === unitName(quantity, units[1]);
    return [
      withUnit(printed(own), quantity, units[0]),
      isSame ? '' : withUnit(printed(otherDigits(value, quantity, units[1], rounding)), quantity, units[1]),
    ];
  };
  const both: OnPaper['both'] = (value, quantity) => inOne(cells(value, quantity));
  const cellsOf: OnPaper['cellsOf'] = (value, quantity) => {
    const [own, other] = units.map((of, k) => {
      const known = value(of);
      return known === null ? null : cells(known, quantity)[k];
    });
    return own === null || other === null ? null : [own, other];
  };
  return {
    units,
    rounding,
    number,
    cells,
    both,
    cellsOf,
    inOne: (cells) => (cells === null ? '–' : inOne(cells)),
    orDash: (value, quantity) => (value === null ? '–' : both(value, quantity)),
    givenCells,
    given: (value, quantity) => inOne(givenCells(value, quantity)),
    unit: unitName,
  };
}

function inOne([own, other]: Cells): string {
  return other === '' ? own : `${own} (${other})`;
}

/** Digits of a given value at most. */
const GIVEN_DIGITS = 6;

/** A value as the file has it; inches with two decimals at least. */
function ownDigits(value: number, quantity: Quantity, units: Units): string {
  const [written] = givenText(value, quantity, units).split(' ');
  const digits = String(Number(Number(written).toPrecision(GIVEN_DIGITS)));
  if (quantity !== 'length' || units !== 'imperial' || digits.includes('e')) return digits;
  const decimals = digits.split('.')[1]?.length ?? 0;
  return decimals >= INCH_DECIMALS ? digits : Number(digits).toFixed(INCH_DECIMALS);
}

function otherDigits(value: number, quantity: Quantity, units: Units, rounding: Rounding): string {
  const isSmall = quantity === 'length' && Math.abs(fromMetric(value, quantity, units)) < SMALL[units];
  const [rounded, finer] = [rounding(value, quantity, units), finerNumberIn(value, quantity, units, 1)];
  return isSmall && finer.length > rounded.length ? finer : rounded;
}
