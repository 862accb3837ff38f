import type { Measure } from '../linkage/index.ts';
import { expectWithin } from './broken.ts';
import { distance, lineOf, measured, turnsAside } from './measures.ts';
import type { Pose, Setting } from './setting.ts';

/** Expects a measure to have a value (angles: up to whole turns) in a pose, by the places of its points. */
export function expectMeasured(
  { law, drawing, allowed, size }: Setting,
  what: string,
  measure: Measure,
  { where, places }: Pose,
  value: number,
): void {
  const seen = measured(measure, places, drawing);
  if (seen === null) return;
  const line = lineOf(measure, drawing);
  // A direction is as uncertain as its line is short.
  const unit = line === null ? size : size / distance(places[line[0]], places[line[1]]);
  const off = line === null ? value - seen : turnsAside(value - seen);
  expectWithin(law, what, where, value, value - off, allowed * unit);
}
