// What an axle has between its wheels beside the coilovers: a third spring with its part of load and rate, a roll spring.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { GRAVITY } from '../../units.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import { type Row, row, rowsOf } from './order-rows.ts';

/** A third spring at each wheel, at static ride height: N and N/mm, with their share of the whole, in words. */
function thirdSpringOf({ figure }: Pick<AxleSizing, 'figure'>) {
  const [load, rate] = [figure('thirdSpringLoad').value, figure('thirdSpringWheelRate').value];
  const [mass, wheelRate] = [figure('sprungMass').value, figure('wheelRate').value];
  if (load === null || rate === null || mass === null || wheelRate === null) return null;
  const share = (part: number, whole: number) => `${((100 * part) / whole).toFixed(0)} %`;
  return { load, rate, ofLoad: share(load, mass * GRAVITY), ofRate: share(rate, wheelRate) };
}

/** Rows of the order, below that of the wheel rate. */
export function springsBetweenRows(sized: AxleSizing, paper: OnPaper): Row[] {
  const withShare = ([own, other]: Cells, share: string): Cells => [`${own}, ${share}`, other];
  const third = thirdSpringOf(sized);
  return [
    ...(third === null
      ? []
      : [
          row('of it from the third spring', withShare(paper.cells(third.rate, 'rate'), third.ofRate)),
          row('third spring bears, each wheel', withShare(paper.cells(third.load, 'force'), third.ofLoad)),
        ]),
    ...rowsOf(sized.figure('rollSpringStiffness').value, (stiffness) =>
      row('roll spring', paper.cells(stiffness, 'rollStiffness')),
    ),
  ];
}

/** Sentences of the report, beside the spring that is chosen. */
export function springsBetweenWords(sized: AxleSizing, { both }: OnPaper): string[] {
  const third = thirdSpringOf(sized);
  const stiffness = sized.figure('rollSpringStiffness').value;
  return [
    ...(third === null
      ? []
      : [
          `At each wheel the third spring bears ${both(third.load, 'force')}, ${third.ofLoad} of the sprung load, and gives ${both(third.rate, 'rate')}, ${third.ofRate} of the wheel rate, both wheels alike: the coilover spring is for the rest.`,
        ]),
    ...(stiffness === null
      ? []
      : [`The roll spring adds ${both(stiffness, 'rollStiffness')} in roll and is free at ride height.`]),
  ];
}
