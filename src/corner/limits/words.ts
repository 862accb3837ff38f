import type { Point } from '../../linkage/drawing.ts';
import { fromMetric, type Units, unitName } from '../../units.ts';
import { figure } from '../../words.ts';
import type { Side } from './first-crossing.ts';

/** How figures are written in sentences. */
export interface Words {
  /** A length: `63.4 mm`, `2.5 inch`. */
  length(mm: number): string;
  /** A point: `[620, 640.5]`, in the same unit. */
  point(at: Point): string;
  /** A place in the travel: `at 63.4 mm of bump`, `at the drawn ride height`. */
  at(side: Side, travel: number): string;
}

/** Decimals that a tape can tell. */
const DECIMALS: Readonly<Record<Units, number>> = { metric: 1, imperial: 2 };

/** Words for the units of a document. */
export function wordsIn(units: Units): Words {
  const number = (mm: number) => figure(fromMetric(mm, 'length', units), DECIMALS[units]);
  const length = (mm: number) => `${number(mm)} ${unitName('length', units)}`;
  return {
    length,
    point: ([y, z]) => `[${number(y)}, ${number(z)}]`,
    at(side, travel) {
      const amount = length(Math.abs(travel));
      return Number.parseFloat(amount) === 0 ? 'at the drawn ride height' : `at ${amount} of ${side}`;
    },
  };
}

/** An angle: `14 degrees`. */
export function degrees(angle: number): string {
  const number = figure(angle, 1);
  return `${number} ${number === '1' ? 'degree' : 'degrees'}`;
}
