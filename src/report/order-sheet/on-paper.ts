// Values as the order prints them: rounded figures, and what the file gives with its own digits, each in both units.

import { givenInBoth, numberIn, type Quantity, type Units, unitName } from '../../units.ts';
import { printed } from '../text.ts';

/** Names of units on paper, where they differ from those of the library. */
const PAPER_NAMES: Readonly<Record<string, string>> = {
  inch: 'in',
  'inch/s': 'in/s',
  degrees: 'deg',
  'N s/m': 'N·s/m',
  'lbf s/in': 'lbf·s/in',
  'lbf/in^2': 'psi',
  'N m/deg': 'N·m/deg',
  'lbf ft/deg': 'lbf·ft/deg',
};

/** Decimals of an inch at least, in what the file gives. */
const INCH_DECIMALS = 2;

/** Writes values for an order in one file's units and the other ones. */
export interface OnPaper {
  readonly units: readonly [own: Units, other: Units];
  /** Rounded for reading, as `13.31`. */
  number(value: number, quantity: Quantity, units: Units): string;
  /** The same with its unit, a cell for each system. */
  cells(value: number, quantity: Quantity): [own: string, other: string];
  /** The same in one text, as `13.31 in (338.0 mm)`. */
  both(value: number, quantity: Quantity): string;
  /** A value of the file, with all its digits. */
  given(value: number, quantity: Quantity): string;
  givenCells(value: number, quantity: Quantity): [own: string, other: string];
  unit(quantity: Quantity, units: Units): string;
}

export function onPaper(first: Units): OnPaper {
  const units = [first, first === 'metric' ? 'imperial' : 'metric'] as const;
  const unit = (quantity: Quantity, of: Units) => {
    const name = unitName(quantity, of);
    return PAPER_NAMES[name] ?? name;
  };
  const number = (value: number, quantity: Quantity, of: Units) => printed(numberIn(value, quantity, of));
  const cells = (value: number, quantity: Quantity): [string, string] => [
    `${number(value, quantity, units[0])} ${unit(quantity, units[0])}`,
    `${number(value, quantity, units[1])} ${unit(quantity, units[1])}`,
  ];
  const givenCells = (value: number, quantity: Quantity): [string, string] => {
    const [own, other] = givenInBoth(value, quantity, first).split(' (');
    const digits = padded(
      own.split(' ')[0],
      first === 'imperial' && quantity === 'length' ? INCH_DECIMALS : 0,
    );
    return [
      printed(`${digits} ${unit(quantity, units[0])}`),
      other === undefined ? '' : printed(`${other.split(' ')[0]} ${unit(quantity, units[1])}`),
    ];
  };
  return {
    units,
    number,
    unit,
    cells,
    givenCells,
    both: (value, quantity) => inOne(cells(value, quantity)),
    given: (value, quantity) => inOne(givenCells(value, quantity)),
  };
}

function inOne([own, other]: readonly [string, string]): string {
  return other === '' || other === own ? own : `${own} (${other})`;
}

/** A number with so many decimals at least. */
function padded(digits: string, decimals: number): string {
  const behind = digits.split('.')[1]?.length ?? 0;
  return behind >= decimals || digits.includes('e') ? digits : Number(digits).toFixed(decimals);
}
