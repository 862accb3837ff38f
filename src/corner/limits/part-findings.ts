// What limits name of a corner must be there: joints, the bodies they join, the ends of the coilover.

import { type Finding, valueAt } from '../../document/parse.ts';
import { meantName } from '../../document/spelling.ts';
import { show } from '../../errors.ts';
import type { CornerModel } from '../model.ts';
import { bodiesAt, type Joined, jointsOf, sidesOf } from './joints.ts';

/** What is wrong with limits as to the corner they are for: joints and ends that it has not. */
export function partFindings(limits: unknown, corner: Joined & Pick<CornerModel, 'shock'>): Finding[] {
  const { shock, drawing } = corner;
  const under = (name: string, findings: Finding[]) =>
    findings.map((finding) => ({ ...finding, at: [name, ...finding.at] }));
  return [
    ...under('ballJoints', jointFindings(valueAt(limits, ['ballJoints']), corner)),
    ...under('ends', endFindings(valueAt(limits, ['ends']), drawing.ground.includes(shock.inner))),
  ];
}

/** What is wrong with ball joints as to the corner they are in. */
function jointFindings(ballJoints: unknown, corner: Joined): Finding[] {
  if (typeof ballJoints !== 'object' || ballJoints === null) return [];
  const joints = jointsOf(corner);
  return Object.entries(ballJoints).flatMap(([name, joint]): Finding[] => {
    if (joint === undefined) return [];
    if (!joints.includes(name)) {
      const meant = meantName(name, joints);
      const unknown = { at: [name], problem: 'unknown joint', allowed: joints.join(', ') };
      return [meant === undefined ? unknown : { ...unknown, advice: `did you mean ${meant}?` }];
    }
    const housing = valueAt(joint, ['housing']);
    if (typeof housing !== 'string' || sidesOf(corner, name, housing) !== null) return [];
    const bodies = bodiesAt(corner.drawing, name);
    if (bodies.length > 2) {
      return [
        {
          at: [name],
          problem: 'more than two bodies in one joint',
          got: bodies.join(', '),
          advice: 'draw a joint of its own for each two of them, or leave this one out',
        },
      ];
    }
    const meant = meantName(housing, bodies);
    const unknown = {
      at: [name, 'housing'],
      problem: 'no body of this joint',
      got: show(housing),
      allowed: bodies.join(', '),
    };
    return [meant === undefined ? unknown : { ...unknown, advice: `did you mean "${meant}"?` }];
  });
}

/** An end named that the coilover has not: its inner one is either fixed on the chassis or moves. */
function endFindings(ends: unknown, innerIsFixed: boolean): Finding[] {
  const [other, right] = innerIsFixed ? ['otherEnd', 'chassis'] : ['chassis', 'otherEnd'];
  if (valueAt(ends, [other]) === undefined) return [];
  return [
    {
      at: [other],
      problem: innerIsFixed ? 'an end that does not move here' : 'an end that moves here',
      advice: `name it ${right}`,
    },
  ];
}
