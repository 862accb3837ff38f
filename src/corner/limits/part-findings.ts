import { endFindings, jointFindings } from '../../document/limit-findings.ts';
import { type Finding, valueAt } from '../../document/parse.ts';
import type { CornerModel } from '../model.ts';
import { holdersOf } from './joints.ts';

/** What is wrong with limits as to the corner they are for: joints and ends that it has not. */
export function partFindings(limits: unknown, model: CornerModel): Finding[] {
  const { shock, drawing } = model;
  const under = (name: string, findings: Finding[]) =>
    findings.map((finding) => ({ ...finding, at: [name, ...finding.at] }));
  return [
    ...under('ballJoints', jointFindings(valueAt(limits, ['ballJoints']), holdersOf(model))),
    ...under('bearings', endFindings(valueAt(limits, ['bearings']), drawing.ground.includes(shock.inner))),
  ];
}
