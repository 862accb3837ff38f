import type { Measure } from '../linkage/index.ts';
import { byJoint, isAngle, linesOf, measured } from './measures.ts';
import { distance, turnsAside } from './plane.ts';
import { type Pose, type Setting, unitOf } from './setting.ts';
import { expectWithin } from './violation.ts';

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
  // A direction is as uncertain as its line is short.
  const lines = linesOf(measure, drawing).map(([a, b]) => distance(places[a], places[b]));
  const unit = lines.length === 0 ? size : (unitOf(measure, size) * size) / Math.min(...lines);
  const turn = byJoint(measure, drawing) ? Math.PI : 2 * Math.PI;
  const off = isAngle(measure) ? turnsAside(value - seen, turn) : value - seen;
  expectWithin(law, what, where, value, value - off, allowed * unit);
}
